#pragma once

#include "core/visit/sheet_of_visit.h"

#include <optional>
#include <vector>

namespace coldarc::ui {

/// In which order the points of a sheet are read: the centre first, since everything is held against it;
/// then what the limits need, then the rest.
[[nodiscard]] std::vector<photometry::Place> pointOrder(const visit::SheetOfSwap& sheet);
/// In which orders a table may tell of them without naming a place.
[[nodiscard]] std::vector<std::vector<photometry::Place>> tableOrders(const visit::SheetOfSwap& sheet);
/// The next point to read. Nothing once every needed point has a reading, unless somebody has begun with the
/// others.
[[nodiscard]] std::optional<photometry::Place> nextOpen(const visit::SheetOfSwap& sheet);

} // namespace coldarc::ui
