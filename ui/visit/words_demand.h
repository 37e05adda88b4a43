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

/// What the main action waits for while questions are open: "Waits for 2 answers".
/// Pre: `open` is at least 1.
[[nodiscard]] QString waitsForAnswers(qsizetype open);

} // namespace coldarc::ui
