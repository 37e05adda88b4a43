#include "core/alignment/backlash.h"

#include "core/alignment/orders.h"
#include "core/alignment/test_lamp.h"
#include "tests/support/testing.h"

#include <cmath>
#include <vector>

namespace coldarc::test {
namespace {

using namespace coldarc::alignment;

LampNature loneKnob(double backlash, double noise)
{
    LampNature nature;
    nature.axes = {AxisNature{16, 1, 1, backlash}};
    nature.noise = noise;
    nature.warmUp = 0;
    return nature;
}

/// An up-and-back scan round the place where the knob was found, come upon going forward.
std::vector<ScanPoint> upAndBack(SimulatedLight& light, double driftPerReading = 0)
{
    std::vector<ScanPoint> points;
    light.turnTo(0, -24);
    for (const int setting : settingsOf(Order::UpAndBack9)) {
        const double x = 8.0 * setting;
        light.turnTo(0, x);
        const auto number = static_cast<double>(points.size());
        points.push_back({x, light.read() * std::exp(driftPerReading * number), 20 * number});
    }
    return points;
}

TEST(BacklashTest, ShowsAsItIsWithoutNoise)
{
    for (const double drift : {0.0, 0.001}) {
        SimulatedLight light(loneKnob(2, 0), 3);
        const std::vector<ScanPoint> points = upAndBack(light, drift);

        const auto backlash = backlashOf(points, {});

        ASSERT_TRUE(backlash);
        EXPECT_NEAR(backlash->eighths, 2,
                    0.1); // the turning point is read once, which bends the fit a little
    }
}

TEST(BacklashTest, LeavesTheVertexForComingForward)
{
    SimulatedLight light(loneKnob(3, 0), 3);
    const std::vector<ScanPoint> points = upAndBack(light);
    const double play = backlashOf(points, {})->eighths;

    const auto fit = fitWithoutDrift(withoutBacklash(points, play));

    ASSERT_TRUE(fit);
    EXPECT_NEAR(-fit->slope / (2 * fit->curvature), light.bestKnob(0), 0.001);
}

TEST(BacklashTest, IsSeenWhereThereIsSomeAndSeldomWhereThereIsNone)
{
    int seen = 0;
    int imagined = 0;
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        for (const double play : {4.0, 0.0}) {
            SimulatedLight light(loneKnob(play, 0.005), seed);
            const std::vector<ScanPoint> points = upAndBack(light);
            const auto backlash = backlashOf(points, Scatter{25e-6 * 12, 12});
            ASSERT_TRUE(backlash);
            (play > 0 ? seen : imagined) += backlash->isSeen() ? 1 : 0;
        }
    }
    EXPECT_GT(seen, 190);
    EXPECT_LT(imagined, 15); // 2.5 % by chance: 5 with a standard deviation of 2.2
}

TEST(BacklashTest, NeedsAnUpAndBackScan)
{
    SimulatedLight light(loneKnob(2, 0), 3);
    std::vector<ScanPoint> points = upAndBack(light);

    points[6].position += 1; // the way back stops elsewhere
    EXPECT_FALSE(backlashOf(points, {}));
    points[6].position -= 1;
    EXPECT_TRUE(backlashOf(points, {}));
    std::swap(points[1], points[2]);
    EXPECT_FALSE(backlashOf(points, {}));
    points.pop_back();
    EXPECT_FALSE(backlashOf(points, {}));
}

// By hand: half the backlash's half-width of 2 is 1; beside 0.75 below that makes 1.25, beside nothing
// above 1.
TEST(BacklashTest, WidensTheVertexByWhatIsNotKnownOfIt)
{
    const Vertex vertex = widenedBy({5, 4.25, 5}, {2, 0, 4});

    EXPECT_EQ(vertex, (Vertex{5, 3.75, 6}));
}

} // namespace
} // namespace coldarc::test
