#pragma once

#include "core/machine/effect.h"
#include "core/machine/evolve.h"
#include "core/machine/make_safe.h"
#include "core/visit/state.h"

#include <QString>

namespace coldarc::ui {

/// An effect as an order to whoever does it: "Shut the guard".
[[nodiscard]] QString orderOf(machine::Effect effect);
/// Why it is done, and how, in one sentence; for steps that no procedure words.
[[nodiscard]] QString reasonOf(machine::Effect effect);
/// What a wait is for: "Hold for Cold, air running".
[[nodiscard]] QString holdWordsOf(machine::Wait wait);
/// The same in one or two words: "cooling".
[[nodiscard]] QString shortHoldWordsOf(machine::Wait wait);
/// What a running wait ends in, before a clock time: "cold at".
[[nodiscard]] QString endWordsOf(machine::Wait wait);
/// How a wait is counted, in one sentence.
[[nodiscard]] QString countedWordsOf(machine::Wait wait);
/// Where making safe leads: "leads to: out of use, locked and tagged".
[[nodiscard]] QString wordsOf(machine::SafeEnd end);
/// Where it leads from here, at this swap. Where nothing is exchanged no lamp is the old one.
[[nodiscard]] QString safeEndWordsOf(const visit::VisitState& state, const visit::SwapState& swap);

} // namespace coldarc::ui
