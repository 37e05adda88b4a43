#pragma once

#include "core/alignment/scan_fit.h"

#include <optional>
#include <span>
#include <vector>

namespace coldarc::alignment {

/// How far a peak is from being the same on both flanks: the part of ln(light) that goes with the cube of the
/// position, over several scans of one axis. Such a peak draws the vertex of its parabola to the wide flank,
/// by less the narrower the scan.
struct Skew {
    double cubic = 0; ///< per eighth cubed
    double low = 0;   ///< interval, 97.5 %
    double high = 0;

    [[nodiscard]] bool isSeen() const { return low > 0 || high < 0; }
};

/// Fits one cubic part and one drift to all scans together, each with a parabola of its own.
///
/// Nothing when the two cannot be told apart: in one drift-proof scan of five they are the same pattern.
/// Together with a scan of the mirrored order they are not.
/// @param scans   of one axis, at one step, each fit for a parabola.
/// @param others  scatter of ln(light) of the other axes; joins what these scans leave.
[[nodiscard]] std::optional<Skew> skewOf(std::span<const std::vector<ScanPoint>> scans,
                                         const Scatter& others);

/// How far, in eighths, such a skew may draw the vertex of this fit aside: the slope takes up the cubic part
/// of the interval's far end. Pre: fit.curvature < 0, `points` are those of the fit.
[[nodiscard]] double vertexBias(const Skew& skew, const PeakFit& fit, std::span<const ScanPoint> points);

} // namespace coldarc::alignment
