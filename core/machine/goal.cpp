#include "core/machine/goal.h"

#include "core/machine/reach.h"

namespace coldarc::machine {

bool isSo(const Plant& plant, const State& state, const Act& act)
{
    const auto here = [&]() -> const LamphouseState& { return state.lamphouse[act.lamphouse]; };
    const auto projector = [&]() -> const ProjectorState& {
        return state.projector[plant.lamphouse[act.lamphouse].projector];
    };
    const auto group = [&]() -> const GroupState& {
        return state
            .group[act.point != kNone ? plant.point[act.point].group : plant.lamphouse[act.lamphouse].group];
    };
    const auto lamp = [&]() -> const LampState& { return state.lamp[act.lamp]; };
    switch (act.effect) {
    case Effect::ExtractionOn:
        return projector().extraction;
    case Effect::GearOff:
        return state.person[act.person].gear == Gear::Off;
    case Effect::DowserShut:
        return !here().dowserOpen;
    case Effect::DowserOpen:
        return here().dowserOpen || !plant.lamphouse[act.lamphouse].hasDowser;
    case Effect::TellBefore:
        return group().told == Told::Before;
    case Effect::TellAgain:
        return group().told == Told::Again;
    case Effect::LampOff:
        return here().heat != Heat::Lit;
    case Effect::Standby:
        return projector().drive != Drive::On;
    case Effect::Isolate:
        return state.point[act.point].power == Power::Off;
    case Effect::LockOn:
        return act.point != kNone && plant.pointsInGroup(plant.point[act.point].group) > 1
                   ? state.point[act.point].jobLock != kNone
                   : has(group().locks, act.person);
    case Effect::Relieve:
        return here().charge != Charge::Held;
    case Effect::TryStart:
        return here().startTried;
    case Effect::ProveAbsence:
        return act.behindGuard ? here().absentBehind : here().absent;
    case Effect::OpenHousing:
        return here().housingOpen;
    case Effect::GearOn:
        return state.person[act.person].gear == Gear::Signed &&
               state.person[act.person].gearFor == act.lamphouse;
    case Effect::EnterZone:
        return state.person[act.person].at == act.lamphouse;
    case Effect::ExposeLamp:
        return here().guardOpen;
    case Effect::AdaptorOff:
        return here().adaptor == kNone;
    case Effect::AdaptorOn:
        return act.lamp != kNone && here().adaptor == act.lamp;
    case Effect::LampIn:
        return here().seat != Seat::Empty && here().lamp == act.lamp;
    case Effect::ClampLamp:
        return here().seat == Seat::Clamped && here().seatingSeen;
    case Effect::ShutGuard:
        return !here().guardOpen;
    case Effect::LeaveZone:
        return state.person[act.person].at != act.lamphouse;
    case Effect::ShutHousing:
        return !here().housingOpen;
    case Effect::Count:
        return here().count == Counting::Same || here().count == Counting::Answered;
    case Effect::LockOff:
        return !has(group().locks, act.person);
    case Effect::JobLockOff:
        return state.point[act.point].jobLock == kNone;
    case Effect::Restore:
        return state.point[act.point].power == Power::On;
    case Effect::PowerUp:
        return projector().drive == Drive::On;
    case Effect::MatchBox:
        return lamp().match != Match::No;
    case Effect::Unbox:
        return lamp().place != Place::Boxed &&
               (lamp().match == Match::Both || lamp().place != Place::SealedBox);
    case Effect::BookIn:
        return lamp().booked;
    case Effect::KeyController:
        return act.lamp != kNone && here().controllerType == plant.lamp[act.lamp].type;
    case Effect::Strike:
        return here().heat == Heat::Lit;
    case Effect::TagOut:
        return here().tagged;
    default:
        return false;
    }
}

bool bringsAbout(Effect effect, Demand demand)
{
    using D = Demand;
    using E = Effect;
    struct Row {
        Effect effect;
        Demand demand;
    };
    static constexpr Row kRows[] = {
        {E::Find, D::Found},
        {E::LampOff, D::Cold},
        {E::LampOff, D::FedCold},
        {E::LampOff, D::ProjectorCold},
        {E::LampOff, D::NoneLit},
        {E::LampOff, D::NotLit},
        {E::Standby, D::ProjectorsNotOn},
        {E::TellBefore, D::ToldBefore},
        {E::TellAgain, D::ToldAgain},
        {E::Isolate, D::PointsOff},
        {E::Isolate, D::PointsLocked},
        {E::LockOn, D::PointsLocked},
        {E::LockOn, D::OwnLock},
        {E::LockOn, D::AuthorisedLock},
        {E::LockOn, D::Geared},
        {E::Relieve, D::Relieved},
        {E::TryStart, D::StartTried},
        {E::ProveAbsence, D::Absent},
        {E::ProveAbsence, D::AbsentBehind},
        {E::GearOn, D::GearSigned},
        {E::GearOn, D::Geared},
        {E::GearOn, D::GearedIfOpen},
        {E::EnterZone, D::InZone},
        {E::EnterZone, D::Geared},
        {E::OpenHousing, D::HousingOpen},
        {E::OpenHousing, D::TestReachable},
        {E::ExposeLamp, D::GuardOpen},
        {E::ExposeLamp, D::TestReachable},
        {E::LampIn, D::SeatClamped},
        {E::ClampLamp, D::SeatClamped},
        {E::ClampLamp, D::SeatingSeen},
        {E::ShutGuard, D::GuardShut},
        {E::ShutGuard, D::NotLeftExposed},
        {E::ShutGuard, D::Shut},
        {E::ShutGuard, D::AllShut},
        {E::ShutGuard, D::ProjectorShut},
        {E::ShutHousing, D::NotLeftExposed},
        {E::ShutHousing, D::Shut},
        {E::ShutHousing, D::AllShut},
        {E::ShutHousing, D::ProjectorShut},
        {E::LeaveZone, D::Outside},
        {E::LeaveZone, D::ZonesEmpty},
        {E::Count, D::CountsAnswered},
        {E::LockOff, D::NoLock},
        {E::LockOff, D::NoPersonalLock},
        {E::JobLockOff, D::NoLock},
        {E::Restore, D::PointsOn},
        {E::PowerUp, D::ProjectorOn},
        {E::MatchBox, D::Matched},
        {E::Unbox, D::Matched},
        {E::Unbox, D::LampInHand}, // one that went back into its box on the way out
        {E::BookIn, D::LampKnown},
        {E::KeyController, D::ReadBack},
        {E::ExtractionOn, D::ExtractionOn},
        {E::DowserShut, D::DowserShut},
        {E::DowserOpen, D::DowserOpen},
        {E::Strike, D::Lit},
    };
    for (const Row& row : kRows) {
        if (row.effect == effect && row.demand == demand)
            return true;
    }
    return false;
}

} // namespace coldarc::machine
