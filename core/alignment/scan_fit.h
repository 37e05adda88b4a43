#pragma once

#include "core/alignment/least_squares.h"

#include <tl/expected.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace coldarc::alignment {

/// One reading of a scan along one axis.
struct ScanPoint {
    double position = 0; ///< knob, eighths of a turn from the middle of the scan
    double light = 0;    ///< > 0, in whatever unit the meter shows
    double seconds = 0;  ///< since any fixed moment

    friend bool operator==(const ScanPoint&, const ScanPoint&) = default;
};

/// Why nothing can be said from a scan.
enum class FitRefusal : unsigned char {
    BadReading,     ///< a light that is not a positive number
    TooFewSettings, ///< fewer than three places, or not more readings than unknowns
    OneWaySweep,    ///< position went with time: drift and position cannot be told apart
};

/// Log of the light along one axis: level + slope*x + curvature*x^2, plus drift*t where that is fitted.
///
/// The log makes a bell-shaped peak an exact parabola and a drift in percent a straight line.
struct PeakFit {
    double level = 0;     ///< ln(light) at x = 0
    double slope = 0;     ///< per eighth
    double curvature = 0; ///< per eighth squared; < 0 at a peak
    std::optional<double> driftPerSecond{};
    double slopeVariance = 0;        ///< these three of unit variance
    double slopeCurvature = 0;       ///< covariance of slope and curvature
    double curvatureVariance = 0;    ///< multiply by the variance of ln(light)
    std::vector<double> residuals{}; ///< of ln(light), in the order of the points
    std::vector<double> leverages{};
    Scatter scatter;
};

using FitOutcome = tl::expected<PeakFit, FitRefusal>;

/// Whether these points were read in an order in which a drift shows as itself: the variance inflation of the
/// time, given position and its square, is at most 10 (that limit: common practice, from memory).
[[nodiscard]] bool tellsDriftFromPosition(std::span<const ScanPoint> points);

[[nodiscard]] FitOutcome fitWithoutDrift(std::span<const ScanPoint> points);

/// Refuses a one-way sweep.
[[nodiscard]] FitOutcome fitWithDrift(std::span<const ScanPoint> points);

/// The fit to go by: with a drift term when that is significant (1 in 100 by chance), else without. A scan
/// that could not tell a drift is refused, whether or not there is one: its parabola would look right and be
/// wrong.
/// @param others  scatter known from other scans; helps to judge the drift. May be empty.
[[nodiscard]] FitOutcome fitScan(std::span<const ScanPoint> points, const Scatter& others);

/// Residuals each divided by what its own leverage leaves of the noise, so that all have the noise's spread.
/// A reading with no freedom left gives 0.
[[nodiscard]] std::vector<double> standardResiduals(const PeakFit& fit);

/// Spread of residuals as a normal sample would have it, from the median of their sizes: 1.4826 * MAD about
/// 0, so a slip among them hardly moves it. 0 for no residuals. The factor: 1 / normal quantile of 0.75.
[[nodiscard]] double robustSpread(std::span<const double> standardResiduals);

/// Standard residuals beyond this many robust spreads are asked about. Source: Iglewicz and Hoaglin 1993,
/// from memory.
inline constexpr double kOutlierLimit = 3.5;

/// The reading of this fit that stands out the most, if it stands out beyond the limit.
/// @param spread  robust spread of residuals of *other* scans, > 0; one slip bends its own scan's fit.
[[nodiscard]] std::optional<std::size_t> outlierOf(const PeakFit& fit, double spread);

} // namespace coldarc::alignment
