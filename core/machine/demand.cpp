#include "core/machine/demand.h"

#include "core/machine/reach.h"

#include <initializer_list>

namespace coldarc::machine {
namespace {

using D = Demand;

struct Row {
    Effect effect;
    std::initializer_list<Demand> demands;
};

// The table: what each effect demands. An effect without a row demands nothing.
const Row kRows[] = {
    {Effect::DowserOpen, {D::NotLeftExposed, D::Lit}},
    {Effect::GearOff, {D::Outside}},
    {Effect::TellAgain, {D::NoLock}},
    {Effect::LampOff, {D::Lit}},
    {Effect::Standby, {D::Found, D::NotLeftExposed, D::LocksSeen, D::ProjectorCold}},
    {Effect::Isolate,
     {D::Found, D::NotLeftExposed, D::LocksSeen, D::PointNotDoubted, D::ProjectorsNotOn, D::FedCold,
      D::ToldBefore}},
    {Effect::LockOn, {D::PointsOff, D::PointsTakeLocks}},
    {Effect::Relieve, {D::Found, D::NotLeftExposed, D::NobodyHurt, D::LocksSeen, D::PointsLocked, D::Shut}},
    {Effect::TryStart,
     {D::Found, D::NotLeftExposed, D::NobodyHurt, D::NotHeld, D::LocksSeen, D::PointsLocked, D::Relieved,
      D::SupplySeen, D::AllShut, D::ZonesEmpty, D::NoneLit}},
    {Effect::ProveAbsence,
     {D::NotLeftExposed, D::NobodyHurt, D::LocksSeen, D::StartTried, D::SupplySeen, D::TesterProved,
      D::MayProve, D::TestReachable, D::GearedIfOpen}},
    {Effect::OpenHousing,
     {D::NotLeftExposed, D::NobodyHurt, D::NotHeld, D::LocksSeen, D::Cold, D::PointsLocked, D::AuthorisedLock,
      D::StartTried, D::HousingShut}},
    {Effect::EnterZone, {D::LocksSeen, D::Outside, D::NotLit, D::GearSigned, D::OwnLock}},
    {Effect::ExposeLamp,
     {D::NotLeftExposed, D::NobodyHurt, D::NotHeld, D::LocksSeen, D::Cold, D::PointsLocked, D::AuthorisedLock,
      D::Relieved, D::StartTried, D::Absent, D::HousingOpen, D::GuardShut, D::InZone, D::Geared, D::OneBare}},
    {Effect::WorkInside,
     {D::NotLeftExposed, D::NobodyHurt, D::LocksSeen, D::Cold, D::PointsLocked, D::AuthorisedLock,
      D::Relieved, D::StartTried, D::Absent, D::GuardOpen, D::InZone, D::Geared}},
    {Effect::LampOut,
     {D::NotLeftExposed, D::NobodyHurt, D::LocksSeen, D::Cold, D::PointsLocked, D::AuthorisedLock,
      D::Relieved, D::StartTried, D::Absent, D::AbsentBehind, D::GuardOpen, D::InZone, D::Geared, D::SeatFull,
      D::NoOtherBare}},
    {Effect::Unbox,
     {D::NotLeftExposed, D::NobodyHurt, D::LocksSeen, D::Cold, D::PointsLocked, D::AuthorisedLock,
      D::Relieved, D::StartTried, D::Absent, D::AbsentBehind, D::GuardOpen, D::InZone, D::Geared,
      D::NoBareLamp, D::LampNotUsed, D::NotBarred}},
    {Effect::AdaptorOff, {D::InZone, D::LampInHand, D::Geared, D::AdaptorOnIt}},
    {Effect::AdaptorOn, {D::InZone, D::LampInHand, D::Geared, D::AdaptorLaidBy}},
    {Effect::LampIn, {D::InZone, D::GuardOpen, D::LampInHand, D::SeatEmpty}},
    {Effect::ClampLamp, {D::InZone, D::GuardOpen, D::SeatEntered}},
    {Effect::BoxLamp, {D::InZone, D::LampInHand}},
    {Effect::ShutGuard, {D::InZone, D::GuardOpen, D::NoLooseLamp}},
    {Effect::LeaveZone, {D::InZone, D::StaysWithOpen}},
    {Effect::ShutHousing, {D::HousingOpen, D::GuardShut}},
    {Effect::LockOff,
     {D::LockHeld, D::Outside, D::NobodyHurt, D::NoneLit, D::AllShut, D::ZonesEmpty, D::NoneLoose,
      D::CountsAnswered, D::LastLockLast, D::GearOffIfNotLast}},
    {Effect::JobLockOff,
     {D::JobLockHeld, D::NoPersonalLock, D::NobodyHurt, D::AllShut, D::ZonesEmpty, D::NoneLoose,
      D::CountsAnswered}},
    {Effect::Restore,
     {D::Found, D::NobodyHurt, D::LocksSeen, D::NotHeld, D::NoLock, D::AllShut, D::ZonesEmpty, D::NoneLoose,
      D::CountsAnswered}},
    {Effect::PowerUp,
     {D::NobodyHurt, D::LocksSeen, D::NotHeld, D::ProjectorOff, D::PointsOn, D::NoLock, D::ProjectorShut}},
    {Effect::MatchBox, {D::LampSealed}},
    {Effect::BookIn, {D::Matched}},
    {Effect::KeyController, {D::NobodyHurt, D::ProjectorOn, D::NotLit}},
    {Effect::Strike,
     {D::Found,     D::NotLeftExposed, D::NobodyHurt,  D::LocksSeen,    D::NotHeld,    D::NotLit,
      D::Shut,      D::NoLock,         D::PointsOn,    D::ProjectorOn,  D::DowserShut, D::ExtractionOn,
      D::ToldAgain, D::SeatClamped,    D::SeatingSeen, D::AdaptorRight, D::LampKnown,  D::ReadBack,
      D::NotBarred, D::PauseOver,      D::StrikesLeft}},
    {Effect::Settle, {D::NotLeftExposed, D::Lit, D::Settled}},
    {Effect::Peak, {D::NotLeftExposed, D::Lit, D::DowserOpen}},
    {Effect::PeakAgain, {D::NotLeftExposed, D::Lit, D::DowserOpen, D::Settled}},
    {Effect::MeasureScreen, {D::NotLeftExposed, D::Lit, D::DowserOpen, D::Settled}},
    {Effect::TagOut, {D::LocksSeen, D::IsolatedAndLocked, D::Shut, D::ZonesEmpty}},
    {Effect::Sign, {D::NothingLeft, D::CustodyDecided, D::Answered}},
};

std::array<std::span<const Demand>, kEffects> byEffect()
{
    std::array<std::span<const Demand>, kEffects> spans{};
    for (const Row& row : kRows)
        spans[static_cast<std::size_t>(row.effect)] = {row.demands.begin(), row.demands.size()};
    return spans;
}

const std::array<std::span<const Demand>, kEffects> kByEffect = byEffect();

template<class Lamphouses, class Predicate>
bool every(const Lamphouses& lamphouses, Mask mask, int count, Predicate predicate)
{
    for (int index = 0; index < count; ++index) {
        if (has(mask, static_cast<Index>(index)) && !predicate(lamphouses[static_cast<std::size_t>(index)]))
            return false;
    }
    return true;
}

/// The act with everything that its demands are asked of, looked up once.
struct Asked {
    const Plant& plant;
    const State& state;
    const Act& act;

    const LamphouseState& here() const { return state.lamphouse[act.lamphouse]; }
    const Plant::Lamphouse& plan() const { return plant.lamphouse[act.lamphouse]; }
    const PersonState& person() const { return state.person[act.person]; }
    const LampState& lamp() const { return state.lamp[act.lamp]; }
    Index group() const { return act.point != kNone ? plant.point[act.point].group : plan().group; }
    Mask onPoints() const { return lamphousesOnPoints(plant, act); }
    bool isLastLock() const { return (state.group[group()].locks & ~maskOf(act.person)) == 0; }
    /// Of the lamphouse's group, and of all of the projector where that is switched as a whole.
    Mask switched() const
    {
        const bool isWhole =
            act.effect == Effect::Standby || act.effect == Effect::PowerUp || act.effect == Effect::Strike;
        const Mask own = lamphousesOfGroup(plant, group());
        return isWhole ? static_cast<Mask>(own | lamphousesOfProjector(plant, plan().projector)) : own;
    }
    /// A lock that leaves others hanging opens nothing, so it is asked for less.
    bool leavesOthers() const { return act.effect == Effect::LockOff && !isLastLock(); }
};

bool pointTakesLock(const Plant& plant, const State& state, Index point)
{
    return plant.point[point].lockable && !state.point[point].willNotLock;
}

bool pointsOff(const Asked& a)
{
    const auto isOff = [&](Index point) { return a.state.point[point].power != Power::On; };
    if (a.act.point != kNone)
        return isOff(a.act.point);
    return everyPoint(a.plant, pointsOfGroup(a.plant, a.group()), isOff);
}

bool pointsTakeLocks(const Asked& a)
{
    if (a.act.point != kNone)
        return pointTakesLock(a.plant, a.state, a.act.point);
    if (a.plant.pointsInGroup(a.group()) > 1)
        return true; // the lock box always takes one more
    return everyPoint(a.plant, pointsOfGroup(a.plant, a.group()),
                      [&](Index point) { return pointTakesLock(a.plant, a.state, point); });
}

bool noneHeld(const Asked& a, Mask points)
{
    return everyPoint(a.plant, points, [&](Index point) { return a.state.point[point].heldAt == 0; });
}

bool ownLock(const Asked& a)
{
    const bool isDoubted = !everyPoint(
        a.plant, a.plan().points, [&](Index point) { return a.state.point[point].power != Power::Doubted; });
    // Under a lock that holds nothing nobody goes in anew, but to shut what stands open.
    if (has(a.state.group[a.group()].locks, a.act.person))
        return !isDoubted || !isShut(a.state, a.act.lamphouse);
    // Whoever goes in to shut what was left open hangs a lock wherever one can hang, and only there.
    return a.here().leftExposed && !(pointsOff(a) && pointsTakeLocks(a));
}

bool hangsAuthorised(const Asked& a, Mask locks)
{
    for (Index person = 0; person < a.plant.people; ++person) {
        if (has(locks, person) && a.plant.person[person].authorised)
            return true;
    }
    return false;
}

bool noLock(const Asked& a)
{
    if (a.state.group[a.group()].locks != 0)
        return false;
    const Mask points = a.act.point != kNone ? maskOf(a.act.point) : a.plan().points;
    return everyPoint(a.plant, points, [&](Index point) { return a.state.point[point].jobLock == kNone; });
}

bool lastLockLast(const Asked& a)
{
    const Mask staying = static_cast<Mask>(a.state.group[a.group()].locks & ~maskOf(a.act.person));
    if (staying == 0)
        return a.plant.person[a.act.person].authorised;
    return hangsAuthorised(a, staying);
}

bool staysWithOpen(const Asked& a)
{
    if (!a.here().guardOpen || a.state.hurt)
        return true;
    for (Index person = 0; person < a.plant.people; ++person) {
        if (person != a.act.person && a.state.person[person].at == a.act.lamphouse)
            return true;
    }
    return false;
}

bool oneBare(const Asked& a)
{
    int open = 0;
    int authorised = 0;
    for (Index index = 0; index < a.plant.lamphouses; ++index)
        open += a.state.lamphouse[index].guardOpen ? 1 : 0;
    for (Index index = 0; index < a.plant.people; ++index)
        authorised += a.plant.person[index].authorised ? 1 : 0;
    return open < authorised;
}

bool testReachable(const Asked& a)
{
    if (a.act.behindGuard)
        return a.here().guardOpen && a.person().at == a.act.lamphouse;
    return !a.plan().testNeedsHousingOpen || a.here().housingOpen;
}

bool lampKnown(const Asked& a)
{
    const LampState& lamp = a.state.lamp[a.here().lamp];
    return !lamp.unfit && (lamp.booked || lamp.life == Life::Below);
}

bool adaptorRight(const Asked& a)
{
    const bool carries = a.here().adaptor == a.here().lamp;
    return carries == a.plant.lamp[a.here().lamp].needsAdaptor;
}

bool isolatedAndLocked(const Plant& plant, const State& state, Mask points)
{
    return everyPoint(plant, points, [&](Index point) {
        const PointState& here = state.point[point];
        // What somebody else holds is not put back, so one that proved wrong is not isolated anew: the tag
        // stays.
        const bool isOff = here.power == Power::Off || (here.heldAt != 0 && here.power == Power::Doubted);
        return isOff && (!pointTakesLock(plant, state, point) || isLocked(plant, state, point));
    });
}

bool nothingLeft(const Asked& a)
{
    if (a.state.hurt)
        return true;
    for (Index index = 0; index < a.plant.lamphouses; ++index) {
        if (!isShut(a.state, index) || !isZoneEmpty(a.plant, a.state, index) ||
            hasLooseLamp(a.plant, a.state, index))
            return false;
    }
    for (Index point = 0; point < a.plant.points; ++point) {
        const Index group = a.plant.point[point].group;
        bool tagged = false;
        for (Index index = 0; index < a.plant.lamphouses; ++index)
            tagged = tagged || (a.plant.lamphouse[index].group == group && a.state.lamphouse[index].tagged);
        const bool free = a.state.group[group].locks == 0 && a.state.point[point].jobLock == kNone;
        // What somebody else holds is left as they left it.
        const bool isBack = a.state.point[point].heldAt != 0 || a.state.point[point].power == Power::On;
        const bool isLeftOff =
            isolatedAndLocked(a.plant, a.state, maskOf(point)) && !a.state.group[group].isHearsay;
        if (tagged ? !isLeftOff : !free || !isBack)
            return false;
    }
    return true;
}

bool holdsAsked(const Asked& a, Demand demand)
{
    const auto everyOnPoints = [&](auto predicate) {
        return every(a.state.lamphouse, a.onPoints(), a.plant.lamphouses, predicate);
    };
    const auto everyLamphouse = [&](Mask mask, auto predicate) {
        for (Index index = 0; index < a.plant.lamphouses; ++index) {
            if (has(mask, index) && !predicate(index))
                return false;
        }
        return true;
    };
    const auto ofProjector = [&]() { return lamphousesOfProjector(a.plant, a.plan().projector); };

    switch (demand) {
    case D::Found:
        return everyLamphouse(a.onPoints(), [&](Index index) { return isLookedAt(a.state, index); });
    case D::NotLeftExposed:
        return everyOnPoints([](const LamphouseState& l) { return !l.leftExposed; });
    case D::NobodyHurt:
        return !a.state.hurt;
    case D::Lit:
        return a.here().heat == Heat::Lit;
    case D::NotLit:
        return a.here().heat != Heat::Lit;
    case D::NoneLit:
        return everyOnPoints([](const LamphouseState& l) { return l.heat != Heat::Lit; });
    case D::Cold:
        return isKnownCold(a.plant, a.state, a.act.lamphouse);
    case D::ProjectorCold:
        return everyLamphouse(ofProjector(),
                              [&](Index index) { return isKnownCold(a.plant, a.state, index); });
    case D::FedCold:
        return everyLamphouse(a.plant.point[a.act.point].feeds,
                              [&](Index index) { return isKnownCold(a.plant, a.state, index); });
    case D::ProjectorsNotOn:
        return everyLamphouse(a.plant.point[a.act.point].feeds, [&](Index index) {
            return a.state.projector[a.plant.lamphouse[index].projector].drive != Drive::On;
        });
    case D::ProjectorOn:
        return a.state.projector[a.plan().projector].drive == Drive::On;
    case D::ProjectorOff:
        return a.state.projector[a.plan().projector].drive != Drive::On;
    case D::ToldBefore:
        return a.state.group[a.group()].told == Told::Before;
    case D::ToldAgain:
        return a.state.group[a.group()].told == Told::Again;
    case D::PointNotDoubted:
        // All of the group are put right before any is switched off anew, but one that is not ours to switch.
        return a.state.point[a.act.point].power != Power::Doubted &&
               everyPoint(a.plant, pointsOfGroup(a.plant, a.group()), [&](Index point) {
                   const PointState& other = a.state.point[point];
                   return other.power != Power::Doubted || other.heldAt != 0;
               });
    case D::PointsOff:
        return pointsOff(a);
    case D::PointsTakeLocks:
        return pointsTakeLocks(a);
    case D::NotHeld:
        return everyLamphouse(a.act.point == kNone ? ofProjector() : Mask(0),
                              [&](Index index) { return noneHeld(a, a.plant.lamphouse[index].points); }) &&
               (a.act.point == kNone || noneHeld(a, maskOf(a.act.point)));
    case D::PointsLocked:
        return everyPoint(a.plant, a.plan().points, [&](Index point) {
            return a.state.point[point].power == Power::Off && isLocked(a.plant, a.state, point);
        });
    case D::LocksSeen:
        return a.state.hurt || everyLamphouse(a.switched(), [&](Index index) {
                   return !a.state.group[a.plant.lamphouse[index].group].isHearsay;
               });
    case D::PointsOn:
        return everyLamphouse(ofProjector(), [&](Index index) {
            return everyPoint(a.plant, a.plant.lamphouse[index].points,
                              [&](Index point) { return a.state.point[point].power == Power::On; });
        });
    case D::NoLock:
        return noLock(a);
    case D::NoPersonalLock:
        return a.state.group[a.group()].locks == 0;
    case D::OwnLock:
        return ownLock(a);
    case D::AuthorisedLock:
        return hangsAuthorised(a, a.state.group[a.group()].locks);
    case D::LockHeld:
        return has(a.state.group[a.group()].locks, a.act.person);
    case D::JobLockHeld:
        return a.state.point[a.act.point].jobLock == a.act.person;
    case D::LastLockLast:
        return lastLockLast(a);
    case D::GearOffIfNotLast:
        return a.isLastLock() || a.person().gear == Gear::Off;
    case D::Relieved:
        return a.here().charge == Charge::Relieved;
    case D::SupplySeen:
        return a.act.supplySeen;
    case D::StartTried:
        return a.here().startTried;
    case D::Absent:
        return a.here().absent;
    case D::AbsentBehind:
        return !a.plan().testBehindGuard || a.here().absentBehind;
    case D::TesterProved:
        return a.act.testerProved;
    case D::MayProve:
        return a.plant.person[a.act.person].mayProve;
    case D::TestReachable:
        return testReachable(a);
    case D::GearedIfOpen:
        return !a.here().guardOpen || isGeared(a.plant, a.state, a.act.lamphouse);
    case D::Geared:
        return isGeared(a.plant, a.state, a.act.lamphouse);
    case D::GearSigned:
        return a.person().gear == Gear::Signed && a.person().gearFor == a.act.lamphouse;
    case D::InZone:
        return a.person().at == a.act.lamphouse;
    case D::Outside:
        return a.person().at == kNone;
    case D::ZonesEmpty:
        return a.leavesOthers() || (a.act.effect == Effect::TagOut && a.state.hurt) ||
               everyLamphouse(a.onPoints(),
                              [&](Index index) { return isZoneEmpty(a.plant, a.state, index); });
    case D::StaysWithOpen:
        return staysWithOpen(a);
    case D::OneBare:
        return oneBare(a);
    case D::Shut:
        return (a.act.effect == Effect::TagOut && a.state.hurt) || isShut(a.state, a.act.lamphouse);
    case D::AllShut:
        return a.leavesOthers() ||
               everyLamphouse(a.onPoints(), [&](Index index) { return isShut(a.state, index); });
    case D::ProjectorShut:
        return everyLamphouse(ofProjector(), [&](Index index) { return isShut(a.state, index); });
    case D::HousingShut:
        return !a.here().housingOpen;
    case D::HousingOpen:
        return a.here().housingOpen || (a.act.effect != Effect::ShutHousing && !a.plan().hasHousing);
    case D::GuardShut:
        return !a.here().guardOpen;
    case D::GuardOpen:
        return a.here().guardOpen;
    case D::NoLooseLamp:
        return !hasLooseLamp(a.plant, a.state, a.act.lamphouse);
    case D::NoneLoose:
        return a.leavesOthers() || everyLamphouse(a.onPoints(), [&](Index index) {
                   return !hasLooseLamp(a.plant, a.state, index);
               });
    case D::NoBareLamp:
        return a.here().seat == Seat::Empty && !hasLooseLamp(a.plant, a.state, a.act.lamphouse);
    case D::NoOtherBare:
        return lampInHand(a.plant, a.state, a.act.lamphouse) == kNone;
    case D::SeatEmpty:
        return a.here().seat == Seat::Empty;
    case D::SeatFull:
        return a.here().seat != Seat::Empty;
    case D::SeatEntered:
        return a.here().seat == Seat::Entered || (a.here().seat == Seat::Clamped && !a.here().seatingSeen);
    case D::SeatClamped:
        return a.here().seat == Seat::Clamped;
    case D::LampInHand:
        return a.lamp().place == Place::InHand;
    case D::LampSealed:
        return a.lamp().place == Place::SealedBox;
    case D::LampNotUsed:
        return (a.lamp().place == Place::SealedBox || a.lamp().place == Place::Boxed) && !a.lamp().unfit &&
               a.lamp().life != Life::PastEnd;
    case D::NotBarred:
        return !a.here().barred && !a.here().tagged;
    case D::AdaptorOnIt:
        return a.here().adaptor == a.act.lamp;
    case D::AdaptorLaidBy:
        return a.plan().hasAdaptor && a.here().adaptor == kNone && !a.here().adaptorLost;
    case D::CountsAnswered:
        return a.leavesOthers() || everyOnPoints([](const LamphouseState& l) {
                   return l.count != Counting::Due && l.count != Counting::Differs;
               });
    case D::Matched:
        return a.lamp().match == Match::Both && a.plant.lamp[a.act.lamp].accepted;
    case D::LampKnown:
        return a.here().lamp != kNone && lampKnown(a);
    case D::ReadBack:
        return a.here().lamp != kNone && a.here().controllerType == a.plant.lamp[a.here().lamp].type;
    case D::SeatingSeen:
        return a.here().seatingSeen;
    case D::AdaptorRight:
        return a.here().lamp != kNone && adaptorRight(a);
    case D::DowserShut:
        return !a.here().dowserOpen;
    case D::DowserOpen:
        return !a.plan().hasDowser || a.here().dowserOpen;
    case D::ExtractionOn:
        return a.state.projector[a.plan().projector].extraction;
    case D::PauseOver:
        return a.here().pause != Waiting::Running;
    case D::StrikesLeft:
        return a.here().failedStrikes < a.plan().strikeLimit;
    case D::Settled:
        return a.here().settle == Waiting::Over;
    case D::IsolatedAndLocked:
        return a.state.hurt || isolatedAndLocked(a.plant, a.state, a.plan().points);
    case D::NothingLeft:
        return nothingLeft(a);
    case D::CustodyDecided:
        return a.act.custodyDecided;
    case D::Answered:
        return a.act.answered;
    }
    return false; // a demand that nobody can judge does not hold
}

} // namespace

std::span<const Demand> demandsOf(Effect effect)
{
    return kByEffect[static_cast<std::size_t>(effect)];
}

bool holds(const Plant& plant, const State& state, const Act& act, Demand demand)
{
    return holdsAsked({plant, state, act}, demand);
}

Unmet unmet(const Plant& plant, const State& state, const Act& act)
{
    Unmet missing;
    const Asked asked{plant, state, act};
    for (const Demand demand : demandsOf(act.effect)) {
        if (!holdsAsked(asked, demand))
            missing.set(static_cast<std::size_t>(demand));
    }
    return missing;
}

Gate gateOf(Demand demand)
{
    switch (demand) {
    case D::Cold:
    case D::ProjectorCold:
    case D::FedCold:
        return Gate::Cold;
    case D::PointsLocked:
    case D::AuthorisedLock:
    case D::LocksSeen:
    case D::Relieved:
    case D::StartTried:
    case D::Absent:
    case D::AbsentBehind:
        return Gate::Dead;
    case D::Geared:
    case D::GearedIfOpen:
    case D::GearSigned:
    case D::OwnLock:
        return Gate::Geared;
    case D::Matched:
        return Gate::Matched;
    case D::Settled:
        return Gate::Settled;
    default:
        return Gate::None;
    }
}

bool isSafeWard(Effect effect)
{
    switch (effect) {
    case Effect::LampIn:
    case Effect::ClampLamp:
    case Effect::BoxLamp:
    case Effect::ShutGuard:
    case Effect::ShutHousing:
    case Effect::LeaveZone:
    case Effect::GearOn:
    case Effect::LockOn:
    case Effect::DowserShut:
    case Effect::ExtractionOn:
        return true;
    default:
        return false;
    }
}

bool canHappen(const Plant& plant, const State& state, const Event& event)
{
    const auto heat = [&]() { return state.lamphouse[event.lamphouse].heat; };
    switch (event.what) {
    case Happening::FanStopped:
        return heat() == Heat::Lit || heat() == Heat::Cooling ||
               (heat() == Heat::Cold && !isIsolated(plant, state, event.lamphouse));
    case Happening::WentOut:
        return heat() == Heat::Lit;
    case Happening::PowerFailed:
        return state.point[event.point].power != Power::Off;
    case Happening::LampBurst:
    case Happening::LampUnfit:
        return state.lamp[event.lamp].place != Place::Burst;
    case Happening::GearDamaged:
        return state.person[event.person].gear != Gear::Off;
    case Happening::AdaptorLost:
        return plant.lamphouse[event.lamphouse].hasAdaptor && !state.lamphouse[event.lamphouse].adaptorLost;
    case Happening::CountAnswered:
        return state.lamphouse[event.lamphouse].count == Counting::Differs;
    case Happening::PointWillNotLock:
        return !state.point[event.point].willNotLock;
    case Happening::PassedOn:
        return canPassOn(plant, state, event.person, event.to);
    case Happening::LockRemoved:
        return canRemoveLock(plant, state, event.person, plant.lamphouse[event.lamphouse].group);
    case Happening::FoundOpen:
        return heat() != Heat::Unknown && isShut(state, event.lamphouse);
    case Happening::LocksSeen:
    case Happening::LocksMissed:
        return state.group[plant.lamphouse[event.lamphouse].group].isHearsay;
    case Happening::WrongLamp:
    case Happening::SomeoneHurt:
    case Happening::Resumed:
    case Happening::LeftAlone:
        return true;
    }
    return false;
}

} // namespace coldarc::machine
