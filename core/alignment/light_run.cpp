#include "core/alignment/light_run.h"

#include <algorithm>
#include <cmath>

namespace coldarc::alignment {

namespace {

/// 1 fL = (1/pi) cd/ft2 and 1 ft = 0.3048 m exactly; NIST SP 811, appendix B.8, gives 3.426259 (read in a
/// copy).
constexpr double kCdPerM2PerFootlambert = 3.4262590996353905;
/// A scan walks down the flanks of the peak, so even the right unit may be off by this factor.
constexpr double kUnitMargin = 1.3;
constexpr double kJump = 2;

bool isALight(double light)
{
    return std::isfinite(light) && light > 0;
}

bool isNear(double ratio, double factor)
{
    return ratio > factor / kUnitMargin && ratio < factor * kUnitMargin;
}

std::optional<EntryRefusal> refusalOfEntry(const LightRun& run, const Reading& reading)
{
    const auto axes = static_cast<int>(run.setup.axes.size());
    if (reading.axis < 0 || reading.axis >= axes || static_cast<int>(reading.knobs.size()) != axes)
        return EntryRefusal::NoSuchAxis;
    if (!isALight(reading.light))
        return EntryRefusal::NotALight;
    return std::nullopt;
}

std::optional<EntryRefusal> refusalOfEntry(const LightRun& run, const SettleWaitOver& over)
{
    if (over.knobs.size() != run.setup.axes.size())
        return EntryRefusal::NoSuchAxis;
    const bool waited = std::ranges::any_of(
        run.entries, [](const RunEntry& entry) { return std::holds_alternative<SettleWaitOver>(entry); });
    return waited ? std::optional(EntryRefusal::WaitedAlready) : std::nullopt;
}

std::optional<EntryRefusal> refusalOfEntry(const LightRun& run, const Correction& correction)
{
    if (correction.entry >= run.entries.size() ||
        !std::holds_alternative<Reading>(run.entries[correction.entry]))
        return EntryRefusal::NotAReading;
    if (!isALight(correction.light))
        return EntryRefusal::NotALight;
    return std::nullopt;
}

} // namespace

ReadingDoubt doubtOf(double typed, std::optional<double> before)
{
    if (!isALight(typed))
        return ReadingDoubt::NotALight;
    if (!before)
        return ReadingDoubt::None;
    const double ratio = typed / *before;
    if (isNear(ratio, 1 / kCdPerM2PerFootlambert))
        return ReadingDoubt::PerhapsFootlamberts;
    if (isNear(ratio, kCdPerM2PerFootlambert))
        return ReadingDoubt::PerhapsCdPerM2;
    return ratio > kJump || ratio < 1 / kJump ? ReadingDoubt::Jump : ReadingDoubt::None;
}

std::optional<EntryRefusal> refusalOf(const LightRun& run, const RunEntry& entry)
{
    return std::visit([&](const auto& one) { return refusalOfEntry(run, one); }, entry);
}

} // namespace coldarc::alignment
