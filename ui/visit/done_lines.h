#pragma once

#include "core/visit/state.h"
#include "ui/visit/done_view.h"

#include <QTimeZone>

namespace coldarc::ui {

/// Every entry of a logbook as a person would say it, with what was withdrawn; what stands beside an entry is
/// added by whoever knows it.
/// @param state  the fold of the entries; was opened.
[[nodiscard]] QList<DoneLine> doneLinesOf(const QList<visit::Entry>& entries, const visit::VisitState& state,
                                          const QTimeZone& zone);

/// How many entries there are, with their numbers, which begin at 0: "3 entries, 0 to 2".
[[nodiscard]] QString entriesWords(qsizetype count);

} // namespace coldarc::ui
