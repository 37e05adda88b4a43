#pragma once

#include "core/photometry/comparison.h"
#include "core/photometry/meter_table.h"
#include "core/photometry/typed.h"
#include "core/photometry/uniformity.h"
#include "core/photometry/verdict.h"

#include <QString>
#include <QStringList>

namespace coldarc::ui {

/// "centre", "top left".
[[nodiscard]] QString nameOf(photometry::Place place);
/// "light at the centre", "side against centre".
[[nodiscard]] QString nameOf(photometry::Quantity quantity);
/// "cd/m²", "fL".
[[nodiscard]] QString nameOf(photometry::LuminanceUnit unit);
/// "candelas per square metre".
[[nodiscard]] QString longNameOf(photometry::LuminanceUnit unit);
[[nodiscard]] QString nameOf(photometry::MeterPosition position);
[[nodiscard]] QString nameOf(photometry::Picture picture);
[[nodiscard]] QString nameOf(photometry::RoomClass roomClass);
/// Where the outer points lie: "5 % of the width from the edges".
[[nodiscard]] QString nameOf(photometry::Convention convention);

/// A luminance in the unit asked for, without it: one decimal in cd/m², two in fL.
[[nodiscard]] QString luminanceText(photometry::Luminance luminance, photometry::LuminanceUnit unit);
/// The same with its unit.
[[nodiscard]] QString withUnit(photometry::Luminance luminance, photometry::LuminanceUnit unit);
/// A figure as somebody types it, without group signs.
[[nodiscard]] QString plainText(double value);
/// A share of the centre's light: "86.4 %".
[[nodiscard]] QString shareOfCentreText(double share);
/// A value of this quantity with its unit: "48.0 cd/m²", "86.4 %", "0.3141".
[[nodiscard]] QString valueText(photometry::Quantity quantity, double value);
/// "37.8 to 58.2 cd/m²", "at most 20 %"; empty without figures.
[[nodiscard]] QString limitText(const photometry::Limit& limit);

/// "within", "too dark", "too bright", "no limit here", "not measured", "held back".
[[nodiscard]] QString wordsOf(photometry::Outcome outcome);
/// What the sheet as a whole comes to.
[[nodiscard]] QString wordsOf(photometry::Whole whole);
/// The same of a sheet that is written no further: what was left open stays so.
[[nodiscard]] QString wholeWords(const photometry::SheetVerdict& sheet);
[[nodiscard]] QString wordsOf(photometry::Obstacle obstacle);
[[nodiscard]] QString wordsOf(photometry::Mark mark);
[[nodiscard]] QString wordsOf(photometry::Unlike unlike);
/// How a figure is known, for whoever reads the limit.
[[nodiscard]] QString wordsOf(photometry::Standing standing);
/// "75.2 % : darkest side against the centre, as SMPTE ST 431-1 has it, over 2 points".
[[nodiscard]] QString wordsOf(const photometry::EvennessNumber& number);

/// Why a number was not taken, and what would be right. @param typed  what stands in the box.
[[nodiscard]] QString faultWords(photometry::TypedFault fault, const QString& typed);
/// What is asked about a reading before it is taken.
[[nodiscard]] QString doubtWords(photometry::Doubt doubt, const QString& typed,
                                 photometry::LuminanceUnit unit, photometry::Luminance expected);
[[nodiscard]] QString faultWords(photometry::TableFault fault);
/// "Line 4, column 2: "abc" is no number."
[[nodiscard]] QString badRowWords(const photometry::BadMeterRow& row);

} // namespace coldarc::ui
