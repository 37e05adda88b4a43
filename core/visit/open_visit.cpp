#include "core/visit/open_visit.h"

#include "core/procedure/follow_up.h"
#include "core/procedure/proof.h"

#include <algorithm>
#include <array>

using namespace Qt::StringLiterals;

namespace coldarc::visit {
namespace {

using Kind = OpenProblem::Kind;
using Verdict = people::Authority::Verdict;

/// The model of a lamphouse, or an empty id where the site does not say.
ModelId modelAt(const site::SiteDocument& site, const LamphouseId& id)
{
    const site::Lamphouse* lamphouse = site.lamphouse(id);
    const site::Projector* projector = lamphouse ? site.projector(lamphouse->projector) : nullptr;
    return projector ? projector->model : ModelId();
}

/// Each model of the swaps once, in their order.
template<class Swap>
QList<ModelId> modelsOf(const QList<Swap>& swaps, const site::SiteDocument& site)
{
    QList<ModelId> models;
    for (const Swap& swap : swaps) {
        const ModelId model = modelAt(site, swap.lamphouse);
        if (!model.isEmpty() && !models.contains(model))
            models.append(model);
    }
    return models;
}

Verdict worstOf(const Attendant& one, people::Duty duty, const QList<ModelId>& models, people::Day today,
                ModelId* at = nullptr)
{
    Verdict worst = Verdict::Valid;
    for (const ModelId& model : models) {
        const Verdict verdict =
            people::authorityOf(one.person, one.authorisations, duty, model, today).verdict;
        if (verdict <= worst)
            continue;
        worst = verdict;
        if (at)
            *at = model;
    }
    return worst;
}

/// Kinds of which somebody has items, none of them fit today.
QStringList unfitGear(const std::vector<people::GearItem>& gear, people::Day today)
{
    QStringList unfit;
    QStringList fit;
    for (const people::GearItem& item : gear) {
        const bool isFit = people::gearVerdict(item, today, people::GearCondition::NoDamageSeen).isFit();
        QStringList& kinds = isFit ? fit : unfit;
        if (!kinds.contains(item.kind))
            kinds.append(item.kind);
    }
    unfit.removeIf([&](const QString& kind) { return fit.contains(kind); });
    return unfit;
}

PersonFacts factsOf(const Attendant& one, const site::SiteDocument& site, const QList<ModelId>& models,
                    people::Day today)
{
    const auto worst = [&](people::Duty duty) { return worstOf(one, duty, models, today); };
    PersonFacts facts;
    facts.id = one.person.id;
    facts.name = one.person.name;
    facts.role = one.person.role;
    facts.hasRemovalToTell = one.hasRemovalToTell;
    facts.unfitGear = unfitGear(one.gear, today);
    facts.mayLead = worst(people::Duty::LampSwap) == Verdict::Valid;
    facts.mayAssist = worst(people::Duty::LampSwap) == Verdict::UnderSupervision;
    facts.maySupervise = worst(people::Duty::Supervise) == Verdict::Valid;
    switch (site.site.profile.mayProveAbsence) {
    case site::AbsenceProver::Engineer:
        facts.mayProve = facts.mayLead;
        break;
    case site::AbsenceProver::Qualified:
        facts.mayProve = worst(people::Duty::ProveAbsence) == Verdict::Valid;
        break;
    case site::AbsenceProver::Electrician:
        facts.mayProve = one.person.role == people::Role::Electrician &&
                         worst(people::Duty::ProveAbsence) == Verdict::Valid;
        break;
    }
    return facts;
}

void checkPeople(const WantedVisit& wanted, QList<OpenProblem>& problems)
{
    if (wanted.people.isEmpty()) {
        problems.append({Kind::NobodyLeads});
        return;
    }
    ModelId model;
    const Verdict verdict = worstOf(wanted.people.first(), people::Duty::LampSwap,
                                    modelsOf(wanted.swaps, wanted.site), wanted.today, &model);
    if (verdict != Verdict::Valid) {
        problems.append(
            {Kind::LeadNotAuthorised, wanted.people.first().person.id.text(), model.text(), verdict});
    }
}

void checkLamp(const WantedSwap& swap, const catalogue::ProjectorModel* model, const Shelf& shelf,
               QList<OpenProblem>& problems)
{
    if (!swap.newLamp.type) {
        problems.append({Kind::LampTypeNotChosen, swap.lamphouse.text()});
    } else if (!shelf.catalogue.lampType(*swap.newLamp.type)) {
        problems.append({Kind::UnknownLampType, swap.newLamp.type->text()});
    } else if (model && !model->takes(*swap.newLamp.type)) {
        problems.append({Kind::LampTypeNotTaken, model->id.text(), swap.newLamp.type->text()});
    } else if (swap.newLamp.hours.value_or(0) >=
               shelf.catalogue.lampType(*swap.newLamp.type)->replaceByHours) {
        problems.append(
            {Kind::LampPastItsHours, swap.lamphouse.text(), QString::number(*swap.newLamp.hours)});
    }
}

/// What is owed is there to be done, by a way that is proved.
void checkOwed(const WantedSwap& swap, const WantedVisit& wanted, const catalogue::ProjectorModel& model,
               const procedure::Procedure& procedure, const Shelf& shelf, QList<OpenProblem>& problems)
{
    const qsizetype before = problems.size();
    const auto fitted = std::ranges::find(wanted.fitted, swap.lamphouse, &FittedLamp::lamphouse);
    const auto isOwedToIt = [&](const OwedPlan& one) { return one.lamp == fitted->lamp.id; };
    if (fitted == wanted.fitted.end() || !fitted->lamp.type || !std::ranges::all_of(swap.owed, isOwedToIt))
        problems.append({Kind::OwedLampUnknown, swap.lamphouse.text()});
    QList<StepId> owed;
    for (const OwedPlan& one : swap.owed) {
        const procedure::Step* step = procedure.step(one.step);
        if (!step || !step->mayFollow)
            problems.append({Kind::OwedStepGone, swap.lamphouse.text(), one.step.text()});
        owed.append(one.step);
    }
    if (problems.size() > before)
        return;
    const procedure::Proof proof = procedure::proveFollowUp(procedure, model, shelf.catalogue, owed);
    if (proof.failure)
        problems.append({Kind::OwedNotProved, swap.lamphouse.text(), procedure::describe(*proof.failure)});
}

void checkInHand(const WantedSwap& swap, const lamps::InHand& inHand, QList<OpenProblem>& problems)
{
    if (inHand.has(swap.lamphouse)) {
        OpenProblem problem{Kind::LamphouseInHand, swap.lamphouse.text()};
        problem.since = inHand.lamphouses.value(swap.lamphouse);
        problems.append(problem);
    }
    if (!swap.owed.isEmpty())
        return;
    using lamps::Custody;
    const auto canCome = [](Custody from) {
        return lamps::canMove(from, Custody::Fitted) || lamps::canMove(from, Custody::InVan);
    };
    if (inHand.has(swap.newLamp.id))
        problems.append({Kind::LampInHand, swap.lamphouse.text()});
    else if (swap.custody == Custody::Fitted)
        problems.append({Kind::LampInASeat, swap.lamphouse.text()});
    else if (swap.custody && !canCome(*swap.custody))
        problems.append({Kind::LampGone, swap.lamphouse.text()});
}

void checkSwaps(const WantedVisit& wanted, const Shelf& shelf, const lamps::InHand& inHand,
                QList<OpenProblem>& problems)
{
    if (wanted.swaps.isEmpty())
        problems.append({Kind::NothingToSwap});
    QSet<LamphouseId> seen;
    QSet<LampId> lamps;
    for (const WantedSwap& swap : wanted.swaps) {
        if (!wanted.site.lamphouse(swap.lamphouse)) {
            problems.append({Kind::UnknownLamphouse, swap.lamphouse.text()});
            continue;
        }
        if (seen.contains(swap.lamphouse))
            problems.append({Kind::SwappedTwice, swap.lamphouse.text()});
        seen.insert(swap.lamphouse);
        checkInHand(swap, inHand, problems);
        const bool followsUp = !swap.owed.isEmpty();
        if (!followsUp && lamps.contains(swap.newLamp.id))
            problems.append({Kind::LampTwice, swap.newLamp.id.text()});
        if (!followsUp)
            lamps.insert(swap.newLamp.id);
        const ModelId id = modelAt(wanted.site, swap.lamphouse);
        const catalogue::ProjectorModel* model = shelf.catalogue.model(id);
        if (!model)
            problems.append({Kind::UnknownModel, id.text()});
        const procedure::Procedure* procedure = shelf.procedures.procedureFor(id);
        if (model && !procedure)
            problems.append({Kind::NoProcedure, id.text()});
        if (!followsUp)
            checkLamp(swap, model, shelf, problems);
        else if (model && procedure)
            checkOwed(swap, wanted, *model, *procedure, shelf, problems);
    }
}

bool hangTogether(const site::SiteDocument& site, const LamphouseId& one, const LamphouseId& other)
{
    return std::ranges::any_of(site::isolationGroups(site), [&](const site::IsolationGroup& group) {
        return std::ranges::find(group.lamphouses, one) != group.lamphouses.end() &&
               std::ranges::find(group.lamphouses, other) != group.lamphouses.end();
    });
}

/// A second breaker for one supply holds up only what hangs together with it.
void checkSite(const WantedVisit& wanted, const Shelf& shelf, QList<OpenProblem>& problems)
{
    auto found = site::problemsOf(wanted.site);
    const auto unfit = site::problemsOf(wanted.site, shelf.catalogue);
    found.insert(found.end(), unfit.begin(), unfit.end());
    const auto isOfThisVisit = [&](const site::Problem& problem) {
        return problem.kind != site::Problem::Kind::DoubledRole ||
               std::ranges::any_of(wanted.swaps, [&](const WantedSwap& swap) {
                   return hangTogether(wanted.site, swap.lamphouse, LamphouseId(problem.about));
               });
    };
    std::erase_if(found, [&](const site::Problem& problem) { return !isOfThisVisit(problem); });
    for (const site::Problem& problem : found)
        problems.append({Kind::SiteDoesNotFit, problem.about, problem.other, Verdict::None, problem});
}

void addText(QList<Text>& texts, Text::Kind kind, const QByteArray& bytes)
{
    const Text text{kind, bytes};
    if (!bytes.isEmpty() && !texts.contains(text))
        texts.append(text);
}

/// The texts of these models and of the swaps. Of a model every lamp type that it takes, since what is found
/// in a seat may be any of them.
QList<Text> textsFor(const QList<ModelId>& models, const Opening& opening, const Shelf& shelf)
{
    QList<Text> texts;
    for (const ModelId& id : models) {
        const catalogue::ProjectorModel* model = shelf.catalogue.model(id);
        if (!model)
            continue;
        addText(texts, Text::Kind::Model, shelf.catalogue.document(id).text);
        for (const LampTypeId& type : model->lampTypes)
            addText(texts, Text::Kind::LampType, shelf.catalogue.document(type).text);
    }
    for (const LampFacts& lamp : opening.fitted) {
        if (lamp.type)
            addText(texts, Text::Kind::LampType, shelf.catalogue.document(*lamp.type).text);
    }
    for (const SwapPlan& swap : opening.swaps)
        addText(texts, Text::Kind::Procedure, shelf.procedures.documents.value(swap.procedure).text);
    addText(texts, Text::Kind::Gear, shelf.catalogue.gearDocument().text);
    return texts;
}

QList<ModelId> modelsAt(const site::SiteDocument& site)
{
    QList<ModelId> models;
    for (const site::Projector& projector : site.projectors) {
        if (!models.contains(projector.model))
            models.append(projector.model);
    }
    return models;
}

/// The longest week of the swapped screens: a threshold worked out from it errs to the early side.
double weeklyHoursOf(const WantedVisit& wanted)
{
    double most = 0;
    for (const WantedSwap& swap : wanted.swaps) {
        const site::Projector* projector =
            wanted.site.projector(wanted.site.lamphouse(swap.lamphouse)->projector);
        const site::Screen* screen = projector ? wanted.site.screen(projector->screen) : nullptr;
        if (screen && screen->weeklyHours)
            most = std::max(most, *screen->weeklyHours);
    }
    return most;
}

Opening draftOf(const WantedVisit& wanted, const Shelf& shelf)
{
    Opening opening;
    opening.visit = wanted.visit;
    opening.reason = wanted.reason;
    opening.site = wanted.site;
    for (const Attendant& one : wanted.people)
        opening.people.append(factsOf(one, wanted.site, modelsOf(wanted.swaps, wanted.site), wanted.today));
    for (const WantedSwap& swap : wanted.swaps) {
        const auto* procedure = shelf.procedures.procedureFor(modelAt(wanted.site, swap.lamphouse));
        const LampFacts newLamp = swap.owed.isEmpty() ? swap.newLamp : LampFacts();
        opening.swaps.append({swap.id, swap.lamphouse, procedure->id, newLamp, swap.owed});
    }
    for (const FittedLamp& fitted : wanted.fitted) {
        opening.fitted.append(fitted.lamp);
        opening.fittedIn.append(fitted.lamphouse);
    }
    opening.weeklyHours = weeklyHoursOf(wanted);
    opening.texts = textsFor(modelsAt(wanted.site), opening, shelf);
    return opening;
}

/// Leaves out what belongs to lamphouses that the swaps do not touch.
void trim(Opening& opening, const Ground& ground, const Shelf& shelf)
{
    for (qsizetype index = opening.fitted.size() - 1; index >= 0; --index) {
        if (ground.lamphouses.contains(opening.fittedIn[index]))
            continue;
        opening.fitted.removeAt(index);
        opening.fittedIn.removeAt(index);
    }
    opening.texts = textsFor(ground.models, opening, shelf);
}

} // namespace

void addInHand(lamps::InHand& inHand, const VisitState& state, WallTime openedAt)
{
    if (!state.isOpen())
        return;
    for (const SwapState& swap : state.swaps) {
        inHand.lamphouses.insert(state.ground->lamphouses[swap.lamphouse], openedAt);
        inHand.lamps.insert(state.ground->lamps[swap.newLamp].id);
    }
}

tl::expected<Opening, QList<OpenProblem>> openingFor(const WantedVisit& wanted, const Shelf& shelf,
                                                     const lamps::InHand& inHand)
{
    QList<OpenProblem> problems;
    checkSwaps(wanted, shelf, inHand, problems);
    checkPeople(wanted, problems);
    checkSite(wanted, shelf, problems);
    if (!problems.isEmpty())
        return tl::unexpected(problems);

    Opening opening = draftOf(wanted, shelf);
    const auto ground = groundOf(opening);
    if (!ground) // what can be named was asked for above; what is left is a visit that is too large
        return tl::unexpected(QList<OpenProblem>{{Kind::MoreThanAVisit, ground.error().detail}});
    trim(opening, **ground, shelf);
    return opening;
}

PersonFacts factsFor(const Attendant& who, const Opening& opening, people::Day today)
{
    return factsOf(who, opening.site, modelsOf(opening.swaps, opening.site), today);
}

NeededTime timeNeeded(const QList<procedure::Step>& steps, const catalogue::ProjectorModel& model)
{
    struct Started {
        machine::Effect by;
        std::chrono::seconds wait;
    };
    const std::array<Started, 3> waits{{{machine::Effect::LampOff, model.coolFan},
                                        {machine::Effect::Relieve, model.bleed},
                                        {machine::Effect::Strike, model.settle}}};
    NeededTime needed;
    for (const procedure::Step& step : steps)
        needed.hands += std::chrono::minutes(step.minutes);
    for (const Started& one : waits) {
        const bool isStarted = std::any_of(
            steps.begin(), steps.end(), [&](const procedure::Step& step) { return step.effect == one.by; });
        if (isStarted)
            needed.waits += std::chrono::ceil<std::chrono::minutes>(one.wait);
    }
    return needed;
}

NeededTime timeNeeded(const procedure::Procedure& procedure, const catalogue::ProjectorModel& model,
                      const procedure::Facts& facts)
{
    return timeNeeded(procedure::stepsFor(procedure, facts), model);
}

NeededTime timeNeeded(const procedure::Procedure& procedure, const catalogue::ProjectorModel& model,
                      const procedure::LampFacts& lamp, const QList<StepId>& owed)
{
    return timeNeeded(procedure::followUpSteps(procedure, lamp, owed), model);
}

std::optional<NeededTime> sumOf(const std::optional<NeededTime>& one, const std::optional<NeededTime>& other)
{
    return one && other ? std::optional(*one + *other) : std::nullopt;
}

LampFacts fittedFacts(const lamps::Lamp& lamp, const std::optional<lamps::Fit>& stay,
                      const std::optional<lamps::CounterReading>& reading)
{
    LampFacts facts{lamp.id, lamp.type, lamp.serial, {}};
    if (!lamp.hours || !stay || !stay->counterIn || !reading || reading->at < stay->from)
        return facts;
    const auto run = lamps::hoursRun({*stay->counterIn, reading->hours, {}, {}});
    if (const auto* burnt = std::get_if<lamps::LampHours>(&run)) {
        facts.hours = (*lamp.hours + *burnt).hours();
        facts.counter = reading->hours.hours();
        facts.hoursAt = reading->at;
    }
    return facts;
}

std::optional<double> warrantyHoursLeft(const LampFacts& lamp, const catalogue::Catalogue& catalogue)
{
    const catalogue::LampType* type = lamp.type ? catalogue.lampType(*lamp.type) : nullptr;
    if (!type || !lamp.hours)
        return std::nullopt;
    return type->warrantyHours - *lamp.hours;
}

} // namespace coldarc::visit
