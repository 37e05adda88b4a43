#include "core/alignment/scan_curve.h"

#include <algorithm>
#include <cmath>

namespace coldarc::alignment {

namespace {

constexpr int kFittedPoints = 48;
constexpr double kAround = 0.1;       // of the spread
constexpr double kLeastAround = 0.01; // of the largest

std::vector<ScanCurve::Point> pointsOf(const std::vector<ScanPoint>& points, double middle)
{
    std::vector<ScanCurve::Point> drawn;
    drawn.reserve(points.size());
    for (const ScanPoint& point : points)
        drawn.push_back({middle + point.position, point.light});
    return drawn;
}

double meanSeconds(const ScanRecord& scan)
{
    double sum = 0;
    for (const ScanPoint& point : scan.points)
        sum += point.seconds;
    return scan.points.empty() ? 0 : sum / static_cast<double>(scan.points.size());
}

std::vector<ScanCurve::Point> fittedOf(const ScanRecord& scan)
{
    if (!scan.fit || scan.fit->curvature >= 0)
        return {};
    const double end = (kEndOfScan + 0.25) * scan.step.count;
    const double drift = scan.fit->driftPerSecond.value_or(0) * meanSeconds(scan);
    std::vector<ScanCurve::Point> drawn;
    drawn.reserve(kFittedPoints + 1);
    for (int i = 0; i <= kFittedPoints; ++i) {
        const double x = -end + 2 * end * i / kFittedPoints;
        const double log = scan.fit->level + scan.fit->slope * x + scan.fit->curvature * x * x + drift;
        drawn.push_back({scan.middle.count + x, std::exp(log)});
    }
    return drawn;
}

} // namespace

LightRange rangeAround(double least, double most)
{
    const double around = std::max(kAround * (most - least), kLeastAround * most);
    return {least - around, most + around};
}

ScanCurve curveOf(const ScanRecord& scan)
{
    ScanCurve curve;
    const double middle = scan.middle.count;
    curve.readings = pointsOf(scan.points, middle);
    curve.leftOut = pointsOf(scan.leftOut, middle);
    curve.fitted = fittedOf(scan);
    if (scan.verdict == ScanVerdict::Peak && scan.vertex)
        curve.peak = Vertex{middle + scan.vertex->at, middle + scan.vertex->low, middle + scan.vertex->high};
    const double end = (kEndOfScan + 0.5) * scan.step.count;
    curve.from = middle - end;
    curve.to = middle + end;

    std::vector<ScanCurve::Point> all = curve.readings;
    all.insert(all.end(), curve.leftOut.begin(), curve.leftOut.end());
    all.insert(all.end(), curve.fitted.begin(), curve.fitted.end());
    if (all.empty())
        return curve;
    const auto [least, most] = std::ranges::minmax(all, {}, &ScanCurve::Point::light);
    curve.lights = rangeAround(least.light, most.light);
    return curve;
}

} // namespace coldarc::alignment
