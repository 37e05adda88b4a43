#pragma once

#include "core/photometry/sheet.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace coldarc::photometry {

/// Numbers for how even a screen is. They are different numbers: a limit on one is none on another.
enum class Evenness : std::uint8_t {
    /// Least light of the measured sides, as a share of the centre's. The way of SMPTE ST 431-1 (READ-2).
    LeastSideOfCentre,
    /// Least light of the measured corners, as a share of the centre's.
    LeastCornerOfCentre,
    /// 100 % * (1 - least / greatest) over the 5 or 9 points of the tenth grid. ICDM IDMS 8.1 equation 1
    /// (READ); report it with three figures at most.
    NonuniformityPercent,
    /// Least / greatest over all measured points. ISO 11315-1:1997 defines it on illuminances (READ-2); here
    /// it is taken on luminances.
    LeastOfGreatest,
    /// Difference of left and right as a share of the centre's light. ISO 2910:1990 (READ-2).
    SideDifference,
    /// Largest u'v' distance between any two of the 5 or 9 points of the tenth grid, 10 or 36 pairs. ICDM
    /// IDMS 8.1 equation 2 (READ); report it no finer than 0.001.
    LargestColourDistance,
};
/// "least-side-of-centre", "nonuniformity-percent", ...
[[nodiscard]] QString wordOf(Evenness definition);

/// One such number with what it was taken over.
struct EvennessNumber {
    Evenness definition = Evenness::LeastSideOfCentre;
    Convention convention = Convention::FiveOfWidth;
    int points = 0;
    double value = 0;

    friend bool operator==(const EvennessNumber&, const EvennessNumber&) = default;
};

/// Nothing where the definition wants points or colours that the sheet does not have, or another convention.
[[nodiscard]] std::optional<EvennessNumber> evennessOf(const ScreenSheet& sheet, Evenness definition);
/// Every number that the sheet gives, in the order of the definitions.
[[nodiscard]] std::vector<EvennessNumber> evennessOf(const ScreenSheet& sheet);

/// 100 * (1 - least / greatest): for luminances by ICDM IDMS 8.1, for contrasts by 8.1.3 (READ).
/// Pre: 0 <= least <= greatest, greatest > 0.
[[nodiscard]] double nonuniformityPercent(double least, double greatest);

} // namespace coldarc::photometry
