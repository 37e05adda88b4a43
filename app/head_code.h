#pragma once

#include "ui/report/paper_drawing.h"

namespace coldarc::app {

/// A text as the modules of a QR code. Empty where the library takes no such text.
[[nodiscard]] ui::CodeModules codeOf(const QString& text);

} // namespace coldarc::app
