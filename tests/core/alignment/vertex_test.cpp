#include "core/alignment/vertex.h"

#include "core/alignment/orders.h"
#include "tests/support/testing.h"

#include <boost/random/mersenne_twister.hpp>
#include <boost/random/normal_distribution.hpp>

#include <cmath>
#include <vector>

namespace coldarc::test {
namespace {

using namespace coldarc::alignment;

constexpr double kBend = -0.00087; // ln per eighth squared: 20 % at two turns

class Noise {
public:
    double operator()(double deviation) { return deviation * m_normal(m_chance); }

private:
    boost::random::mt19937_64 m_chance{7};
    boost::random::normal_distribution<double> m_normal;
};

std::vector<ScanPoint> noisyBell(Noise& noise, double top, double bend, double deviation)
{
    std::vector<ScanPoint> points;
    for (const int setting : settingsOf(Order::DriftProof5)) {
        const double x = 8.0 * setting;
        points.push_back({x, 48 * std::exp(bend * (x - top) * (x - top) + noise(deviation)),
                          20 * static_cast<double>(points.size())});
    }
    return points;
}

PeakFit fitOf(const std::vector<ScanPoint>& points)
{
    return fitWithoutDrift(points).value();
}

/// How far the slope at d is from zero, in standard errors.
double standardErrorsAt(const PeakFit& fit, const Scatter& scatter, double d)
{
    const double variance =
        fit.slopeVariance + 4 * d * fit.slopeCurvature + 4 * d * d * fit.curvatureVariance;
    return std::abs(fit.slope + 2 * fit.curvature * d) / std::sqrt(scatter.variance() * variance);
}

// By hand: settings -2..2, slope 0.4, curvature -0.2 in unit steps. Var(slope) = 1/10, Var(curvature) = 1/14,
// no covariance; with s = 0.1 on 12 degrees of freedom T = (2.178813 * 0.1)^2 = 0.0474723. The ends solve
// (0.4 - 0.4 d)^2 = T (0.1 + 4 d^2 / 14): 0.1464365 d^2 - 0.32 d + 0.1552528 = 0, d = 0.727081 and 1.458166.
TEST(VertexTest, HasFiellersInterval)
{
    PeakFit fit;
    fit.slope = 0.4;
    fit.curvature = -0.2;
    fit.slopeVariance = 0.1;
    fit.curvatureVariance = 1.0 / 14;

    const auto vertex = vertexOf(fit, Scatter{0.12, 12});

    ASSERT_TRUE(vertex);
    EXPECT_NEAR(vertex->at, 1, 1e-12);
    EXPECT_NEAR(vertex->low, 0.727081, 2e-6);
    EXPECT_NEAR(vertex->high, 1.458166, 2e-6);
}

// The definition of the set: at its ends the slope is exactly t standard errors from zero.
TEST(VertexTest, EndsWhereTheSlopeIsTStandardErrorsFromZero)
{
    Noise noise;
    for (int run = 0; run < 200; ++run) {
        std::vector<ScanPoint> points = noisyBell(noise, noise(8), kBend, 0.01);
        for (ScanPoint& point : points)
            point.position += run % 20; // off the middle slope and curvature go together
        const PeakFit fit = fitOf(points);
        const Scatter scatter{0.0015, 14};
        const auto vertex = vertexOf(fit, scatter);
        ASSERT_TRUE(vertex);
        const double t = studentFactor(14, 0.95);
        EXPECT_NEAR(standardErrorsAt(fit, scatter, vertex->low), t, 1e-6);
        EXPECT_NEAR(standardErrorsAt(fit, scatter, vertex->high), t, 1e-6);
        EXPECT_LT(vertex->low, vertex->at);
        EXPECT_GT(vertex->high, vertex->at);
    }
}

// 95 % of 4000 is 3800 with a standard deviation of 13.8; four of them either way.
TEST(VertexTest, HoldsTheTruthAsOftenAsItSays)
{
    Noise noise;
    int held = 0;
    for (int run = 0; run < 4000; ++run) {
        const double top = noise(6);
        const PeakFit fit = fitOf(noisyBell(noise, top, kBend, 0.005));
        const auto vertex = vertexOf(fit, fit.scatter);
        held += vertex && vertex->low <= top && top <= vertex->high ? 1 : 0;
    }
    EXPECT_NEAR(held, 3800, 56);
}

TEST(VertexTest, IsNeverSeenInFlatLight)
{
    Noise noise;
    int seen = 0;
    for (int run = 0; run < 400; ++run) {
        const PeakFit fit = fitOf(noisyBell(noise, 0, 0, 0.01));
        seen += vertexOf(fit, fit.scatter) ? 1 : 0;
    }
    EXPECT_LT(seen, 25); // by chance 2.5 %, that is 10 with a standard deviation of 3.1
}

// A knob that moves nothing and a meter that shows three digits: rounding errors are no peak.
TEST(VertexTest, IsNotSeenInLightThatAlwaysReadsTheSame)
{
    std::vector<ScanPoint> points;
    for (const int setting : settingsOf(Order::DriftProof5))
        points.push_back({8.0 * setting, 1, 20 * static_cast<double>(points.size())});
    for (const double light : {48.1, 47.9, 0.3, 51.7}) {
        for (ScanPoint& point : points)
            point.light = light;
        const PeakFit fit = fitOf(points);
        EXPECT_EQ(vertexOf(fit, fit.scatter), std::nullopt);
        EXPECT_FALSE(isSloping(fit, fit.scatter));
    }
}

TEST(VertexTest, IsNotSeenWhereTheLightBendsUp)
{
    Noise noise;
    const PeakFit fit = fitOf(noisyBell(noise, 0, -kBend, 0.001));

    EXPECT_EQ(vertexOf(fit, fit.scatter), std::nullopt);
}

TEST(VertexTest, IsNotSeenWhileTheNoiseIsUnknown)
{
    Noise noise;
    EXPECT_EQ(vertexOf(fitOf(noisyBell(noise, 0, kBend, 0.01)), Scatter{}), std::nullopt);
}

TEST(VertexTest, ScanUpASlopeIsToldFromFlatLight)
{
    Noise noise;
    const PeakFit slope = fitOf(noisyBell(noise, 200, kBend / 10, 0.01));
    const PeakFit flat = fitOf(noisyBell(noise, 0, 0, 0.01));
    const Scatter scatter{0.001, 10};

    EXPECT_TRUE(isSloping(slope, scatter));
    EXPECT_FALSE(isSloping(flat, scatter));
    EXPECT_FALSE(isSloping(slope, Scatter{}));
}

// A fall of 20 % at two turns is what the curvature was made for: exp(-0.00087 * 256) = 0.80034.
TEST(VertexTest, DistanceCostsLight)
{
    EXPECT_NEAR(lossAt(kBend, 16), 0.19966, 1e-5);
    EXPECT_EQ(lossAt(kBend, 0), 0);
}

// By hand, curvature -0.001: one axis with its far end 3 off and moved by 2, another with its far end 4 off:
// 1 - exp(-0.001 * (9 + 4 + 16)) = 0.028584.
TEST(VertexTest, LeftToWinIsOneNumberForAllAxes)
{
    const AxisStand one{-0.001, {1, -1, 3}, 0, 2, 0};
    const AxisStand other{-0.001, {0, -4, 1}, 0, 0, 0};

    EXPECT_NEAR(leftToWin(std::vector{one, other}), 0.028584, 1e-6);
}

TEST(VertexTest, LeftToWinCountsWhatASkewMayHide)
{
    AxisStand axis{-0.001, {0, -2, 2}, 0, 0, 0};
    const double without = leftToWin(std::vector{axis});
    axis.bias = 3;

    EXPECT_NEAR(without, 1 - std::exp(-0.004), 1e-12);
    EXPECT_NEAR(leftToWin(std::vector{axis}), 1 - std::exp(-0.025), 1e-12);
}

TEST(LeftToWinTest, IsNeverToldAsLessThanItIs)
{
    EXPECT_NEAR(boundTold(0.0104), 0.011, 1e-12);
    EXPECT_NEAR(boundTold(0.010), 0.010, 1e-12);
    EXPECT_NEAR(boundTold(0.0001), 0.001, 1e-12);
    EXPECT_EQ(boundTold(0), 0);
}

} // namespace
} // namespace coldarc::test
