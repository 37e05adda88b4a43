#include "core/photometry/light_output.h"

#include <cmath>
#include <numbers>

namespace coldarc::photometry {
namespace {

bool isLength(double metres)
{
    return metres >= ScreenSize::kLeastMetres && metres <= ScreenSize::kMostMetres;
}

bool arePossible(double gain, double transmission)
{
    return gain > 0 && gain <= kMostGain && transmission > 0 && transmission <= kMostTransmission;
}

} // namespace

std::optional<ScreenSize> ScreenSize::fromMetres(double width, double height)
{
    if (!isLength(width) || !isLength(height))
        return std::nullopt;
    return ScreenSize(width, height);
}

std::optional<ScreenSize> ScreenSize::fromWidthAndAspect(double width, double aspect)
{
    return fromMetres(width, width / aspect);
}

double illuminanceLux(double lumens, const ScreenSize& screen)
{
    return lumens / screen.areaM2();
}

std::optional<Luminance> expectedLuminance(double lumens, const ScreenSize& screen, double gain,
                                           double transmission)
{
    if (!(lumens > 0 && lumens <= kMostLumens) || !arePossible(gain, transmission))
        return std::nullopt;
    return Luminance::from(gain * transmission * illuminanceLux(lumens, screen) / std::numbers::pi,
                           LuminanceUnit::CdPerM2);
}

double spotDiameterM(double distanceM, double acceptanceDegrees)
{
    return 2 * distanceM * std::tan(acceptanceDegrees * std::numbers::pi / 360);
}

} // namespace coldarc::photometry
