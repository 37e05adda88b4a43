#include "core/machine/whole.h"
#include "core/visit/folding.h"

namespace coldarc::visit {

using machine::Happening;
using machine::kNone;

void Folding::operator()(const Happened& happened)
{
    const Ground& ground = *m_state.ground;
    machine::Event event;
    event.lamphouse = ground.lamphouse(happened.lamphouse);
    event.point = ground.point(happened.point);
    event.lamp = ground.lamp(happened.lamp);
    event.person = m_state.person(happened.person);
    const auto tell = [&](Happening what) {
        event.what = what;
        happen(event, happened.incident, happened.swap);
    };
    switch (happened.incident) {
    case Incident::FanOrPower:
        tell(event.point != kNone ? Happening::PowerFailed : Happening::FanStopped);
        for (const LamphouseId& lamphouse : happened.wentOut)
            goOut(ground.lamphouse(lamphouse));
        return;
    case Incident::Burst:
        return tell(Happening::LampBurst);
    case Incident::WrongLamp:
        return tell(Happening::WrongLamp);
    case Incident::LampUnfit:
        return tell(event.lamp != kNone ? Happening::LampUnfit : Happening::AdaptorLost);
    case Incident::GearDamaged:
        if (event.person != kNone)
            m_state.wholeGear[event.person] = 0;
        return tell(Happening::GearDamaged);
    case Incident::PointWillNotLock:
        tell(Happening::PointWillNotLock);
        return noteGivesWay(event.point != kNone ? machine::maskOf(event.point) : machine::Mask(0));
    case Incident::SomeoneHurt:
        m_state.isMakingSafe = true;
        return tell(Happening::SomeoneHurt);
    case Incident::ItStarted:
    case Incident::VoltageFound:
    case Incident::LeftExposed:
        return happen(happened.incident, happened.swap, event.lamphouse);
    case Incident::WillNotLight:
        if (event.lamphouse != kNone) // one that burnt and went out by itself
            return tell(Happening::WentOut);
        return open(happened.incident, happened.swap);
    default:
        open(happened.incident, happened.swap);
    }
}

void Folding::goOut(Index lamphouse)
{
    machine::Event event;
    event.what = Happening::WentOut;
    event.lamphouse = lamphouse;
    if (!machine::isWhole(m_state.plant, event))
        return giveUp();
    if (!machine::canHappen(m_state.plant, m_state.machine, event))
        return;
    machine::WaitStarts starts;
    m_state.machine = machine::after(m_state.plant, m_state.machine, event);
    event.what = Happening::FanStopped;
    m_state.machine = machine::after(m_state.plant, m_state.machine, event, &starts);
    begin(starts);
}

void Folding::operator()(const IncidentAnswered& answered)
{
    for (IncidentState& incident : m_state.incidents) {
        if (incident.entry != answered.incident)
            continue;
        incident.isAnswered = true;
        incident.answer = answered.text;
        if (incident.kind == Incident::CountDiffers)
            answerCounts(incident.swap);
    }
}

void Folding::operator()(const Resumed&)
{
    machine::Event event;
    event.what = Happening::Resumed;
    m_state.machine = machine::after(m_state.plant, m_state.machine, event);
}

void Folding::happen(Incident incident, const SwapId& swap, Index lamphouse)
{
    if (incident == Incident::LeftExposed && lamphouse != kNone) {
        machine::Event event;
        event.what = Happening::FoundOpen;
        event.lamphouse = lamphouse;
        return happen(event, incident, swap);
    }
    if (incident != Incident::LeftExposed)
        notIsolated(incident, lamphouse);
    open(incident, swap);
}

void Folding::notIsolated(Incident incident, Index lamphouse)
{
    if (lamphouse == kNone || m_state.machine.lamphouse[lamphouse].heat == machine::Heat::Unknown)
        return;
    const bool started = incident == Incident::ItStarted;
    machine::Act act;
    act.effect = started ? machine::Effect::TryStart : machine::Effect::ProveAbsence;
    act.outcome = started ? machine::Outcome::Started : machine::Outcome::Voltage;
    act.lamphouse = lamphouse;
    machine::WaitStarts starts;
    m_state.machine = machine::after(m_state.plant, m_state.machine, act, &starts);
    begin(starts);
}

void Folding::happen(const machine::Event& event, Incident kind, const SwapId& swap)
{
    if (!machine::isWhole(m_state.plant, event))
        return giveUp();
    if (event.what == Happening::WrongLamp) // somebody says so: readings do not take it back
        m_state.papers[m_state.ground->lamps[event.lamp].id].spoilt.reset();
    if (machine::canHappen(m_state.plant, m_state.machine, event)) {
        machine::WaitStarts starts;
        m_state.machine = machine::after(m_state.plant, m_state.machine, event, &starts);
        begin(starts);
    }
    open(kind, swap);
}

void Folding::open(Incident kind, const SwapId& swap)
{
    m_state.incidents.append({m_number, kind, swap, m_entry.at, false, {}});
    except(Exception::Kind::IncidentMet);
}

Incident Folding::incidentOf(Happening what)
{
    switch (what) {
    case Happening::FanStopped:
    case Happening::PowerFailed:
        return Incident::FanOrPower;
    case Happening::WrongLamp:
        return Incident::WrongLamp;
    case Happening::GearDamaged:
        return Incident::GearDamaged;
    default:
        return Incident::LampUnfit;
    }
}

void Folding::met(const ActRecord& record, const SwapId& swap)
{
    using machine::Outcome;
    switch (record.outcome) {
    case Outcome::Started:
        return open(Incident::ItStarted, swap);
    case Outcome::Voltage:
        return open(Incident::VoltageFound, swap);
    case Outcome::NoLight:
        return open(Incident::WillNotLight, swap);
    case Outcome::Burst:
        return open(Incident::Burst, swap);
    case Outcome::Differs:
        return open(Incident::CountDiffers, swap);
    case Outcome::WillNotLock:
        return open(Incident::PointWillNotLock, swap);
    case Outcome::FanStill:
        return open(Incident::FanOrPower, swap);
    default:
        break;
    }
    if (record.effect == machine::Effect::Find && record.seen &&
        (record.seen->guardOpen || record.seen->housingOpen))
        open(Incident::LeftExposed, swap);
    if (record.effect == machine::Effect::Isolate && record.moved != record.point)
        open(Incident::FanOrPower, swap);
}

/// Of that swap's lamphouse; where it was counted for no swap, of every lamphouse.
void Folding::answerCounts(const SwapId& swapId)
{
    const SwapState* swap = find(swapId);
    if (!swap && !swapId.isEmpty())
        return;
    for (Index lamphouse = 0; lamphouse < m_state.plant.lamphouses; ++lamphouse) {
        if (swap && swap->lamphouse != lamphouse)
            continue;
        machine::Event event;
        event.what = Happening::CountAnswered;
        event.lamphouse = lamphouse;
        if (machine::canHappen(m_state.plant, m_state.machine, event))
            m_state.machine = machine::after(m_state.plant, m_state.machine, event);
    }
}

} // namespace coldarc::visit
