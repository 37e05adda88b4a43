#include "core/alignment/backlash.h"

#include <QtGlobal>

#include <cmath>

namespace coldarc::alignment {

namespace {

constexpr std::size_t kReadings = 9;
constexpr int kRounds = 4;       // each leaves about a tenth of the error
constexpr std::size_t kTurn = 4; // the reading where the way up ends

bool isUpAndBack(std::span<const ScanPoint> points)
{
    if (points.size() != kReadings)
        return false;
    for (std::size_t i = 0; i < kTurn; ++i)
        if (points[i].position != points[kReadings - 1 - i].position ||
            points[i].position >= points[i + 1].position)
            return false;
    return true;
}

/// The four differences, fitted by the slope that a parabola has between each pair when the play is about
/// `play`.
std::optional<LinearFit> fitDifferences(std::span<const ScanPoint> points, double play)
{
    const FitOutcome fit = fitWithoutDrift(withoutBacklash(points, play));
    if (!fit)
        return std::nullopt;
    std::vector<std::vector<double>> columns(2); // what play and what drift do to a difference
    std::vector<double> differences;
    for (std::size_t i = 0; i < kTurn; ++i) {
        const ScanPoint& up = points[i];
        const ScanPoint& back = points[kReadings - 1 - i];
        columns[0].push_back(-(fit->slope + 2 * fit->curvature * (up.position + play / 2)));
        columns[1].push_back(up.seconds - back.seconds);
        differences.push_back(std::log(up.light / back.light));
    }
    return leastSquares(columns, differences);
}

} // namespace

std::optional<Backlash> backlashOf(std::span<const ScanPoint> points, const Scatter& others)
{
    if (!isUpAndBack(points))
        return std::nullopt;
    double play = 0;
    std::optional<LinearFit> linear;
    for (int round = 0; round < kRounds; ++round) {
        linear = fitDifferences(points, play);
        if (!linear)
            return std::nullopt;
        play = linear->coefficients[0];
    }
    // A difference of two readings has twice the variance of one.
    const Scatter known = others + Scatter{linear->scatter.squares / 2, linear->scatter.degreesOfFreedom};
    const double half = studentFactor(known.degreesOfFreedom, kConfidence) *
                        std::sqrt(2 * withLastDigit(known).variance() * linear->covarianceOf(0, 0));
    return Backlash{play, play - half, play + half};
}

std::vector<ScanPoint> withoutBacklash(std::span<const ScanPoint> points, double backlash)
{
    Q_ASSERT_X(isUpAndBack(points), "withoutBacklash", "not an up-and-back scan");
    std::vector<ScanPoint> result(points.begin(), points.end());
    for (std::size_t i = kTurn + 1; i < kReadings; ++i)
        result[i].position += backlash;
    return result;
}

Vertex widenedBy(const Vertex& vertex, const Backlash& backlash)
{
    const double half = (backlash.high - backlash.low) / 4;
    return {vertex.at, vertex.at - std::hypot(vertex.at - vertex.low, half),
            vertex.at + std::hypot(vertex.high - vertex.at, half)};
}

} // namespace coldarc::alignment
