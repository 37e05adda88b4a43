#include "core/machine/reach.h"
#include "tests/core/visit/night.h"

#include <random>

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace visit;
using namespace std::chrono_literals;
using machine::Demand;
using machine::Effect;
using machine::Heat;
using Kind = Why::Kind;
using std::chrono::milliseconds;

/// The Teal's lamp was put out just now: 12 minutes with the fan, 45 without.
class CoolingNight : public ::testing::Test {
protected:
    Night night;
    const LamphouseId lamphouse{u"lamphouse-1-main"_s};

    void SetUp() override
    {
        night.doUntil(u"lamp-off"_s);
        ASSERT_TRUE(night.doNext());
        ASSERT_EQ(left(), 12min);
    }
    milliseconds left() const { return night.seen().waits[0].cool.left(); }
    bool isCold() const { return night.seen().machine.lamphouse[0].heat == Heat::Cold; }
};

TEST_F(CoolingNight, CreditsTheSleepOnceSomebodySawTheFanRunOn)
{
    night.clock.advance(4min);
    night.clock.sleep(8min);

    EXPECT_FALSE(isCold());
    const Decision early = night.doStep(u"standby"_s, kAsItShouldBe);
    EXPECT_EQ(demandsOf(early), QList{Demand::ProjectorCold});
    EXPECT_TRUE(isRefused(early, Kind::FanQuestion));
    ASSERT_TRUE(night.tell(FanAnswered{lamphouse, true}));

    EXPECT_TRUE(isCold());
    EXPECT_TRUE(night.doStep(u"standby"_s, kAsItShouldBe));
    EXPECT_TRUE(night.hasException(Exception::Kind::GapNobodyWitnessed));
}

TEST_F(CoolingNight, WaitsUnforcedFromNowWhenNobodySawTheFan)
{
    night.clock.advance(11min);
    night.clock.sleep(10min);

    ASSERT_TRUE(night.tell(FanAnswered{lamphouse, false}));

    EXPECT_EQ(left(), 45min);
    EXPECT_TRUE(isRefused(night.tell(FanAnswered{lamphouse, true}), Kind::NothingAsked));
    night.clock.advance(45min - 1s);
    EXPECT_FALSE(isCold());
    night.clock.advance(1s);
    EXPECT_TRUE(isCold());
}

TEST_F(CoolingNight, KeepsWhatWasWitnessedBeforeARestartAndAsks)
{
    night.clock.advance(5min);
    ASSERT_TRUE(night.tell(Noted{{}, u"looked in"_s})); // an entry is what a restart leaves
    night.clock.reboot(30min, 2min);

    ASSERT_TRUE(night.tell(Resumed{}));

    EXPECT_EQ(left(), 5min); // 5 before, 2 after, nothing for the half hour off
    EXPECT_TRUE(isRefused(night.doStep(u"standby"_s, kAsItShouldBe), Kind::FanQuestion));
    ASSERT_TRUE(night.tell(FanAnswered{lamphouse, true}));
    night.clock.advance(5min);
    EXPECT_TRUE(isCold());
}

TEST_F(CoolingNight, StartsAgainOnAnotherLaptop)
{
    night.clock.advance(11min + 50s);
    night.clock.otherMachine(3h);

    ASSERT_TRUE(night.tell(FanAnswered{lamphouse, true}));

    EXPECT_EQ(left(), 12min);
}

TEST_F(CoolingNight, CreditsNothingForAWallClockSetAnywhere)
{
    night.clock.setWall(night.clock.now().wall + 240h);
    EXPECT_EQ(left(), 12min);
    ASSERT_TRUE(night.tell(Noted{{}, u"clock set on"_s}));
    night.clock.setWall(night.clock.now().wall - 480h);
    night.clock.advance(3min);
    ASSERT_TRUE(night.tell(Noted{{}, u"clock set back"_s}));

    EXPECT_EQ(left(), 9min);
    EXPECT_TRUE(night.hasException(Exception::Kind::ClockWentBack));
    EXPECT_FALSE(night.hasException(Exception::Kind::GapNobodyWitnessed));
    EXPECT_TRUE(isRefused(night.tell(FanAnswered{lamphouse, true}), Kind::NothingAsked));
}

// The architecture's property of time, through whole entries: whatever the clocks do, what is credited never
// exceeds the true time, and it equals it where only the wall clock was touched.
TEST(NightWaits, NeverCreditMoreThanTheTrueTime)
{
    Night beginning;
    beginning.doUntil(u"lamp-off"_s);
    ASSERT_TRUE(beginning.doNext());
    constexpr int kNights = 600;
    int onlyTheWall = 0;
    for (int seed = 0; seed < kNights; ++seed) {
        std::mt19937 random(static_cast<unsigned>(seed));
        Night night = beginning;
        milliseconds truth{0};
        bool isOnlyTheWall = true;
        for (int event = 0; event < 10; ++event) {
            const milliseconds some(static_cast<int>(random() % 60'000));
            const milliseconds more(static_cast<int>(random() % 60'000));
            const int what = static_cast<int>(random() % (seed % 3 == 0 ? 3u : 7u));
            if (what == 0) {
                night.clock.setWall(WallTime(milliseconds(static_cast<qint64>(random()) * 1000)));
            } else if (what <= 2) {
                night.clock.advance(some);
                truth += some;
            } else if (what == 3) {
                night.clock.sleep(some);
                truth += some;
                isOnlyTheWall = false;
            } else if (what == 4) {
                night.clock.reboot(some, more);
                truth += some + more;
                isOnlyTheWall = false;
            } else if (what == 5) {
                night.clock.otherMachine(some); // up all that time, beside the first one
                isOnlyTheWall = false;
            } else if (night.seen().waits[0].cool.asksForFan) {
                ASSERT_TRUE(night.tell(FanAnswered{LamphouseId(u"lamphouse-1-main"_s), true}));
            }
            if (random() % 2) {
                ASSERT_TRUE(night.tell(Noted{{}, u"an entry"_s}));
            }
            const WaitClock cool = night.seen().waits[0].cool;
            ASSERT_LE(cool.isRunning ? cool.credited : cool.needed, truth) << "seed " << seed;
        }
        if (!isOnlyTheWall)
            continue;
        ++onlyTheWall;
        const WaitClock cool = night.seen().waits[0].cool;
        ASSERT_EQ(cool.isRunning ? cool.credited : std::min(truth, cool.needed), std::min(truth, cool.needed))
            << "seed " << seed;
        ASSERT_EQ(cool.isRunning, truth < cool.needed) << "seed " << seed;
    }
    EXPECT_GT(onlyTheWall, kNights / 4);
}

TEST(NightWaits, ARestartWhileOpenAsksForGearAndVoltageAgain) // re-arm table C
{
    Night night;
    night.doUntil(u"lamp-out"_s);
    night.clock.reboot(2min, 1min);

    EXPECT_FALSE(night.seen().machine.lamphouse[0].absent);
    EXPECT_FALSE(night.doStep(u"lamp-out"_s, kAsItShouldBe));
    ASSERT_TRUE(night.tell(LocksSeen{LamphouseId(u"lamphouse-1-main"_s), true}));
    EXPECT_EQ(night.seen().machine.person[0].gear, machine::Gear::Worn);
    EXPECT_EQ(night.nextId(), u"gear-on"_s);
    EXPECT_TRUE(night.next().isAgain);
    ASSERT_TRUE(night.doNext());
    EXPECT_EQ(night.nextId(), u"prove-inlet"_s);

    night.doUntil(u"lamp-out"_s);
    EXPECT_TRUE(night.lamphouse().absent && night.lamphouse().absentBehind);
    EXPECT_EQ(night.state.machine.person[0].gear, machine::Gear::Signed);
    night.doAll();
    night.close();
    EXPECT_EQ(night.state.end, u"done"_s);
    expectSame(night.state, night.readBack());
}

TEST(NightWaits, ASleepWhileShutAsksForNeither)
{
    Night night;
    night.doUntil(u"gear-on"_s);
    night.clock.sleep(20min);

    EXPECT_TRUE(night.seen().machine.lamphouse[0].absent);
    EXPECT_TRUE(night.doNext());
}

/// All shut, start tried; then nobody watches for a night.
class NightBetween : public ::testing::Test {
protected:
    Night night{u"larkmoor-teal"_s, Night::Crew::WithTrainee};
    const LamphouseId lamphouse{u"lamphouse-1-main"_s};

    void SetUp() override { night.doUntil(u"open-housing"_s); }
    QList<Demand> waits() { return demandsOf(night.doStep(u"open-housing"_s, kAsItShouldBe)); }
};

TEST_F(NightBetween, OpensNothingBeforeSomebodyHasLookedAtTheLocks)
{
    for (const bool isOtherLaptop : {false, true}) {
        Night tomorrow = night;
        if (isOtherLaptop)
            tomorrow.clock.otherMachine(9h);
        else
            tomorrow.clock.reboot(9h, 1min);

        EXPECT_EQ(demandsOf(tomorrow.doStep(u"open-housing"_s, kAsItShouldBe)),
                  (QList{Demand::Cold, Demand::LocksSeen}));
        EXPECT_EQ(tomorrow.nextId(), u"open-housing"_s); // nothing is done again
        EXPECT_TRUE(demandsOf(tomorrow.doAct(tomorrow.ada(), Effect::EnterZone)).contains(Demand::LocksSeen));
        ASSERT_TRUE(tomorrow.tell(Resumed{}));
        EXPECT_EQ(demandsOf(tomorrow.doStep(u"open-housing"_s, kAsItShouldBe)),
                  (QList{Demand::Cold, Demand::LocksSeen}));

        ASSERT_TRUE(tomorrow.tell(LocksSeen{lamphouse, true}));

        EXPECT_TRUE(isRefused(tomorrow.tell(LocksSeen{lamphouse, true}), Kind::NothingAsked));
        EXPECT_TRUE(tomorrow.lamphouse().startTried);
        tomorrow.doAll();
        tomorrow.close();
        EXPECT_EQ(tomorrow.state.end, u"done"_s);
        expectSame(tomorrow.state, tomorrow.readBack());
    }
}

TEST_F(NightBetween, AsksForNothingAfterAShortSleepWithEverythingShut)
{
    night.clock.sleep(kLongSleep);

    EXPECT_EQ(waits(), QList<Demand>());
    EXPECT_TRUE(isRefused(night.tell(LocksSeen{lamphouse, true}), Kind::NothingAsked));
}

TEST_F(NightBetween, IsALongSleepToo)
{
    night.clock.sleep(kLongSleep + 1s);

    EXPECT_TRUE(waits().contains(Demand::LocksSeen));
}

TEST_F(NightBetween, IsAnySleepWhileSomethingStandsOpen) // re-arm table C: "still locked?"
{
    ASSERT_TRUE(night.doNext());
    night.clock.sleep(1min);

    EXPECT_TRUE(demandsOf(night.doStep(u"gear-on"_s, kAsItShouldBe)).isEmpty()) << "towards safety";
    EXPECT_TRUE(night.seen().machine.group[0].isHearsay);
}

TEST_F(NightBetween, MakesHearsayOfALampThatWasColdWithNothingIsolated)
{
    Night early(u"larkmoor-teal"_s, Night::Crew::WithTrainee);
    early.doUntil(u"isolate-lamp-supply"_s);
    ASSERT_EQ(early.lamphouse().heat, Heat::Cold);
    early.clock.reboot(30h, 1min); // two shows have run
    const auto waits = [&] { return demandsOf(early.doStep(early.nextId(), kAsItShouldBe)); };

    EXPECT_EQ(waits(), (QList{Demand::FedCold, Demand::LocksSeen}));
    ASSERT_TRUE(early.tell(LocksSeen{lamphouse, false}));
    EXPECT_EQ(early.seen().waits[0].cool.left(), 45min);
    EXPECT_EQ(early.nextId(), u"find"_s) << "perhaps it burns";

    ASSERT_TRUE(early.doAct(early.ada(), Effect::Find, 0, [&](machine::Act& act) {
        seeAsItStands(early.state, act);
        act.seen.lit = true;
    }));
    EXPECT_EQ(early.lamphouse().heat, Heat::Lit);
    EXPECT_EQ(early.nextId(), u"tell-before"_s) << "of what is going to be done tonight";
    early.doAll();
    early.close();
    EXPECT_EQ(early.state.end, u"done"_s);
    expectSame(early.state, early.readBack());
}

TEST_F(NightBetween, IsNoneWhereWhoeverWasThereSaysThatTheLampWasOut)
{
    Night early(u"larkmoor-teal"_s, Night::Crew::WithTrainee);
    early.doUntil(u"isolate-lamp-supply"_s);
    early.clock.reboot(1min, 1min);

    ASSERT_TRUE(early.tell(LocksSeen{lamphouse, true}));

    EXPECT_TRUE(early.doNext());
}

TEST_F(NightBetween, WithALockGoneIsIsolatedAnewFromLampOffOn)
{
    night.clock.reboot(9h, 1min);

    ASSERT_TRUE(night.tell(LocksSeen{lamphouse, false}));

    EXPECT_TRUE(night.hasException(Exception::Kind::NotAsLeft));
    EXPECT_NE(night.seen().machine.group[0].locks, 0) << "each comes off by the hand that hung it";
    EXPECT_FALSE(night.lamphouse().startTried);
    EXPECT_EQ(night.lamphouse().charge, machine::Charge::Held);
    EXPECT_EQ(night.lamphouse().heat, Heat::Cooling); // perhaps it burnt meanwhile
    EXPECT_EQ(night.seen().waits[0].cool.left(), 45min);
    ASSERT_TRUE(night.doAct(night.ada(), Effect::LeaveZone));
    ASSERT_TRUE(night.putOnGear(night.ada()));
    EXPECT_EQ(demandsOf(night.doAct(night.ada(), Effect::EnterZone)), QList{Demand::OwnLock})
        << "what it holds is doubted";
    night.lookAgain();
    ASSERT_EQ(night.nextId(), u"tell-before"_s);
    ASSERT_TRUE(night.doNext());
    EXPECT_TRUE(night.next().isPutRight);
    night.putRight();
    ASSERT_FALSE(HasFatalFailure());
    night.doAll();
    night.close();
    EXPECT_EQ(night.state.end, u"done"_s);
    expectSame(night.state, night.readBack());
}

TEST_F(NightBetween, WithALockGoneFromAnOpenMachineItIsShutBeforeAnythingElse)
{
    night.doUntil(u"lamp-out"_s);
    night.clock.reboot(9h, 1min);

    ASSERT_TRUE(night.tell(LocksSeen{lamphouse, false}));

    EXPECT_TRUE(night.lamphouse().leftExposed);
    EXPECT_FALSE(night.doStep(u"lamp-out"_s, kAsItShouldBe));
    night.makeSafe();
    ASSERT_FALSE(HasFatalFailure());
    EXPECT_TRUE(machine::isShut(night.state.machine, 0));
    night.close();
    EXPECT_TRUE(night.hasException(Exception::Kind::NotAsLeft));
    expectSame(night.state, night.readBack());
}

TEST_F(NightBetween, ClosesNoVisitOverATagThatNobodyHasLookedAt)
{
    Happened marked;
    marked.incident = Incident::LampUnfit;
    marked.lamp = LampId(u"old-1-main"_s);
    ASSERT_TRUE(night.tell(marked));
    night.makeSafe();
    ASSERT_FALSE(HasFatalFailure());
    night.answerIncidents();
    ASSERT_TRUE(night.lamphouse().tagged);
    night.clock.reboot(9h, 1min);

    Night unseen = night;
    ASSERT_TRUE(
        unseen.tell(CustodyDecided{night.state.ground->lamps[night.swap().newLamp].id, u"returned"_s}));
    ASSERT_TRUE(unseen.tell(Signed{u"performed"_s}));
    ASSERT_TRUE(unseen.tell(SiteSigned{u"C. Moor"_s, u"duty manager"_s, {}}));
    EXPECT_EQ(demandsOf(unseen.tell(Closed{})), QList{Demand::NothingLeft});
    ASSERT_TRUE(night.tell(LocksSeen{lamphouse, true}));
    night.close();
    EXPECT_EQ(night.state.end, u"out-of-use"_s);
}

TEST(NightBetweenTwoFeeds, SwitchesTheProjectorOnlyOnceBothWereLookedAt)
{
    Night night(twoFeeds());
    night.doUntil(u"standby"_s);
    ASSERT_NE(night.state.plant.lamphouse[0].group, night.state.plant.lamphouse[1].group);
    night.clock.reboot(9h, 1min);

    ASSERT_TRUE(night.tell(LocksSeen{night.state.ground->lamphouses[0], true}));
    EXPECT_TRUE(demandsOf(night.doStep(u"standby"_s, kAsItShouldBe)).contains(Demand::LocksSeen));
    ASSERT_TRUE(night.tell(LocksSeen{night.state.ground->lamphouses[1], true}));

    for (const LamphouseId& one : QList{night.state.ground->lamphouses[0], night.state.ground->lamphouses[1]})
        ASSERT_TRUE(night.tell(FanAnswered{one, true}));
    night.holdWaits();
    EXPECT_TRUE(night.doStep(u"standby"_s, kAsItShouldBe));
}

TEST_F(NightBetween, ATraineeVouchesAloneForNoLockAndSaysThatOneIsGone)
{
    night.clock.reboot(9h, 1min);
    Night agreed = night;

    EXPECT_TRUE(isRefused(night.tell(night.ben(), LocksSeen{lamphouse, true}), Kind::NeedsCountersign));
    EXPECT_TRUE(isRefused(night.tell(LocksSeen{LamphouseId(u"nowhere"_s), true}), Kind::UnknownName));
    EXPECT_TRUE(night.tell(night.ben(), LocksSeen{lamphouse, false}));
    EXPECT_TRUE(agreed.tell(agreed.ben(), LocksSeen{lamphouse, true, agreed.ada()}));
}

TEST_F(NightBetween, CanBeMadeSafeAndAsksOnTheWay)
{
    night.doUntil(u"lamp-out"_s);
    night.clock.reboot(9h, 1min);

    night.makeSafe();
    ASSERT_FALSE(HasFatalFailure());
    night.close();

    EXPECT_NE(night.state.end, QString());
    expectSame(night.state, night.readBack());
}

// ---- Two swaps in one night -------------------------------------------------------------------------

TEST(TwoSwaps, AtTwoScreensLetTheirWaitsOverlap)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    night.doUntil(u"lamp-off"_s, 0);
    night.doUntil(u"lamp-off"_s, 1);
    ASSERT_TRUE(night.doNext(0));
    const Stamp first = night.clock.now();
    night.clock.advance(3min);
    ASSERT_TRUE(night.doNext(1));
    const milliseconds between = night.clock.now().sinceBoot - first.sinceBoot;

    EXPECT_EQ(night.seen().waits[0].cool.left(), 12min - between);
    EXPECT_EQ(night.seen().waits[1].cool.left(), 12min);
    night.clock.advance(12min - between);
    EXPECT_EQ(night.seen().machine.lamphouse[0].heat, Heat::Cold);
    EXPECT_EQ(night.seen().machine.lamphouse[1].heat, Heat::Cooling);
    EXPECT_TRUE(night.doStep(u"standby"_s, kAsItShouldBe, 0));
    EXPECT_EQ(demandsOf(night.doStep(u"standby"_s, kAsItShouldBe, 1)), QList{Demand::ProjectorCold});
}

TEST(TwoSwaps, KeepTheirOwnStateAndGear) // CV27: not carried to the next swap
{
    Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    night.doUntil(u"gear-on"_s, 1);
    night.doUntil(u"lamp-out"_s, 0);

    EXPECT_TRUE(night.lamphouse(0).guardOpen);
    EXPECT_FALSE(night.lamphouse(1).guardOpen);
    const Decision other = night.doAct(night.ada(), Effect::EnterZone, 1);
    EXPECT_EQ(demandsOf(other),
              (QList{Demand::GearSigned, Demand::Outside})); // one zone at a time, gear anew
    EXPECT_TRUE(isRefused(night.doAct(night.ada(), Effect::GearOn, 1), Kind::AnswerMissing));

    night.doUntil(u"sign"_s, 0); // signed once nothing is left at the other one either
    EXPECT_EQ(night.nextId(1), u"gear-on"_s);
    night.doAll(1);
    night.doAll(0);
    night.close();
    EXPECT_EQ(night.state.end, u"done"_s);
    expectSame(night.state, night.readBack());
}

TEST(TwoSwaps, OnOneSharedPointAreWorkedUnderOneLock)
{
    Opening opening = Night(u"quillhaven-pair"_s).opening();
    SwapPlan right = opening.swaps.first();
    right.id = SwapId(u"swap-2"_s);
    right.lamphouse = LamphouseId(u"lamphouse-1-right"_s);
    right.newLamp.id = LampId(u"new-2"_s);
    right.newLamp.serial = u"NEW000002"_s;
    opening.swaps.append(right);
    Night night(opening);

    night.doUntil(u"gear-on"_s, 0);
    night.doUntil(u"relieve"_s, 1); // found, cold and locked with the first one: nothing is done twice
    EXPECT_EQ(night.lamphouse(1).heat, Heat::Cold);
    ASSERT_TRUE(night.doNext(1));
    night.doUntil(u"gear-on"_s, 1);
    EXPECT_TRUE(night.lamphouse(0).startTried && night.lamphouse(1).startTried);
    night.doUntil(u"lamp-out"_s, 0);
    EXPECT_FALSE(night.doStep(u"try-start"_s, kAsItShouldBe, 1));
    night.doUntil(u"own-lock-off"_s, 0);
    EXPECT_TRUE(night.lamphouse(1).startTried); // the lock still hangs
    night.doUntil(u"own-lock-off"_s, 1);
    EXPECT_NE(night.state.machine.group[0].locks, 0);

    night.doUntil(u"strike"_s, 0);
    EXPECT_EQ(night.state.machine.group[0].locks, 0);
    night.doUntil(u"strike"_s, 1);
    ASSERT_TRUE(night.doNext(0));
    ASSERT_TRUE(night.doNext(1));
    EXPECT_EQ(night.lamphouse(0).heat, Heat::Lit);
    EXPECT_EQ(night.lamphouse(1).heat, Heat::Lit);
    expectSame(night.state, night.readBack());
}

} // namespace
} // namespace coldarc::test
