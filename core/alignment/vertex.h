#pragma once

#include "core/alignment/scan_fit.h"

#include <optional>
#include <span>

namespace coldarc::alignment {

/// Probability that an interval of this room holds what it is about.
inline constexpr double kConfidence = 0.95;

/// Where along one axis the light is greatest. Unit: eighths of a turn from the middle of the scan.
struct Vertex {
    double at = 0;
    double low = 0; ///< the interval, 95 %; `at` need not stand in its middle
    double high = 0;

    friend bool operator==(const Vertex&, const Vertex&) = default;
};

/// The top of the fitted parabola with Fieller's interval: all d at which the slope b1 + 2 b2 d does not
/// differ from zero by more than t standard errors. Source: Fieller 1954, from memory.
///
/// Nothing when no peak was seen: the curve does not bend down, or bends down by no more than chance (then
/// the set is no interval). The cure is a wider scan, never a narrower one.
/// @param scatter  of ln(light), pooled over whatever scans share the noise; no degrees of freedom: nothing.
[[nodiscard]] std::optional<Vertex> vertexOf(const PeakFit& fit, const Scatter& scatter);

/// Whether the slope in the middle of the scan differs from zero by more than chance (95 %).
[[nodiscard]] bool isSloping(const PeakFit& fit, const Scatter& scatter);

/// Share of the light, in [0, 1), lost by standing `distance` eighths from the top of a peak of this
/// curvature. Pre: curvature <= 0.
[[nodiscard]] double lossAt(double curvature, double distance);

/// How one axis stands at the end of a cycle.
struct AxisStand {
    double curvature = 0; ///< < 0
    Vertex vertex;
    double setting = 0; ///< where the knob was put, from the same middle as the vertex
    double moved = 0;   ///< how far the cycle moved it, eighths
    double bias = 0;    ///< how far a skewed peak may have drawn the vertex aside, eighths, >= 0

    friend bool operator==(const AxisStand&, const AxisStand&) = default;
};

/// What is left to win on all axes together: one number, a share of the light in [0, 1).
///
/// Each axis may still lose what lies between its knob and the far end of its interval, further by its bias.
/// Axes that are coupled have moved each other's peak since they were set; what the cycle gained, sum of
/// |curvature| * moved^2, says by how much: it is counted once more, which bounds the rest of the cycles as
/// long as each gains at most half of the one before. The sum of the intervals alone, after one cycle, is
/// broken by most coupled lamps.
[[nodiscard]] double leftToWin(std::span<const AxisStand> axes);
/// The same to a tenth of a percent, never down, so that a bound that is told stays one.
[[nodiscard]] double boundTold(double left);

} // namespace coldarc::alignment
