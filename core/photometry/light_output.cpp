#include "core/photometry/light_output.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace coldarc::photometry {
namespace {

constexpr double kMostLumens = 1e6;
constexpr double kMostGain = 20;

bool isLength(double metres)
{
    return metres >= ScreenSize::kLeastMetres && metres <= ScreenSize::kMostMetres;
}

bool arePossible(double gain, double transmission)
{
    return gain > 0 && gain <= kMostGain && transmission > 0 && transmission <= 1;
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

std::optional<double> lumensFor(Luminance luminance, const ScreenSize& screen, double gain,
                                double transmission)
{
    if (!arePossible(gain, transmission))
        return std::nullopt;
    return std::numbers::pi * screen.areaM2() * luminance.cdPerM2() / (gain * transmission);
}

std::array<Position, 9> lightOutputPositions()
{
    std::array<Position, 9> positions;
    for (std::size_t i = 0; i < positions.size(); ++i) {
        const auto column = static_cast<double>(i % 3);
        const auto row = static_cast<double>(i / 3);
        positions.at(i) = {(2 * column + 1) / 6, (2 * row + 1) / 6};
    }
    return positions;
}

std::optional<double> lumensFromNine(std::span<const double, 9> lux, const ScreenSize& screen)
{
    if (!std::ranges::all_of(lux, [](double one) { return std::isfinite(one) && one >= 0; }))
        return std::nullopt;
    return screen.areaM2() * std::accumulate(lux.begin(), lux.end(), 0.0) / 9;
}

double spotDiameterM(double distanceM, double acceptanceDegrees)
{
    return 2 * distanceM * std::tan(acceptanceDegrees * std::numbers::pi / 360);
}

} // namespace coldarc::photometry
