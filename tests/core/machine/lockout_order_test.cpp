// The order of 29 CFR 1910.147(d) and (e) and 1910.333(b)(2), one swap of neighbours at a time. Paragraphs
// READ on 2026-11-25 in copies and state adoptions of the federal text, not on the official page; "house"
// marks a rule of our own (table of effects, invariants B).

#include "tests/core/machine/night.h"

namespace coldarc::test {
namespace {

using namespace machine;
using E = Effect;
using W = Wait;

constexpr const char* kFree = nullptr; // no rule orders these two

// Each step of the plain swap and the one that follows it.
const Ordered kNeighbours[] = {
    {E::Find, E::TellBefore, kFree},
    {E::TellBefore, E::LampOff, kFree},
    {E::LampOff, W::Cool, "147(d)(2): shut down orderly, so that stopping adds no hazard"},
    {W::Cool, E::Standby, "147(d)(2): the fan runs until the lamp is cold"},
    {E::Standby, E::Isolate, "147(d)(2) before (d)(3)"},
    {E::Isolate, E::LockOn, "147(d)(3) before (d)(4)(i)"},
    {E::LockOn, E::Relieve, "147(d)(4)(i) before (d)(5)(i)"},
    {E::Relieve, W::Bleed, "147(d)(5)(i)"},
    {W::Bleed, E::TryStart, "147(d)(5)(i) before (d)(6); 333(b)(2)(ii)(C)"},
    {E::TryStart, E::OpenHousing, "147(d)(6), before starting work; 333(b)(2)(iv)(A)"},
    {E::OpenHousing, E::ProveAbsence, "house: the test point lies behind the housing"},
    {E::ProveAbsence, E::GearOn, kFree},
    {E::GearOn, E::EnterZone, "house: B3, gear before the zone"},
    {E::EnterZone, E::ExposeLamp, "house: lamp and guard acts by somebody in the zone"},
    {E::ExposeLamp, E::LampOut, "house: the guard is over the lamp"},
    {E::LampOut, E::BoxLamp, "house: nothing in hand"},
    {E::BoxLamp, E::Unbox, "house: B5, one bare lamp at a time"},
    {E::Unbox, E::LampIn, "house: nothing in hand"},
    {E::LampIn, E::ClampLamp, "house: nothing in the seat"},
    {E::ClampLamp, E::ShutGuard, "house: A7, no loose lamp under a shut guard"},
    {E::ShutGuard, E::LeaveZone, "house: the last person does not leave an open guard"},
    {E::LeaveZone, E::ShutHousing, kFree},
    {E::ShutHousing, E::Count, kFree},
    {E::Count, E::GearOff, kFree},
    {E::GearOff, E::LockOff, kFree},
    {E::LockOff, E::Restore, "147(e)(3), 333(b)(2)(v)(C): locks off before power"},
    {E::Restore, E::PowerUp, "house: its points on"},
    {E::PowerUp, E::BookIn, kFree},
    {E::BookIn, E::KeyController, kFree},
    {E::KeyController, E::TellAgain, kFree},
    {E::TellAgain, E::Strike, "147(e)(2)(ii): told after removal, before start"},
    {E::Strike, E::DowserOpen, "house: light to let through"},
    {E::DowserOpen, E::Peak, "house: light to read"},
    {E::Peak, W::Settle, kFree},
    {W::Settle, E::Settle, "house: B10"},
    {E::Settle, E::PeakAgain, kFree},
    {E::PeakAgain, E::MeasureScreen, kFree},
    {E::MeasureScreen, E::Sign, kFree},
};

TEST(LockoutOrder, AcceptsThePlainSwapFromFindToSign)
{
    Night night;

    for (const Step& step : plainSwap())
        night.does(step);

    EXPECT_EQ(night.here().heat, Heat::Lit);
    EXPECT_EQ(night.here().lamp, 1);
    EXPECT_EQ(night.state.lamp[0].place, Place::Boxed);
}

TEST(LockoutOrder, RefusesEverySwapOfNeighboursThatTheRuleOrdersAndNoOther) // CV1, CV2
{
    ASSERT_EQ(std::size(kNeighbours), plainSwap().size() - 1);
    for (std::size_t index = 0; index < std::size(kNeighbours); ++index) {
        const Ordered& pair = kNeighbours[index];
        ASSERT_TRUE(pair.first == plainSwap()[index] && pair.then == plainSwap()[index + 1]);
        Night night;
        night.untilBefore(pair.first);

        EXPECT_EQ(night.may(pair.then), pair.paragraph == kFree)
            << wordOf(pair.then) << " before " << wordOf(pair.first) << ": "
            << (pair.paragraph ? pair.paragraph : "no rule orders them");

        night.does(pair.first);
        EXPECT_TRUE(night.may(pair.then)) << wordOf(pair.then) << " after " << wordOf(pair.first);
    }
}

// Steps that do not stand side by side: what is refused when one is left out, whatever else was done.
const Ordered kLeftOut[] = {
    {E::Find, E::Isolate, "147(d)(1): nobody knows what is there"},
    {E::TellBefore, E::Isolate, "147(c)(9): told before controls are applied"},
    {E::LampOff, E::Standby, "147(d)(2)"},
    {W::Cool, E::Isolate, "147(d)(2); house: A8"},
    {E::Standby, E::LockOn, "147(d)(2), (d)(3) before (d)(4)"},
    {E::Isolate, E::Relieve, "147(d)(3) before (d)(5)"},
    {E::Isolate, E::TryStart, "147(d)(3) before (d)(6)"},
    {E::Isolate, E::OpenHousing, "147(d)(3)"},
    {E::LockOn, E::TryStart, "147(d)(4) before (d)(6)"},
    {E::LockOn, E::OpenHousing, "147(d)(4)(i)"},
    {E::LockOn, E::EnterZone, "147(f)(3)(ii)(D)"},
    {E::LockOn, E::ExposeLamp, "147(d)(4)(i)"},
    {E::Relieve, E::TryStart, "147(d)(5)(i) before (d)(6)"},
    {E::Relieve, E::ExposeLamp, "147(d)(5)(i)"},
    {W::Bleed, E::ExposeLamp, "333(b)(2)(ii)(C)"},
    {E::TryStart, E::ProveAbsence, "333(b)(2)(iv): (A) before (B)"},
    {E::TryStart, E::ExposeLamp, "147(d)(6), 333(b)(2)(iv)(A)"},
    {E::ProveAbsence, E::ExposeLamp, "333(b)(2)(iv)(B), Note 2: the voltage test"},
    {E::GearOn, E::ExposeLamp, "house: A2"},
    {E::ClampLamp, E::Strike, "house: B9"},
    {E::ShutGuard, E::LockOff, "147(e)(1): operationally intact"},
    {E::ShutHousing, E::LockOff, "147(e)(1): operationally intact"},
    {E::LeaveZone, E::LockOff, "147(e)(2)(i): all safely away"},
    {E::Count, E::LockOff, "147(e)(1), 333(b)(2)(v)(A): tools gone"},
    {E::LockOff, E::TellAgain, "147(e)(2)(ii): told after removal"},
    {E::LockOff, E::Strike, "147(e)(3)"},
    {E::Restore, E::Strike, "house: no supply"},
    {E::BookIn, E::Strike, "house: B9"},
    {E::KeyController, E::Strike, "house: B9"},
    {W::Settle, E::PeakAgain, "house: B10"},
    {W::Settle, E::MeasureScreen, "house: B10"},
    {E::ShutHousing, E::Sign, "house: nothing left open"},
    {E::LockOff, E::Sign, "house: no lock left without a tag"},
};

TEST(LockoutOrder, RefusesWhatFollowsAStepThatWasLeftOut) // CV1, CV2
{
    for (const Ordered& pair : kLeftOut) {
        Night night;
        for (const Step& step : plainSwap()) {
            if (step == pair.then)
                break;
            if (step != pair.first && night.may(step))
                night.does(step);
        }

        EXPECT_FALSE(night.may(pair.then))
            << wordOf(pair.then) << " without " << wordOf(pair.first) << ": " << pair.paragraph;
    }
}

TEST(LockoutOrder, ProvesNothingWithOneOfTwoPointsLocked) // CV7, 1910.147(d)(4)(i): each device
{
    Night night(invented(2));
    night.through(W::Cool).does(E::Standby);
    Act isolate = night.act(E::Isolate);
    night.does(isolate);
    isolate.point = isolate.moved = 1;
    Act jobLock = night.act(E::LockOn);
    jobLock.point = 0;
    night.does(jobLock);

    EXPECT_FALSE(night.may(E::LockOn)) << "a personal lock hangs on the box once every point is off";

    night.does(isolate).does(E::LockOn);
    EXPECT_TRUE(night.waitsFor(Demand::PointsLocked, E::Relieve));
    EXPECT_TRUE(night.waitsFor(Demand::PointsLocked, E::TryStart));
    EXPECT_TRUE(night.waitsFor(Demand::PointsLocked, E::OpenHousing));

    jobLock.point = 1;
    night.does(jobLock);
    EXPECT_TRUE(night.may(E::Relieve));
}

TEST(LockoutOrder, ProvesNothingAtAPointThatTakesNoLock) // 1910.147(c)(2)(iii), (d)(4)(ii)
{
    Plant plant = invented();
    plant.point[0].lockable = false;
    Night night(plant);

    night.untilBefore(E::LockOn);

    EXPECT_FALSE(night.may(E::LockOn));
    EXPECT_TRUE(night.waitsFor(Demand::PointsLocked, E::Relieve));
}

TEST(LockoutOrder, AsksForEverythingAfreshAfterATestUnderPower) // CV3, 1910.147(f)(1)(v)
{
    Night night;
    night.through(E::TryStart);
    night.does(E::LockOff).does(E::Restore); // (f)(1)(iii), (iv)

    night.does(E::Isolate).does(E::LockOn); // (v): de-energised, locks on again

    EXPECT_FALSE(night.may(E::OpenHousing));
    EXPECT_FALSE(night.may(E::TryStart)) << "the charge is let down first";
    night.does(E::Relieve).holds(W::Bleed);
    EXPECT_FALSE(night.may(E::OpenHousing));
    night.does(E::TryStart).does(E::OpenHousing);
    EXPECT_TRUE(night.waitsFor(Demand::Absent, E::ExposeLamp));
}

TEST(LockoutOrder, LetsNobodyElseTakeALockOff) // CV4, 1910.147(e)(3)
{
    Night night;
    night.through(E::LockOn);

    EXPECT_FALSE(night.may(E::LockOff, 1));
    EXPECT_TRUE(night.may(E::LockOff, 0));
}

TEST(LockoutOrder, LetsNobodyElseTakeAJobLockOff) // 1910.147(e)(3), (f)(3)(ii)(A)
{
    Night night(invented(2));
    night.through(W::Cool).does(E::Standby).does(E::Isolate);
    Act jobLock = night.act(E::LockOn);
    jobLock.point = 0;
    night.does(jobLock);

    EXPECT_FALSE(night.may(E::JobLockOff, 1));
    EXPECT_TRUE(night.may(E::JobLockOff, 0));
}

TEST(LockoutOrder, RemovesAnAbsentOwnersLockOnlyByTheDocumentedException) // CV4, 1910.147(e)(3)(i)-(iii)
{
    Night night;
    night.through(E::OpenHousing);
    EXPECT_FALSE(canRemoveLock(night.plant, night.state, 0, 0)) << "open: the last lock stays, whose ever";
    night.does(E::ShutHousing);
    EXPECT_FALSE(canRemoveLock(night.plant, night.state, 0, 0)) << "not counted";
    night.does(E::Count);
    EXPECT_FALSE(canRemoveLock(night.plant, night.state, 1, 0)) << "no lock of this person hangs there";

    night.happens(Happening::LockRemoved);

    EXPECT_EQ(night.state.group[0].locks, 0);
    EXPECT_EQ(provedAt(night), (Proved{.cold = true})) << "as for any last lock off";
}

TEST(LockoutOrder, KeepsAnAbsentEngineersLockOverATraineesWhileAnythingIsOpen) // a trainee's goes first
{
    Night night;
    night.through(E::OpenHousing).does(E::LockOn, 1);

    EXPECT_FALSE(canRemoveLock(night.plant, night.state, 0, 0));

    night.plant.person[1].authorised = true;
    EXPECT_TRUE(canRemoveLock(night.plant, night.state, 0, 0)) << "another authorised lock stays";
}

TEST(LockoutOrder, PutsEachPersonsOwnLockOnTheGroup) // 1910.147(f)(3)(ii)(D)
{
    Night night;
    night.through(E::EnterZone);
    night.does(E::GearOn, 1);

    EXPECT_FALSE(night.may(E::EnterZone, 1)) << "the engineer's lock is not the trainee's";

    night.does(E::LockOn, 1).does(E::EnterZone, 1);
    EXPECT_TRUE(night.may(E::ExposeLamp));
}

TEST(LockoutOrder, TakesAnOwnLockOffWhenThatPersonStops) // 1910.147(f)(3)(ii)(D)
{
    Night night;
    night.through(E::EnterZone).goesIn(1);
    EXPECT_FALSE(night.may(E::LockOff, 1)) << "still in the zone";
    night.does(E::LeaveZone, 1);
    EXPECT_FALSE(night.may(E::LockOff, 1)) << "still in gear";

    night.does(E::GearOff, 1).does(E::LockOff, 1);

    EXPECT_TRUE(provedAt(night).startTried) << "the engineer's lock still holds";
    EXPECT_TRUE(night.may(E::ExposeLamp));
}

TEST(LockoutOrder, TakesATraineesLockOffFirst) // house: table of effects, lock-off
{
    Night night;
    night.through(E::LockOn).does(E::LockOn, 1);

    EXPECT_FALSE(night.may(E::LockOff, 0));
    night.does(E::LockOff, 1).does(E::LockOff, 0);
    EXPECT_EQ(night.state.group[0].locks, 0);
}

TEST(LockoutOrder, TakesTheJobLocksOffOnceNoPersonalLockIsLeft) // 1910.147(f)(3)(ii)(D)
{
    Night night(invented(2));
    night.through(W::Cool).does(E::Standby);
    for (const Index point : {Index{0}, Index{1}}) {
        Act isolate = night.act(E::Isolate);
        isolate.point = isolate.moved = point;
        Act jobLock = night.act(E::LockOn);
        jobLock.point = point;
        night.does(isolate).does(jobLock);
    }
    night.does(E::LockOn);

    EXPECT_FALSE(night.may(E::JobLockOff));
    night.does(E::LockOff);
    EXPECT_FALSE(night.may(E::Restore)) << "its job lock hangs there";
    night.does(E::JobLockOff).does(E::Restore);
}

TEST(LockoutOrder,
     TakesNoCheckAtAFailedSupply) // 1910.333(b)(2)(iv): no response proves nothing without supply
{
    Night night;
    night.untilBefore(E::TryStart);
    Act attempt = night.act(E::TryStart);
    attempt.supplySeen = false;

    EXPECT_TRUE(night.waitsFor(Demand::SupplySeen, attempt));
    EXPECT_FALSE(night.may(attempt));
}

TEST(LockoutOrder, TakesNoReadingOfATesterThatWasNotProved) // CV13, 1910.333(b)(2)(iv)(B)
{
    Night night;
    night.untilBefore(E::ProveAbsence);
    Act test = night.act(E::ProveAbsence);
    test.testerProved = false;

    EXPECT_FALSE(night.may(test));
    EXPECT_TRUE(night.waitsFor(Demand::MayProve, night.act(E::ProveAbsence, 1))) << "not a qualified person";
}

TEST(LockoutOrder, LeavesItsGateWaitingWhenACheckFails)
{
    Night night;
    night.untilBefore(E::TryStart);
    night.does(E::TryStart, Outcome::Plain); // no answer was given
    EXPECT_FALSE(provedAt(night).startTried);

    night.does(E::TryStart).does(E::OpenHousing).does(E::ProveAbsence, Outcome::Plain);
    EXPECT_FALSE(provedAt(night).absent);
}

TEST(LockoutOrder, AsksAnewWhenTheTestPointBehindTheGuardIsReached) // 1910.147(d)(5)(ii): verified until done
{
    Plant plant = invented();
    plant.lamphouse[0].testBehindGuard = true;
    Night night(plant);
    night.through(E::ExposeLamp);
    EXPECT_TRUE(night.waitsFor(Demand::AbsentBehind, E::LampOut));
    Act behind = night.act(E::ProveAbsence);
    behind.behindGuard = true;

    night.does(behind);

    EXPECT_TRUE(night.may(E::LampOut));
    night.does(E::ShutGuard).does(E::ExposeLamp);
    EXPECT_TRUE(night.waitsFor(Demand::AbsentBehind, E::LampOut)) << "since it was opened";
}

} // namespace
} // namespace coldarc::test
