#pragma once

#include "core/photometry/chromaticity.h"
#include "core/photometry/conditions.h"
#include "core/photometry/luminance.h"
#include "core/photometry/point.h"

#include <array>
#include <cstdint>
#include <optional>

namespace coldarc::photometry {

/// What the meter showed at one point.
struct Reading {
    Luminance luminance;
    LuminanceUnit shownIn = LuminanceUnit::CdPerM2; ///< what the meter was set to
    std::optional<Chromaticity> colour;             ///< nothing from a meter without colour

    friend bool operator==(const Reading&, const Reading&) = default;
};

/// The figure that the meter showed, in its unit, to twelve digits.
[[nodiscard]] double shownBy(const Reading& reading);

/// One measurement of one screen on full white: the readings at the points of one convention, and the
/// conditions. Readings hold the room's light, as the published limits do (DCI HDR addendum, Annex A, READ).
class ScreenSheet {
public:
    explicit ScreenSheet(Convention convention, Conditions conditions = {});

    enum class Put : std::uint8_t {
        Taken,
        OtherConvention, ///< the point belongs to another convention; nothing was changed
    };
    /// Keeps a reading; one that stood at this point is replaced.
    [[nodiscard]] Put put(const Point& point, const Reading& reading);
    void clear(Place place);

    [[nodiscard]] Convention convention() const { return m_convention; }
    [[nodiscard]] const std::optional<Reading>& at(Place place) const;
    [[nodiscard]] const Conditions& conditions() const { return m_conditions; }
    void setConditions(const Conditions& conditions) { m_conditions = conditions; }

    /// Light of a place as a share of the centre's. Nothing while one of the two is missing, or the centre
    /// dark.
    [[nodiscard]] std::optional<double> shareOfCentre(Place place) const;

    friend bool operator==(const ScreenSheet&, const ScreenSheet&) = default;

private:
    Convention m_convention;
    Conditions m_conditions;
    std::array<std::optional<Reading>, kPlaces.size()> m_readings;
};

} // namespace coldarc::photometry
