#pragma once

#include "core/visit/state.h"

#include <QStringList>

namespace coldarc::ui {

/// What must be keyed into the projector's own controller for the new lamp of this swap, one line each: type,
/// lamp hours, alert threshold. A value that is not known yet says so.
[[nodiscard]] QStringList keyInWordsOf(const visit::VisitState& state, const visit::SwapState& swap);

} // namespace coldarc::ui
