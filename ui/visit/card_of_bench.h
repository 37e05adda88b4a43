#pragma once

#include "ui/visit/bench_moment.h"

namespace coldarc::ui {

/// The card of the turn that is up: what to do, why, what it asks, and what a press would do.
[[nodiscard]] StepCard cardOf(const BenchMoment& moment, const BenchMind& mind);

} // namespace coldarc::ui
