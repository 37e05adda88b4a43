#include "core/visit/folding.h"

namespace coldarc::visit {

using machine::Happening;
using machine::kNone;

void Folding::operator()(const Joined& joined)
{
    const Index known = m_state.person(joined.person.id);
    if (known != kNone && !m_state.isHere(known))
        return comeBack(known, joined.person);
    if (known != kNone || m_state.people.size() >= machine::kMostPeople)
        return giveUp();
    add(joined.person);
}

void Folding::operator()(const PassedOn& passed)
{
    machine::Event event;
    event.what = Happening::PassedOn;
    event.person = m_state.person(passed.from);
    event.to = m_state.person(passed.to);
    if (event.person == kNone || event.to == kNone)
        return giveUp();
    m_state.machine = machine::after(m_state.plant, m_state.machine, event);
    m_state.wholeGear = {};
    m_state.lead = event.to;
    for (SwapState& swap : m_state.swaps)
        askAgain(swap);
    m_state.passedOn = static_cast<machine::Mask>((m_state.passedOn | machine::maskOf(event.person)) &
                                                  ~machine::maskOf(event.to));
}

void Folding::operator()(const LockRemoved& removed)
{
    machine::Event event;
    event.what = Happening::LockRemoved;
    event.person = m_state.person(removed.owner);
    event.lamphouse = m_state.ground->lamphouse(removed.lamphouse);
    if (event.person == kNone || event.lamphouse == kNone)
        return giveUp();
    m_state.machine = machine::after(m_state.plant, m_state.machine, event);
    m_state.removalsToTell.insert(removed.owner);
    except(Exception::Kind::LockRemoved);
}

void Folding::operator()(const Left& left)
{
    const Index person = m_state.person(left.person);
    if (person == kNone)
        return giveUp();
    m_state.gone = static_cast<machine::Mask>(m_state.gone | machine::maskOf(person));
    m_state.wholeGear[person] = 0;
    m_state.plant.person[person].authorised = false;
    m_state.plant.person[person].mayProve = false;
}

void Folding::add(const PersonFacts& person)
{
    machine::Plant::Person& plan = m_state.plant.person[m_state.plant.people++];
    plan.authorised = person.mayLead;
    plan.mayProve = person.mayProve;
    m_state.people.append(person);
    if (person.hasRemovalToTell)
        m_state.removalsToTell.insert(person.id);
}

void Folding::comeBack(Index index, const PersonFacts& person)
{
    m_state.gone = static_cast<machine::Mask>(m_state.gone & ~machine::maskOf(index));
    m_state.passedOn = static_cast<machine::Mask>(m_state.passedOn & ~machine::maskOf(index));
    m_state.people[index] = person;
    m_state.plant.person[index].authorised = person.mayLead;
    m_state.plant.person[index].mayProve = person.mayProve;
    if (person.hasRemovalToTell)
        m_state.removalsToTell.insert(person.id);
}

void Folding::askAgain(SwapState& swap)
{
    const bool isLocked = m_state.machine.group[m_state.plant.lamphouse[swap.lamphouse].group].locks != 0;
    for (const procedure::Step& step : swap.steps) {
        const bool isClamped = step.effect == machine::Effect::ClampLamp &&
                               swap.record(step.id).status == StepRecord::Status::Done;
        if (!isLocked || isClamped)
            return;
    }
    for (const procedure::Step& step : swap.steps) {
        if (step.stop)
            swap.records.remove(step.id);
    }
}

} // namespace coldarc::visit
