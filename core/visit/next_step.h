#pragma once

#include "core/machine/make_safe.h"
#include "core/visit/state.h"

namespace coldarc::visit {

/// Where one swap stands: the step whose turn it is, and what it waits for.
struct NextStep {
    const procedure::Step* step = nullptr; ///< nullptr: nothing is left to do; lives as long as the state
    machine::Act act;     ///< as it would be done by `person`, with the answers that let it pass
    machine::Unmet unmet; ///< what does not hold yet
    /// No step of this swap leads on any more (a burst, a wrong or unfit lamp, the model's last attempt
    /// failed, a point that takes no lock): what is left is to make safe.
    bool endsHere = false;
    bool isAgain = false; ///< it was done before, and what it brought about is lost
    bool isPutRight =
        false; ///< points are doubted: nothing goes on before they are isolated anew, see putRight
};

/// The first step that is neither done nor owed nor already so. Where it waits for something that an earlier
/// step of this swap had brought about and that is lost since, that earlier step comes again. Where it can
/// only be done on a machine that is shut, the steps back come first: lamp away or clamped, guard, housing,
/// out.
/// @param state  as seen at the moment asked about (`seenAt`).
[[nodiscard]] NextStep nextStep(const VisitState& state, const SwapState& swap, machine::Index person);

/// Whether somebody who is not of this visit holds a point of this lamphouse's projector, as it was seen
/// last: nothing is opened there, and no power put back.
[[nodiscard]] bool isHeldBySomebody(const VisitState& state, machine::Index lamphouse);
/// The lamphouse where their lock or tag was seen, and where another look says that it is gone: this one, if
/// it is one of them. kNone: nobody holds it.
[[nodiscard]] machine::Index heldAt(const VisitState& state, machine::Index lamphouse);

/// The act of a step with the answers that let it pass, for asking what it would wait for.
[[nodiscard]] machine::Act hopefulAct(const VisitState& state, const SwapState& swap,
                                      const procedure::Step& step, machine::Index person);

/// Whether this step would light a neighbour that stays out: past its life, of unknown hours, or its tries
/// spent.
[[nodiscard]] bool isLeftDark(const VisitState& state, const procedure::Step& step, const machine::Act& act);

/// Whether the step needs nobody's hand any more: a lamp that was found off is not put out.
[[nodiscard]] bool isPassedOver(const VisitState& state, const SwapState& swap, const procedure::Step& step,
                                machine::Index person);

/// Whether this person may answer a stop: whoever did every step since the stop before it does not, as long
/// as somebody else is there who may lead or assist. Nobody else answers. Whoever passed the visit on counts
/// as gone.
[[nodiscard]] bool mayAnswer(const VisitState& state, const SwapState& swap, const procedure::Step& stop,
                             machine::Index person);

/// Where each lamp goes that came out, burst, or was brought and not fitted is decided, and none is in hand
/// or loose; after someone was hurt nobody handles a lamp any more and nothing is asked.
[[nodiscard]] bool isCustodyDecided(const VisitState& state);

/// The wait that a demand of this act stands for and its clock, or nullptr: the longest that is left.
[[nodiscard]] const WaitClock* waitBehind(const VisitState& state, const machine::Act& act,
                                          machine::Unmet unmet);

} // namespace coldarc::visit
