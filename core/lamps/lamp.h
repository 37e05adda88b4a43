#pragma once

#include "core/base/clock.h"
#include "core/base/ids.h"
#include "core/lamps/custody.h"
#include "core/lamps/hours.h"

#include <QString>

#include <cstdint>
#include <optional>
#include <variant>

namespace coldarc::lamps {

using FitId = Id<struct FitTag>;

/// One lamp, the thing itself.
struct Lamp {
    LampId id;
    LampTypeId type;
    QString serial; ///< the maker's, as it was entered; empty for one that is only ordered
    /// Burnt in all stays that have ended, and before the lamp was known. Nothing if any part of that is
    /// unknown.
    std::optional<LampHours> hours;

    friend bool operator==(const Lamp&, const Lamp&) = default;
};

/// Why a lamp came out.
enum class Cause : std::uint8_t {
    EndOfLife,
    Dim,
    Flicker,
    WillNotLight,
    Blackened,
    Burst,
    EarlyFailure,
    Damaged,
    Other,
};
inline constexpr int kCauses = static_cast<int>(Cause::Other) + 1;
/// Lower case with dashes, for example "will-not-light".
[[nodiscard]] QString wordOf(Cause cause);
[[nodiscard]] std::optional<Cause> causeFromWord(const QString& word);

/// A counter was set back, or its controller was changed, while a lamp was in.
struct CounterReset {
    CounterHours lastBefore; ///< what it showed last before that
    CounterHours firstAfter; ///< what it began with again

    friend bool operator==(const CounterReset&, const CounterReset&) = default;
};

/// One lamp's stay in one lamphouse.
struct Fit {
    FitId id;
    LampId lamp;
    LamphouseId lamphouse;
    std::optional<CounterHours> counterIn; ///< nothing: not known, a lamp found fitted
    WallTime from{};
    /// How it ended; nothing while the lamp is in.
    struct End {
        std::optional<CounterHours> counterOut; ///< nothing: could not be read
        WallTime to{};
        Cause cause = Cause::Other;
        std::optional<CounterReset> reset;
        std::optional<LampHours> run; ///< what was made of the counters then; nothing: not known

        friend bool operator==(const End&, const End&) = default;
    };
    std::optional<End> end;

    friend bool operator==(const Fit&, const Fit&) = default;
};

/// Why a stay's hours cannot be told from its counters without asking.
enum class CounterQuestion : std::uint8_t {
    RanBackwards,       ///< out is lower than in, and nobody said that the counter was reset
    ResetDoesNotFit,    ///< with the reset as told, one of the two parts still runs backwards
    FasterThanTheClock, ///< more hours than the stay was long
};

/// A counter shows whole hours, so two of its readings may tell up to this much more than was burnt.
inline constexpr double kCounterStepHours = 1;

/// Two counter readings of one stay.
struct Counters {
    CounterHours in;
    CounterHours out;
    std::optional<CounterReset> reset;
    /// How long the stay was; nothing: not known, not checked.
    std::optional<std::chrono::milliseconds> stay;
};

/// Hours that a lamp burnt in one stay, or what has to be asked first. Never negative: a counter that ran
/// backwards is asked about, not subtracted.
[[nodiscard]] std::variant<LampHours, CounterQuestion> hoursRun(const Counters& counters);

/// The share of a lamp's price that the warranty gives back: (warranty hours - hours run) / warranty hours, 1
/// for an unused lamp, 0 from the warranty hours on. Nothing if there is no warranty (hours <= 0 or not
/// finite). Source: pro rata by hours, common practice in the trade, no source; a maker's own terms go before
/// it.
[[nodiscard]] std::optional<double> warrantyCredit(LampHours run, double warrantyHours);

} // namespace coldarc::lamps
