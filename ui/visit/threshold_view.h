#pragma once

#include "core/lamps/alert_threshold.h"
#include "ui/visit/book_in_view.h"

#include <QLocale>
#include <QTimeZone>

namespace coldarc::ui {

/// How often somebody looks, how long it takes to come, and how sure it shall be: what a threshold rests on
/// besides the site's own hours. The values here are the house's and are shown beside every suggestion.
struct ThresholdBasis {
    lamps::Exposure exposure{1, 2, 0, 0};
    double spread = 12;      ///< h per square root of a week, of one screen about its mean
    double uncertainty = 15; ///< h per week, of what a site says it runs
    double level = 0.95;
};

/// The threshold that keeps the warranty hours, nothing where the weekly hours are not known or none does.
[[nodiscard]] std::optional<double> suggestedThreshold(const ThresholdBasis& basis, double weeklyHours,
                                                       double warrantyHours);

/// @param threshold  the one that stands in the card now, h; nothing: none that is a number.
/// @param hoursNow   on the lamp, h
[[nodiscard]] ThresholdView thresholdViewOf(const ThresholdBasis& basis, double weeklyHours,
                                            double warrantyHours, std::optional<double> threshold,
                                            double hoursNow, WallTime now, const QTimeZone& zone);

} // namespace coldarc::ui
