#pragma once

#include "ui/visit/bench_moment.h"

namespace coldarc::ui {

/// Everything that the bench shows of a visit. Left empty: the strip, which whoever shows it adds.
[[nodiscard]] BenchView viewOf(const BenchMoment& moment, const BenchMind& mind);

} // namespace coldarc::ui
