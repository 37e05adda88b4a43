#include "core/visit/next_step.h"

#include "core/machine/goal.h"
#include "core/machine/reach.h"

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

/// The earliest step before `before` that was done, brings about a demand of `unmet`, and whose goal is lost.
qsizetype lostBefore(const VisitState& state, const SwapState& swap, qsizetype before, machine::Unmet unmet,
                     Index person)
{
    for (qsizetype index = 0; index < before; ++index) {
        const procedure::Step& step = swap.steps[index];
        const bool brings = [&] {
            for (int demand = 0; demand < machine::kDemands; ++demand) {
                if (unmet.test(static_cast<std::size_t>(demand)) &&
                    machine::bringsAbout(step.effect, static_cast<Demand>(demand)))
                    return true;
            }
            return false;
        }();
        if (brings && !machine::isSo(state.plant, state.machine, hopefulAct(state, swap, step, person)))
            return index;
    }
    return -1;
}

bool isTagged(const VisitState& state, Index lamphouse)
{
    return state.machine.lamphouse[lamphouse].tagged;
}

} // namespace

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

bool isPassedOver(const VisitState& state, const SwapState& swap, const procedure::Step& step, Index person)
{
    switch (step.effect) {
    case Effect::LampOff:
    case Effect::Isolate:
    case Effect::LockOn:
    case Effect::ExtractionOn:
    case Effect::DowserShut:
    case Effect::AdaptorOff:
    case Effect::JobLockOff:
    case Effect::Restore:
    case Effect::PowerUp:
        return machine::isSo(state.plant, state.machine, hopefulAct(state, swap, step, person));
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
                                      isPassedOver(state, swap, swap.steps[at], person)))
        ++at;
    if (at == swap.steps.size())
        return next;
    for (qsizetype index = at; index >= 0;) {
        at = index;
        next.act = hopefulAct(state, swap, swap.steps[at], person);
        next.unmet = machine::unmet(state.plant, state.machine, next.act);
        index = next.unmet.any() ? lostBefore(state, swap, at, next.unmet, person) : -1;
    }
    next.step = &swap.steps[at];
    next.isAgain = swap.record(next.step->id).status == StepRecord::Status::Done;
    next.isPutRight = isUnmet(next.unmet, Demand::PointNotDoubted);
    return next;
}

bool isCustodyDecided(const VisitState& state)
{
    for (Index lamp = 0; lamp < state.plant.lamps; ++lamp) {
        const machine::Place place = state.machine.lamp[lamp].place;
        if (place == machine::Place::InHand || place == machine::Place::Entered)
            return false;
        if (place == machine::Place::Boxed && !state.custody.contains(state.ground->lamps[lamp].id))
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
