#include "core/review/exception.h"

#include <algorithm>
#include <array>

using namespace Qt::StringLiterals;

namespace coldarc::review {
namespace {

struct Row {
    Exception::Kind kind;
    const char* word;
    int weight;
};
using K = Exception::Kind;
constexpr std::array<Row, kExceptionKinds> kRows{{
    {K::SignatureBad, "signature-bad", 100},
    {K::GateSkipped, "gate-skipped", 98},
    {K::IncidentMet, "incident-met", 95},
    {K::SafeWardWithGateWaiting, "gate-waiting", 90},
    {K::LockRemoved, "lock-removed", 88},
    {K::WorkUnsigned, "work-unsigned", 80},
    {K::ClockWentBack, "clock-went-back", 75},
    {K::SignedBefore, "signed-before", 75},
    {K::NotAsLeft, "not-as-left", 72},
    {K::WaitCutByIncident, "wait-cut", 70},
    {K::LabelsDisagreed, "labels-disagreed", 65},
    {K::SerialPassed, "serial-passed", 62},
    {K::ThresholdAtOrAboveWarranty, "threshold-passed", 60},
    {K::LampDoubted, "lamp-doubted", 58},
    {K::OnOneCode, "on-one-code", 57},
    {K::OnOneTyping, "on-one-typing", 55},
    {K::CounterBelowRecord, "counter-below-record", 52},
    {K::LightBelowTolerance, "light-below-tolerance", 50},
    {K::LitOfUnknownHours, "lit-of-unknown-hours", 50},
    {K::NeighbourLeftDark, "neighbour-left-dark", 49},
    {K::MadeSafe, "made-safe", 48},
    {K::WrongAnswerAtAStop, "wrong-answer-at-a-stop", 45},
    {K::StepOwed, "step-owed", 40},
    {K::EntryWithdrawn, "entry-withdrawn", 35},
    {K::ReadingCorrected, "reading-corrected", 30},
    {K::OtherClockBehind, "other-clock-behind", 26},
    {K::GapNobodyWitnessed, "gap-nobody-witnessed", 25},
    {K::TookLong, "took-long", 20},
    {K::TookLittle, "took-little", 20},
    {K::LateSignOff, "late-sign-off", 15},
    {K::Addendum, "addendum", 10},
}};

const Row& rowOf(Exception::Kind kind)
{
    const Row& row = kRows[static_cast<std::size_t>(kind)];
    Q_ASSERT_X(row.kind == kind, "rowOf", "one row for each kind, in their order");
    return row;
}

} // namespace

QString wordOf(Exception::Kind kind)
{
    return QString::fromLatin1(rowOf(kind).word);
}

std::optional<Exception::Kind> kindFromWord(const QString& word)
{
    const auto row =
        std::ranges::find_if(kRows, [&](const Row& one) { return word == QLatin1StringView(one.word); });
    return row == kRows.end() ? std::nullopt : std::optional(row->kind);
}

int weightOf(Exception::Kind kind)
{
    return rowOf(kind).weight;
}

} // namespace coldarc::review
