#pragma once

#include "core/visit/state.h"

#include <QStringList>

namespace coldarc::visit {

/// The steps of this swap that wrong answers of a stop open again, each once, in the procedure's order; none:
/// every answer fits. A choice is wrong by what it means; the last two digits of a lock are compared with
/// those written down when it was hung.
[[nodiscard]] QStringList reopenedBy(const VisitState& state, const SwapState& swap,
                                     const procedure::Step& stop, const procedure::Answers& answers);

} // namespace coldarc::visit
