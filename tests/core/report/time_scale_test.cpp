#include "core/report/time_scale.h"

#include "tests/support/testing.h"

namespace coldarc::report {
namespace {

using namespace std::chrono_literals;

TEST(TimeScaleTest, TicksAreTenAtMostAndStandAtRoundMinutes)
{
    EXPECT_EQ(ticksOver(1), std::vector<double>{0});
    EXPECT_EQ(ticksOver(12), (std::vector<double>{0, 5, 10}));
    EXPECT_EQ(ticksOver(100), (std::vector<double>{0, 15, 30, 45, 60, 75, 90}));
    EXPECT_EQ(ticksOver(660).back(), 600); // two hours apart
    for (double minutes = 1; minutes < 100000; minutes *= 1.7)
        EXPECT_LE(ticksOver(minutes).size(), 10U) << minutes;
}

TEST(TimeScaleTest, AClockThatWasSetBackTakesNoTime)
{
    const WallTime from{1h};
    EXPECT_EQ(minutesBetween(from, from + 90s), 1.5);
    EXPECT_EQ(minutesBetween(from, from - 90s), 0);
    EXPECT_EQ(after(from, 1.5), from + 90s);
}

} // namespace
} // namespace coldarc::report
