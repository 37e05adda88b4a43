#include "core/visit/correction.h"

#include "core/machine/reach.h"
#include "tests/core/visit/night.h"

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::test {
namespace {

using namespace visit;
using machine::Gate;

qint64 entryOf(const Night& night, const QString& step)
{
    return night.swap().record(StepId(step)).entry;
}

tl::expected<Correction, Refusal> asked(const Night& night, qint64 entry)
{
    return ifWithdrawn(night.state, night.ada(), entry, night.clock.now());
}

TEST(Correction, OfTheTriedStartCostsDeadAndTheStepItself)
{
    Night night;
    night.doUntil(u"gear-on"_s);
    const VisitState before = night.state;

    const auto correction = asked(night, entryOf(night, u"try-start"_s));

    ASSERT_TRUE(correction);
    EXPECT_EQ(correction->gates, (QList<GateAgain>{{night.swap().id, Gate::Dead}}));
    ASSERT_FALSE(correction->steps.isEmpty());
    EXPECT_EQ(correction->steps.first(), (StepAgain{night.swap().id, StepId(u"try-start"_s)}));
    expectSame(before, night.state); // asking changes nothing
}

TEST(Correction, OfALockCostsDeadThoughNoStartWasTriedYet)
{
    Night night;
    night.doUntil(u"relieve"_s);

    const auto correction = asked(night, entryOf(night, u"own-lock"_s));

    ASSERT_TRUE(correction);
    EXPECT_EQ(correction->gates, (QList<GateAgain>{{night.swap().id, Gate::Dead}}));
}

TEST(Correction, SaysTheGatesThatReallyWaitAgainOnceItIsKept)
{
    Night night;
    night.doUntil(u"gear-on"_s);
    const qint64 entry = entryOf(night, u"try-start"_s);
    ASSERT_TRUE(night.lamphouse().startTried);
    ASSERT_TRUE(asked(night, entry));

    ASSERT_TRUE(night.tell(Withdrawn{entry, u"nobody saw it"_s}));

    EXPECT_FALSE(night.lamphouse().startTried);
    EXPECT_EQ(night.nextId(), u"try-start"_s);
}

TEST(Correction, OfTheBoxCostsMatched)
{
    Night night;
    night.doUntil(u"unbox-new"_s);
    ASSERT_EQ(night.state.machine.lamp[night.swap().newLamp].match, machine::Match::Box);

    const auto correction = asked(night, entryOf(night, u"match-box"_s));

    ASSERT_TRUE(correction);
    EXPECT_EQ(correction->gates, (QList<GateAgain>{{night.swap().id, Gate::Matched}}));
}

TEST(Correction, NamesTheStepThatIsLostAndNotTheOneThatIsUpAnyway)
{
    Night night;
    night.doUntil(u"box-old"_s);
    const qint64 tried = entryOf(night, u"try-start"_s);

    const auto correction = asked(night, tried);

    ASSERT_TRUE(correction);
    EXPECT_TRUE(correction->steps.contains(StepAgain{night.swap().id, StepId(u"try-start"_s)})); // lost
    EXPECT_FALSE(correction->steps.contains(StepAgain{night.swap().id, StepId(u"box-old"_s)}));  // up already
}

/// Whatever is taken back while the new lamp is unboxed: what comes up in its stead was named.
TEST(Correction, NamesTheStepWhoseTurnItThenIs)
{
    Night night;
    night.doUntil(u"lamp-in"_s);
    int asked = 0;
    for (const procedure::Step& step : night.swap().steps) {
        const qint64 entry = entryOf(night, step.id.text());
        const auto correction = ifWithdrawn(night.state, night.ada(), entry, night.clock.now());
        if (!night.isDone(step.id.text()) || !correction)
            continue;
        Night other = night;
        ASSERT_TRUE(other.tell(Withdrawn{entry, u"pressed by mistake"_s}));
        if (other.nextId() == night.nextId() || other.nextId().isEmpty())
            continue;
        EXPECT_TRUE(correction->steps.contains(StepAgain{night.swap().id, StepId(other.nextId())}))
            << step.id.text().toStdString() << ", then " << other.nextId().toStdString();
        ++asked;
    }
    EXPECT_GT(asked, 0);
}

TEST(Correction, OfALookCostsNoGate)
{
    Night night;
    night.doUntil(u"tell-before"_s);
    QString look;
    for (const procedure::Step& step : night.swap().steps) {
        if (step.effect == machine::Effect::Look && night.isDone(step.id.text()))
            look = step.id.text();
    }
    ASSERT_FALSE(look.isEmpty());

    const auto correction = asked(night, entryOf(night, look));

    ASSERT_TRUE(correction);
    EXPECT_TRUE(correction->gates.isEmpty());
    EXPECT_EQ(correction->steps, (QList<StepAgain>{{night.swap().id, StepId(look)}}));
}

TEST(Correction, IsRefusedForWhatHandsDidAndForWhatIsWithdrawnAlready)
{
    Night night;
    night.doUntil(u"gear-on"_s);
    const qint64 tried = entryOf(night, u"try-start"_s);
    ASSERT_TRUE(night.tell(Withdrawn{tried, u"nobody saw it"_s}));

    for (const qint64 entry : {entryOf(night, u"lamp-off"_s), tried, qint64(0), qint64(4711)}) {
        const auto correction = asked(night, entry);
        ASSERT_FALSE(correction) << entry;
        EXPECT_TRUE(correction.error().has(Why::Kind::CannotWithdraw)) << entry;
    }
}

TEST(Correction, TakesBackWhatWasLeftToALaterVisit)
{
    Night night;
    night.doUntil(u"measure-screen"_s);
    const StepId step(u"measure-screen"_s);
    ASSERT_TRUE(night.tell(Owed{night.swap().id, step}));
    ASSERT_EQ(night.swap().record(step).status, StepRecord::Status::Owed);
    const qint64 entry = night.state.entries - 1;
    const auto correction = asked(night, entry);

    ASSERT_TRUE(correction);
    EXPECT_TRUE(correction->steps.contains(StepAgain{night.swap().id, step}));
    ASSERT_TRUE(night.tell(Withdrawn{entry, u"there is time after all"_s}));
    EXPECT_EQ(night.nextId(), step.text());
}

TEST(TakenUpAgain, IsWrittenAfterAGapThatNobodyWitnessedOnly)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    night.clock.advance(5min);
    EXPECT_FALSE(isTakenUpAgain(night.state, night.ada(), night.clock.now(), false));

    night.clock.reboot(10min, 1min);

    EXPECT_TRUE(isTakenUpAgain(night.state, night.ada(), night.clock.now(), false));
    EXPECT_FALSE(isTakenUpAgain(night.state, PersonId(u"somebody"_s), night.clock.now(), false));
    ASSERT_TRUE(night.tell(Resumed{}));
    EXPECT_FALSE(isTakenUpAgain(night.state, night.ada(), night.clock.now(), false));
}

TEST(TakenUpAgain, IsWrittenWhereTheProgramWasStartedAgainWithTheGuardOpen) // re-arm table C: program restart
{
    Night night;
    night.doUntil(u"gear-on"_s);
    EXPECT_FALSE(isTakenUpAgain(night.state, night.ada(), night.clock.now(), true)) << "all is shut";
    night.doUntil(u"lamp-out"_s);
    EXPECT_FALSE(isTakenUpAgain(night.state, night.ada(), night.clock.now(), false));
    ASSERT_TRUE(isTakenUpAgain(night.state, night.ada(), night.clock.now(), true));

    ASSERT_TRUE(night.tell(Resumed{}));

    EXPECT_FALSE(night.lamphouse().absent) << "voltage is looked for anew";
    EXPECT_FALSE(night.lamphouse().absentBehind);
    EXPECT_EQ(night.state.machine.person[0].gear, machine::Gear::Worn) << "gear is signed anew";
    EXPECT_FALSE(night.doStep(u"lamp-out"_s, kAsItShouldBe));
}

TEST(TakenUpAgain, IsNotWrittenWhereTheVisitIsOver)
{
    Night night;
    night.doAll();
    night.close();
    ASSERT_FALSE(night.state.isOpen());
    night.clock.reboot(10min, 1min);

    EXPECT_FALSE(isTakenUpAgain(night.state, night.ada(), night.clock.now(), true));
}

TEST(SomebodyInside, IsWhoeverHasGearOnOrStandsInAZone)
{
    Night night;
    night.doUntil(u"gear-on"_s);
    EXPECT_FALSE(machine::isSomebodyInside(night.state.machine));

    ASSERT_TRUE(night.doNext());
    EXPECT_TRUE(machine::isSomebodyInside(night.state.machine));
    night.doUntil(u"dust"_s);
    EXPECT_TRUE(machine::isSomebodyInside(night.state.machine));
    night.doAll();
    EXPECT_FALSE(machine::isSomebodyInside(night.state.machine));
}

} // namespace
} // namespace coldarc::test
