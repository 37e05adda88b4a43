#include "core/machine/make_safe.h"

#include "core/machine/reach.h"

#include <algorithm>
#include <optional>

namespace coldarc::machine {
namespace {

SafeStep done()
{
    return {};
}

SafeStep doAct(const Act& act)
{
    SafeStep step;
    step.kind = SafeStep::Kind::Do;
    step.act = act;
    return step;
}

SafeStep hold(Wait wait, Index lamphouse)
{
    SafeStep step;
    step.kind = SafeStep::Kind::Hold;
    step.wait = wait;
    step.lamphouse = lamphouse;
    return step;
}

struct Way {
    const Plant& plant;
    const State& state;
    Index group;
    Index engineer;

    Act act(Effect effect, Index lamphouse, Index person) const
    {
        Act made;
        made.effect = effect;
        made.lamphouse = lamphouse;
        made.person = person;
        return made;
    }
    bool can(const Act& made) const { return unmet(plant, state, made).none(); }
    bool inGroup(Index lamphouse) const { return plant.lamphouse[lamphouse].group == group; }
    /// Somebody in this zone, the engineer first.
    Index somebodyAt(Index lamphouse) const
    {
        if (state.person[engineer].at == lamphouse)
            return engineer;
        for (Index person = 0; person < plant.people; ++person) {
            if (state.person[person].at == lamphouse)
                return person;
        }
        return kNone;
    }

    /// Of the group, and of the projectors that any of them is part of: those are switched as a whole.
    Mask concerned() const
    {
        Mask all = lamphousesOfGroup(plant, group);
        for (Index index = 0; index < plant.lamphouses; ++index) {
            if (inGroup(index))
                all = static_cast<Mask>(all | lamphousesOfProjector(plant, plant.lamphouse[index].projector));
        }
        return all;
    }

    /// After a gap that nobody witnessed: whether all is as it was left.
    std::optional<SafeStep> lookAtLocks() const
    {
        for (Index index = 0; index < plant.lamphouses && !state.hurt; ++index) {
            if (!has(concerned(), index) || !state.group[plant.lamphouse[index].group].isHearsay)
                continue;
            SafeStep step;
            step.kind = SafeStep::Kind::Report;
            step.event.what = Happening::LocksMissed; // as long as nobody says otherwise
            step.event.lamphouse = step.lamphouse = index;
            return step;
        }
        return std::nullopt;
    }

    /// Goes in to shut what stands open with nobody there: lock where one can hang, gear, then in.
    std::optional<SafeStep> goIn(Index lamphouse) const
    {
        const Index at = state.person[engineer].at;
        if (at != kNone)
            return shut(at); // what stands open there first, then out
        if (const auto step = lookAtLocks())
            return step;
        const Act lock = act(Effect::LockOn, lamphouse, engineer);
        if (!has(state.group[group].locks, engineer) && can(lock))
            return doAct(lock);
        const PersonState& person = state.person[engineer];
        if (person.gear != Gear::Signed || person.gearFor != lamphouse)
            return doAct(act(Effect::GearOn, lamphouse, engineer));
        return doAct(act(Effect::EnterZone, lamphouse, engineer));
    }

    /// Lamp away or clamped, guard, housing, everybody out.
    std::optional<SafeStep> shut(Index lamphouse) const
    {
        const LamphouseState& here = state.lamphouse[lamphouse];
        const Index somebody = somebodyAt(lamphouse);
        const Index inHand = lampInHand(plant, state, lamphouse);
        if (here.guardOpen || inHand != kNone) {
            if (somebody == kNone)
                return goIn(lamphouse);
            if (inHand != kNone) {
                Act box = act(Effect::BoxLamp, lamphouse, somebody);
                box.lamp = inHand;
                return doAct(box);
            }
            if (here.seat == Seat::Entered)
                return doAct(act(Effect::ClampLamp, lamphouse, somebody));
            return doAct(act(Effect::ShutGuard, lamphouse, somebody));
        }
        if (here.housingOpen)
            return doAct(act(Effect::ShutHousing, lamphouse, somebody != kNone ? somebody : engineer));
        if (somebody != kNone)
            return doAct(act(Effect::LeaveZone, lamphouse, somebody));
        if (here.count == Counting::Due) {
            Act count = act(Effect::Count, lamphouse, engineer);
            count.outcome = Outcome::Same;
            return doAct(count);
        }
        if (here.count == Counting::Differs) {
            SafeStep step;
            step.kind = SafeStep::Kind::Report;
            step.event.what = Happening::CountAnswered;
            step.event.lamphouse = lamphouse;
            return step;
        }
        return std::nullopt;
    }

    /// Every lock off by its owner, job locks, points on.
    std::optional<SafeStep> release(Index lamphouse) const
    {
        const Mask locks = state.group[group].locks;
        for (const bool authorised : {false, true}) {
            for (Index person = 0; person < plant.people; ++person) {
                if (!has(locks, person) || plant.person[person].authorised != authorised)
                    continue;
                if (const auto step = ownLockOff(lamphouse, person))
                    return step;
            }
        }
        if (locks != 0) // only a trainee's is left: an authorised one hangs first
            return doAct(act(Effect::LockOn, lamphouse, engineer));
        for (Index point = 0; point < plant.points; ++point) {
            if (plant.point[point].group != group)
                continue;
            Act made = act(Effect::JobLockOff, lamphouse, state.point[point].jobLock);
            made.point = point;
            if (state.point[point].jobLock != kNone)
                return doAct(made);
        }
        for (Index point = 0; point < plant.points; ++point) {
            if (plant.point[point].group != group || state.point[point].power == Power::On ||
                state.point[point].heldAt != 0)
                continue;
            Act made = act(Effect::Restore, lamphouse, engineer);
            made.point = point;
            return doAct(made);
        }
        return std::nullopt;
    }

    std::optional<SafeStep> ownLockOff(Index lamphouse, Index person) const
    {
        const Act off = act(Effect::LockOff, lamphouse, person);
        if (can(off))
            return doAct(off);
        if (state.person[person].at != kNone)
            return std::nullopt;
        const Act gearOff = act(Effect::GearOff, lamphouse, person);
        const bool others = (state.group[group].locks & ~maskOf(person)) != 0;
        if (others && state.person[person].gear != Gear::Off && can(gearOff))
            return doAct(gearOff);
        return std::nullopt;
    }

    /// Nothing lit, everything cold, whatever the group's points feed.
    std::optional<SafeStep> cold() const
    {
        const Mask all = concerned();
        for (Index index = 0; index < plant.lamphouses; ++index) {
            if (has(all, index) && state.lamphouse[index].heat == Heat::Lit)
                return doAct(act(Effect::LampOff, index, engineer));
        }
        for (Index index = 0; index < plant.lamphouses; ++index) {
            if (has(all, index) && state.lamphouse[index].heat == Heat::Cooling)
                return hold(Wait::Cool, index);
        }
        return std::nullopt;
    }

    std::optional<SafeStep> isolate(Index lamphouse) const
    {
        for (Index point = 0; point < plant.points; ++point) {
            if (plant.point[point].group == group && state.point[point].power == Power::Doubted &&
                state.point[point].heldAt == 0)
                return release(lamphouse); // done anew: on again, then off at the right place
        }
        for (Index point = 0; point < plant.points; ++point) {
            if (plant.point[point].group != group || state.point[point].power != Power::On)
                continue;
            if (state.group[group].told != Told::Before)
                return doAct(act(Effect::TellBefore, lamphouse, engineer));
            for (Index index = 0; index < plant.lamphouses; ++index) {
                if (has(plant.point[point].feeds, index) &&
                    state.projector[plant.lamphouse[index].projector].drive == Drive::On)
                    return doAct(act(Effect::Standby, index, engineer));
            }
            Act made = act(Effect::Isolate, lamphouse, engineer);
            made.point = point;
            made.moved = point;
            return doAct(made);
        }
        return std::nullopt;
    }

    std::optional<SafeStep> lock(Index lamphouse) const
    {
        for (Index point = 0; point < plant.points; ++point) {
            if (plant.point[point].group != group || plant.pointsInGroup(group) == 1 ||
                state.point[point].jobLock != kNone)
                continue;
            Act job = act(Effect::LockOn, lamphouse, engineer);
            job.point = point;
            if (can(job))
                return doAct(job);
        }
        const Act own = act(Effect::LockOn, lamphouse, engineer);
        if (!has(state.group[group].locks, engineer) && can(own))
            return doAct(own);
        return std::nullopt;
    }

    /// Whoever went in for this group, once everybody is out and all is shut.
    std::optional<SafeStep> gearOff() const
    {
        for (Index person = 0; person < plant.people && !state.hurt; ++person) {
            const PersonState& there = state.person[person];
            if (there.gear == Gear::Off || first() == kNone ||
                (there.gearFor != kNone && !inGroup(there.gearFor)))
                continue;
            const Act off = act(Effect::GearOff, there.gearFor != kNone ? there.gearFor : first(), person);
            if (can(off))
                return doAct(off);
        }
        return std::nullopt;
    }

    /// kNone: the group feeds no lamphouse.
    Index first() const
    {
        for (Index index = 0; index < plant.lamphouses; ++index) {
            if (inGroup(index))
                return index;
        }
        return kNone;
    }

    SafeStep outOfUse() const
    {
        if (!state.hurt) {
            if (const auto step = lookAtLocks())
                return *step;
            if (const auto step = cold())
                return *step;
            if (const auto step = isolate(first()))
                return *step;
            if (const auto step = lock(first()))
                return *step;
        }
        for (Index index = 0; index < plant.lamphouses; ++index) {
            if (inGroup(index) && !state.lamphouse[index].tagged)
                return doAct(act(Effect::TagOut, index, engineer));
        }
        return gearOff().value_or(done());
    }

    SafeStep backInUse() const
    {
        if (const auto step = lookAtLocks())
            return *step;
        for (Index index = 0; index < plant.lamphouses; ++index) {
            if (!inGroup(index))
                continue;
            if (const auto step = release(index))
                return *step;
            if (state.group[group].told == Told::Before)
                return doAct(act(Effect::TellAgain, index, engineer));
        }
        return gearOff().value_or(done());
    }
};

/// What the group will be once everything is shut, for choosing the end.
State whenShut(const Plant& plant, const State& state, Index group)
{
    State shut = state;
    for (Index index = 0; index < plant.lamphouses; ++index) {
        if (plant.lamphouse[index].group != group)
            continue;
        const Index inHand = lampInHand(plant, shut, index);
        if (inHand != kNone)
            shut.lamp[inHand].place = Place::Boxed;
        LamphouseState& here = shut.lamphouse[index];
        if (here.seat == Seat::Entered) {
            here.seat = Seat::Clamped;
            here.seatingSeen = false;
        }
    }
    return shut;
}

SafeEnd endOf(const Plant& plant, const State& state, Index lamphouse)
{
    const LamphouseState& here = state.lamphouse[lamphouse];
    // Put back on to be isolated anew it is still the wrong breaker, or a wrong label.
    const bool isWrong = !everyPoint(plant, plant.lamphouse[lamphouse].points, [&](Index point) {
        return state.point[point].provedWrong != ProvedWrong::Yes;
    });
    const bool isUnfit = here.lamp != kNone && state.lamp[here.lamp].unfit;
    if (state.hurt || here.barred || here.sawVoltage || here.tagged || isWrong || isUnfit ||
        here.seat != Seat::Clamped)
        return SafeEnd::OutOfUse;
    if (!state.lamp[here.lamp].takenOut && state.lamp[here.lamp].life != Life::New)
        return SafeEnd::AsItWas;
    Act strike;
    strike.effect = Effect::Strike;
    strike.lamphouse = lamphouse;
    for (const Demand demand :
         {Demand::SeatingSeen, Demand::AdaptorRight, Demand::LampKnown, Demand::StrikesLeft}) {
        if (!holds(plant, state, strike, demand))
            return SafeEnd::OutOfUse;
    }
    return SafeEnd::AsItIs;
}

} // namespace

SafeEnd safeEnd(const Plant& plant, const State& state, Index group)
{
    const State shut = whenShut(plant, state, group);
    SafeEnd worst = SafeEnd::AsItWas;
    for (Index index = 0; index < plant.lamphouses; ++index) {
        if (plant.lamphouse[index].group == group)
            worst = std::max(worst, endOf(plant, shut, index));
    }
    return worst;
}

SafeStep nextPutRightStep(const Plant& plant, const State& state, Index group, Index engineer)
{
    const Way way{plant, state, group, engineer};
    const bool isDoubted = !everyPoint(plant, pointsOfGroup(plant, group), [&](Index point) {
        return state.point[point].power != Power::Doubted;
    });
    if (!isDoubted || state.hurt)
        return done();
    for (Index index = 0; index < plant.lamphouses; ++index) {
        if (!way.inGroup(index))
            continue;
        if (const auto step = way.shut(index))
            return *step;
    }
    if (const auto step = way.cold())
        return *step;
    for (Index index = 0; index < plant.lamphouses; ++index) {
        if (!way.inGroup(index))
            continue;
        if (const auto step = way.release(index))
            return *step;
    }
    return done();
}

SafeStep nextSafeStep(const Plant& plant, const State& state, Index group, Index engineer)
{
    const Way way{plant, state, group, engineer};
    for (Index index = 0; index < plant.lamphouses; ++index) {
        if (way.inGroup(index) && state.lamphouse[index].heat == Heat::Lit && !isShut(state, index))
            return doAct(
                way.act(Effect::LampOff, index, engineer)); // nobody goes near an open lamp that burns
    }
    for (Index index = 0; index < plant.lamphouses; ++index) {
        if (!way.inGroup(index) || (state.hurt && way.somebodyAt(index) == kNone))
            continue;
        if (const auto step = way.shut(index))
            return *step;
    }
    return safeEnd(plant, state, group) == SafeEnd::OutOfUse ? way.outOfUse() : way.backInUse();
}

} // namespace coldarc::machine
