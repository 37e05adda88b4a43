#pragma once

#include "core/visit/state.h"

#include <QString>

namespace coldarc::ui {

/// What was out of the ordinary, in a sentence.
[[nodiscard]] QString wordsOf(visit::Exception::Kind kind);
inline constexpr int kExceptions = static_cast<int>(visit::Exception::Kind::Addendum) + 1;

} // namespace coldarc::ui
