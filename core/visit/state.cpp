#include "core/visit/state.h"

#include "core/base/typed_hours.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::visit {

const procedure::Step* SwapState::step(const StepId& wanted) const
{
    const auto found = std::find_if(steps.begin(), steps.end(),
                                    [&](const procedure::Step& step) { return step.id == wanted; });
    return found == steps.end() ? nullptr : &*found;
}

machine::Index VisitState::person(const PersonId& id) const
{
    for (qsizetype index = 0; index < people.size(); ++index) {
        if (people[index].id == id)
            return static_cast<machine::Index>(index);
    }
    return machine::kNone;
}

const SwapState* VisitState::swap(const SwapId& id) const
{
    const auto found =
        std::find_if(swaps.begin(), swaps.end(), [&](const SwapState& swap) { return swap.id == id; });
    return found == swaps.end() ? nullptr : &*found;
}

bool VisitState::hasOpenIncident() const
{
    return std::any_of(incidents.begin(), incidents.end(),
                       [](const IncidentState& incident) { return !incident.isAnswered; });
}

machine::Index mayCountersign(const VisitState& state, const PersonId& by)
{
    const machine::Index person = state.person(by);
    if (person == machine::kNone || state.people[person].mayLead)
        return machine::kNone;
    const auto may = [&](machine::Index other) { return state.people[other].mayLead && state.isHere(other); };
    if (may(state.lead))
        return state.lead;
    for (machine::Index other = 0; other < state.people.size(); ++other) {
        if (may(other))
            return other;
    }
    return machine::kNone;
}

QList<StepId> owedSteps(const VisitState& state, const SwapId& id)
{
    for (const SwapPlan& plan : state.ground->opening.swaps) {
        if (plan.id == id)
            return plan.owedSteps();
    }
    return {};
}

label::Agreement agreementOf(const VisitState& state, machine::Index lamp)
{
    return agreementOf(state, lamp, state.papers.value(state.ground->lamps[lamp].id).readings);
}

label::Agreement agreementOf(const VisitState& state, machine::Index lamp,
                             const QList<label::Reading>& readings, const QList<label::SerialPass>& further)
{
    const LampFacts& facts = state.ground->lamps[lamp];
    return label::agreement(readings, state.papers.value(facts.id).passes + further,
                            state.ground->catalogue.lampTypes(),
                            state.ground->model(state.plant.lamp[lamp].lamphouse).lampTypes, facts.type);
}

machine::Index placeOf(const VisitState& state, const SwapState& swap, const procedure::Step& step)
{
    return step.otherLamphouse ? contextOf(state, swap, machine::kNone).otherLamphouse : swap.lamphouse;
}

bool readsCounter(const SwapState& swap, const procedure::Step& step)
{
    const procedure::Capture* capture = step.capture(u"hours"_s);
    const bool isKeyedIn =
        step.effect == machine::Effect::KeyController && !swap.followsUp && !step.otherLamphouse;
    return capture && capture->kind == procedure::CaptureKind::Counter && !isKeyedIn;
}

std::optional<double> counterIn(const procedure::Step& step, const StepRecord& record)
{
    const procedure::Capture* capture = step.capture(u"hours"_s);
    if (!capture || capture->kind != procedure::CaptureKind::Counter ||
        record.status != StepRecord::Status::Done)
        return std::nullopt;
    return keptHours(record.answers.value(u"hours"_s).toString());
}

std::optional<double> counterRead(const VisitState& state, machine::Index lamphouse)
{
    qint64 last = -1;
    std::optional<double> hours;
    for (const SwapState& swap : state.swaps) {
        for (const procedure::Step& step : swap.steps) {
            if (!readsCounter(swap, step) || placeOf(state, swap, step) != lamphouse)
                continue;
            const StepRecord record = swap.record(step.id);
            const auto read = counterIn(step, record);
            if (read && record.entry > last) {
                last = record.entry;
                hours = read;
            }
        }
    }
    return hours;
}

std::optional<BurntHours> burntHours(const LampFacts& lamp, std::optional<double> counter, WallTime now)
{
    using Hours = std::chrono::duration<double, std::ratio<3600>>;
    if (!lamp.hours)
        return std::nullopt;
    if (counter && lamp.counter) {
        const double since = *counter - *lamp.counter;
        return since < 0 ? BurntHours{*lamp.hours, {}} : BurntHours{*lamp.hours + since, *lamp.hours + since};
    }
    if (!lamp.hoursAt || now < *lamp.hoursAt)
        return BurntHours{*lamp.hours, {}};
    return BurntHours{*lamp.hours, *lamp.hours + Hours(now - *lamp.hoursAt).count()};
}

machine::Life lifeOf(const Ground& ground, const LampFacts& lamp, const std::optional<BurntHours>& burnt,
                     bool isLit)
{
    const catalogue::LampType* type = lamp.type ? ground.catalogue.lampType(*lamp.type) : nullptr;
    const bool isPast = type && burnt && burnt->least >= type->replaceByHours;
    const bool isBelow = type && burnt && burnt->most && *burnt->most < type->replaceByHours;
    return isBelow || (isLit && !isPast) ? machine::Life::Below : machine::Life::PastEnd;
}

bool canCounterTell(const VisitState& state, machine::Index lamphouse)
{
    const machine::Index lamp = state.machine.lamphouse[lamphouse].lamp;
    if (lamp == machine::kNone || state.machine.lamp[lamp].life != machine::Life::PastEnd ||
        counterRead(state, lamphouse))
        return false;
    const LampFacts& facts = state.ground->lamps[lamp];
    return facts.counter &&
           lifeOf(*state.ground, facts, burntHours(facts, facts.counter, {}), false) == machine::Life::Below;
}

procedure::StepContext contextOf(const VisitState& state, const SwapState& swap, machine::Index person)
{
    const Ground& ground = *state.ground;
    const catalogue::ProjectorModel& model = ground.model(swap.lamphouse);
    procedure::StepContext context;
    context.person = person;
    context.lamphouse = swap.lamphouse;
    context.oldLamp = swap.oldLamp;
    context.newLamp = swap.newLamp;
    for (machine::Index other = 0; other < state.plant.lamphouses; ++other) {
        if (other != swap.lamphouse &&
            state.plant.lamphouse[other].projector == state.plant.lamphouse[swap.lamphouse].projector) {
            context.otherLamphouse = other;
            const machine::Index there = state.machine.lamphouse[other].lamp;
            context.otherLamp =
                there != machine::kNone ? there : other; // the fitted ones come first, by lamphouse
        }
    }
    for (const catalogue::IsolationRole& role : model.isolation) {
        machine::Index point = ground.pointOfRole(swap.lamphouse, role.id);
        if (point == machine::kNone && context.otherLamphouse != machine::kNone)
            point = ground.pointOfRole(context.otherLamphouse, role.id);
        context.points.insert(role.id, point);
    }
    for (const catalogue::TestPoint& point : model.testPoints) {
        if (point.cover == catalogue::Cover::Guard)
            context.testPointsBehindGuard.insert(point.id);
    }
    const LampFacts& old = ground.lamps[swap.oldLamp];
    context.oldAdaptorOn =
        old.type && model.needsAdaptor(*old.type) && !state.machine.lamphouse[swap.lamphouse].adaptorLost;
    return context;
}

namespace {

machine::Mask maskOf(const Ground& ground, const QList<PointId>& points)
{
    machine::Mask mask = 0;
    for (const PointId& id : points) {
        if (const machine::Index point = ground.point(id); point != machine::kNone)
            mask = static_cast<machine::Mask>(mask | machine::maskOf(point));
    }
    return mask;
}

} // namespace

machine::Act toAct(const VisitState& state, const ActRecord& record)
{
    const Ground& ground = *state.ground;
    machine::Act act;
    act.effect = record.effect;
    act.outcome = record.outcome;
    act.person = state.person(record.person);
    act.lamphouse = ground.lamphouse(record.lamphouse);
    act.point = ground.point(record.point);
    act.lamp = ground.lamp(record.lamp);
    act.moved = ground.point(record.moved);
    act.supplySeen = record.supplySeen;
    act.testerProved = record.testerProved;
    act.behindGuard = record.behindGuard;
    act.custodyDecided = record.custodyDecided;
    act.answered = record.answered;
    if (record.seen) {
        act.seen = *record.seen;
        act.seen.lamp = act.lamp;
        act.seen.pointsOff = maskOf(ground, record.pointsOff);
        act.seen.held = maskOf(ground, record.held);
    }
    return act;
}

ActRecord toRecord(const VisitState& state, const machine::Act& act)
{
    const Ground& ground = *state.ground;
    ActRecord record;
    record.effect = act.effect;
    record.outcome = act.outcome;
    if (act.person != machine::kNone)
        record.person = state.people[act.person].id;
    if (act.lamphouse != machine::kNone)
        record.lamphouse = ground.lamphouses[act.lamphouse];
    if (act.point != machine::kNone)
        record.point = ground.points[act.point];
    if (act.lamp != machine::kNone)
        record.lamp = ground.lamps[act.lamp].id;
    if (act.moved != machine::kNone)
        record.moved = ground.points[act.moved];
    record.supplySeen = act.supplySeen;
    record.testerProved = act.testerProved;
    record.behindGuard = act.behindGuard;
    record.custodyDecided = act.custodyDecided;
    record.answered = act.answered;
    if (act.effect == machine::Effect::Find) {
        machine::Seen seen = act.seen;
        if (seen.lamp != machine::kNone)
            record.lamp = ground.lamps[seen.lamp].id;
        for (machine::Index point = 0; point < state.plant.points; ++point) {
            if (machine::has(seen.pointsOff, point))
                record.pointsOff.append(ground.points[point]);
            if (machine::has(seen.held, point))
                record.held.append(ground.points[point]);
        }
        seen.lamp = machine::kNone;
        seen.pointsOff = 0;
        seen.held = 0;
        record.seen = seen;
    }
    return record;
}

} // namespace coldarc::visit
