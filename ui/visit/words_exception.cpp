#include "ui/visit/words_exception.h"

#include "core/visit/entry_words.h"
#include "ui/parts/quantities.h"
#include "ui/photometry/words_sheet.h"
#include "ui/visit/sign_off_presenter.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/words_demand.h"
#include "ui/visit/words_doubt.h"
#include "ui/visit/words_entry.h"
#include "ui/visit/words_incident.h"
#include "ui/visit/words_label.h"

#include <QCoreApplication>
#include <QLocale>
#include <QMap>

#include <array>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using review::Exception;
using Kind = Exception::Kind;

QString words(const char* text)
{
    return QCoreApplication::translate("review", text);
}

constexpr std::array<const char*, review::kExceptionKinds> kTitles{
    QT_TRANSLATE_NOOP("review", "A signature does not verify"),
    QT_TRANSLATE_NOOP("review", "Done before it was safe to"),
    QT_TRANSLATE_NOOP("review", "Something went wrong"),
    QT_TRANSLATE_NOOP("review", "Done towards safety with a gate waiting"),
    QT_TRANSLATE_NOOP("review", "The lock of somebody absent was taken off"),
    QT_TRANSLATE_NOOP("review", "Work went on unsigned"),
    QT_TRANSLATE_NOOP("review", "The clock of the laptop was set back"),
    QT_TRANSLATE_NOOP("review", "Signed before it was written"),
    QT_TRANSLATE_NOOP("review", "Not as it had been left, when nobody had watched"),
    QT_TRANSLATE_NOOP("review", "A wait began anew, without the fan"),
    QT_TRANSLATE_NOOP("review", "The labels did not agree at first"),
    QT_TRANSLATE_NOOP("review", "A serial was let pass with a reason"),
    QT_TRANSLATE_NOOP("review", "The alert stands at or above the warranty hours"),
    QT_TRANSLATE_NOOP("review", "The records spoke against the lamp"),
    QT_TRANSLATE_NOOP("review", "One code was read for two sources of the lamp"),
    QT_TRANSLATE_NOOP("review", "Typed once, and nothing else vouches for it"),
    QT_TRANSLATE_NOOP("review", "The counter shows less than the hours on record"),
    QT_TRANSLATE_NOOP("review", "Light below the limits"),
    QT_TRANSLATE_NOOP("review", "A lamp of unknown hours was lit again"),
    QT_TRANSLATE_NOOP("review", "The lamp beside it was left out"),
    QT_TRANSLATE_NOOP("review", "The visit was made safe"),
    QT_TRANSLATE_NOOP("review", "An answer at a stop did not fit"),
    QT_TRANSLATE_NOOP("review", "A step is owed"),
    QT_TRANSLATE_NOOP("review", "An entry was withdrawn"),
    QT_TRANSLATE_NOOP("review", "A reading was corrected"),
    QT_TRANSLATE_NOOP("review", "It went on on another computer, whose clock is behind"),
    QT_TRANSLATE_NOOP("review", "A gap that nobody watched"),
    QT_TRANSLATE_NOOP("review", "Longer than foreseen"),
    QT_TRANSLATE_NOOP("review", "Shorter than the work takes"),
    QT_TRANSLATE_NOOP("review", "Signed late"),
    QT_TRANSLATE_NOOP("review", "A remark was added after closing"),
};

class Teller {
public:
    Teller(const Exception& one, const visit::VisitState& state, const QList<visit::Entry>& entries)
        : m_one(one)
        , m_state(state)
        , m_entries(entries)
    {
    }

    [[nodiscard]] QString more() const
    {
        switch (m_one.kind) {
        case Kind::SignatureBad:
            return words("%1, %2").arg(who(), meaning());
        case Kind::IncidentMet:
            return incident();
        case Kind::GateSkipped:
        case Kind::SafeWardWithGateWaiting:
            return words("%1; waiting: %2").arg(entryWords(m_one.entry), gates());
        case Kind::LockRemoved:
            return who();
        case Kind::WorkUnsigned:
            return unsignedWork();
        case Kind::SignedBefore:
            return words("%1, %2: the signature is dated %3 before its entry was written")
                .arg(who(), meaning(), minutes(m_one.figure));
        case Kind::ClockWentBack:
        case Kind::OtherClockBehind:
            return words("by %1").arg(seconds());
        case Kind::LabelsDisagreed:
            return words("read of it until then: %1").arg(readings());
        case Kind::SerialPassed:
            return passed();
        case Kind::ThresholdAtOrAboveWarranty:
            return m_one.against
                       ? words("set at %1, warranty %2").arg(hours(m_one.figure), hours(m_one.against))
                       : words("set at %1").arg(hours(m_one.figure));
        case Kind::LampDoubted:
            return doubts();
        case Kind::CounterBelowRecord:
            return words("read %1, on record %2").arg(hours(m_one.figure), hours(m_one.against));
        case Kind::LightBelowTolerance:
            return light();
        case Kind::MadeSafe:
            return leftWords(m_one.words.value(0));
        case Kind::NeighbourLeftDark:
            return words("past its hours, of hours that nobody knows, or its tries spent");
        case Kind::WrongAnswerAtAStop:
            return words("done again: %1").arg(steps());
        case Kind::StepOwed:
            return steps();
        case Kind::EntryWithdrawn:
            return words("entry %1: %2").arg(m_one.other).arg(entryWords(m_one.other));
        case Kind::ReadingCorrected:
            return correction();
        case Kind::GapNobodyWitnessed:
            return words("%1 by the clock on the wall").arg(seconds());
        case Kind::TookLong:
        case Kind::TookLittle:
            return words("%1, where %2 are foreseen").arg(minutes(m_one.figure), minutes(m_one.against));
        case Kind::LateSignOff:
            return m_one.words.isEmpty()
                       ? words("%1, %2 after the last work").arg(who(), minutes(m_one.figure))
                       : words("%1, %2: the key signed %3 after the entry was written")
                             .arg(who(), meaning(), minutes(m_one.figure));
        case Kind::Addendum:
            return body<visit::Addendum>() ? body<visit::Addendum>()->text : QString();
        case Kind::LitOfUnknownHours:
        case Kind::OnOneCode:
        case Kind::OnOneTyping:
        case Kind::NotAsLeft:
        case Kind::WaitCutByIncident:
            return entryWords(m_one.entry);
        }
        Q_UNREACHABLE();
    }

    [[nodiscard]] QString place() const
    {
        const visit::SwapState* swap = m_state.swap(m_one.swap);
        return swap && m_state.swaps.size() > 1 ? placeOf(m_state, swap->lamphouse) : QString();
    }

private:
    [[nodiscard]] QString who() const { return nameOfPerson(m_state, m_one.person); }
    [[nodiscard]] QString meaning() const { return meaningWords(m_one.words.value(0)); }
    [[nodiscard]] QString unsignedWork() const
    {
        if (m_one.other < 0)
            return words("%1, %2; no later signature covers it").arg(who(), meaning());
        if (m_one.words.size() < 2)
            return words("%1, %2; covered by their signature over entry %3")
                .arg(who(), meaning())
                .arg(m_one.other);
        const PersonId other(m_one.words.value(1));
        return words("%1, %2; only %3 signed behind it, entry %4")
            .arg(who(), meaning(),
                 other.isEmpty() ? words("somebody not named") : nameOfPerson(m_state, other))
            .arg(m_one.other);
    }
    [[nodiscard]] QString entryWords(qint64 entry) const
    {
        const bool isThere = entry >= 0 && entry < m_entries.size();
        return isThere ? wordsOf(m_entries, entry, m_state).what : QString();
    }
    [[nodiscard]] QString incident() const
    {
        QStringList names;
        for (const QString& word : m_one.words) {
            const auto kind = visit::incidentFromWord(word);
            names.append(kind ? nameOf(*kind) : word);
        }
        return names.join(u", "_s);
    }
    [[nodiscard]] QString gates() const
    {
        QStringList names;
        for (const QString& word : m_one.words)
            names.append(word == u"clear" ? words("all shut and free of locks and people")
                                          : gateByWord(word));
        return names.join(u", "_s);
    }
    template<class Body>
    [[nodiscard]] const Body* body() const
    {
        const bool isThere = m_one.entry >= 0 && m_one.entry < m_entries.size();
        return isThere ? std::get_if<Body>(&m_entries[m_one.entry].body) : nullptr;
    }
    /// What box, paper, marking and entry of the lamp showed, each as it was read last.
    [[nodiscard]] QString readings() const
    {
        const auto* disagreed = body<visit::LampRead>();
        QMap<label::Source, QString> read;
        for (qint64 entry = 0; disagreed && entry <= m_one.entry; ++entry) {
            const auto* one = std::get_if<visit::LampRead>(&m_entries[entry].body);
            if (one && one->lamp == disagreed->lamp)
                read.insert(one->reading.source, entryWords(entry));
        }
        return QStringList(read.values()).join(u"; "_s);
    }
    [[nodiscard]] QString passed() const
    {
        const auto* passed = body<visit::SerialPassed>();
        return passed ? words("on the %1, because: %2")
                            .arg(nameOf(passed->pass.source).toLower(), passed->pass.reason)
                      : QString();
    }
    [[nodiscard]] QString doubts() const
    {
        QStringList names;
        for (const QString& word : m_one.words)
            names.append(shortWordsOfDoubt(word));
        return names.join(u", "_s);
    }
    [[nodiscard]] QString steps() const
    {
        QStringList titles;
        for (const QString& id : m_one.words) {
            const visit::SwapState* swap = m_state.swap(m_one.swap);
            const procedure::Step* step =
                swap && swap->procedure ? swap->procedure->step(StepId(id)) : nullptr;
            titles.append(step ? step->title : id);
        }
        return titles.join(u"; "_s);
    }
    [[nodiscard]] QString light() const
    {
        const auto quantity = photometry::quantityFromWord(m_one.words.value(0));
        const auto point = photometry::placeFromWord(m_one.words.value(1));
        if (!quantity || !m_one.figure)
            return m_one.words.join(u", "_s);
        const QString what =
            point ? words("%1, %2").arg(nameOf(*quantity), nameOf(*point)) : nameOf(*quantity);
        const QString read = valueText(*quantity, *m_one.figure);
        return m_one.against
                   ? words("%1: %2, at least %3").arg(what, read, valueText(*quantity, *m_one.against))
                   : words("%1: %2").arg(what, read);
    }
    [[nodiscard]] QString correction() const
    {
        const QLocale locale;
        const auto figure = [&](const std::optional<double>& value) {
            return value ? locale.toString(*value, 'g', 4) : words("not known");
        };
        const auto point = photometry::placeFromWord(m_one.words.value(0));
        return point ? words("%1: %2 became %3 cd/m\u00b2, entry %4")
                           .arg(nameOf(*point), figure(m_one.against), figure(m_one.figure))
                           .arg(m_one.other)
                     : words("%1 became %2, as the meter showed it, entry %3")
                           .arg(figure(m_one.against), figure(m_one.figure))
                           .arg(m_one.other);
    }
    [[nodiscard]] static QString hours(const std::optional<double>& hours)
    {
        return hours ? hoursText(*hours, QLocale()) : words("not known");
    }
    [[nodiscard]] static QString minutes(const std::optional<double>& minutes)
    {
        return spanText(std::chrono::minutes(static_cast<qint64>(minutes.value_or(0))));
    }
    [[nodiscard]] QString seconds() const
    {
        return clockText(std::chrono::seconds(static_cast<qint64>(m_one.figure.value_or(0))));
    }

    const Exception& m_one;
    const visit::VisitState& m_state;
    const QList<visit::Entry>& m_entries;
};

} // namespace

QString titleOf(Kind kind)
{
    return words(kTitles[static_cast<std::size_t>(kind)]);
}

ExceptionWords wordsOf(const Exception& exception, const visit::VisitState& state,
                       const QList<visit::Entry>& entries)
{
    const Teller teller(exception, state, entries);
    QStringList more{teller.place(), teller.more()};
    more.removeAll(QString());
    return {titleOf(exception.kind), more.join(u": "_s)};
}

QString wordsOf(visit::Exception::Kind kind)
{
    using K = visit::Exception::Kind;
    struct Row {
        K kind;
        const char* words;
    };
    static constexpr std::array<Row, kExceptions> kRows{{
        {K::GateSkipped, "Done though a gate waited that lets nobody do this"},
        {K::SafeWardWithGateWaiting, "Something that leads to safety was done with a gate waiting"},
        {K::SerialPassed, "A serial that does not agree was let pass with a reason"},
        {K::ThresholdAtOrAboveWarranty, "The alert stands at or above the warranty hours"},
        {K::LabelsDisagreed, "Box, paper, entry and marking did not agree at first"},
        {K::StepOwed, "A step is owed to a later visit"},
        {K::EntryWithdrawn, "An entry was withdrawn"},
        {K::WaitCutByIncident, "A wait began anew, without the fan"},
        {K::IncidentMet, "Something went wrong"},
        {K::LockRemoved, "The lock of somebody absent was taken off"},
        {K::ClockWentBack, "The wall clock of the laptop was set back"},
        {K::OtherClockBehind, "It went on on another computer, whose clock is behind"},
        {K::GapNobodyWitnessed, "The laptop slept or was started again meanwhile"},
        {K::NotAsLeft, "After a while that nobody watched it was not as it had been left"},
        {K::LitOfUnknownHours, "A lamp that was found fitted was lit again, and nobody knows its hours"},
        {K::NeighbourLeftDark, "The lamp beside it was left out"},
        {K::WrongAnswerAtAStop, "An answer at a stop did not fit"},
        {K::LampDoubted, "The records said something against the lamp, and it went in all the same"},
        {K::OnOneCode, "One code stands for two sources of the lamp"},
        {K::OnOneTyping, "Box or paper was typed, and nothing else vouches for it"},
        {K::Addendum, "A remark was added after closing"},
    }};
    const Row& row = kRows[static_cast<std::size_t>(kind)];
    Q_ASSERT_X(row.kind == kind, "wordsOf", "one row for each exception, in their order");
    return QCoreApplication::translate("exception", row.words);
}

} // namespace coldarc::ui
