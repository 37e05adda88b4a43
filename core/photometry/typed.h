#pragma once

#include "core/photometry/sheet.h"
#include "core/photometry/tolerance_set.h"

#include <QString>

#include <tl/expected.hpp>

#include <cstdint>
#include <optional>

namespace coldarc::photometry {

/// Which sign parts a number's whole from its decimals.
enum class DecimalSign : std::uint8_t {
    Point,
    Comma,
};

/// What is wrong with what was typed or stands in a cell.
enum class TypedFault : std::uint8_t {
    Empty,
    NotANumber, ///< letters, two decimal signs, a thousands sign, no digits
    Negative,
    TooLarge,   ///< above what a screen can show
    NotAColour, ///< no light has these coordinates
};

/// A number with digits, at most one decimal sign and perhaps a sign in front; no exponent, no thousands
/// signs, no unit.
[[nodiscard]] tl::expected<double, TypedFault> numberFrom(const QString& text, DecimalSign sign);
/// As a person types it: a point or a comma for the decimals, whichever comes.
[[nodiscard]] tl::expected<double, TypedFault> numberFrom(const QString& text);

[[nodiscard]] tl::expected<Luminance, TypedFault> luminanceFrom(const QString& text, LuminanceUnit unit);
[[nodiscard]] tl::expected<Chromaticity, TypedFault> chromaticityFromXy(const QString& x, const QString& y);

/// What to ask about a reading before it is taken. It is a question: the person's answer stands.
enum class Doubt : std::uint8_t {
    FootLambertsTaken, ///< a figure that fits if the meter showed foot-lamberts; it was taken as cd/m2
    CdPerM2Taken,      ///< the other way round
    FarOff,            ///< off by a factor that no mistaken unit explains
};
/// Asks when the reading, taken in its unit, lies nearer to what another unit would make of the expected
/// light than to that light itself, on a scale of factors. Nothing to ask when it is within a factor of 1.85
/// (the root of 3.43) of what is expected, or nothing is expected.
[[nodiscard]] std::optional<Doubt> doubtAbout(const Reading& reading, std::optional<Luminance> expected);

/// What a place should show, to hold a fresh reading against: for the centre the set's nominal, else the
/// middle of its limit; for any other place the centre's own reading, or the same as the centre while there
/// is none.
[[nodiscard]] std::optional<Luminance> expectedAt(const ScreenSheet& sheet, const ToleranceSet& set,
                                                  Place place);

} // namespace coldarc::photometry
