// What makes each gate wait again: the re-arm table C, row by row. Its clock
// rows are in the tests of visits, which keep the clocks.

#include "tests/core/machine/night.h"

namespace coldarc::test {
namespace {

using namespace machine;
using E = Effect;
using W = Wait;

constexpr Proved kEverything{true, true, true, true, true, true};

/// In the zone, guard still shut, everything proved.
Night proved(const Plant& plant = invented())
{
    Night night(plant);
    night.through(E::EnterZone);
    night.state.lamp[1].match = Match::Both;
    EXPECT_EQ(provedAt(night), kEverything);
    return night;
}

Night& steps(Night& night, std::initializer_list<E> effects)
{
    for (const E effect : effects)
        night.does(effect);
    return night;
}

void untilEverythingIsShut(Night& night)
{
    steps(night, {E::LeaveZone, E::ShutHousing, E::Count, E::GearOff});
}

struct Row {
    const char* name;
    void (*event)(Night&);
    Proved left;
    friend void PrintTo(const Row& row, std::ostream* out) { *out << row.name; }
};

class GatesWaitAgain : public ::testing::TestWithParam<Row> {};

TEST_P(GatesWaitAgain, After)
{
    Night night = proved();

    GetParam().event(night);

    EXPECT_EQ(provedAt(night), GetParam().left);
}

// In the order of `Proved`: cold, start tried, voltage absent, relieved, geared, matched.
const Row kRows[] = {
    {"AStrike",
     [](Night& n) {
         n.does(E::ExposeLamp).does(E::LampOut).does(E::BoxLamp).does(E::Unbox).does(E::LampIn);
         steps(n, {E::ClampLamp, E::ShutGuard});
         untilEverythingIsShut(n);
         steps(n, {E::LockOff, E::Restore, E::PowerUp, E::BookIn, E::KeyController, E::TellAgain});
         EXPECT_EQ(provedAt(n), (Proved{.cold = true, .matched = true}));
         n.does(E::Strike);
     },
     {false, false, false, false, false, true}},
    {"AStrikeThatFailed", // CV9: the lamp counts as hot
     [](Night& n) {
         n.does(E::ExposeLamp).does(E::LampOut).does(E::BoxLamp).does(E::Unbox).does(E::LampIn);
         steps(n, {E::ClampLamp, E::ShutGuard});
         untilEverythingIsShut(n);
         steps(n, {E::LockOff, E::Restore, E::PowerUp, E::BookIn, E::KeyController, E::TellAgain});
         n.does(E::Strike, Outcome::NoLight);
         EXPECT_TRUE(n.started(W::Cool));
     },
     {false, false, false, false, false, true}},
    {"ATryStartThatStarted", // CV9
     [](Night& n) {
         untilEverythingIsShut(n);
         EXPECT_EQ(provedAt(n), (Proved{true, true, false, true, false, true}));
         n.does(E::TryStart, Outcome::Started);
     },
     {false, false, false, false, false, true}},
    {"ATryStartThatStartedWithAnEmptySeat",
     [](Night& n) {
         n.does(E::ExposeLamp).does(E::LampOut).does(E::BoxLamp).does(E::ShutGuard);
         untilEverythingIsShut(n);
         n.does(E::TryStart, Outcome::Started);
         EXPECT_TRUE(n.started(W::Cool));
     },
     {false, false, false, false, false, true}},
    {"TheLastLockOff",
     [](Night& n) {
         untilEverythingIsShut(n);
         n.does(E::LockOff);
     },
     {true, false, false, false, false, true}},
    {"OneOfTwoLocksOff", // the other still holds
     [](Night& n) { n.does(E::LockOn, 1).does(E::LockOff, 1); },
     {true, true, true, true, true, true}},
    {"TheLastLockOffAndOnAgain",
     [](Night& n) {
         untilEverythingIsShut(n);
         n.does(E::LockOff).does(E::LockOn);
     },
     {true, false, false, false, false, true}},
    {"Restoring",
     [](Night& n) {
         untilEverythingIsShut(n);
         n.does(E::LockOff).does(E::Restore);
     },
     {true, false, false, false, false, true}},
    {"VoltageFound", // any live indication
     [](Night& n) { n.does(E::ProveAbsence, Outcome::Voltage); },
     {true, false, false, false, true, true}},
    {"APointSeenOn", // any live indication
     [](Night& n) {
         untilEverythingIsShut(n);
         Act find = n.act(E::Find);
         find.seen = {.fanRuns = true, .drive = Drive::Off, .extraction = true, .lamp = 0};
         n.does(find);
     },
     {false, false, false, false, false, true}},
    {"HousingShutAndReopenedUnderTheSameLock", // signed again though nobody left
     [](Night& n) {
         steps(n, {E::ShutHousing, E::OpenHousing});
     },
     {true, true, false, true, false, true}},
    {"LeavingTheZone", [](Night& n) { n.does(E::LeaveZone); }, {true, true, true, true, false, true}},
    {"TakingTheGearOff",
     [](Night& n) {
         steps(n, {E::LeaveZone, E::GearOff});
     },
     {true, true, true, true, false, true}},
    {"DamagedGear",
     [](Night& n) { n.happens(Happening::GearDamaged); },
     {true, true, true, true, false, true}},
    {"DamagedGearOfOneOfTwo", // Geared is of each one there
     [](Night& n) { n.goesIn(1).happens(Happening::GearDamaged, 1); },
     {true, true, true, true, false, true}},
    {"ASecondPersonGearedAndLocked", [](Night& n) { n.goesIn(1); }, {true, true, true, true, true, true}},
    {"OneOfTwoLeaving",
     [](Night& n) { n.goesIn(1).does(E::LeaveZone, 1); },
     {true, true, true, true, true, true}},
    {"PassingOn",
     [](Night& n) {
         untilEverythingIsShut(n);
         n.plant.person[1].authorised = true;
         n.does(E::LockOn, 1).happens(Happening::PassedOn, 0, 0, 1);
     },
     {true, false, false, true, false, true}},
    {"ARestartWhileOpen",
     [](Night& n) { n.happens(Happening::Resumed); },
     {true, true, false, true, false, true}},
    {"ARestartWhileExposed",
     [](Night& n) { n.does(E::ExposeLamp).happens(Happening::Resumed); },
     {true, true, false, true, false, true}},
    {"ANightThatNobodyWatchedAndALockThatIsGone",
     [](Night& n) {
         untilEverythingIsShut(n);
         n.happens(Happening::LeftAlone).happens(Happening::LocksMissed);
         EXPECT_TRUE(n.started(W::CoolUnforced)) << "perhaps it burnt meanwhile";
         EXPECT_TRUE(n.waitsFor(Demand::PointNotDoubted, E::Isolate));
     },
     {false, false, false, false, false, true}},
    {"ABurst",
     [](Night& n) {
         n.does(E::ExposeLamp).happens(Happening::LampBurst);
         EXPECT_TRUE(n.started(W::Cool));
         EXPECT_TRUE(n.waitsFor(Demand::NotBarred, E::Unbox)) << "a new lamp after inspection only";
     },
     {false, true, true, true, false, true}},
    {"AnotherTypeOrSerialThanWasTyped",
     [](Night& n) { n.happens(Happening::WrongLamp, 0, 1); },
     {true, true, true, true, true, false}},
    {"ABoxLabelThatDisagrees",
     [](Night& n) {
         Act label = n.act(E::MatchBox);
         label.outcome = Outcome::Disagrees;
         n.does(label);
     },
     {true, true, true, true, true, false}},
    {"AMarkingThatDisagrees",
     [](Night& n) {
         steps(n, {E::ExposeLamp, E::LampOut, E::BoxLamp});
         n.does(E::Unbox, Outcome::Disagrees);
     },
     {true, true, true, true, true, false}},
};

INSTANTIATE_TEST_SUITE_P(TableC, GatesWaitAgain, ::testing::ValuesIn(kRows),
                         [](const auto& instance) { return std::string(instance.param.name); });

TEST(Cold, WaitsTheUnforcedTimeAfterAPowerFailureOrAFanStopWhileItCools)
{
    for (const Happening what : {Happening::PowerFailed, Happening::FanStopped}) {
        Night night;
        night.through(E::LampOff);
        EXPECT_TRUE(night.started(W::Cool));

        night.happens(what);

        EXPECT_TRUE(night.started(W::CoolUnforced));
        EXPECT_FALSE(provedAt(night).cold);
    }
}

TEST(Cold, WaitsTheUnforcedTimeWhenFanOrPowerIsMissedBeforeTheBreakersAreOff) // nobody saw it stop
{
    for (const Happening what : {Happening::PowerFailed, Happening::FanStopped}) {
        Night night;
        night.through(W::Cool).happens(what);

        EXPECT_TRUE(night.started(W::CoolUnforced));
        EXPECT_FALSE(provedAt(night).cold);
    }
}

TEST(Cold, IsKeptWhenTheFanIsMissedOnceTheBreakersAreOff)
{
    Night night;
    night.through(E::Isolate);
    Event stopped;
    stopped.what = Happening::FanStopped;
    stopped.lamphouse = 0;

    EXPECT_FALSE(canHappen(night.plant, night.state, stopped)); // it is meant to stand still
    EXPECT_TRUE(provedAt(night).cold);
}

TEST(Cold, WaitsForNothingWhileTheLampBurnsOn)
{
    for (const Happening what : {Happening::PowerFailed, Happening::FanStopped}) {
        Night night;
        night.through(E::Find).happens(what);

        EXPECT_EQ(night.here().heat, Heat::Lit); // nobody has put it out
        EXPECT_FALSE(night.started(W::CoolUnforced));
        EXPECT_TRUE(night.may(E::LampOff));
    }
}

TEST(Cold, StartsToWaitWhenALampGoesOutByItself)
{
    Night night;
    night.through(E::Find).happens(Happening::WentOut);

    EXPECT_TRUE(night.started(W::Cool));
    EXPECT_FALSE(provedAt(night).cold);
}

TEST(Cold, WaitsTheUnforcedTimeWhenNobodySawTheFanRun)
{
    Night night;
    Act find = night.act(E::Find);
    find.seen.lit = false;
    night.does(find);
    EXPECT_TRUE(night.started(W::CoolUnforced));

    find.seen.fanRuns = true;
    night.does(find);
    EXPECT_TRUE(night.started(W::Cool));
}

TEST(Dead, KeepsATestBesideTheHousingThroughARestartWhileShut)
{
    Plant plant = invented();
    plant.lamphouse[0].testNeedsHousingOpen = false;
    Night night(plant);
    night.through(E::TryStart).does(E::ProveAbsence).happens(Happening::Resumed);

    EXPECT_TRUE(provedAt(night).absent);
}

TEST(Dead, WaitsAfterANightThatNobodyWatchedUntilSomebodyHasLookedAtTheLocks)
{
    Night night;
    night.through(E::TryStart).happens(Happening::LeftAlone);
    EXPECT_TRUE(night.waitsFor(Demand::LocksSeen, E::OpenHousing));
    EXPECT_TRUE(night.waitsFor(Demand::LocksSeen, E::TryStart));

    night.happens(Happening::LocksSeen);

    EXPECT_TRUE(night.may(E::OpenHousing));
}

TEST(Dead, IsTestedAgainOnceASingleDoorWasShut)
{
    Plant plant = invented();
    plant.lamphouse[0].hasHousing = false;
    plant.lamphouse[0].testNeedsHousingOpen = false;
    Night night(plant);
    night.through(E::TryStart).does(E::ProveAbsence).goesIn(0).does(E::ExposeLamp).does(E::ShutGuard);

    EXPECT_FALSE(provedAt(night).absent);
    EXPECT_FALSE(provedAt(night).geared) << "signed again";
    EXPECT_TRUE(provedAt(night).startTried);
}

TEST(Dead, IsKeptWhenOnlyTheGuardIsShutBehindAnOpenHousing)
{
    Night night = proved();
    night.does(E::ExposeLamp).does(E::ShutGuard);

    EXPECT_TRUE(provedAt(night).absent);
    EXPECT_TRUE(provedAt(night).geared);
}

TEST(Geared, OfOnePersonDoesNotOpenForAnother) // CV27
{
    Night night;
    night.through(E::GearOn).does(E::LockOn, 1);

    EXPECT_FALSE(night.may(E::EnterZone, 1));
}

TEST(Geared, IsNotCarriedToTheNextLamphouse) // CV27
{
    Plant plant = invented();
    plant.lamphouses = 2;
    plant.point[0].feeds = 3;
    plant.lamphouse[1] = plant.lamphouse[0];
    Night night(plant);
    Act findOther = night.act(E::Find);
    findOther.lamphouse = 1;
    findOther.seen.lamp = kNone;
    findOther.seen.seat = Seat::Empty;
    findOther.seen.lit = false;
    night.does(findOther).does(E::Find).does(E::GearOn);
    Act enterOther = night.act(E::EnterZone);
    enterOther.lamphouse = 1;

    EXPECT_TRUE(night.waitsFor(Demand::GearSigned, enterOther));
    EXPECT_FALSE(night.waitsFor(Demand::GearSigned, night.act(E::EnterZone)));
}

TEST(Geared, WaitsInAnEmptyZone)
{
    Night night;
    night.untilBefore(E::EnterZone);

    EXPECT_FALSE(provedAt(night).geared);
}

TEST(Matched, WaitsForTheLampsOwnMarking)
{
    Night night;
    night.untilBefore(E::Unbox);
    EXPECT_FALSE(night.may(E::BookIn)) << "1 of 2, box and paper";

    night.does(E::Unbox);

    EXPECT_TRUE(night.may(E::BookIn)) << "2 of 2";
}

TEST(Matched, IsNotMadeUpForByTheMarkingAlone)
{
    Night night;
    night.state.lamp[1].match = Match::No;
    night.through(E::Unbox);

    EXPECT_FALSE(night.may(E::BookIn));
}

TEST(Matched, NeverTakesATypeThatTheModelDoesNot)
{
    Plant plant = invented();
    plant.lamp[1].accepted = false;
    Night night(plant);
    night.through(E::Unbox);

    EXPECT_TRUE(night.waitsFor(Demand::Matched, E::BookIn));
}

TEST(Settled, WaitsAgainWithEachStrike)
{
    Night night;
    night.through(W::Settle);
    EXPECT_TRUE(night.may(E::PeakAgain));

    night.does(E::LampOff).holds(W::Cool).does(E::DowserShut).does(E::Strike);

    EXPECT_TRUE(night.started(W::Settle));
    EXPECT_TRUE(night.waitsFor(Demand::Settled, E::PeakAgain));
}

TEST(Settled, IsNeverReachedByALampFoundLitThatIsToBePutOut)
{
    Night night;

    night.does(E::Find);

    EXPECT_FALSE(night.started(W::Settle));
    EXPECT_FALSE(night.may(Step(W::Settle)));
}

TEST(Settled, IsWaitedForFromTheLookWhereALampFoundLitStaysLit)
{
    Plant plant = invented();
    plant.lamphouse[0].settlesFromFind = true;
    Night night(plant);

    night.does(E::Find);

    EXPECT_TRUE(night.started(W::Settle));
    EXPECT_TRUE(night.waitsFor(Demand::Settled, E::PeakAgain));
    night.holds(W::Settle).does(E::Find);
    EXPECT_FALSE(night.started(W::Settle)) << "it was seen burning before";
    EXPECT_FALSE(night.waitsFor(Demand::Settled, E::PeakAgain));
}

TEST(Settled, IsWaitedForAnewWhereALampThatWasOutIsFoundLit)
{
    Plant plant = invented();
    plant.lamphouse[0].settlesFromFind = true;
    Night night(plant);
    night.does(E::Find).holds(W::Settle).does(E::LampOff);

    night.does(E::Find);

    EXPECT_TRUE(night.started(W::Settle));
    EXPECT_TRUE(night.waitsFor(Demand::Settled, E::PeakAgain));
}

} // namespace
} // namespace coldarc::test
