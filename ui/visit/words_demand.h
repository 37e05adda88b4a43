#pragma once

#include "core/machine/demand.h"

#include <QString>

namespace coldarc::ui {

/// What a demand is called where there is room for a few words only, behind "waits:": "start tried", "voltage
/// absent". Never a gate's name alone where the gate needs two facts.
[[nodiscard]] QString shortWordsOf(machine::Demand demand);

/// One sentence for whoever is held up: what does not hold yet, and what would make it hold.
[[nodiscard]] QString wayOf(machine::Demand demand);

/// "Cold", "Dead", "Geared", "Matched", "Settled"; for None what is neither: "Order of the work".
[[nodiscard]] QString nameOf(machine::Gate gate);

} // namespace coldarc::ui
