#include "core/alignment/plan.h"

#include "tests/core/alignment/driven_run.h"
#include "tests/support/testing.h"

#include <boost/random/mersenne_twister.hpp>
#include <boost/random/normal_distribution.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <memory>
#include <utility>
#include <vector>

namespace coldarc::test {
namespace {

using namespace coldarc::alignment;

using Answer = std::function<double(const Knobs& knobs)>;

/// A bell with its top at these knobs, as wide as a scan; a tenth of a percent of noise, which copies share.
/// No reading stands out by chance with this seed.
class Bell {
public:
    explicit Bell(std::vector<double> top, double bend = -0.00087)
        : m_top(std::move(top))
        , m_bend(bend)
    {
    }
    double operator()(const Knobs& knobs)
    {
        double fall = 0.001 * m_normal(*m_chance);
        for (std::size_t i = 0; i < m_top.size(); ++i)
            fall += m_bend * std::pow(knobs[i].count - m_top[i], 2);
        return 48 * std::exp(fall);
    }

private:
    std::vector<double> m_top;
    double m_bend;
    std::shared_ptr<boost::random::mt19937_64> m_chance = std::make_shared<boost::random::mt19937_64>(2);
    boost::random::normal_distribution<double> m_normal;
};

class PlanTest : public ::testing::Test {
protected:
    /// Follows advice for so many readings, or until nothing more is to be read.
    void follow(const Answer& answer, int readings)
    {
        for (int i = 0; i < readings; ++i) {
            const Advice advice = advise(state());
            if (advice.kind != Advice::Kind::Read && advice.kind != Advice::Kind::ReadAgain)
                return;
            read(advice.axis, advice.knobs, answer(advice.knobs));
        }
    }
    /// Follows advice up to this phase.
    void followTo(Phase phase, const Answer& answer)
    {
        for (int i = 0; i < 200 && state().phase != phase; ++i)
            follow(answer, 1);
    }
    void read(int axis, Knobs knobs, double light) { append(Reading{axis, std::move(knobs), light, next()}); }
    void waitOver() { append(SettleWaitOver{advise(state()).knobs, next()}); }
    void append(const RunEntry& entry) { m_run.entries.push_back(entry); }
    [[nodiscard]] RunState state() const { return foldRun(m_run); }
    /// To the first reading after the settle wait.
    void settle(const Answer& answer)
    {
        follow(answer, 1000);
        waitOver();
    }

    LightRun m_run{{{AxisSetup{}, AxisSetup{}, AxisSetup{}}}, {}};

private:
    Stamp next()
    {
        m_now.sinceBoot += std::chrono::seconds(20);
        return m_now;
    }
    Stamp m_now;
};

TEST_F(PlanTest, BeginsOneStepBackAndComesForwardToIt)
{
    const Advice advice = advise(state());

    EXPECT_EQ(advice.kind, Advice::Kind::Read);
    EXPECT_EQ(advice.axis, 0);
    EXPECT_EQ(advice.reading, 1);
    EXPECT_EQ(advice.ofReadings, 5);
    EXPECT_EQ(advice.knobs, (Knobs{{-8}, {0}, {0}}));
    EXPECT_EQ(advice.moves, (std::vector{Move{0, Direction::Back, Eighths{8}, Eighths{2}}}));
}

TEST_F(PlanTest, SetsOneKnobBeforeItTurnsTheNext)
{
    follow(Bell({5, 0, 0}), 5);

    const Advice advice = advise(state());

    EXPECT_EQ(advice.axis, 1);
    ASSERT_EQ(advice.moves.size(), 2u);
    EXPECT_EQ(advice.moves[0].axis, 0);
    EXPECT_EQ(advice.moves[1].axis, 1);
    EXPECT_EQ(advice.knobs, (Knobs{{5}, {-8}, {0}}));
}

TEST_F(PlanTest, SetsTheLastKnobBeforeTheNextCycleTurnsTheFirst)
{
    const Bell bell({5, -6, 3});
    settle(bell);
    follow(bell, 15);

    const Advice advice = advise(state());

    EXPECT_EQ(advice.axis, 0);
    ASSERT_EQ(advice.moves.size(), 2u);
    EXPECT_EQ(advice.moves[0].axis, 2);
    EXPECT_EQ(advice.moves[1].axis, 0);
}

TEST_F(PlanTest, ReadsEachAxisFiveTimesBeforeTheWaitAndProvesNothing)
{
    follow(Bell({5, -6, 3}), 1000);

    EXPECT_EQ(m_run.entries.size(), 15u);
    EXPECT_EQ(advise(state()).kind, Advice::Kind::Wait);
    EXPECT_EQ(advise(state()).knobs, (Knobs{{5}, {-6}, {3}}));
    EXPECT_EQ(state().left, std::nullopt);
    EXPECT_FALSE(state().isWithinTarget());
    const RunState now = state(); // what a range for walks over has to outlive it
    for (const ScanRecord& scan : now.done) {
        EXPECT_EQ(scan.verdict, ScanVerdict::SetOnly);
        EXPECT_EQ(scan.vertex, std::nullopt);
    }
}

TEST_F(PlanTest, BeforeTheWaitGoesNoFurtherThanItHasSeen)
{
    follow(Bell({40, 0, 0}), 5);

    EXPECT_EQ(advise(state()).knobs[0], Eighths{16});
}

TEST_F(PlanTest, StopsAfterTwoCyclesWhenLittleIsLeft)
{
    const Bell bell({5, -6, 3});
    settle(bell);
    follow(bell, 30);
    EXPECT_EQ(state().phase, Phase::Final);
    EXPECT_FALSE(state().isWithinTarget());
    EXPECT_EQ(notYet(state()), NotYet::NotRead);
    follow(bell, 1000);

    EXPECT_EQ(m_run.entries.size(), 15u + 1 + 30 + 1);
    EXPECT_EQ(state().phase, Phase::Done);
    EXPECT_TRUE(state().isWithinTarget());
    EXPECT_LT(*state().left, 0.001);
    EXPECT_EQ(state().wanted, (Knobs{{5}, {-6}, {3}}));
    EXPECT_EQ(advise(state()).kind, Advice::Kind::Stop);
}

TEST_F(PlanTest, SaysNoNumberBeforeAWholeCycle)
{
    const Bell bell({5, -6, 3});
    settle(bell);
    follow(bell, 14);
    EXPECT_EQ(state().left, std::nullopt);

    follow(bell, 1);

    EXPECT_NE(state().left, std::nullopt);
    EXPECT_FALSE(state().isWithinTarget());
    EXPECT_EQ(wholeCycles(state()), 1);
    EXPECT_EQ(notYet(state()), NotYet::TooFewCycles);
}

TEST_F(PlanTest, GoesOnForAThirdCycleWhileTheTargetIsNotReached)
{
    m_run.setup.target = 1e-9;
    const Bell bell({5, -6, 3});
    settle(bell);
    follow(bell, 1000);

    EXPECT_EQ(state().cycle, 3);
    EXPECT_EQ(state().phase, Phase::Done);
    EXPECT_FALSE(state().isWithinTarget());
    EXPECT_EQ(notYet(state()), NotYet::TooMuchLeft);
}

TEST_F(PlanTest, ScansAgainRoundTheEndThatThePeakLiesBeyond)
{
    settle(Bell({0, 0, 0}));
    follow(Bell({-30, 0, 0}), 5);

    ASSERT_EQ(state().done.back().verdict, ScanVerdict::Recentre);
    EXPECT_EQ(state().scan.axis, 0);
    EXPECT_EQ(state().scan.middle, Eighths{-16});
    EXPECT_EQ(state().scan.step, Eighths{8});
}

TEST_F(PlanTest, FollowsASlopeWithoutCurvatureUpwards)
{
    settle(Bell({0, 0, 0}));
    const auto slope = [](const Knobs& knobs) { return 48 * std::exp(0.004 * knobs[0].count); };
    follow(slope, 5);

    EXPECT_EQ(state().done.back().verdict, ScanVerdict::Recentre);
    EXPECT_EQ(state().scan.middle, Eighths{16});
}

TEST_F(PlanTest, WidensAScanThatShowsNoPeakAndNeverNarrowsIt)
{
    settle(Bell({0, 0, 0}));
    follow(Bell({0, 0, 0}, 0), 5);

    ASSERT_EQ(state().done.back().verdict, ScanVerdict::Widen);
    EXPECT_EQ(state().scan.axis, 0);
    EXPECT_EQ(state().scan.step, Eighths{16});
}

TEST_F(PlanTest, GivesUpOnAKnobThatMovesNothing)
{
    settle(Bell({0, 0, 0}));
    follow([](const Knobs&) { return 48.0; }, 1000);

    EXPECT_EQ(state().phase, Phase::Stuck);
    EXPECT_EQ(advise(state()).kind, Advice::Kind::Stuck);
    EXPECT_FALSE(state().isWithinTarget());
    EXPECT_EQ(notYet(state()), NotYet::NoPeak) << "it is not that a cycle is missing";
    EXPECT_EQ(std::ranges::count(state().done, 1, &ScanRecord::cycle), 4);
}

TEST_F(PlanTest, RefusesASweepThatSomebodyReadOneWay)
{
    Bell bell({0, 0, 0});
    settle(bell);
    for (int i = -2; i <= 2; ++i) {
        Knobs knobs = state().wanted;
        knobs[0] = Eighths{8 * i};
        read(0, knobs, bell(knobs));
    }

    ASSERT_EQ(state().done.back().verdict, ScanVerdict::Refused);
    EXPECT_EQ(state().done.back().refusal, FitRefusal::OneWaySweep);
    EXPECT_EQ(state().scan.axis, 0);
    EXPECT_TRUE(state().scan.points.empty());
}

TEST_F(PlanTest, AsksForAPlaceAgainWhoseReadingDoesNotFitAndLeavesOutASlip)
{
    Bell bell({0, 0, 0});
    settle(bell);
    for (int i = 0; i < 5; ++i) {
        const Advice advice = advise(state());
        read(0, advice.knobs, bell(advice.knobs) * (i == 1 ? 1.2 : 1));
    }
    const Advice again = advise(state());
    ASSERT_EQ(again.kind, Advice::Kind::ReadAgain);
    EXPECT_EQ(again.knobs[0], Eighths{-16}); // the second of the mirrored order stands two steps back

    follow(bell, 1);

    const ScanRecord scan = state().done.back();
    EXPECT_EQ(scan.verdict, ScanVerdict::Peak);
    EXPECT_EQ(scan.leftOut.size(), 1u);
    EXPECT_EQ(scan.points.size(), 5u);
    EXPECT_EQ(scan.setting, Eighths{0});
}

TEST_F(PlanTest, KeepsAReadingThatRepeats)
{
    Bell bell({0, 0, 0});
    settle(bell);
    const auto bump = [&](const Knobs& knobs) { return bell(knobs) * (knobs[0] == Eighths{16} ? 1.05 : 1); };
    follow(bump, 5);
    ASSERT_EQ(advise(state()).kind, Advice::Kind::ReadAgain);

    follow(bump, 1);

    EXPECT_TRUE(state().done.back().leftOut.empty());
    EXPECT_EQ(state().done.back().points.size(), 6u);
}

TEST_F(PlanTest, ReadsUpAndBackOnceAfterTheWaitWhereBacklashIsSuspected)
{
    m_run.setup.axes[1].backlashSuspected = true;
    const Bell bell({5, -6, 3});
    settle(bell);
    EXPECT_EQ(m_run.entries.size(), 16u); // before the wait as ever
    follow(bell, 1000);

    EXPECT_EQ(m_run.entries.size(), 16u + 30 + 4 + 1);
    EXPECT_EQ(std::ranges::count(state().done, Order::UpAndBack9, &ScanRecord::order), 1);
    const RunState now = state();
    const auto measured = std::ranges::find(now.done, Order::UpAndBack9, &ScanRecord::order);
    EXPECT_EQ(measured->axis, 1);
    ASSERT_TRUE(measured->backlash);
    EXPECT_FALSE(measured->backlash->isSeen());
}

TEST_F(PlanTest, LeavesOutASlipOnTheWayUpAndBackAndMeasuresThePlayAnew)
{
    m_run.setup.axes[0].backlashSuspected = true;
    Bell bell({0, 0, 0});
    settle(bell);
    for (int i = 0; i < 9; ++i) {
        const Advice advice = advise(state());
        EXPECT_EQ(advice.kind, Advice::Kind::Read);
        read(0, advice.knobs, bell(advice.knobs) * (i == 6 ? 1.2 : 1));
    }

    const ScanRecord slipped = state().done.back();
    EXPECT_EQ(slipped.verdict, ScanVerdict::Peak);
    EXPECT_EQ(slipped.leftOut.size(), 1u);
    EXPECT_FALSE(slipped.backlash);
    for (int i = 0; i < 40 && state().cycle < 2; ++i)
        follow(bell, 1);
    EXPECT_EQ(state().scan.axis, 0);
    EXPECT_EQ(state().scan.order, Order::UpAndBack9);
}

TEST_F(PlanTest, ComesForwardFromFurtherBackThanThePlayThatItSaw)
{
    LampNature nature = pinnedTestLamp();
    nature.noise = 0.002;
    nature.axes[0].backlash = 4;
    RunSetup setup = setupFor(nature);
    setup.axes[0].backlashSuspected = true;
    const DrivenRun driven = driveRun(setup, SimulatedLight(nature, 4));

    const auto measured = std::ranges::find(driven.state.done, Order::UpAndBack9, &ScanRecord::order);
    ASSERT_NE(measured, driven.state.done.end());
    EXPECT_TRUE(measured->backlash->isSeen());
    EXPECT_NEAR(measured->backlash->eighths, 4, 1);
    EXPECT_GE(driven.state.pasts[0].count, measured->backlash->high);
    EXPECT_LT(driven.state.pasts[0], setup.axes[0].step); // and no longer by a whole step
    EXPECT_EQ(driven.state.pasts[1], setup.past);
    EXPECT_LT(driven.loss, 0.002);
}

TEST_F(PlanTest, ComesForwardToEverySettingButOnTheWayBack)
{
    m_run.setup.axes[2].backlashSuspected = true;
    const Bell bell({5, -6, 3});
    for (int i = 0; i < 60; ++i) {
        const RunState now = state();
        const Advice advice = advise(now);
        for (const Move& move : advice.moves) {
            const bool isWayBack =
                now.scan.order == Order::UpAndBack9 && move.axis == 2 && advice.reading > 5;
            if (move.direction == Direction::Back) {
                EXPECT_EQ(move.past.count > 0, !isWayBack) << i;
            }
        }
        if (advice.kind == Advice::Kind::Wait)
            waitOver();
        else
            follow(bell, 1);
    }
}

TEST_F(PlanTest, TakesUpThePlayThatTheWayBackLeft)
{
    m_run.setup.axes[0].backlashSuspected = true;
    m_run.setup.past = Eighths{20}; // more than the way from the last place to the peak
    const Bell bell({0, 0, 0});
    settle(bell);
    follow(bell, 9);

    const Advice advice = advise(state());

    ASSERT_FALSE(advice.moves.empty());
    EXPECT_EQ(advice.moves.front(), (Move{0, Direction::Forward, Eighths{16}, Eighths{20}}));
}

TEST_F(PlanTest, NeverCallsASkewedPeakReached)
{
    m_run.setup.target = 0.9;
    m_run.setup.leastCycles = 1;
    m_run.setup.mostCycles = 1; // no cycle is left to narrow in
    Bell bell({0, 0, 0});
    const auto skewed = [&](const Knobs& knobs) {
        const double x = knobs[2].count;
        return bell(knobs) * std::exp(x < 0 ? -0.0009 * x * x : 0.0005 * x * x);
    };
    settle(skewed);
    followTo(Phase::Done, skewed);

    ASSERT_EQ(state().phase, Phase::Done);
    EXPECT_LT(*state().left, 0.9);
    EXPECT_FALSE(state().isWithinTarget());
}

TEST_F(PlanTest, GoesOnToNarrowEvenWhereTheNumberWouldDo)
{
    m_run.setup.target = 0.9;
    m_run.setup.leastCycles = 1;
    Bell bell({0, 0, 0});
    const auto skewed = [&](const Knobs& knobs) {
        const double x = knobs[2].count;
        return bell(knobs) * std::exp(x < 0 ? -0.0009 * x * x : 0.0005 * x * x);
    };
    settle(skewed);
    for (int i = 0; i < 20 && state().cycle == 1 && state().phase == Phase::AfterWait; ++i)
        follow(skewed, 1);

    EXPECT_EQ(state().phase, Phase::AfterWait);
    EXPECT_EQ(state().cycle, 2);
    EXPECT_EQ(state().steps[2], Eighths{4});
}

// Three times the noise in the cubic pattern of each scan: too little to stand out as scatter, enough
// together.
TEST_F(PlanTest, SeesASlightSkewByTheMirroredCycles)
{
    m_run.setup.mostCycles = 2;
    Bell bell({0, 0, 0});
    const auto skewed = [&](const Knobs& knobs) {
        const double x = knobs[2].count;
        return bell(knobs) * std::exp(x < 0 ? -4e-5 * x * x : 4e-5 * x * x);
    };
    settle(skewed);
    followTo(Phase::Final, skewed);

    EXPECT_EQ(state().steps, (std::vector<Eighths>{{8}, {8}, {4}}));
}

TEST_F(PlanTest, NarrowsTheScanOfASkewedPeakAndDoesNotCallItReached)
{
    Bell bell({0, 0, 0});
    const auto skewed = [&](const Knobs& knobs) {
        const double x = knobs[2].count;
        return bell(knobs) * std::exp(x < 0 ? -0.0009 * x * x : 0.0005 * x * x);
    };
    settle(skewed);
    for (int i = 0; i < 40 && state().cycle < 3; ++i)
        follow(skewed, 1);

    EXPECT_EQ(state().steps, (std::vector<Eighths>{{8}, {8}, {4}}));
    EXPECT_GT(state().biases[2], 0);
    EXPECT_EQ(state().phase, Phase::AfterWait); // a third cycle, whatever the number says
    EXPECT_EQ(state().cycle, 3);
}

TEST_F(PlanTest, SaysWhichOfTheReasonsHoldsItBack)
{
    RunState done = beginRun(m_run.setup);
    done.phase = Phase::Done;
    done.cycle = 2;
    EXPECT_EQ(notYet(done), NotYet::NoInterval);

    done.left = 0.004;
    EXPECT_EQ(notYet(done), std::nullopt);
    done.done.emplace_back();
    done.done.back().cycle = 2;
    done.done.back().isSkewed = true;
    EXPECT_EQ(notYet(done), NotYet::Skewed);
}

TEST_F(PlanTest, GoesBackToTheBestSeenWhenThePairSaysSo)
{
    Bell bell({5, -6, 3});
    settle(bell);
    for (int i = 0; i < 40 && state().cycle < 2; ++i)
        follow(bell, 1);
    followTo(Phase::Final, Bell({5, -6, 4})); // set in the end to a place that no scan has read
    const Knobs set = state().wanted;
    const Knobs best = state().best->knobs;
    ASSERT_NE(best, set);
    const auto fallen = [&](const Knobs& knobs) { return bell(knobs) * (knobs == set ? 0.8 : 1); };

    follow(fallen, 1);
    ASSERT_EQ(state().phase, Phase::Pairing);
    std::vector<Knobs> places;
    for (int i = 0; i < 4; ++i) {
        places.push_back(advise(state()).knobs);
        follow(fallen, 1);
    }

    EXPECT_EQ(places, (std::vector{set, best, best, set}));
    EXPECT_EQ(state().phase, Phase::Done);
    EXPECT_TRUE(state().fellBack);
    EXPECT_FALSE(state().isWithinTarget());
    EXPECT_EQ(notYet(state()), NotYet::FellBack);
    EXPECT_EQ(state().left, std::nullopt) << "it was told of where the knobs no longer stand";
    EXPECT_EQ(advise(state()).knobs, best);
}

TEST_F(PlanTest, PairKeepsToItsTwoPlacesWhateverItReads)
{
    Bell bell({5, -6, 3});
    settle(bell);
    for (int i = 0; i < 40 && state().cycle < 2; ++i)
        follow(bell, 1);
    followTo(Phase::Final, Bell({5, -6, 4}));
    const Knobs set = state().wanted;
    const Knobs best = state().best->knobs;
    ASSERT_NE(best, set);
    read(0, set, 30);

    read(0, set, 90); // brighter than anything seen
    EXPECT_EQ(advise(state()).knobs, best);
    read(0, best, 48);
    EXPECT_EQ(advise(state()).knobs, best);
}

// A difference of 0.05 % in the reading where the noise is 0.1 %: no reason to go back.
TEST_F(PlanTest, DoesNotGoBackForWhatChanceExplains)
{
    Bell bell({5, -6, 3});
    settle(bell);
    followTo(Phase::Final, bell);
    read(0, state().wanted, 30);
    ASSERT_EQ(state().phase, Phase::Pairing);

    for (const double light : {48.0, 48.024, 48.024, 48.0})
        read(0, advise(state()).knobs, light);

    EXPECT_EQ(state().phase, Phase::Done);
    EXPECT_FALSE(state().fellBack);
}

TEST_F(PlanTest, StaysWhereItIsWhenThePairSaysThatOneReadingWasLow)
{
    Bell bell({5, -6, 3});
    settle(bell);
    followTo(Phase::Final, bell);
    const Knobs set = state().wanted;
    read(0, set, 0.8 * bell(set));
    ASSERT_EQ(state().phase, Phase::Pairing);

    follow(bell, 4);

    EXPECT_FALSE(state().fellBack);
    EXPECT_TRUE(state().isWithinTarget());
    EXPECT_EQ(advise(state()).knobs, set);
}

TEST_F(PlanTest, CorrectedReadingCountsAsIfItHadBeenReadRight)
{
    const Bell bell({5, -6, 3});
    follow(bell, 15);
    const RunState right = state();
    const auto wrong = std::get<Reading>(m_run.entries[1]);
    std::get<Reading>(m_run.entries[1]).light = 4.8;
    EXPECT_NE(state().done.front().setting, right.done.front().setting);

    append(Correction{1, 4.9});
    append(Correction{1, wrong.light}); // the last word counts

    EXPECT_EQ(state().done.front().setting, right.done.front().setting);
    EXPECT_EQ(state().wanted, right.wanted);
    EXPECT_EQ(std::get<Reading>(m_run.entries[1]).light, 4.8); // and the slip stays in the run
}

TEST_F(PlanTest, TellsWhatIsLeftOfWhereTheCycleSetTheKnobsAndAsksForThatPlaceFirst)
{
    m_run.setup.target = 1e-9; // so that a third cycle is due
    const Bell bell({5, -6, 3});
    settle(bell);
    follow(bell, 14);
    EXPECT_FALSE(adviseLeaving(state())) << "no cycle has set them";
    follow(bell, 16);
    const Knobs set = state().cycleEnd;
    EXPECT_EQ(set, (Knobs{{5}, {-6}, {3}}));
    follow(bell, 2);
    ASSERT_EQ(state().cycle, 3);
    ASSERT_TRUE(state().left);
    EXPECT_FALSE(state().standsAtCycleEnd());

    const auto leaving = adviseLeaving(state());

    ASSERT_TRUE(leaving);
    EXPECT_EQ(leaving->kind, Advice::Kind::Stop);
    EXPECT_EQ(leaving->knobs, set);
    ASSERT_EQ(leaving->moves.size(), 1u);
    EXPECT_EQ(leaving->moves.front().axis, 0);
    append(KnobsSet{set, {}});
    EXPECT_TRUE(state().standsAtCycleEnd());
    EXPECT_FALSE(adviseLeaving(state()));
    EXPECT_EQ(state().scan.points.size(), 2u) << "whoever goes on goes on with the same scan";
}

TEST_F(PlanTest, AsksForTheLastSettingsBeforeTheirReadingToo)
{
    const Bell bell({5, -6, 3});
    settle(bell);
    followTo(Phase::Final, bell);
    ASSERT_FALSE(state().standsAtCycleEnd()) << "the last knob stands where its scan ended";

    ASSERT_TRUE(adviseLeaving(state()));
    EXPECT_EQ(adviseLeaving(state())->knobs, advise(state()).knobs);
    follow(bell, 1);
    ASSERT_EQ(state().phase, Phase::Done);
    EXPECT_TRUE(state().standsAtCycleEnd());
    EXPECT_FALSE(adviseLeaving(state()));
}

TEST_F(PlanTest, ForgetsWhatWasLeftOnceAKnobShowsItsPeakNoMore)
{
    m_run.setup.target = 1e-9;
    const Bell bell({5, -6, 3});
    settle(bell);
    follow(bell, 30);
    ASSERT_TRUE(state().left);

    followTo(Phase::Stuck, [](const Knobs&) { return 48.0; });

    ASSERT_EQ(state().phase, Phase::Stuck);
    EXPECT_FALSE(state().left);
}

TEST_F(PlanTest, TurnsCountFromWhereKnobsWereSetWithoutAReading)
{
    append(KnobsSet{{{-8}, {0}, {0}}, {}});

    EXPECT_TRUE(advise(state()).moves.empty()) << "it stands where the first reading is due";
    EXPECT_EQ(state().entries, 1u);
}

TEST_F(PlanTest, ASlipThatWasLeftOutIsNotTheBestSeen)
{
    Bell bell({0, 0, 0});
    settle(bell);
    for (int i = 0; i < 5; ++i) {
        const Advice advice = advise(state());
        read(0, advice.knobs, bell(advice.knobs) * (i == 1 ? 1.5 : 1));
    }
    const std::size_t slip = m_run.entries.size() - 4;
    ASSERT_EQ(state().best->entry, slip) << "as long as nothing says that it is one";

    follow(bell, 1);

    ASSERT_EQ(state().done.back().leftOut.size(), 1u);
    EXPECT_EQ(state().leftOut, std::vector{slip});
    EXPECT_LT(state().best->light, 48.5);
    EXPECT_EQ(state().best->knobs, (Knobs{{0}, {0}, {0}}));
}

TEST_F(PlanTest, NorIsOneThatWasLeftOutOnTheWayUpAndBack)
{
    m_run.setup.axes[0].backlashSuspected = true;
    Bell bell({0, 0, 0});
    settle(bell);
    for (int i = 0; i < 9; ++i) {
        const Advice advice = advise(state());
        read(0, advice.knobs, bell(advice.knobs) * (i == 6 ? 1.5 : 1));
    }

    ASSERT_EQ(state().done.back().leftOut.size(), 1u);
    EXPECT_LT(state().best->light, 48.5);
}

// The bias of a peak whose scatter alone shows that it is no parabola is its step, here 8 eighths: what is
// left is at least what that far from the top costs. The next scan is half as wide, and so is its bias.
TEST_F(PlanTest, TellsWhatIsLeftByTheWidthThatWasScannedNotByTheNext)
{
    m_run.setup.leastCycles = 1;
    m_run.setup.mostCycles = 1;
    Bell bell({0, 0, 0});
    const auto skewed = [&](const Knobs& knobs) {
        const double x = knobs[2].count;
        return bell(knobs) * std::exp(x < 0 ? -0.0009 * x * x : 0.0005 * x * x);
    };
    settle(skewed);
    followTo(Phase::Final, skewed);

    const RunState now = state();
    ASSERT_TRUE(now.done.back().isSkewed);
    ASSERT_TRUE(now.left);
    EXPECT_GE(*now.left, lossAt(now.done.back().fit->curvature, 8));
    EXPECT_EQ(now.biases[2], 4);
    EXPECT_EQ(now.steps[2], Eighths{4});
}

TEST_F(PlanTest, FoldedAgainIsTheSameAsStepByStep)
{
    const DrivenRun driven = driveRun(setupFor(pinnedTestLamp()), SimulatedLight(pinnedTestLamp(), 9));

    const RunState again = foldRun(driven.run);

    EXPECT_EQ(again.left, driven.state.left);
    EXPECT_EQ(again.best, driven.state.best);
    EXPECT_EQ(again.entries, driven.run.entries.size());
    EXPECT_EQ(advise(again), advise(driven.state));
    EXPECT_EQ(again.done.size(), driven.state.done.size());
}

TEST_F(PlanTest, BeginsTheScanOfWhateverAxisWasRead)
{
    Bell bell({0, 0, 0});
    follow(bell, 2);
    const Knobs knobs = {{16}, {0}, {-8}};

    read(2, knobs, bell(knobs));

    EXPECT_EQ(state().scan.axis, 2);
    EXPECT_EQ(state().scan.points.size(), 1u);
    EXPECT_EQ(state().scan.middle, Eighths{0}); // taken as the first of the order, one step back
    EXPECT_EQ(advise(state()).knobs, (Knobs{{16}, {0}, {16}}));
}

TEST_F(PlanTest, BeginsAnewWhenAnotherKnobWasTouched)
{
    Bell bell({0, 0, 0});
    follow(bell, 2);
    Knobs knobs = state().wanted;
    knobs[1] = Eighths{3};

    read(0, knobs, bell(knobs));

    EXPECT_EQ(state().scan.points.size(), 1u);
    EXPECT_EQ(state().scan.knobs[1], Eighths{3});
}

TEST_F(PlanTest, WaitMayBreakOffAScan)
{
    const Bell bell({5, -6, 3});
    follow(bell, 6);
    waitOver();

    EXPECT_EQ(state().phase, Phase::AfterWait);
    EXPECT_EQ(state().scan.axis, 0);
    EXPECT_EQ(state().cycleStart,
              (Knobs{{5}, {0}, {0}})); // the second knob goes back to where its scan began
    follow(bell, 1000);
    EXPECT_TRUE(state().isWithinTarget());
}

TEST_F(PlanTest, TakesTimeFromTheBootClockWhateverTheWallSays)
{
    Stamp stamp;
    stamp.boot = QStringLiteral("boot");
    std::vector<double> seconds;
    for (int i = 0; i < 4; ++i) {
        append(Reading{0, state().wanted, 48, stamp});
        stamp.sinceBoot += std::chrono::seconds(20);
        stamp.wall -= std::chrono::hours(5);
    }
    const RunState now = state();
    for (const ScanPoint& point : now.scan.points)
        seconds.push_back(point.seconds);

    EXPECT_EQ(seconds, (std::vector<double>{0, 20, 40, 60}));
}

// A hundred of the runs that the bench counts two thousand of; its limits, on these seeds.
TEST_F(PlanTest, FindsThePeakOfThePinnedLampAndKnowsWhatIsLeft)
{
    constexpr int kRuns = 100;
    const LampNature nature = pinnedTestLamp();
    std::vector<double> losses;
    std::vector<int> readings;
    int stopped = 0;
    int broken = 0;
    int intervals = 0;
    int covered = 0;
    for (std::uint64_t seed = 1; seed <= kRuns; ++seed) {
        const DrivenRun driven = driveRun(setupFor(nature), SimulatedLight(nature, seed));
        losses.push_back(driven.loss);
        readings.push_back(driven.before + driven.after);
        stopped += driven.state.isWithinTarget() ? 1 : 0;
        broken += driven.state.isWithinTarget() && driven.loss > *driven.state.left ? 1 : 0;
        for (const ScanRecord& scan : driven.state.done) {
            if (scan.verdict != ScanVerdict::Peak)
                continue;
            const double truth = driven.bestKnob[scan.entries[2]] - scan.middle.count;
            ++intervals;
            covered += scan.vertex->low <= truth && truth <= scan.vertex->high ? 1 : 0;
        }
    }
    std::ranges::sort(losses);
    std::ranges::sort(readings);

    EXPECT_LE(losses[95], 0.002);
    EXPECT_LE(readings[50], 50);
    EXPECT_GE(stopped, 85);
    EXPECT_LE(broken * 100, 5 * stopped);
    EXPECT_GE(covered * 100, 92 * intervals);
    EXPECT_LE(covered * 100, 97 * intervals);
}

} // namespace
} // namespace coldarc::test
