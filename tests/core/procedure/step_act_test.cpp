#include "core/procedure/step_act.h"

#include "core/procedure/capture_rule.h"
#include "tests/support/testing.h"

using namespace Qt::StringLiterals;

namespace coldarc::procedure {
namespace {

using catalogue::RoleId;
using catalogue::TestPointId;
using machine::Act;
using machine::Effect;
using machine::Outcome;
using M = Means;

StepContext context()
{
    StepContext made;
    made.person = 1;
    made.lamphouse = 0;
    made.otherLamphouse = 2;
    made.oldLamp = 3;
    made.newLamp = 4;
    made.otherLamp = 5;
    made.points = {{RoleId(u"mains"_s), 0}, {RoleId(u"igniter"_s), 1}};
    made.testPointsBehindGuard = {TestPointId(u"clamps"_s)};
    return made;
}

Capture chosen(const QString& id, const QList<Means>& words)
{
    Capture capture;
    capture.id = id;
    for (const Means means : words)
        capture.choices.append({wordOf(means), means});
    return capture;
}

/// A step with every word that the machine reads there, and those that it may offer besides.
Step stepOf(Effect effect, const QStringList& ids)
{
    Step step;
    step.effect = effect;
    for (const QString& id : ids) {
        const CaptureRule* rule = ruleOf(effect, id);
        QList<Means> words =
            rule ? QList<Means>(rule->must) + QList<Means>(rule->may) : QList{M::Good, M::Bad};
        step.captures.append(chosen(id, words));
    }
    return step;
}

Answers answersOf(const QHash<QString, Means>& means)
{
    Answers answers;
    for (auto it = means.begin(); it != means.end(); ++it)
        answers.insert(it.key(), wordOf(it.value()));
    return answers;
}

Act answered(const Step& step, const QHash<QString, Means>& means)
{
    return withAnswers(actOf(step, context()), step, context(), answersOf(means));
}

TEST(ActTest, NamesThePlacesOfItsStep)
{
    Step isolate;
    isolate.effect = Effect::Isolate;
    isolate.point = RoleId(u"igniter"_s);
    Step box;
    box.effect = Effect::BoxLamp;
    box.lamp = Lamp::Old;
    Step other;
    other.effect = Effect::LampOff;
    other.otherLamphouse = true;

    EXPECT_EQ(actOf(isolate, context()).point, 1);
    EXPECT_EQ(actOf(isolate, context()).moved, machine::kNone) << "nobody said yet which one was moved";
    EXPECT_EQ(actOf(box, context()).lamp, 3);
    EXPECT_EQ(actOf(box, context()).person, 1);
    EXPECT_EQ(actOf(box, context()).lamphouse, 0);
    EXPECT_EQ(actOf(other, context()).lamphouse, 2);
}

TEST(ActTest, OwnLockHasNoPointAndAJobLockHasOne)
{
    Step lock;
    lock.effect = Effect::LockOn;

    EXPECT_EQ(actOf(lock, context()).point, machine::kNone);
    lock.point = RoleId(u"mains"_s);
    EXPECT_EQ(actOf(lock, context()).point, 0);
}

TEST(ActTest, KnowsWhichTestPointLiesBehindTheGuard)
{
    Step prove;
    prove.effect = Effect::ProveAbsence;

    prove.testPoint = TestPointId(u"clamps"_s);
    EXPECT_TRUE(actOf(prove, context()).behindGuard);
    prove.testPoint = TestPointId(u"inlet"_s);
    EXPECT_FALSE(actOf(prove, context()).behindGuard);
}

TEST(ActTest, BookInAndControllerSpeakOfTheNewLamp)
{
    Step step;
    step.effect = Effect::BookIn;
    EXPECT_EQ(actOf(step, context()).lamp, 4);
    step.effect = Effect::KeyController;
    EXPECT_EQ(actOf(step, context()).lamp, 4);
    step.otherLamphouse = true;
    EXPECT_EQ(actOf(step, context()).lamp, 5);
}

struct AnswerCase {
    const char* name;
    Effect effect;
    QStringList ids;
    QHash<QString, Means> answers;
    Outcome outcome;

    friend void PrintTo(const AnswerCase& c, std::ostream* out) { *out << c.name; }
};

class AnswerTest : public ::testing::TestWithParam<AnswerCase> {};

TEST_P(AnswerTest, GivesTheOutcome)
{
    const Step step = stepOf(GetParam().effect, GetParam().ids);

    EXPECT_EQ(answered(step, GetParam().answers).outcome, GetParam().outcome);
}

const QStringList kStart{u"supply"_s, u"response"_s, u"controls"_s};
const QStringList kTest{u"supply"_s, u"before"_s, u"reading"_s, u"after"_s};
const QStringList kClamp{u"polarity"_s, u"seating"_s, u"free-end"_s};
const QStringList kCount{u"tools"_s, u"fasteners"_s};

INSTANTIATE_TEST_SUITE_P(
    EachEffect, AnswerTest,
    ::testing::Values(
        AnswerCase{"NoResponse",
                   Effect::TryStart,
                   kStart,
                   {{u"supply"_s, M::Present}, {u"response"_s, M::NoResponse}, {u"controls"_s, M::AtOff}},
                   Outcome::NoResponse},
        AnswerCase{"NoResponseButControlsLeftOn",
                   Effect::TryStart,
                   kStart,
                   {{u"supply"_s, M::Present}, {u"response"_s, M::NoResponse}, {u"controls"_s, M::NotAtOff}},
                   Outcome::Plain},
        AnswerCase{"NoResponseWithoutSupply",
                   Effect::TryStart,
                   kStart,
                   {{u"supply"_s, M::NotSeen}, {u"response"_s, M::NoResponse}, {u"controls"_s, M::AtOff}},
                   Outcome::Plain},
        AnswerCase{"NoResponseControlsNotSaid",
                   Effect::TryStart,
                   kStart,
                   {{u"supply"_s, M::Present}, {u"response"_s, M::NoResponse}},
                   Outcome::Plain},
        AnswerCase{"StartedWhateverElse",
                   Effect::TryStart,
                   kStart,
                   {{u"supply"_s, M::NotSeen}, {u"response"_s, M::Started}, {u"controls"_s, M::AtOff}},
                   Outcome::Started},
        AnswerCase{"Absent",
                   Effect::ProveAbsence,
                   kTest,
                   {{u"supply"_s, M::Present},
                    {u"before"_s, M::Proved},
                    {u"reading"_s, M::Absent},
                    {u"after"_s, M::Proved}},
                   Outcome::Absent},
        AnswerCase{"AbsentTesterNotProvedAfter",
                   Effect::ProveAbsence,
                   kTest,
                   {{u"supply"_s, M::Present},
                    {u"before"_s, M::Proved},
                    {u"reading"_s, M::Absent},
                    {u"after"_s, M::NotProved}},
                   Outcome::Plain},
        AnswerCase{"AbsentTesterNotProvedBefore",
                   Effect::ProveAbsence,
                   kTest,
                   {{u"supply"_s, M::Present}, {u"reading"_s, M::Absent}, {u"after"_s, M::Proved}},
                   Outcome::Plain},
        AnswerCase{"AbsentWithoutSupply",
                   Effect::ProveAbsence,
                   kTest,
                   {{u"supply"_s, M::NotSeen},
                    {u"before"_s, M::Proved},
                    {u"reading"_s, M::Absent},
                    {u"after"_s, M::Proved}},
                   Outcome::Plain},
        AnswerCase{"Unsteady",
                   Effect::ProveAbsence,
                   kTest,
                   {{u"supply"_s, M::Present},
                    {u"before"_s, M::Proved},
                    {u"reading"_s, M::Unsteady},
                    {u"after"_s, M::Proved}},
                   Outcome::Plain},
        AnswerCase{"VoltageWhateverTheTester",
                   Effect::ProveAbsence,
                   kTest,
                   {{u"before"_s, M::NotProved}, {u"reading"_s, M::Voltage}},
                   Outcome::Voltage},
        AnswerCase{
            "MarkingAgrees", Effect::Unbox, {u"marking"_s}, {{u"marking"_s, M::Agrees}}, Outcome::Agrees},
        AnswerCase{"MarkingOfAnotherType",
                   Effect::Unbox,
                   {u"marking"_s},
                   {{u"marking"_s, M::TypeDiffers}},
                   Outcome::Disagrees},
        AnswerCase{"AnotherSerialProvesNothing",
                   Effect::Unbox,
                   {u"marking"_s},
                   {{u"marking"_s, M::SerialDiffers}},
                   Outcome::Plain},
        AnswerCase{"UnreadableProvesNothing",
                   Effect::Unbox,
                   {u"marking"_s},
                   {{u"marking"_s, M::Unreadable}},
                   Outcome::Plain},
        AnswerCase{"SeatedRight",
                   Effect::ClampLamp,
                   kClamp,
                   {{u"polarity"_s, M::Right}, {u"seating"_s, M::Right}, {u"free-end"_s, M::Right}},
                   Outcome::Agrees},
        AnswerCase{"PolarityNotSeen",
                   Effect::ClampLamp,
                   kClamp,
                   {{u"polarity"_s, M::NotSeen}, {u"seating"_s, M::Right}, {u"free-end"_s, M::Right}},
                   Outcome::Plain},
        AnswerCase{"WrongWayRound",
                   Effect::ClampLamp,
                   kClamp,
                   {{u"polarity"_s, M::Wrong}, {u"seating"_s, M::Right}, {u"free-end"_s, M::Right}},
                   Outcome::Disagrees},
        AnswerCase{"FreeEndNotSaid",
                   Effect::ClampLamp,
                   kClamp,
                   {{u"polarity"_s, M::Right}, {u"seating"_s, M::Right}},
                   Outcome::Plain},
        AnswerCase{"CountTheSame",
                   Effect::Count,
                   kCount,
                   {{u"tools"_s, M::Same}, {u"fasteners"_s, M::Same}},
                   Outcome::Same},
        AnswerCase{"OneCountDiffers",
                   Effect::Count,
                   kCount,
                   {{u"tools"_s, M::Same}, {u"fasteners"_s, M::Differs}},
                   Outcome::Differs},
        AnswerCase{"OneCountNotSaid", Effect::Count, kCount, {{u"tools"_s, M::Same}}, Outcome::Plain},
        AnswerCase{"ReadBackAgrees",
                   Effect::KeyController,
                   {u"agrees"_s},
                   {{u"agrees"_s, M::Agrees}},
                   Outcome::Agrees},
        AnswerCase{"ReadBackDiffers",
                   Effect::KeyController,
                   {u"agrees"_s},
                   {{u"agrees"_s, M::Differs}},
                   Outcome::Disagrees},
        AnswerCase{"ReadBackNotSaid", Effect::KeyController, {u"agrees"_s}, {}, Outcome::Plain},
        AnswerCase{"Lit", Effect::Strike, {u"result"_s}, {{u"result"_s, M::Lit}}, Outcome::Lit},
        AnswerCase{"NoLight", Effect::Strike, {u"result"_s}, {{u"result"_s, M::NoLight}}, Outcome::NoLight},
        AnswerCase{"Bang", Effect::Strike, {u"result"_s}, {{u"result"_s, M::Burst}}, Outcome::Burst},
        AnswerCase{"LockHolds", Effect::LockOn, {u"holds"_s}, {{u"holds"_s, M::Holds}}, Outcome::Plain},
        AnswerCase{
            "LockGivesWay", Effect::LockOn, {u"holds"_s}, {{u"holds"_s, M::GivesWay}}, Outcome::WillNotLock},
        AnswerCase{"LockNotPulled", Effect::LockOn, {u"holds"_s}, {}, Outcome::Plain},
        AnswerCase{"OwnLockOnTheBox", Effect::LockOn, {u"tag"_s}, {{u"tag"_s, M::Good}}, Outcome::Plain}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(AnswersTest, ATextThatIsNoneOfTheChoicesIsNoAnswer)
{
    const Step step = stepOf(Effect::Strike, {u"result"_s});

    const Act act = withAnswers(actOf(step, context()), step, context(), {{u"result"_s, u"it shines"_s}});

    EXPECT_EQ(act.outcome, Outcome::Plain);
}

TEST(AnswersTest, FlagsAreSetOnlyByTheirOwnAnswers)
{
    const Step step = stepOf(Effect::ProveAbsence, kTest);

    const Act none = answered(step, {});
    EXPECT_FALSE(none.supplySeen);
    EXPECT_FALSE(none.testerProved);
    const Act half = answered(step, {{u"supply"_s, M::Present}, {u"before"_s, M::Proved}});
    EXPECT_TRUE(half.supplySeen);
    EXPECT_FALSE(half.testerProved) << "not proved after";
    EXPECT_TRUE(answered(step, {{u"before"_s, M::Proved}, {u"after"_s, M::Proved}}).testerProved);
}

TEST(AnswersTest, TheBreakerIsTheNamedOneOnlyWhenItWasSaidAndItsLightIsOut)
{
    Step step = stepOf(Effect::Isolate, {u"which"_s, u"state"_s});
    step.point = RoleId(u"igniter"_s);
    const auto moved = [&](const QHash<QString, Means>& answers) { return answered(step, answers).moved; };

    EXPECT_EQ(moved({{u"which"_s, M::Named}, {u"state"_s, M::Off}}), 1);
    EXPECT_EQ(moved({{u"which"_s, M::Named}, {u"state"_s, M::StillLive}}), machine::kNone);
    EXPECT_EQ(moved({{u"which"_s, M::Named}}), machine::kNone);
    EXPECT_EQ(moved({{u"state"_s, M::Off}}), machine::kNone);
    EXPECT_EQ(moved({{u"which"_s, M::NoneOfOurs}, {u"state"_s, M::Off}}), machine::kNone);

    StepContext other = context();
    other.otherMoved = 0;
    const Answers answers = answersOf({{u"which"_s, M::OtherPoint}, {u"state"_s, M::Off}});
    EXPECT_EQ(withAnswers(actOf(step, other), step, other, answers).moved, 0);
}

const QStringList kFind{u"lamp"_s,        u"fan"_s,           u"projector"_s, u"extraction"_s,
                        u"point-mains"_s, u"point-igniter"_s, u"housing"_s,   u"guard"_s,
                        u"dowser"_s,      u"seat"_s,          u"tag"_s};

TEST(AnswersTest, WhatIsSeenIsTakenAsSaid)
{
    const machine::Seen seen = answered(stepOf(Effect::Find, kFind), {{u"lamp"_s, M::Off},
                                                                      {u"fan"_s, M::Runs},
                                                                      {u"projector"_s, M::Standby},
                                                                      {u"extraction"_s, M::Runs},
                                                                      {u"point-mains"_s, M::On},
                                                                      {u"point-igniter"_s, M::Locked},
                                                                      {u"housing"_s, M::Shut},
                                                                      {u"guard"_s, M::Shut},
                                                                      {u"dowser"_s, M::Shut},
                                                                      {u"seat"_s, M::NotSeen},
                                                                      {u"tag"_s, M::None}})
                                   .seen;

    machine::Seen expected;
    expected.fanRuns = true;
    expected.drive = machine::Drive::Standby;
    expected.extraction = true;
    expected.pointsOff = 0b10;
    expected.held = 0b10;
    expected.lamp = 3; // shut and not seen counts as full
    EXPECT_EQ(seen, expected);
}

TEST(AnswersTest, WhatIsNotSaidOfALamphouseCountsAsTheWorseCase)
{
    const machine::Seen seen = answered(stepOf(Effect::Find, kFind), {}).seen;

    EXPECT_FALSE(seen.fanRuns);
    EXPECT_EQ(seen.drive, machine::Drive::On);
    EXPECT_FALSE(seen.extraction);
    EXPECT_EQ(seen.pointsOff, 0);
    EXPECT_TRUE(seen.housingOpen);
    EXPECT_TRUE(seen.guardOpen);
    EXPECT_TRUE(seen.dowserOpen);
    EXPECT_EQ(seen.seat, machine::Seat::Clamped);
}

TEST(AnswersTest, AnswersThatSpeakAgainstEachOtherCountAsTheWorseCase)
{
    const Step step = stepOf(Effect::Find, kFind);

    const machine::Seen burning = answered(step, {{u"lamp"_s, M::Lit}, {u"seat"_s, M::Empty}}).seen;
    EXPECT_EQ(burning.seat, machine::Seat::Clamped);
    EXPECT_EQ(burning.lamp, 3);
    const machine::Seen loose = answered(step, {{u"guard"_s, M::Shut}, {u"seat"_s, M::Entered}}).seen;
    EXPECT_TRUE(loose.guardOpen);
}

TEST(AnswersTest, TheOtherLamphouseHasItsOwnLamp)
{
    Step step = stepOf(Effect::Find, kFind);
    step.otherLamphouse = true;

    const Act act = answered(step, {{u"seat"_s, M::Clamped}});

    EXPECT_EQ(act.lamphouse, 2);
    EXPECT_EQ(act.seen.lamp, 5);
}

TEST(AnswersTest, WhatIsBadOrNotAnsweredStandsAgainstAStep)
{
    Step step = stepOf(Effect::GearOn, {u"jacket"_s, u"gauntlets"_s, u"glasses"_s});
    Capture note;
    note.id = u"note"_s;
    note.kind = CaptureKind::Text;
    note.optional = true;
    step.captures.append(note);

    EXPECT_EQ(standsAgainst(step, answersOf({{u"jacket"_s, M::Good}, {u"gauntlets"_s, M::Bad}})),
              (QStringList{u"gauntlets"_s, u"glasses"_s}));
    EXPECT_EQ(
        standsAgainst(
            step, answersOf({{u"jacket"_s, M::Good}, {u"gauntlets"_s, M::Good}, {u"glasses"_s, M::Good}})),
        QStringList());
}

TEST(AnswersTest, AFanThatNobodySawRunningStoppedAtLampOff)
{
    const Step step = stepOf(Effect::LampOff, {u"fan"_s});
    const Act act = actOf(step, context());
    const auto happened = [&](const QHash<QString, Means>& means) {
        const auto event = happenedBy(act, step, answersOf(means));
        return event ? std::optional(event->what) : std::nullopt;
    };

    EXPECT_EQ(happened({{u"fan"_s, M::Runs}}), std::nullopt);
    EXPECT_EQ(happened({{u"fan"_s, M::Still}}), machine::Happening::FanStopped);
    EXPECT_EQ(happened({}), machine::Happening::FanStopped);
}

TEST(AnswersTest, AMarkedLampIsUnfitAndOneOfAnotherTypeIsWrong)
{
    Step step = stepOf(Effect::Unbox, {u"marking"_s, u"bulb"_s});
    step.lamp = Lamp::New;
    const Act act = actOf(step, context());

    const auto marked = happenedBy(act, step, answersOf({{u"marking"_s, M::Agrees}, {u"bulb"_s, M::Marked}}));
    ASSERT_TRUE(marked);
    EXPECT_EQ(marked->what, machine::Happening::LampUnfit);
    EXPECT_EQ(marked->lamp, 4);
    const auto wrong =
        happenedBy(act, step, answersOf({{u"marking"_s, M::TypeDiffers}, {u"bulb"_s, M::Whole}}));
    ASSERT_TRUE(wrong);
    EXPECT_EQ(wrong->what, machine::Happening::WrongLamp);
}

TEST(MeansTest, EveryWordIsReadBack)
{
    for (int value = 0; value <= static_cast<int>(M::Burst); ++value) {
        const auto means = static_cast<Means>(value);
        EXPECT_EQ(meansFromWord(wordOf(means)), means);
    }
    EXPECT_EQ(meansFromWord(u"fine"_s), std::nullopt);
}

} // namespace
} // namespace coldarc::procedure
