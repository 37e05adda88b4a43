#pragma once

#include <QString>

#include <compare>
#include <cstdint>
#include <numbers>
#include <optional>

namespace coldarc::photometry {

/// What a luminance meter may be set to.
enum class LuminanceUnit : std::uint8_t {
    CdPerM2,      ///< candela per square metre
    FootLamberts, ///< 1/pi candela per square foot
};
/// "cd/m2" or "fL".
[[nodiscard]] QString wordOf(LuminanceUnit unit);
[[nodiscard]] std::optional<LuminanceUnit> luminanceUnitFromWord(const QString& word);

/// Light that a place of the screen sends towards the meter, per unit of projected area.
///
/// Unit inside: cd/m2, unrounded; a verdict is found from it and never from what a display rounds. Range:
/// finite, 0 to kMostCdPerM2. A type, because meters show one of two units that differ by a factor of 3.43.
class Luminance {
public:
    /// 1 fL = (1/pi) cd/ft2 with the foot at 0.3048 m: 3.426259... cd/m2. Source of the definition: `units`
    /// 2.22, definitions.units "footlambert cd / pi ft^2" (READ); NIST SP 811 App. B gives 3.426259 (READ-2).
    static constexpr double kCdPerM2PerFootLambert = 1.0 / (std::numbers::pi * 0.3048 * 0.3048);
    /// No screen is brighter: a figure above it is a slip of the keyboard. Common practice, no source.
    static constexpr double kMostCdPerM2 = 20'000;

    /// Nothing unless the value is a number from 0 to kMostCdPerM2, taken in its unit.
    [[nodiscard]] static std::optional<Luminance> from(double value, LuminanceUnit unit);
    /// Pre: as `from` would take it. For figures of the program's own.
    [[nodiscard]] static Luminance fromCdPerM2(double value);
    [[nodiscard]] static Luminance fromFootLamberts(double value);

    [[nodiscard]] double cdPerM2() const { return m_cdPerM2; }
    [[nodiscard]] double footLamberts() const { return m_cdPerM2 / kCdPerM2PerFootLambert; }
    [[nodiscard]] double in(LuminanceUnit unit) const;

    friend auto operator<=>(const Luminance&, const Luminance&) = default;

private:
    explicit Luminance(double cdPerM2)
        : m_cdPerM2(cdPerM2)
    {
    }
    double m_cdPerM2;
};

} // namespace coldarc::photometry
