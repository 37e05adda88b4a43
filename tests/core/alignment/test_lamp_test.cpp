#include "core/alignment/test_lamp.h"

#include "tests/support/testing.h"

#include <cmath>
#include <vector>

namespace coldarc::test {
namespace {

using namespace coldarc::alignment;

/// The pinned lamp without anything that jumps, so that a reading is the light.
LampNature calm(LampNature nature = pinnedTestLamp())
{
    nature.noise = 0;
    nature.warmUp = 0;
    return nature;
}

/// Knobs by turns to their own best until nothing moves.
SimulatedLight atPeak(const LampNature& nature)
{
    SimulatedLight light(nature, 5);
    for (int cycle = 0; cycle < 60; ++cycle)
        for (int axis = 0; axis < 3; ++axis) {
            light.turnTo(axis, -1000);
            light.turnTo(axis, light.bestKnob(axis));
        }
    return light;
}

double meanOf(const std::vector<double>& values)
{
    double sum = 0;
    for (const double value : values)
        sum += value;
    return sum / static_cast<double>(values.size());
}

TEST(TestLampTest, AnswersTheSameToTheSameSeed)
{
    SimulatedLight one(pinnedTestLamp(), 11);
    SimulatedLight same(pinnedTestLamp(), 11);
    SimulatedLight other(pinnedTestLamp(), 12);

    const double light = one.read();

    EXPECT_EQ(light, same.read());
    EXPECT_NE(light, other.read());
}

TEST(TestLampTest, FallsByAFifthAtHalfRange)
{
    SimulatedLight light = atPeak(calm());
    EXPECT_NEAR(light.loss(), 0, 1e-9);

    light.turnTo(1, light.knob(1) + 16);

    EXPECT_NEAR(light.loss(), 0.2, 1e-6);
    EXPECT_NEAR(light.read(), 0.8 * 48, 1e-4);
}

// Both off by one half range: squares 2, product 2 * 0.4: the light falls by 0.8^2.8.
TEST(TestLampTest, CouplesItsAxes)
{
    SimulatedLight light = atPeak(calm());
    light.turnTo(0, light.knob(0) + 16);
    light.turnTo(1, light.knob(1) + 16);

    EXPECT_NEAR(1 - light.loss(), std::pow(0.8, 2.8), 1e-6);
    // and the best of the first, with the second off by one, is 0.4 the other way
    SimulatedLight peak = atPeak(calm());
    const double best = peak.bestKnob(0);
    peak.turnTo(1, peak.knob(1) + 16);
    EXPECT_NEAR(peak.bestKnob(0), best - 0.4 * 16, 1e-6);
}

TEST(TestLampTest, ToldBestIsTheBestThatAScanFinds)
{
    for (const LampNature& nature : {calm(), calm(skewedTestLamp())}) {
        SimulatedLight light(nature, 2);
        light.settle();
        light.turnTo(0, 7);
        for (int axis = 0; axis < 3; ++axis) {
            double best = 1;
            double at = 0;
            for (int i = -600; i <= 600; ++i) {
                SimulatedLight tried = light;
                tried.turnTo(axis, i / 10.0);
                if (tried.loss() < best) {
                    best = tried.loss();
                    at = i / 10.0;
                }
            }
            EXPECT_NEAR(light.bestKnob(axis), at, 0.051);
        }
    }
}

TEST(TestLampTest, SkewedFlanksFallAtTheirOwnWidths)
{
    SimulatedLight light = atPeak(calm(skewedTestLamp()));
    const double top = light.knob(2);

    light.turnTo(2, top - 0.7 * 16);
    EXPECT_NEAR(light.loss(), 0.2, 1e-6);
    light.turnTo(2, top + 1.6 * 16);
    EXPECT_NEAR(light.loss(), 0.2, 1e-6);
}

TEST(TestLampTest, LampLagsBehindAKnobWithPlay)
{
    LampNature nature = calm();
    nature.axes[0].backlash = 4;
    SimulatedLight light(nature, 5);
    light.turnTo(0, 10);
    const double forward = light.read();

    light.turnTo(0, 6.5); // within the play: the lamp stays
    EXPECT_EQ(light.read(), forward);
    light.turnTo(0, 5);
    EXPECT_NE(light.read(), forward);
    light.turn(Move{0, Direction::Forward, Eighths{5}, Eighths{6}});
    EXPECT_NEAR(light.read(), forward, 1e-12);
}

TEST(TestLampTest, MovesAsTold)
{
    SimulatedLight light(pinnedTestLamp(), 5);
    light.turn(Move{1, Direction::Back, Eighths{3}, Eighths{2}});
    EXPECT_EQ(light.knob(1), -3);
    light.turn(Move{1, Direction::Forward, Eighths{5}, Eighths{0}});
    EXPECT_EQ(light.knob(1), 2);
}

// 8 % missing at the strike; exp(-1) of that twelve readings later.
TEST(TestLampTest, WarmsUp)
{
    LampNature nature = pinnedTestLamp();
    nature.noise = 0;
    SimulatedLight light(nature, 5);
    const double warm = 48 * (1 - light.loss());

    EXPECT_NEAR(light.read() / warm, 0.92, 1e-9);
    for (int i = 1; i < 12; ++i)
        (void)light.read();
    EXPECT_NEAR(light.read() / warm, 1 - 0.08 / std::exp(1.0), 1e-9);
}

// 3000 readings of 1 %: mean within 4 * 1 % / sqrt(3000) = 0.073 %, spread within 4 * 1 % / sqrt(6000) =
// 0.052 %.
TEST(TestLampTest, NoiseHasTheSpreadThatItSays)
{
    LampNature nature = pinnedTestLamp();
    nature.warmUp = 0;
    SimulatedLight light(nature, 5);
    const double truth = 48 * (1 - light.loss());
    std::vector<double> off;
    for (int i = 0; i < 3000; ++i)
        off.push_back(std::log(light.read() / truth));
    std::vector<double> squares;
    for (const double value : off)
        squares.push_back(value * value);

    EXPECT_NEAR(meanOf(off), 0, 0.00073);
    EXPECT_NEAR(std::sqrt(meanOf(squares)), 0.01, 0.00052);
}

// A wander of which 0.8 is kept: neighbouring readings go together by 0.8.
TEST(TestLampTest, ArcWandersSlowly)
{
    LampNature nature = calm();
    nature.wander = 0.01;
    SimulatedLight light(nature, 5);
    const double truth = 48 * (1 - light.loss());
    double squares = 0;
    double products = 0;
    double before = 0;
    for (int i = 0; i < 5000; ++i) {
        const double off = std::log(light.read() / truth);
        squares += off * off;
        products += off * before;
        before = off;
    }

    EXPECT_NEAR(std::sqrt(squares / 5000), 0.01, 0.0015);
    EXPECT_NEAR(products / squares, 0.8, 0.05);
}

// The settle wait moves each peak by 0.2 half ranges, 3.2 eighths (standard deviation); 900 of them.
TEST(TestLampTest, SettlingMovesThePeak)
{
    double squares = 0;
    for (std::uint64_t seed = 1; seed <= 300; ++seed) {
        LampNature nature = pinnedTestLamp();
        nature.coupling = 0;
        SimulatedLight light(nature, seed);
        for (int axis = 0; axis < 3; ++axis) {
            SimulatedLight later = light;
            later.settle();
            const double moved = later.bestKnob(axis) - light.bestKnob(axis);
            squares += moved * moved;
            EXPECT_LE(std::abs(light.bestKnob(axis)), 0.8 * 16); // and it began within 0.8 half ranges
        }
    }
    EXPECT_NEAR(std::sqrt(squares / 900), 3.2, 0.4);
}

TEST(TestLampTest, FitsTheKnobsOfARun)
{
    RunSetup setup;
    setup.axes.resize(2);
    setup.axes[0].step = {4};
    setup.axes[1].step = {2};

    const LampNature nature = testLampFor(setup);

    ASSERT_EQ(nature.axes.size(), 2u);
    EXPECT_EQ(nature.axes[0].halfRange, 8); // the ends of a scan stand two steps off
    EXPECT_EQ(nature.axes[1].halfRange, 4);
    EXPECT_EQ(nature.noise, pinnedTestLamp().noise);
}

} // namespace
} // namespace coldarc::test
