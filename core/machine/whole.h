#pragma once

#include "core/machine/act.h"

namespace coldarc::machine {

/// Whether an act names everything that its effect is about, each within the plant. Asked before an act that
/// comes from outside (an entry, a command) is judged or done; rules may then take its indices as they are.
[[nodiscard]] bool isWhole(const Plant& plant, const Act& act);
[[nodiscard]] bool isWhole(const Plant& plant, const Event& event);

/// Whether this effect can come out so. Plain says that it was done, or tried, and proves nothing; a count
/// always says what was counted.
[[nodiscard]] bool canComeOut(Effect effect, Outcome outcome);

} // namespace coldarc::machine
