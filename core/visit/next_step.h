#pragma once

#include "core/machine/make_safe.h"
#include "core/visit/state.h"

namespace coldarc::visit {

/// Where one swap stands: the step whose turn it is, and what it waits for.
struct NextStep {
    const procedure::Step* step = nullptr; ///< nullptr: nothing is left to do; lives as long as the state
    machine::Act act;     ///< as it would be done by `person`, with the answers that let it pass
    machine::Unmet unmet; ///< what does not hold yet
    bool isAgain = false; ///< it was done before, and what it brought about is lost
    bool isPutRight =
        false; ///< points are doubted: nothing goes on before they are isolated anew, see putRight
};

/// The first step that is neither done nor owed nor already so. Where it waits for something that an earlier
/// step of this swap had brought about and that is lost since, that earlier step comes again.
/// @param state  as seen at the moment asked about (`seenAt`).
[[nodiscard]] NextStep nextStep(const VisitState& state, const SwapState& swap, machine::Index person);

/// The act of a step with the answers that let it pass, for asking what it would wait for.
[[nodiscard]] machine::Act hopefulAct(const VisitState& state, const SwapState& swap,
                                      const procedure::Step& step, machine::Index person);

/// Whether the step needs nobody's hand any more: a lamp that was found off is not put out.
[[nodiscard]] bool isPassedOver(const VisitState& state, const SwapState& swap, const procedure::Step& step,
                                machine::Index person);

/// Where each lamp that came out or stayed in its box goes is decided.
[[nodiscard]] bool isCustodyDecided(const VisitState& state);

/// The wait that a demand of this act stands for and its clock, or nullptr: the longest that is left.
[[nodiscard]] const WaitClock* waitBehind(const VisitState& state, const machine::Act& act,
                                          machine::Unmet unmet);

} // namespace coldarc::visit
