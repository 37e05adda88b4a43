#include "core/visit/light_of_visit.h"
#include "core/visit/open_visit.h"
#include "core/visit/sheet_of_visit.h"
#include "tests/core/visit/night.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace visit;
using namespace std::chrono_literals;
using Kind = Why::Kind;
using machine::Demand;
using machine::Effect;

// All lamps, persons and places are invented.

/// What was left on one night, done on another.
class FollowUpTest : public ::testing::Test {
protected:
    static Night nightFor(const QStringList& owed, const QString& model = u"larkmoor-teal"_s)
    {
        return Night(followUpOf(Night(model), owed));
    }
    static Decision find(Night& night, const QString& lamp, const QString& projector = {})
    {
        return night.doStep(u"find"_s, [&](QJsonObject& answers) {
            answers[u"lamp"_s] = lamp;
            if (!projector.isEmpty())
                answers[u"projector"_s] = projector;
        });
    }
    static Decision read(Night& night, double value)
    {
        LightRead light;
        light.swap = night.swap().id;
        light.step = night.next().step->id;
        light.value = value;
        return night.tell(light);
    }
};

TEST_F(FollowUpTest, GoesStraightToWhatIsOwedWhereTheLampBurns)
{
    Night night = nightFor({u"peak-again"_s});

    ASSERT_TRUE(find(night, u"Lit"_s));
    if (night.nextId() == u"dowser-open"_s)
        night.doNext();

    EXPECT_EQ(night.nextId(), u"settle"_s);
    EXPECT_FALSE(night.isDone(u"strike"_s));
}

TEST_F(FollowUpTest, CountsTheSettlingOfALampFoundLitFromTheLookAtIt)
{
    Night night = nightFor({u"peak-again"_s});
    ASSERT_TRUE(find(night, u"Lit"_s));
    if (night.nextId() == u"dowser-open"_s)
        night.doNext();
    const auto wait = night.state.ground->waits[0].settle;

    const Decision early = night.doStep(u"settle"_s, [](QJsonObject&) {});
    EXPECT_TRUE(demandsOf(early).contains(Demand::Settled));
    night.clock.advance(wait - 1min);
    EXPECT_FALSE(night.doStep(u"settle"_s, [](QJsonObject&) {}));
    night.clock.advance(1min);

    EXPECT_TRUE(night.doStep(u"settle"_s, [](QJsonObject&) {}));
    EXPECT_EQ(night.nextId(), u"peak-again"_s);
}

TEST_F(FollowUpTest, GoesOnSettlingWhenALampThatBurnsIsLookedAtAgain)
{
    Night night = nightFor({u"peak-again"_s});
    ASSERT_TRUE(find(night, u"Lit"_s));
    if (night.nextId() == u"dowser-open"_s)
        night.doNext();
    night.clock.advance(night.state.ground->waits[0].settle - 1min);

    ASSERT_TRUE(night.doAct(night.ada(), Effect::Find, 0, [](machine::Act& act) {
        act.seen.lit = true;
        act.seen.dowserOpen = true;
        act.seen.lamp = 0;
    }));
    night.clock.advance(1min);

    EXPECT_TRUE(night.doStep(u"settle"_s, [](QJsonObject&) {}));
}

TEST_F(FollowUpTest, LightsALampThatIsOutByEveryDemandOfAStrike)
{
    Night night = nightFor({u"peak-again"_s});
    ASSERT_TRUE(find(night, u"Off"_s, u"Standby"_s));

    QStringList way;
    while (night.nextId() != u"peak-again"_s && way.size() < 20) {
        way << night.nextId();
        const Decision done = night.doNext();
        ASSERT_TRUE(done) << way.last().toStdString() << wordsOf(done.error());
    }

    EXPECT_EQ(way.first(), u"power-up"_s);
    EXPECT_LT(way.indexOf(u"key-controller"_s), way.indexOf(u"strike"_s));
    EXPECT_TRUE(way.contains(u"key-controller"_s));
    EXPECT_LT(way.indexOf(u"tell-again"_s), way.indexOf(u"strike"_s));
    EXPECT_EQ(way.last(), u"settle"_s);
}

TEST_F(FollowUpTest, TakesNoOtherTypeReadBackThanThatOfTheLampThatIsIn)
{
    Night night = nightFor({u"peak-again"_s});
    ASSERT_TRUE(find(night, u"Off"_s));
    night.doUntil(u"key-controller"_s);

    const Decision other = night.doStep(u"key-controller"_s,
                                        [](QJsonObject& answers) { answers[u"type"_s] = u"ANOTHER-TYPE"_s; });

    EXPECT_TRUE(isRefused(other, Kind::AnswerBad));
}

TEST_F(FollowUpTest, StrikesNoLampThatIsPastItsLife)
{
    Opening opening = followUpOf(Night(), {u"peak-again"_s});
    opening.fitted.first().hours = 100'000;
    Night night(opening);
    ASSERT_TRUE(find(night, u"Off"_s));

    EXPECT_TRUE(night.next().endsHere) << "nothing leads to its light any more";
    night.makeSafe();
    night.close();
    EXPECT_EQ(night.state.end, u"as-it-was"_s);
}

TEST_F(FollowUpTest, LooksForNoLightWhereTheSeatIsEmpty)
{
    Night night = nightFor({u"peak-again"_s});
    ASSERT_TRUE(night.doStep(u"find"_s, [](QJsonObject& answers) {
        answers[u"lamp"_s] = u"Off"_s;
        answers[u"seat"_s] = u"Empty"_s;
    }));

    EXPECT_TRUE(night.next().endsHere);
}

const std::array kHeld{std::pair{u"tag"_s, u"Somebody's lock and tag"_s},
                       std::pair{u"tag"_s, u"Out of use"_s},
                       std::pair{u"point-lamp-supply"_s, u"Off, locked"_s}};

void findHeld(Night& night, const std::pair<QString, QString>& answered)
{
    night.doUntil(u"find"_s);
    ASSERT_TRUE(night.doStep(u"find"_s, [&](QJsonObject& answers) {
        answers[u"lamp"_s] = u"Off"_s;
        for (const QString& point : {u"point-lamp-supply"_s, u"point-electronics"_s})
            answers[point] = u"Off, no lock"_s;
        answers[answered.first] = answered.second;
    }));
}

machine::Mask powered(const Night& night)
{
    machine::Mask on = 0;
    for (machine::Index point = 0; point < night.state.plant.points; ++point)
        on = static_cast<machine::Mask>(
            on | (night.state.machine.point[point].power == machine::Power::On ? machine::maskOf(point) : 0));
    return on;
}

TEST_F(FollowUpTest, PutsNoPowerBackUnderSomebodysLockOrTag)
{
    for (const auto& answered : kHeld) {
        Night night = nightFor({u"peak-again"_s});
        findHeld(night, answered);
        const machine::Mask held = static_cast<machine::Mask>(~powered(night) & 0b11);
        ASSERT_NE(held, 0);

        EXPECT_TRUE(night.next().endsHere) << answered.second.toStdString();
        night.makeSafe();
        night.close();
        EXPECT_FALSE(night.isDone(u"power-up"_s)) << answered.second.toStdString();
        EXPECT_NE(powered(night) & held, held) << "what somebody holds is left as they left it";
        EXPECT_EQ(night.state.end, u"as-it-was"_s);
    }
}

TEST(SomebodysLock, AnOrdinarySwapGoesNoFurtherUnderItAndPutsNoPowerBack)
{
    for (const auto& answered : kHeld) {
        Night night;
        findHeld(night, answered);
        const machine::Mask before = powered(night);

        EXPECT_TRUE(night.next().endsHere) << answered.second.toStdString();
        night.makeSafe();
        EXPECT_EQ(powered(night) & machine::maskOf(0), before & machine::maskOf(0))
            << answered.second.toStdString();
        night.close();
        EXPECT_EQ(night.state.end, u"as-it-was"_s) << "it closes without anybody saying that it is on";
    }
}

TEST(SomebodysLock, NothingIsTriedOrOpenedUnderItWhoeverAsks)
{
    Night night;
    findHeld(night, kHeld.front());
    machine::Act act;
    act.lamphouse = 0;
    for (const Effect effect : {Effect::TryStart, Effect::OpenHousing, Effect::ExposeLamp}) {
        act.effect = effect;
        act.person = 0;
        EXPECT_TRUE(machine::unmet(night.state.plant, night.state.machine, act)
                        .test(static_cast<std::size_t>(Demand::NotHeld)))
            << static_cast<int>(effect);
    }
}

TEST(SomebodysLock, WhereItStartedAllTheSameItIsLeftUnderOurTagToo)
{
    Night night;
    findHeld(night, kHeld.front());
    Happened started;
    started.incident = Incident::ItStarted;
    started.swap = night.swap().id;
    started.lamphouse = night.state.ground->lamphouses.first();
    ASSERT_TRUE(night.tell(started));

    night.makeSafe();
    night.close();

    EXPECT_EQ(night.state.end, u"out-of-use"_s);
}

TEST(SomebodysLock, AnotherLookSaysThatItIsFree)
{
    Night night;
    findHeld(night, kHeld.front());
    ASSERT_TRUE(night.next().endsHere);

    ASSERT_TRUE(night.doAct(night.ada(), machine::Effect::Find, 0, [](machine::Act& act) {
        act.seen.lamp = 0;
        act.seen.drive = machine::Drive::Off;
    }));

    EXPECT_FALSE(night.next().endsHere);
    night.doAll();
    night.close();
    EXPECT_EQ(night.lamphouse().heat, machine::Heat::Lit);
}

/// Both lamphouses are fed by one breaker, which is found off at both.
void findTagAtOneOf(Night& night, const QString& tagged)
{
    night.doUntil(u"find"_s);
    for (const QString& look : {u"find"_s, u"find-other"_s}) {
        ASSERT_TRUE(night.doStep(look, [&](QJsonObject& answers) {
            answers[u"lamp"_s] = u"Off"_s;
            answers[u"projector"_s] = u"Off"_s;
            answers[u"point-shared-feed"_s] = u"Off, no lock"_s;
            if (look == tagged)
                answers[u"tag"_s] = u"Out of use"_s;
        }));
    }
}

TEST(SomebodysLock, ATagAtOneLamphouseOfAPairHoldsWhateverIsSeenAtTheOther)
{
    for (const QString& tagged : {u"find"_s, u"find-other"_s}) {
        Night night(u"quillhaven-pair"_s);
        findTagAtOneOf(night, tagged);

        EXPECT_TRUE(night.next().endsHere) << tagged.toStdString();
        night.makeSafe();
        EXPECT_EQ(powered(night), 0) << tagged.toStdString();
    }
}

TEST(SomebodysLock, OfAPairIsLookedForAgainWhereItWasSeen)
{
    Night night(u"quillhaven-pair"_s);
    findTagAtOneOf(night, u"find-other"_s);
    const auto lookAt = [&](machine::Index lamphouse) {
        return night.doAct(night.ada(), Effect::Find, lamphouse, [&](machine::Act& act) {
            act.seen.lamp = lamphouse;
            act.seen.drive = machine::Drive::Off;
        });
    };

    ASSERT_TRUE(lookAt(0));
    EXPECT_TRUE(night.next().endsHere);
    ASSERT_TRUE(lookAt(1));

    EXPECT_FALSE(night.next().endsHere);
}

TEST(SomebodysLock, ALockOfThisVisitOnASharedBreakerIsNotOne)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 1);
    night.doUntil(u"relieve"_s); // off, and the own locks hang

    ASSERT_TRUE(night.doAct(night.ada(), machine::Effect::Find, 0, [](machine::Act& act) {
        act.seen.lamp = 0;
        act.seen.fanRuns = true;
        act.seen.drive = machine::Drive::Off;
        act.seen.pointsOff = act.seen.held = 0b11;
    }));

    EXPECT_FALSE(night.next().endsHere) << "off and locked, by ourselves";
}

TEST_F(FollowUpTest, ComesBackToTheStrikeWhenTheLampGoesOut)
{
    Night night = nightFor({u"peak-again"_s});
    ASSERT_TRUE(find(night, u"Lit"_s));
    night.doUntil(u"peak-again"_s);

    ASSERT_TRUE(night.tell(Happened{
        Incident::WillNotLight, night.swap().id, night.state.ground->lamphouses.first(), {}, {}, {}, {}}));

    EXPECT_EQ(night.nextId(), u"key-controller"_s) << "what the strike needs comes first";
    night.doUntil(u"peak-again"_s);
    EXPECT_EQ(night.lamphouse().heat, machine::Heat::Lit);
}

TEST_F(FollowUpTest, OffersNothingButToMakeSafeWhereItIsFoundOpen)
{
    Night night = nightFor({u"peak-again"_s});
    ASSERT_TRUE(night.doStep(u"find"_s, [](QJsonObject& answers) {
        answers[u"lamp"_s] = u"Off"_s;
        answers[u"guard"_s] = u"Open"_s;
        answers[u"housing"_s] = u"Open"_s;
    }));
    ASSERT_TRUE(night.lamphouse().leftExposed);

    EXPECT_TRUE(night.next().endsHere);
    night.makeSafe();

    EXPECT_FALSE(night.lamphouse().guardOpen);
}

TEST_F(FollowUpTest, IsMadeSafeFromEveryStep)
{
    for (const QString& at : {u"find"_s, u"key-controller"_s, u"strike"_s, u"settle"_s, u"peak-again"_s}) {
        Night night = nightFor({u"peak-again"_s});
        if (at != u"find"_s)
            ASSERT_TRUE(find(night, u"Off"_s));
        else
            ASSERT_TRUE(find(night, u"Lit"_s));
        if (at != u"find"_s)
            night.doUntil(at);

        night.makeSafe();
        night.close();

        EXPECT_EQ(night.state.end, u"as-it-was"_s) << at.toStdString();
    }
}

TEST_F(FollowUpTest, KeepsTheLightOfTheLampAsItBurns)
{
    Night night = nightFor({u"peak-again"_s});
    ASSERT_TRUE(find(night, u"Lit"_s));
    night.doUntil(u"peak-again"_s);

    ASSERT_TRUE(read(night, 40.0));
    ASSERT_TRUE(read(night, 42.0));

    const LightOfSwap light = lightOf(night.state, night.swap().id);
    EXPECT_EQ(light.points.size(), 2u);
    EXPECT_TRUE(light.isWaitOver);
    EXPECT_EQ(light.best, 42.0);
}

TEST_F(FollowUpTest, MeasuresTheScreenUnderTheLampThatWasFittedBefore)
{
    Night night = nightFor({u"measure-screen"_s});
    EXPECT_EQ(sheetTimeNow(night.swap()), SheetTime::After);
    ASSERT_TRUE(find(night, u"Lit"_s));
    night.doUntil(u"measure-screen"_s);
    EXPECT_TRUE(isRefused(night.doStep(u"measure-screen"_s, [](QJsonObject&) {}), Kind::ScreenNotRead));

    night.readCentre();
    ASSERT_TRUE(night.doStep(u"measure-screen"_s, [](QJsonObject&) {}));

    EXPECT_TRUE(sheetOf(night.state, night.swap().id, SheetTime::After)
                    .sheet.at(photometry::Place::Centre)
                    .has_value());
    EXPECT_TRUE(sheetOf(night.state, night.swap().id, SheetTime::Arrival).isEmpty());
}

TEST_F(FollowUpTest, ReadsNoScreenBeforeTheLightHasSettled)
{
    Night night = nightFor({u"measure-screen"_s});
    ASSERT_TRUE(find(night, u"Lit"_s));
    ScreenRead read;
    read.swap = night.swap().id;
    read.step = StepId(u"measure-screen"_s);
    read.points = {{photometry::Place::Centre, 48, std::nullopt}};

    EXPECT_TRUE(demandsOf(night.tell(read)).contains(Demand::Settled));
}

TEST_F(FollowUpTest, IsSignedAndClosedLikeAnyVisitAndReadsBack)
{
    for (const QString& model : {u"larkmoor-teal"_s, u"sedgebrook-nook"_s, u"quillhaven-pair"_s}) {
        Night night = nightFor({u"peak-again"_s, u"measure-screen"_s}, model);
        EXPECT_TRUE(isRefused(night.tell(Closed{}), Kind::NotPerformed));

        night.doAll();
        night.close();

        EXPECT_EQ(night.state.end, u"done"_s) << model.toStdString();
        EXPECT_TRUE(night.isDone(u"peak-again"_s));
        EXPECT_TRUE(night.isDone(u"measure-screen"_s));
        expectSame(night.state, night.readBack());
    }
}

TEST_F(FollowUpTest, CannotBeClosedWithoutDoingOrLeavingWhatIsOwed)
{
    Night night = nightFor({u"peak-again"_s});
    ASSERT_TRUE(find(night, u"Lit"_s));
    ASSERT_TRUE(night.tell(Signed{u"performed"_s}));
    EXPECT_TRUE(isRefused(night.tell(Closed{}), Kind::NotYourTurn));
    night.doUntil(u"peak-again"_s);

    ASSERT_TRUE(night.tell(Owed{night.swap().id, StepId(u"peak-again"_s)}));

    EXPECT_EQ(night.nextId(), u"sign"_s);
    EXPECT_TRUE(night.hasException(Exception::Kind::StepOwed));
}

TEST_F(FollowUpTest, LightsTheOtherLampOfAPairOnlyForTheScreen)
{
    Night night = nightFor({u"peak-again"_s, u"measure-screen"_s}, u"quillhaven-pair"_s);
    ASSERT_TRUE(find(night, u"Lit"_s));
    ASSERT_TRUE(night.doStep(u"find-other"_s, [](QJsonObject& answers) { answers[u"lamp"_s] = u"Off"_s; }));

    night.doUntil(u"peak-again"_s);
    EXPECT_NE(night.lamphouse(1).heat, machine::Heat::Lit);
    night.doUntil(u"measure-screen"_s);

    EXPECT_EQ(night.lamphouse(1).heat, machine::Heat::Lit);
    EXPECT_TRUE(night.lamphouse(1).dowserOpen);
}

TEST_F(FollowUpTest, ReadsTheCounterOfALampThatIsOutWhereOnlyItCanTellWhetherThatMayBeLit)
{
    for (const bool isLongAgo : {false, true}) {
        Opening opening = followUpOf(Night(), {u"peak-again"_s});
        if (isLongAgo)
            opening.fitted[0].hoursAt = *opening.fitted[0].hoursAt - std::chrono::hours(24 * 365);
        Night night(opening);
        ASSERT_TRUE(find(night, u"Off"_s, u"Standby"_s));

        EXPECT_EQ(night.nextId() == u"read-counters"_s, isLongAgo);
        EXPECT_FALSE(nextStep(night.state, night.swap(), night.state.lead).endsHere);
        night.doUntil(u"strike"_s);

        EXPECT_TRUE(night.doNext());
        EXPECT_EQ(night.lamphouse(0).heat, machine::Heat::Lit);
    }
}

TEST_F(FollowUpTest, EndsWhereTheCounterSaysThatTheLampIsPastItsLife)
{
    Opening opening = followUpOf(Night(), {u"peak-again"_s});
    opening.fitted[0].hoursAt = *opening.fitted[0].hoursAt - std::chrono::hours(24 * 365);
    Night night(opening);
    ASSERT_TRUE(find(night, u"Off"_s, u"Standby"_s));
    ASSERT_TRUE(
        night.doStep(u"read-counters"_s, [](QJsonObject& answers) { answers[u"hours"_s] = u"2400"_s; }));

    EXPECT_TRUE(nextStep(night.state, night.swap(), night.state.lead).endsHere);
}

TEST_F(FollowUpTest, ShutsTheOtherLampsDowserWhileThePeakIsSought)
{
    Night night = nightFor({u"peak-again"_s}, u"quillhaven-pair"_s);
    ASSERT_TRUE(find(night, u"Lit"_s));
    ASSERT_TRUE(night.doStep(u"find-other"_s, [](QJsonObject& answers) {
        answers[u"lamp"_s] = u"Lit"_s;
        answers[u"dowser"_s] = u"Open"_s;
    }));

    night.doUntil(u"peak-again"_s);
    EXPECT_FALSE(night.lamphouse(1).dowserOpen);
    night.doUntil(u"sign"_s);

    EXPECT_TRUE(night.lamphouse(1).dowserOpen);
}

TEST_F(FollowUpTest, StandsBesideASwapInOneVisit)
{
    Opening opening =
        followUpOf(Night(u"sedgebrook-nook"_s, Night::Crew::Alone, {}, {}, 2), {u"measure-screen"_s});
    SwapPlan swap{SwapId(u"swap-2"_s),
                  LamphouseId(u"lamphouse-2-main"_s),
                  opening.swaps.first().procedure,
                  {LampId(u"newer"_s), opening.fitted.first().type, u"NEWER0001"_s, 0.0}};
    if (!opening.site.lamphouse(swap.lamphouse))
        swap.lamphouse = opening.site.lamphouses.back().id;
    opening.swaps.append(swap);
    Night night(opening);
    ASSERT_EQ(night.state.swaps.size(), 2);

    night.doUntil(u"sign"_s, 0);
    night.doUntil(u"sign"_s, 1);
    night.doAll(0);
    night.doAll(1);
    night.close();

    EXPECT_EQ(night.state.end, u"done"_s);
    EXPECT_EQ(night.lamphouse(1).lamp, night.swap(1).newLamp);
}

TEST_F(FollowUpTest, AnOpeningWithoutItReadsAsItDid)
{
    const Night night;

    const QByteArray bytes = bytesOf(night.entries.first());

    EXPECT_FALSE(bytes.contains("\"owed\""));
    EXPECT_TRUE(bytes.contains("\"new_lamp\""));
    EXPECT_EQ(entryFrom(bytes).value(), night.entries.first());
}

// As openings were written before they said to which lamp it is owed.
TEST_F(FollowUpTest, AnOpeningThatDoesNotSayItsLampIsReadAndFolded)
{
    Opening opening = followUpOf(Night(), {u"peak-again"_s});
    const LampId lamp = opening.swaps.first().owed.first().lamp;
    QByteArray bytes = bytesOf(Entry{test::FakeClock().now(), opening.people.first().id, opening});
    const QByteArray said = "\"lamp\":\"" + lamp.text().toUtf8() + "\",";
    const qsizetype at = bytes.indexOf("\"owed\":[{" + said);
    ASSERT_GE(at, 0) << bytes.toStdString();
    bytes.remove(at + 9, said.size());

    const auto read = entryFrom(bytes);

    ASSERT_TRUE(read) << read.error().detail.toStdString();
    EXPECT_TRUE(evolve(VisitState(), *read).ground);
    EXPECT_FALSE(evolve(VisitState(), *read).isReadOnly);
}

TEST_F(FollowUpTest, IsRefusedWhereItOwesWhatMayNotFollowOrALampThatNobodyKnows)
{
    const Night before;
    VisitState none;
    const auto opened = [&](const Opening& opening) {
        return decide(none, before.ada(), opening, before.clock.now()).has_value();
    };
    EXPECT_TRUE(opened(followUpOf(before, {u"peak-again"_s})));
    EXPECT_FALSE(opened(followUpOf(before, {u"lamp-out"_s})));
    EXPECT_FALSE(opened(followUpOf(before, {u"polish"_s})));

    Opening unknown = followUpOf(before, {u"peak-again"_s});
    unknown.fitted.first().type.reset();
    EXPECT_FALSE(opened(unknown));

    Opening another = followUpOf(before, {u"peak-again"_s});
    another.swaps.first().owed.first().lamp = LampId(u"a lamp that came out since"_s);
    EXPECT_FALSE(opened(another));
    another.swaps.first().owed.first().lamp = LampId();
    EXPECT_FALSE(opened(another)) << "an opening of today says which lamp owes it";
}

} // namespace
} // namespace coldarc::test
