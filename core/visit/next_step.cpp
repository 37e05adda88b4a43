#include "core/visit/next_step.h"

#include "core/machine/goal.h"
#include "core/machine/reach.h"
#include "core/procedure/follow_up.h"

#include <algorithm>
#include <array>

namespace coldarc::visit {
namespace {

using machine::Demand;
using machine::Effect;
using machine::Index;
using machine::kNone;

bool isUnmet(machine::Unmet unmet, Demand demand)
{
    return unmet.test(static_cast<std::size_t>(demand));
}

bool bringsAny(Effect effect, machine::Unmet unmet)
{
    for (int demand = 0; demand < machine::kDemands; ++demand) {
        if (unmet.test(static_cast<std::size_t>(demand)) &&
            machine::bringsAbout(effect, static_cast<Demand>(demand)))
            return true;
    }
    return false;
}

/// A box that is open is not matched and not opened again; its labels can still be read again. One that the
/// lamp went back into is opened anew.
bool isOfOpenBox(const VisitState& state, const SwapState& swap, const procedure::Step& step)
{
    const machine::Place place = state.machine.lamp[swap.newLamp].place;
    return (step.effect == Effect::MatchBox && place != machine::Place::SealedBox) ||
           (step.effect == Effect::Unbox && place != machine::Place::SealedBox &&
            place != machine::Place::Boxed);
}

/// Whoever did the last of the steps before a stop, and goes on behind it: whom its answers are about.
/// Somebody who only proves absence does not go on.
Index answeredFor(const VisitState& state, const SwapState& swap, const procedure::Step& stop)
{
    const auto goesOn = [&](const PersonId& id) {
        const Index person = state.person(id);
        return person == kNone || state.people[person].worksOnLamps();
    };
    StepRecord last;
    for (const procedure::Step& step : swap.steps) {
        const StepRecord record = swap.record(step.id);
        if (step.effect != Effect::Look && record.entry > last.entry && goesOn(record.by))
            last = record;
        if (step.id == stop.id)
            break;
    }
    const Index person = state.person(last.by);
    const bool isAway = person == kNone || machine::has(state.passedOn, person) || !state.isHere(person);
    return isAway ? state.lead : person;
}

/// What was left open is counted by whoever stands in front of it, not before somebody has gone in.
bool isCountedInside(const VisitState& state, const SwapState& swap, const procedure::Step& step)
{
    return step.effect == Effect::Count && state.machine.lamphouse[swap.lamphouse].leftExposed &&
           machine::isZoneEmpty(state.plant, state.machine, swap.lamphouse);
}

/// The earliest step before `before` that was done, brings about a demand of `unmet`, and whose goal is lost.
qsizetype lostBefore(const VisitState& state, const SwapState& swap, qsizetype before, machine::Unmet unmet,
                     Index person)
{
    for (qsizetype index = 0; index < before; ++index) {
        const procedure::Step& step = swap.steps[index];
        if (bringsAny(step.effect, unmet) && !isOfOpenBox(state, swap, step) &&
            !isCountedInside(state, swap, step) &&
            !machine::isSo(state.plant, state.machine, hopefulAct(state, swap, step, person)))
            return index;
    }
    return -1;
}

/// The keys of the locks on the breakers go into the box that a personal lock shuts: the earliest of those
/// that came off since. -1: none.
qsizetype jobLockBefore(const VisitState& state, const SwapState& swap, qsizetype at, Index person)
{
    if (swap.steps[at].effect != Effect::LockOn || swap.steps[at].point)
        return -1;
    for (qsizetype index = 0; index < at; ++index) {
        const procedure::Step& step = swap.steps[index];
        if (step.effect == Effect::LockOn && step.point &&
            !machine::isSo(state.plant, state.machine, hopefulAct(state, swap, step, person)))
            return index;
    }
    return -1;
}

/// The step, wherever it stands in the order, that takes a loose lamp out of the way.
qsizetype settlesLamp(const VisitState& state, const SwapState& swap, Index person)
{
    const Index inHand = machine::lampInHand(state.plant, state.machine, swap.lamphouse);
    for (qsizetype index = 0; index < swap.steps.size(); ++index) {
        const Effect effect = swap.steps[index].effect;
        const machine::Act act = hopefulAct(state, swap, swap.steps[index], person);
        const bool isIt = inHand == kNone
                              ? effect == Effect::ClampLamp
                              : act.lamp == inHand && (effect == Effect::BoxLamp || effect == Effect::LampIn);
        if (isIt && machine::unmet(state.plant, state.machine, act).none())
            return index;
    }
    return -1;
}

/// The step back: the first of the steps that shut, lead out, or put gear on where it is open, wherever it
/// stands in the order, that brings about what nothing before can. -1: none.
qsizetype stepBack(const VisitState& state, const SwapState& swap, machine::Unmet unmet, Index person)
{
    for (qsizetype index = 0; index < swap.steps.size(); ++index) {
        const procedure::Step& step = swap.steps[index];
        const bool shuts = step.effect == Effect::ShutGuard || step.effect == Effect::ShutHousing ||
                           step.effect == Effect::LeaveZone || step.effect == Effect::GearOn;
        const machine::Act act = hopefulAct(state, swap, step, person);
        if (!shuts || !bringsAny(step.effect, unmet) || machine::isSo(state.plant, state.machine, act))
            continue;
        const machine::Unmet waits = machine::unmet(state.plant, state.machine, act);
        if (waits.none())
            return index;
        const qsizetype lamp = isUnmet(waits, Demand::NoLooseLamp) ? settlesLamp(state, swap, person) : -1;
        if (lamp >= 0)
            return lamp;
    }
    return -1;
}

/// What has to hold at a step: a stop stands for what comes behind it.
machine::Unmet waitsAt(const VisitState& state, const SwapState& swap, qsizetype at, Index person)
{
    const auto unmetOf = [&](qsizetype index) {
        return machine::unmet(state.plant, state.machine, hopefulAct(state, swap, swap.steps[index], person));
    };
    const auto stop = swap.steps[at].stop;
    for (qsizetype index = at; stop && index < swap.steps.size(); ++index) {
        const Effect effect = swap.steps[index].effect;
        if (*stop == procedure::Stop::ReadyToStrike ? effect == Effect::LockOff
                                                    : effect == Effect::ExposeLamp)
            return unmetOf(index);
    }
    return unmetOf(at);
}

/// It burns, or nobody has looked yet, or it may be struck: it is clamped in its seat, not past its life as
/// far as its counter can still tell, and has tries left.
bool canBurn(const VisitState& state, Index lamphouse)
{
    const machine::Heat heat = state.machine.lamphouse[lamphouse].heat;
    if (heat == machine::Heat::Lit || heat == machine::Heat::Unknown)
        return true;
    machine::Act strike;
    strike.effect = machine::Effect::Strike;
    strike.lamphouse = lamphouse;
    const auto holds = [&](Demand demand) {
        return machine::holds(state.plant, state.machine, strike, demand);
    };
    return holds(Demand::SeatClamped) && holds(Demand::StrikesLeft) &&
           (holds(Demand::LampKnown) || canCounterTell(state, lamphouse));
}

bool endsIn(const VisitState& state, const SwapState& swap)
{
    const machine::LamphouseState& here = state.machine.lamphouse[swap.lamphouse];
    const machine::Plant::Lamphouse& plan = state.plant.lamphouse[swap.lamphouse];
    const machine::LampState& lamp = state.machine.lamp[swap.newLamp];
    const bool isSpent = here.failedStrikes >= plan.strikeLimit && here.heat != machine::Heat::Lit;
    if (swap.followsUp) { // nothing is fitted and nothing is opened
        return state.machine.hurt || here.barred || here.leftExposed || lamp.unfit || isSpent ||
               isHeldBySomebody(state, swap.lamphouse) || !canBurn(state, swap.lamphouse);
    }
    const bool isWrong = lamp.place != machine::Place::SealedBox && lamp.match == machine::Match::No &&
                         !state.papers.value(state.ground->lamps[swap.newLamp].id).spoilt;
    const bool isWithoutAdaptor = here.adaptorLost && state.plant.lamp[swap.newLamp].needsAdaptor;
    const bool takesLocks = machine::everyPoint(state.plant, plan.points, [&](Index point) {
        return state.plant.point[point].lockable && !state.machine.point[point].willNotLock;
    });
    return state.machine.hurt || here.barred || isHeldBySomebody(state, swap.lamphouse) || lamp.unfit ||
           isWrong || isWithoutAdaptor || !takesLocks || isSpent;
}

bool isTagged(const VisitState& state, Index lamphouse)
{
    return state.machine.lamphouse[lamphouse].tagged;
}

} // namespace

bool isHeldBySomebody(const VisitState& state, Index lamphouse)
{
    return heldAt(state, lamphouse) != kNone;
}

Index heldAt(const VisitState& state, Index lamphouse)
{
    const Index projector = state.plant.lamphouse[lamphouse].projector;
    machine::Mask seen = 0;
    for (Index point = 0; point < state.plant.points; ++point) {
        if ((state.plant.point[point].feeds & machine::lamphousesOfProjector(state.plant, projector)) != 0)
            seen = static_cast<machine::Mask>(seen | state.machine.point[point].heldAt);
    }
    Index at = machine::has(seen, lamphouse) ? lamphouse : Index(0);
    while (at < state.plant.lamphouses && !machine::has(seen, at))
        ++at;
    return at < state.plant.lamphouses ? at : kNone;
}

machine::Act hopefulAct(const VisitState& state, const SwapState& swap, const procedure::Step& step,
                        Index person)
{
    machine::Act act = procedure::actOf(step, contextOf(state, swap, person));
    act.supplySeen = true;
    act.testerProved = true;
    act.custodyDecided = isCustodyDecided(state);
    act.answered = !state.hasOpenIncident();
    return act;
}

bool isLeftDark(const VisitState& state, const procedure::Step& step, const machine::Act& act)
{
    const bool lights = step.effect == Effect::KeyController || step.effect == Effect::Strike ||
                        step.effect == Effect::DowserOpen;
    return lights && step.otherLamphouse && !canBurn(state, act.lamphouse);
}

/// A look at a counter that nobody needs: where nothing is exchanged that of a lamp that may be lit without
/// it, else that of the lamp beside it, which has a swap of its own that reads it.
bool isReadingNeedless(const VisitState& state, const SwapState& swap, const procedure::Step& step)
{
    if (step.effect != Effect::Look || !readsCounter(swap, step))
        return false;
    const Index place = placeOf(state, swap, step);
    if (swap.followsUp)
        return state.machine.lamphouse[place].heat != machine::Heat::Unknown && !canCounterTell(state, place);
    return step.otherLamphouse && std::ranges::any_of(state.swaps, [&](const SwapState& other) {
               return !other.followsUp && other.lamphouse == place;
           });
}

bool isPassedOver(const VisitState& state, const SwapState& swap, const procedure::Step& step, Index person)
{
    const machine::Act act = hopefulAct(state, swap, step, person);
    const auto isIn = [&](machine::Place place) {
        return act.lamp != kNone && state.machine.lamp[act.lamp].place == place;
    };
    if (isReadingNeedless(state, swap, step))
        return true;
    if (swap.followsUp && step.effect != Effect::Find) {
        return state.machine.lamphouse[act.lamphouse].heat != machine::Heat::Unknown &&
               procedure::isNeedless(state.plant, state.machine, swap.steps, step, act);
    }
    if (isLeftDark(state, step, act))
        return true;
    switch (step.effect) {
    case Effect::Find: // another swap's look, or one after a gap
        return state.machine.lamphouse[act.lamphouse].heat != machine::Heat::Unknown;
    case Effect::LampOut: // on the way back from something that was withdrawn or went wrong
        return isIn(machine::Place::InHand) || isIn(machine::Place::Boxed);
    case Effect::BoxLamp:
        return isIn(machine::Place::Boxed);
    case Effect::MatchBox:
    case Effect::Unbox:
        return isOfOpenBox(state, swap, step) || machine::isSo(state.plant, state.machine, act);
    case Effect::LampIn:
    case Effect::LampOff:
    case Effect::Isolate:
    case Effect::LockOn:
    case Effect::ExtractionOn:
    case Effect::DowserShut:
    case Effect::AdaptorOff:
    case Effect::LockOff: // with another swap on the same points
    case Effect::JobLockOff:
    case Effect::Restore:
    case Effect::PowerUp:
        return machine::isSo(state.plant, state.machine, act);
    default:
        return false;
    }
}

NextStep nextStep(const VisitState& state, const SwapState& swap, Index person)
{
    NextStep next;
    if (isTagged(state, swap.lamphouse))
        return next;
    qsizetype at = 0;
    while (at < swap.steps.size() && (swap.record(swap.steps[at].id).status != StepRecord::Status::Waiting ||
                                      isPassedOver(state, swap, swap.steps[at], person) ||
                                      isCountedInside(state, swap, swap.steps[at])))
        ++at;
    if (at == swap.steps.size())
        return next;
    if (swap.steps[at].stop)
        person = answeredFor(state, swap, swap.steps[at]);
    if (const qsizetype lock = jobLockBefore(state, swap, at, person); lock >= 0)
        at = lock;
    for (qsizetype index = at; index >= 0;) {
        at = index;
        const machine::Unmet waits = waitsAt(state, swap, at, person);
        index = waits.any() ? lostBefore(state, swap, at, waits, person) : -1;
    }
    next.act = hopefulAct(state, swap, swap.steps[at], person);
    next.unmet = machine::unmet(state.plant, state.machine, next.act);
    if (const qsizetype back = next.unmet.any() ? stepBack(state, swap, next.unmet, person) : -1; back >= 0) {
        at = back;
        next.act = hopefulAct(state, swap, swap.steps[at], person);
        next.unmet = machine::unmet(state.plant, state.machine, next.act);
    }
    next.step = &swap.steps[at];
    next.endsHere = endsIn(state, swap);
    next.isAgain = swap.record(next.step->id).status == StepRecord::Status::Done;
    next.isPutRight = isUnmet(next.unmet, Demand::PointNotDoubted);
    return next;
}

bool mayAnswer(const VisitState& state, const SwapState& swap, const procedure::Step& stop, Index person)
{
    if (!state.people[person].worksOnLamps())
        return false;
    machine::Mask did = 0;
    for (const procedure::Step& step : swap.steps) {
        if (step.id == stop.id)
            break;
        if (step.stop)
            did = 0;
        const StepRecord record = swap.record(step.id);
        const Index who = state.person(record.by);
        if (step.effect != Effect::Look && record.status == StepRecord::Status::Done && who != kNone &&
            state.people[who].worksOnLamps()) // an electrician's proof leaves the lamp work where it was
            did = static_cast<machine::Mask>(did | machine::maskOf(who));
    }
    if ((did & ~machine::maskOf(person)) != 0 || !machine::has(did, person))
        return true;
    for (Index other = 0; other < state.people.size(); ++other) {
        const PersonFacts& facts = state.people[other];
        if (other != person && facts.worksOnLamps() && !machine::has(state.passedOn, other) &&
            state.isHere(other))
            return false;
    }
    return true;
}

bool isCustodyDecided(const VisitState& state)
{
    if (state.machine.hurt)
        return true;
    for (Index lamp = 0; lamp < state.plant.lamps; ++lamp) {
        const machine::Place place = state.machine.lamp[lamp].place;
        if (place == machine::Place::InHand || place == machine::Place::Entered)
            return false;
        const bool wasBrought = lamp >= state.plant.lamphouses; // the fitted ones come first
        const bool isAside = place == machine::Place::Boxed || place == machine::Place::Burst ||
                             (place == machine::Place::SealedBox && wasBrought);
        if (isAside && !state.custody.contains(state.ground->lamps[lamp].id))
            return false;
    }
    return true;
}

const WaitClock* waitBehind(const VisitState& state, const machine::Act& act, machine::Unmet unmet)
{
    const WaitClock* longest = nullptr;
    const auto consider = [&](const WaitClock& clock) {
        if (clock.isRunning && (!longest || clock.left() > longest->left()))
            longest = &clock;
    };
    machine::Mask cold = 0;
    if (isUnmet(unmet, Demand::Cold) && act.lamphouse != kNone)
        cold = static_cast<machine::Mask>(cold | machine::maskOf(act.lamphouse));
    if (isUnmet(unmet, Demand::FedCold) && act.point != kNone)
        cold = static_cast<machine::Mask>(cold | state.plant.point[act.point].feeds);
    if (isUnmet(unmet, Demand::ProjectorCold) && act.lamphouse != kNone)
        cold = static_cast<machine::Mask>(
            cold |
            machine::lamphousesOfProjector(state.plant, state.plant.lamphouse[act.lamphouse].projector));
    for (Index lamphouse = 0; lamphouse < state.plant.lamphouses; ++lamphouse) {
        if (machine::has(cold, lamphouse))
            consider(state.waits[lamphouse].cool);
    }
    if (act.lamphouse == kNone)
        return longest;
    const LamphouseWaits& here = state.waits[act.lamphouse];
    if (isUnmet(unmet, Demand::Relieved))
        consider(here.bleed);
    if (isUnmet(unmet, Demand::PauseOver))
        consider(here.strikePause);
    if (isUnmet(unmet, Demand::Settled))
        consider(here.settle);
    return longest;
}

} // namespace coldarc::visit
