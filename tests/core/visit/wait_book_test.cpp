#include "core/visit/wait_book.h"

#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

#include <random>

namespace coldarc::test {
namespace {

using namespace visit;
using namespace std::chrono_literals;
using machine::Wait;
using std::chrono::milliseconds;

class WaitBookTest : public ::testing::Test {
protected:
    FakeClock clock;
    WaitClock cool = started(Wait::Cool, 12min, clock.now());
};

TEST_F(WaitBookTest, CountsWhatOneBootClockWitnessed)
{
    clock.advance(11min + 59s);
    EXPECT_FALSE(witnessed(cool, clock.now()).isOver());
    clock.advance(1s);
    EXPECT_TRUE(witnessed(cool, clock.now()).isOver());
}

TEST_F(WaitBookTest, NeverCountsTheWallClock)
{
    clock.setWall(clock.now().wall + 5h);
    EXPECT_EQ(witnessed(cool, clock.now()).credited, 0ms);
    clock.setWall(clock.now().wall - 20h);
    clock.advance(3min);
    EXPECT_EQ(witnessed(cool, clock.now()).credited, milliseconds(3min));
}

TEST_F(WaitBookTest, AfterSleepAsksWhetherTheFanRanOn)
{
    clock.sleep(15min);

    WaitClock now = witnessed(cool, clock.now());
    EXPECT_TRUE(now.asksForFan);
    EXPECT_FALSE(now.isOver());

    now.asksForFan = false; // "it ran on"
    EXPECT_TRUE(now.isOver());
    EXPECT_EQ(now.credited, milliseconds(15min));
}

TEST_F(WaitBookTest, AfterARestartKeepsWhatWasWitnessedAndAddsTheNewBootsOwnReading)
{
    clock.advance(4min);
    const WaitClock before = witnessed(cool, clock.now());
    clock.reboot(2h, 90s); // two hours off count for nothing

    const WaitClock now = witnessed(before, clock.now());

    EXPECT_EQ(now.credited, milliseconds(5min + 30s));
    EXPECT_TRUE(now.asksForFan);
}

TEST_F(WaitBookTest, OnAnotherLaptopStartsAgain)
{
    clock.advance(11min);
    const WaitClock before = witnessed(cool, clock.now());
    clock.otherMachine(40min);

    const WaitClock now = witnessed(before, clock.now());

    EXPECT_EQ(now.credited, 0ms);
    EXPECT_FALSE(now.isOver());
}

TEST_F(WaitBookTest, ABleedDownNeedsNoFanAndCountsSleep)
{
    const WaitClock bleed = started(Wait::Bleed, 5min, clock.now());
    clock.sleep(5min);
    EXPECT_TRUE(witnessed(bleed, clock.now()).isOver());
}

// The property of the architecture's rule of time: credited time never exceeds true time, whatever the clocks
// do.
TEST_F(WaitBookTest, NeverCreditsMoreThanTheTrueTime)
{
    constexpr int kNights = 20'000;
    for (int seed = 0; seed < kNights; ++seed) {
        std::mt19937 random(static_cast<unsigned>(seed));
        FakeClock laptop;
        WaitClock wait = started(seed % 2 ? Wait::Cool : Wait::Bleed, 24h, laptop.now());
        milliseconds truth{0};
        milliseconds awakeOnly{0};
        bool onlyTheWallWasTouched = true;
        for (int event = 0; event < 12; ++event) {
            const milliseconds some(static_cast<int>(random() % 600'000));
            const milliseconds more(static_cast<int>(random() % 600'000));
            switch (random() % 6) {
            case 0:
                laptop.setWall(WallTime(milliseconds(static_cast<qint64>(random()) * 1000)));
                break;
            case 1:
                laptop.sleep(some);
                truth += some;
                onlyTheWallWasTouched = false;
                break;
            case 2:
                laptop.reboot(some, more);
                truth += some + more;
                onlyTheWallWasTouched = false;
                break;
            case 3:
                laptop.otherMachine(some); // it was up all that time, and the other one was in hand
                onlyTheWallWasTouched = false;
                break;
            default:
                laptop.advance(some);
                truth += some;
                awakeOnly += some;
                if (random() % 2)
                    wait = witnessed(wait, laptop.now()); // an entry is made
            }
            if (event % 3 == 0 || random() % 2)
                wait = witnessed(wait, laptop.now());
            ASSERT_LE(witnessed(wait, laptop.now()).credited, truth) << "seed " << seed;
        }
        if (onlyTheWallWasTouched) {
            ASSERT_EQ(witnessed(wait, laptop.now()).credited, truth) << "seed " << seed;
        }
    }
}

} // namespace
} // namespace coldarc::test
