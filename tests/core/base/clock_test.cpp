#include "core/base/clock.h"

#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

namespace coldarc {
namespace {

using namespace std::chrono_literals;

TEST(SystemClockTest, NeverRunsBackwardsWithinOneBoot)
{
    const SystemClock clock;
    Stamp before = clock.now();
    for (int i = 0; i < 1000; ++i) {
        const Stamp now = clock.now();
        ASSERT_GE(now.sinceBoot, before.sinceBoot);
        ASSERT_GE(now.sinceBoot, now.asleep);
        before = now;
    }
}

TEST(SystemClockTest, NamesTheMachineAndTheBootTheSameEveryTime)
{
    const Stamp one = SystemClock().now();
    const Stamp another = SystemClock().now();

    EXPECT_FALSE(one.boot.isEmpty());
    EXPECT_EQ(one.machine.size(), 16);
    EXPECT_EQ(one.machine, another.machine);
    EXPECT_EQ(one.boot, another.boot);
}

TEST(FakeClockTest, CountsSleepOnTheBootClockAndStartsItAnewWithABoot)
{
    test::FakeClock clock;
    const Stamp start = clock.now();

    clock.advance(2min);
    clock.sleep(10min);
    EXPECT_EQ(clock.now().sinceBoot - start.sinceBoot, 12min);
    EXPECT_EQ(clock.now().asleep, 10min);

    clock.reboot(5min, 1min);
    EXPECT_NE(clock.now().boot, start.boot);
    EXPECT_EQ(clock.now().sinceBoot, 1min);
    EXPECT_EQ(clock.now().asleep, 0min);
    EXPECT_EQ(clock.now().wall - start.wall, 18min);
}

} // namespace
} // namespace coldarc
