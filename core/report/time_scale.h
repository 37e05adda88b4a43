#pragma once

#include "core/report/report.h"

#include <vector>

namespace coldarc::report {

/// Minutes from one moment to another; none where the clock was set back between them.
[[nodiscard]] double minutesBetween(WallTime from, WallTime to);
[[nodiscard]] WallTime after(WallTime from, double minutes);

/// Minutes that a drawing of the visit up to review::endOfWork spans, at least 1.
[[nodiscard]] double minutesShown(const Report& report);

/// Where a scale of so many minutes has its ticks: 0 and every 5, 10, 15, 30, 60 minutes or a multiple of an
/// hour, ten of them at most.
[[nodiscard]] std::vector<double> ticksOver(double minutes);

} // namespace coldarc::report
