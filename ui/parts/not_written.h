#pragma once

#include "core/base/result.h"

namespace coldarc::ui {

/// What is said where something could not be written: what happened, what was kept, what to do.
/// @param kept  a sentence of what became of it, e.g. "Nothing was added."
[[nodiscard]] QString notWritten(const Error& error, const QString& kept);

} // namespace coldarc::ui
