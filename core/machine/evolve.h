#pragma once

#include "core/machine/demand.h"

#include <array>

namespace coldarc::machine {

/// The timed waits of one lamphouse.
enum class Wait : std::uint8_t {
    Cool,         ///< with the fan
    CoolUnforced, ///< without: after a power or fan failure, or when nobody saw the fan run
    Bleed,
    StrikePause,
    Settle,
};

/// Which waits an act started anew, for whoever keeps the clocks.
struct WaitStarts {
    struct Start {
        Wait wait;
        Index lamphouse;
        bool isFanUnseen = false; ///< the fan wait of a lamp of which nobody has said that air moves over it
    };
    std::array<Start, 2 * kMostLamphouses> start{};
    int count = 0;

    void add(Wait wait, Index lamphouse, bool isFanUnseen = false)
    {
        if (count < static_cast<int>(start.size()))
            start[static_cast<std::size_t>(count++)] = {wait, lamphouse, isFanUnseen};
    }
};

/// The state after an act that was done. Pre: `unmet(plant, state, act)` is empty, or the entry says that it
/// was done.
[[nodiscard]] State after(const Plant& plant, const State& state, const Act& act,
                          WaitStarts* starts = nullptr);
[[nodiscard]] State after(const Plant& plant, const State& state, const Event& event,
                          WaitStarts* starts = nullptr);
/// The state when a running wait of this lamphouse is over; the same state when it does not run.
[[nodiscard]] State whenOver(const State& state, Wait wait, Index lamphouse);

/// The state after an entry was withdrawn that had proved something: whatever it proved waits again, and
/// everything that rested on it. A physical act is not undone by this.
[[nodiscard]] State withdrawn(const Plant& plant, const State& state, const Act& act,
                              WaitStarts* starts = nullptr);
/// Whether an entry with this effect can be withdrawn: it proved something, rather than moved something.
[[nodiscard]] bool canWithdraw(Effect effect);

} // namespace coldarc::machine
