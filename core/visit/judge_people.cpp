#include "core/machine/reach.h"
#include "core/visit/judge.h"

#include <algorithm>

namespace coldarc::visit {

using machine::kNone;

void Judge::operator()(const RemovalTold&)
{
    if (!m_state.removalsToTell.contains(by()))
        no(Why::Kind::NothingAsked);
}

void Judge::operator()(const Joined& joined)
{
    const Index known = m_state.person(joined.person.id);
    const bool comesBack = known != kNone && !m_state.isHere(known);
    if (!comesBack && (known != kNone || m_state.people.size() >= machine::kMostPeople))
        no(Why::Kind::UnknownName);
    const bool takesAnyPart = joined.person.mayLead || joined.person.mayAssist ||
                              joined.person.maySupervise || joined.person.mayProve;
    const bool comesUnasked = m_person == kNone; // where whoever led is gone, say, and their lock still hangs
    if (!takesAnyPart)
        no(Why::Kind::NotAuthorised);
    else if (comesUnasked && !joined.person.mayLead && !joined.person.maySupervise)
        no(Why::Kind::NotByThemselves);
}

void Judge::operator()(const PassedOn& passed)
{
    const Index from = m_state.person(passed.from);
    const Index to = m_state.person(passed.to);
    if (from == kNone || to == kNone || from != m_state.lead || passed.to != m_by)
        return no(Why::Kind::UnknownName);
    if (!m_state.people[to].mayLead)
        return no(Why::Kind::NotAuthorised);
    machine::Event event;
    event.what = machine::Happening::PassedOn;
    event.person = from;
    event.to = to;
    if (machine::canHappen(m_state.plant, m_state.machine, event))
        return;
    for (Index lamphouse = 0; lamphouse < m_state.plant.lamphouses; ++lamphouse) {
        demand(machine::Demand::AllShut, machine::isShut(m_state.machine, lamphouse), lamphouse);
        demand(machine::Demand::ZonesEmpty, machine::isZoneEmpty(m_state.plant, m_state.machine, lamphouse),
               lamphouse);
        demand(machine::Demand::NoneLoose, !machine::hasLooseLamp(m_state.plant, m_state.machine, lamphouse),
               lamphouse);
        const auto& locks = m_state.machine.group[m_state.plant.lamphouse[lamphouse].group].locks;
        demand(machine::Demand::OwnLock, !machine::has(locks, from) || machine::has(locks, to), lamphouse);
    }
    if (m_refusal.whys.isEmpty())
        no(Why::Kind::CannotHappen);
}

void Judge::operator()(const Left& left)
{
    const Index person = m_state.person(left.person);
    if (person == kNone)
        return no(Why::Kind::UnknownName);
    if (!m_state.isHere(person))
        return no(Why::Kind::NothingAsked);
    if (person != m_person && m_person != m_state.lead)
        no(Why::Kind::NotAuthorised);
    if (person == m_state.lead)
        no(Why::Kind::IsLead);
    const machine::PersonState& body = m_state.machine.person[person];
    if (body.at != kNone)
        no(Why::Kind::StillInZone);
    if (body.gear != machine::Gear::Off)
        no(Why::Kind::StillInGear);
    if (holdsLock(person))
        no(Why::Kind::StillLocked);
    demand(machine::Demand::OneBare, staysGuarded(person), kNone);
}

void Judge::operator()(const LockRemoved& removed)
{
    const Index supervisor = m_state.person(removed.supervisor);
    machine::Event event;
    event.what = machine::Happening::LockRemoved;
    event.person = m_state.person(removed.owner);
    event.lamphouse = m_state.ground->lamphouse(removed.lamphouse);
    if (event.person == kNone || event.lamphouse == kNone || supervisor == kNone)
        return no(Why::Kind::UnknownName);
    if (!m_state.isHere(supervisor))
        no(Why::Kind::NotHere);
    // Two people stand for it: the supervisor, and whoever is at the lock (and writes this).
    if (!m_state.people[supervisor].maySupervise || removed.supervisor == removed.owner ||
        removed.supervisor == m_by || m_by == removed.owner)
        no(Why::Kind::NotAuthorised);
    if (removed.absence.trimmed().isEmpty() || removed.attempts.trimmed().isEmpty())
        no(Why::Kind::TextMissing);
    if (!machine::canHappen(m_state.plant, m_state.machine, event))
        whyNotRemoved(event.person, m_state.plant.lamphouse[event.lamphouse].group);
}

bool Judge::staysGuarded(Index leaves) const
{
    int open = 0;
    for (Index lamphouse = 0; lamphouse < m_state.plant.lamphouses; ++lamphouse)
        open += m_state.machine.lamphouse[lamphouse].guardOpen ? 1 : 0;
    int stay = 0;
    for (Index person = 0; person < m_state.plant.people; ++person)
        stay += person != leaves && m_state.plant.person[person].authorised ? 1 : 0;
    return open == 0 || open <= stay || !m_state.plant.person[leaves].authorised;
}

void Judge::whyNotRemoved(Index owner, Index group)
{
    if (!machine::has(m_state.machine.group[group].locks, owner))
        return no(Why::Kind::CannotHappen);
    demand(machine::Demand::NobodyHurt, !m_state.machine.hurt, kNone);
    demand(machine::Demand::ZonesEmpty, m_state.machine.person[owner].at == kNone, kNone);
    for (Index lamphouse = 0; lamphouse < m_state.plant.lamphouses; ++lamphouse) {
        if (m_state.plant.lamphouse[lamphouse].group != group)
            continue;
        const machine::LamphouseState& here = m_state.machine.lamphouse[lamphouse];
        demand(machine::Demand::AllShut, machine::isShut(m_state.machine, lamphouse), lamphouse);
        demand(machine::Demand::ZonesEmpty, machine::isZoneEmpty(m_state.plant, m_state.machine, lamphouse),
               lamphouse);
        demand(machine::Demand::NoneLoose, !machine::hasLooseLamp(m_state.plant, m_state.machine, lamphouse),
               lamphouse);
        demand(machine::Demand::NoneLit, here.heat != machine::Heat::Lit, lamphouse);
        demand(machine::Demand::CountsAnswered,
               here.count != machine::Counting::Due && here.count != machine::Counting::Differs, lamphouse);
    }
    if (m_refusal.whys.isEmpty())
        no(Why::Kind::CannotHappen);
}

bool Judge::holdsLock(Index person) const
{
    const auto& machine = m_state.machine;
    return std::any_of(machine.group.begin(), machine.group.end(),
                       [&](const auto& group) { return machine::has(group.locks, person); }) ||
           std::any_of(machine.point.begin(), machine.point.end(),
                       [&](const auto& point) { return point.jobLock == person; });
}

bool Judge::isLeaderHere() const
{
    for (Index person = 0; person < m_state.plant.people; ++person) {
        if (m_state.people[person].mayLead && m_state.isHere(person))
            return true;
    }
    return false;
}

} // namespace coldarc::visit
