#include "core/procedure/proof.h"

#include "core/machine/evolve.h"
#include "core/procedure/plant.h"
#include "core/procedure/procedure_file.h"
#include "core/procedure/proof_case.h"
#include "core/procedure/proof_walk.h"
#include "tests/support/testing.h"

#include <algorithm>
#include <iostream>

using namespace Qt::StringLiterals;

namespace coldarc::procedure {

void PrintTo(const PathPart& part, std::ostream* out)
{
    *out << part.step.text().toStdString();
    if (part.happening)
        *out << " happening " << static_cast<int>(*part.happening);
    if (part.outcome != machine::Outcome::Plain)
        *out << " outcome " << static_cast<int>(part.outcome);
}

namespace {

using catalogue::ProjectorModel;
using machine::Demand;
using machine::Effect;
using machine::Gate;
using machine::Happening;
using machine::Outcome;

const catalogue::Catalogue& shippedCatalogue()
{
    static const catalogue::Catalogue catalogue =
        catalogue::loadCatalogue(test::sourceFile("resources/catalogue")).catalogue;
    return catalogue;
}

const ProcedureLoading& shipped()
{
    static const ProcedureLoading loading =
        loadProcedures(test::sourceFile("resources/procedures"), shippedCatalogue());
    return loading;
}

std::string told(const Proof& proof)
{
    return proof.failure ? describe(*proof.failure).toStdString() : std::string("proved");
}

Proof proveShipped(const Procedure& procedure, const ProofScope& scope = {})
{
    return prove(procedure, *shippedCatalogue().model(procedure.model), shippedCatalogue(), scope);
}

class ShippedProofTest : public ::testing::TestWithParam<const char*> {
protected:
    [[nodiscard]] const ProjectorModel& model() const
    {
        return *shippedCatalogue().model(ModelId(QString::fromUtf8(GetParam())));
    }
    [[nodiscard]] const Procedure& procedure() const { return *shipped().procedureFor(model().id); }
};

TEST_P(ShippedProofTest, IsProved)
{
    const Proof proof = proveShipped(procedure());

    EXPECT_FALSE(proof.failure) << told(proof);
    EXPECT_GT(proof.nodes, 1000u);
}

#if defined(__SANITIZE_ADDRESS__)
constexpr bool kSlow = true;
#else
constexpr bool kSlow = false;
#endif

TEST_P(ShippedProofTest, IsProvedWithTwoIncidentsOnOnePath)
{
    if (kSlow)
        GTEST_SKIP() << "too large under the sanitizers";
    ProofScope scope;
    scope.incidents = 2;

    const Proof proof = proveShipped(procedure(), scope);

    EXPECT_FALSE(proof.failure) << told(proof);
    std::cout << "  " << GetParam() << ": " << proof.pairings << " pairings, " << proof.nodes << " nodes\n";
}

TEST_P(ShippedProofTest, IsProvedWithEarlierStepsDoneOnceMore)
{
    if (kSlow)
        GTEST_SKIP() << "too large under the sanitizers";
    ProofScope scope;
    scope.again = true;

    const Proof proof = proveShipped(procedure(), scope);

    EXPECT_FALSE(proof.failure) << told(proof);
    EXPECT_GT(proof.nodes, proveShipped(procedure()).nodes);
}

TEST_P(ShippedProofTest, EveryPairingOfLampsIsWalked)
{
    const auto cases = proofCases(procedure(), model(), shippedCatalogue());
    const auto isWalked = [&](const Facts& facts, bool oldAdaptor) {
        const QList<Step> steps = stepsFor(procedure(), facts);
        const bool hasOld = facts.oldLamp.has_value();
        return std::ranges::any_of(cases, [&](const ProofCase& one) {
            const machine::Plant::Lamp& fresh = one.plant.lamp[one.context.newLamp];
            return one.steps == steps && (one.context.oldLamp != machine::kNone) == hasOld &&
                   fresh.needsAdaptor == model().needsAdaptor(*facts.newLamp.type) &&
                   one.context.oldAdaptorOn == oldAdaptor;
        });
    };
    for (const LampTypeId& fresh : model().lampTypes) {
        const LampFacts newLamp = factsOf(*shippedCatalogue().lampType(fresh), model());
        for (const LampTypeId& old : model().lampTypes) {
            const LampFacts oldLamp = factsOf(*shippedCatalogue().lampType(old), model());
            EXPECT_TRUE(isWalked({oldLamp, newLamp}, model().needsAdaptor(old)))
                << old.text().toStdString() << " to " << fresh.text().toStdString();
        }
        EXPECT_TRUE(isWalked({std::nullopt, newLamp}, false)) << "empty seat";
        EXPECT_TRUE(isWalked({LampFacts(), newLamp}, false)) << "unknown lamp";
        if (model().adaptor) {
            EXPECT_TRUE(isWalked({LampFacts(), newLamp}, true)) << "unknown lamp on the adaptor";
        }
    }
}

/// Procedure without the steps that are asked for.
template<class Gone>
Procedure without(const Procedure& procedure, Gone gone)
{
    Procedure changed = procedure;
    changed.steps.removeIf(gone);
    return changed;
}

int placeOf(const Procedure& procedure, const StepId& id)
{
    return static_cast<int>(std::ranges::find(procedure.steps, id, &Step::id) - procedure.steps.begin());
}

// What a step of each effect is good for: the effects of which one is blocked without it. Worked out from the
// table of effects and demands.
const std::vector<std::pair<Effect, QList<Effect>>> kBlockedWithout{
    {Effect::Find, {Effect::Standby, Effect::LampOff}},
    {Effect::MatchBox, {Effect::BookIn}},
    {Effect::CountOpening, {Effect::OpenHousing, Effect::ExposeLamp}},
    {Effect::TellBefore, {Effect::Isolate}},
    {Effect::LampOff, {Effect::Standby}},
    {Effect::Standby, {Effect::Isolate}},
    {Effect::Isolate, {Effect::LockOn}},
    {Effect::LockOn, {Effect::Relieve}},
    {Effect::Relieve, {Effect::TryStart}},
    {Effect::TryStart, {Effect::ProveAbsence, Effect::OpenHousing}},
    {Effect::ProveAbsence, {Effect::ExposeLamp, Effect::LampOut, Effect::Unbox}},
    {Effect::GearOn, {Effect::EnterZone}},
    {Effect::EnterZone, {Effect::ExposeLamp}},
    {Effect::OpenHousing, {Effect::ProveAbsence, Effect::ExposeLamp}},
    {Effect::ExposeLamp, {Effect::ProveAbsence}},
    {Effect::LampOut, {Effect::AdaptorOff, Effect::BoxLamp}},
    {Effect::AdaptorOff, {Effect::AdaptorOn, Effect::Sign}},
    {Effect::BoxLamp, {Effect::Unbox}},
    {Effect::Unbox, {Effect::AdaptorOn, Effect::LampIn}},
    {Effect::AdaptorOn, {Effect::Strike}},
    {Effect::LampIn, {Effect::ClampLamp}},
    {Effect::ClampLamp, {Effect::ShutGuard}},
    {Effect::ShutGuard, {Effect::ShutHousing, Effect::LeaveZone}},
    {Effect::ShutHousing, {Effect::LockOff}},
    {Effect::LeaveZone, {Effect::GearOff}},
    {Effect::LockOff, {Effect::JobLockOff, Effect::Restore}},
    {Effect::JobLockOff, {Effect::Restore}},
    {Effect::Restore, {Effect::PowerUp}},
    {Effect::PowerUp, {Effect::KeyController}},
    {Effect::BookIn, {Effect::Strike}},
    {Effect::KeyController, {Effect::Strike}},
    {Effect::TellAgain, {Effect::Strike}},
    {Effect::ExtractionOn, {Effect::Strike}},
    {Effect::DowserShut, {Effect::Strike}},
    {Effect::Strike, {Effect::DowserOpen}},
    {Effect::DowserOpen, {Effect::Peak}},
};

TEST_P(ShippedProofTest, WithoutAnyOneProvingStepTheProofNamesWhatItBlocks)
{
    for (const Step& removed : procedure().steps) {
        const auto row =
            std::ranges::find(kBlockedWithout, removed.effect, &std::pair<Effect, QList<Effect>>::first);
        if (row == kBlockedWithout.end())
            continue;
        if (removed.otherLamphouse && removed.effect == Effect::DowserOpen)
            continue; // nothing rests on it: the other screen is not peaked
        const Procedure changed =
            without(procedure(), [&](const Step& step) { return step.id == removed.id; });

        const Proof proof = proveShipped(changed);

        ASSERT_TRUE(proof.failure) << "still proved without " << removed.id.text().toStdString();
        const Step* blocked = changed.step(proof.failure->step);
        ASSERT_TRUE(blocked) << told(proof);
        EXPECT_TRUE(row->second.contains(blocked->effect))
            << "without " << removed.id.text().toStdString() << ": " << told(proof);
        EXPECT_TRUE(proof.failure->flaw != Flaw::Order || proof.failure->demand.has_value());
    }
}

TEST_P(ShippedProofTest, EitherCountIsEnoughAndNoneIsNot)
{
    const auto isCount = [](const Step& step) { return step.effect == Effect::Count; };

    for (const Step& step : procedure().steps) {
        if (!isCount(step))
            continue;
        const auto isThis = [&](const Step& one) { return one.id == step.id; };
        EXPECT_FALSE(proveShipped(without(procedure(), isThis)).failure) << step.id.text().toStdString();
    }
    const Proof none = proveShipped(without(procedure(), isCount));
    ASSERT_TRUE(none.failure);
    EXPECT_EQ(none.failure->demand, Demand::CountsAnswered);
    EXPECT_EQ(none.failure->step, StepId(u"own-lock-off"_s));
}

// Pairs that the law or the table of demands puts in this order. The first step of the first effect is moved
// right behind the last of the second one.
const std::vector<std::pair<Effect, Effect>> kOrdered{
    {Effect::TellBefore, Effect::Isolate},
    {Effect::LampOff, Effect::Standby},
    {Effect::Standby, Effect::Isolate},
    {Effect::Isolate, Effect::LockOn},
    {Effect::LockOn, Effect::Relieve},
    {Effect::Relieve, Effect::TryStart},
    {Effect::TryStart, Effect::ProveAbsence},
    {Effect::GearOn, Effect::EnterZone},
    {Effect::EnterZone, Effect::ExposeLamp},
    {Effect::OpenHousing, Effect::ExposeLamp},
    {Effect::ProveAbsence, Effect::ExposeLamp},
    {Effect::ExposeLamp, Effect::LampOut},
    {Effect::LampOut, Effect::BoxLamp},
    {Effect::BoxLamp, Effect::Unbox},
    {Effect::Unbox, Effect::LampIn},
    {Effect::LampIn, Effect::ClampLamp},
    {Effect::ClampLamp, Effect::ShutGuard},
    {Effect::ShutGuard, Effect::ShutHousing},
    {Effect::ShutGuard, Effect::LeaveZone},
    {Effect::ShutHousing, Effect::LockOff},
    {Effect::LeaveZone, Effect::GearOff},
    {Effect::LockOff, Effect::Restore},
    {Effect::JobLockOff, Effect::Restore},
    {Effect::Restore, Effect::PowerUp},
    {Effect::PowerUp, Effect::KeyController},
    {Effect::MatchBox, Effect::Unbox},
    {Effect::BookIn, Effect::Strike},
    {Effect::KeyController, Effect::Strike},
    {Effect::TellAgain, Effect::Strike},
    {Effect::ExtractionOn, Effect::Strike},
    {Effect::DowserShut, Effect::Strike},
    {Effect::Strike, Effect::DowserOpen},
    {Effect::DowserOpen, Effect::Peak},
    {Effect::CountOpening, Effect::ExposeLamp},
    {Effect::LockOff, Effect::TellAgain},
};

TEST_P(ShippedProofTest, StepsThatTheLawOrdersCannotChangePlaces)
{
    int swapped = 0;
    for (const auto& [first, second] : kOrdered) {
        const QList<Step>& steps = procedure().steps;
        const auto early = std::ranges::find(steps, first, &Step::effect);
        const auto late = std::find_if(early, steps.end(), [&, wanted = second](const Step& step) {
            const bool samePoint = !early->point || !step.point || step.point == early->point;
            return step.effect == wanted && !step.otherLamphouse && samePoint;
        });
        if (early == steps.end() || late == steps.end())
            continue; // the model has none of it
        const int from = static_cast<int>(early - steps.begin());
        const int to = static_cast<int>(late - steps.begin());
        Procedure changed = procedure();
        changed.steps.move(from, to);

        const Proof proof = proveShipped(changed);

        ASSERT_TRUE(proof.failure) << "still proved: " << machine::wordOf(first) << " behind "
                                   << machine::wordOf(second);
        const int place = placeOf(changed, proof.failure->step);
        EXPECT_TRUE(place >= from && place <= to) << told(proof);
        ++swapped;
    }
    EXPECT_GE(swapped, 30);
}

TEST_P(ShippedProofTest, TheStopsStandWhereTheyBelong)
{
    const auto moveBehind = [&](Stop stop, Effect effect) {
        Procedure changed = procedure();
        const auto from = std::ranges::find(changed.steps, std::optional(stop), &Step::stop);
        const auto to = std::ranges::find(changed.steps, effect, &Step::effect);
        changed.steps.move(from - changed.steps.begin(), to - changed.steps.begin());
        return proveShipped(changed);
    };
    for (const Proof& proof :
         {moveBehind(Stop::ColdAndDead, Effect::GearOn), moveBehind(Stop::ReadyToOpen, Effect::ExposeLamp),
          moveBehind(Stop::ReadyToStrike, Effect::LockOff)}) {
        ASSERT_TRUE(proof.failure);
        EXPECT_EQ(proof.failure->flaw, Flaw::StopMisplaced);
    }
}

/// Demands that guard one gate together.
struct Hole {
    const char* name;
    std::vector<Demand> demands;
    Gate gate;
    friend void PrintTo(const Hole& hole, std::ostream* out) { *out << hole.name; }
};

machine::Unmet overlooking(const std::vector<Demand>& demands)
{
    machine::Unmet overlooked;
    for (const Demand demand : demands)
        overlooked.set(static_cast<std::size_t>(demand));
    return overlooked;
}

const std::vector<Hole> kHoles{
    {"Cold", {Demand::Cold, Demand::ProjectorCold, Demand::FedCold}, Gate::Cold},
    {"Relieved", {Demand::Relieved}, Gate::Dead},
    {"StartTried", {Demand::StartTried}, Gate::Dead},
    {"Absent", {Demand::Absent}, Gate::Dead},
    {"AbsentBehind", {Demand::AbsentBehind}, Gate::Dead},
    {"Geared", {Demand::Geared, Demand::GearedIfOpen}, Gate::Geared},
};

TEST_P(ShippedProofTest, ADemandThatIsOverlookedIsAHoleThatTheProofFinds)
{
    for (const Hole& hole : kHoles) {
        ProofScope scope;
        scope.overlooked = overlooking(hole.demands);

        const Proof proof = proveShipped(procedure(), scope);

        ASSERT_TRUE(proof.failure) << hole.name;
        EXPECT_TRUE(proof.failure->flaw == Flaw::Exposed || proof.failure->flaw == Flaw::GateBypassed)
            << hole.name << ": " << told(proof);
        EXPECT_EQ(proof.failure->gate, hole.gate) << hole.name;
    }
}

TEST_P(ShippedProofTest, WithoutWhatProvesAGateNothingThatWaitsForItIsReached)
{
    const ProofCase walked = proofCases(procedure(), model(), shippedCatalogue()).front();

    EXPECT_FALSE(bypass(walked, {}));
    for (const Hole& hole :
         {Hole{"Cold", {Demand::Cold, Demand::ProjectorCold, Demand::FedCold}, Gate::Cold},
          Hole{"Start", {Demand::StartTried}, Gate::Dead}, Hole{"Absent", {Demand::Absent}, Gate::Dead},
          Hole{"Geared", {Demand::GearSigned}, Gate::Geared},
          Hole{"Matched", {Demand::Matched}, Gate::Matched},
          Hole{"Settled", {Demand::Settled}, Gate::Settled}}) {
        ProofScope scope;
        scope.overlooked = overlooking(hole.demands);

        const auto failure = bypass(walked, scope);

        ASSERT_TRUE(failure) << hole.name;
        EXPECT_EQ(failure->flaw, Flaw::GateBypassed) << hole.name;
        EXPECT_EQ(failure->gate, hole.gate) << hole.name;
    }
}

INSTANTIATE_TEST_SUITE_P(Models, ShippedProofTest,
                         ::testing::Values("larkmoor-teal", "quillhaven-pair", "sedgebrook-nook"),
                         [](const auto& instance) {
                             std::string name = instance.param;
                             std::erase(name, '-');
                             return name;
                         });

/// The smallest model there can be: one lamphouse on one breaker, its door the guard, one test point that is
/// reached shut, no dowser, no adaptor, one lamp type. Invented.
ProjectorModel smallModel()
{
    ProjectorModel model;
    model.id = ModelId(u"small"_s);
    model.lamphouses = {u"main"_s};
    model.isolation = {
        {catalogue::RoleId(u"mains"_s), u"Mains"_s, catalogue::DeviceKind::Breaker, true, {u"main"_s}}};
    model.testPoints = {{catalogue::TestPointId(u"inlet"_s), u"Inlet"_s, catalogue::Cover::None}};
    model.hasHousing = false;
    model.hasDowser = false;
    model.strikeLimit = 2;
    model.lampTypes = {LampTypeId(u"plain"_s)};
    return model;
}

/// A step of each effect, with the effect's word as its id; "box-lamp" is the old one's.
Step smallStep(Effect effect)
{
    Step step;
    const std::string_view word = machine::wordOf(effect);
    step.id = StepId(QString::fromUtf8(word.data(), static_cast<qsizetype>(word.size())));
    step.effect = effect;
    if (effect == Effect::Isolate || effect == Effect::Restore)
        step.point = catalogue::RoleId(u"mains"_s);
    if (effect == Effect::ProveAbsence)
        step.testPoint = catalogue::TestPointId(u"inlet"_s);
    if (effect == Effect::LampOut || effect == Effect::BoxLamp)
        step.lamp = Lamp::Old;
    if (effect == Effect::Unbox || effect == Effect::LampIn || effect == Effect::ClampLamp ||
        effect == Effect::MatchBox)
        step.lamp = Lamp::New;
    return step;
}

using Effects = std::vector<Effect>;

const Effects kSmallSwap{
    Effect::Find,         Effect::MatchBox, Effect::CountOpening,  Effect::TellBefore, Effect::LampOff,
    Effect::Standby,      Effect::Isolate,  Effect::LockOn,        Effect::Relieve,    Effect::TryStart,
    Effect::ProveAbsence, Effect::GearOn,   Effect::EnterZone,     Effect::ExposeLamp, Effect::LampOut,
    Effect::BoxLamp,      Effect::Unbox,    Effect::LampIn,        Effect::ClampLamp,  Effect::ShutGuard,
    Effect::LeaveZone,    Effect::GearOff,  Effect::Count,         Effect::LockOff,    Effect::Restore,
    Effect::PowerUp,      Effect::BookIn,   Effect::KeyController, Effect::TellAgain,  Effect::ExtractionOn,
    Effect::Strike,       Effect::Settle,   Effect::PeakAgain,     Effect::Sign};

Proof proveSmall(const Effects& effects, const ProofScope& scope = {})
{
    Procedure procedure;
    procedure.id = ProcedureId(u"small-swap"_s);
    procedure.model = ModelId(u"small"_s);
    for (const Effect effect : effects)
        procedure.steps.append(smallStep(effect));
    return prove(procedure, smallModel(), {}, scope);
}

Effects smallWithout(std::initializer_list<Effect> gone)
{
    Effects left = kSmallSwap;
    std::erase_if(left, [&](Effect effect) { return std::ranges::find(gone, effect) != gone.end(); });
    return left;
}

/// The planned path through the steps before the one of this effect, as the proof tells it. The old lamp was
/// found lit.
QList<PathPart> plannedUpTo(const Effects& effects, Effect last)
{
    QList<PathPart> path;
    for (const Effect effect : effects) {
        if (effect == last)
            break;
        Outcome outcome = Outcome::Plain;
        if (effect == Effect::MatchBox || effect == Effect::Unbox || effect == Effect::ClampLamp ||
            effect == Effect::KeyController)
            outcome = Outcome::Agrees;
        if (effect == Effect::TryStart)
            outcome = Outcome::NoResponse;
        if (effect == Effect::ProveAbsence)
            outcome = Outcome::Absent;
        if (effect == Effect::Count)
            outcome = Outcome::Same;
        if (effect == Effect::Strike)
            outcome = Outcome::Lit;
        path.append({smallStep(effect).id, outcome, std::nullopt});
    }
    return path;
}

TEST(SmallProofTest, TheWholeSwapIsProved)
{
    const Proof proof = proveSmall(kSmallSwap);

    EXPECT_FALSE(proof.failure) << told(proof);
    EXPECT_EQ(proof.pairings, 3u) << "same type, unknown lamp, empty seat";
}

struct Unsafe {
    const char* name;
    Effects effects;
    Flaw flaw;
    Effect at;
    std::optional<Demand> demand;
    friend void PrintTo(const Unsafe& one, std::ostream* out) { *out << one.name; }
};

class UnsafeProcedureTest : public ::testing::TestWithParam<Unsafe> {};

TEST_P(UnsafeProcedureTest, FailsWithItsShortestPath)
{
    const Unsafe& unsafe = GetParam();

    const Proof proof = proveSmall(unsafe.effects);

    ASSERT_TRUE(proof.failure);
    EXPECT_EQ(proof.failure->flaw, unsafe.flaw) << told(proof);
    EXPECT_EQ(proof.failure->step, smallStep(unsafe.at).id) << told(proof);
    EXPECT_EQ(proof.failure->demand, unsafe.demand) << told(proof);
    EXPECT_EQ(proof.failure->path, plannedUpTo(unsafe.effects, unsafe.at));
}

Effects moved(Effects effects, Effect what, Effect before)
{
    std::erase(effects, what);
    effects.insert(std::ranges::find(effects, before), what);
    return effects;
}

INSTANTIATE_TEST_SUITE_P(
    Small, UnsafeProcedureTest,
    ::testing::Values(
        Unsafe{"NoLock", smallWithout({Effect::LockOn, Effect::LockOff}), Flaw::Order, Effect::Relieve,
               Demand::PointsLocked},
        Unsafe{"NoTryStart", smallWithout({Effect::TryStart}), Flaw::Order, Effect::ProveAbsence,
               Demand::StartTried},
        Unsafe{"NoTest", smallWithout({Effect::ProveAbsence}), Flaw::Order, Effect::ExposeLamp,
               Demand::Absent},
        Unsafe{"NoGear", smallWithout({Effect::GearOn}), Flaw::Order, Effect::EnterZone, Demand::GearSigned},
        Unsafe{"LampLeftInHand", smallWithout({Effect::LampIn, Effect::ClampLamp}), Flaw::Order,
               Effect::ShutGuard, Demand::NoLooseLamp},
        Unsafe{"LampNotClamped", smallWithout({Effect::ClampLamp}), Flaw::Order, Effect::ShutGuard,
               Demand::NoLooseLamp},
        Unsafe{"StruckBeforeBookIn", moved(kSmallSwap, Effect::Strike, Effect::BookIn), Flaw::Order,
               Effect::Strike, Demand::ToldAgain},
        Unsafe{"StruckWithoutBookIn", smallWithout({Effect::BookIn}), Flaw::Order, Effect::Strike,
               Demand::LampKnown},
        Unsafe{"StruckWithoutReadBack", smallWithout({Effect::KeyController}), Flaw::Order, Effect::Strike,
               Demand::ReadBack},
        Unsafe{"CountMissing", smallWithout({Effect::Count}), Flaw::Order, Effect::LockOff,
               Demand::CountsAnswered},
        Unsafe{"LockLeftOn", smallWithout({Effect::LockOff}), Flaw::Order, Effect::Restore, Demand::NoLock},
        Unsafe{"HotLampCutOff", smallWithout({Effect::LampOff}), Flaw::Order, Effect::Standby,
               Demand::ProjectorCold}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(SmallProofTest, WhatIsLeftAtTheSigningIsNamed)
{
    const auto cut = [](Effect after) {
        Effects effects(kSmallSwap.begin(), std::ranges::find(kSmallSwap, after) + 1);
        effects.push_back(Effect::Sign);
        return proveSmall(effects).failure;
    };
    struct Left {
        Effect after;
        Flaw flaw;
    };
    for (const Left& left : {Left{Effect::LampOut, Flaw::LampLeft}, Left{Effect::LampIn, Flaw::LampLeft},
                             Left{Effect::LeaveZone, Flaw::CountLeft}, Left{Effect::Count, Flaw::LockLeft},
                             Left{Effect::LockOff, Flaw::PowerLeft}, Left{Effect::Restore, Flaw::LampLeft}}) {
        const auto failure = cut(left.after);
        ASSERT_TRUE(failure) << machine::wordOf(left.after);
        EXPECT_EQ(failure->flaw, left.flaw) << machine::wordOf(left.after);
        EXPECT_EQ(failure->step, StepId(u"sign"_s)) << machine::wordOf(left.after);
    }
}

TEST(SmallProofTest, AProcedureThatIsNotSignedIsNoProcedure)
{
    const Proof proof = proveSmall(smallWithout({Effect::Sign}));

    ASSERT_TRUE(proof.failure);
    EXPECT_EQ(proof.failure->flaw, Flaw::NotSigned);
    EXPECT_EQ(proveSmall({}).failure->flaw, Flaw::NotSigned);
}

TEST(SmallProofTest, AnIncidentOnTheWayIsToldWithItsStep)
{
    // Overlooking Geared opens one hole only: gear that is damaged after the zone was entered. The shortest
    // way into it is the damage right after, then the guard.
    ProofScope scope;
    scope.overlooked = overlooking({Demand::Geared});

    const Proof proof = proveSmall(kSmallSwap, scope);

    ASSERT_TRUE(proof.failure);
    EXPECT_EQ(proof.failure->flaw, Flaw::Exposed);
    EXPECT_EQ(proof.failure->gate, Gate::Geared);
    EXPECT_EQ(proof.failure->step, StepId(u"expose-lamp"_s));
    QList<PathPart> expected = plannedUpTo(kSmallSwap, Effect::ExposeLamp);
    expected.append({StepId(u"expose-lamp"_s), Outcome::Plain, Happening::GearDamaged});
    expected.append({StepId(u"expose-lamp"_s), Outcome::Plain, std::nullopt});
    EXPECT_EQ(proof.failure->path, expected);
}

TEST(SmallProofTest, StruckBeforeBookInIsSeenWithoutTheDemandToo)
{
    ProofScope scope;
    scope.overlooked = overlooking({Demand::LampKnown});

    const Proof proof = proveSmall(smallWithout({Effect::BookIn}), scope);

    ASSERT_TRUE(proof.failure);
    EXPECT_EQ(proof.failure->flaw, Flaw::StruckUnbooked);
    EXPECT_EQ(proof.failure->step, StepId(u"strike"_s));
}

Procedure smallSwap(const Effects& effects = kSmallSwap)
{
    Procedure procedure;
    for (const Effect effect : effects)
        procedure.steps.append(smallStep(effect));
    return procedure;
}

TEST(SmallProofTest, EachGateIsAskedOfTheStateAndNotOfTheDemand)
{
    struct Without {
        Effects effects;
        std::vector<Demand> demands;
        Gate gate;
    };
    for (const Without& one :
         {Without{kSmallSwap, {Demand::Cold, Demand::ProjectorCold, Demand::FedCold}, Gate::Cold},
          Without{smallWithout({Effect::TryStart}), {Demand::StartTried}, Gate::Dead},
          Without{smallWithout({Effect::ProveAbsence}), {Demand::Absent}, Gate::Dead},
          Without{smallWithout({Effect::GearOn}), {Demand::GearSigned, Demand::Geared}, Gate::Geared}}) {
        ProofScope scope;
        scope.overlooked = overlooking(one.demands);

        const auto failure =
            walk(proofCases(smallSwap(one.effects), smallModel(), {}).front(), scope).failure;

        ASSERT_TRUE(failure);
        EXPECT_EQ(failure->flaw, Flaw::Exposed);
        EXPECT_EQ(failure->gate, one.gate);
        EXPECT_EQ(failure->step, StepId(u"expose-lamp"_s));
    }
}

TEST(SmallProofTest, SafetyMustBeReachedFromEveryState)
{
    // Nobody authorised is there: a trainee's own lock cannot be taken off as the last one, so from the
    // moment it hangs there is no way to an end that can be signed.
    ProofCase walked = proofCases(smallSwap(), smallModel(), {}).front();
    for (machine::Plant::Person& person : walked.plant.person)
        person.authorised = false;

    const auto failure = walk(walked, {}).failure;

    ASSERT_TRUE(failure);
    EXPECT_EQ(failure->flaw, Flaw::NoWayToSafety);
    EXPECT_EQ(failure->step, StepId(u"lock-on"_s));
}

TEST(AdaptorProofTest, AnAdaptorThatGoesAwayWithTheOldLampIsMissed)
{
    // Taken off only where the new lamp needs it: then the one on the old lamp leaves with that lamp.
    const ModelId teal(u"larkmoor-teal"_s);
    Procedure procedure = *shipped().procedureFor(teal);
    for (Step& step : procedure.steps) {
        if (step.effect == Effect::AdaptorOff)
            step.when.newLamp.adaptor = true;
    }

    const Proof proof = proveShipped(procedure);

    ASSERT_TRUE(proof.failure);
    EXPECT_EQ(proof.failure->flaw, Flaw::AdaptorLeft);
    EXPECT_EQ(proof.failure->step, StepId(u"sign"_s));
}

TEST(SmallProofTest, AnUnsafeStateIsSeenWithoutTheDemandThatForbidsIt)
{
    ProofScope looseLamp;
    looseLamp.overlooked = overlooking({Demand::NoLooseLamp});
    ProofScope openUnlocked;
    openUnlocked.overlooked =
        overlooking({Demand::AllShut, Demand::ZonesEmpty, Demand::CountsAnswered, Demand::Outside});

    const Proof hidden = proveSmall(smallWithout({Effect::ClampLamp}), looseLamp);
    const Proof unlocked = proveSmall(moved(kSmallSwap, Effect::LockOff, Effect::ShutGuard), openUnlocked);

    ASSERT_TRUE(hidden.failure);
    EXPECT_EQ(hidden.failure->flaw, Flaw::Unsafe);
    EXPECT_EQ(hidden.failure->step, StepId(u"shut-guard"_s));
    ASSERT_TRUE(unlocked.failure);
    EXPECT_EQ(unlocked.failure->flaw, Flaw::Unsafe);
    EXPECT_EQ(unlocked.failure->step, StepId(u"lock-off"_s));
}

TEST(SmallProofTest, AGateThatWaitsAgainIsTriedFromWhereItDoes)
{
    // Geared is proved once, then damaged: without gear-on after that nothing may be bared. Overlooking
    // Geared opens that hole only, so the way into it starts with what happened.
    ProofScope scope;
    scope.overlooked = overlooking({Demand::Geared});

    const auto failure = bypass(proofCases(smallSwap(), smallModel(), {}).front(), scope);

    ASSERT_TRUE(failure);
    EXPECT_EQ(failure->gate, Gate::Geared);
    ASSERT_FALSE(failure->path.isEmpty());
    EXPECT_EQ(failure->path.last().happening, Happening::GearDamaged);
}

TEST(SmallProofTest, AModelThatAVisitCannotHoldIsRefused)
{
    ProjectorModel model = smallModel();
    model.isolation.first().lamphouses = QStringList{u"cellar"_s};

    const Proof proof = prove({}, model, {});

    ASSERT_TRUE(proof.failure);
    EXPECT_EQ(proof.failure->flaw, Flaw::Plant);
}

TEST(SmallProofTest, ALineForTheLogNamesFlawStepAndPath)
{
    ProofFailure failure;
    failure.flaw = Flaw::Order;
    failure.step = StepId(u"relieve"_s);
    failure.demand = Demand::Cold;
    failure.path = {{StepId(u"find"_s), Outcome::Plain, std::nullopt}};

    const QString line = describe(failure);

    EXPECT_TRUE(line.startsWith(u"impossible order at relieve, demand "_s)) << line.toStdString();
    EXPECT_TRUE(line.endsWith(u"find"_s)) << line.toStdString();
}

} // namespace
} // namespace coldarc::procedure
