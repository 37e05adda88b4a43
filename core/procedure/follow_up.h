#pragma once

#include "core/machine/act.h"
#include "core/machine/plant.h"
#include "core/procedure/procedure.h"

#include <QList>

namespace coldarc::procedure {

/// The steps of a visit that only does what an earlier one left, in the procedure's order: how it is found,
/// what leads to a lamp that burns behind an open dowser, the owed ones, the settling that these ask for, and
/// the signing. Nothing is opened and no lamp is handled. Where the peak is sought, another lamphouse of the
/// same projector gets its dowser shut first; it is lit only where something else than the peak is owed.
/// @param lamp  the one in the seat.
/// @param owed  ids of steps that may follow; one that this procedure has not is left out.
[[nodiscard]] QList<Step> followUpSteps(const Procedure& procedure, const LampFacts& lamp,
                                        const QList<StepId>& owed);

/// Whether a step of such a visit needs nobody's hand as things stand: what only leads to a lamp that burns,
/// where it burns, and what is so already.
/// @param steps  of the visit.
/// @param act    of the step. Pre: its lamphouse was looked at.
[[nodiscard]] bool isNeedless(const machine::Plant& plant, const machine::State& state,
                              const QList<Step>& steps, const Step& step, const machine::Act& act);

} // namespace coldarc::procedure
