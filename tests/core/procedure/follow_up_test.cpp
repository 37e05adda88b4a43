#include "core/procedure/follow_up.h"

#include "core/procedure/procedure_file.h"
#include "core/procedure/proof.h"
#include "tests/support/testing.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::procedure {
namespace {

using machine::Demand;
using machine::Effect;

const catalogue::Catalogue& shippedCatalogue()
{
    static const catalogue::Catalogue catalogue =
        catalogue::loadCatalogue(test::sourceFile("resources/catalogue")).catalogue;
    return catalogue;
}

const Procedure& shipped(const QString& model)
{
    static const ProcedureLoading loading =
        loadProcedures(test::sourceFile("resources/procedures"), shippedCatalogue());
    return *loading.procedureFor(ModelId(model));
}

QStringList idsOf(const QString& model, const QStringList& owed)
{
    QList<StepId> ids;
    for (const QString& id : owed)
        ids.append(StepId(id));
    QStringList steps;
    for (const Step& step : followUpSteps(shipped(model), {}, ids))
        steps.append(step.id.text());
    return steps;
}

std::string told(const Proof& proof)
{
    return proof.failure ? describe(*proof.failure).toStdString() : std::string("proved");
}

TEST(FollowUpStepsTest, LeadToALampThatBurnsThenDoWhatIsOwedAndSign)
{
    EXPECT_EQ(idsOf(u"sedgebrook-nook"_s, {u"peak-again"_s}),
              (QStringList{u"find"_s, u"read-counters"_s, u"restore-mains"_s, u"power-up"_s,
                           u"key-controller"_s, u"tell-again"_s, u"extraction-on"_s, u"dowser-shut"_s,
                           u"strike"_s, u"dowser-open"_s, u"settle"_s, u"peak-again"_s, u"sign"_s}));
}

TEST(FollowUpStepsTest, KeepTheProceduresOrderWhateverOrderTheyAreOwedIn)
{
    const QStringList steps =
        idsOf(u"sedgebrook-nook"_s, {u"look-picture"_s, u"measure-screen"_s, u"peak-along"_s});

    EXPECT_EQ(steps.mid(steps.indexOf(u"dowser-open"_s) + 1),
              (QStringList{u"peak-along"_s, u"settle"_s, u"measure-screen"_s, u"look-picture"_s, u"sign"_s}));
}

TEST(FollowUpStepsTest, AskForNoSettledLightWhereNothingNeedsIt)
{
    EXPECT_FALSE(idsOf(u"sedgebrook-nook"_s, {u"peak-along"_s}).contains(u"settle"_s));
}

TEST(FollowUpStepsTest, LeaveOutWhatMayNotFollowAndWhatTheProcedureHasNot)
{
    const QStringList steps = idsOf(u"sedgebrook-nook"_s, {u"lamp-out"_s, u"polish"_s, u"look-picture"_s});

    EXPECT_FALSE(steps.contains(u"lamp-out"_s));
    EXPECT_FALSE(steps.contains(u"polish"_s));
    EXPECT_TRUE(steps.contains(u"look-picture"_s));
}

TEST(FollowUpStepsTest, OpenNothingAndHandleNoLamp)
{
    for (const QString& model : {u"larkmoor-teal"_s, u"sedgebrook-nook"_s, u"quillhaven-pair"_s}) {
        QList<StepId> all;
        for (const Step& step : shipped(model).steps)
            all.append(step.id);
        for (const Step& step : followUpSteps(shipped(model), {}, all)) {
            EXPECT_NE(step.effect, Effect::OpenHousing);
            EXPECT_NE(step.effect, Effect::ExposeLamp);
            EXPECT_NE(step.effect, Effect::WorkInside);
            EXPECT_FALSE(step.lamp) << step.id.text().toStdString();
        }
    }
}

TEST(FollowUpStepsTest, DarkenTheOtherLampBeforeThePeakAndLeaveItAloneOtherwise)
{
    const QStringList peak = idsOf(u"quillhaven-pair"_s, {u"peak-again"_s});
    EXPECT_LT(peak.indexOf(u"dowser-shut-other"_s), peak.indexOf(u"settle"_s));
    EXPECT_TRUE(peak.contains(u"dowser-open-other"_s));
    EXPECT_FALSE(peak.contains(u"strike-other"_s)) << "a lamp that is not needed is not lit";

    const QStringList screen = idsOf(u"quillhaven-pair"_s, {u"measure-screen"_s});
    EXPECT_TRUE(screen.contains(u"key-controller-other"_s));
    EXPECT_LT(screen.indexOf(u"strike-other"_s), screen.indexOf(u"measure-screen"_s));
}

struct OwedCase {
    const char* name;
    const char16_t* model;
    QStringList owed;
    friend void PrintTo(const OwedCase& one, std::ostream* out) { *out << one.name; }
};

class FollowUpProofTest : public ::testing::TestWithParam<OwedCase> {
protected:
    [[nodiscard]] static Proof proved(const ProofScope& scope = {})
    {
        const Procedure& procedure = shipped(QString::fromUtf16(GetParam().model));
        QList<StepId> owed;
        for (const QString& id : GetParam().owed)
            owed.append(StepId(id));
        return proveFollowUp(procedure, *shippedCatalogue().model(procedure.model), shippedCatalogue(), owed,
                             scope);
    }
};

TEST_P(FollowUpProofTest, IsProvedOnEveryPathWithSafetyInReach)
{
    const Proof proof = proved();

    EXPECT_FALSE(proof.failure) << told(proof);
    EXPECT_GT(proof.nodes, 100u);
}

TEST_P(FollowUpProofTest, FindsTheHoleWhenALampMayBeLitWithoutItsTypeReadBack)
{
    ProofScope scope;
    scope.overlooked.set(static_cast<std::size_t>(Demand::ReadBack));

    const Proof proof = proved(scope);

    ASSERT_TRUE(proof.failure);
    EXPECT_EQ(proof.failure->flaw, Flaw::StruckUnbooked) << told(proof);
}

TEST_P(FollowUpProofTest, FindsTheHoleWhenALampMayBeLitPastItsLife)
{
    ProofScope scope;
    scope.overlooked.set(static_cast<std::size_t>(Demand::LampKnown));

    const Proof proof = proved(scope);

    ASSERT_TRUE(proof.failure);
    EXPECT_EQ(proof.failure->flaw, Flaw::StruckUnbooked) << told(proof);
}

INSTANTIATE_TEST_SUITE_P(
    WhatIsOwed, FollowUpProofTest,
    ::testing::Values(OwedCase{"SecondPeak", u"larkmoor-teal", {u"peak-again"_s}},
                      OwedCase{"Everything",
                               u"larkmoor-teal",
                               {u"peak-along"_s, u"peak-across"_s, u"peak-up"_s, u"settle"_s, u"peak-again"_s,
                                u"measure-screen"_s, u"look-picture"_s}},
                      OwedCase{"Screen", u"sedgebrook-nook", {u"measure-screen"_s}},
                      OwedCase{"SecondPeakOfAPair", u"quillhaven-pair", {u"peak-again"_s}},
                      OwedCase{"ScreenOfAPair", u"quillhaven-pair", {u"peak-again"_s, u"measure-screen"_s}}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(FollowUpGateTest, FindsTheHoleWhenThePeakMayBeSoughtBeforeTheLightHasSettled)
{
    ProofScope scope;
    scope.overlooked.set(static_cast<std::size_t>(Demand::Settled));
    const Procedure& procedure = shipped(u"larkmoor-teal"_s);

    const Proof proof = proveFollowUp(procedure, *shippedCatalogue().model(procedure.model),
                                      shippedCatalogue(), {StepId(u"peak-again"_s)}, scope);

    ASSERT_TRUE(proof.failure);
    EXPECT_EQ(proof.failure->flaw, Flaw::GateBypassed);
    EXPECT_EQ(proof.failure->gate, machine::Gate::Settled);
}

} // namespace
} // namespace coldarc::procedure
