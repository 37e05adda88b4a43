#pragma once

#include "core/visit/next_step.h"
#include "ui/machine/gate_list.h"
#include "ui/machine/machine_view.h"
#include "ui/parts/wait_ring.h"

#include <QTimeZone>

namespace coldarc::ui {

/// The projector that this lamphouse belongs to, with all of its lamphouses and every breaker that feeds
/// them. What nobody looked at yet is unknown.
[[nodiscard]] MachineView machineViewOf(const visit::VisitState& state, machine::Index lamphouse);

/// Cold, Dead, Geared, Matched, Settled of one swap, each with what it still waits for.
[[nodiscard]] QList<GateView> gateViewsOf(const visit::VisitState& state, const visit::SwapState& swap);

/// A running wait as it stands at `now`.
[[nodiscard]] WaitView waitViewOf(const visit::WaitClock& clock, WallTime now, const QTimeZone& zone);

/// What is left, "6:41"; part seconds count as whole ones.
[[nodiscard]] QString leftText(const visit::WaitClock& clock);

/// "Screen 2", or "Screen 2, left" where its projector has several lamphouses.
[[nodiscard]] QString placeOf(const visit::VisitState& state, machine::Index lamphouse);

/// "panel B, 14".
[[nodiscard]] QString pointName(const visit::VisitState& state, machine::Index point);

/// Type and serial of a lamp, as far as they are known: "HVQ30-40B, A123"; "the lamp found".
[[nodiscard]] QString lampName(const visit::VisitState& state, machine::Index lamp);

} // namespace coldarc::ui
