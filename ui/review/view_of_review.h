#pragma once

#include "ui/review/review_view.h"
#include "ui/review/visit_reading.h"

#include <QTimeZone>

namespace coldarc::ui {

/// Everything that the desk shows of a visit, but for the moment in hand.
[[nodiscard]] ReviewView reviewViewOf(const VisitReading& reading, const QTimeZone& zone);

/// One moment. Pre: the entry is one of the reading's.
[[nodiscard]] MomentView momentViewOf(VisitReading& reading, qint64 entry, const QTimeZone& zone);

/// The visit as the title of its page: "Pier Street, Screen 2 and Screen 4".
[[nodiscard]] QString titleOf(const visit::VisitState& state);

} // namespace coldarc::ui
