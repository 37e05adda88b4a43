#pragma once

#include "core/review/exceptions.h"
#include "core/review/reviewing.h"
#include "core/review/time_line.h"

#include <QString>
#include <QTimeZone>

namespace coldarc::ui {

/// Something out of the ordinary, for somebody who was not there.
struct ExceptionWords {
    QString title; ///< "Something went wrong"; the same for every one of its kind
    QString more;  ///< what, where, how much; may be empty

    friend bool operator==(const ExceptionWords&, const ExceptionWords&) = default;
};
/// @param entries  the whole logbook; @param state  the fold of it: it knows the names.
[[nodiscard]] ExceptionWords wordsOf(const review::Exception& exception, const visit::VisitState& state,
                                     const QList<visit::Entry>& entries);
/// The title alone.
[[nodiscard]] QString titleOf(review::Exception::Kind kind);

/// "lamp lit", "guard open", "Cold": what a row of the time line shows.
[[nodiscard]] QString nameOf(review::Span::Row row);

/// What was written after the visit was closed, each with its day: the time line ends before it.
[[nodiscard]] QStringList linesAfterClosing(const QList<visit::Entry>& entries,
                                            const visit::VisitState& state, const QTimeZone& zone);

/// Why a review cannot be given, and what would help.
[[nodiscard]] QString sentenceOf(const review::ReviewRefusal& refusal);

/// The day of a moment, for a list: "2026-11-23".
[[nodiscard]] QString dayText(WallTime moment, const QTimeZone& zone);

} // namespace coldarc::ui
