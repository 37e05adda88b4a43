#pragma once

#include "core/photometry/sheet.h"

#include <initializer_list>
#include <utility>

namespace coldarc::photometry::test {

/// Conditions with nothing missing and nothing amiss. Invented.
inline Conditions goodConditions()
{
    using namespace std::chrono_literals;
    Conditions conditions;
    conditions.lit = 25min;
    conditions.day = Day(2026y, std::chrono::November, 25d);
    conditions.meter.name = QStringLiteral("meter 7");
    conditions.meter.acceptanceDegrees = 1;
    conditions.meter.calibratedOn = Day(2026y, std::chrono::March, 2d);
    conditions.position = MeterPosition::MiddleRow;
    conditions.distanceM = 14;
    conditions.screen = ScreenSize::fromWidthAndAspect(12, 2.39);
    conditions.format = QStringLiteral("scope, 0 zoom");
    conditions.darkReading = Luminance::fromCdPerM2(0.02);
    conditions.lampWatts = 2000;
    return conditions;
}

inline Reading reading(double cdPerM2)
{
    return {Luminance::fromCdPerM2(cdPerM2), LuminanceUnit::CdPerM2, std::nullopt};
}

inline Reading reading(double cdPerM2, double x, double y)
{
    return {Luminance::fromCdPerM2(cdPerM2), LuminanceUnit::CdPerM2, Chromaticity::fromXy(x, y)};
}

using Readings = std::initializer_list<std::pair<Place, Reading>>;

/// Pre: the convention has the places.
inline ScreenSheet sheetOf(Convention convention, Readings readings,
                           const Conditions& conditions = goodConditions())
{
    ScreenSheet sheet(convention, conditions);
    for (const auto& [place, one] : readings)
        static_cast<void>(sheet.put(Point::at(convention, place).value(), one));
    return sheet;
}

} // namespace coldarc::photometry::test
