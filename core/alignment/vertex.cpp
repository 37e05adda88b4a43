#include "core/alignment/vertex.h"

#include <algorithm>
#include <cmath>

namespace coldarc::alignment {

namespace {

/// t^2 s^2: what a squared estimate of unit variance has to pass.
double allowance(const Scatter& scatter)
{
    const double t = studentFactor(scatter.degreesOfFreedom, kConfidence);
    return t * t * withLastDigit(scatter).variance();
}

} // namespace

std::optional<Vertex> vertexOf(const PeakFit& fit, const Scatter& scatter)
{
    if (scatter.degreesOfFreedom <= 0 || fit.curvature >= 0)
        return std::nullopt;
    const double allowed = allowance(scatter);
    // (b1 + 2 b2 d)^2 <= T (V11 + 4 d V12 + 4 d^2 V22)  <=>  a d^2 + 2 b d + c <= 0
    const double a = 4 * (fit.curvature * fit.curvature - allowed * fit.curvatureVariance);
    const double b = 2 * (fit.slope * fit.curvature - allowed * fit.slopeCurvature);
    const double c = fit.slope * fit.slope - allowed * fit.slopeVariance;
    if (a <= 0)
        return std::nullopt;
    const double root = std::sqrt(std::max(0.0, b * b - a * c));
    return Vertex{-fit.slope / (2 * fit.curvature), (-b - root) / a, (-b + root) / a};
}

bool isSloping(const PeakFit& fit, const Scatter& scatter)
{
    return scatter.degreesOfFreedom > 0 && fit.slope * fit.slope > allowance(scatter) * fit.slopeVariance;
}

double lossAt(double curvature, double distance)
{
    return -std::expm1(curvature * distance * distance);
}

double leftToWin(std::span<const AxisStand> axes)
{
    double fall = 0; // of ln(light)
    for (const AxisStand& axis : axes) {
        const double far = axis.bias + std::max(std::abs(axis.setting - axis.vertex.low),
                                                std::abs(axis.vertex.high - axis.setting));
        fall -= axis.curvature * (far * far + axis.moved * axis.moved);
    }
    return -std::expm1(-fall);
}

double boundTold(double left)
{
    constexpr double kPerShare = 1000; // tenths of a percent
    constexpr double kLastBit = 1e-9;  // 0.010 is not quite ten of them as a double
    return std::ceil(left * kPerShare - kLastBit) / kPerShare;
}

} // namespace coldarc::alignment
