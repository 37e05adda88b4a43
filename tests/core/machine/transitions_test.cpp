// The transitions D1 to D9 that the tests are named after (undo, hand-over, making safe, ...), and the
// incidents that go with them.

#include "core/machine/make_safe.h"
#include "tests/core/machine/night.h"

#include <set>

namespace coldarc::test {
namespace {

using namespace machine;
using E = Effect;
using W = Wait;

constexpr E kTowardTheLamp[] = {E::OpenHousing, E::ExposeLamp, E::WorkInside, E::LampOut,
                                E::Unbox,       E::AdaptorOff, E::AdaptorOn,  E::Strike};

/// Lamp into the seat, clamped, guard, out, housing: never refused on the way.
void stepsBack(Night& night)
{
    if (lampInHand(night.plant, night.state, 0) != kNone)
        night.does(E::LampIn);
    if (night.here().seat == Seat::Entered)
        night.does(E::ClampLamp);
    night.does(E::ShutGuard).does(E::LeaveZone).does(E::ShutHousing);
}

// ---- D1 -------------------------------------------------------------------------------------------------

TEST(Withdrawing, TheTriedStartWithALampInHandLeavesOnlyTheWayBack) // CV28
{
    Night night;
    night.through(E::LampOut).withdraws(E::TryStart);
    // Looking, counting, telling and paper change nothing at the machine; neither do standby and isolate on
    // what is off and isolated already.
    const std::set<E> harmless{E::Look,       E::Find,    E::CountOpening, E::Count,
                               E::TellBefore, E::Standby, E::Isolate,      E::MatchBox};

    for (int index = 0; index < kEffects; ++index) {
        const auto effect = static_cast<E>(index);
        EXPECT_TRUE(isSafeWard(effect) || harmless.contains(effect) || !night.may(effect)) << wordOf(effect);
    }
    for (const E effect : {E::LampIn, E::BoxLamp, E::GearOn, E::LockOn, E::DowserShut, E::ExtractionOn}) {
        EXPECT_TRUE(night.may(effect)) << wordOf(effect);
    }
    stepsBack(night);
}

TEST(Withdrawing, WhateverProvedAGateLeavesTheWayBackOnly)
{
    for (const E effect : {E::Isolate, E::LockOn, E::Relieve, E::TryStart, E::ProveAbsence, E::GearOn}) {
        for (const E exposed : {E::ExposeLamp, E::LampOut, E::LampIn}) {
            Night night;
            night.through(exposed).withdraws(effect);

            for (const E toward : kTowardTheLamp)
                EXPECT_FALSE(night.may(toward)) << wordOf(toward) << " without " << wordOf(effect);
            stepsBack(night);
        }
    }
}

TEST(Withdrawing, ShutsTheGateAndWhatDependedOnIt)
{
    const auto withdrawn = [](E effect) {
        Night night;
        return provedAt(night.through(E::EnterZone).withdraws(effect));
    };

    EXPECT_EQ(withdrawn(E::Isolate), (Proved{.cold = true, .geared = true}));
    EXPECT_EQ(withdrawn(E::LockOn), (Proved{.cold = true}));
    EXPECT_EQ(withdrawn(E::Relieve), (Proved{.cold = true, .geared = true}));
    EXPECT_EQ(withdrawn(E::TryStart), (Proved{.cold = true, .relieved = true, .geared = true}));
    EXPECT_EQ(withdrawn(E::ProveAbsence),
              (Proved{.cold = true, .startTried = true, .relieved = true, .geared = true}));
    EXPECT_EQ(withdrawn(E::GearOn),
              (Proved{.cold = true, .startTried = true, .absent = true, .relieved = true}));
}

TEST(Withdrawing, AnIsolationLeavesThePointInDoubt)
{
    Night night;
    night.through(E::EnterZone).withdraws(E::Isolate);

    EXPECT_EQ(night.state.point[0].power, Power::Doubted);
    EXPECT_TRUE(night.waitsFor(Demand::PointNotDoubted, E::Isolate));
}

TEST(Withdrawing, PaperMakesTheStrikeWait)
{
    for (const E effect : {E::BookIn, E::KeyController, E::TellAgain, E::ClampLamp, E::Unbox, E::MatchBox}) {
        Night night;
        night.untilBefore(E::Strike);
        ASSERT_TRUE(night.may(E::Strike));

        Act act = night.act(effect);
        act.lamp = 1;
        night.state = withdrawn(night.plant, night.state, act);

        EXPECT_FALSE(night.may(E::Strike)) << wordOf(effect);
    }
}

TEST(Withdrawing, ACountMakesTheLastLockWait)
{
    Night night;
    night.through(E::GearOff).withdraws(E::Count);

    EXPECT_TRUE(night.waitsFor(Demand::CountsAnswered, E::LockOff));
}

TEST(Withdrawing, ALockSwitchesNothingOnOverToolsThatNobodyCounted)
{
    Night night;
    night.untilBefore(E::Count).withdraws(E::LockOn);
    ASSERT_EQ(night.state.group[0].locks, 0);

    EXPECT_TRUE(night.waitsFor(Demand::CountsAnswered, E::Restore));
    night.does(E::Count);

    EXPECT_TRUE(night.may(E::Restore));
}

TEST(Withdrawing, UndoesNoPhysicalAct)
{
    for (const E effect : {E::LampOff, E::OpenHousing, E::ExposeLamp, E::LampOut, E::LampIn, E::ShutGuard,
                           E::ShutHousing, E::LockOff, E::Restore, E::PowerUp, E::Strike, E::TagOut})
        EXPECT_FALSE(canWithdraw(effect)) << wordOf(effect);
}

// ---- D2 -------------------------------------------------------------------------------------------------

Night relieved()
{
    Plant plant = invented();
    plant.person[1] = {true, true};
    return Night(plant);
}

TEST(PassingOn, IsRefusedWithALampInHand) // CV29
{
    Night night = relieved();
    night.through(E::LampOut).does(E::LockOn, 1);

    EXPECT_FALSE(canPassOn(night.plant, night.state, 0, 1));
}

TEST(PassingOn, IsRefusedWhileAnythingIsOpenOrAnybodyIsInside) // table of effects: zone empty, all shut
{
    Night night = relieved();
    night.through(E::OpenHousing).does(E::LockOn, 1);
    EXPECT_FALSE(canPassOn(night.plant, night.state, 0, 1));
    night.does(E::GearOn).does(E::EnterZone).does(E::ShutHousing);
    EXPECT_FALSE(canPassOn(night.plant, night.state, 0, 1));

    night.does(E::LeaveZone);

    EXPECT_TRUE(canPassOn(night.plant, night.state, 0, 1));
}

TEST(PassingOn, NeverLeavesThePointsWithoutALock) // CV29, 1910.147(f)(4)
{
    Night night = relieved();
    night.through(E::TryStart);
    EXPECT_FALSE(canPassOn(night.plant, night.state, 0, 1)) << "the oncoming lock first";
    night.does(E::LockOn, 1);

    night.happens(Happening::PassedOn, 0, 0, 1);

    EXPECT_EQ(night.state.group[0].locks, 0b11);
    night.does(E::LockOff, 0);
    EXPECT_EQ(night.state.group[0].locks, 0b10) << "the off-going lock off, the oncoming one on";
    EXPECT_FALSE(night.may(E::OpenHousing)) << "proved anew by the new owner";
    night.does(E::TryStart, 1).does(E::OpenHousing, 1);
}

TEST(PassingOn, HandsTheJobLocksOver)
{
    Plant plant = invented(2);
    plant.person[1] = {true, true};
    Night night(plant);
    night.through(W::Cool).does(E::Standby).does(E::Isolate);
    Act jobLock = night.act(E::LockOn);
    jobLock.point = 0;
    night.does(jobLock);

    night.happens(Happening::PassedOn, 0, 0, 1);

    EXPECT_EQ(night.state.point[0].jobLock, 1);
}

TEST(PassingOn, IsToAnAuthorisedEngineerOnly)
{
    Night night;
    night.through(E::TryStart).does(E::LockOn, 1);

    EXPECT_FALSE(canPassOn(night.plant, night.state, 0, 1)) << "a trainee";
    EXPECT_FALSE(canPassOn(night.plant, night.state, 0, 0)) << "to oneself";
}

// ---- D3 -------------------------------------------------------------------------------------------------

/// Follows the list to its end; whatever it names is asked of the rules.
std::vector<std::string> makesSafe(Night& night)
{
    std::vector<std::string> way;
    for (int count = 0; count < 60; ++count) {
        const SafeStep step = nextSafeStep(night.plant, night.state, 0, 0);
        if (step.kind == SafeStep::Kind::Done)
            return way;
        if (step.kind == SafeStep::Kind::Hold) {
            night.holds(step.wait);
            way.push_back(wordOf(Step(step.wait)));
        } else if (step.kind == SafeStep::Kind::Report) {
            night.state = after(night.plant, night.state, step.event);
            way.emplace_back("report");
        } else {
            night.does(step.act);
            way.emplace_back(machine::wordOf(step.act.effect));
        }
    }
    ADD_FAILURE() << "never ends";
    return way;
}

using Way = std::vector<std::string>;

TEST(MakingSafe, LeavesTheMachineAsItWasWhenTheLampFoundNeverLeftItsSeat)
{
    Night night;
    night.through(E::OpenHousing);
    EXPECT_EQ(safeEnd(night.plant, night.state, 0), SafeEnd::AsItWas);

    EXPECT_EQ(makesSafe(night), (Way{"shut-housing", "count", "lock-off", "restore", "tell-again"}));
    EXPECT_TRUE(night.may(E::Sign));
}

TEST(MakingSafe, LeavesANewLampLitThatAStrikeWouldTake)
{
    Night night;
    night.through(E::Strike);

    EXPECT_EQ(safeEnd(night.plant, night.state, 0), SafeEnd::AsItIs);
    EXPECT_EQ(makesSafe(night), Way{});
    EXPECT_EQ(night.here().heat, Heat::Lit);
    EXPECT_TRUE(night.may(E::Sign)) << "what is left is owed";
}

TEST(MakingSafe, LeavesAnEmptySeatOutOfUseUnderLockAndTag)
{
    Night night;
    night.through(E::BoxLamp);
    EXPECT_EQ(safeEnd(night.plant, night.state, 0), SafeEnd::OutOfUse);

    EXPECT_EQ(makesSafe(night),
              (Way{"shut-guard", "shut-housing", "leave-zone", "count", "tag-out", "gear-off"}));
    EXPECT_EQ(night.state.group[0].locks, 1) << "own lock left on";
    EXPECT_EQ(night.state.point[0].power, Power::Off);
    EXPECT_TRUE(night.may(E::Sign));
}

TEST(MakingSafe, BoxesALampInHandFirst)
{
    Night night;
    night.through(E::LampOut);

    EXPECT_EQ(makesSafe(night).front(), "box-lamp");
}

TEST(MakingSafe, HoldsTheWaitHoweverLateItIs)
{
    Night night;
    night.through(E::LampOff).happens(Happening::LampUnfit, 0, 0);

    EXPECT_EQ(makesSafe(night),
              (Way{"cool", "standby", "isolate", "lock-on", "tag-out"})); // told already, before lamp-off
}

TEST(MakingSafe, AnswersTheCountBeforeTheLastLock)
{
    Night night;
    night.through(E::ShutHousing);
    Act count = night.act(E::Count);
    count.outcome = Outcome::Differs;
    night.does(count);

    const Way way = makesSafe(night);

    EXPECT_EQ(way.front(), "report");
}

TEST(MakingSafe, ShutsTheLamphouseThatOneStandsAtBeforeGoingToAnotherFoundOpen)
{
    Plant plant = invented();
    plant.lamphouses = 2;
    plant.point[0].feeds = 3;
    plant.lamphouse[1] = plant.lamphouse[0];
    plant.lamp[1].lamphouse = 1;
    Night night(plant);
    Act find = night.act(E::Find);
    find.seen.lit = false;
    find.seen.drive = Drive::Off;
    find.seen.pointsOff = 1;
    find.seen.housingOpen = find.seen.guardOpen = true;
    Act other = find;
    other.lamphouse = 1;
    other.seen.lamp = 1;
    Act gear = night.act(E::GearOn);
    Act enter = night.act(E::EnterZone);
    gear.lamphouse = enter.lamphouse = 1;
    night.does(find).does(other).does(E::LockOn).does(gear).does(enter);

    const Way way = makesSafe(night);

    EXPECT_EQ(Way(way.begin(), way.begin() + 5),
              (Way{"shut-guard", "shut-housing", "leave-zone", "gear-on", "enter-zone"}));
    EXPECT_TRUE(isShut(night.state, 0));
    EXPECT_TRUE(isShut(night.state, 1));
}

TEST(Tag, IsHungOnAnIsolatedAndLockedMachineOnly) // D3; 1910.333(b)(2)(iii)(A): a lock and a tag
{
    Night night;
    night.untilBefore(E::LockOn);
    EXPECT_TRUE(night.waitsFor(Demand::IsolatedAndLocked, E::TagOut));

    night.does(E::LockOn);

    EXPECT_TRUE(night.may(E::TagOut));
}

TEST(Tag, DoesNotLetTheVisitBeSignedOnceItsLockCameOff)
{
    Night night;
    night.through(E::TryStart).does(E::TagOut);
    EXPECT_TRUE(night.may(E::Sign));
    night.does(E::LockOff);

    EXPECT_FALSE(night.may(E::Sign)) << "isolated, but no lock";
    night.does(E::Restore);
    EXPECT_FALSE(night.may(E::Sign)) << "out of use, but under power";
}

TEST(Tag, LetsNothingBeLit) // 1910.147(d)(4)(iii): shows that operating it is prohibited
{
    Night night;
    night.through(E::GearOff).does(E::TagOut).does(E::LockOff).does(E::Restore).does(E::PowerUp);
    night.does(E::BookIn).does(E::KeyController).does(E::TellAgain);

    EXPECT_FALSE(night.may(E::Strike));
    EXPECT_TRUE(night.waitsFor(Demand::NotBarred, E::Strike));
}

// ---- It started, voltage found ---------------------------------------------------------------------------

TEST(ItStarted, IsNotPutRightByTheOtherBreakerAtOnce) // A8
{
    Night night;
    night.untilBefore(E::TryStart);
    night.does(E::TryStart, Outcome::Started);

    EXPECT_EQ(night.here().heat, Heat::Lit);
    EXPECT_EQ(night.state.point[0].power, Power::Doubted);
    EXPECT_FALSE(night.may(E::Isolate));
    EXPECT_FALSE(night.may(E::LockOff)) << "lit";
    night.does(E::LampOff).holds(W::Cool);
    EXPECT_FALSE(night.may(E::Isolate)) << "locks off and restored first";
    night.does(E::LockOff).does(E::Restore).does(E::Standby).does(E::Isolate).does(E::LockOn);
    EXPECT_FALSE(night.may(E::TryStart)) << "relieved anew";
    night.does(E::Relieve).holds(W::Bleed).does(E::TryStart);
}

TEST(VoltageFound, CountsAsNotIsolated)
{
    Night night;
    night.untilBefore(E::ProveAbsence);
    night.does(E::ProveAbsence, Outcome::Voltage);

    EXPECT_EQ(night.state.point[0].power, Power::Doubted);
    EXPECT_EQ(provedAt(night), (Proved{.cold = true}));
    EXPECT_EQ(safeEnd(night.plant, night.state, 0), SafeEnd::OutOfUse);
}

TEST(AnotherBreaker, ThatFeedsALampWasAPowerFailureThere) // table of effects, isolate
{
    Plant plant = invented(2);
    plant.lamphouses = 2;
    plant.point[0] = {true, 1, 0};
    plant.point[1] = {true, 2, 1};
    plant.lamphouse[0].points = 1;
    plant.lamphouse[1] = plant.lamphouse[0];
    plant.lamphouse[1].projector = 1;
    plant.lamphouse[1].points = 2;
    plant.lamphouse[1].group = 1;
    plant.lamp[1].lamphouse = 1;
    Night night(plant);
    Act findOther = night.act(E::Find);
    findOther.lamphouse = 1;
    findOther.seen.lamp = 1;
    Act lampOffThere = night.act(E::LampOff);
    lampOffThere.lamphouse = 1;
    night.does(findOther).does(lampOffThere).untilBefore(E::Isolate);
    Act isolate = night.act(E::Isolate);
    isolate.moved = 1;

    night.does(isolate);

    EXPECT_EQ(night.state.point[0].power, Power::On) << "the one that was meant is still on";
    EXPECT_FALSE(night.may(E::LockOn));
    EXPECT_EQ(night.state.lamphouse[1].heat, Heat::Cooling);
    EXPECT_TRUE(night.started(W::CoolUnforced));
}

// ---- D6, D7, D8 -----------------------------------------------------------------------------------------

Night failedToLight(int times)
{
    Night night;
    night.untilBefore(E::Strike);
    for (int time = 0; time < times; ++time) {
        if (time > 0)
            night.holds(W::StrikePause);
        night.does(E::Strike, Outcome::NoLight);
    }
    return night;
}

TEST(WillNotLight, WaitsThePauseOfTheModelBetweenAttempts) // D6
{
    Night night = failedToLight(1);
    EXPECT_TRUE(night.started(W::StrikePause));
    EXPECT_TRUE(night.waitsFor(Demand::PauseOver, E::Strike));

    night.holds(W::StrikePause);

    EXPECT_TRUE(night.may(E::Strike));
}

TEST(WillNotLight, EndsAtTheLimitOfTheModel) // D6
{
    Night night = failedToLight(3); // `strikeLimit` of the invented model
    night.holds(W::StrikePause);

    EXPECT_TRUE(night.waitsFor(Demand::StrikesLeft, E::Strike));
}

TEST(WillNotLight, IsLookedIntoOnlyAfterTheWholeOfColdAndDead) // D6, CV9
{
    Night night = failedToLight(1);
    const Step again[] = {W::Cool,     E::Standby,     E::Isolate,      E::LockOn, E::Relieve,  W::Bleed,
                          E::TryStart, E::OpenHousing, E::ProveAbsence, E::GearOn, E::EnterZone};
    night.does(E::TellBefore);
    EXPECT_FALSE(night.may(E::Standby)) << "a lamp that was struck counts as hot";

    for (const Step& step : again) {
        EXPECT_FALSE(night.may(E::ExposeLamp)) << "before " << wordOf(step);
        night.does(step);
    }

    EXPECT_TRUE(night.may(E::ExposeLamp));
}

TEST(Burst, AtTheFirstStrikeCountsAsHotAndTakesNoSecondLamp) // D7b
{
    Night night;
    night.untilBefore(E::Strike);
    night.does(E::Strike, Outcome::Burst);

    EXPECT_EQ(night.here().seat, Seat::Empty);
    EXPECT_EQ(night.here().heat, Heat::Cooling);
    EXPECT_TRUE(night.waitsFor(Demand::NotBarred, E::Strike));
    EXPECT_TRUE(night.waitsFor(Demand::NotBarred, E::Unbox));
    EXPECT_EQ(safeEnd(night.plant, night.state, 0), SafeEnd::OutOfUse);
}

TEST(Burst, InItsClosedBoxLeavesTheMachineAsItIs)
{
    Night night;
    night.through(E::EnterZone);
    const Proved before = provedAt(night);

    night.happens(Happening::LampBurst, 0, 1);

    EXPECT_EQ(provedAt(night), before);
    EXPECT_FALSE(night.here().barred);
}

TEST(WrongLamp, LeavesTheSeatEmptyTheGuardShutAndATag) // D8
{
    Night night;
    Act find = night.act(E::Find);
    find.seen.life = Life::PastEnd;
    night.does(find);
    for (const Step& step : plainSwap()) {
        if (step == Step(E::Unbox))
            break;
        if (step != Step(E::Find))
            night.does(step);
    }
    night.happens(Happening::WrongLamp, 0, 1);
    Act refit = night.act(E::Unbox);
    refit.lamp = 0;

    EXPECT_FALSE(night.may(refit)) << "a lamp past its end is not refitted";
    makesSafe(night);
    EXPECT_EQ(night.here().seat, Seat::Empty);
    EXPECT_TRUE(isShut(night.state, 0));
    EXPECT_TRUE(night.here().tagged);
}

TEST(WrongLamp, IsNeverLitThoughItWasBookedIn)
{
    Night night;
    night.untilBefore(E::Strike);
    night.happens(Happening::WrongLamp, 0, 1);

    EXPECT_TRUE(night.waitsFor(Demand::LampKnown, E::Strike));
}

TEST(ALampPastItsEnd, IsNotLitAgain)
{
    Night night;
    Act find = night.act(E::Find);
    find.seen.life = Life::PastEnd;
    night.does(find).does(E::TellAgain).does(E::LampOff);

    EXPECT_TRUE(night.waitsFor(Demand::LampKnown, E::Strike));
}

// ---- D9 -------------------------------------------------------------------------------------------------

TEST(SomeoneHurt, LightsNothingAndTakesNoLockOff) // D9
{
    Night night;
    night.untilBefore(E::LockOff).happens(Happening::SomeoneHurt);
    EXPECT_FALSE(night.may(E::LockOff));
    EXPECT_FALSE(canRemoveLock(night.plant, night.state, 0, 0));

    Night struck;
    struck.untilBefore(E::Strike).happens(Happening::SomeoneHurt);
    for (const E effect : {E::Strike, E::PowerUp, E::Restore, E::KeyController, E::TryStart, E::Relieve})
        EXPECT_FALSE(struck.may(effect)) << wordOf(effect);
}

TEST(SomeoneHurt, LeavesLampsLitAsTheyAre)
{
    Night night;
    night.through(E::Strike).happens(Happening::SomeoneHurt);

    EXPECT_EQ(night.here().heat, Heat::Lit);
    makesSafe(night);
    EXPECT_EQ(night.here().heat, Heat::Lit);
}

TEST(SomeoneHurt, LetsTheLastPersonLeaveAnOpenGuard)
{
    Night night;
    night.through(E::LampOut);
    EXPECT_FALSE(night.may(E::LeaveZone));

    night.happens(Happening::SomeoneHurt).does(E::LeaveZone);

    EXPECT_TRUE(night.here().leftExposed);
    EXPECT_EQ(night.state.group[0].locks, 1) << "the lock stays";
    EXPECT_TRUE(night.may(E::Sign)) << "the visit ends without waiting for anybody";
}

// ---- Found open -----------------------------------------------------------------------------------------

TEST(FoundOpen, IsOpenToTheWayBackOnlyUntilItIsShut)
{
    Night night;
    Act find = night.act(E::Find);
    find.seen = {.drive = Drive::Off,
                 .extraction = true,
                 .pointsOff = 1,
                 .housingOpen = true,
                 .guardOpen = true,
                 .seat = Seat::Entered,
                 .lamp = 0};
    night.does(find).does(E::LockOn).does(E::GearOn).does(E::EnterZone);

    for (const E toward : kTowardTheLamp)
        EXPECT_FALSE(night.may(toward)) << wordOf(toward);
    for (const E step : {E::Standby, E::Isolate, E::Relieve, E::TryStart, E::ProveAbsence})
        EXPECT_FALSE(night.may(step)) << wordOf(step);

    stepsBack(night);
    EXPECT_FALSE(night.here().leftExposed);
    EXPECT_TRUE(night.may(E::Relieve));
}

TEST(FoundOpen, WhileItBurnsNobodyGoesInAndNothingIsReadOfTheLight)
{
    Night night;
    night.through(E::Strike).happens(Happening::FoundOpen);
    ASSERT_EQ(night.here().heat, Heat::Lit);
    EXPECT_TRUE(night.here().guardOpen);

    for (const E effect : {E::DowserOpen, E::Peak, E::PeakAgain, E::MeasureScreen, E::Settle, E::Sign})
        EXPECT_FALSE(night.may(effect)) << wordOf(effect);
    night.does(E::GearOn);
    EXPECT_FALSE(night.may(E::EnterZone));
    makesSafe(night); // the light first
    EXPECT_FALSE(night.here().guardOpen);
}

// ---- Found again ----------------------------------------------------------------------------------------

TEST(FoundAgain, ALampThatBurnsSitsClampedInTheSeatWhateverWasSeenAtFirst) // A5
{
    for (const Seat seat : {Seat::Empty, Seat::Entered}) {
        Night night;
        Act first = night.act(E::Find);
        first.seen.lit = false;
        first.seen.seat = seat;
        first.seen.lamp = seat == Seat::Empty ? kNone : Index{0};
        night.does(first);

        night.does(E::Find); // it burns, everything shut

        EXPECT_EQ(night.here().heat, Heat::Lit);
        EXPECT_EQ(night.here().seat, Seat::Clamped);
        EXPECT_EQ(night.here().lamp, 0);
        EXPECT_EQ(night.state.lamp[0].place, Place::Clamped);
    }
}

TEST(FoundAgain, ALampThatCameLooseMeanwhileIsLooseAndShutInByNobody) // A7
{
    Night night;
    night.untilBefore(E::LampOut);
    Act later = night.act(E::Find);
    later.seen = {.fanRuns = false, .guardOpen = true, .seat = Seat::Entered, .lamp = 0};

    night.does(later);

    EXPECT_EQ(night.here().seat, Seat::Entered);
    EXPECT_FALSE(night.here().seatingSeen);
    EXPECT_EQ(night.state.lamp[0].place, Place::Entered);
    EXPECT_TRUE(night.waitsFor(Demand::NoLooseLamp, E::ShutGuard));
}

TEST(FoundAgain, ALooseLampBehindAGuardThatWasShutSinceCountsAsClampedAndNobodySawHow) // A7
{
    Night night;
    Act first = night.act(E::Find);
    first.seen = {.fanRuns = false, .guardOpen = true, .seat = Seat::Entered, .lamp = 0};
    night.does(first);
    Act later = night.act(E::Find);
    later.seen = {.fanRuns = false, .lamp = 0};

    night.does(later);

    EXPECT_EQ(night.here().seat, Seat::Clamped);
    EXPECT_FALSE(night.here().seatingSeen);
    EXPECT_EQ(night.state.lamp[0].place, Place::Clamped);
}

TEST(FoundAgain, ALampThatIsGoneMeanwhileIsAsOneThatWasNeverFound)
{
    Night night;
    night.untilBefore(E::ShutGuard); // the new lamp is clamped
    const Index fitted = night.here().lamp;
    ASSERT_NE(fitted, kNone);
    Act later = night.act(E::Find);
    later.seen = {.fanRuns = false, .guardOpen = true, .seat = Seat::Empty};

    night.does(later);

    EXPECT_EQ(night.here().seat, Seat::Empty);
    EXPECT_EQ(night.here().lamp, kNone);
    EXPECT_EQ(night.here().adaptor, kNone);
    EXPECT_EQ(night.state.lamp[fitted].place, Place::SealedBox);
    EXPECT_FALSE(night.state.lamp[fitted].booked) << "whatever goes in next proves itself";
    EXPECT_EQ(night.state.lamp[fitted].match, Match::No);
}

TEST(FoundAgain, WhatIsNotSeenChangesNothing)
{
    Night night;
    night.untilBefore(E::ShutGuard);
    const LamphouseState before = night.here();
    Act later = night.act(E::Find);
    later.seen = {.fanRuns = false, .guardOpen = true, .lamp = 0};

    night.does(later);

    EXPECT_EQ(night.here().seat, Seat::Clamped);
    EXPECT_EQ(night.here().lamp, before.lamp);
    EXPECT_EQ(night.here().seatingSeen, before.seatingSeen);
}

TEST(Looked, AtASeatBehindTheOpenGuardThatIsEmptyItIsEmpty)
{
    Night night;
    night.untilBefore(E::LampOut);
    Act look;
    look.effect = E::Look;
    look.outcome = Outcome::Disagrees;
    look.lamphouse = 0;
    look.lamp = 0;

    night.does(look);

    EXPECT_EQ(night.here().seat, Seat::Empty);
    EXPECT_EQ(night.here().lamp, kNone);
    EXPECT_EQ(night.state.lamp[0].place, Place::SealedBox);
}

TEST(Looked, ThroughAShutGuardNobodySeesAnEmptySeat)
{
    Night night;
    night.untilBefore(E::ExposeLamp);
    Act look;
    look.effect = E::Look;
    look.outcome = Outcome::Disagrees;
    look.lamphouse = 0;
    look.lamp = 0;

    night.does(look);

    EXPECT_EQ(night.here().seat, Seat::Clamped);
}

TEST(DoneInVain, LeavesTheGuardTheHousingAndTheBoxAsTheyWere) // B5
{
    for (const E effect : {E::BoxLamp, E::ShutGuard, E::ShutHousing}) {
        Night night;
        night.untilBefore(effect);
        const State before = night.state;
        Act act = night.act(effect);
        act.outcome = Outcome::Disagrees;

        night.does(act);

        EXPECT_EQ(night.state, before) << wordOf(effect);
    }
}

TEST(DoneInVain, LeavesAnAdaptorWhereItWas)
{
    Plant plant = invented();
    plant.lamphouse[0].hasAdaptor = true;
    plant.lamp[0].needsAdaptor = plant.lamp[1].needsAdaptor = true;
    for (const auto& [effect, before, on] :
         {std::tuple(E::AdaptorOff, E::BoxLamp, Index{0}), std::tuple(E::AdaptorOn, E::LampIn, kNone)}) {
        Night night(plant);
        night.untilBefore(before);
        night.state.lamphouse[0].adaptor = on;

        night.does(effect, Outcome::Disagrees);

        EXPECT_EQ(night.here().adaptor, on) << wordOf(effect);
        night.does(effect);
        EXPECT_NE(night.here().adaptor, on) << wordOf(effect);
    }
}

TEST(GivesWay, ALockThatIsSaidNotToHoldLeavesNothingDead) // B1
{
    Night night;
    night.untilBefore(E::ExposeLamp);
    ASSERT_TRUE(night.may(E::ExposeLamp));

    night.happens(Happening::PointWillNotLock);

    EXPECT_TRUE(night.waitsFor(Demand::StartTried, E::ExposeLamp));
    EXPECT_EQ(night.here().charge, Charge::Held);
    EXPECT_FALSE(night.here().startTried);
    EXPECT_FALSE(night.here().absent);
}

TEST(GivesWay, BehindAnOpenGuardOnlyTheWayOutIsLeft)
{
    Night night;
    night.untilBefore(E::LampOut);

    night.happens(Happening::PointWillNotLock);

    EXPECT_TRUE(night.here().leftExposed);
    EXPECT_TRUE(night.waitsFor(Demand::NotLeftExposed, E::LampOut));
    EXPECT_TRUE(night.may(E::ShutGuard));
}

/// Whatever its breaker seems to say: something feeds it.
TEST(FoundAgain, ALampThatBurnsIsFedThoughItsBreakerLooksOff)
{
    Night night;
    Act found = night.act(E::Find);
    found.seen.lit = true;
    found.seen.pointsOff = maskOf(0);

    night.does(found);

    EXPECT_EQ(night.here().heat, Heat::Lit);
    EXPECT_EQ(night.state.point[0].power, Power::On);
}

TEST(AMissingDifferenceOfCount, HoldsTheLastLockUntilAnswered) // B6
{
    Night night;
    night.untilBefore(E::Count);
    Act count = night.act(E::Count);
    count.outcome = Outcome::Differs;
    night.does(count);
    EXPECT_TRUE(night.waitsFor(Demand::CountsAnswered, E::LockOff));

    night.happens(Happening::CountAnswered);

    EXPECT_TRUE(night.may(E::LockOff));
}

} // namespace
} // namespace coldarc::test
