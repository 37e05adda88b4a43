#include "ui/visit/words_doubt.h"

#include "ui/parts/quantities.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/words_label.h"

#include <QCoreApplication>

#include <array>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using Cause = label::Doubt::Cause;

QString words(const char* text)
{
    return QCoreApplication::translate("label", text);
}

QString seatOf(const label::Doubt& doubt, const visit::VisitState& state)
{
    const machine::Index here = state.ground->lamphouse(doubt.lamphouse);
    return here == machine::kNone ? words("another lamphouse") : placeOf(state, here);
}

QString codeOf(const label::Doubt& doubt, const visit::VisitState& state)
{
    const catalogue::LampType* type = state.ground->catalogue.lampType(doubt.type);
    return type ? type->code : doubt.type.text();
}

} // namespace

QString wordsOf(const label::Doubt& doubt, const QString& entry, const visit::VisitState& state)
{
    switch (doubt.cause) {
    case Cause::TypeNotTaken:
        return words("This projector does not take that type: bring another lamp.");
    case Cause::SerialOfThisVisit:
        return words(
                   "%1 was read for the lamp of %2 in this visit: one lamp goes into one seat. Read the box "
                   "that lies here. If it was read there for the wrong lamp, withdraw that match on the page "
                   "of what was done, and read that lamp's own box.")
            .arg(doubt.serial, seatOf(doubt, state));
    case Cause::PastItsLife:
        return words(
                   "%1 has burnt %2 on record: a lamp of its type is replaced by then, and one past its life "
                   "may burst. Take another one, unless the record is wrong.")
            .arg(entry, hoursText(doubt.hours, QLocale()));
    case Cause::HoursDiffer:
        return words(
                   "%1 has burnt %2 on record, not the hours of the lamp that was to go in. Those are keyed "
                   "in if it goes in.")
            .arg(entry, hoursText(doubt.hours, QLocale()));
    case Cause::SerialFitted:
        return words(
                   "%1 is on record as fitted: %2. Read the serial on the lamp once more, and look into that "
                   "lamphouse's record.")
            .arg(entry, seatOf(doubt, state));
    case Cause::SerialBoxed:
        return words(
                   "%1 is on record as taken out: it has burnt before. Put it aside and take an unused lamp, "
                   "unless the record is wrong.")
            .arg(entry);
    case Cause::SerialReturned:
        return words(
                   "%1 is on record as returned to the maker or dealer. Read the serial once more; if it is "
                   "this lamp, ask where it has been since.")
            .arg(entry);
    case Cause::SerialRecycled:
        return words("%1 is on record as recycled: that lamp is no more. Read the serial once more.")
            .arg(entry);
    case Cause::SerialOfAnother:
        return words("%1 is on record as a lamp of type %2. Read type and serial on the lamp once more.")
            .arg(entry, codeOf(doubt, state));
    case Cause::BookedElsewhere:
        return words("Another visit counts on the lamp %1. Take another one, or tell the office who has it "
                     "now.")
            .arg(entry);
    case Cause::SerialNear:
        return words("No lamp at hand has the serial %1. Did you mean %2? There %3.")
            .arg(entry, doubt.near->serial, wordsApart(doubt.near->difference, entry, doubt.near->serial));
    case Cause::AdaptorMissing:
        return words(
            "This type sits on the adaptor, and nobody said that it is here. Find it before you go on.");
    case Cause::PastUseBy:
        return words(
            "The date on the label is past: the lamp was meant to be fitted before it. Take a newer one, "
            "or ask who answers for the warranty.");
    case Cause::MadeLater:
        return words(
            "The label says that the lamp was made after today. Look at the label, and at this laptop's "
            "date.");
    case Cause::PictureUsedBefore:
        return words(
            "This picture stood for the lamp of another visit: it proves nothing here. Take a new one.");
    case Cause::RecordsUnread:
        return words("The records of lamps and pictures could not be read, so they say nothing. Look the "
                     "serial "
                     "%1 up yourself, or ask the office.")
            .arg(entry);
    }
    Q_UNREACHABLE();
}

QStringList answersToDoubts()
{
    return {words("Looked again: it stands so on the lamp"), words("The records are wrong or behind"),
            words("There is no other lamp here")};
}

QString shortWordsOfDoubt(const QString& kept)
{
    const QString word = label::wordOfKept(kept);
    static constexpr std::array<const char*, 16> kWords{"projector does not take the type",
                                                        "past the hours of its type",
                                                        "read for the lamp of another swap too",
                                                        "on record as fitted",
                                                        "on record as taken out before",
                                                        "on record as returned",
                                                        "on record as recycled",
                                                        "on record under another type",
                                                        "on the list of another visit",
                                                        "other hours than the one to be fitted",
                                                        "no such serial at hand, but one near it",
                                                        "adaptor not at hand",
                                                        "past the date on its label",
                                                        "made after today by its label",
                                                        "picture of another visit",
                                                        "records could not be read"};
    for (std::size_t cause = 0; cause < kWords.size(); ++cause) {
        if (label::wordOf(static_cast<Cause>(cause)) == word)
            return words(kWords.at(cause));
    }
    return word;
}

} // namespace coldarc::ui
