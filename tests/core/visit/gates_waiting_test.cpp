#include "core/visit/gates_waiting.h"

#include "tests/core/visit/night.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace visit;
using namespace std::chrono_literals;
using machine::Effect;

machine::Act actOf(const Night& night, Effect effect)
{
    machine::Act act;
    act.effect = effect;
    act.person = 0;
    act.lamphouse = 0;
    act.lamp = night.swap().newLamp;
    return act;
}

QStringList skipped(const Night& night, Effect effect)
{
    return skippedGates(night.seen(), actOf(night, effect));
}

TEST(GatesWaiting, OfAnActThatIsLetBeDoneNoneWasSkipped)
{
    Night night;
    night.doUntil(u"expose-lamp"_s);

    EXPECT_EQ(skipped(night, Effect::ExposeLamp), QStringList());
}

TEST(GatesWaiting, TheLampThatIsExposedHotLiveAndBareHandedSkipsAllThree)
{
    Night night;
    night.doUntil(u"lamp-off"_s);

    EXPECT_EQ(skipped(night, Effect::ExposeLamp), (QStringList{u"cold"_s, u"dead"_s, u"geared"_s}));
    EXPECT_EQ(skipped(night, Effect::Standby), QStringList{u"cold"_s});
    EXPECT_EQ(skipped(night, Effect::Unbox), (QStringList{u"cold"_s, u"dead"_s, u"geared"_s}));
}

TEST(GatesWaiting, LightAndPowerBeforeAllIsShutAndFreeSkipsThat)
{
    Night night;
    night.doUntil(u"box-old"_s); // guard and housing stand open, the lock hangs

    EXPECT_EQ(skipped(night, Effect::Strike), QStringList{u"clear"_s});
    EXPECT_EQ(skipped(night, Effect::PowerUp), QStringList{u"clear"_s});
    EXPECT_EQ(skipped(night, Effect::LockOff), QStringList()) << "a lock has rules of its own, and no gate";
}

TEST(GatesWaiting, WhatTellsOfDangerSkipsNothingAndOnlyThat)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    machine::Act tried = actOf(night, Effect::TryStart);
    EXPECT_EQ(skippedGates(night.seen(), tried), QStringList{u"dead"_s});
    tried.outcome = machine::Outcome::Started;
    EXPECT_EQ(skippedGates(night.seen(), tried), QStringList());

    machine::Act exposed = actOf(night, Effect::ExposeLamp);
    exposed.outcome = machine::Outcome::Started; // nothing comes out so
    EXPECT_EQ(skippedGates(night.seen(), exposed).size(), 3);
}

/// A step as it is done, said by somebody who leaves out what it did.
TEST(GatesWaiting, AStepThatTellsNoActIsAskedForWhatItDemandsAllTheSame)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    const auto say = [&](const QString& step, const PersonId& by) {
        Did did;
        did.swap = night.swap().id;
        did.step = StepId(step);
        const VisitState after = evolve(night.state, {night.clock.now(), by, did});
        return after.exceptions.isEmpty() ? QStringList() : after.exceptions.last().gates;
    };

    EXPECT_EQ(say(u"expose-lamp"_s, night.ada()), (QStringList{u"cold"_s, u"dead"_s, u"geared"_s}));
    EXPECT_EQ(say(u"expose-lamp"_s, PersonId(u"nobody"_s)), (QStringList{u"cold"_s, u"dead"_s, u"geared"_s}));
    EXPECT_EQ(say(u"lamp-off"_s, night.ada()), QStringList()) << "it demands no gate";
}

TEST(GatesWaiting, TowardsSafetyTheyAreToldWhateverTheEntryLeavesOut)
{
    Night night;
    night.doUntil(u"box-old"_s);
    ASSERT_TRUE(night.tell(Withdrawn{night.swap().record(StepId(u"try-start"_s)).entry, u"nobody looked"_s}));
    ASSERT_TRUE(night.doNext());
    Did did = std::get<Did>(night.entries.last().body);
    ASSERT_EQ(did.gatesWaiting, QStringList{u"dead"_s});
    did.gatesWaiting.clear();
    VisitState before;
    for (qsizetype entry = 0; entry + 1 < night.entries.size(); ++entry)
        before = evolve(std::move(before), night.entries[entry]);

    const VisitState after = evolve(before, {night.entries.last().at, night.ada(), did});

    EXPECT_EQ(after.exceptions.last().kind, Exception::Kind::SafeWardWithGateWaiting);
    EXPECT_EQ(after.exceptions.last().gates, QStringList{u"dead"_s});
}

} // namespace
} // namespace coldarc::test
