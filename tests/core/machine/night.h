#pragma once

#include "core/machine/evolve.h"
#include "core/machine/reach.h"
#include "tests/support/testing.h"

#include <algorithm>
#include <ostream>
#include <string>
#include <variant>
#include <vector>

namespace coldarc::test {

/// A step of a swap as it is worked: something that is done, or a wait that is held until it is over.
using Step = std::variant<machine::Effect, machine::Wait>;

/// Two steps and the paragraph that orders them, or nothing where no rule does.
struct Ordered {
    Step first;
    Step then;
    const char* paragraph;
};

[[nodiscard]] inline std::string wordOf(const Step& step)
{
    if (const auto* effect = std::get_if<machine::Effect>(&step))
        return std::string(machine::wordOf(*effect));
    static constexpr const char* kWaits[] = {"cool", "cool-unforced", "bleed", "strike-pause", "settle-wait"};
    return kWaits[static_cast<std::size_t>(std::get<machine::Wait>(step))];
}

/// One lamphouse with a housing over its guard; the test point lies behind the housing. An engineer (0) and a
/// trainee (1), the lamp found (0) and a spare (1), all invented.
[[nodiscard]] inline machine::Plant invented(int points = 1)
{
    machine::Plant plant;
    plant.points = static_cast<std::uint8_t>(points);
    plant.lamphouses = 1;
    plant.people = 2;
    plant.lamps = 2;
    for (machine::Index point = 0; point < plant.points; ++point)
        plant.point[point] = {true, 1, 0};
    plant.lamphouse[0].points = static_cast<machine::Mask>((1u << points) - 1);
    plant.lamphouse[0].testNeedsHousingOpen = true;
    plant.person[0] = {true, true};
    plant.lamp[0] = {1, false, true, 0};
    plant.lamp[1] = {2, false, true, 0};
    return plant;
}

/// The plain swap on `invented(1)`, in the order in which it is worked.
[[nodiscard]] inline const std::vector<Step>& plainSwap()
{
    using E = machine::Effect;
    using W = machine::Wait;
    static const std::vector<Step> steps{
        E::Find,      E::TellBefore,    E::LampOff,    W::Cool,      E::Standby,     E::Isolate,
        E::LockOn,    E::Relieve,       W::Bleed,      E::TryStart,  E::OpenHousing, E::ProveAbsence,
        E::GearOn,    E::EnterZone,     E::ExposeLamp, E::LampOut,   E::BoxLamp,     E::Unbox,
        E::LampIn,    E::ClampLamp,     E::ShutGuard,  E::LeaveZone, E::ShutHousing, E::Count,
        E::GearOff,   E::LockOff,       E::Restore,    E::PowerUp,   E::BookIn,      E::KeyController,
        E::TellAgain, E::Strike,        E::DowserOpen, E::Peak,      W::Settle,      E::Settle,
        E::PeakAgain, E::MeasureScreen, E::Sign,
    };
    return steps;
}

/// A night at one lamphouse, walked step by step. Whatever is done is asked of the rules first.
class Night {
public:
    explicit Night(const machine::Plant& site = invented())
        : plant(site)
    {
        state.lamp[1].match = machine::Match::Box; // box and paper were compared on arrival
    }

    machine::Plant plant;
    machine::State state;
    machine::WaitStarts starts; ///< of the last thing that was done or happened

    /// The act as a plain swap does it: everything seen, proved, agreed; by the engineer if nobody is named.
    [[nodiscard]] machine::Act act(machine::Effect effect, machine::Index person = 0) const
    {
        using E = machine::Effect;
        machine::Act made;
        made.effect = effect;
        made.person = person;
        made.lamphouse = 0;
        made.supplySeen = made.testerProved = made.custodyDecided = made.answered = true;
        switch (effect) {
        case E::Find:
            made.seen = {.lit = true, .extraction = true, .lamp = 0};
            break;
        case E::Isolate:
        case E::Restore:
        case E::JobLockOff:
            made.point = made.moved = 0;
            break;
        case E::Count:
            made.outcome = machine::Outcome::Same;
            break;
        case E::TryStart:
            made.outcome = machine::Outcome::NoResponse;
            break;
        case E::ProveAbsence:
            made.outcome = machine::Outcome::Absent;
            break;
        case E::Strike:
            made.outcome = machine::Outcome::Lit;
            break;
        default:
            made.outcome = machine::Outcome::Agrees;
        }
        const machine::Index inHand = lampInHand(plant, state, 0);
        made.lamp =
            effect == E::Unbox || effect == E::BookIn || effect == E::KeyController || effect == E::MatchBox
                ? machine::Index{1}
            : inHand == machine::kNone ? machine::Index{0}
                                       : inHand;
        return made;
    }

    [[nodiscard]] bool may(const machine::Act& made) const { return unmet(plant, state, made).none(); }
    [[nodiscard]] bool may(machine::Effect effect, machine::Index person = 0) const
    {
        return may(act(effect, person));
    }
    /// A wait can be over only if it runs.
    [[nodiscard]] bool may(const Step& step) const
    {
        if (const auto* effect = std::get_if<machine::Effect>(&step))
            return may(*effect);
        return whenOver(state, std::get<machine::Wait>(step), 0) != state;
    }
    /// Whether the act waits for this demand, whatever else it waits for.
    [[nodiscard]] bool waitsFor(machine::Demand demand, const machine::Act& made) const
    {
        return unmet(plant, state, made).test(static_cast<std::size_t>(demand));
    }
    [[nodiscard]] bool waitsFor(machine::Demand demand, machine::Effect effect) const
    {
        return waitsFor(demand, act(effect));
    }

    Night& does(const machine::Act& made)
    {
        EXPECT_TRUE(may(made)) << machine::wordOf(made.effect)
                               << " is refused: " << unmet(plant, state, made);
        starts = {};
        state = after(plant, state, made, &starts);
        return *this;
    }
    Night& does(machine::Effect effect, machine::Index person = 0) { return does(act(effect, person)); }
    Night& does(const Step& step)
    {
        if (const auto* effect = std::get_if<machine::Effect>(&step))
            return does(*effect);
        return holds(std::get<machine::Wait>(step));
    }
    Night& does(machine::Effect effect, machine::Outcome outcome)
    {
        machine::Act made = act(effect);
        made.outcome = outcome;
        return does(made);
    }
    /// Holds the wait until it is over.
    Night& holds(machine::Wait wait)
    {
        EXPECT_NE(whenOver(state, wait, 0), state) << "this wait does not run";
        state = whenOver(state, wait, 0);
        return *this;
    }
    Night& happens(machine::Happening what, machine::Index person = 0, machine::Index lamp = 0,
                   machine::Index to = machine::kNone)
    {
        machine::Event event;
        event.what = what;
        event.person = person;
        event.to = to;
        event.lamphouse = event.point = 0;
        event.lamp = lamp;
        EXPECT_TRUE(canHappen(plant, state, event));
        starts = {};
        state = after(plant, state, event, &starts);
        return *this;
    }
    Night& withdraws(machine::Effect effect)
    {
        EXPECT_TRUE(canWithdraw(effect));
        state = withdrawn(plant, state, act(effect));
        return *this;
    }

    /// Works the plain swap as far as this step, which is still to be done.
    Night& untilBefore(const Step& last)
    {
        for (const Step& step : plainSwap()) {
            if (step == last)
                return *this;
            does(step);
        }
        ADD_FAILURE() << "no such step";
        return *this;
    }
    /// Works the plain swap as far as this step, which is done too.
    Night& through(const Step& last) { return untilBefore(last).does(last); }

    /// A person hangs an own lock, signs for gear and goes in.
    Night& goesIn(machine::Index person)
    {
        using E = machine::Effect;
        return does(E::LockOn, person).does(E::GearOn, person).does(E::EnterZone, person);
    }

    [[nodiscard]] const machine::LamphouseState& here() const { return state.lamphouse[0]; }
    [[nodiscard]] bool started(machine::Wait wait) const
    {
        return std::any_of(starts.start.begin(), starts.start.begin() + starts.count,
                           [&](const auto& start) { return start.wait == wait; });
    }
};

/// What stands proved at the lamphouse: a row of the re-arm table.
struct Proved {
    bool cold = false;
    bool startTried = false;
    bool absent = false;
    bool relieved = false;
    bool geared = false;
    bool matched = false;
    friend bool operator==(const Proved&, const Proved&) = default;
    friend void PrintTo(const Proved& p, std::ostream* out)
    {
        *out << (p.cold ? "cold " : "") << (p.startTried ? "start tried " : "")
             << (p.absent ? "voltage absent " : "") << (p.relieved ? "relieved " : "")
             << (p.geared ? "geared " : "") << (p.matched ? "matched" : "");
    }
};

/// Asked of the rules by the demands that effects make.
[[nodiscard]] inline Proved provedAt(const Night& night)
{
    using D = machine::Demand;
    const auto holdsFor = [&](D demand, machine::Effect effect) {
        return machine::holds(night.plant, night.state, night.act(effect), demand);
    };
    using E = machine::Effect;
    return {holdsFor(D::Cold, E::ExposeLamp),   holdsFor(D::StartTried, E::ExposeLamp),
            holdsFor(D::Absent, E::ExposeLamp), holdsFor(D::Relieved, E::ExposeLamp),
            holdsFor(D::Geared, E::ExposeLamp), holdsFor(D::Matched, E::BookIn)};
}

} // namespace coldarc::test
