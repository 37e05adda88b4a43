#include "core/alignment/scan_curve.h"

#include "tests/support/testing.h"

#include <algorithm>
#include <cmath>

namespace coldarc::test {
namespace {

using namespace coldarc::alignment;

/// ln(light) = 4 - 0.01 (x - 1)^2 about the middle, which stands at 3: light is greatest at 4.
ScanRecord scanOfABell()
{
    ScanRecord scan;
    scan.middle = {3};
    scan.step = {2};
    for (const int setting : settingsOf(Order::DriftProof5)) {
        const double x = 2.0 * setting;
        scan.points.push_back({x, std::exp(4 - 0.01 * (x - 1) * (x - 1)), 10.0 * setting});
        scan.entries.push_back(scan.entries.size());
    }
    scan.fit.emplace();
    scan.fit->level = 4 - 0.01;
    scan.fit->slope = 0.02;
    scan.fit->curvature = -0.01;
    scan.verdict = ScanVerdict::Peak;
    scan.vertex = Vertex{1, 0.5, 1.75};
    return scan;
}

TEST(ScanCurveTest, StandsWhereTheKnobStood)
{
    const ScanCurve curve = curveOf(scanOfABell());

    ASSERT_EQ(curve.readings.size(), 5u);
    EXPECT_EQ(curve.readings.front().eighths, 3 - 2); // the order begins one step back
    EXPECT_EQ(curve.peak, (Vertex{4, 3.5, 4.75}));
    EXPECT_EQ(curve.from, 3 - 5); // half a step more than two steps
    EXPECT_EQ(curve.to, 3 + 5);
}

TEST(ScanCurveTest, DrawsTheCurveThroughReadingsThatLieOnIt)
{
    const ScanCurve curve = curveOf(scanOfABell());

    ASSERT_FALSE(curve.fitted.empty());
    const auto top = std::ranges::max_element(curve.fitted, {}, &ScanCurve::Point::light);
    EXPECT_NEAR(top->eighths, 4, 0.2);
    EXPECT_NEAR(top->light, std::exp(4), 0.02);
    EXPECT_EQ(curve.fitted.front().eighths, 3 - 4.5);
    EXPECT_LT(curve.lights.least, curve.fitted.front().light);
    EXPECT_GT(curve.lights.most, top->light);
}

TEST(ScanCurveTest, DrawsTheCurveAtTheMeanTimeOfTheScan)
{
    ScanRecord scan = scanOfABell();
    scan.fit->driftPerSecond = 0.001;
    for (ScanPoint& point : scan.points)
        point.seconds = 100;

    const ScanCurve curve = curveOf(scan);

    const auto top = std::ranges::max_element(curve.fitted, {}, &ScanCurve::Point::light);
    EXPECT_NEAR(top->light, std::exp(4.1), 0.02); // 4 + 0.001 * 100
}

TEST(ScanCurveTest, ShowsNoPeakOfAScanThatOnlySetTheKnob)
{
    ScanRecord scan = scanOfABell();
    scan.verdict = ScanVerdict::SetOnly;

    EXPECT_EQ(curveOf(scan).peak, std::nullopt);
    EXPECT_FALSE(curveOf(scan).fitted.empty());
}

TEST(ScanCurveTest, DrawsNoCurveThatBendsUp)
{
    ScanRecord scan = scanOfABell();
    scan.fit->curvature = 0.01;

    EXPECT_TRUE(curveOf(scan).fitted.empty());
}

TEST(ScanCurveTest, KeepsWhatWasLeftOutApart)
{
    ScanRecord scan = scanOfABell();
    leaveOut(scan, 1);

    const ScanCurve curve = curveOf(scan);

    EXPECT_EQ(curve.readings.size(), 4u);
    ASSERT_EQ(curve.leftOut.size(), 1u);
    EXPECT_EQ(curve.leftOut.front().eighths, 3 + 4); // the second place of the order is two steps on
}

// A tenth of the spread of 10 is 1; a hundredth of 50 is 0.5.
TEST(ScanCurveTest, LeavesRoomAroundTheLightsThatAreDrawn)
{
    EXPECT_EQ(rangeAround(40, 50), (LightRange{39, 51}));
    EXPECT_EQ(rangeAround(50, 50), (LightRange{49.5, 50.5}));
}

} // namespace
} // namespace coldarc::test
