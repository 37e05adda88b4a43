#include "core/visit/correction.h"

#include "core/machine/reach.h"
#include "core/visit/evolve.h"

#include <array>

using namespace Qt::StringLiterals;

namespace coldarc::visit {
namespace {

using machine::Gate;

constexpr std::array<Gate, 5> kGates{Gate::Cold, Gate::Dead, Gate::Geared, Gate::Matched, Gate::Settled};

/// How many of a gate's facts are proved.
int proofsOf(const VisitState& state, const SwapState& swap, Gate gate)
{
    const machine::LamphouseState& here = state.machine.lamphouse[swap.lamphouse];
    machine::Act look;
    look.lamphouse = swap.lamphouse;
    const bool isLocked = machine::holds(state.plant, state.machine, look, machine::Demand::PointsLocked);
    switch (gate) {
    case Gate::Cold:
        return here.heat == machine::Heat::Cold ? 1 : 0;
    case Gate::Dead:
        return (isLocked ? 1 : 0) + (here.charge == machine::Charge::Relieved ? 1 : 0) +
               (here.startTried ? 1 : 0) + (here.absent ? 1 : 0) + (here.absentBehind ? 1 : 0);
    case Gate::Geared:
        return machine::isGeared(state.plant, state.machine, swap.lamphouse) ? 1 : 0;
    case Gate::Matched:
        return static_cast<int>(state.machine.lamp[swap.newLamp].match);
    case Gate::Settled:
        return here.settle == machine::Waiting::Over ? 1 : 0;
    case Gate::None:
        return 0;
    }
    Q_UNREACHABLE();
}

QList<StepAgain> stepsAgain(const VisitState& before, const SwapState& was, const VisitState& after,
                            const SwapState& is)
{
    const NextStep nextWas = nextStep(before, was, before.lead);
    const NextStep next = nextStep(after, is, after.lead);
    QList<StepAgain> steps;
    for (const procedure::Step& step : is.steps) {
        const bool isLost = was.record(step.id).status != StepRecord::Status::Waiting &&
                            is.record(step.id).status == StepRecord::Status::Waiting;
        const bool isUp =
            next.step && next.step->id == step.id && (!nextWas.step || nextWas.step->id != step.id);
        if (isLost || isUp)
            steps.append({is.id, step.id});
    }
    return steps;
}

} // namespace

tl::expected<Correction, Refusal> ifWithdrawn(const VisitState& state, const PersonId& by, qint64 entry,
                                              const Stamp& now)
{
    const VisitState before = seenAt(state, now);
    // The reason and who agrees come later: they decide nothing but that they are there.
    const machine::Index second = mayCountersign(state, by);
    const PersonId agrees = second == machine::kNone ? PersonId() : state.people[second].id;
    const Decision decision = decide(state, by, Withdrawn{entry, u"asked beforehand"_s, agrees}, now);
    if (!decision)
        return tl::unexpected(decision.error());
    const VisitState after = evolve(before, *decision);
    Correction correction;
    for (qsizetype index = 0; index < before.swaps.size(); ++index) {
        const SwapState& was = before.swaps[index];
        const SwapState& is = after.swaps[index];
        for (const Gate gate : kGates) {
            if (proofsOf(after, is, gate) < proofsOf(before, was, gate))
                correction.gates.append({is.id, gate});
        }
        correction.steps += stepsAgain(before, was, after, is);
    }
    return correction;
}

bool isTakenUpAgain(const VisitState& state, const PersonId& by, const Stamp& now, bool isFirstOfThisRun)
{
    if (!state.isOpen() || state.person(by) == machine::kNone)
        return false;
    return isGap(state.last, now) || (isFirstOfThisRun && machine::isSomebodyInside(state.machine));
}

} // namespace coldarc::visit
