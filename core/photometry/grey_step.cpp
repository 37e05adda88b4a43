#include "core/photometry/grey_step.h"

#include <algorithm>
#include <cmath>

namespace coldarc::photometry {
namespace {

constexpr int kMostCode = 4095;

} // namespace

const std::array<GreyStep, 10>& greySteps()
{
    static constexpr std::array<GreyStep, 10> kSteps{{{396, 0.121, 0.05},
                                                      {792, 0.731, 0.05},
                                                      {1188, 2.098, 0.03},
                                                      {1584, 4.432, 0.03},
                                                      {1980, 7.917, 0.03},
                                                      {2376, 12.718, 0.03},
                                                      {2772, 18.988, 0.03},
                                                      {3168, 26.870, 0.03},
                                                      {3564, 36.497, 0.03},
                                                      {3960, 47.999, 0.03}}};
    return kSteps;
}

bool isWithin(const GreyStep& step, Luminance read, Luminance black)
{
    const double aboveBlack = read.cdPerM2() - black.cdPerM2();
    return std::abs(aboveBlack - step.aboveBlackCdPerM2) <= step.tolerance * step.aboveBlackCdPerM2;
}

double cdPerM2OfCode(int code)
{
    return 52.37 * std::pow(static_cast<double>(code) / kMostCode, 2.6);
}

std::optional<CodeColour> colourOfCodes(int x, int y, int z)
{
    if (std::min({x, y, z}) < 0 || std::max({x, y, z}) > kMostCode)
        return std::nullopt;
    const double bigX = cdPerM2OfCode(x);
    const double bigY = cdPerM2OfCode(y);
    const double sum = bigX + bigY + cdPerM2OfCode(z);
    const auto luminance = Luminance::from(bigY, LuminanceUnit::CdPerM2);
    const auto chromaticity = Chromaticity::fromXy(bigX / sum, bigY / sum);
    if (!luminance || !chromaticity)
        return std::nullopt;
    return CodeColour{*luminance, *chromaticity};
}

} // namespace coldarc::photometry
