#include "core/lamps/usage.h"

#include "core/lamps/lamp.h"

#include <QtGlobal>

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>

namespace coldarc::lamps {

namespace {

using RemarkKind = SeriesRemark::Kind;

constexpr double kRoundingVariance = 1.0 / 6; // h^2: the difference of two readings cut to whole hours

double sq(double value)
{
    return value * value;
}

double deviation(const Usage& usage, double weeks, double weeksDeviation)
{
    return std::sqrt(sq(usage.spread) * weeks + usage.meanVariance * sq(weeks) +
                     sq(usage.hoursPerWeek * weeksDeviation));
}

struct Fitted {
    double hoursPerWeek;
    double weeks;
};

Fitted fitted(std::span<const CounterPoint> points)
{
    const double weeks = points.back().atWeeks - points.front().atWeeks;
    return {(points.back().hours - points.front().hours) / weeks, weeks};
}

std::optional<RemarkKind> remarkOn(const CounterPoint& before, const CounterPoint& after)
{
    const double weeks = after.atWeeks - before.atWeeks;
    const double hours = after.hours - before.hours;
    if (weeks <= 0)
        return RemarkKind::SameMoment;
    if (hours < 0)
        return RemarkKind::RanBackwards;
    if (hours > kHoursOfAWeek * weeks + kCounterStepHours)
        return RemarkKind::FasterThanTheClock;
    return std::nullopt;
}

// Sum of the squared deviations of the increments from the mean usage, each over its own length; the longest
// gap.
struct Scatter {
    double squares = 0;
    double longestGap = 0;
};

Scatter scatter(std::span<const CounterPoint> points, double hoursPerWeek)
{
    Scatter result;
    for (size_t i = 1; i < points.size(); ++i) {
        const double gap = points[i].atWeeks - points[i - 1].atWeeks;
        const double hours = points[i].hours - points[i - 1].hours;
        result.squares += sq(hours - hoursPerWeek * gap) / gap;
        result.longestGap = std::max(result.longestGap, gap);
    }
    return result;
}

} // namespace

double usageQuantile(const Usage& usage, double p)
{
    if (usage.degreesOfFreedom)
        return boost::math::quantile(boost::math::students_t(*usage.degreesOfFreedom), p);
    return boost::math::quantile(boost::math::normal(), p);
}

CounterSeries checkedSeries(std::span<const CounterPoint> readings)
{
    std::vector<CounterPoint> sorted(readings.begin(), readings.end());
    std::ranges::stable_sort(sorted, {}, &CounterPoint::atWeeks);

    CounterSeries series;
    bool refused = false;
    for (const CounterPoint& point : sorted) {
        const auto kind = series.points.empty() ? std::nullopt : remarkOn(series.points.back(), point);
        if (kind)
            series.remarks.push_back({*kind, point});
        if (kind == RemarkKind::SameMoment)
            continue;
        if (kind == RemarkKind::RanBackwards)
            series.points.clear();
        refused = refused || kind == RemarkKind::FasterThanTheClock;
        series.points.push_back(point);
    }
    if (refused)
        series.points.clear();
    return series;
}

std::optional<Usage> usageFromReadings(std::span<const CounterPoint> points, double pooledSpread)
{
    if (points.size() < 2)
        return std::nullopt;
    const Fitted fit = fitted(points);
    const auto degrees = static_cast<int>(points.size()) - 2;
    if (degrees == 0)
        return Usage{fit.hoursPerWeek, pooledSpread, sq(pooledSpread) / fit.weeks, std::nullopt};

    const Scatter found = scatter(points, fit.hoursPerWeek);
    const double variance = std::max(found.squares / degrees, kRoundingVariance / found.longestGap);
    return Usage{fit.hoursPerWeek, std::sqrt(variance), variance / fit.weeks, degrees};
}

Usage declaredUsage(double hoursPerWeek, double pooledSpread, double uncertainty)
{
    return {hoursPerWeek, pooledSpread, sq(uncertainty), std::nullopt};
}

Usage shrunkUsage(const Usage& declared, std::span<const CounterPoint> points)
{
    Q_ASSERT_X(points.size() >= 2 && declared.meanVariance > 0 && declared.spread > 0, "shrunkUsage",
               "a declaration that may be wrong, and readings to put it right");
    const Fitted fit = fitted(points);
    const double ofReadings = sq(declared.spread) / fit.weeks;
    const double weight = declared.meanVariance / (declared.meanVariance + ofReadings);
    return {weight * fit.hoursPerWeek + (1 - weight) * declared.hoursPerWeek, declared.spread,
            1 / (1 / declared.meanVariance + 1 / ofReadings), std::nullopt};
}

double usageBound(const Usage& usage, double weeks, double p, double weeksDeviation)
{
    Q_ASSERT_X(p >= 0.5 && p < 1 && weeks >= 0, "usageBound", "a service level of one half or more");
    const double bound =
        usage.hoursPerWeek * weeks + usageQuantile(usage, p) * deviation(usage, weeks, weeksDeviation);
    // A random time may last longer than its mean, so only a certain one has this limit.
    return weeksDeviation > 0 ? bound : std::min(bound, kHoursOfAWeek * weeks);
}

HoursRange usageRange(const Usage& usage, double weeks, double level)
{
    const double mean = usage.hoursPerWeek * weeks;
    const double half = usageQuantile(usage, (1 + level) / 2) * deviation(usage, weeks, 0);
    return {std::max(0.0, mean - half), std::min(mean + half, kHoursOfAWeek * weeks)};
}

std::optional<Reaching> reaching(const Usage& usage, double hoursLeft, double level)
{
    if (hoursLeft <= 0)
        return Reaching{0, 0, 0};
    if (usage.hoursPerWeek <= 0)
        return std::nullopt;
    // The limits are the roots of a*l^2 - b*l + d^2: where mean and bound meet what is left.
    const double q2 = sq(usageQuantile(usage, (1 + level) / 2));
    const double a = sq(usage.hoursPerWeek) - q2 * usage.meanVariance;
    const double b = 2 * hoursLeft * usage.hoursPerWeek + q2 * sq(usage.spread);
    const double root = std::sqrt(std::max(0.0, b * b - 4 * a * sq(hoursLeft)));
    Reaching result;
    result.median = hoursLeft / usage.hoursPerWeek;
    result.earliest = std::max(2 * sq(hoursLeft) / (b + root), hoursLeft / kHoursOfAWeek);
    if (a > 0)
        result.latest = (b + root) / (2 * a);
    return result;
}

double probabilityOfReaching(const Usage& usage, double hoursLeft, double weeks)
{
    const double above = usage.hoursPerWeek * weeks - hoursLeft;
    const double sd = deviation(usage, weeks, 0);
    if (sd <= 0)
        return above >= 0 ? 1 : 0;
    if (usage.degreesOfFreedom)
        return boost::math::cdf(boost::math::students_t(*usage.degreesOfFreedom), above / sd);
    return boost::math::cdf(boost::math::normal(), above / sd);
}

} // namespace coldarc::lamps
