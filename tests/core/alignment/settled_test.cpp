#include "core/alignment/settled.h"

#include "tests/support/testing.h"

#include <vector>

namespace coldarc::test {
namespace {

using namespace coldarc::alignment;
using namespace std::chrono_literals;
using State = SettledVerdict::State;

TEST(SettledTest, NeedsThreeLooksFiveMinutesApart)
{
    std::vector<RestReading> readings = {{0ms, 48}, {5min, 48}};
    EXPECT_EQ(settled(readings).state, State::TooFewLooks);

    readings.push_back({10min - 1ms, 48});
    EXPECT_EQ(settled(readings).state, State::TooFewLooks);
    EXPECT_EQ(settled(readings).looks, 2);
    EXPECT_EQ(settled(readings).wait, 1ms);

    readings.push_back({10min, 48});
    EXPECT_EQ(settled(readings).state, State::Settled);
    EXPECT_EQ(settled({}).state, State::TooFewLooks);
}

// 0.5 % of a mean of 48 is 0.24.
TEST(SettledTest, AllowsHalfAPercent)
{
    const auto spread = [](double by) {
        return settled(std::vector<RestReading>{{0ms, 48 - by / 2}, {5min, 48}, {10min, 48 + by / 2}});
    };

    EXPECT_EQ(spread(0.2399).state, State::Settled);
    EXPECT_EQ(spread(0.2401).state, State::Moving);
    EXPECT_NEAR(spread(0.48).spread, 0.01, 1e-12);
    EXPECT_EQ(spread(0.48).wait, 5min);
}

TEST(SettledTest, JudgesTheLatestLooksOnly)
{
    const std::vector<RestReading> readings = {{0ms, 44}, {5min, 47}, {10min, 48}, {15min, 48}, {20min, 48}};

    EXPECT_EQ(settled(std::span(readings).first(4)).state, State::Moving);
    EXPECT_EQ(settled(readings).state, State::Settled);
}

// Each look is the mean of 47.5 and 48.5.
TEST(SettledTest, TakesReadingsOfOneMinuteAsOneLook)
{
    std::vector<RestReading> readings;
    for (const auto at : {0min, 5min, 10min}) {
        readings.push_back({at, 47.5});
        readings.push_back({at + 1min, 48.5});
        if (at < 10min)
            readings.push_back({at + 2min, 90}); // between two looks: left out
    }

    EXPECT_EQ(settled(readings).state, State::Settled);
    EXPECT_EQ(settled(readings).looks, 3);
    EXPECT_NEAR(settled(readings).spread, 0, 1e-12);
}

} // namespace
} // namespace coldarc::test
