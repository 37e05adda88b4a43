#pragma once

#include "core/photometry/comparison.h"
#include "core/photometry/sheet.h"
#include "core/photometry/verdict.h"
#include "core/visit/state.h"

#include <chrono>
#include <optional>
#include <vector>

namespace coldarc::visit {

/// One reading that counts.
struct SheetPoint {
    PointRead read;
    photometry::Convention convention = photometry::Convention::FiveOfWidth;
    photometry::LuminanceUnit unit = photometry::LuminanceUnit::CdPerM2;
    Stamp at;
    qint64 entry = 0;

    friend bool operator==(const SheetPoint&, const SheetPoint&) = default;
};

/// A, what the type of a lamp is made for.
struct CurrentRange {
    double least = 0;
    double most = 0;

    friend bool operator==(const CurrentRange&, const CurrentRange&) = default;
};

/// The screen sheet of one swap under one lamp, rebuilt from the entries of the visit alone.
struct SheetOfSwap {
    SheetTime time = SheetTime::Arrival;
    qint64 since = -1; ///< the strike that its lamp burns since: what was read before does not count
    photometry::ScreenSheet sheet{photometry::Convention::FiveOfWidth};
    std::vector<SheetPoint> points;    ///< those on the sheet, in reading order; of each place the last one
    std::vector<SheetPoint> elsewhere; ///< readings at the points of another convention: kept, not compared
    std::optional<ScreenConditions> said;            ///< the last conditions; nothing: none yet
    std::optional<photometry::ToleranceSet> set;     ///< nothing: none was chosen
    std::optional<photometry::SheetVerdict> verdict; ///< nothing without a set
    std::optional<photometry::Luminance> expected;   ///< from lumens, screen and gain, where all are said

    std::optional<CurrentRange> current; ///< of the lamp that is measured; nothing: not known

    [[nodiscard]] bool isEmpty() const { return points.empty() && elsewhere.empty(); }
    /// A current was said, and the lamp is not made for it: it eats the electrodes, or strains the bulb.
    [[nodiscard]] bool isCurrentOutside() const;
};

/// Under which lamp whoever measures the screen now measures it: After once the swap's strike is done, and
/// always where nothing is exchanged.
[[nodiscard]] SheetTime sheetTimeNow(const SwapState& swap);

/// Pre: the visit is opened. Of a swap that it does not know: an empty sheet.
///
/// After: what was read since the lamp was last struck. Of two readings at one place the later one counts;
/// one that was taken back never does. The points follow the set's convention, or, while no set was chosen,
/// that of the last reading.
/// @param otherwise  held against this one while none was chosen.
[[nodiscard]] SheetOfSwap sheetOf(const VisitState& state, const SwapId& swap, SheetTime time,
                                  const photometry::ToleranceSet* otherwise = nullptr);

/// Whether the sheet that is measured now has a reading of the centre, without which the step is not done.
[[nodiscard]] bool isCentreRead(const VisitState& state, const SwapState& swap);

/// What a screen should show by these; nothing while something that it takes is not said.
[[nodiscard]] std::optional<photometry::Luminance> expectedOf(const ScreenConditions& said);

/// Arrival against After; nothing while one of them has no reading.
[[nodiscard]] std::optional<photometry::Comparison> comparisonOf(const VisitState& state, const SwapId& swap);

/// What is known of the conditions before anybody says them: those from arrival, less what belongs to that
/// lamp and that hour; else, from the last sheet of another swap, the meter and the kind of picture.
[[nodiscard]] photometry::Conditions knownConditions(const VisitState& state, const SwapId& swap,
                                                     SheetTime time);

/// How long the lamp has burnt, as far as this computer has watched since the strike that counts; nothing
/// before it, and after a restart. Of a picture that two lamps make the later strike counts, whichever of
/// them it lit: the light is no steadier than its younger lamp.
[[nodiscard]] std::optional<std::chrono::seconds> litSinceStrike(const SwapState& swap, const Stamp& now);

/// The same at the first reading that the sheet under the new lamp holds, or now while it holds none: a
/// reading taken too early does not become a late one by being talked about later.
[[nodiscard]] std::optional<std::chrono::seconds> litAtFirstReading(const VisitState& state,
                                                                    const SwapState& swap, const Stamp& now);

/// How a warm-up that somebody says stands against the one that was watched.
struct LitClaim {
    std::optional<std::chrono::seconds> lit; ///< what may be kept of it: never more than was watched
    bool isTooLong = false;                  ///< more than watched by more than a slip; `lit` is nothing then

    friend bool operator==(const LitClaim&, const LitClaim&) = default;
};
/// Up to a minute more than was watched at the first reading is a slip and becomes what was watched. Where
/// nobody watched, what is said stands.
[[nodiscard]] LitClaim litClaimOf(const VisitState& state, const SwapState& swap,
                                  std::optional<std::chrono::seconds> said, const Stamp& now);

} // namespace coldarc::visit
