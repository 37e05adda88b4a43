#include "tests/core/visit/incident_night.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace visit;
using namespace std::chrono_literals;
using machine::Effect;
using machine::Heat;
using machine::Place;
using machine::SafeEnd;
using Kind = Why::Kind;

// ---- It started, voltage found ----------------------------------------------------------------------

class ItStarted : public ::testing::TestWithParam<const char*> {};

TEST_P(ItStarted, IsPutRightAtTheRightBreakerAndTheSwapGoesOnToItsEnd)
{
    Night night(QString::fromLatin1(GetParam()));
    night.doUntil(u"try-start"_s);

    ASSERT_TRUE(answering(night, u"try-start"_s, u"response"_s, procedure::Means::Started));

    EXPECT_TRUE(night.hasIncident(Incident::ItStarted));
    EXPECT_EQ(night.lamphouse().heat, Heat::Lit);
    EXPECT_FALSE(night.lamphouse().startTried);
    EXPECT_EQ(night.lamphouse().charge, machine::Charge::Held);
    EXPECT_EQ(night.nextId(), u"lamp-off"_s); // the light first
    ASSERT_TRUE(night.doNext());
    EXPECT_EQ(night.nextId(), u"standby"_s); // which waits for Cold
    ASSERT_TRUE(night.doNext());
    EXPECT_TRUE(night.next().isPutRight);
    EXPECT_EQ(night.next().step->effect, Effect::Isolate);
    EXPECT_FALSE(night.doStep(night.nextId(), [](QJsonObject&) {})); // not at once: restore first

    night.putRight();
    ASSERT_FALSE(HasFatalFailure());
    EXPECT_FALSE(night.next().isPutRight);
    night.doAll();
    ASSERT_FALSE(HasFatalFailure());
    EXPECT_EQ(night.state.machine.lamp[night.swap().newLamp].place, Place::Clamped);
    EXPECT_EQ(night.lamphouse().heat, Heat::Lit);
    night.close();
    EXPECT_EQ(night.state.end, u"done"_s);
    expectSame(night.state, night.readBack());
}

INSTANTIATE_TEST_SUITE_P(
    OfEachModel, ItStarted, ::testing::Values("larkmoor-teal", "quillhaven-pair", "sedgebrook-nook"),
    [](const auto& instance) {
        return std::string(instance.param).substr(0, std::string(instance.param).find('-'));
    });

TEST(ItStartedTest, ReportedLaterTakesBackWhatTheTriedStartHadProved)
{
    Night night;
    night.doUntil(u"prove-inlet"_s);

    ASSERT_TRUE(night.tell(at(Incident::ItStarted)));

    EXPECT_EQ(night.lamphouse().heat, Heat::Lit);
    EXPECT_FALSE(night.lamphouse().startTried);
    night.putRight();
    ASSERT_FALSE(::testing::Test::HasFatalFailure());
    night.doAll();
    ASSERT_FALSE(::testing::Test::HasFatalFailure());
    EXPECT_EQ(night.state.machine.lamp[night.swap().newLamp].place, Place::Clamped);
}

TEST(ItStartedTest, MakingSafeCountsTheShortWaitOnlyWhereSomebodySawTheFanRun)
{
    for (const machine::Outcome fan :
         {machine::Outcome::FanRuns, machine::Outcome::FanStill, machine::Outcome::Plain}) {
        Night night;
        night.doUntil(u"try-start"_s); // the electronics' point, which feeds the fan, is off
        ASSERT_TRUE(answering(night, u"try-start"_s, u"response"_s, procedure::Means::Started));
        ASSERT_TRUE(night.tell(SafeBegun{u"no time"_s}));

        const Decision out =
            night.doAct(night.ada(), Effect::LampOff, 0, [&](machine::Act& act) { act.outcome = fan; });

        ASSERT_TRUE(out);
        const bool isSeen = fan == machine::Outcome::FanRuns;
        EXPECT_EQ(night.seen().waits[0].cool.left(), isSeen ? 720s : 2700s);
        EXPECT_EQ(night.hasIncident(Incident::FanOrPower), !isSeen);
        night.makeSafe();
        ASSERT_FALSE(::testing::Test::HasFatalFailure());
        night.close();
        expectSame(night.state, night.readBack());
    }
}

TEST(ItStartedTest, WrittenBeforeTheFanWasAskedForIsReadAsTheLongerWait)
{
    Night night;
    night.doUntil(u"try-start"_s);
    ASSERT_TRUE(answering(night, u"try-start"_s, u"response"_s, procedure::Means::Started));
    ASSERT_TRUE(night.tell(SafeBegun{u"no time"_s}));
    const Decision out = night.doAct(night.ada(), Effect::LampOff);
    ASSERT_TRUE(out);
    Entry older = *out;
    std::get<Acted>(older.body).act.outcome = machine::Outcome::Plain;
    QList<Entry> entries = night.entries;
    entries.last() = older;

    const VisitState read = fold(entries);

    EXPECT_EQ(read.waits[0].cool.needed, 2700s);
    EXPECT_EQ(read.incidents.size(), 1) << "nothing is told that nobody said";
}

TEST(ItStartedTest, NotPutRightLeavesTheMachineOutOfUse)
{
    Night night;
    night.doUntil(u"try-start"_s);
    ASSERT_TRUE(answering(night, u"try-start"_s, u"response"_s, procedure::Means::Started));

    EXPECT_EQ(endOf(night), SafeEnd::OutOfUse);
    expectToEndAs(night, u"out-of-use"_s);
    EXPECT_TRUE(night.lamphouse().tagged);
    EXPECT_EQ(night.state.machine.point[0].power, machine::Power::Off);
}

TEST(ItStartedTest, PutRightAndTriedAnewTheMachineGoesBackIntoUse)
{
    Night night;
    night.doUntil(u"try-start"_s);
    ASSERT_TRUE(answering(night, u"try-start"_s, u"response"_s, procedure::Means::Started));
    ASSERT_TRUE(night.doNext()); // lamp off
    ASSERT_TRUE(night.doNext()); // standby
    night.putRight();
    ASSERT_FALSE(HasFatalFailure());
    night.doUntil(u"try-start"_s);
    EXPECT_EQ(endOf(night), SafeEnd::OutOfUse) << "nothing says yet that this is the right breaker";
    ASSERT_TRUE(night.doNext());
    EXPECT_EQ(endOf(night), SafeEnd::AsItWas);

    const auto tried = night.swap().record(StepId(u"try-start"_s)).entry;
    ASSERT_TRUE(night.tell(Withdrawn{tried, u"nobody pressed start"_s}));
    EXPECT_EQ(endOf(night), SafeEnd::OutOfUse);
    night.doUntil(u"open-housing"_s);

    expectToEndAs(night, u"as-it-was"_s);
}

TEST(VoltageFound, AtTheTestPointLeavesTheMachineOutOfUse)
{
    Night night;
    night.doUntil(u"prove-rail"_s);

    ASSERT_TRUE(answering(night, u"prove-rail"_s, u"reading"_s, procedure::Means::Voltage));

    EXPECT_TRUE(night.hasIncident(Incident::VoltageFound));
    EXPECT_FALSE(night.lamphouse().absent);
    EXPECT_TRUE(isRefused(night.doStep(u"expose-lamp"_s, [](QJsonObject&) {}), Kind::NotYourTurn));
    EXPECT_EQ(endOf(night), SafeEnd::OutOfUse);
    expectToEndAs(night, u"out-of-use"_s);
    EXPECT_TRUE(night.lamphouse().tagged);
}

TEST(VoltageFound, ReportedWithTheGuardOpenShutsEveryGateThatStoodOnIt)
{
    Night night;
    night.doUntil(u"lamp-out"_s);

    ASSERT_TRUE(night.tell(at(Incident::VoltageFound)));

    EXPECT_FALSE(night.lamphouse().absent);
    EXPECT_FALSE(night.lamphouse().startTried);
    EXPECT_EQ(night.lamphouse().charge, machine::Charge::Held);
    EXPECT_FALSE(night.doStep(u"lamp-out"_s, [](QJsonObject&) {}));
    expectToEndAs(night, u"out-of-use"_s);
}

// ---- It does not light ------------------------------------------------------------------------------

TEST(WillNotLight, ShortensNoWaitThatRunsWithoutTheFan)
{
    Night night;
    night.doUntil(u"settle"_s);
    Happened dark = at(Incident::FanOrPower);
    dark.wentOut = {LamphouseId(u"lamphouse-1-main"_s)};
    ASSERT_TRUE(night.tell(dark));
    night.clock.advance(60s);
    night.doUntil(u"strike"_s);

    ASSERT_TRUE(answering(night, u"strike"_s, u"result"_s, procedure::Means::NoLight));

    EXPECT_EQ(night.seen().waits[0].cool.wait, machine::Wait::CoolUnforced);
    EXPECT_EQ(night.seen().waits[0].cool.left(), 2700s) << "it counts as hot from now";
}

TEST(WillNotLight, IsColdOnlyOnceSomebodySaysThatAirMoved)
{
    for (const auto means : {procedure::Means::NoLight, procedure::Means::Burst}) {
        Night night;
        night.doUntil(u"strike"_s);
        ASSERT_TRUE(answering(night, u"strike"_s, u"result"_s, means));

        night.clock.advance(720s); // cool_s
        EXPECT_EQ(night.seen().machine.lamphouse[0].heat, Heat::Cooling);
        ASSERT_TRUE(night.tell(FanAnswered{LamphouseId(u"lamphouse-1-main"_s), true}));

        EXPECT_EQ(night.lamphouse().heat, Heat::Cold);
    }
}

TEST(WillNotLight, AsksNothingOfTheFanOnceTheLampBurns)
{
    Night night;
    night.doUntil(u"strike"_s);
    ASSERT_TRUE(answering(night, u"strike"_s, u"result"_s, procedure::Means::NoLight));
    night.clock.advance(60s);

    ASSERT_TRUE(night.doNext());

    EXPECT_EQ(night.lamphouse().heat, Heat::Lit);
    EXPECT_FALSE(night.seen().waits[0].cool.asksForFan);
    EXPECT_TRUE(
        isRefused(night.tell(FanAnswered{LamphouseId(u"lamphouse-1-main"_s), false}), Kind::NothingAsked));
}

// ---- Burst ------------------------------------------------------------------------------------------

TEST(BurstTest, InTheClosedLamphouseLeavesItOutOfUse)
{
    Night night;
    night.doUntil(u"relieve"_s);

    ASSERT_TRUE(night.tell(ofLamp(Incident::Burst, u"old-1-main"_s)));

    EXPECT_EQ(night.state.machine.lamp[night.swap().oldLamp].place, Place::Burst);
    EXPECT_TRUE(night.next().endsHere);
    EXPECT_EQ(night.lamphouse().heat, Heat::Cooling); // hot parts
    expectToEndAs(night, u"out-of-use"_s);
}

TEST(BurstTest, InTheHandLeavesTheGuardToShutAndTheZoneToLeave)
{
    Night night;
    night.doUntil(u"box-old"_s);

    ASSERT_TRUE(night.tell(ofLamp(Incident::Burst, u"old-1-main"_s)));

    EXPECT_TRUE(night.next().endsHere);
    EXPECT_EQ(night.state.machine.person[0].gear, machine::Gear::Worn); // signed again after the clean-up
    expectToEndAs(night, u"out-of-use"_s);
}

TEST(BurstTest, AtTheStrikeTakesNoSecondLamp) // D7b
{
    Night night;
    night.doUntil(u"strike"_s);

    ASSERT_TRUE(answering(night, u"strike"_s, u"result"_s, procedure::Means::Burst));

    EXPECT_TRUE(night.hasIncident(Incident::Burst));
    EXPECT_TRUE(night.next().endsHere);
    EXPECT_EQ(night.lamphouse().heat, Heat::Cooling);
    expectToEndAs(night, u"out-of-use"_s);
}

TEST(BurstTest, IsNotSignedBeforeItIsSaidWhereThePiecesGo) // B11
{
    Night night;
    night.doUntil(u"relieve"_s);
    ASSERT_TRUE(night.tell(ofLamp(Incident::Burst, u"old-1-main"_s)));
    night.makeSafe();
    ASSERT_TRUE(
        night.tell(IncidentAnswered{night.state.incidents.last().entry, u"swept up, in a closed bin"_s}));
    ASSERT_TRUE(night.tell(CustodyDecided{LampId(u"new-1"_s), u"unused"_s}));
    ASSERT_TRUE(night.tell(Signed{u"performed"_s}));

    EXPECT_EQ(demandsOf(night.tell(Closed{})), QList{machine::Demand::CustodyDecided});
    EXPECT_TRUE(
        isRefused(night.tell(CustodyDecided{LampId(u"old-1-main"_s), u"in-van"_s}), Kind::CannotHappen));
    ASSERT_TRUE(night.tell(CustodyDecided{LampId(u"old-1-main"_s), u"recycled"_s}));
    EXPECT_TRUE(night.tell(Closed{}));
}

// ---- Left exposed -----------------------------------------------------------------------------------

TEST(FoundOpen, IsShutFirstWithGearAndALockWhereOneCanHang)
{
    Night night;
    night.doUntil(u"find"_s);
    const procedure::Step* find = night.swap().step(StepId(u"find"_s));
    const auto choice = [&](const QString& capture, int index) {
        return find->capture(capture)->choices[index].text;
    };

    ASSERT_TRUE(night.doStep(u"find"_s, [&](QJsonObject& answers) {
        answers[u"lamp"_s] = choice(u"lamp"_s, 1);
        answers[u"fan"_s] = choice(u"fan"_s, 1);
        answers[u"projector"_s] = choice(u"projector"_s, 2);
        answers[u"point-lamp-supply"_s] = choice(u"point-lamp-supply"_s, 1);
        answers[u"point-electronics"_s] = choice(u"point-electronics"_s, 1);
        answers[u"housing"_s] = choice(u"housing"_s, 1);
        answers[u"guard"_s] = choice(u"guard"_s, 1);
    }));

    EXPECT_TRUE(night.hasIncident(Incident::LeftExposed));
    EXPECT_TRUE(night.lamphouse().leftExposed);
    EXPECT_EQ(night.seen().waits[0].cool.left(), 2700s); // hearsay shortens nothing
    night.makeSafe();
    ASSERT_FALSE(::testing::Test::HasFatalFailure());
    EXPECT_FALSE(night.lamphouse().leftExposed);
    EXPECT_TRUE(machine::Gear::Off != night.state.machine.person[0].gear ||
                night.state.machine.person[0].at == machine::kNone);
    night.close();
    EXPECT_EQ(night.state.end, u"as-it-was"_s);
}

TEST(LeftExposed, ToldOfALampThatBurnsPutsItOutBeforeAnybodyGoesNear)
{
    for (const char* model : {"larkmoor-teal", "quillhaven-pair", "sedgebrook-nook"}) {
        Night night(QString::fromLatin1(model));
        night.doUntil(u"settle"_s);
        ASSERT_EQ(night.lamphouse().heat, Heat::Lit) << model;
        const QString lamphouse = night.state.ground->lamphouses[night.swap().lamphouse].text();

        ASSERT_TRUE(night.tell(at(Incident::LeftExposed, lamphouse)));

        EXPECT_TRUE(night.lamphouse().leftExposed);
        EXPECT_EQ(night.next().step->effect, Effect::LampOff) << model;
        night.makeSafe();
        ASSERT_FALSE(::testing::Test::HasFatalFailure());
        EXPECT_FALSE(night.lamphouse().guardOpen);
        expectSame(night.state, night.readBack());
    }
}

TEST(LeftExposed, IsToldOfAPlace)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    Happened nowhere;
    nowhere.incident = Incident::LeftExposed;

    EXPECT_TRUE(isRefused(night.tell(nowhere), Kind::UnknownName));
}

TEST(FoundLit, WithItsBreakerSeenOffCountsTheBreakerAsOn)
{
    Night night;
    night.doUntil(u"find"_s);
    const procedure::Step* find = night.swap().step(StepId(u"find"_s));

    const Decision seen = night.doStep(u"find"_s, [&](QJsonObject& answers) {
        answers[u"point-lamp-supply"_s] = find->capture(u"point-lamp-supply"_s)->choices[1].text;
    });

    ASSERT_TRUE(seen);
    EXPECT_EQ(night.state.machine.point[0].power, machine::Power::On);
    EXPECT_TRUE(
        std::get<Did>(seen->body).answers.value(u"point-lamp-supply"_s).toString().startsWith(u"Off"));
    EXPECT_EQ(
        demandsOf(night.doAct(night.ada(), Effect::LockOn, 0, [](machine::Act& act) { act.point = 0; })),
        QList{machine::Demand::PointsOff});
}

// ---- Fastener, adaptor, lamps, gear, count, point ---------------------------------------------------

TEST(FastenerSeized, EndsOutOfUseOrAsItWasButNeverByForce)
{
    Night night;
    night.doUntil(u"lamp-out"_s);
    Happened seized = at(Incident::FastenerSeized);
    seized.text = u"clamp screw at the anode turns with its thread"_s;

    ASSERT_TRUE(night.tell(seized));

    expectToEndAs(night, u"as-it-was"_s); // the lamp found never left its seat
    EXPECT_EQ(night.state.incidents.first().answer, u"dealt with, see the report"_s);
}

TEST(WillNotLight, WaitsThePauseAndEndsAtTheModelsLimit)
{
    Night night;
    for (int attempt = 1; attempt <= 3; ++attempt) { // strike_limit 3, strike_pause_s 60
        night.doUntil(u"strike"_s);
        ASSERT_TRUE(answering(night, u"strike"_s, u"result"_s, procedure::Means::NoLight));
        EXPECT_EQ(night.lamphouse().failedStrikes, attempt);
        EXPECT_EQ(night.seen().waits[0].strikePause.left(), 60s);
        EXPECT_EQ(night.nextId(), u"strike"_s);
        EXPECT_TRUE(night.next().isAgain);
        EXPECT_EQ(night.next().endsHere, attempt == 3);
        EXPECT_FALSE(answering(night, u"strike"_s, u"result"_s, procedure::Means::Lit));
        night.clock.advance(60s);
    }

    EXPECT_EQ(demandsOf(answering(night, u"strike"_s, u"result"_s, procedure::Means::Lit)),
              QList{machine::Demand::StrikesLeft});
    expectToEndAs(night, u"out-of-use"_s);
}

TEST(WrongLamp, SeenOnItsOwnMarkingLeavesTheSeatEmptyUnderATag) // D8
{
    Night night;
    night.doUntil(u"unbox-new"_s);

    ASSERT_TRUE(answering(night, u"unbox-new"_s, u"marking"_s, procedure::Means::TypeDiffers));

    EXPECT_TRUE(night.hasIncident(Incident::WrongLamp));
    EXPECT_TRUE(night.next().endsHere);
    night.makeSafe();
    ASSERT_FALSE(::testing::Test::HasFatalFailure());
    night.readMarking(); // what is typed later does not make it the right one
    EXPECT_EQ(night.state.machine.lamp[night.swap().newLamp].match, machine::Match::No);
    expectToEndAs(night, u"out-of-use"_s);
    EXPECT_EQ(night.lamphouse().seat, machine::Seat::Empty);
}

TEST(WrongLamp, SaidWhileTheBoxIsShutLeavesTheMachineAsItWas)
{
    Night night;
    night.doUntil(u"find-adaptor"_s);

    ASSERT_TRUE(night.tell(ofLamp(Incident::WrongLamp, u"new-1"_s)));

    expectToEndAs(night, u"as-it-was"_s);
    EXPECT_EQ(night.lamphouse().heat, Heat::Lit);
}

TEST(LampUnfit, MarkedAtUnboxingIsNotLit)
{
    Night night;
    night.doUntil(u"unbox-new"_s);

    ASSERT_TRUE(answering(night, u"unbox-new"_s, u"bulb"_s, procedure::Means::Marked));

    EXPECT_TRUE(night.hasIncident(Incident::LampUnfit));
    EXPECT_TRUE(night.next().endsHere);
    expectToEndAs(night, u"out-of-use"_s);
}

TEST(LampUnfit, AnOldLampThatIsCrackedInItsSeatIsNotLeftInUse) // design: out of use
{
    Night night;
    night.doUntil(u"look-old"_s);

    ASSERT_TRUE(answering(night, u"look-old"_s, u"bulb"_s, procedure::Means::Marked));

    EXPECT_TRUE(night.hasIncident(Incident::LampUnfit));
    EXPECT_FALSE(night.next().endsHere) << "it comes out anyway";
    EXPECT_EQ(night.nextId(), u"lamp-out"_s);
    EXPECT_EQ(endOf(night), SafeEnd::OutOfUse);
    expectToEndAs(night, u"out-of-use"_s);
}

TEST(LampUnfit, AnOldLampThatIsCrackedIsExchangedLikeAnyOther)
{
    Night night;
    night.doUntil(u"look-old"_s);
    ASSERT_TRUE(answering(night, u"look-old"_s, u"bulb"_s, procedure::Means::Marked));
    night.answerIncidents();

    night.doAll();

    EXPECT_EQ(night.lamphouse().heat, Heat::Lit);
}

TEST(EmptySeat, BehindAGuardThatWasShutIsSaidAtTheLookAndNothingIsTakenOutOfIt)
{
    for (const char* model : {"larkmoor-teal", "quillhaven-pair", "sedgebrook-nook"}) {
        Night night(QString::fromLatin1(model));
        night.doUntil(u"look-old"_s);

        ASSERT_TRUE(answering(night, u"look-old"_s, u"bulb"_s, procedure::Means::Empty));

        EXPECT_EQ(night.lamphouse().seat, machine::Seat::Empty);
        for (const procedure::Step& step : night.swap().steps)
            EXPECT_NE(step.effect, Effect::LampOut) << model;
        EXPECT_EQ(endOf(night), SafeEnd::OutOfUse);
        night.doAll();
        EXPECT_EQ(night.lamphouse().heat, Heat::Lit) << model;
        night.close();
        EXPECT_EQ(night.state.end, u"done"_s);
        expectSame(night.state, night.readBack());
    }
}

TEST(EmptySeat, SaidByASlipIsTakenBackAndTheOldLampComesOut)
{
    Night night; // the first type of the Teal sits on the adaptor
    night.doUntil(u"look-old"_s);
    const machine::Index adaptor = night.lamphouse().adaptor;
    ASSERT_NE(adaptor, machine::kNone);
    ASSERT_TRUE(answering(night, u"look-old"_s, u"bulb"_s, procedure::Means::Empty));
    const qint64 said = night.state.entries - 1;

    ASSERT_TRUE(night.tell(Withdrawn{said, u"the wrong line"_s}));

    EXPECT_EQ(night.lamphouse().lamp, night.swap().oldLamp);
    EXPECT_EQ(night.lamphouse().adaptor, adaptor);
    EXPECT_EQ(night.lamphouse().seat, machine::Seat::Entered)
        << "clamped before the guard goes over it"; // A7
    EXPECT_FALSE(night.lamphouse().seatingSeen);
    EXPECT_EQ(night.nextId(), u"look-old"_s);
    ASSERT_TRUE(night.doNext());
    EXPECT_EQ(night.nextId(), u"lamp-out"_s);
    night.doAll();
    EXPECT_EQ(night.lamphouse().heat, Heat::Lit);
    expectSame(night.state, night.readBack());
}

TEST(OutFirst, ANewLampThatWentBackIntoItsBoxIsTakenOutOfItAgain)
{
    Night night;
    night.doUntil(u"lamp-in"_s);
    ASSERT_TRUE(night.doAct(night.ada(), Effect::BoxLamp, 0,
                            [&](machine::Act& act) { act.lamp = night.swap().newLamp; }));
    ASSERT_EQ(night.state.machine.lamp[night.swap().newLamp].place, Place::Boxed);

    EXPECT_EQ(night.nextId(), u"unbox-new"_s);

    night.doAll();
    EXPECT_EQ(night.lamphouse().heat, Heat::Lit);
}

TEST(DoneInVain, ACoverOrABoxThatDoesNotHoldIsShutAgainAndNobodyComesOutOfTheirGearBefore) // B5, D1
{
    for (const char* id : {"box-old", "shut-guard", "shut-housing"}) {
        const QString step = QString::fromLatin1(id);
        Night night;
        night.doUntil(step);
        const machine::LamphouseState before = night.lamphouse();
        const QString capture = step == u"box-old" ? u"box"_s : u"went-on"_s;

        ASSERT_TRUE(answering(night, step, capture, procedure::Means::Bad));

        EXPECT_EQ(night.lamphouse(), before) << id;
        EXPECT_EQ(night.nextId(), step) << "it comes again";
        EXPECT_FALSE(night.isDone(step));
        ASSERT_TRUE(night.doNext());
        EXPECT_TRUE(night.isDone(step));
        night.doAll();
        expectSame(night.state, night.readBack());
    }
}

TEST(LampUnfit, ForWantOfItsAdaptorIsNotLit)
{
    Night night; // the first type of the Teal sits on the adaptor
    night.doUntil(u"adaptor-on"_s);

    ASSERT_TRUE(night.tell(at(Incident::LampUnfit)));

    EXPECT_TRUE(night.lamphouse().adaptorLost);
    EXPECT_TRUE(night.next().endsHere);
    expectToEndAs(night, u"out-of-use"_s);
}

TEST(LampUnfit, WithNothingNamedIsAskedFor)
{
    Night night;
    Happened nothing;
    nothing.incident = Incident::LampUnfit;
    nothing.point = PointId(u"point-1-electronics"_s);

    EXPECT_TRUE(isRefused(night.tell(nothing), Kind::UnknownName));
    EXPECT_FALSE(night.state.isReadOnly);
}

TEST(GearDamaged, MakesTheWholeGearWaitAgainForThatPerson)
{
    Night night;
    night.doUntil(u"lamp-out"_s);
    Happened torn;
    torn.incident = Incident::GearDamaged;
    torn.person = night.ada();

    ASSERT_TRUE(night.tell(torn));

    EXPECT_FALSE(night.doStep(u"lamp-out"_s, [](QJsonObject&) {}));
    EXPECT_TRUE(isRefused(night.doAct(night.ada(), Effect::GearOn), Kind::AnswerMissing));
    EXPECT_EQ(night.nextId(), u"gear-on"_s);
    EXPECT_TRUE(night.next().isAgain);
    ASSERT_TRUE(night.doNext());
    EXPECT_EQ(night.nextId(), u"lamp-out"_s);
    night.doAll();
    night.close();
    EXPECT_EQ(night.state.end, u"done"_s);
}

TEST(ClampedWrong, ComesAgainBeforeAnythingIsShut)
{
    Night night;
    night.doUntil(u"clamp-lamp"_s);

    ASSERT_TRUE(answering(night, u"clamp-lamp"_s, u"polarity"_s, procedure::Means::Wrong));

    EXPECT_EQ(night.lamphouse().seat, machine::Seat::Clamped);
    EXPECT_FALSE(night.lamphouse().seatingSeen);
    EXPECT_EQ(night.nextId(), u"clamp-lamp"_s);
    night.doAll();
    EXPECT_EQ(night.lamphouse().heat, Heat::Lit);
}

TEST(ClampedWrong, LeftSoIsNotLit)
{
    Night night;
    night.doUntil(u"clamp-lamp"_s);
    ASSERT_TRUE(answering(night, u"clamp-lamp"_s, u"polarity"_s, procedure::Means::NotSeen));

    expectToEndAs(night, u"out-of-use"_s);
}

TEST(CountDiffers, HoldsTheLastLockUntilItIsAnswered) // B6
{
    Night night;
    night.doUntil(u"count-again"_s);

    ASSERT_TRUE(answering(night, u"count-again"_s, u"result"_s, procedure::Means::Differs));
    ASSERT_TRUE(night.hasIncident(Incident::CountDiffers));
    EXPECT_EQ(demandsOf(night.doAct(night.ada(), Effect::LockOff)), QList{machine::Demand::CountsAnswered});

    EXPECT_TRUE(isRefused(night.tell(IncidentAnswered{night.state.incidents.first().entry, u" "_s}),
                          Kind::TextMissing));
    ASSERT_TRUE(
        night.tell(IncidentAnswered{night.state.incidents.first().entry, u"screw was in the sleeve"_s}));
    EXPECT_TRUE(isRefused(night.tell(IncidentAnswered{night.state.incidents.first().entry, u"again"_s}),
                          Kind::NothingAsked));

    night.doAll();
    night.close();
    EXPECT_EQ(night.state.end, u"done"_s);
    expectSame(night.state, night.readBack());
}

TEST(PointWillNotLock, IsOnlyWhatSomebodySaidOfThePull)
{
    Night night;
    night.doUntil(u"job-lock-lamp-supply"_s);

    const Decision silent =
        night.doStep(u"job-lock-lamp-supply"_s, [](QJsonObject& answers) { answers.remove(u"holds"_s); });

    EXPECT_TRUE(isRefused(silent, Why::Kind::AnswerMissing));
    EXPECT_FALSE(night.hasIncident(Incident::PointWillNotLock));
    EXPECT_EQ(night.nextId(), u"job-lock-lamp-supply"_s);
}

TEST(PointWillNotLock, SaidOfALockThatHangsLeavesNothingDeadBehindIt) // B1
{
    Night night;
    night.doUntil(u"expose-lamp"_s);
    Happened slipped;
    slipped.incident = Incident::PointWillNotLock;
    slipped.point = night.state.ground->points[0];
    slipped.text = u"the hasp is cracked"_s;

    ASSERT_TRUE(night.tell(slipped));

    EXPECT_FALSE(night.doStep(u"expose-lamp"_s, kAsItShouldBe));
    EXPECT_FALSE(night.lamphouse().absent);
    EXPECT_FALSE(night.lamphouse().startTried);
    EXPECT_EQ(night.lamphouse().charge, machine::Charge::Held);
    night.makeSafe();
    ASSERT_FALSE(::testing::Test::HasFatalFailure());
    night.close();
    EXPECT_EQ(night.state.end, u"as-it-was"_s);
}

TEST(PointWillNotLock, LeavesTheMachineIsolatedUnderATag)
{
    Night night;
    night.doUntil(u"job-lock-electronics"_s);

    ASSERT_TRUE(answering(night, u"job-lock-electronics"_s, u"holds"_s, procedure::Means::GivesWay));

    EXPECT_TRUE(night.hasIncident(Incident::PointWillNotLock));
    EXPECT_TRUE(night.next().endsHere);
    EXPECT_EQ(endOf(night), SafeEnd::AsItWas); // nothing was opened: the lamp found may burn on
    night.makeSafe();
    ASSERT_FALSE(::testing::Test::HasFatalFailure());
    night.close();
    EXPECT_EQ(night.state.end, u"as-it-was"_s);
}

TEST(SomeoneHurt, LightsNothingTakesNoLockOffAndEndsTheVisitAtOnce) // D9
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithTrainee);
    night.doUntil(u"box-old"_s);
    Happened hurt;
    hurt.incident = Incident::SomeoneHurt;
    hurt.person = night.ada();

    ASSERT_TRUE(night.tell(night.ben(), hurt));

    EXPECT_TRUE(night.state.isMakingSafe);
    EXPECT_TRUE(isRefused(night.doStep(u"box-old"_s, [](QJsonObject&) {}), Kind::MakingSafe));
    EXPECT_FALSE(night.doAct(night.ada(), Effect::LockOff));
    EXPECT_TRUE(night.doAct(night.ada(), Effect::LeaveZone));  // also from an open guard
    const Decision closed = night.tell(night.ben(), Closed{}); // nobody is waited for
    ASSERT_TRUE(closed) << wordsOf(closed.error());
    EXPECT_EQ(night.state.end, u"out-of-use"_s);
    expectSame(night.state, night.readBack());
}

TEST(SomeoneHurt, TheListStillLeadsToTheTag)
{
    Night night;
    night.doUntil(u"clamp-lamp"_s);
    ASSERT_TRUE(night.tell(Happened{Incident::SomeoneHurt, {}, {}, {}, {}, night.ada(), {}}));

    expectToEndAs(night, u"out-of-use"_s);
    EXPECT_TRUE(night.lamphouse().tagged);
    EXPECT_NE(night.state.machine.group[0].locks, 0);
}

// ---- No time left -----------------------------------------------------------------------------------

TEST(NoTimeLeft, BeforeAnythingWasOpenedLeavesItAsItWas)
{
    Night night;
    night.doUntil(u"gear-on"_s);
    ASSERT_TRUE(night.tell(Happened{Incident::NoTimeLeft, {}, {}, {}, {}, {}, {}}));

    expectToEndAs(night, u"as-it-was"_s);
    EXPECT_EQ(night.state.machine.group[0].locks, 0);
    EXPECT_EQ(night.state.machine.point[0].power, machine::Power::On);
}

TEST(NoTimeLeft, WithTheNewLampLitOwesTheRest)
{
    Night night;
    night.doUntil(u"settle"_s);
    ASSERT_TRUE(night.tell(Happened{Incident::NoTimeLeft, {}, {}, {}, {}, {}, {}}));
    ASSERT_TRUE(night.tell(SafeBegun{u"doors open"_s}));
    EXPECT_TRUE(isRefused(night.tell(SafeBegun{u"again"_s}), Kind::MakingSafe));
    for (const QString& step : {u"settle"_s, u"peak-again"_s, u"measure-screen"_s, u"look-picture"_s})
        ASSERT_TRUE(night.tell(Owed{night.swap().id, StepId(step)})) << step.toStdString();
    EXPECT_TRUE(isRefused(night.tell(Owed{night.swap().id, StepId(u"old-lamp-goes"_s)}), Kind::MayNotFollow));
    EXPECT_TRUE(isRefused(night.tell(Owed{night.swap().id, StepId(u"settle"_s)}), Kind::NothingAsked));

    expectToEndAs(night, u"as-it-is"_s);
    EXPECT_EQ(night.lamphouse().heat, Heat::Lit);
    EXPECT_TRUE(night.hasException(Exception::Kind::StepOwed));
}

TEST(NoTimeLeft, OwesTheProofAndStillEndsThePlainWay)
{
    Night night;
    night.doUntil(u"settle"_s);
    for (const QString& step : {u"settle"_s, u"peak-again"_s, u"measure-screen"_s, u"look-picture"_s})
        ASSERT_TRUE(night.tell(Owed{night.swap().id, StepId(step)}));

    night.doAll();
    night.close();

    EXPECT_EQ(night.state.end, u"done"_s);
}

TEST(NoTimeLeft, WithAnEmptySeatLeavesItOutOfUse)
{
    Night night;
    night.doUntil(u"dust"_s);

    expectToEndAs(night, u"out-of-use"_s);
    EXPECT_TRUE(night.lamphouse().tagged);
    EXPECT_NE(night.state.machine.group[0].locks, 0);
}

// Every step of every model: whatever was just done, the list leads to an end, and the visit is closed.
class MakeSafe : public ::testing::TestWithParam<const char*> {};

TEST_P(MakeSafe, LeadsToAnEndFromEveryStep)
{
    Night night(QString::fromLatin1(GetParam()));
    night.doUntil(u"find"_s);
    ASSERT_TRUE(night.doNext());
    if (night.nextId() == u"find-other") {
        ASSERT_TRUE(night.doNext());
    }
    for (int count = 0; !night.nextId().isEmpty(); ++count) {
        ASSERT_LT(count, 120);
        Night other = night;
        other.makeSafe();
        ASSERT_FALSE(HasFatalFailure()) << night.nextId().toStdString();
        other.close();
        ASSERT_FALSE(HasFatalFailure()) << night.nextId().toStdString();
        ASSERT_TRUE(night.doNext());
    }
}

INSTANTIATE_TEST_SUITE_P(
    OfEachModel, MakeSafe, ::testing::Values("larkmoor-teal", "quillhaven-pair", "sedgebrook-nook"),
    [](const auto& instance) {
        return std::string(instance.param).substr(0, std::string(instance.param).find('-'));
    });

} // namespace
} // namespace coldarc::test
