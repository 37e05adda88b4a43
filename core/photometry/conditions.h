#pragma once

#include "core/photometry/light_output.h"
#include "core/photometry/luminance.h"

#include <QString>

#include <chrono>
#include <cstdint>
#include <optional>
#include <vector>

namespace coldarc::photometry {

/// A day of the calendar, without a time or a zone.
using Day = std::chrono::year_month_day;

/// The instrument and what its certificate says.
struct Meter {
    QString name; ///< which meter, as its owner names it; two of one kind have two names
    std::optional<double> acceptanceDegrees;
    std::optional<Day> calibratedOn;
    /// Last day of its calibration; a year after `calibratedOn` where the certificate names none.
    std::optional<Day> dueOn;

    friend bool operator==(const Meter&, const Meter&) = default;
};

/// Where the meter stood. These positions are published ones.
enum class MeterPosition : std::uint8_t {
    MiddleRow,     ///< middle of the row nearest the middle of the seats, 1.1 m up. ISO 26431-1 (READ-2)
    ReferenceView, ///< reference viewing position, 1.5 to 3.5 heights away. DCI HDR addendum 8.3.2 (READ)
    MainSeating,   ///< middle of the main seating, 1 m up. ISO 2910:1990 (READ-2)
    Laboratory,    ///< 1.6 screen heights away and centred. DCI CTP v1.4.3, 7.1.1 (READ)
    Elsewhere,
};
/// "middle-row", "reference-view", "main-seating", "laboratory" or "elsewhere".
[[nodiscard]] QString wordOf(MeterPosition position);
[[nodiscard]] std::optional<MeterPosition> meterPositionFromWord(const QString& word);

/// What kind of picture the light was meant for, which also says what stood in its way.
enum class Picture : std::uint8_t {
    Digital,
    Film,   ///< open gate, the shutter running
    Stereo, ///< through every filter and the glasses, the glasses working. DCI CTP v1.4.3, 7.1.4 (READ)
};
/// "digital", "film" or "stereo".
[[nodiscard]] QString wordOf(Picture picture);
[[nodiscard]] std::optional<Picture> pictureFromWord(const QString& word);

/// Under what conditions a screen was measured. What nobody wrote down is missing, never assumed.
struct Conditions {
    std::optional<std::chrono::seconds> lit; ///< how long the lamp had burnt before the first reading
    std::optional<Day> day;                  ///< of the measurement
    Meter meter;
    std::optional<MeterPosition> position;
    std::optional<double> distanceM; ///< meter to screen, m, > 0
    std::optional<ScreenSize> screen;
    Picture picture = Picture::Digital;
    QString format; ///< picture format, lens and zoom as the site names them
    /// White off or dowser shut, the room as it was; never taken off a reading.
    std::optional<Luminance> darkReading;
    std::optional<double> lampWatts;   ///< as set, W
    std::optional<double> lampAmperes; ///< as set, A

    friend bool operator==(const Conditions&, const Conditions&) = default;
};

// What a field can hold at most; more is a slip of the keyboard. Common practice, no source.
inline constexpr std::chrono::seconds kMostLit = std::chrono::days(400);
inline constexpr double kMostAcceptanceDegrees = 90;
inline constexpr double kMostDistanceM = 200;
inline constexpr double kMostLampWatts = 30'000;
inline constexpr double kMostLampAmperes = 1'000;

enum class ConditionField : std::uint8_t {
    Lit,
    MeasuredOn,
    Acceptance,
    CalibratedOn,
    DueOn,
    Distance,
    LampWatts,
    LampAmperes,
};
/// The fields that hold what cannot be: a figure that is not above 0 (for Lit: below 0) or above its most, no
/// number, no day of the calendar, a meter due before it was calibrated. In order; fields left out are fine.
[[nodiscard]] std::vector<ConditionField> impossibleIn(const Conditions& conditions);

/// Projector and lamp must have been on for this long before any reading: 20 to 30 minutes. Source: DCI CTP
/// v1.4.3, 7.1.2 (READ).
inline constexpr std::chrono::minutes kWarmUp{20};
/// A meter with no date of its own is calibrated for a year. Common practice, no source.
inline constexpr std::chrono::years kCalibration{1};
/// Source: ISO 26431-1:2008 (READ-2).
inline constexpr double kWidestAcceptanceDegrees = 2;

enum class WarmUp : std::uint8_t {
    Unknown,
    TooShort,
    Enough,
};
[[nodiscard]] WarmUp warmUpOf(const Conditions& conditions);

enum class Calibration : std::uint8_t {
    Unknown, ///< no date of the calibration, or none of the measurement
    Later,   ///< calibrated after the measurement
    Over,
    Valid, ///< to the end of its last day
};
[[nodiscard]] Calibration calibrationOf(const Conditions& conditions);

/// Whether the spot is wider than `kWidestSpotOfWidth` of the screen; nothing where distance, acceptance or
/// screen is missing.
[[nodiscard]] std::optional<bool> isSpotTooWide(const Conditions& conditions);

} // namespace coldarc::photometry
