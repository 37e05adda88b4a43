#pragma once

#include "core/review/exceptions.h"
#include "core/visit/state.h"

#include <QString>

namespace coldarc::ui {

/// What was out of the ordinary, in a sentence.
[[nodiscard]] QString wordsOf(visit::Exception::Kind kind);
inline constexpr int kExceptions = static_cast<int>(visit::Exception::Kind::Addendum) + 1;

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

} // namespace coldarc::ui
