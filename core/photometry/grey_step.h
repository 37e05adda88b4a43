#pragma once

#include "core/photometry/chromaticity.h"
#include "core/photometry/luminance.h"

#include <array>
#include <optional>

namespace coldarc::photometry {

/// One step of the grey scale that checks a digital projector's transfer function.
struct GreyStep {
    int code = 0;                 ///< 12-bit code value, the same for X', Y' and Z'; 396 times 1 to 10
    double aboveBlackCdPerM2 = 0; ///< luminance above black when peak white is 48 cd/m2
    double tolerance = 0;         ///< share by which it may differ, up or down
};

/// The ten steps, darkest first. Source: DCI Compliance Test Plan v1.4.3, Table 7.5.11(a) (READ): a
/// laboratory test, whose tolerances are no theatre's.
[[nodiscard]] const std::array<GreyStep, 10>& greySteps();

/// Whether a step as read, less the black level as read, lies within its tolerance. Black is taken off for
/// the transfer function only, by section 7.5.11 of that plan (READ).
[[nodiscard]] bool isWithin(const GreyStep& step, Luminance read, Luminance black);

/// Luminance that a digital cinema code value of 0 to 4095 stands for: 52.37 (code / 4095)^2.6 cd/m2. Source:
/// public implementations of SMPTE RP 431-2 (READ); it gives every printed figure of the plan's table.
[[nodiscard]] double cdPerM2OfCode(int code);

/// What the code values X'Y'Z' show on a projector at its nominal white. Nothing unless each is from 0 to
/// 4095 and one is above 0.
struct CodeColour {
    Luminance luminance;
    Chromaticity chromaticity;
};
[[nodiscard]] std::optional<CodeColour> colourOfCodes(int x, int y, int z);

} // namespace coldarc::photometry
