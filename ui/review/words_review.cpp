#include "ui/review/words_review.h"

#include "core/review/replay.h"
#include "ui/parts/quantities.h"
#include "ui/people/people_words.h"
#include "ui/site/site_words.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/words_entry.h"

#include <QCoreApplication>

#include <array>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

QString words(const char* text)
{
    return QCoreApplication::translate("review", text);
}

} // namespace

QString nameOf(review::Span::Row row)
{
    static constexpr std::array<const char*, review::kSpanRows> kNames{
        QT_TRANSLATE_NOOP("review", "lamp lit"),    QT_TRANSLATE_NOOP("review", "cooling"),
        QT_TRANSLATE_NOOP("review", "Cold"),        QT_TRANSLATE_NOOP("review", "locks on"),
        QT_TRANSLATE_NOOP("review", "charge down"), QT_TRANSLATE_NOOP("review", "Dead"),
        QT_TRANSLATE_NOOP("review", "Geared"),      QT_TRANSLATE_NOOP("review", "housing open"),
        QT_TRANSLATE_NOOP("review", "guard open"),  QT_TRANSLATE_NOOP("review", "Matched"),
        QT_TRANSLATE_NOOP("review", "settling"),    QT_TRANSLATE_NOOP("review", "Settled"),
    };
    return words(kNames[static_cast<std::size_t>(row)]);
}

QStringList linesAfterClosing(const QList<visit::Entry>& entries, const visit::VisitState& state,
                              const QTimeZone& zone)
{
    QStringList lines;
    for (qint64 number = review::endOfWork(entries) + 1; number < entries.size(); ++number) {
        const visit::Entry& entry = entries[number];
        lines.append(words("Not on the time line: %1, %2, %3, entry %4")
                         .arg(momentText(entry.at.wall, zone), wordsOf(entries, number, state).what,
                              nameOfPerson(state, entry.by))
                         .arg(number));
    }
    return lines;
}

QString sentenceOf(const review::ReviewRefusal& refusal, const QTimeZone& zone)
{
    using Why = review::ReviewRefusal::Kind;
    switch (refusal.kind) {
    case Why::NotOver:
        return words("The visit is not over yet.");
    case Why::NotUnderstood:
        return words("It has entries of a later program, so nobody can tell here who took part. Bring this "
                     "program up to date.");
    case Why::TookPart:
        return words("You took part in this visit, see entry %1: somebody else reviews it.")
            .arg(refusal.entry);
    case Why::NameTookPart:
        return words(
                   "Somebody of your name took part in this visit, see entry %1: if that was you on another "
                   "laptop, somebody else reviews it; if not, a supervisor of another name does.")
            .arg(refusal.entry);
    case Why::NoAuthority:
        return words("You may not supervise here today: %1.").arg(wordFor(refusal.verdict));
    case Why::OtherVisit:
    case Why::OtherPerson:
        return words("The review is of another visit or by somebody else.");
    case Why::NotTheLastEntry:
        return words("Something was added to the visit since it was read. Look at it anew.");
    case Why::ClockBehind:
        return words(
                   "Another review here, or the visit itself, is dated later than this one would be. If this "
                   "computer's clock is right, it can be signed after %1. If it is not, set it and press "
                   "again.")
            .arg(wallTextWithOffset(refusal.after, zone));
    case Why::TextMissing:
        return words("Waits for a few words: what is to be put right");
    case Why::RemarkEmpty:
        return words("A remark is empty.");
    case Why::RemarkOnNoEntry:
        return words("A remark is on an entry that is not there.");
    case Why::TooLong:
        return words("There is too much text for one review.");
    }
    Q_UNREACHABLE();
}

QString dayText(WallTime moment, const QTimeZone& zone)
{
    constexpr qsizetype kDay = 10; // "2026-11-23"
    return momentText(moment, zone).left(kDay);
}

} // namespace coldarc::ui
