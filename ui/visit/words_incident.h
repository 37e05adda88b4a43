#pragma once

#include "core/visit/incident.h"

#include <QString>
#include <QStringList>

namespace coldarc::ui {

/// What is written on the button: "Voltage was found".
[[nodiscard]] QString nameOf(visit::Incident incident);
/// What to do now, in this order; one short order each.
/// @param mayHoldMercury  of the lamps at hand; changes how a burst is cleaned up.
[[nodiscard]] QStringList nowDo(visit::Incident incident, bool mayHoldMercury = false);

/// What has to be said of an incident before it can be written down.
struct IncidentAsks {
    bool lamp = false;
    bool lampOrAdaptor = false; ///< the lamp, or that the adaptor is missing
    bool place = false;         ///< the fan of the lamphouse, or the breaker that went
    bool lamphouse = false;     ///< in which one
    bool point = false;
    bool person = false;

    friend bool operator==(const IncidentAsks&, const IncidentAsks&) = default;
};
[[nodiscard]] IncidentAsks asksOf(visit::Incident incident);

} // namespace coldarc::ui
