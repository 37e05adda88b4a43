#pragma once

#include "core/visit/state.h"

namespace coldarc::visit {

/// Whether one of the lamps of this swap may hold mercury, which decides how a burst is cleaned up: its type
/// says so, or nobody knows its type. Pure xenon lamps hold none; the fill comes from the lamp type's file.
[[nodiscard]] bool mayHoldMercury(const VisitState& state, const SwapState& swap);

} // namespace coldarc::visit
