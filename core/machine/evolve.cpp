#include "core/machine/evolve.h"

#include "core/machine/reach.h"

namespace coldarc::machine {
namespace {

/// The changes that several acts share, on a copy of the state.
struct Change {
    const Plant& plant;
    State state;
    WaitStarts* starts;

    LamphouseState& lamphouse(Index index) { return state.lamphouse[index]; }
    ProjectorState& projectorOf(Index index) { return state.projector[plant.lamphouse[index].projector]; }

    void start(Wait wait, Index index, bool isFanUnseen = false)
    {
        if (starts)
            starts->add(wait, index, isFanUnseen);
    }

    template<class Deed>
    void each(Mask mask, Deed deed)
    {
        for (Index index = 0; index < plant.lamphouses; ++index) {
            if (has(mask, index))
                deed(index);
        }
    }

    /// The supply was, or may have been, there: stored charge, start and voltage wait again.
    void energised(Mask mask)
    {
        each(mask, [&](Index index) {
            LamphouseState& here = lamphouse(index);
            here.charge = Charge::Held;
            here.startTried = false;
            here.absent = false;
            here.absentBehind = false;
        });
    }

    void coolFrom(Index index, Wait wait, bool isFanUnseen = false)
    {
        lamphouse(index).heat = Heat::Cooling;
        lamphouse(index).settle = Waiting::None;
        start(wait, index, isFanUnseen);
    }

    /// It got hot, or went out, with nobody asked for the fan.
    void coolUnseen(Index index) { coolFrom(index, Wait::Cool, true); }

    /// The air over a lamp stopped just now. One that burns burns on until somebody says that it is out.
    void lostAir(Index index)
    {
        if (lamphouse(index).heat == Heat::Cooling)
            coolFrom(index, Wait::CoolUnforced);
    }

    /// It was found to have stopped, and nobody saw when: perhaps before the wait was over. Over a lamphouse
    /// that is isolated it is meant to stand still.
    void missedAir(Index index)
    {
        if (lamphouse(index).heat == Heat::Cold && !isIsolated(plant, state, index))
            coolFrom(index, Wait::CoolUnforced);
        else
            lostAir(index);
    }

    /// @param air  what becomes of each lamphouse that the point feeds
    template<class Air>
    void lostSupply(Index point, Air air)
    {
        each(plant.point[point].feeds, [&](Index index) {
            air(index);
            projectorOf(index).drive = Drive::Off;
        });
    }

    void doubt(Index point)
    {
        state.point[point].power = Power::Doubted;
        state.point[point].provedWrong = ProvedWrong::Yes;
    }

    /// A tried start of this lamphouse says so of its points, or says it no more.
    void retell(Index index, ProvedWrong from, ProvedWrong to)
    {
        for (Index point = 0; point < plant.points; ++point) {
            if (has(plant.lamphouse[index].points, point) && state.point[point].provedWrong == from)
                state.point[point].provedWrong = to;
        }
    }

    /// It started, or voltage was found: what was thought isolated is not.
    void notIsolated(Index index)
    {
        const Mask points = plant.lamphouse[index].points;
        Mask fed = 0;
        for (Index point = 0; point < plant.points; ++point) {
            if (!has(points, point))
                continue;
            doubt(point);
            fed = static_cast<Mask>(fed | plant.point[point].feeds);
        }
        energised(fed);
    }

    void unseat(Index index)
    {
        lamphouse(index).seat = Seat::Empty;
        lamphouse(index).lamp = kNone;
    }

    /// Somebody who is not of this visit took it: as if none had been found there. One that was to be fitted
    /// proves itself anew.
    void goneFrom(Index index)
    {
        LamphouseState& here = lamphouse(index);
        if (here.lamp == kNone)
            return;
        LampState& lamp = state.lamp[here.lamp];
        lamp.place = Place::SealedBox;
        lamp.match = Match::No;
        lamp.booked = false;
        if (here.adaptor == here.lamp)
            here.adaptor = kNone;
        unseat(index);
    }

    /// What a later look says of the seat counts where it is worse than what is known: its lamp is loose, or
    /// gone. A loose one behind a guard that was shut since counts as clamped, as at the first look, and
    /// nobody saw how.
    void seenAgain(Index index, const Seen& seen)
    {
        LamphouseState& here = lamphouse(index);
        if (seen.seat == Seat::Empty)
            goneFrom(index);
        if (here.lamp == kNone)
            return;
        const bool isShutIn = here.seat == Seat::Entered && !seen.guardOpen;
        if (seen.seat != Seat::Entered && !isShutIn)
            return;
        here.seat = isShutIn ? Seat::Clamped : Seat::Entered;
        here.seatingSeen = false;
        state.lamp[here.lamp].place = isShutIn ? Place::Clamped : Place::Entered;
    }

    /// Where a lock hangs that is said not to hold, what was tested behind it counts no more, and whoever is
    /// inside goes out. It stays on the record: it comes off by its owner alone.
    void givesWay(Index point)
    {
        if (!isLocked(plant, state, point)) {
            state.point[point].willNotLock = true;
            return;
        }
        energised(plant.point[point].feeds);
        each(plant.point[point].feeds, [&](Index index) {
            if (!isShut(state, index) || !isZoneEmpty(plant, state, index))
                lamphouse(index).leftExposed = true;
        });
    }

    void burst(Index lamp)
    {
        const Index index = plant.lamp[lamp].lamphouse;
        LamphouseState& here = lamphouse(index);
        const bool wasSealed =
            state.lamp[lamp].place == Place::SealedBox || state.lamp[lamp].place == Place::Boxed;
        state.lamp[lamp].place = Place::Burst;
        if (here.lamp == lamp)
            unseat(index);
        if (wasSealed)
            return; // in its box, away from the machine
        here.barred = true;
        if (here.heat == Heat::Lit)
            coolUnseen(index);
        else if (here.heat != Heat::Unknown)
            coolFrom(index, here.heat == Heat::Cold ? Wait::Cool : Wait::CoolUnforced);
        unsignGearIn(index);
    }

    void unsignGearIn(Index index)
    {
        for (Index person = 0; person < plant.people; ++person) {
            if (state.person[person].at == index && state.person[person].gear == Gear::Signed)
                state.person[person].gear = Gear::Worn;
        }
    }

    /// It was taken to be shut: it is counted and shut again, and what was tested behind the covers, or
    /// signed of gear, counts no more.
    void foundOpen(Index index)
    {
        LamphouseState& here = lamphouse(index);
        here.housingOpen = plant.lamphouse[index].hasHousing;
        here.guardOpen = true;
        here.leftExposed = true;
        here.count = Counting::Due;
        here.absent = false;
        here.absentBehind = false;
        unsignGearIn(index);
    }

    /// The last cover was shut: what was tested behind it is tested again, gear is signed again, once it
    /// opens.
    void shutAll(Index index)
    {
        lamphouse(index).absent = false;
        lamphouse(index).leftExposed = false;
        unsignGearIn(index);
    }

    void lockOff(Index person, Index group)
    {
        state.group[group].locks = static_cast<Mask>(state.group[group].locks & ~maskOf(person));
        if (state.group[group].locks == 0)
            energised(lamphousesOfGroup(plant, group));
    }

    /// A lamp that burns is seen to burn; of one that was out nobody knows whether it was lit meanwhile.
    void leftAlone()
    {
        for (Index group = 0; group < state.group.size(); ++group) {
            GroupState& here = state.group[group];
            bool rests = here.locks != 0;
            each(lamphousesOfGroup(plant, group), [&](Index index) {
                const Heat heat = lamphouse(index).heat;
                rests = rests || heat == Heat::Cold || heat == Heat::Cooling;
            });
            rests = rests || !everyPoint(plant, pointsOfGroup(plant, group),
                                         [&](Index point) { return state.point[point].power != Power::Off; });
            if (rests)
                here.isHearsay = true;
            else
                here.told = Told::No; // of what was going to be done before
        }
    }

    /// Nobody can say what its points have fed since they were seen last. Whose lock hangs is for its owner
    /// to say: each comes off the record by the hand that hung it.
    void locksMissed(Index lamphouseIndex)
    {
        const Index group = plant.lamphouse[lamphouseIndex].group;
        state.group[group].isHearsay = false;
        state.group[group].told = Told::No;
        for (Index point = 0; point < plant.points; ++point) {
            if (plant.point[point].group == group && state.point[point].power == Power::Off)
                doubt(point);
        }
        const Mask all = lamphousesOfGroup(plant, group);
        energised(all);
        each(all, [&](Index index) {
            LamphouseState& here = lamphouse(index);
            if (here.heat == Heat::Cold || here.heat == Heat::Cooling)
                coolFrom(index, Wait::CoolUnforced);
            here.unseen = here.heat == Heat::Cooling;
            if (!isShut(state, index) || !isZoneEmpty(plant, state, index))
                here.leftExposed = true;
            unsignGearIn(index);
        });
    }
};

void find(Change& change, const Act& act)
{
    const Index index = act.lamphouse;
    const Seen& seen = act.seen;
    LamphouseState& here = change.lamphouse(index);
    const Plant::Lamphouse& plan = change.plant.lamphouse[index];
    const bool first = here.heat == Heat::Unknown;

    Mask fed = maskOf(index);
    for (Index point = 0; point < change.plant.points; ++point) {
        if (!has(plan.points, point))
            continue;
        Power& power = change.state.point[point].power;
        Mask& heldAt = change.state.point[point].heldAt; // what another lamphouse said of it stays
        heldAt = static_cast<Mask>(heldAt & ~maskOf(index));
        if (has(seen.held, point) && !isLocked(change.plant, change.state, point)) // else the lock is ours
            heldAt = static_cast<Mask>(heldAt | maskOf(index));
        // A lamp that burns is fed, whatever its breaker seems to say: the breaker counts as on.
        const bool isSeenOff = has(seen.pointsOff, point) && !seen.lit;
        const bool isOurs = change.state.group[change.plant.point[point].group].locks != 0 ||
                            change.state.point[point].jobLock != kNone;
        if (!isSeenOff && power != Power::On) {
            if (isOurs) // a lock of ours hangs somewhere, and does not hold this
                change.doubt(point);
            else
                power = Power::On;
            fed = static_cast<Mask>(fed | change.plant.point[point].feeds);
        } else if (isSeenOff && power == Power::On) {
            power = Power::Off;
        }
    }
    change.energised(fed);
    if (first) {
        here.seat = seen.seat;
        here.lamp = seen.seat == Seat::Empty ? kNone : seen.lamp;
        if (here.lamp != kNone) {
            LampState& lamp = change.state.lamp[here.lamp];
            lamp.place = seen.seat == Seat::Clamped ? Place::Clamped : Place::Entered;
            lamp.life = seen.life;
            here.adaptor = plan.hasAdaptor && seen.adaptorOn ? here.lamp : kNone;
        }
        here.seatingSeen = true;
    } else if (seen.lit) { // what burns is clamped in the seat, whatever was seen before
        here.seat = Seat::Clamped;
        if (here.lamp == kNone)
            here.lamp = seen.lamp;
        if (here.lamp != kNone)
            change.state.lamp[here.lamp].place = Place::Clamped;
    } else {
        change.seenAgain(index, seen);
    }
    here.housingOpen = plan.hasHousing && seen.housingOpen;
    here.guardOpen = seen.guardOpen;
    here.unseen = false;
    const bool isOpen = here.housingOpen || here.guardOpen;
    if (isOpen)
        here.count = Counting::Due;
    // Whoever still stands there goes out first.
    here.leftExposed = isOpen || (here.leftExposed && !isZoneEmpty(change.plant, change.state, index));
    here.dowserOpen = plan.hasDowser && seen.dowserOpen;
    change.projectorOf(index).drive = seen.lit ? Drive::On : seen.drive;
    change.projectorOf(index).extraction = seen.extraction;
    change.unsignGearIn(index);
    if (seen.lit) {
        const bool wasLit = here.heat == Heat::Lit;
        here.heat = Heat::Lit;
        if (first)
            here.settle = Waiting::None;
        if (plan.settlesFromFind && !wasLit) {
            here.settle = Waiting::Running;
            change.start(Wait::Settle, index);
        }
    } else {
        change.coolFrom(index, seen.fanRuns ? Wait::Cool : Wait::CoolUnforced);
    }
}

/// The point of a lock; all of the group for a personal one, wherever on it that hangs.
Mask pointsOfLock(const Plant& plant, const Act& act)
{
    return act.point != kNone ? maskOf(act.point)
                              : pointsOfGroup(plant, plant.lamphouse[act.lamphouse].group);
}

void lockOn(Change& change, const Act& act)
{
    const Index group = act.point != kNone ? change.plant.point[act.point].group
                                           : change.plant.lamphouse[act.lamphouse].group;
    const bool personal = act.point == kNone || change.plant.pointsInGroup(group) == 1;
    if (act.outcome == Outcome::WillNotLock) {
        const Mask points = pointsOfLock(change.plant, act);
        for (Index point = 0; point < change.plant.points; ++point) {
            if (has(points, point) && !isLocked(change.plant, change.state, point))
                change.state.point[point].willNotLock = true;
        }
        return;
    }
    if (personal)
        change.state.group[group].locks =
            static_cast<Mask>(change.state.group[group].locks | maskOf(act.person));
    else if (change.state.point[act.point].jobLock == kNone)
        change.state.point[act.point].jobLock = act.person;
    if (change.state.group[group].told == Told::Again)
        change.state.group[group].told = Told::Before;
}

void isolate(Change& change, const Act& act)
{
    if (act.moved == kNone)
        return; // a breaker that feeds nothing of ours was moved: the incident stands in the logbook
    PointState& moved = change.state.point[act.moved];
    if (moved.power == Power::On)
        moved.power = Power::Off;
    if (act.moved != act.point)
        change.lostSupply(act.moved, [&](Index index) { change.lostAir(index); });
    change.each(change.plant.point[act.moved].feeds,
                [&](Index index) { change.projectorOf(index).drive = Drive::Off; });
}

void tryStart(Change& change, const Act& act)
{
    LamphouseState& here = change.lamphouse(act.lamphouse);
    if (act.outcome != Outcome::Started) {
        here.startTried = act.outcome == Outcome::NoResponse;
        if (here.startTried)
            change.retell(act.lamphouse, ProvedWrong::Yes, ProvedWrong::PutRight);
        return;
    }
    change.notIsolated(act.lamphouse);
    change.projectorOf(act.lamphouse).drive = Drive::On;
    if (here.seat == Seat::Clamped)
        here.heat = Heat::Lit;
    else
        change.coolUnseen(act.lamphouse);
}

void proveAbsence(Change& change, const Act& act)
{
    LamphouseState& here = change.lamphouse(act.lamphouse);
    if (act.outcome == Outcome::Voltage) {
        change.notIsolated(act.lamphouse);
        here.sawVoltage = true;
    } else if (act.outcome == Outcome::Absent) {
        (act.behindGuard ? here.absentBehind : here.absent) = true;
    }
}

void strike(Change& change, const Act& act)
{
    LamphouseState& here = change.lamphouse(act.lamphouse);
    change.energised(maskOf(act.lamphouse));
    switch (act.outcome) {
    case Outcome::Lit:
        here.heat = Heat::Lit;
        here.pause = Waiting::None;
        here.settle = Waiting::Running;
        change.start(Wait::Settle, act.lamphouse);
        break;
    case Outcome::Burst: {
        const bool wasCold = here.heat == Heat::Cold;
        if (here.lamp != kNone)
            change.burst(here.lamp);
        if (wasCold) // it had its arc, or nearly
            change.coolUnseen(act.lamphouse);
        break;
    }
    default:
        ++here.failedStrikes;
        change.coolUnseen(act.lamphouse);
        here.pause = Waiting::Running;
        change.start(Wait::StrikePause, act.lamphouse);
    }
}

/// Not where whoever did it says that it did not hold, shut or sit: then it is done anew.
bool isDone(const Act& act)
{
    return act.outcome != Outcome::Disagrees;
}

void lampEffect(Change& change, const Act& act)
{
    LamphouseState& here = change.lamphouse(act.lamphouse);
    const Index index =
        act.effect == Effect::LampOut || act.effect == Effect::ClampLamp ? here.lamp : act.lamp;
    if (index == kNone)
        return; // an empty seat: nothing to take out or to clamp
    LampState& lamp = change.state.lamp[index];
    switch (act.effect) {
    case Effect::LampOut:
        lamp.place = Place::InHand;
        lamp.takenOut = true;
        change.unseat(act.lamphouse);
        break;
    case Effect::Unbox:
        lamp.place = Place::InHand;
        if (act.outcome == Outcome::Agrees && lamp.match == Match::Box)
            lamp.match = Match::Both;
        else if (act.outcome == Outcome::Disagrees)
            lamp.match = Match::No;
        break;
    case Effect::AdaptorOff:
        if (isDone(act))
            here.adaptor = kNone;
        break;
    case Effect::AdaptorOn:
        if (isDone(act))
            here.adaptor = index;
        break;
    case Effect::LampIn:
        lamp.place = Place::Entered;
        here.seat = Seat::Entered;
        here.lamp = index;
        here.seatingSeen = false;
        break;
    case Effect::ClampLamp:
        lamp.place = Place::Clamped;
        here.seat = Seat::Clamped;
        here.seatingSeen = act.outcome == Outcome::Agrees;
        break;
    case Effect::BoxLamp:
        if (isDone(act))
            lamp.place = Place::Boxed;
        break;
    case Effect::MatchBox:
        lamp.match = act.outcome == Outcome::Agrees ? Match::Box : Match::No;
        lamp.booked = lamp.booked && act.outcome == Outcome::Agrees;
        break;
    case Effect::BookIn:
        lamp.booked = true;
        break;
    default:
        break;
    }
}

void leaveZone(Change& change, const Act& act)
{
    PersonState& person = change.state.person[act.person];
    person.at = kNone;
    if (person.gear == Gear::Signed)
        person.gear = Gear::Worn;
    if (!isZoneEmpty(change.plant, change.state, act.lamphouse))
        return;
    LamphouseState& here = change.lamphouse(act.lamphouse);
    if (here.guardOpen)
        here.leftExposed = true;
    else if (!here.housingOpen)
        here.leftExposed = false;
}

void passOn(Change& change, const Event& event)
{
    for (Index index = 0; index < change.plant.lamphouses; ++index) {
        change.lamphouse(index).startTried = false;
        change.lamphouse(index).absent = false;
        change.lamphouse(index).absentBehind = false;
    }
    for (Index point = 0; point < change.plant.points; ++point) {
        if (change.state.point[point].jobLock == event.person)
            change.state.point[point].jobLock = event.to;
    }
    for (PersonState& person : change.state.person) {
        if (person.gear == Gear::Signed)
            person.gear = Gear::Worn;
        person.gearFor = kNone;
    }
}

void removeLock(Change& change, const Event& event)
{
    const Index group = change.plant.lamphouse[event.lamphouse].group;
    change.lockOff(event.person, group);
    Index heir = kNone;
    for (Index person = 0; person < change.plant.people; ++person) {
        if (has(change.state.group[group].locks, person) &&
            (heir == kNone || change.plant.person[person].authorised))
            heir = person;
    }
    for (Index point = 0; point < change.plant.points; ++point) {
        if (change.plant.point[point].group == group && change.state.point[point].jobLock == event.person)
            change.state.point[point].jobLock = heir;
    }
}

} // namespace

State after(const Plant& plant, const State& before, const Act& act, WaitStarts* starts)
{
    Change change{plant, before, starts};
    State& state = change.state;
    switch (act.effect) {
    case Effect::Look: // behind an open guard, at a lamp that is not there
        if (!isDone(act) && change.lamphouse(act.lamphouse).guardOpen &&
            change.lamphouse(act.lamphouse).lamp == act.lamp)
            change.goneFrom(act.lamphouse);
        break;
    case Effect::CountOpening:
    case Effect::WorkInside:
    case Effect::Settle:
    case Effect::Peak:
    case Effect::PeakAgain:
    case Effect::MeasureScreen:
    case Effect::Sign:
        break;
    case Effect::Find:
        find(change, act);
        break;
    case Effect::Count:
        change.lamphouse(act.lamphouse).count =
            act.outcome == Outcome::Same ? Counting::Same : Counting::Differs;
        break;
    case Effect::ExtractionOn:
        change.projectorOf(act.lamphouse).extraction = true;
        break;
    case Effect::GearOff:
        state.person[act.person] = {};
        break;
    case Effect::GearOn:
        state.person[act.person].gear = Gear::Signed;
        state.person[act.person].gearFor = act.lamphouse;
        break;
    case Effect::DowserShut:
        change.lamphouse(act.lamphouse).dowserOpen = false;
        break;
    case Effect::DowserOpen:
        change.lamphouse(act.lamphouse).dowserOpen = plant.lamphouse[act.lamphouse].hasDowser;
        break;
    case Effect::TellBefore:
        state.group[plant.lamphouse[act.lamphouse].group].told = Told::Before;
        break;
    case Effect::TellAgain:
        state.group[plant.lamphouse[act.lamphouse].group].told = Told::Again;
        break;
    case Effect::LampOff:
        change.coolFrom(act.lamphouse, act.outcome == Outcome::FanStill ? Wait::CoolUnforced : Wait::Cool);
        break;
    case Effect::Standby:
        if (change.projectorOf(act.lamphouse).drive == Drive::On)
            change.projectorOf(act.lamphouse).drive = Drive::Standby;
        break;
    case Effect::Isolate:
        isolate(change, act);
        break;
    case Effect::LockOn:
        lockOn(change, act);
        break;
    case Effect::Relieve:
        change.lamphouse(act.lamphouse).charge = Charge::LettingDown;
        change.start(Wait::Bleed, act.lamphouse);
        break;
    case Effect::TryStart:
        tryStart(change, act);
        break;
    case Effect::ProveAbsence:
        proveAbsence(change, act);
        break;
    case Effect::OpenHousing:
        change.lamphouse(act.lamphouse).housingOpen = true;
        change.lamphouse(act.lamphouse).count = Counting::Due;
        break;
    case Effect::EnterZone:
        state.person[act.person].at = act.lamphouse;
        break;
    case Effect::ExposeLamp:
        change.lamphouse(act.lamphouse).guardOpen = true;
        change.lamphouse(act.lamphouse).absentBehind = false;
        change.lamphouse(act.lamphouse).count = Counting::Due;
        break;
    case Effect::LampOut:
    case Effect::Unbox:
    case Effect::AdaptorOff:
    case Effect::AdaptorOn:
    case Effect::LampIn:
    case Effect::ClampLamp:
    case Effect::BoxLamp:
    case Effect::MatchBox:
    case Effect::BookIn:
        lampEffect(change, act);
        break;
    case Effect::ShutGuard:
        if (!isDone(act))
            break;
        change.lamphouse(act.lamphouse).guardOpen = false;
        change.lamphouse(act.lamphouse).absentBehind = false;
        if (isShut(state, act.lamphouse))
            change.shutAll(act.lamphouse);
        break;
    case Effect::ShutHousing:
        if (!isDone(act))
            break;
        change.lamphouse(act.lamphouse).housingOpen = false;
        change.shutAll(act.lamphouse);
        break;
    case Effect::LeaveZone:
        leaveZone(change, act);
        break;
    case Effect::LockOff:
        change.lockOff(act.person, plant.lamphouse[act.lamphouse].group);
        break;
    case Effect::JobLockOff:
        state.point[act.point].jobLock = kNone;
        change.energised(plant.point[act.point].feeds);
        break;
    case Effect::Restore:
        state.point[act.point].power = Power::On;
        change.energised(plant.point[act.point].feeds);
        break;
    case Effect::PowerUp:
        change.projectorOf(act.lamphouse).drive = Drive::On;
        break;
    case Effect::KeyController:
        change.lamphouse(act.lamphouse).controllerType =
            act.outcome == Outcome::Agrees ? plant.lamp[act.lamp].type : kNone;
        break;
    case Effect::Strike:
        strike(change, act);
        break;
    case Effect::TagOut:
        change.lamphouse(act.lamphouse).tagged = true;
        break;
    }
    return state;
}

State after(const Plant& plant, const State& before, const Event& event, WaitStarts* starts)
{
    Change change{plant, before, starts};
    State& state = change.state;
    switch (event.what) {
    case Happening::FanStopped:
        change.missedAir(event.lamphouse);
        break;
    case Happening::WentOut:
        change.coolUnseen(event.lamphouse);
        break;
    case Happening::PowerFailed:
        change.lostSupply(event.point, [&](Index index) { change.missedAir(index); });
        break;
    case Happening::LampBurst:
        change.burst(event.lamp);
        break;
    case Happening::GearDamaged:
        state.person[event.person].gear = Gear::Worn;
        state.person[event.person].gearFor = kNone;
        break;
    case Happening::LampUnfit:
        state.lamp[event.lamp].unfit = true;
        break;
    case Happening::AdaptorLost:
        change.lamphouse(event.lamphouse).adaptorLost = true;
        change.lamphouse(event.lamphouse).adaptor = kNone;
        break;
    case Happening::WrongLamp:
        state.lamp[event.lamp].match = Match::No;
        state.lamp[event.lamp].booked = false;
        break;
    case Happening::SomeoneHurt:
        state.hurt = true;
        break;
    case Happening::CountAnswered:
        change.lamphouse(event.lamphouse).count = Counting::Answered;
        break;
    case Happening::PointWillNotLock:
        change.givesWay(event.point);
        break;
    case Happening::PassedOn:
        passOn(change, event);
        break;
    case Happening::LockRemoved:
        removeLock(change, event);
        break;
    case Happening::FoundOpen:
        change.foundOpen(event.lamphouse);
        break;
    case Happening::LeftAlone:
        change.leftAlone();
        break;
    case Happening::LocksSeen:
        state.group[plant.lamphouse[event.lamphouse].group].isHearsay = false;
        break;
    case Happening::LocksMissed:
        change.locksMissed(event.lamphouse);
        break;
    case Happening::Resumed:
        for (Index index = 0; index < plant.lamphouses; ++index) {
            if (isShut(state, index))
                continue;
            change.lamphouse(index).absent = false;
            change.lamphouse(index).absentBehind = false;
            change.unsignGearIn(index);
        }
        break;
    }
    return state;
}

State whenOver(const State& before, Wait wait, Index lamphouse)
{
    State state = before;
    LamphouseState& here = state.lamphouse[lamphouse];
    switch (wait) {
    case Wait::Cool:
    case Wait::CoolUnforced:
        if (here.heat == Heat::Cooling)
            here.heat = Heat::Cold;
        break;
    case Wait::Bleed:
        if (here.charge == Charge::LettingDown)
            here.charge = Charge::Relieved;
        break;
    case Wait::StrikePause:
        if (here.pause == Waiting::Running)
            here.pause = Waiting::Over;
        break;
    case Wait::Settle:
        if (here.settle == Waiting::Running)
            here.settle = Waiting::Over;
        break;
    }
    return state;
}

bool canWithdraw(Effect effect)
{
    switch (effect) {
    case Effect::TellBefore:
    case Effect::TellAgain:
    case Effect::Isolate:
    case Effect::LockOn:
    case Effect::Relieve:
    case Effect::TryStart:
    case Effect::ProveAbsence:
    case Effect::GearOn:
    case Effect::Count:
    case Effect::ClampLamp:
    case Effect::MatchBox:
    case Effect::Unbox:
    case Effect::BookIn:
    case Effect::KeyController:
    case Effect::Settle:
    case Effect::Peak:
    case Effect::PeakAgain:
    case Effect::MeasureScreen:
    case Effect::Look:
        return true;
    default:
        return false;
    }
}

State withdrawn(const Plant& plant, const State& before, const Act& act, WaitStarts* starts)
{
    Change change{plant, before, starts};
    State& state = change.state;
    const auto here = [&]() -> LamphouseState& { return change.lamphouse(act.lamphouse); };
    switch (act.effect) {
    case Effect::TellBefore:
    case Effect::TellAgain:
        state.group[plant.lamphouse[act.lamphouse].group].told = Told::No;
        break;
    case Effect::Isolate:
        if (act.moved != kNone && state.point[act.moved].power == Power::Off) {
            change.doubt(act.moved);
            change.energised(plant.point[act.moved].feeds);
        }
        break;
    case Effect::LockOn:
        if (act.outcome == Outcome::WillNotLock) { // nothing was hung by it
            for (Index point = 0; point < plant.points; ++point) {
                if (has(pointsOfLock(plant, act), point))
                    state.point[point].willNotLock = false;
            }
        } else if (act.point != kNone && plant.pointsInGroup(plant.point[act.point].group) > 1) {
            state.point[act.point].jobLock = kNone;
            change.energised(plant.point[act.point].feeds);
        } else {
            change.lockOff(act.person, plant.lamphouse[act.lamphouse].group);
        }
        break;
    case Effect::Look: // it is in its seat after all
        if (!isDone(act) && here().seat == Seat::Empty && state.lamp[act.lamp].place == Place::SealedBox) {
            // Nobody has said since that it is clamped: loose, while somebody can clamp it.
            here().seat = here().guardOpen ? Seat::Entered : Seat::Clamped;
            here().lamp = act.lamp;
            here().seatingSeen = false;
            state.lamp[act.lamp].place = here().guardOpen ? Place::Entered : Place::Clamped;
            if (plant.lamphouse[act.lamphouse].hasAdaptor && plant.lamp[act.lamp].needsAdaptor &&
                !here().adaptorLost)
                here().adaptor = act.lamp;
        }
        break;
    case Effect::Relieve:
        here().charge = Charge::Held;
        here().startTried = false;
        here().absent = false;
        here().absentBehind = false;
        break;
    case Effect::TryStart:
        change.retell(act.lamphouse, ProvedWrong::PutRight, ProvedWrong::Yes);
        here().startTried = false;
        here().absent = false;
        here().absentBehind = false;
        break;
    case Effect::ProveAbsence:
        (act.behindGuard ? here().absentBehind : here().absent) = false;
        break;
    case Effect::GearOn:
        if (state.person[act.person].gear == Gear::Signed)
            state.person[act.person].gear = Gear::Worn;
        break;
    case Effect::Count:
        here().count = Counting::Due;
        break;
    case Effect::ClampLamp:
        here().seatingSeen = false;
        break;
    case Effect::MatchBox:
    case Effect::Unbox:
        state.lamp[act.lamp].match = Match::No;
        state.lamp[act.lamp].booked = false;
        break;
    case Effect::BookIn:
        state.lamp[act.lamp].booked = false;
        break;
    case Effect::KeyController:
        here().controllerType = kNone;
        break;
    default:
        break;
    }
    return state;
}

} // namespace coldarc::machine
