#include "core/people/attempts.h"

#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

namespace coldarc::people {
namespace {

using namespace std::chrono_literals;
using Kind = AttemptVerdict::Kind;

struct DelayCase {
    int wrong;
    std::chrono::seconds expected;
    friend void PrintTo(const DelayCase& c, std::ostream* out) { *out << c.wrong << " wrong"; }
};

class DelayTest : public ::testing::TestWithParam<DelayCase> {};

TEST_P(DelayTest, DoublesFromTheFourthWrongTryToAnHour)
{
    EXPECT_EQ(delayAfter(GetParam().wrong), GetParam().expected);
}

INSTANTIATE_TEST_SUITE_P(ByHand, DelayTest,
                         ::testing::Values(DelayCase{0, 0s}, DelayCase{3, 0s}, DelayCase{4, 30s},
                                           DelayCase{5, 60s}, DelayCase{6, 120s}, DelayCase{9, 960s},
                                           DelayCase{10, 1920s}, DelayCase{11, 3600s}, DelayCase{99, 3600s}),
                         [](const auto& instance) { return "After" + std::to_string(instance.param.wrong); });

Attempts wrongTimes(int times, const Stamp& now)
{
    Attempts attempts;
    for (int time = 0; time < times; ++time)
        attempts = afterWrong(attempts, now);
    return attempts;
}

TEST(AttemptsTest, AreFreeUntilTheFourth)
{
    test::FakeClock clock;

    EXPECT_EQ(attemptVerdict({}, clock.now()).kind, Kind::Free);
    EXPECT_EQ(attemptVerdict(wrongTimes(3, clock.now()), clock.now()).kind, Kind::Free);
    EXPECT_EQ(attemptVerdict(wrongTimes(4, clock.now()), clock.now()), (AttemptVerdict{Kind::Waits, 30s}));
}

TEST(AttemptsTest, AreFreeAgainWhenTheWaitIsOver)
{
    test::FakeClock clock;
    const Attempts attempts = wrongTimes(4, clock.now());

    clock.advance(29'999ms);
    EXPECT_EQ(attemptVerdict(attempts, clock.now()), (AttemptVerdict{Kind::Waits, 1ms}));
    clock.advance(1ms);
    EXPECT_EQ(attemptVerdict(attempts, clock.now()).kind, Kind::Free);
}

TEST(AttemptsTest, WaitOnWhateverTheWallClockIsSetTo)
{
    test::FakeClock clock;
    const Attempts attempts = wrongTimes(11, clock.now());

    clock.setWall(clock.now().wall + 48h);
    EXPECT_EQ(attemptVerdict(attempts, clock.now()), (AttemptVerdict{Kind::Waits, 1h}));
    clock.reboot(0ms, 1min);
    clock.setWall(clock.now().wall + 48h);
    EXPECT_EQ(attemptVerdict(attempts, clock.now()), (AttemptVerdict{Kind::Waits, 59min}));
}

TEST(AttemptsTest, OnAnotherComputerNeverWaitLongerThanTheWholeWait)
{
    test::FakeClock clock;
    const Attempts attempts = wrongTimes(4, clock.now());

    clock.otherMachine(5min);
    clock.setWall(clock.now().wall - 24h);
    EXPECT_EQ(attemptVerdict(attempts, clock.now()), (AttemptVerdict{Kind::Waits, 30s}));
    clock.setWall(clock.now().wall + 25h);
    EXPECT_EQ(attemptVerdict(attempts, clock.now()).kind, Kind::Free);
}

TEST(AttemptsTest, EndAtAHundred)
{
    test::FakeClock clock;
    const Attempts last = wrongTimes(99, clock.now());
    const Attempts over = wrongTimes(100, clock.now());

    clock.advance(24h);

    EXPECT_EQ(attemptVerdict(last, clock.now()).kind, Kind::Free);
    EXPECT_EQ(attemptVerdict(over, clock.now()).kind, Kind::Exhausted);
}

} // namespace
} // namespace coldarc::people
