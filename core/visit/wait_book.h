#pragma once

#include "core/base/clock.h"
#include "core/machine/evolve.h"

#include <array>
#include <chrono>

namespace coldarc::visit {

/// How long the model of one lamphouse asks to wait.
struct WaitTimes {
    std::chrono::milliseconds coolFan{0};      ///< with the fan, at least 10 minutes
    std::chrono::milliseconds coolUnforced{0}; ///< without it, or when nobody can say
    std::chrono::milliseconds bleed{0};
    std::chrono::milliseconds strikePause{0};
    std::chrono::milliseconds settle{0};

    [[nodiscard]] std::chrono::milliseconds of(machine::Wait wait) const;
};

/// One wait and the time that a boot clock has witnessed of it.
///
/// Credited: within one boot, what its clock counted, sleep included; over a restart of the same computer,
/// what was witnessed before it and the new boot clock's own reading; on another computer nothing, the wait
/// starts again. Never the wall clock, and never time while the computer was off. A wait that lives on a
/// running fan asks, after sleep, a restart or another computer, once a breaker was moved that nobody can
/// name, or where the lamp went out with nobody asked for the fan, whether the fan ran on, and is not over
/// before somebody says that it did.
struct WaitClock {
    bool isRunning = false;
    machine::Wait wait = machine::Wait::Cool;
    std::chrono::milliseconds needed{0};
    std::chrono::milliseconds credited{0};
    Stamp last;              ///< up to when it is credited
    bool asksForFan = false; ///< "did the fan run on?"

    [[nodiscard]] std::chrono::milliseconds left() const;
    [[nodiscard]] bool isOver() const { return isRunning && !asksForFan && credited >= needed; }

    friend bool operator==(const WaitClock&, const WaitClock&) = default;
};

[[nodiscard]] WaitClock started(machine::Wait wait, std::chrono::milliseconds needed, const Stamp& now);
/// The wait as it stands at `now`, which comes after its last stamp. A wait that does not run stays as it is.
[[nodiscard]] WaitClock witnessed(const WaitClock& clock, const Stamp& now);

/// By how much a computer that keeps its own clock right may take it back at once; more was set by hand. Our
/// choice: what a clock goes wrong by in some days.
inline constexpr std::chrono::seconds kMostClockTrim{5};

/// Whether the computer slept, was started again or was exchanged between two stamps: a gap that nobody
/// witnessed.
[[nodiscard]] bool isGap(const Stamp& before, const Stamp& now);
/// How long a computer may sleep with everything shut before what was left is looked at again. Our choice:
/// longer than a lid is shut for on the way to the booth, shorter than a show.
inline constexpr std::chrono::minutes kLongSleep{15};

/// A gap after which what hangs, stands off or is cold is hearsay.
/// @param isOpen  something stands open: then any sleep is long enough
[[nodiscard]] bool isLeftAlone(const Stamp& before, const Stamp& now, bool isOpen);

/// The clocks of one lamphouse, one for each thing that can wait in it.
struct LamphouseWaits {
    WaitClock cool;
    WaitClock bleed;
    WaitClock strikePause;
    WaitClock settle;

    [[nodiscard]] WaitClock& of(machine::Wait wait);
    [[nodiscard]] const WaitClock& of(machine::Wait wait) const;
    friend bool operator==(const LamphouseWaits&, const LamphouseWaits&) = default;
};

using WaitBook = std::array<LamphouseWaits, machine::kMostLamphouses>;

} // namespace coldarc::visit
