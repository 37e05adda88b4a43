#pragma once

#include "core/photometry/tolerance_set.h"
#include "core/visit/entry.h"
#include "core/visit/state.h"

#include <vector>

namespace coldarc::app {

/// What an invented engineer writes of a screen, in order: the conditions, what it is held against and the
/// readings. On arrival only the centre is read, under the new lamp the sides and corners too, and the
/// colour.
/// @param sets     as shipped; the first one for digital pictures in a theatre is taken, none: no verdict.
/// @param centre   cd/m2 at the screen's centre.
/// @param litFor   how long the lamp has burnt.
[[nodiscard]] QList<visit::Body> demoSheet(const visit::VisitState& state, const visit::SwapState& swap,
                                           const procedure::Step& step,
                                           const std::vector<photometry::ToleranceSet>& sets, double centre,
                                           std::chrono::seconds litFor, WallTime now);

} // namespace coldarc::app
