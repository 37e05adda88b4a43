#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace coldarc::lamps {

/// The longest a lamp can burn in a week: 24 h on 7 days.
inline constexpr double kHoursOfAWeek = 168;

/// One look at an hour counter.
struct CounterPoint {
    double atWeeks = 0; ///< weeks after any fixed moment
    double hours = 0;   ///< what the counter showed, h

    friend bool operator==(const CounterPoint&, const CounterPoint&) = default;
};

/// Something in a series of readings that has to be told.
struct SeriesRemark {
    enum class Kind : std::uint8_t {
        SameMoment,         ///< a second reading at one moment; it was left out
        RanBackwards,       ///< new counter or a typing error: the series was cut here, ask which
        FasterThanTheClock, ///< more than 24 h a day: the series is refused until that is put right
    };
    Kind kind = Kind::SameMoment;
    CounterPoint point; ///< the later of the two readings

    friend bool operator==(const SeriesRemark&, const SeriesRemark&) = default;
};

/// The readings that usage may be told from.
struct CounterSeries {
    /// By rising time, hours never falling: those after the last cut. Empty if the series is refused.
    std::vector<CounterPoint> points;
    std::vector<SeriesRemark> remarks;
};

/// Sorts and checks the readings of one counter. Weeks without an hour are legal: a house may be closed.
[[nodiscard]] CounterSeries checkedSeries(std::span<const CounterPoint> readings);

/// How much a lamphouse is used: weekly sums are independent, with a constant mean and spread.
///
/// Hours burnt in `l` weeks have the mean `hoursPerWeek * l` and the variance
/// `spread^2 * l + meanVariance * l^2`.
struct Usage {
    double hoursPerWeek = 0; ///< h/week, >= 0
    double spread = 0;       ///< h per square root of a week, >= 0
    double meanVariance = 0; ///< (h/week)^2, how little the mean itself is known, >= 0
    std::optional<int>
        degreesOfFreedom{}; ///< of the spread, when it was estimated; nothing: it is taken as known

    friend bool operator==(const Usage&, const Usage&) = default;
};

/// Usage from readings, by a series that was checked.
///
/// Three or more readings give mean and spread of their own (Student's t). Two give a mean only: the spread
/// is `pooledSpread`, that of the site's class. Fewer give nothing. Source: regression of the increments
/// through the origin with weights 1/dt. The spread has a floor for the counter's own rounding: variance of
/// at least (1/6 h^2) / (longest gap).
[[nodiscard]] std::optional<Usage> usageFromReadings(std::span<const CounterPoint> points,
                                                     double pooledSpread);

/// Usage as the site declares it, before anything was read.
/// @param uncertainty  standard deviation of such declarations, h/week; 0: taken at its word.
[[nodiscard]] Usage declaredUsage(double hoursPerWeek, double pooledSpread, double uncertainty);

/// What was declared, put right by a few readings: the weighted mean of both, normal-normal with a known
/// spread. Pre: `readings` spans more than no time; `declared.meanVariance` > 0; `declared.spread` > 0.
[[nodiscard]] Usage shrunkUsage(const Usage& declared, std::span<const CounterPoint> points);

/// The standard quantile that belongs to this usage: Student's t where its spread was estimated, else the
/// normal one.
/// @param p  in (0, 1).
[[nodiscard]] double usageQuantile(const Usage& usage, double p);

/// Hours that are not passed in `weeks` with probability `p`: a one-sided bound, never more than 168 h a
/// week.
/// @param p               in [0.5, 1).
/// @param weeks           >= 0, the mean of it if it is random.
/// @param weeksDeviation  standard deviation of `weeks`; 0 if it is certain.
[[nodiscard]] double usageBound(const Usage& usage, double weeks, double p, double weeksDeviation = 0);

/// Between what hours the usage of `weeks` lies.
struct HoursRange {
    double least = 0; ///< h, >= 0
    double most = 0;  ///< h
};
/// Two-sided with probability `level`, in (0, 1).
[[nodiscard]] HoursRange usageRange(const Usage& usage, double weeks, double level);

/// When some more hours will have been burnt, in weeks from the last reading.
struct Reaching {
    double median = 0;
    double earliest = 0;
    std::optional<double> latest; ///< nothing: there is no finite upper limit, the usage is known too little

    friend bool operator==(const Reaching&, const Reaching&) = default;
};

/// When `hoursLeft` more hours will have been burnt, two-sided with probability `level`, in (0, 1). All zero
/// if they are burnt already. Nothing if the usage is nought: it cannot be told.
///
/// A counter never runs backwards, so having reached it by then is the same as having burnt at least so much
/// by then; this is not the first passage of a path that may also fall (inverse Gaussian), which would come
/// sooner.
[[nodiscard]] std::optional<Reaching> reaching(const Usage& usage, double hoursLeft, double level);

/// How probable it is that `hoursLeft` more hours are burnt within `weeks`, > 0.
[[nodiscard]] double probabilityOfReaching(const Usage& usage, double hoursLeft, double weeks);

} // namespace coldarc::lamps
