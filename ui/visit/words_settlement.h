#pragma once

#include "core/visit/settlement_store.h"

#include <QString>

namespace coldarc::ui {

/// Why a part of a closed visit did not go over to lamps and sites, and what to do about it.
[[nodiscard]] QString wordsFor(const visit::Leftover& leftover);
/// On the button that tries it again; empty where trying does not help.
[[nodiscard]] QString actFor(const visit::Leftover& leftover);
/// How the counters are taken when it is tried again: somebody pressed "hours unknown".
[[nodiscard]] visit::CountersAre countersFor(const visit::Leftover& leftover);

} // namespace coldarc::ui
