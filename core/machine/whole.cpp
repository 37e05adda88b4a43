#include "core/machine/whole.h"

namespace coldarc::machine {
namespace {

/// What an effect or happening is about.
struct Needs {
    bool person = false;
    bool lamphouse = false;
    bool point = false;
    bool lamp = false;
};

Needs needsOf(Effect effect)
{
    switch (effect) {
    case Effect::Look:
    case Effect::CountOpening:
        return {};
    case Effect::Isolate:
    case Effect::Restore:
        return {false, true, true, false};
    case Effect::JobLockOff:
        return {true, true, true, false};
    case Effect::GearOff:
    case Effect::GearOn:
    case Effect::EnterZone:
    case Effect::LeaveZone:
    case Effect::LockOn:
    case Effect::LockOff:
    case Effect::ProveAbsence:
    case Effect::ExposeLamp:
    case Effect::WorkInside:
    case Effect::LampOut:
    case Effect::ClampLamp:
    case Effect::ShutGuard:
        return {true, true, false, false};
    case Effect::Unbox:
    case Effect::AdaptorOff:
    case Effect::AdaptorOn:
    case Effect::LampIn:
    case Effect::BoxLamp:
        return {true, true, false, true};
    case Effect::MatchBox:
    case Effect::BookIn:
    case Effect::KeyController:
        return {false, true, false, true};
    default:
        return {false, true, false, false};
    }
}

Needs needsOf(Happening what)
{
    switch (what) {
    case Happening::FanStopped:
    case Happening::WentOut:
    case Happening::AdaptorLost:
    case Happening::CountAnswered:
    case Happening::FoundOpen:
    case Happening::LocksSeen:
    case Happening::LocksMissed:
        return {false, true, false, false};
    case Happening::PowerFailed:
    case Happening::PointWillNotLock:
        return {false, false, true, false};
    case Happening::LampBurst:
    case Happening::LampUnfit:
    case Happening::WrongLamp:
        return {false, false, false, true};
    case Happening::GearDamaged:
    case Happening::PassedOn:
        return {true, false, false, false};
    case Happening::LockRemoved:
        return {true, true, false, false};
    case Happening::SomeoneHurt:
    case Happening::Resumed:
    case Happening::LeftAlone:
        return {};
    }
    return {true, true, true, true};
}

/// There where it is needed, and within the plant where it is there.
bool fits(Index index, int count, bool isNeeded)
{
    return index == kNone ? !isNeeded : index < count;
}

/// Whether it holds something against what it should be.
bool isCompared(Effect effect)
{
    return effect == Effect::MatchBox || effect == Effect::Unbox || effect == Effect::ClampLamp ||
           effect == Effect::KeyController;
}

bool fit(const Plant& plant, const Needs& needs, Index person, Index lamphouse, Index point, Index lamp)
{
    return fits(person, plant.people, needs.person) && fits(lamphouse, plant.lamphouses, needs.lamphouse) &&
           fits(point, plant.points, needs.point) && fits(lamp, plant.lamps, needs.lamp);
}

} // namespace

bool isWhole(const Plant& plant, const Act& act)
{
    const bool seesALamp = act.effect == Effect::Find && act.seen.seat != Seat::Empty;
    const bool missesALamp = act.effect == Effect::Look && act.outcome == Outcome::Disagrees;
    return (!missesALamp || (act.lamphouse != kNone && act.lamp != kNone)) &&
           fit(plant, needsOf(act.effect), act.person, act.lamphouse, act.point, act.lamp) &&
           fits(act.moved, plant.points, false) && fits(act.seen.lamp, plant.lamps, seesALamp);
}

bool isWhole(const Plant& plant, const Event& event)
{
    return fit(plant, needsOf(event.what), event.person, event.lamphouse, event.point, event.lamp) &&
           fits(event.to, plant.people, event.what == Happening::PassedOn);
}

bool canComeOut(Effect effect, Outcome outcome)
{
    switch (outcome) {
    case Outcome::Plain:
        return effect != Effect::Count;
    case Outcome::NoResponse:
    case Outcome::Started:
        return effect == Effect::TryStart;
    case Outcome::Absent:
    case Outcome::Voltage:
        return effect == Effect::ProveAbsence;
    case Outcome::Lit:
    case Outcome::NoLight:
    case Outcome::Burst:
        return effect == Effect::Strike;
    case Outcome::Same:
    case Outcome::Differs:
        return effect == Effect::Count;
    case Outcome::Agrees:
        return isCompared(effect);
    case Outcome::Disagrees:
        return isCompared(effect) || effect == Effect::Look || effect == Effect::ShutGuard ||
               effect == Effect::ShutHousing || effect == Effect::BoxLamp || effect == Effect::AdaptorOff ||
               effect == Effect::AdaptorOn;
    case Outcome::WillNotLock:
        return effect == Effect::LockOn;
    case Outcome::FanRuns:
    case Outcome::FanStill:
        return effect == Effect::LampOff;
    }
    return false;
}

} // namespace coldarc::machine
