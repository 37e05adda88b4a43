#include "ui/visit/words_exception.h"

#include <QCoreApplication>

#include <array>

namespace coldarc::ui {

QString wordsOf(visit::Exception::Kind kind)
{
    using K = visit::Exception::Kind;
    struct Row {
        K kind;
        const char* words;
    };
    static constexpr std::array<Row, kExceptions> kRows{{
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
        {K::GapNobodyWitnessed, "The laptop slept or was started again meanwhile"},
        {K::WrongAnswerAtAStop, "An answer at a stop did not fit"},
        {K::LampDoubted, "The records said something against the lamp, and it went in all the same"},
        {K::OnOneTyping, "Box or paper was typed, and nothing else vouches for it"},
        {K::Addendum, "A remark was added after closing"},
    }};
    const Row& row = kRows[static_cast<std::size_t>(kind)];
    Q_ASSERT_X(row.kind == kind, "wordsOf", "one row for each exception, in their order");
    return QCoreApplication::translate("exception", row.words);
}

} // namespace coldarc::ui
