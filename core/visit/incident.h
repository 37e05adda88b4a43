#pragma once

#include <QString>

#include <cstdint>
#include <optional>

namespace coldarc::visit {

/// What can go wrong. Some are noticed by a step itself (it started, voltage found, will not light, count
/// differs, point will not lock, left exposed), all can be reported.
enum class Incident : std::uint8_t {
    ItStarted,
    VoltageFound,
    FanOrPower,
    Burst,
    LeftExposed,
    FastenerSeized,
    WillNotLight,
    WrongLamp,
    LampUnfit,
    GearDamaged,
    CountDiffers,
    PointWillNotLock,
    SomeoneHurt,
    NoTimeLeft,
};
inline constexpr int kIncidents = static_cast<int>(Incident::NoTimeLeft) + 1;

/// Lower case with dashes, for example "voltage-found".
[[nodiscard]] QString wordOf(Incident incident);
[[nodiscard]] std::optional<Incident> incidentFromWord(const QString& word);

} // namespace coldarc::visit
