#pragma once

#include "core/photometry/sheet.h"
#include "core/photometry/tolerance_set.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace coldarc::photometry {

enum class Outcome : std::uint8_t {
    Within, ///< both ends included
    Below,
    Above,
    NotSpecified, ///< the document has no limit for it in this class
    Unset,        ///< no limit is set, so there is nothing to hold it against
    NotMeasured,  ///< a reading that the limit needs is missing
    Withheld,     ///< measured and limited, but the conditions forbid a verdict; `obstacles` says which
};

/// What forbids a verdict.
enum class Obstacle : std::uint8_t {
    WarmUpUnknown,
    WarmUpTooShort,     ///< lamp on for less than `kWarmUp`
    CalibrationUnknown, ///< of the meter
    CalibratedLater,    ///< dated after the measurement
    CalibrationOver,
    OtherPicture,    ///< the set is for another kind of picture
    OtherConvention, ///< shares of the centre's light were taken at points that the limit is not for
    CentreMissing,   ///< no reading there, or a dark one, so no shares of it
};

/// What a verdict is given with.
enum class Mark : std::uint8_t {
    SecondHandFigure, ///< of the limit
    FigureFromMemory,
    DerivedFigure,
    PracticeFigure,
    OwnTarget,
    FormulaFromMemory, ///< the colour temperature's
    LaboratoryLimit,   ///< no auditorium is accepted by it
    PositionUnknown,   ///< of the meter, or where the document wants it
    OtherPosition,
    AcceptanceUnknown,
    AcceptanceTooWide, ///< over `kWidestAcceptanceDegrees`
    SpotTooWide,       ///< over `kWidestSpotOfWidth`
    FormatUnknown,
    DarkReadingMissing,
    PowerUnknown, ///< neither watts nor amperes of the lamp
};

/// One quantity at one place held against one limit. The value is unrounded.
struct Verdict {
    Quantity quantity = Quantity::CentreLuminance;
    std::optional<Place> place; ///< nothing for a number of the screen as a whole
    std::optional<double> value;
    Limit limit;
    Outcome outcome = Outcome::NotMeasured;
    std::vector<Obstacle> obstacles; ///< all of them, in order
    std::vector<Mark> marks;         ///< from the limit; those of the sheet stand in `SheetVerdict`

    friend bool operator==(const Verdict&, const Verdict&) = default;
};

/// A sheet held against a set, with what tells later which edition it was.
struct SheetVerdict {
    ToleranceSetId set;
    QString source;
    QString edition;
    Hash document;
    std::vector<Verdict> verdicts; ///< in the order of the set's limits, within one in reading order
    std::vector<Mark> marks;       ///< from the conditions

    friend bool operator==(const SheetVerdict&, const SheetVerdict&) = default;
};

/// Holds every limit of the set against the sheet. A point that the set needs and the sheet lacks is
/// NotMeasured; a side or corner that is there without being needed is judged too.
[[nodiscard]] SheetVerdict judge(const ScreenSheet& sheet, const ToleranceSet& set);

/// Whether a verdict may be read as a statement about the document. Only if it is Within, Below or Above, its
/// figure was read in the document itself, and nothing is marked on it or on the sheet. Otherwise it is *not
/// a conformity claim*, and whoever shows it says so.
[[nodiscard]] bool isConformityClaim(const SheetVerdict& sheet, const Verdict& verdict);

/// The sheet as a whole.
enum class Whole : std::uint8_t {
    Within,  ///< every limit that has figures is kept
    Outside, ///< at least one is not
    Open,    ///< none is broken, but one or more are not measured or withheld, or no limit has figures
};
[[nodiscard]] Whole wholeOf(const SheetVerdict& sheet);

} // namespace coldarc::photometry
