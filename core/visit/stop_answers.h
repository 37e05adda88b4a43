#pragma once

#include "core/visit/state.h"

#include <QStringList>

namespace coldarc::visit {

/// The steps of this swap that wrong answers of a stop open again, each once, in the procedure's order; none:
/// every answer fits. A choice is wrong by what it means. Of what is typed, a point has to be one that feeds
/// this lamphouse; the last two digits of a lock are compared with those written down of the locks that hang
/// on its points, a count with the two numbers of the opening, and a lamp type with the one that the readings
/// of the new lamp agree on.
[[nodiscard]] QStringList reopenedBy(const VisitState& state, const SwapState& swap,
                                     const procedure::Step& stop, const procedure::Answers& answers);

/// Which answers of a stop are wrong, by their captures, in its order.
[[nodiscard]] QStringList wrongAnswers(const VisitState& state, const SwapState& swap,
                                       const procedure::Step& stop, const procedure::Answers& answers);

/// What the answers of a stop tell of beyond its steps, each once: it started, a voltage was found, something
/// that was taken to be shut stands open.
[[nodiscard]] QList<Incident> toldAtStop(const procedure::Step& stop, const procedure::Answers& answers);

} // namespace coldarc::visit
