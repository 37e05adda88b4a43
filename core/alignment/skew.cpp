#include "core/alignment/skew.h"

#include <algorithm>
#include <cmath>

namespace coldarc::alignment {

namespace {

constexpr double kSkewConfidence = 0.975;
constexpr double kLeastOwnPart = 0.1; // of the cubic pattern's square that the drift's must leave

/// What a parabola in the position leaves of a pattern.
std::vector<double> beyondParabola(std::span<const ScanPoint> points, const std::vector<double>& pattern)
{
    std::vector<std::vector<double>> columns(3);
    for (const ScanPoint& point : points) {
        columns[0].push_back(1);
        columns[1].push_back(point.position);
        columns[2].push_back(point.position * point.position);
    }
    const auto fit = leastSquares(columns, pattern);
    return fit ? fit->residuals : std::vector<double>(pattern.size(), 0.0);
}

void append(std::vector<double>& all, const std::vector<double>& more)
{
    all.insert(all.end(), more.begin(), more.end());
}

double squaresOf(std::span<const double> values)
{
    double sum = 0;
    for (const double value : values)
        sum += value * value;
    return sum;
}

} // namespace

std::optional<Skew> skewOf(std::span<const std::vector<ScanPoint>> scans, const Scatter& others)
{
    std::vector<std::vector<double>> columns(2); // cube of the position, time
    std::vector<double> logs;
    for (const std::vector<ScanPoint>& points : scans) {
        std::vector<double> cubes;
        std::vector<double> seconds;
        std::vector<double> own;
        for (const ScanPoint& point : points) {
            cubes.push_back(point.position * point.position * point.position);
            seconds.push_back(point.seconds - points.front().seconds);
            own.push_back(std::log(point.light));
        }
        append(columns[0], beyondParabola(points, cubes));
        append(columns[1], beyondParabola(points, seconds));
        append(logs, beyondParabola(points, own));
    }
    const auto cubeByTime = leastSquares(std::span(columns).subspan(1), columns[0]);
    if (cubeByTime && cubeByTime->scatter.squares < kLeastOwnPart * squaresOf(columns[0]))
        return std::nullopt;
    const auto linear = leastSquares(columns, logs);
    if (!linear)
        return std::nullopt;
    const int parabolas = 3 * static_cast<int>(scans.size());
    const Scatter known =
        others + Scatter{linear->scatter.squares, linear->scatter.degreesOfFreedom - parabolas};
    if (known.degreesOfFreedom <= 0)
        return std::nullopt;
    const double half = studentFactor(known.degreesOfFreedom, kSkewConfidence) *
                        std::sqrt(withLastDigit(known).variance() * linear->covarianceOf(0, 0));
    const double cubic = linear->coefficients[0];
    return Skew{cubic, cubic - half, cubic + half};
}

double vertexBias(const Skew& skew, const PeakFit& fit, std::span<const ScanPoint> points)
{
    double squares = 0;
    double fourths = 0;
    for (const ScanPoint& point : points) {
        const double square = point.position * point.position;
        squares += square;
        fourths += square * square;
    }
    const double cubic = std::max(std::abs(skew.low), std::abs(skew.high));
    return cubic * fourths / squares / (-2 * fit.curvature);
}

} // namespace coldarc::alignment
