#pragma once

#include "core/machine/demand.h"

namespace coldarc::machine {

/// Whether what the act is for is so already: the lamp that it would put out is out, the lock that it would
/// hang hangs. Always false for what is done anew each time (looks, finds, strikes, searches for the peak).
[[nodiscard]] bool isSo(const Plant& plant, const State& state, const Act& act);

/// Whether an act of this effect can bring about a demand that waits. What a clock brings about is not in it.
[[nodiscard]] bool bringsAbout(Effect effect, Demand demand);

} // namespace coldarc::machine
