#pragma once

#include "core/alignment/backlash.h"
#include "core/alignment/knob.h"
#include "core/alignment/orders.h"
#include "core/alignment/vertex.h"
#include "core/base/clock.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace coldarc::alignment {

/// Scans end this many steps from their middle, whatever their order.
inline constexpr int kEndOfScan = 2;

/// What one scan told.
enum class ScanVerdict : std::uint8_t {
    SetOnly,  ///< before the wait: the knob was set, no verdict
    Peak,     ///< the knob was set to the peak
    Recentre, ///< the peak stands outside what was scanned: scan again round that end
    Widen,    ///< no curvature beyond chance: scan again with twice the step
    Refused,  ///< nothing can be said, see `refusal`: scan again
};

/// One scan, in hand or done. Positions are eighths from `middle`.
struct ScanRecord {
    int axis = 0;
    int cycle = 0; ///< 0 before the wait, then from 1
    Order order = Order::DriftProof5;
    Eighths middle; ///< from where the run found the knob
    Eighths step;
    Knobs knobs;                      ///< where all others stood
    Stamp began;                      ///< its first reading, from which its points count seconds
    std::vector<ScanPoint> points;    ///< those that count, in the order in which they were read
    std::vector<std::size_t> entries; ///< of the run, one per point
    /// Slips: a second reading at that place disagreed, or there could be none.
    std::vector<ScanPoint> leftOut;
    bool isRepeated = false; ///< one of the places was read again

    ScanVerdict verdict = ScanVerdict::Refused;
    std::optional<FitRefusal> refusal;
    std::optional<PeakFit> fit;
    std::optional<Vertex> vertex;     ///< with the scatter known when the scan ended
    std::optional<Backlash> backlash; ///< up-and-back scans only
    Eighths setting;                  ///< where the knob was put, from where the run found it
    bool isSkewed = false;            ///< no parabola at this width: the vertex is drawn to one side
};

/// Whether the scan set its knob; else it has to be done again.
[[nodiscard]] bool isSet(const ScanRecord& scan);

/// Whether the scan's scatter is that of the readings: since the wait, and of no skewed peak.
[[nodiscard]] bool tellsNoise(const ScanRecord& scan);

/// Takes one point out of those that count.
void leaveOut(ScanRecord& scan, std::size_t point);

/// Fits the points, an up-and-back scan's as if each had been come upon going forward, and keeps its
/// backlash.
/// @param others  scatter of ln(light) from other scans.
[[nodiscard]] FitOutcome fitRecord(ScanRecord& scan, const Scatter& others);

/// The vertex of a scan that has a fit, with what is known of the noise by now.
[[nodiscard]] std::optional<Vertex> vertexOfRecord(const ScanRecord& scan, const Scatter& known);

/// Sets the knob to the top if that was seen, to the end nearer to it if it lies outside, to the brightest
/// place if there is none. Pre: at least one point; `scan.fit` is what `fitRecord` said.
void judgeBeforeWait(ScanRecord& scan);

/// Gives the verdict and sets the knob: to the peak, or to the middle of the scan that is needed next.
void judgeAfterWait(ScanRecord& scan, const Scatter& others);

} // namespace coldarc::alignment
