#pragma once

#include <QString>

#include <tl/expected.hpp>

#include <cstdint>
#include <optional>

namespace coldarc {

/// Most that a figure of hours or strikes can be: what six digits of a counter show. A figure of the house.
inline constexpr double kMostHours = 999'999;

/// What is wrong with a figure of hours that was typed.
enum class HoursFault : std::uint8_t {
    NotANumber, ///< letters, no digits, an exponent, a unit
    Grouped,    ///< signs between the digits: "1,980" and "1.980" are two thousand to one and two to another
    Negative,
    TooMany, ///< more than `kMostHours`
};

/// Hours, or a count, as somebody types them: digits alone, or with one point and one or two decimals behind
/// it. Three digits behind one sign are thousands to one reader and thousandths to another, so that they are
/// refused and never guessed. Blanks around it are left aside.
[[nodiscard]] tl::expected<double, HoursFault> hoursFrom(const QString& text);

/// A refused figure as it would be taken, for whoever is to write it anew: "1980" for "1,980", "1.980" and
/// "1 980", "1980.5" for "1.980,5". Empty where nobody can tell.
[[nodiscard]] QString plainHours(const QString& text);

/// Hours in an entry that is kept: what `hoursFrom` took, and of entries from before it was asked any number
/// in the form of C, as it was read then. Nothing: they hold none, or one that is not finite, or less than 0.
[[nodiscard]] std::optional<double> keptHours(const QString& text);

/// Whether a counter that shows whole hours shows these two alike, give or take its rounding.
[[nodiscard]] bool isSameOnACounter(double one, double other);

} // namespace coldarc
