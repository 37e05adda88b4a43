#include "core/visit/incident.h"

#include <array>

namespace coldarc::visit {
namespace {

constexpr std::array<const char*, kIncidents> kWords{
    "it-started",      "voltage-found",       "fan-or-power", "burst",       "left-exposed",
    "fastener-seized", "will-not-light",      "wrong-lamp",   "lamp-unfit",  "gear-damaged",
    "count-differs",   "point-will-not-lock", "someone-hurt", "no-time-left"};

} // namespace

QString wordOf(Incident incident)
{
    return QString::fromLatin1(kWords[static_cast<std::size_t>(incident)]);
}

std::optional<Incident> incidentFromWord(const QString& word)
{
    for (std::size_t index = 0; index < kWords.size(); ++index) {
        if (word == QLatin1String(kWords[index]))
            return static_cast<Incident>(index);
    }
    return std::nullopt;
}

} // namespace coldarc::visit
