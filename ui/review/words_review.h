#pragma once

#include "core/review/reviewing.h"
#include "core/review/time_line.h"
#include "ui/visit/words_exception.h"

#include <QString>
#include <QTimeZone>

namespace coldarc::ui {

/// "lamp lit", "guard open", "Cold": what a row of the time line shows.
[[nodiscard]] QString nameOf(review::Span::Row row);

/// What was written after the visit was closed, each with its day: the time line ends before it.
[[nodiscard]] QStringList linesAfterClosing(const QList<visit::Entry>& entries,
                                            const visit::VisitState& state, const QTimeZone& zone);

/// Why a review cannot be given, and what would help.
[[nodiscard]] QString sentenceOf(const review::ReviewRefusal& refusal, const QTimeZone& zone);

/// The day of a moment, for a list: "2026-11-23".
[[nodiscard]] QString dayText(WallTime moment, const QTimeZone& zone);

} // namespace coldarc::ui
