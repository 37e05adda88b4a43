#pragma once

#include "core/visit/next_step.h"
#include "ui/visit/bench_view.h"

namespace coldarc::ui {

/// What the bench asks for next at one swap, whichever way the visit goes.
struct BenchTurn {
    enum class Kind {
        FanQuestion,   ///< somebody has to say whether the fan ran on
        LocksQuestion, ///< somebody has to say whether the locks still hang
        Hold,          ///< a wait, and nothing to do meanwhile
        Step,          ///< of the procedure
        Look,          ///< at a lamphouse that nobody has looked at, outside the procedure's order
        SafeStep,      ///< of making safe, or of putting a doubted breaker right
        EndsHere,      ///< no step leads on any more: what is left is to make safe
        Nothing,       ///< nothing is left at this swap
        Over,          ///< the visit is closed, or can only be read
    };
    Kind kind = Kind::Nothing;
    visit::NextStep next;                    ///< of Step and Look, and of Hold before one
    machine::SafeStep safe;                  ///< of SafeStep, and of Hold before one
    const visit::WaitClock* clock = nullptr; ///< of Hold; lives as long as the state
    machine::Index lamphouse = machine::kNone;
    bool isMakingSafe = false; ///< of SafeStep and Hold: not putting right
    bool isOutFirst = false;   ///< the same: until the locks can be looked at

    /// Names the turn; a change of it brings up a new card.
    [[nodiscard]] QString keyOf(const visit::VisitState& state, const visit::SwapState& swap) const;
};

/// @param state   as seen now; the turn points into it.
/// @param person  whoever presses.
[[nodiscard]] BenchTurn turnOf(const visit::VisitState& state, const visit::SwapState& swap,
                               machine::Index person);

/// The same with another look at a lamphouse that somebody else holds, whose lock and tag may be off by now.
[[nodiscard]] BenchTurn lookAgainTurn(const visit::VisitState& state, const visit::SwapState& swap,
                                      machine::Index person);

/// What a step of making safe asks before it can be written down.
[[nodiscard]] QList<CaptureView> captureViewsOf(const machine::SafeStep& step);

/// The act with what was answered; nothing where an answer is missing or says that it can't be done so.
[[nodiscard]] std::optional<machine::Act> actWith(const machine::SafeStep& step,
                                                  const QList<CaptureAnswer>& answers);

/// Whether only the person that the act names can do it: a lock, gear, a way in or out.
[[nodiscard]] bool isOnesOwn(machine::Effect effect);

} // namespace coldarc::ui
