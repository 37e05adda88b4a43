#pragma once

#include <cstddef>
#include <optional>
#include <span>

namespace coldarc::alignment {

/// For the engineer who only turns and watches: readings are typed, the best is kept.
///
/// There is no interval and no number for what is left to win: nothing is known about where the peak is, only
/// what was seen. Whoever shows this has to say so.
struct QuickForm {
    std::size_t best =
        0; ///< number of the best reading, from 0; of equals the last, since that is where one is
    double bestLight = 0;
    double lastLight = 0;
    double gained = 0;   ///< best against the first, a share: 0.05 is 5 % more light
    double fallBack = 0; ///< last below best, a share in [0, 1): what going back would win

    friend bool operator==(const QuickForm&, const QuickForm&) = default;
};

/// Nothing for no readings. Pre: all lights > 0.
[[nodiscard]] std::optional<QuickForm> quickForm(std::span<const double> lights);

} // namespace coldarc::alignment
