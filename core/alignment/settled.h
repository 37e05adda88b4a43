#pragma once

#include <chrono>
#include <span>

namespace coldarc::alignment {

/// When light that was left alone counts as steady: three looks, five minutes apart, within half a percent.
/// Common practice, no source for lamps in projectors; the same half percent is used for lamps in
/// laboratories (IES LM-79, from memory).
struct SettleRule {
    int looks = 3;
    std::chrono::milliseconds apart{std::chrono::minutes(5)};
    double within = 0.005; ///< largest less smallest look, as a share of their mean
    /// Readings this close to the first of a look are one look, and its light is their mean: that is how
    /// noise is kept out.
    std::chrono::milliseconds together{std::chrono::minutes(1)};
};

/// One reading with every knob left alone.
struct RestReading {
    std::chrono::milliseconds at{0}; ///< on one boot clock
    double light = 0;                ///< > 0
};

struct SettledVerdict {
    enum class State : unsigned char {
        TooFewLooks, ///< read again after `wait`
        Moving,      ///< the last looks spread further than the rule allows; read again after `wait`
        Settled,
    };
    State state = State::TooFewLooks;
    int looks = 0;                     ///< far enough apart, the last of them counted
    double spread = 0;                 ///< of the looks judged, a share; 0 while too few
    std::chrono::milliseconds wait{0}; ///< until a next look would count, from the last reading; 0: now

    friend bool operator==(const SettledVerdict&, const SettledVerdict&) = default;
};

/// Judges the latest looks; older ones do not count against the lamp. Pre: readings by rising time, lights >
/// 0.
[[nodiscard]] SettledVerdict settled(std::span<const RestReading> readings, const SettleRule& rule = {});

} // namespace coldarc::alignment
