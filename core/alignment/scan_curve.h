#pragma once

#include "core/alignment/scan_record.h"

#include <optional>
#include <vector>

namespace coldarc::alignment {

/// The lights that a chart shows.
struct LightRange {
    double least = 0;
    double most = 0;

    friend bool operator==(const LightRange&, const LightRange&) = default;
};
/// Around these: a tenth of their spread more, either way, and at least a hundredth of the largest.
[[nodiscard]] LightRange rangeAround(double least, double most);

/// One scan as it is drawn: light against the knob. Positions are eighths of a turn from where the run found
/// the knob; lights are as the meter showed them.
struct ScanCurve {
    struct Point {
        double eighths = 0;
        double light = 0;

        friend bool operator==(const Point&, const Point&) = default;
    };
    std::vector<Point> readings; ///< those that count, in the order in which they were read
    std::vector<Point> leftOut;  ///< slips
    /// The parabola of the log at the scan's mean time, from a quarter step before its first setting to one
    /// behind its last; empty where there is no fit that bends down.
    std::vector<Point> fitted;
    std::optional<Vertex> peak; ///< with its interval; nothing while none may be told
    double from = 0;            ///< what is drawn: half a step more than is scanned, either way
    double to = 0;
    LightRange lights; ///< around what is drawn

    friend bool operator==(const ScanCurve&, const ScanCurve&) = default;
};

/// A peak is shown only for a scan that ended in one: a scan before the settle wait sets the knob and proves
/// nothing.
[[nodiscard]] ScanCurve curveOf(const ScanRecord& scan);

} // namespace coldarc::alignment
