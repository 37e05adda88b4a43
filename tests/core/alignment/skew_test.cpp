#include "core/alignment/skew.h"

#include "core/alignment/orders.h"
#include "tests/support/testing.h"

#include <cmath>
#include <vector>

namespace coldarc::test {
namespace {

using namespace coldarc::alignment;

constexpr double kBend = -0.001;
const Scatter kNoise{12e-6, 12}; // 0.1 %

/// ln(light) = bend x^2 + cubic x^3 + drift per reading.
std::vector<ScanPoint> scan(Order order, double cubic, double drift)
{
    std::vector<ScanPoint> points;
    for (const int setting : settingsOf(order)) {
        const double x = 8.0 * setting;
        const auto number = static_cast<double>(points.size());
        points.push_back({x, std::exp(kBend * x * x + cubic * x * x * x + drift * number), 20 * number});
    }
    return points;
}

TEST(SkewTest, CannotBeToldFromDriftByOneScanOfFive)
{
    using Scans = std::vector<std::vector<ScanPoint>>;
    const Scans one(1, scan(Order::DriftProof5, 1e-5, 0));
    const Scans alike(2, one.front());

    EXPECT_FALSE(skewOf(one, kNoise));
    EXPECT_FALSE(skewOf(alike, kNoise));
    EXPECT_FALSE(skewOf({}, kNoise));
}

TEST(SkewTest, CannotBeToldFromDriftByOneScanThatAHandTimedUnevenly)
{
    std::vector<ScanPoint> points = scan(Order::DriftProof5, 1e-5, 0);
    points[1].seconds += 4;
    points[2].seconds -= 3;

    EXPECT_FALSE(skewOf(std::vector<std::vector<ScanPoint>>(1, points), kNoise));
}

// Ten readings less two parabolas, a cube and a drift leave two degrees of freedom. Both widths rest on the
// meter's last digit, so they go as Student's t.
TEST(SkewTest, CountsTheParabolasAmongItsUnknowns)
{
    const std::vector scans = {scan(Order::DriftProof5, 0, 0), scan(Order::DriftProof5Mirror, 0, 0)};
    const auto width = [](const std::optional<Skew>& skew) { return skew->high - skew->low; };

    const auto alone = skewOf(scans, {});
    const auto helped = skewOf(scans, Scatter{0, 12});

    ASSERT_TRUE(alone && helped);
    EXPECT_NEAR(width(alone) / width(helped), studentFactor(2, 0.975) / studentFactor(14, 0.975), 1e-6);
}

TEST(SkewTest, IsToldFromDriftByTheMirroredOrder)
{
    const auto skewed =
        skewOf(std::vector{scan(Order::DriftProof5, 1e-5, 0.01), scan(Order::DriftProof5Mirror, 1e-5, 0.01)},
               kNoise);
    const auto drifting = skewOf(
        std::vector{scan(Order::DriftProof5, 0, 0.01), scan(Order::DriftProof5Mirror, 0, 0.01)}, kNoise);

    ASSERT_TRUE(skewed && drifting);
    EXPECT_NEAR(skewed->cubic, 1e-5, 1e-12);
    EXPECT_TRUE(skewed->isSeen());
    EXPECT_NEAR(drifting->cubic, 0, 1e-12);
    EXPECT_FALSE(drifting->isSeen());
}

TEST(SkewTest, LeansEitherWay)
{
    for (const double cubic : {-2e-5, 2e-5}) {
        const auto skew =
            skewOf(std::vector{scan(Order::DriftProof5, cubic, 0), scan(Order::DriftProof5Mirror, cubic, 0)},
                   kNoise);
        ASSERT_TRUE(skew);
        EXPECT_TRUE(skew->isSeen());
        EXPECT_NEAR(skew->cubic, cubic, 1e-12);
    }
}

// By hand: over -2..2 steps of 8, sum x^4 / sum x^2 = 64 * 34 / 10 = 217.6; a cubic part of 2e-5 makes a
// slope of 0.004352, and 0.004352 / 0.002 = 2.176 eighths. The vertex of the fit itself lies just there.
TEST(SkewTest, TellsHowFarItMayDrawTheVertex)
{
    const std::vector<ScanPoint> points = scan(Order::DriftProof5, 2e-5, 0);
    const PeakFit fit = fitWithoutDrift(points).value();

    EXPECT_NEAR(vertexBias(Skew{1e-5, 0.5e-5, 2e-5}, fit, points), 2.176, 1e-6);
    EXPECT_NEAR(-fit.slope / (2 * fit.curvature), 2.176, 1e-6);
}

} // namespace
} // namespace coldarc::test
