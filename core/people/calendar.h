#pragma once

#include "core/base/clock.h"

#include <QString>

#include <chrono>
#include <optional>

namespace coldarc::people {

/// A day of the calendar, without a time or a zone: what an authorisation is dated with.
using Day = std::chrono::year_month_day;
/// A month of a year: what is moulded into a piece of gear.
using Month = std::chrono::year_month;

/// The day that it is in UTC.
[[nodiscard]] inline Day utcDayOf(WallTime moment)
{
    return Day(std::chrono::floor<std::chrono::days>(moment));
}

/// "2026-11-25" and "2026-11". Pre: the day or month exists, its year has four digits.
[[nodiscard]] QString isoText(Day day);
[[nodiscard]] QString isoText(Month month);

/// Nothing unless the text has exactly that form and the day exists.
[[nodiscard]] std::optional<Day> dayFromIso(const QString& text);
[[nodiscard]] std::optional<Month> monthFromIso(const QString& text);

} // namespace coldarc::people
