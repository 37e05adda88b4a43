#include "core/visit/gates_waiting.h"

#include "core/machine/demand.h"
#include "core/machine/reach.h"
#include "core/machine/whole.h"
#include "core/procedure/step_act.h"

#include <array>

using namespace Qt::StringLiterals;

namespace coldarc::visit {
namespace {

using machine::Demand;
using machine::Effect;
using machine::Gate;
using machine::kNone;
using machine::Outcome;

QString wordOf(Gate gate)
{
    static constexpr std::array<const char*, 5> kWords{"cold", "dead", "geared", "matched", "settled"};
    return QString::fromLatin1(kWords[static_cast<std::size_t>(gate)]);
}

/// What keeps people from light and power that comes on.
bool keepsClear(Effect effect, Demand demand)
{
    const bool putsOn = effect == Effect::Restore || effect == Effect::PowerUp || effect == Effect::Strike;
    return putsOn &&
           (demand == Demand::Shut || demand == Demand::AllShut || demand == Demand::ProjectorShut ||
            demand == Demand::NoLock || demand == Demand::ZonesEmpty);
}

/// The word that somebody could be hurt by whose lack; empty: none.
QString guardOf(Effect effect, Demand demand)
{
    if (keepsClear(effect, demand))
        return u"clear"_s;
    const Gate gate = machine::gateOf(demand);
    return gate == Gate::Cold || gate == Gate::Dead || gate == Gate::Geared ? wordOf(gate) : QString();
}

void add(QStringList& gates, const QString& gate)
{
    if (!gate.isEmpty() && !gates.contains(gate))
        gates.append(gate);
}

/// What of these demands keeps people from harm, in the order of the gates.
template<class IsMissing>
QStringList guardsOf(Effect effect, const IsMissing& isMissing)
{
    QStringList found;
    for (const Demand demand : machine::demandsOf(effect)) {
        if (isMissing(demand))
            add(found, guardOf(effect, demand));
    }
    QStringList inOrder;
    for (const QString& gate : {u"cold"_s, u"dead"_s, u"geared"_s, u"clear"_s}) {
        if (found.contains(gate))
            inOrder.append(gate);
    }
    return inOrder;
}

} // namespace

QStringList waitingGates(const VisitState& state, const machine::Act& act)
{
    QStringList gates;
    if (!machine::isSafeWard(act.effect) || act.lamphouse == kNone ||
        machine::isShut(state.machine, act.lamphouse))
        return gates;
    // From outside nobody is in the zone: whoever shuts the housing still has the gear on.
    if (act.effect == Effect::ShutHousing && act.person != kNone &&
        state.machine.person[act.person].gear == machine::Gear::Off)
        add(gates, wordOf(Gate::Geared));
    const bool handlesLamp = act.effect == Effect::LampIn || act.effect == Effect::ClampLamp ||
                             act.effect == Effect::BoxLamp || act.effect == Effect::ShutGuard;
    if (!handlesLamp)
        return gates;
    for (const auto& [demand, gate] :
         {std::pair{Demand::Cold, Gate::Cold}, std::pair{Demand::PointsLocked, Gate::Dead},
          std::pair{Demand::StartTried, Gate::Dead}, std::pair{Demand::Absent, Gate::Dead},
          std::pair{Demand::Geared, Gate::Geared}}) {
        if (!machine::holds(state.plant, state.machine, act, demand))
            add(gates, wordOf(gate));
    }
    return gates;
}

QStringList skippedGates(const VisitState& state, const machine::Act& act)
{
    if (machine::canComeOut(act.effect, act.outcome) && tellsOfDanger(act))
        return {};
    const machine::Unmet unmet = machine::unmet(state.plant, state.machine, act);
    return guardsOf(act.effect, [&](Demand demand) { return unmet.test(static_cast<std::size_t>(demand)); });
}

QStringList skippedGates(const VisitState& state, const SwapState& swap, const procedure::Step& step,
                         machine::Index person)
{
    const machine::Act act = procedure::actOf(step, contextOf(state, swap, person));
    if (machine::isWhole(state.plant, act))
        return skippedGates(state, act);
    return guardsOf(step.effect, [](Demand) { return true; }); // nobody can have done so
}

bool tellsOfDanger(const machine::Act& act)
{
    return act.outcome == Outcome::Started || act.outcome == Outcome::Voltage ||
           act.outcome == Outcome::Burst || act.outcome == Outcome::Differs;
}

} // namespace coldarc::visit
