#pragma once

#include "core/visit/state.h"

#include <QStringList>

namespace coldarc::visit {

// Gates that wait when something is done, in words ("cold", "dead", "geared"), each once.

/// Those that wait while something safe-ward is done inside a machine that is open: that is let happen.
[[nodiscard]] QStringList waitingGates(const VisitState& state, const machine::Act& act);

/// Those of which a demand of this act does not hold; "clear" where light or power is put on before all is
/// shut, free of locks and empty of people. Nobody is let do it: only entries that were not made by `decide`
/// say so. What tells of danger is taken down whatever waits.
[[nodiscard]] QStringList skippedGates(const VisitState& state, const machine::Act& act);
/// The same of a step of which no such act is told.
[[nodiscard]] QStringList skippedGates(const VisitState& state, const SwapState& swap,
                                       const procedure::Step& step, machine::Index person);

/// It started, voltage, a burst, something left inside.
[[nodiscard]] bool tellsOfDanger(const machine::Act& act);

} // namespace coldarc::visit
