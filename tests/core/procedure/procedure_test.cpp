#include "core/procedure/procedure.h"

#include "tests/support/testing.h"

using namespace Qt::StringLiterals;

namespace coldarc::procedure {
namespace {

using catalogue::Fill;

const LampFacts kShortOne{LampTypeId(u"short"_s), true, Fill::Xenon};
const LampFacts kLongOne{LampTypeId(u"long"_s), false, Fill::MercuryXenon};
const LampFacts kUnknown{};

Step stepWhen(const LampCondition& oldLamp, const LampCondition& newLamp)
{
    Step step;
    step.when = {oldLamp, newLamp};
    return step;
}

TEST(ConditionTest, AStepWithoutConditionAlwaysApplies)
{
    EXPECT_TRUE(applies(Step(), {kShortOne, kLongOne}));
    EXPECT_TRUE(applies(Step(), {std::nullopt, kLongOne}));
}

TEST(ConditionTest, AsksEachLampForTheAdaptorByItself)
{
    const Step oldNeedsIt = stepWhen({true, {}, {}}, {});
    const Step newNeedsNone = stepWhen({}, {false, {}, {}});

    EXPECT_TRUE(applies(oldNeedsIt, {kShortOne, kLongOne}));
    EXPECT_FALSE(applies(oldNeedsIt, {kLongOne, kShortOne}));
    EXPECT_TRUE(applies(newNeedsNone, {kShortOne, kLongOne}));
    EXPECT_FALSE(applies(newNeedsNone, {kLongOne, kShortOne}));
}

TEST(ConditionTest, AsksForOneOfTheNamedTypes)
{
    const Step step = stepWhen({}, {{}, {LampTypeId(u"other"_s), LampTypeId(u"long"_s)}, {}});

    EXPECT_TRUE(applies(step, {kShortOne, kLongOne}));
    EXPECT_FALSE(applies(step, {kLongOne, kShortOne}));
}

TEST(ConditionTest, AsksForTheFill)
{
    const Step step = stepWhen({{}, {}, Fill::MercuryXenon}, {});

    EXPECT_TRUE(applies(step, {kLongOne, kShortOne}));
    EXPECT_FALSE(applies(step, {kShortOne, kLongOne}));
}

TEST(ConditionTest, AllTestsMustHold)
{
    const Step step = stepWhen({true, {LampTypeId(u"short"_s)}, {}}, {false, {}, {}});

    EXPECT_TRUE(applies(step, {kShortOne, kLongOne}));
    EXPECT_FALSE(applies(step, {kShortOne, kShortOne}));
    EXPECT_FALSE(applies(step, {kLongOne, kLongOne}));
}

TEST(ConditionTest, ALampThatNobodyKnowsIsRatherAskedTooMuch)
{
    EXPECT_TRUE(applies(stepWhen({true, {}, {}}, {}), {kUnknown, kLongOne}));
    EXPECT_TRUE(applies(stepWhen({false, {}, {}}, {}), {kUnknown, kLongOne}));
    EXPECT_TRUE(applies(stepWhen({{}, {LampTypeId(u"short"_s)}, {}}, {}), {kUnknown, kLongOne}));
    EXPECT_TRUE(applies(stepWhen({{}, {}, Fill::MercuryXenon}, {}), {kUnknown, kLongOne}));
}

TEST(ConditionTest, AnEmptySeatLeavesOutWhatHandlesTheOldLamp)
{
    Step boxOld;
    boxOld.lamp = Lamp::Old;
    Step lampIn;
    lampIn.lamp = Lamp::New;
    const Facts facts{std::nullopt, kLongOne};

    EXPECT_FALSE(applies(boxOld, facts));
    EXPECT_TRUE(applies(lampIn, facts));
    EXPECT_FALSE(applies(stepWhen({true, {}, {}}, {}), facts));
}

TEST(ProcedureTest, GivesTheStepsThatApplyInTheirOrder)
{
    Step first;
    first.id = StepId(u"first"_s);
    Step second = stepWhen({}, {true, {}, {}});
    second.id = StepId(u"second"_s);
    Step third;
    third.id = StepId(u"third"_s);
    const Procedure procedure{ProcedureId(u"p"_s), ModelId(u"m"_s), u"P"_s, {first, second, third}};

    EXPECT_EQ(stepsFor(procedure, {kLongOne, kShortOne}), (QList<Step>{first, second, third}));
    EXPECT_EQ(stepsFor(procedure, {kShortOne, kLongOne}), (QList<Step>{first, third}));
}

TEST(ProcedureTest, FindsAStepByItsName)
{
    Step step;
    step.id = StepId(u"strike"_s);
    const Procedure procedure{ProcedureId(u"p"_s), ModelId(u"m"_s), u"P"_s, {step}};

    EXPECT_EQ(procedure.step(StepId(u"strike"_s)), &procedure.steps.first());
    EXPECT_EQ(procedure.step(StepId(u"hammer"_s)), nullptr);
}

TEST(CaptureTest, KnowsWhatIsKeyedIn)
{
    const auto isTyped = [](CaptureKind kind, const QList<Choice>& choices) {
        return Capture{u"c"_s, kind, u"C"_s, choices, {}, false}.isTyped();
    };
    const QList<Choice> two{{u"a"_s, Means::Good}, {u"b"_s, Means::Bad}};

    for (const CaptureKind kind : {CaptureKind::Counter, CaptureKind::Text, CaptureKind::Number,
                                   CaptureKind::Serial, CaptureKind::Type})
        EXPECT_TRUE(isTyped(kind, {})) << wordOf(kind).toStdString();
    EXPECT_FALSE(isTyped(CaptureKind::Choice, two));
    EXPECT_FALSE(isTyped(CaptureKind::Picture, {}));
    EXPECT_TRUE(isTyped(CaptureKind::Reading, {}));
    EXPECT_FALSE(isTyped(CaptureKind::Reading, two));
    EXPECT_TRUE(isTyped(CaptureKind::Answer, {}));
    EXPECT_FALSE(isTyped(CaptureKind::Answer, two));
}

TEST(LampFactsTest, TakeTheAdaptorFromTheModelAndTheFillFromTheType)
{
    catalogue::LampType type;
    type.id = LampTypeId(u"short"_s);
    type.fill = Fill::MercuryXenon;
    catalogue::ProjectorModel model;
    model.adaptor = catalogue::Adaptor{catalogue::LampEnd::Anode, {type.id}};

    EXPECT_EQ(factsOf(type, model), (LampFacts{type.id, true, Fill::MercuryXenon}));
    model.adaptor.reset();
    EXPECT_EQ(factsOf(type, model).adaptor, std::optional(false));
}

} // namespace
} // namespace coldarc::procedure
