#pragma once

#include <optional>
#include <span>

namespace coldarc::alignment {

/// For the engineer who only turns and watches: readings are typed, the best is kept.
///
/// There is no interval and no number for what is left to win: nothing is known about where the peak is, only
/// what was seen. Whoever shows this has to say so.
struct QuickForm {
    double bestLight = 0;
    double fallBack = 0; ///< last below best, a share in [0, 1): what going back would win

    friend bool operator==(const QuickForm&, const QuickForm&) = default;
};

/// Nothing for no readings. Pre: all lights > 0.
[[nodiscard]] std::optional<QuickForm> quickForm(std::span<const double> lights);

} // namespace coldarc::alignment
