#pragma once

#include "core/visit/decide.h"

namespace coldarc::visit {

/// A gate of one swap that was proved and waits again: for Dead also where one of what it rests on is lost.
struct GateAgain {
    SwapId swap;
    machine::Gate gate = machine::Gate::None;
    friend bool operator==(const GateAgain&, const GateAgain&) = default;
};

/// A step that was done, owed or passed over and comes up again.
struct StepAgain {
    SwapId swap;
    StepId step;
    friend bool operator==(const StepAgain&, const StepAgain&) = default;
};

/// What a correction would cost.
struct Correction {
    QList<GateAgain> gates; ///< by swap, then Cold, Dead, Geared, Matched, Settled
    /// By swap, in the procedure's order: the step of the entry itself, and what comes up next because
    /// something that it rests on is lost.
    QList<StepAgain> steps;
    friend bool operator==(const Correction&, const Correction&) = default;
};

/// What would follow if `by` withdrew this entry at `now`, found by folding the withdrawal without keeping
/// it; or why they cannot. That the machine goes on meanwhile is not foreseen: asked again, it may say more.
[[nodiscard]] tl::expected<Correction, Refusal> ifWithdrawn(const VisitState& state, const PersonId& by,
                                                            qint64 entry, const Stamp& now);

/// Whether taking the visit up at `now` is written down first: it is open, `by` belongs to it, and since its
/// last entry there is a gap that nobody witnessed, or the program was started again while something stood
/// open or somebody was in a zone.
[[nodiscard]] bool isTakenUpAgain(const VisitState& state, const PersonId& by, const Stamp& now,
                                  bool isFirstOfThisRun);

} // namespace coldarc::visit
