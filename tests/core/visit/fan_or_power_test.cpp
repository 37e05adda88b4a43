#include "tests/core/visit/incident_night.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace visit;
using namespace std::chrono_literals;
using machine::Effect;
using machine::Heat;
using Kind = Why::Kind;

TEST(FanOrPower, LostWhileItCoolsMeansTheUnforcedWaitFromThen)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    ASSERT_TRUE(night.doNext());
    night.clock.advance(600s);

    ASSERT_TRUE(night.tell(at(Incident::FanOrPower)));

    EXPECT_EQ(night.seen().waits[0].cool.left(), 2700s); // cool_unforced_s
    EXPECT_TRUE(night.hasException(Exception::Kind::WaitCutByIncident));
    night.doAll();
    night.close();
    EXPECT_EQ(night.state.end, u"done"_s);
}

TEST(FanOrPower, StandingStillAtLampOffIsNoticedByTheStep)
{
    Night night;
    night.doUntil(u"lamp-off"_s);

    ASSERT_TRUE(answering(night, u"lamp-off"_s, u"fan"_s, procedure::Means::Still));

    EXPECT_TRUE(night.hasIncident(Incident::FanOrPower));
    EXPECT_EQ(night.seen().waits[0].cool.left(), 2700s);
}

TEST(FanOrPower, OfAPointCoolsEveryLampThatItFeeds)
{
    Night night(u"quillhaven-pair"_s);
    night.doUntil(u"lamp-off"_s); // the other one is off already
    Happened mains;
    mains.incident = Incident::FanOrPower;
    mains.point = PointId(u"point-1-shared-feed"_s);
    mains.wentOut = {night.state.ground->lamphouses[0]};

    ASSERT_TRUE(night.tell(mains));

    EXPECT_EQ(night.lamphouse(0).heat, Heat::Cooling);
    EXPECT_EQ(night.seen().waits[0].cool.left(), 3600s);
    EXPECT_EQ(night.seen().waits[1].cool.left(), 3600s);
    night.doAll();
    EXPECT_EQ(night.lamphouse(0).heat, Heat::Lit);
}

TEST(FanOrPower, OfALampThatBurnsWaitsForNothingBeforeItIsPutOut)
{
    Night night;
    night.doUntil(u"lamp-off"_s);

    ASSERT_TRUE(night.tell(at(Incident::FanOrPower)));

    EXPECT_EQ(night.lamphouse().heat, Heat::Lit);
    EXPECT_EQ(night.nextId(), u"lamp-off"_s);
    night.clock.advance(2700s); // cool_unforced_s
    EXPECT_TRUE(isRefused(night.doStep(u"standby"_s, [](QJsonObject&) {}), Kind::NotYourTurn));
    ASSERT_TRUE(answering(night, u"lamp-off"_s, u"fan"_s, procedure::Means::Still));
    EXPECT_EQ(night.seen().waits[0].cool.left(), 2700s);
}

TEST(FanOrPower, OfAPointThatMayNotCarryTheArcLeavesTheLampToBePutOut)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    Happened electronics;
    electronics.incident = Incident::FanOrPower;
    electronics.point = PointId(u"point-1-electronics"_s);

    ASSERT_TRUE(night.tell(electronics));

    EXPECT_EQ(night.lamphouse().heat, Heat::Lit);
    EXPECT_EQ(night.nextId(), u"lamp-off"_s);
}

TEST(FanOrPower, SaidToHavePutTheLampOutBeginsTheLongerWait)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithRelief);
    night.doUntil(u"lamp-off"_s);
    ASSERT_TRUE(night.tell(night.ben(), Left{night.ben()}));
    Happened dark = at(Incident::FanOrPower);
    dark.wentOut = {LamphouseId(u"lamphouse-1-main"_s)};

    EXPECT_FALSE(night.tell(night.ben(), dark)); // hearsay shortens nothing
    EXPECT_TRUE(night.tell(night.ben(), at(Incident::FanOrPower)));
    EXPECT_EQ(night.lamphouse().heat, Heat::Lit);
    ASSERT_TRUE(night.tell(dark));

    EXPECT_EQ(night.lamphouse().heat, Heat::Cooling);
    EXPECT_EQ(night.seen().waits[0].cool.left(), 2700s);                  // cool_unforced_s
    EXPECT_FALSE(night.hasException(Exception::Kind::WaitCutByIncident)); // none ran
    EXPECT_EQ(night.nextId(), u"standby"_s);                              // there is nothing left to put out
    expectSame(night.state, night.readBack());
}

TEST(FanOrPower, PutsOutNoLampOfAPlaceThatIsNone)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    Happened nowhere = at(Incident::FanOrPower);
    nowhere.wentOut = {LamphouseId(u"nowhere"_s)};
    Happened seized = at(Incident::FastenerSeized);
    seized.wentOut = {LamphouseId(u"lamphouse-1-main"_s)};

    EXPECT_TRUE(isRefused(night.tell(nowhere), Kind::UnknownName));
    EXPECT_TRUE(isRefused(night.tell(seized), Kind::UnknownName));
}

TEST(FanOrPower, NoticedAfterTheWaitWasOverBeginsTheLongerOne)
{
    for (const PointId& point : {PointId(), PointId(u"point-1-electronics"_s)}) {
        Night night;
        night.doUntil(u"lamp-off"_s);
        ASSERT_TRUE(night.doNext());
        night.clock.advance(12min);
        ASSERT_EQ(night.seen().machine.lamphouse[0].heat, Heat::Cold);
        Happened stopped = at(Incident::FanOrPower);
        stopped.point = point;

        ASSERT_TRUE(night.tell(stopped)); // nobody saw when

        EXPECT_EQ(night.seen().waits[0].cool.left(), 2700s);
        EXPECT_EQ(demandsOf(night.doStep(u"standby"_s, [](QJsonObject&) {})),
                  QList{machine::Demand::ProjectorCold});
        night.doAll();
        night.close();
        EXPECT_EQ(night.state.end, u"done"_s);
    }
}

TEST(FanOrPower, OfALamphouseWhoseBreakersAreOffKeepsItCold)
{
    Night night;
    night.doUntil(u"relieve"_s);

    ASSERT_TRUE(night.tell(at(Incident::FanOrPower)));

    EXPECT_EQ(night.lamphouse().heat, Heat::Cold);
}

TEST(FanOrPower, ByAnotherBreakerThanThePlansIsAnIncidentThere)
{
    Night night;
    night.doUntil(u"isolate-lamp-supply"_s);

    ASSERT_TRUE(answering(night, u"isolate-lamp-supply"_s, u"which"_s, procedure::Means::NoneOfOurs));

    EXPECT_TRUE(night.hasIncident(Incident::FanOrPower));
    EXPECT_EQ(night.state.machine.point[0].power, machine::Power::On);
    night.doAll(); // the right one comes again before its lock
    EXPECT_EQ(night.lamphouse().heat, Heat::Lit);
}

TEST(FanOrPower, OfTheOtherSwapIsAskedForWhereNobodyCanNameTheBreakerThatWasMoved)
{
    for (const bool isKnownHere : {false, true}) {
        Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
        night.doUntil(u"isolate-lamp-supply"_s, 0);
        night.doUntil(u"lamp-off"_s, 1);
        ASSERT_TRUE(night.doNext(1));
        night.clock.advance(1min);

        ASSERT_TRUE(answering(night, u"isolate-lamp-supply"_s, u"which"_s,
                              isKnownHere ? procedure::Means::Named : procedure::Means::NoneOfOurs));

        night.clock.advance(12min); // perhaps the fan there has stood still since
        EXPECT_EQ(night.seen().machine.lamphouse[1].heat, isKnownHere ? Heat::Cold : Heat::Cooling);
        EXPECT_EQ(night.seen().waits[1].cool.asksForFan, !isKnownHere);
        EXPECT_EQ(night.seen().machine.lamphouse[0].heat, Heat::Cold);
        if (isKnownHere)
            continue;
        EXPECT_TRUE(isRefused(night.doStep(
                                  u"standby"_s, [](QJsonObject&) {}, 1),
                              Kind::FanQuestion));
        ASSERT_TRUE(night.tell(FanAnswered{night.state.ground->lamphouses[1], false}));
        EXPECT_EQ(night.seen().waits[1].cool.left(), 2700s);
        night.doUntil(u"sign"_s, 0);
        night.doAll(1);
        night.doAll(0);
        night.close();
        expectSame(night.state, night.readBack());
    }
}

TEST(FanOrPower, OfTheOtherSwapIsAskedForWhereMakingSafeMovesABreakerThatLeavesSomethingLit)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    night.doUntil(u"isolate-lamp-supply"_s, 0);
    night.doUntil(u"lamp-off"_s, 1);
    ASSERT_TRUE(night.doNext(1));
    ASSERT_TRUE(night.tell(ofLamp(Incident::LampUnfit, u"old-1-main"_s))); // it ends out of use
    ASSERT_TRUE(night.tell(SafeBegun{u"a mark on the bulb"_s}));

    ASSERT_TRUE(night.doAct(night.ada(), Effect::Isolate, 0, [](machine::Act& act) { act.point = 0; }));

    EXPECT_TRUE(night.seen().waits[1].cool.asksForFan);
}

TEST(WentOutByItself, StartsTheWaitForCold)
{
    Night night;
    night.doUntil(u"lamp-off"_s);

    ASSERT_TRUE(night.tell(at(Incident::WillNotLight)));

    EXPECT_EQ(night.lamphouse().heat, Heat::Cooling);
    EXPECT_EQ(night.seen().waits[0].cool.left(), 720s);
    EXPECT_EQ(night.nextId(), u"standby"_s); // there is nothing left to put out
}

TEST(WentOutByItself, IsColdOnlyOnceSomebodySaysThatAirMoved)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    ASSERT_TRUE(night.tell(at(Incident::WillNotLight)));
    night.clock.advance(720s); // cool_s

    EXPECT_TRUE(isRefused(night.doStep(u"standby"_s, [](QJsonObject&) {}), Kind::FanQuestion));
    ASSERT_TRUE(night.tell(FanAnswered{LamphouseId(u"lamphouse-1-main"_s), true}));

    EXPECT_EQ(night.lamphouse().heat, Heat::Cold);
}

TEST(WentOutByItself, WithNoAirOverItTakesTheLongerWait)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    ASSERT_TRUE(night.tell(at(Incident::WillNotLight)));
    night.clock.advance(600s);

    ASSERT_TRUE(night.tell(FanAnswered{LamphouseId(u"lamphouse-1-main"_s), false}));

    EXPECT_EQ(night.seen().waits[0].cool.left(), 2700s); // cool_unforced_s
}

} // namespace
} // namespace coldarc::test
