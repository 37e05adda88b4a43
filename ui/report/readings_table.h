#pragma once

#include "core/visit/state.h"

#include <QByteArray>

namespace coldarc::ui {

/// Every reading of light of a visit as a table for other programs: UTF-8, comma, one line a reading, RFC
/// 4180; units stand in the header. What was corrected or taken back is there and says so. A text that a
/// spreadsheet would take for a formula is made plain.
[[nodiscard]] QByteArray readingsTable(const visit::VisitState& state, const QList<visit::Entry>& entries);

} // namespace coldarc::ui
