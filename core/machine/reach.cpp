#include "core/machine/reach.h"

#include <algorithm>

namespace coldarc::machine {
namespace {

template<class Predicate>
Mask lamphousesWhere(const Plant& plant, Predicate predicate)
{
    Mask mask = 0;
    for (Index index = 0; index < plant.lamphouses; ++index) {
        if (predicate(plant.lamphouse[index]))
            mask = static_cast<Mask>(mask | maskOf(index));
    }
    return mask;
}

} // namespace

Mask lamphousesOnPoints(const Plant& plant, const Act& act)
{
    if (act.point != kNone)
        return plant.point[act.point].feeds;
    if (act.lamphouse == kNone)
        return 0;
    const Plant::Lamphouse& here = plant.lamphouse[act.lamphouse];
    if (act.effect == Effect::LockOff || act.effect == Effect::LockOn)
        return lamphousesOfGroup(plant, here.group);
    return lamphousesWhere(plant,
                           [&](const Plant::Lamphouse& other) { return (other.points & here.points) != 0; });
}

Mask lamphousesOfProjector(const Plant& plant, Index projector)
{
    return lamphousesWhere(plant, [&](const Plant::Lamphouse& l) { return l.projector == projector; });
}

Mask lamphousesOfGroup(const Plant& plant, Index group)
{
    return lamphousesWhere(plant, [&](const Plant::Lamphouse& l) { return l.group == group; });
}

Mask pointsOfGroup(const Plant& plant, Index group)
{
    Mask mask = 0;
    for (Index point = 0; point < plant.points; ++point) {
        if (plant.point[point].group == group)
            mask = static_cast<Mask>(mask | maskOf(point));
    }
    return mask;
}

bool isLocked(const Plant& plant, const State& state, Index point)
{
    if (!plant.point[point].lockable || state.point[point].willNotLock)
        return false;
    const Index group = plant.point[point].group;
    const bool held = state.group[group].locks != 0;
    return plant.pointsInGroup(group) == 1 ? held : held && state.point[point].jobLock != kNone;
}

bool isIsolated(const Plant& plant, const State& state, Index lamphouse)
{
    return everyPoint(plant, plant.lamphouse[lamphouse].points,
                      [&](Index point) { return state.point[point].power == Power::Off; });
}

bool isLookedAt(const State& state, Index lamphouse)
{
    return state.lamphouse[lamphouse].heat != Heat::Unknown && !state.lamphouse[lamphouse].unseen;
}

bool isKnownCold(const Plant& plant, const State& state, Index lamphouse)
{
    return state.lamphouse[lamphouse].heat == Heat::Cold && isLookedAt(state, lamphouse) &&
           !state.group[plant.lamphouse[lamphouse].group].isHearsay;
}

bool isShut(const State& state, Index lamphouse)
{
    return !state.lamphouse[lamphouse].housingOpen && !state.lamphouse[lamphouse].guardOpen;
}

bool isSomethingOpen(const Plant& plant, const State& state)
{
    for (Index lamphouse = 0; lamphouse < plant.lamphouses; ++lamphouse) {
        if (!isShut(state, lamphouse))
            return true;
    }
    return false;
}

bool isZoneEmpty(const Plant& plant, const State& state, Index lamphouse)
{
    for (Index person = 0; person < plant.people; ++person) {
        if (state.person[person].at == lamphouse)
            return false;
    }
    return true;
}

bool isGeared(const Plant& plant, const State& state, Index lamphouse)
{
    bool anybody = false;
    const Mask locks = state.group[plant.lamphouse[lamphouse].group].locks;
    for (Index person = 0; person < plant.people; ++person) {
        const PersonState& there = state.person[person];
        if (there.at != lamphouse)
            continue;
        if (there.gear != Gear::Signed || there.gearFor != lamphouse || !has(locks, person))
            return false;
        anybody = true;
    }
    return anybody;
}

Index lampInHand(const Plant& plant, const State& state, Index lamphouse)
{
    for (Index lamp = 0; lamp < plant.lamps; ++lamp) {
        if (plant.lamp[lamp].lamphouse == lamphouse && state.lamp[lamp].place == Place::InHand)
            return lamp;
    }
    return kNone;
}

bool hasLooseLamp(const Plant& plant, const State& state, Index lamphouse)
{
    return state.lamphouse[lamphouse].seat == Seat::Entered || lampInHand(plant, state, lamphouse) != kNone;
}

bool isExposed(const Plant& plant, const State& state, Index lamphouse)
{
    return lampInHand(plant, state, lamphouse) != kNone ||
           (state.lamphouse[lamphouse].guardOpen && state.lamphouse[lamphouse].seat != Seat::Empty);
}

bool isSomebodyInside(const State& state)
{
    const bool isGeared = std::ranges::any_of(state.person, [](const PersonState& person) {
        return person.gear != Gear::Off || person.at != kNone;
    });
    return isGeared || std::ranges::any_of(state.lamphouse, [](const LamphouseState& lamphouse) {
               return lamphouse.guardOpen || lamphouse.housingOpen;
           });
}

bool canPassOn(const Plant& plant, const State& state, Index from, Index to)
{
    if (from == to || to >= plant.people || !plant.person[to].authorised)
        return false;
    for (Index index = 0; index < plant.lamphouses; ++index) {
        if (!isShut(state, index) || !isZoneEmpty(plant, state, index) || hasLooseLamp(plant, state, index))
            return false;
    }
    for (const GroupState& group : state.group) {
        if (has(group.locks, from) && !has(group.locks, to))
            return false;
    }
    return true;
}

bool canRemoveLock(const Plant& plant, const State& state, Index owner, Index group)
{
    if (state.hurt || state.person[owner].at != kNone || !has(state.group[group].locks, owner))
        return false;
    for (Index person = 0; person < plant.people; ++person) {
        if (person != owner && has(state.group[group].locks, person) && plant.person[person].authorised)
            return true;
    }
    const Mask here = lamphousesOfGroup(plant, group);
    for (Index index = 0; index < plant.lamphouses; ++index) {
        if (!has(here, index))
            continue;
        const LamphouseState& lamphouse = state.lamphouse[index];
        if (!isShut(state, index) || !isZoneEmpty(plant, state, index) || hasLooseLamp(plant, state, index) ||
            lamphouse.heat == Heat::Lit || lamphouse.count == Counting::Due ||
            lamphouse.count == Counting::Differs)
            return false;
    }
    return true;
}

} // namespace coldarc::machine
