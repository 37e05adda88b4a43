#pragma once

#include "ui/visit/bench_moment.h"

namespace coldarc::ui {

/// The presses of people other than whoever presses the main action, and of leaving the step for later: the
/// answers to a stop, a countersign, their own body and lock. Each has its key.
/// @param countersigned  who has agreed already.
[[nodiscard]] QList<PersonAct> actsOf(const BenchMoment& moment, const PersonId& countersigned);

/// The act of one's own body or lock at a lamphouse.
[[nodiscard]] machine::Act ownAct(machine::Effect effect, machine::Index person, machine::Index lamphouse);

/// The step of the swap that asks of one's own gear or lock; nullptr where there is none, and for the lock
/// while somebody is inside: nothing is typed then, and one press hangs it.
[[nodiscard]] const procedure::Step* ownStepOf(const BenchMoment& moment, machine::Effect effect);

} // namespace coldarc::ui
