#include "core/alignment/scan_fit.h"

#include "core/alignment/orders.h"
#include "tests/support/testing.h"

#include <cmath>
#include <limits>
#include <utility>
#include <vector>

namespace coldarc::test {
namespace {

using namespace coldarc::alignment;

constexpr double kTop = 3;         // eighths
constexpr double kBend = -0.00087; // ln per eighth squared: 20 % at two turns

/// A clean bell with its top at kTop, read in an order, a reading every 20 s, drifting by so much each.
std::vector<ScanPoint> bell(Order order, double driftPerReading = 0)
{
    std::vector<ScanPoint> points;
    for (const int setting : settingsOf(order)) {
        const double x = 8.0 * setting;
        const auto number = static_cast<double>(points.size());
        points.push_back(
            {x, 48 * std::exp(kBend * (x - kTop) * (x - kTop) + driftPerReading * number), 20 * number});
    }
    return points;
}

std::vector<ScanPoint> oneWaySweep(double jitterSeconds = 0)
{
    std::vector<ScanPoint> points;
    for (int i = -3; i <= 3; ++i)
        points.push_back({8.0 * i, 48 - i * i * 1.0, 20.0 * i + (i % 2 == 0 ? jitterSeconds : 0)});
    return points;
}

double topOf(const PeakFit& fit)
{
    return -fit.slope / (2 * fit.curvature);
}

TEST(ScanFitTest, ReadsABellExactly)
{
    const auto fit = fitWithoutDrift(bell(Order::DriftProof5));

    ASSERT_TRUE(fit);
    EXPECT_NEAR(topOf(*fit), kTop, 1e-9);
    EXPECT_NEAR(fit->curvature, kBend, 1e-12);
    EXPECT_NEAR(fit->scatter.squares, 0, 1e-20);
}

// Algebra: readings of -(x - 1.25)^2 at x = 0, 1, 3; each twice, since three readings leave no scatter to
// judge by.
TEST(ScanFitTest, FindsTheVertexOfThreePlaces)
{
    std::vector<ScanPoint> points;
    for (const double x : {0.0, 1.0, 3.0, 3.0, 1.0, 0.0})
        points.push_back({x, std::exp(-(x - 1.25) * (x - 1.25)), static_cast<double>(points.size())});

    const auto fit = fitWithoutDrift(points);

    ASSERT_TRUE(fit);
    EXPECT_NEAR(topOf(*fit), 1.25, 1e-12);
}

// NIST StRD Eckerle4 (circular interference transmittance): the seven readings above half of the largest. The
// peak of the certified bell is 451.54121844 with a standard deviation of 0.0468; the readings below count
// nothing there, and would count the most in the log.
TEST(ScanFitTest, FindsThePeakOfEckerleWithinItsCertifiedDeviation)
{
    const std::vector<std::pair<double, double>> readings = {
        {447, .2073413}, {448.5, .2902366}, {450, .3445623}, {451.5, .3698049},
        {453, .3668534}, {454.5, .3106727}, {456, .2078154}};
    std::vector<ScanPoint> points;
    for (const auto& [wavelength, transmittance] : readings)
        points.push_back({wavelength - 451.5, transmittance, 0});

    const auto fit = fitWithoutDrift(points);

    ASSERT_TRUE(fit);
    EXPECT_NEAR(topOf(*fit) + 451.5, 451.54121844, 0.0468);
}

TEST(ScanFitTest, LeavesTheVertexWhereItIsHoweverTheLightDrifts)
{
    for (const Order order :
         {Order::DriftProof5, Order::DriftProof5Mirror, Order::DriftProof7, Order::UpAndBack9})
        for (const double drift : {-0.02, 0.001, 0.05}) {
            const auto fit = fitWithoutDrift(bell(order, drift));
            ASSERT_TRUE(fit);
            EXPECT_NEAR(topOf(*fit), kTop, 1e-9);
        }
}

TEST(ScanFitTest, DoesNotDependOnTheUnitOfTheMeter)
{
    std::vector<ScanPoint> points = bell(Order::UpAndBack9, 0.003);
    const auto inCdPerM2 = fitWithDrift(points);
    for (ScanPoint& point : points)
        point.light /= 3.4262590996353905; // fL
    const auto inFootlamberts = fitWithDrift(points);

    ASSERT_TRUE(inCdPerM2 && inFootlamberts);
    EXPECT_NEAR(inCdPerM2->slope, inFootlamberts->slope, 1e-12);
    EXPECT_NEAR(inCdPerM2->curvature, inFootlamberts->curvature, 1e-12);
}

TEST(ScanFitTest, TakesUpADriftThatIsSignificant)
{
    std::vector<ScanPoint> points = bell(Order::UpAndBack9, 0.02);
    points[2].light *= 1.001; // some noise, or nothing is significant against nothing

    const auto fit = fitScan(points, Scatter{1e-4, 10});

    ASSERT_TRUE(fit && fit->driftPerSecond);
    EXPECT_NEAR(*fit->driftPerSecond, 0.02 / 20, 5e-5);
    EXPECT_EQ(fit->scatter.degreesOfFreedom, 5);
}

TEST(ScanFitTest, LeavesOutADriftThatChanceExplains)
{
    const auto fit = fitScan(bell(Order::UpAndBack9, 0.0005), Scatter{1e-3, 10});

    ASSERT_TRUE(fit);
    EXPECT_FALSE(fit->driftPerSecond);
    EXPECT_EQ(fit->scatter.degreesOfFreedom, 6);
}

TEST(ScanFitTest, RefusesAOneWaySweep)
{
    EXPECT_FALSE(tellsDriftFromPosition(oneWaySweep()));
    ASSERT_FALSE(fitWithDrift(oneWaySweep()));
    EXPECT_EQ(fitWithDrift(oneWaySweep()).error(), FitRefusal::OneWaySweep);
    ASSERT_FALSE(fitScan(oneWaySweep(), {}));
    EXPECT_EQ(fitScan(oneWaySweep(), {}).error(), FitRefusal::OneWaySweep);
}

TEST(ScanFitTest, RefusesAOneWaySweepThatAHandTimedUnevenly)
{
    ASSERT_FALSE(fitScan(oneWaySweep(5), {}));
    EXPECT_EQ(fitScan(oneWaySweep(5), {}).error(), FitRefusal::OneWaySweep);
}

TEST(ScanFitTest, RefusesWhatIsNoLight)
{
    for (const double bad : {0.0, -1.0, std::nan(""), std::numeric_limits<double>::infinity()}) {
        std::vector<ScanPoint> points = bell(Order::DriftProof5);
        points[3].light = bad;
        ASSERT_FALSE(fitScan(points, {}));
        EXPECT_EQ(fitScan(points, {}).error(), FitRefusal::BadReading);
    }
}

TEST(ScanFitTest, RefusesTooFewSettings)
{
    const std::vector<ScanPoint> two = {{0, 48, 0}, {8, 47, 1}, {0, 48, 2}, {8, 47, 3}, {0, 48, 4}};

    for (const auto& points : {two, std::vector<ScanPoint>{}}) {
        ASSERT_FALSE(fitScan(points, {}));
        EXPECT_EQ(fitScan(points, {}).error(), FitRefusal::TooFewSettings);
    }
}

// 1.4826 times the median size, 2: the slip of 90 does not count by how large it is.
TEST(ScanFitTest, TakesTheSpreadFromTheMedianSize)
{
    EXPECT_NEAR(robustSpread(std::vector<double>{-1, 2, -90, 1, 2}), 1.482602218505602 * 2, 1e-12);
    EXPECT_EQ(robustSpread({}), 0);
}

TEST(ScanFitTest, PointsAtTheSlipAndNoOther)
{
    for (std::size_t slip = 0; slip < 5; ++slip) {
        std::vector<ScanPoint> points = bell(Order::DriftProof5);
        points[slip].light *= 1.25;
        const auto fit = fitWithoutDrift(points);
        ASSERT_TRUE(fit);
        EXPECT_EQ(outlierOf(*fit, 0.01), slip);
    }
}

// The middle of five has leverage 17/35: a slip of d leaves a standard residual of d * sqrt(18/35) = 0.7171
// d.
TEST(ScanFitTest, AsksOnlyBeyondTheLimit)
{
    std::vector<ScanPoint> points = bell(Order::DriftProof5);
    points[2].light *= std::exp(0.01);
    const auto fit = fitWithoutDrift(points);

    ASSERT_TRUE(fit);
    EXPECT_EQ(outlierOf(*fit, 0.007171 / 3.45), std::nullopt);
    EXPECT_EQ(outlierOf(*fit, 0.007171 / 3.55), std::size_t{2});
}

} // namespace
} // namespace coldarc::test
