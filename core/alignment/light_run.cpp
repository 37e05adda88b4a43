#include "core/alignment/light_run.h"

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

} // namespace

ReadingDoubt doubtOf(double typed, std::optional<double> before)
{
    if (!isALight(typed))
        return ReadingDoubt::NotALight;
    if (typed > kMostLight)
        return ReadingDoubt::TooMuch;
    if (!before)
        return ReadingDoubt::None;
    const double ratio = typed / *before;
    if (isNear(ratio, 1 / kCdPerM2PerFootlambert))
        return ReadingDoubt::PerhapsFootlamberts;
    if (isNear(ratio, kCdPerM2PerFootlambert))
        return ReadingDoubt::PerhapsCdPerM2;
    return ratio > kJump || ratio < 1 / kJump ? ReadingDoubt::Jump : ReadingDoubt::None;
}

} // namespace coldarc::alignment
