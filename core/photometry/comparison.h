#pragma once

#include "core/photometry/sheet.h"

#include <cstdint>
#include <vector>

namespace coldarc::photometry {

/// What keeps two sheets from being compared.
enum class Unlike : std::uint8_t {
    BeforeNotWarm, ///< lit for less than `kWarmUp`, as on an arrival shortly after the strike
    AfterNotWarm,
    BeforeWarmUpUnknown,
    AfterWarmUpUnknown,
    Convention,
    Picture,
    Format,
    FormatUnknown, ///< in one or both
    Position,      ///< of the meter; its distance too, where both have one
    PositionUnknown,
    Meter,
    MeterUnknown,
    Power, ///< another watt or ampere setting
    PowerUnknown,
    NoCommonPoint,
};

/// What one place did.
struct Change {
    Place place = Place::Centre;
    Luminance before;
    Luminance after;
    double factor = 1; ///< after / before

    friend bool operator==(const Change&, const Change&) = default;
};

/// Two sheets of one screen, before and after a lamp.
struct Comparison {
    std::vector<Unlike> unlike;  ///< all that differs, in order; empty: they can be compared
    std::vector<Change> changes; ///< the places that both have, in reading order; empty if anything is unlike

    friend bool operator==(const Comparison&, const Comparison&) = default;
};

/// Compares like with like only: same points, picture, format, meter, meter position and lamp power, both
/// lamps warm. Nobody waits for a cold lamp: then the answer is that the sheets are not comparable. Places
/// that were dark before are passed over.
[[nodiscard]] Comparison compare(const ScreenSheet& before, const ScreenSheet& after);

} // namespace coldarc::photometry
