#pragma once

#include "ui/review/review_view.h"
#include "ui/review/visit_reading.h"

#include <QTimeZone>

#include <functional>

namespace coldarc::ui {

/// Everything that the desk shows of a visit, but for the moment in hand.
[[nodiscard]] ReviewView reviewViewOf(const VisitReading& reading, const QTimeZone& zone);

/// The rows of a time line of one lamphouse: what stood there, in the order in which it is drawn.
/// @param minutesAt  where a moment is drawn.
[[nodiscard]] QList<TimeLineView::Row> timeLineRowsOf(const QList<review::Span>& spans,
                                                      const LamphouseId& lamphouse,
                                                      const std::function<double(WallTime)>& minutesAt);

/// Of each lamphouse that is worked on, of its lamps, and of everybody: each once.
[[nodiscard]] QList<HistoryOffer> historiesOf(const visit::VisitState& state);

/// One moment. Pre: the entry is one of the reading's.
[[nodiscard]] MomentView momentViewOf(VisitReading& reading, qint64 entry, const QTimeZone& zone);

/// The visit as the title of its page: "Pier Street, Screen 2 and Screen 4".
[[nodiscard]] QString titleOf(const visit::VisitState& state);

} // namespace coldarc::ui
