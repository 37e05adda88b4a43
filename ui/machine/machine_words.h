#pragma once

#include "ui/machine/machine_view.h"

namespace coldarc::ui {

// The words under the things of the machine drawing. A cold lamp is never called safe: it is still under
// pressure.

/// "LIVE", "off".
[[nodiscard]] QString wordOf(MachineView::Power power);
/// What stands below a point: that nobody knows its state, or the locks that hang there; else empty.
[[nodiscard]] QString lockWords(const MachineView::Point& point);
[[nodiscard]] QString wordOf(MachineView::Projector projector);
[[nodiscard]] QString fanWords(MachineView::Run fan);
[[nodiscard]] QString extractionWords(MachineView::Run extraction);
[[nodiscard]] QString chargeWords(MachineView::Charge charge);
/// Lamp, seat and adaptor.
[[nodiscard]] QString lampWords(const MachineView::Lamphouse& lamphouse);
/// Housing, guard and dowser.
[[nodiscard]] QString coverWords(const MachineView::Lamphouse& lamphouse);
/// Empty when nobody is in the zone.
[[nodiscard]] QString zoneWords(const MachineView::Lamphouse& lamphouse);

} // namespace coldarc::ui
