#pragma once

#include "core/lamps/usage.h"

#include <QString>

#include <cstdint>
#include <variant>

namespace coldarc::lamps {

/// How long a lamp may burn on after its counter has passed the threshold, at the worst moment.
struct Exposure {
    double lookGapWeeks = 0; ///< between two looks at the counter; 0 if it is read from afar
    double leadWeeks = 0; ///< from the alert to the replaced lamp: order and appointment; the mean if random
    double leadDeviationWeeks = 0; ///< standard deviation of that; 0 if it is certain
    double visitGapWeeks = 0;      ///< between visits, if a replacement waits for one; else 0

    /// Weeks: just missed by a look, seen at the next one, then replaced.
    [[nodiscard]] double weeks() const { return lookGapWeeks + leadWeeks + visitGapWeeks; }
};

/// What the threshold has to hold.
struct Promise {
    double allowedHours = 0; ///< h on the lamp that must not be passed: its warranty hours, or fewer; > 0
    double level = 0.95;     ///< probability of holding it, whenever the threshold is passed; in [0.5, 1)
};

/// A threshold that keeps the promise.
struct AlertThreshold {
    double hours = 0;             ///< h on the lamp, rounded down to tens
    double exactHours = 0;        ///< h, before rounding
    double usedUntilReplaced = 0; ///< h, the bound of what is burnt during the exposure
    double exposureWeeks = 0;
    double meanUnusedHours = 0; ///< h of the promise that are given away on average, by the rounded threshold
};

/// No threshold keeps the promise: looks, lead time or visits have to come closer together.
struct NoThreshold {
    double exactHours =
        0; ///< h, what would have been needed: not above 0, or below what a new lamp has at its first look
    double usedUntilReplaced = 0;
    double exposureWeeks = 0;
    double longestExposureWeeks = 0; ///< the longest exposure that the allowed hours can bear
};

/// The threshold `allowed hours - bound of the usage during the exposure`, rounded down to tens.
///
/// Pre: nothing negative or infinite, allowedHours > 0, level in [0.5, 1).
/// Source: the order-up-to level of periodic review (mean demand over review and lead time together, and the
/// safety stock over the same time: karlknapp.com/topics/periodicreviewsystem.html), turned round: a lamp's
/// hours run up. A form that takes the spread over the lead time alone is in print too; it is not this rule
/// and promises too much.
[[nodiscard]] std::variant<AlertThreshold, NoThreshold>
alertThreshold(const Usage& usage, const Exposure& exposure, const Promise& promise);

/// The longest exposure, in weeks, during which `hours` are not passed with probability `level`.
/// @param leadDeviationWeeks  as in Exposure. 0 weeks come back if that alone uses the hours up;
///                            infinitely many if nothing is used at all.
[[nodiscard]] double longestExposureWeeks(const Usage& usage, double hours, double level,
                                          double leadDeviationWeeks);

/// Mean hours that stay unused when a lamp is replaced by this rule: the threshold is passed at any moment
/// between two looks alike. Visits are not in it.
[[nodiscard]] double meanUnusedHours(double allowedHours, double thresholdHours, const Usage& usage,
                                     const Exposure& exposure);

/// For someone who reads the counter on visits only and carries the lamp: whether it has to come out at this
/// one, because it would pass the allowed hours before the next with more than the promised probability.
[[nodiscard]] bool mustComeOutNow(const Usage& usage, double hoursNow, double weeksToNextVisit,
                                  const Promise& promise);

/// A second person's word.
enum class Countersign : std::uint8_t {
    Missing,
    Given,
};

/// What a rule says of a threshold that somebody wants to set.
struct ThresholdVerdict {
    bool isNoThreshold = false; ///< not a number, or not above 0: never taken
    bool atOrAboveWarranty = false;
    bool waitsForReason = false;
    bool waitsForCountersign = false;

    [[nodiscard]] bool isTaken() const { return !isNoThreshold && !waitsForReason && !waitsForCountersign; }
    /// Taken, and shown to review as out of the ordinary.
    [[nodiscard]] bool isException() const { return isTaken() && atOrAboveWarranty; }
    friend bool operator==(const ThresholdVerdict&, const ThresholdVerdict&) = default;
};

/// A threshold at or above the warranty hours needs both a reason and a countersign; below them it needs
/// neither. Warranty hours that are not known (not above 0) count as passed.
[[nodiscard]] ThresholdVerdict thresholdVerdict(double thresholdHours, double warrantyHours,
                                                const QString& reason, Countersign countersign);

} // namespace coldarc::lamps
