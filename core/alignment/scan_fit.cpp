#include "core/alignment/scan_fit.h"

#include <QtGlobal>

#include <boost/math/statistics/univariate_statistics.hpp>

#include <algorithm>
#include <cmath>

namespace coldarc::alignment {

namespace {

constexpr double kMostInflation = 10;
constexpr double kDriftByChance = 0.01;
constexpr double kNormalPerMad = 1.482602218505602;
constexpr std::size_t kParabola = 3; // level, slope, curvature

std::optional<FitRefusal> refusalOf(std::span<const ScanPoint> points, std::size_t unknowns)
{
    for (const ScanPoint& point : points) {
        if (!std::isfinite(point.light) || point.light <= 0 || !std::isfinite(point.position) ||
            !std::isfinite(point.seconds))
            return FitRefusal::BadReading;
    }
    if (points.size() <= unknowns)
        return FitRefusal::TooFewSettings;
    return std::nullopt;
}

using Columns = std::vector<std::vector<double>>;

Columns parabolaColumns(std::span<const ScanPoint> points)
{
    Columns columns(kParabola);
    for (const ScanPoint& point : points) {
        columns[0].push_back(1);
        columns[1].push_back(point.position);
        columns[2].push_back(point.position * point.position);
    }
    return columns;
}

/// Time from the middle of the scan, so that it does not go with the level.
std::vector<double> times(std::span<const ScanPoint> points)
{
    double sum = 0;
    for (const ScanPoint& point : points)
        sum += point.seconds;
    const double middle = sum / static_cast<double>(points.size());
    std::vector<double> result;
    for (const ScanPoint& point : points)
        result.push_back(point.seconds - middle);
    return result;
}

double squaresOf(std::span<const double> values)
{
    double sum = 0;
    for (const double value : values)
        sum += value * value;
    return sum;
}

FitOutcome fitted(const Columns& columns, std::span<const ScanPoint> points)
{
    std::vector<double> logs;
    for (const ScanPoint& point : points)
        logs.push_back(std::log(point.light));
    const auto linear = leastSquares(columns, logs);
    if (!linear)
        return tl::unexpected(columns.size() > kParabola ? FitRefusal::OneWaySweep
                                                         : FitRefusal::TooFewSettings);
    PeakFit fit{.level = linear->coefficients[0],
                .slope = linear->coefficients[1],
                .curvature = linear->coefficients[2],
                .slopeVariance = linear->covarianceOf(1, 1),
                .slopeCurvature = linear->covarianceOf(1, 2),
                .curvatureVariance = linear->covarianceOf(2, 2),
                .residuals = linear->residuals,
                .leverages = linear->leverages,
                .scatter = linear->scatter};
    if (columns.size() > kParabola)
        fit.driftPerSecond = linear->coefficients[kParabola];
    return fit;
}

} // namespace

bool tellsDriftFromPosition(std::span<const ScanPoint> points)
{
    const std::vector<double> time = times(points);
    const auto byPosition = leastSquares(parabolaColumns(points), time);
    return byPosition && byPosition->scatter.squares * kMostInflation >= squaresOf(time) &&
           squaresOf(time) > 0;
}

FitOutcome fitWithoutDrift(std::span<const ScanPoint> points)
{
    if (const auto refusal = refusalOf(points, kParabola))
        return tl::unexpected(*refusal);
    return fitted(parabolaColumns(points), points);
}

FitOutcome fitWithDrift(std::span<const ScanPoint> points)
{
    if (const auto refusal = refusalOf(points, kParabola + 1))
        return tl::unexpected(*refusal);
    if (!tellsDriftFromPosition(points))
        return tl::unexpected(FitRefusal::OneWaySweep);
    Columns columns = parabolaColumns(points);
    columns.push_back(times(points));
    return fitted(columns, points);
}

FitOutcome fitScan(std::span<const ScanPoint> points, const Scatter& others)
{
    const FitOutcome plain = fitWithoutDrift(points);
    if (!plain)
        return plain;
    if (!tellsDriftFromPosition(points))
        return tl::unexpected(FitRefusal::OneWaySweep);
    const FitOutcome drifting = fitWithDrift(points);
    if (!drifting)
        return plain; // too few readings for one more unknown
    const Scatter drift{plain->scatter.squares - drifting->scatter.squares, 1};
    return scattersMore(drift, withLastDigit(drifting->scatter + others), kDriftByChance) ? drifting : plain;
}

std::vector<double> standardResiduals(const PeakFit& fit)
{
    constexpr double kNoFreedom = 1e-9;
    std::vector<double> result;
    for (std::size_t i = 0; i < fit.residuals.size(); ++i) {
        const double freedom = 1 - fit.leverages[i];
        result.push_back(freedom > kNoFreedom ? fit.residuals[i] / std::sqrt(freedom) : 0);
    }
    return result;
}

double robustSpread(std::span<const double> standardResiduals)
{
    if (standardResiduals.empty())
        return 0;
    std::vector<double> sizes(standardResiduals.begin(), standardResiduals.end());
    return kNormalPerMad * boost::math::statistics::median_absolute_deviation(sizes, 0.0);
}

std::optional<std::size_t> outlierOf(const PeakFit& fit, double spread)
{
    Q_ASSERT_X(spread > 0, "outlierOf", "a spread of nothing makes every reading an outlier");
    const std::vector<double> residuals = standardResiduals(fit);
    const auto largest =
        std::ranges::max_element(residuals, [](double a, double b) { return std::abs(a) < std::abs(b); });
    if (largest == residuals.end() || std::abs(*largest) <= kOutlierLimit * spread)
        return std::nullopt;
    return static_cast<std::size_t>(largest - residuals.begin());
}

} // namespace coldarc::alignment
