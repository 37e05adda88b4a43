#pragma once

#include "core/base/clock.h"

#include <QLocale>
#include <QString>
#include <QTimeZone>

#include <chrono>

namespace coldarc::ui {

/// A running wait: "6:41", "0:09", "1:06:41". A wait that is over, or a negative one, reads "0:00".
[[nodiscard]] QString clockText(std::chrono::seconds left);

/// A length of time to plan with: "45 min", "2 h 33", "3 h". Part minutes are cut off; nothing below zero.
[[nodiscard]] QString spanText(std::chrono::minutes span);

/// A moment on the wall for a person standing there: "13:02". Hours and minutes, 24 hours, in the zone given.
[[nodiscard]] QString wallText(WallTime moment, const QTimeZone& zone);

/// A moment that is signed or reported: "2026-11-25 13:02:19 +01:00". ISO 8601 date and offset, in the zone
/// given.
[[nodiscard]] QString wallTextWithOffset(WallTime moment, const QTimeZone& zone);

/// The day of a moment in that zone.
[[nodiscard]] std::chrono::year_month_day dayOf(WallTime moment,
                                                const QTimeZone& zone = QTimeZone::systemTimeZone());

/// Hours burnt, whole, as they are typed: "1234 h", with nothing between the thousands.
[[nodiscard]] QString hoursText(double hours, const QLocale& locale);

/// How a figure of hours that is not taken is to be written: "write 1980, with nothing between the figures".
/// Empty for one that is taken.
[[nodiscard]] QString howToWriteHours(const QString& typed);

} // namespace coldarc::ui
