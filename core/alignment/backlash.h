#pragma once

#include "core/alignment/vertex.h"

#include <optional>
#include <span>
#include <vector>

namespace coldarc::alignment {

/// Play of a screw: how far the knob turns before the lamp follows.
struct Backlash {
    double eighths = 0;
    double low = 0; ///< 95 % interval, eighths
    double high = 0;
    /// Play is never negative, so it is seen when the whole interval is above zero.
    [[nodiscard]] bool isSeen() const { return low > 0; }
};

/// Backlash from the readings of an up-and-back scan: the same setting, come upon from either side, shows the
/// light of two places of the lamp that lie one backlash apart, so ln(up) - ln(back) = -backlash * slope
/// between them, plus the drift from one to the other.
///
/// Nothing when the points are not an up-and-back scan of nine, or when the peak stands where the scan turned
/// round: there play and drift look alike.
/// @param others  scatter of ln(light) from other scans; joins the four differences' own.
[[nodiscard]] std::optional<Backlash> backlashOf(std::span<const ScanPoint> points, const Scatter& others);

/// The same points at the places the lamp had, told by how it would stand if come upon going forward:
/// positions of the way back are moved by the backlash. Pre: an up-and-back scan of nine.
[[nodiscard]] std::vector<ScanPoint> withoutBacklash(std::span<const ScanPoint> points, double backlash);

/// The interval of a vertex found from points so moved, widened by what is not known of the backlash: the
/// vertex moves by half of it, and the two errors are independent, so their half-widths add in squares.
[[nodiscard]] Vertex widenedBy(const Vertex& vertex, const Backlash& backlash);

} // namespace coldarc::alignment
