#pragma once

#include "core/base/json.h"
#include "core/photometry/sheet.h"

#include <QJsonObject>
#include <QStringList>

#include <optional>

namespace coldarc::photometry {

/// A sheet as a logbook entry keeps it: readings in cd/m2, unrounded, with the unit that the meter showed;
/// what nobody wrote down is left out.
[[nodiscard]] QJsonObject toJson(const ScreenSheet& sheet);

/// The conditions alone, as they stand in a sheet's document.
[[nodiscard]] QJsonObject toJson(const Conditions& conditions);
/// The inverse. What is wrong is added to the complaints.
[[nodiscard]] Conditions conditionsFrom(const JsonReader::Child& child, QStringList& complaints);

/// A sheet, or everything that is wrong with its document: each line "place: reason".
struct ScreenSheetReading {
    std::optional<ScreenSheet> sheet;
    QStringList complaints;
};
/// The inverse of `toJson`. @param place  what stands before the key in a complaint; empty for the root.
[[nodiscard]] ScreenSheetReading readScreenSheet(const QJsonObject& document, const QString& place = {});

} // namespace coldarc::photometry
