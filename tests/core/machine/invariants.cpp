// The invariants A (states), B (order) and D (transitions), each with its sentence, and the demands of the
// table of effects that no state shows, written a second time, apart from the rules that they judge.

#include "core/machine/reach.h"
#include "tests/core/machine/world.h"

namespace coldarc::test {

using namespace machine;

namespace {

using Broken = std::string_view;

bool anyPoint(const Plant& plant, Mask points, auto predicate)
{
    return !everyPoint(plant, points, [&](Index point) { return !predicate(point); });
}

bool isDoubted(const Plant& plant, const State& state, Index lamphouse)
{
    return anyPoint(plant, plant.lamphouse[lamphouse].points,
                    [&](Index point) { return state.point[point].power == Power::Doubted; });
}

Broken ofExposedLamp(const Setting& setting, const World& world, Index l)
{
    const State& state = world.state;
    if (!isExposed(setting.plant, state, l))
        return {};
    if (!isDoubted(setting.plant, state, l)) {
        if (state.lamphouse[l].heat != Heat::Cold)
            return "A1 a bare lamp that is not cold";
        if (isTrulyLive(setting, world, l))
            return "A1 a bare lamp under a live supply";
        if (state.lamphouse[l].charge != Charge::Relieved)
            return "A1 a bare lamp with stored charge";
    }
    if (isZoneEmpty(setting.plant, state, l) && !state.hurt)
        return "A2 a bare lamp with nobody there";
    return {};
}

Broken ofPeopleIn(const Plant& plant, const State& state, Index l)
{
    const LamphouseState& here = state.lamphouse[l];
    const bool exposed = isExposed(plant, state, l);
    for (Index person = 0; person < plant.people; ++person) {
        if (state.person[person].at != l)
            continue;
        if ((exposed || here.housingOpen) && state.person[person].gear == Gear::Off)
            return "A2 somebody in the zone without gear";
        if (exposed && !has(state.group[plant.lamphouse[l].group].locks, person))
            return "A2 somebody in the zone without an own lock";
    }
    return {};
}

Broken ofCovers(const Plant& plant, const State& state, Index l)
{
    const LamphouseState& here = state.lamphouse[l];
    const Mask locks = state.group[plant.lamphouse[l].group].locks;
    if ((here.housingOpen || here.guardOpen) &&
        anyPoint(plant, plant.lamphouse[l].points, [&](Index p) { return !isLocked(plant, state, p); }))
        return "A3 open without a lock on every point";
    bool isEngineers = false;
    for (Index person = 0; person < plant.people; ++person)
        isEngineers = isEngineers || (has(locks, person) && plant.person[person].authorised);
    if ((here.housingOpen || here.guardOpen) && !isEngineers)
        return "A3 open under a trainee's lock alone";
    if (lampInHand(plant, state, l) != kNone && !here.guardOpen)
        return "A4 a lamp in hand with the guard shut";
    if (locks == 0 && (here.housingOpen || here.seat == Seat::Entered))
        return "A6 open or loose without a lock";
    if (here.seat == Seat::Entered && !here.guardOpen)
        return "A7 a loose lamp under a shut guard";
    if (plant.lamphouse[l].hasHousing && here.guardOpen && !here.housingOpen)
        return "the housing shut over an open guard";
    return {};
}

Broken ofLight(const Plant& plant, const State& state, Index l)
{
    const LamphouseState& here = state.lamphouse[l];
    if (here.heat != Heat::Lit)
        return {};
    const bool doubted = isDoubted(plant, state, l);
    if (!isShut(state, l) || here.seat != Seat::Clamped)
        return "A5 lit but not shut and clamped";
    if (state.group[plant.lamphouse[l].group].locks != 0 && !doubted)
        return "A5 lit under a lock";
    for (Index m = 0; m < plant.lamphouses; ++m) {
        if (m != l && (plant.lamphouse[m].points & plant.lamphouse[l].points) != 0 && !isShut(state, m) &&
            !state.lamphouse[m].leftExposed && !doubted)
            return "A5 lit while another lamphouse on the same point is open";
    }
    return {};
}

Broken ofLamps(const Plant& plant, const State& state, Index l)
{
    const LamphouseState& here = state.lamphouse[l];
    int bare = here.guardOpen && here.seat != Seat::Empty ? 1 : 0;
    for (Index lamp = 0; lamp < plant.lamps; ++lamp) {
        if (plant.lamp[lamp].lamphouse != l)
            continue;
        const Place place = state.lamp[lamp].place;
        bare += place == Place::InHand ? 1 : 0;
        const bool inSeat = here.seat != Seat::Empty && here.lamp == lamp;
        if (inSeat != (place == Place::Entered || place == Place::Clamped) ||
            (inSeat && (place == Place::Clamped) != (here.seat == Seat::Clamped)))
            return "a lamp in two places";
    }
    if (bare > 1)
        return "B5 two bare lamps";
    if (here.adaptorLost && here.adaptor != kNone)
        return "a lost adaptor on a lamp";
    return {};
}

Broken ofOpenLamphouses(const Plant& plant, const State& state)
{
    int open = 0;
    int authorised = 0;
    for (Index l = 0; l < plant.lamphouses; ++l)
        open += state.lamphouse[l].guardOpen && !state.lamphouse[l].leftExposed ? 1 : 0;
    for (Index person = 0; person < plant.people; ++person)
        authorised += plant.person[person].authorised ? 1 : 0;
    return open > authorised ? "more lamphouses bare than authorised engineers" : Broken{};
}

/// A move that is an act, with what the rules about it look at.
struct Done {
    const Plant& plant;
    const State& before;
    const State& now;
    const Act& act;

    const LamphouseState& here() const { return before.lamphouse[act.lamphouse]; }
    const Plant::Lamphouse& plan() const { return plant.lamphouse[act.lamphouse]; }
    const ProjectorState& projector() const { return before.projector[plan().projector]; }
    const PersonState& person() const { return before.person[act.person]; }
    Index group() const { return act.point != kNone ? plant.point[act.point].group : plan().group; }
    Mask points() const { return act.point != kNone ? maskOf(act.point) : plan().points; }
    Mask locksBefore() const { return before.group[group()].locks; }
    Mask locksNow() const { return now.group[group()].locks; }
    bool isAnyPoint(auto predicate) const { return anyPoint(plant, points(), predicate); }
    bool isAnyFed(auto predicate) const
    {
        for (Index l = 0; l < plant.lamphouses; ++l) {
            if ((plant.lamphouse[l].points & points()) != 0 && predicate(l))
                return true;
        }
        return false;
    }
    bool isAnyOfProjector(auto predicate) const
    {
        for (Index l = 0; l < plant.lamphouses; ++l) {
            if (plant.lamphouse[l].projector == plan().projector && predicate(l))
                return true;
        }
        return false;
    }
    bool isCold(Index l) const { return before.lamphouse[l].heat == Heat::Cold; }
};

Broken ofEnergy(const Done& d)
{
    if (d.isAnyFed([&](Index l) { return d.before.lamphouse[l].heat == Heat::Unknown; }))
        return "switched, locked in or tried something that nobody had looked at";
    if (d.act.effect != Effect::Restore &&
        d.isAnyFed([&](Index l) { return d.before.lamphouse[l].leftExposed; }))
        return "worked on what was found open, before it was shut";
    return {};
}

Broken ofStandby(const Done& d)
{
    return d.isAnyOfProjector([&](Index l) { return !d.isCold(l); }) ? "B2 standby before it was cold"
                                                                     : Broken{};
}

Broken ofIsolate(const Done& d)
{
    if (d.isAnyFed([&](Index l) { return !d.isCold(l); }))
        return "A8 isolated while hot";
    if (d.before.group[d.group()].told != Told::Before)
        return "B1 isolated before people were told";
    if (d.isAnyFed(
            [&](Index l) { return d.before.projector[d.plant.lamphouse[l].projector].drive == Drive::On; }))
        return "B2 isolated before standby";
    if (d.before.point[d.act.point].power == Power::Doubted)
        return "isolated again without restoring first";
    return {};
}

Broken ofLockOn(const Done& d)
{
    if (d.act.outcome == Outcome::WillNotLock)
        return {};
    const bool onPoint = d.act.point != kNone || d.plant.pointsInGroup(d.group()) == 1;
    return onPoint && d.isAnyPoint([&](Index point) {
        return !d.plant.point[point].lockable || d.before.point[point].willNotLock;
    })
               ? "a lock on a point that takes none"
               : Broken{};
}

Broken ofRelieve(const Done& d)
{
    return isShut(d.before, d.act.lamphouse) ? Broken{} : "B4 relieved while open";
}

Broken ofTryStart(const Done& d)
{
    if (d.isAnyFed([&](Index l) { return !isZoneEmpty(d.plant, d.before, l); }))
        return "B4 start tried with somebody in the zone";
    if (d.isAnyFed([&](Index l) { return !isShut(d.before, l); }))
        return "B4 start tried while open";
    if (d.here().charge != Charge::Relieved)
        return "B2 start tried before the charge was let down";
    if (d.isAnyPoint([&](Index point) { return !isLocked(d.plant, d.before, point); }))
        return "B4 start tried without a lock";
    return {};
}

Broken ofProveAbsence(const Done& d)
{
    if (!d.here().startTried)
        return "B2 tested before a start was tried";
    if (!d.plant.person[d.act.person].mayProve)
        return "tested by somebody whom the site does not let";
    if (d.act.behindGuard ? !d.here().guardOpen : d.plan().testNeedsHousingOpen && !d.here().housingOpen)
        return "tested through a cover";
    if (d.here().guardOpen && !isGeared(d.plant, d.before, d.act.lamphouse))
        return "B3 tested at an open guard without gear";
    return {};
}

Broken ofOpenHousing(const Done& d)
{
    if (!d.here().startTried)
        return "B2 opened before a start was tried";
    return d.here().heat != Heat::Cold ? "B2 opened before it was cold" : Broken{};
}

Broken ofWorkOnLamp(const Done& d)
{
    if (d.person().at != d.act.lamphouse)
        return "a lamp or guard act by somebody outside the zone";
    switch (d.act.effect) {
    case Effect::ExposeLamp:
    case Effect::WorkInside:
    case Effect::LampOut:
    case Effect::Unbox:
        if (!d.here().startTried || !d.here().absent)
            return "B2 bared before it was proved dead";
        [[fallthrough]];
    case Effect::AdaptorOff:
    case Effect::AdaptorOn:
        if (!isGeared(d.plant, d.before, d.act.lamphouse))
            return "B3 exposed before everybody there was geared";
        break;
    default:
        break;
    }
    if (d.act.effect == Effect::ExposeLamp && d.plan().hasHousing && !d.here().housingOpen)
        return "the guard opened through a shut housing";
    if ((d.act.effect == Effect::LampOut || d.act.effect == Effect::Unbox) && d.plan().testBehindGuard &&
        !d.here().absentBehind)
        return "B2 lamp moved before voltage was proved absent behind the guard";
    if (d.act.effect == Effect::Unbox && d.before.lamp[d.act.lamp].life == Life::PastEnd)
        return "D8 a lamp past its end taken for refitting";
    if (d.act.effect == Effect::Unbox && (d.here().barred || d.here().tagged))
        return "D7 a lamp brought in after a burst, or under a tag";
    return {};
}

Broken ofLeaveZone(const Done& d)
{
    return d.here().guardOpen && !d.before.hurt && isZoneEmpty(d.plant, d.now, d.act.lamphouse)
               ? "the last person left an open guard"
               : Broken{};
}

Broken ofLastLock(const Done& d)
{
    if (d.isAnyFed([&](Index l) {
            const Counting count = d.before.lamphouse[l].count;
            return count == Counting::Due || count == Counting::Differs;
        }))
        return "B6 last lock off before the count was answered";
    if (d.isAnyFed([&](Index l) { return !isZoneEmpty(d.plant, d.before, l); }))
        return "B7 last lock off with somebody in the zone";
    return {};
}

Broken ofLockOff(const Done& d)
{
    if (d.before.hurt)
        return "D9 a lock came off after someone was hurt";
    if (d.act.effect == Effect::JobLockOff) {
        if (d.before.point[d.act.point].jobLock != d.act.person)
            return "D4 a job lock taken off by somebody whose it is not";
        if (d.locksBefore() != 0)
            return "a job lock off while a personal lock hangs on the box";
        return ofLastLock(d);
    }
    if (!has(d.locksBefore(), d.act.person))
        return "D4 a lock taken off by somebody whose it is not";
    if (d.person().at != kNone)
        return "a lock off by somebody in a zone";
    if (d.locksNow() == 0)
        return d.plant.person[d.act.person].authorised ? ofLastLock(d)
                                                       : Broken("a trainee's lock was left the last");
    if (d.person().gear != Gear::Off)
        return "a lock off in gear while others stay";
    for (Index person = 0; person < d.plant.people; ++person) {
        if (has(d.locksNow(), person) && d.plant.person[person].authorised)
            return {};
    }
    return "a trainee's lock was left the last";
}

Broken ofRestore(const Done& d)
{
    if (d.before.hurt)
        return "D9 power on after someone was hurt";
    if (d.before.point[d.act.point].heldAt != 0)
        return "power on under somebody else's lock or tag";
    return d.locksBefore() != 0 || d.before.point[d.act.point].jobLock != kNone ? "A5 power on under a lock"
                                                                                : Broken{};
}

Broken ofPowerUp(const Done& d)
{
    if (d.before.hurt)
        return "D9 power on after someone was hurt";
    if (d.isAnyPoint([&](Index point) { return d.before.point[point].power != Power::On; }))
        return "powered up from a point that is off";
    if (d.isAnyOfProjector([&](Index l) { return !isShut(d.before, l); }))
        return "powered up while open";
    if (d.isAnyOfProjector([&](Index l) {
            return !everyPoint(d.plant, d.plant.lamphouse[l].points,
                               [&](Index point) { return d.before.point[point].heldAt == 0; });
        }))
        return "power on under somebody else's lock or tag";
    return d.locksBefore() != 0 ? "A5 power on under a lock" : Broken{};
}

Broken ofTellAgain(const Done& d)
{
    return d.locksBefore() != 0 ? "told again before the locks were off" : Broken{};
}

Broken ofStruckLamp(const Done& d)
{
    const LamphouseState& here = d.here();
    const LampState& lamp = d.before.lamp[here.lamp];
    if (here.controllerType != d.plant.lamp[here.lamp].type)
        return "B9 struck with another type set in the controller";
    if ((here.adaptor == here.lamp) != d.plant.lamp[here.lamp].needsAdaptor)
        return "B9 struck with the adaptor wrong";
    if (!lamp.booked && lamp.life == Life::New)
        return "B9 struck before it was booked in";
    if (!lamp.booked && lamp.life == Life::PastEnd)
        return "D8 struck a lamp past its end";
    return lamp.unfit ? "struck an unfit lamp" : Broken{};
}

Broken ofStrike(const Done& d)
{
    const LamphouseState& here = d.here();
    if (d.before.hurt)
        return "D9 struck after someone was hurt";
    if (d.before.group[d.group()].told != Told::Again)
        return "B8 struck before people were told again";
    if (here.heat == Heat::Lit)
        return "struck a lamp that is lit";
    if (here.seat != Seat::Clamped || here.lamp == kNone || here.dowserOpen || !here.seatingSeen)
        return "B9 struck unclamped, unseen or with the dowser open";
    if (d.projector().drive != Drive::On ||
        d.isAnyPoint([&](Index point) { return d.before.point[point].power != Power::On; }))
        return "struck with the projector or a point off";
    if (!d.projector().extraction)
        return "struck without extraction";
    if (here.pause == Waiting::Running || here.failedStrikes >= d.plan().strikeLimit)
        return "D6 struck in the pause or past the limit";
    if (here.barred || here.tagged)
        return "D7 struck after a burst, or under a tag";
    return ofStruckLamp(d);
}

Broken ofReading(const Done& d)
{
    if (d.here().heat != Heat::Lit)
        return "a reading without light";
    if (d.plan().hasDowser && !d.here().dowserOpen)
        return "a reading through a shut dowser";
    return d.act.effect != Effect::Peak && d.here().settle != Waiting::Over
               ? "B10 the reading that counts before the light settled"
               : Broken{};
}

Broken ofPaper(const Done& d)
{
    switch (d.act.effect) {
    case Effect::MatchBox:
        return d.before.lamp[d.act.lamp].place != Place::SealedBox ? "the box read once it was open"
                                                                   : Broken{};
    case Effect::BookIn:
        return d.before.lamp[d.act.lamp].match != Match::Both ? "B9 booked in before it matched" : Broken{};
    case Effect::KeyController:
        if (d.here().heat == Heat::Lit)
            return "the current set under a burning lamp";
        return d.projector().drive != Drive::On ? "keyed into a controller that is off" : Broken{};
    default:
        return {};
    }
}

Broken ofTag(const Done& d)
{
    if (d.before.hurt)
        return {};
    if (!isShut(d.before, d.act.lamphouse) ||
        d.isAnyFed([&](Index l) { return !isZoneEmpty(d.plant, d.before, l); }))
        return "D3 tagged while open or with somebody there";
    return d.isAnyPoint([&](Index point) {
        // What somebody else holds nobody here isolates anew: where it is in doubt, the tag says so to
        // everyone.
        const bool isHeldInDoubt =
            d.before.point[point].heldAt != 0 && d.before.point[point].power == Power::Doubted;
        return (d.before.point[point].power != Power::Off && !isHeldInDoubt) ||
               (d.plant.point[point].lockable && !d.before.point[point].willNotLock &&
                !isLocked(d.plant, d.before, point));
    })
               ? "D3 tagged while not isolated and locked"
               : Broken{};
}

Broken ofSign(const Done& d)
{
    if (!d.act.custodyDecided)
        return "B11 signed before it was decided where each lamp goes";
    if (!d.act.answered)
        return "B12 signed with an incident open";
    if (d.before.hurt)
        return {};
    for (Index l = 0; l < d.plant.lamphouses; ++l) {
        if (!isShut(d.before, l) || !isZoneEmpty(d.plant, d.before, l) || hasLooseLamp(d.plant, d.before, l))
            return "D3 signed with something open";
    }
    for (Index point = 0; point < d.plant.points; ++point) {
        const bool free =
            d.before.group[d.plant.point[point].group].locks == 0 && d.before.point[point].jobLock == kNone;
        bool tagged = false;
        for (Index l = 0; l < d.plant.lamphouses; ++l)
            tagged = tagged || (has(d.plant.lamphouse[l].points, point) && d.before.lamphouse[l].tagged);
        if (tagged && d.before.point[point].power != Power::Off)
            return "D3 signed as out of use under power";
        if (tagged && free && d.plant.point[point].lockable && !d.before.point[point].willNotLock)
            return "D3 signed as out of use without a lock";
        if (!tagged && !free)
            return "D3 signed with a lock left and no tag";
    }
    return {};
}

Broken ofAct(const Done& d)
{
    switch (d.act.effect) {
    case Effect::Standby:
        return ofStandby(d);
    case Effect::Isolate:
        return ofIsolate(d);
    case Effect::LockOn:
        return ofLockOn(d);
    case Effect::Relieve:
        return ofRelieve(d);
    case Effect::TryStart:
        return ofTryStart(d);
    case Effect::ProveAbsence:
        return ofProveAbsence(d);
    case Effect::OpenHousing:
        return ofOpenHousing(d);
    case Effect::ExposeLamp:
    case Effect::WorkInside:
    case Effect::LampOut:
    case Effect::Unbox:
    case Effect::AdaptorOff:
    case Effect::AdaptorOn:
    case Effect::LampIn:
    case Effect::ClampLamp:
    case Effect::BoxLamp:
    case Effect::ShutGuard:
        return ofWorkOnLamp(d);
    case Effect::LeaveZone:
        return ofLeaveZone(d);
    case Effect::LockOff:
    case Effect::JobLockOff:
        return ofLockOff(d);
    case Effect::Restore:
        return ofRestore(d);
    case Effect::PowerUp:
        return ofPowerUp(d);
    case Effect::TellAgain:
        return ofTellAgain(d);
    case Effect::Strike:
        return ofStrike(d);
    case Effect::Peak:
    case Effect::PeakAgain:
    case Effect::MeasureScreen:
        return ofReading(d);
    case Effect::MatchBox:
    case Effect::BookIn:
    case Effect::KeyController:
        return ofPaper(d);
    case Effect::TagOut:
        return ofTag(d);
    case Effect::Sign:
        return ofSign(d);
    default:
        return {};
    }
}

bool restsOnHeat(Effect effect)
{
    return effect == Effect::Standby || effect == Effect::Isolate || effect == Effect::Strike ||
           effect == Effect::OpenHousing || effect == Effect::ExposeLamp;
}

bool restsOnLocks(Effect effect)
{
    switch (effect) {
    case Effect::Relieve:
    case Effect::TryStart:
    case Effect::ProveAbsence:
    case Effect::OpenHousing:
    case Effect::EnterZone:
    case Effect::ExposeLamp:
    case Effect::WorkInside:
    case Effect::LampOut:
    case Effect::Unbox:
    case Effect::TagOut:
    case Effect::Standby:
    case Effect::Isolate:
    case Effect::Restore:
    case Effect::PowerUp:
    case Effect::Strike:
        return true;
    default:
        return false;
    }
}

bool touchesEnergy(Effect effect)
{
    switch (effect) {
    case Effect::Standby:
    case Effect::Isolate:
    case Effect::Relieve:
    case Effect::TryStart:
    case Effect::ProveAbsence:
    case Effect::OpenHousing:
    case Effect::ExposeLamp:
    case Effect::WorkInside:
    case Effect::LampOut:
    case Effect::Unbox:
    case Effect::Restore:
    case Effect::Strike:
        return true;
    default:
        return false;
    }
}

} // namespace

std::string_view brokenState(const Setting& setting, const World& world)
{
    const Plant& plant = setting.plant;
    const State& state = world.state;
    for (Index l = 0; l < plant.lamphouses; ++l) {
        if (state.lamphouse[l].leftExposed || !isLookedAt(state, l))
            continue; // the invariants hold from the first time it is shut
        for (const Broken broken :
             {ofExposedLamp(setting, world, l), ofPeopleIn(plant, state, l), ofCovers(plant, state, l),
              ofLight(plant, state, l), ofLamps(plant, state, l)}) {
            if (!broken.empty())
                return broken;
        }
    }
    return ofOpenLamphouses(plant, state);
}

std::string_view brokenMove(const Setting& setting, const World& before, const Move& move, const World& after)
{
    if (move.kind != Move::Kind::Act)
        return {};
    const Done done{setting.plant, before.state, after.state, move.act};
    if (restsOnLocks(move.act.effect) && done.before.group[done.group()].isHearsay && !done.before.hurt)
        return "went on under locks that nobody had looked at since a gap";
    if (restsOnHeat(move.act.effect) && done.before.lamphouse[move.act.lamphouse].unseen && !done.before.hurt)
        return "went on where it was not as it had been left, before another look";
    if (touchesEnergy(move.act.effect)) {
        const Broken broken = ofEnergy(done);
        if (!broken.empty())
            return broken;
    }
    return ofAct(done);
}

} // namespace coldarc::test
