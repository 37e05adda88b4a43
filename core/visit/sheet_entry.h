#pragma once

#include "core/base/ids.h"
#include "core/base/json.h"
#include "core/photometry/chromaticity.h"
#include "core/photometry/conditions.h"
#include "core/photometry/luminance.h"
#include "core/photometry/point.h"
#include "core/photometry/tolerance_set.h"

#include <QJsonObject>
#include <QList>
#include <QString>

#include <cstdint>
#include <optional>

namespace coldarc::visit {

/// Under which lamp a screen was measured.
enum class SheetTime : std::uint8_t {
    Arrival, ///< the one that was found
    After,   ///< the one that was struck last in this visit
};
/// "arrival" or "after".
[[nodiscard]] QString wordOf(SheetTime time);
[[nodiscard]] std::optional<SheetTime> sheetTimeFromWord(const QString& word);

/// One point of a screen, as the meter showed it.
struct PointRead {
    photometry::Place place = photometry::Place::Centre;
    double value = 0;                                 ///< in the unit of the entry, as typed; not negative
    std::optional<photometry::Chromaticity> colour{}; ///< nothing from a meter without colour
    qint64 replaces = -1; ///< filled in: number of the entry that had said something of this point
    friend bool operator==(const PointRead&, const PointRead&) = default;
};

/// Points of a screen were read: one that was typed, or all those of a meter's file at once.
struct ScreenRead {
    SwapId swap;
    StepId step;
    SheetTime time = SheetTime::Arrival; ///< filled in
    photometry::Convention convention = photometry::Convention::FiveOfWidth;
    photometry::LuminanceUnit unit = photometry::LuminanceUnit::CdPerM2; ///< what the meter was set to
    QList<PointRead> points{};                                           ///< at least one, each place once
    friend bool operator==(const ScreenRead&, const ScreenRead&) = default;
};

/// Under what conditions the screen is measured. The last one of a swap and a time counts, as a whole.
struct ScreenConditions {
    SwapId swap;
    StepId step;
    SheetTime time = SheetTime::Arrival; ///< filled in
    photometry::Conditions conditions{}; ///< `lit` filled in: no more than this computer watched
    // What the screen should show is worked out from these; each may be missing.
    std::optional<double> lumens{};       ///< lm that leave the projector, to photometry::kMostLumens
    std::optional<double> gain{};         ///< luminance factor of the screen, to photometry::kMostGain
    std::optional<double> transmission{}; ///< what port glass and filters leave of the light, 0 to 1
    friend bool operator==(const ScreenConditions&, const ScreenConditions&) = default;
};

/// What the sheets of a swap are held against from here on, with the whole text of the set: a later edition
/// of it changes no verdict that was shown.
struct ScreenLimits {
    SwapId swap;
    StepId step;
    photometry::ToleranceSet set{};
    friend bool operator==(const ScreenLimits&, const ScreenLimits&) = default;
};

// As entries keep them. Reading adds to the complaints what is wrong.

[[nodiscard]] QJsonObject toJson(const ScreenRead& read);
[[nodiscard]] QJsonObject toJson(const ScreenConditions& conditions);
[[nodiscard]] QJsonObject toJson(const ScreenLimits& limits);
[[nodiscard]] ScreenRead screenReadFrom(JsonReader& reader, QStringList& complaints);
[[nodiscard]] ScreenConditions screenConditionsFrom(JsonReader& reader, QStringList& complaints);
[[nodiscard]] ScreenLimits screenLimitsFrom(JsonReader& reader, QStringList& complaints);

} // namespace coldarc::visit
