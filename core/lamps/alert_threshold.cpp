#include "core/lamps/alert_threshold.h"

#include <algorithm>
#include <cmath>

namespace coldarc::lamps {

namespace {

constexpr double kStepHours = 10; // thresholds are set in tens

double roundedDown(double hours)
{
    return std::floor(hours / kStepHours) * kStepHours;
}

} // namespace

std::variant<AlertThreshold, NoThreshold> alertThreshold(const Usage& usage, const Exposure& exposure,
                                                         const Promise& promise)
{
    const double weeks = exposure.weeks();
    const double used = usageBound(usage, weeks, promise.level, exposure.leadDeviationWeeks);
    const double exact = promise.allowedHours - used;
    const double hours = roundedDown(exact);
    const double atFirstLook = usage.hoursPerWeek * exposure.lookGapWeeks;
    if (hours <= 0 || hours < atFirstLook)
        return NoThreshold{
            exact, used, weeks,
            longestExposureWeeks(usage, promise.allowedHours, promise.level, exposure.leadDeviationWeeks)};
    return AlertThreshold{hours, exact, used, weeks,
                          meanUnusedHours(promise.allowedHours, hours, usage, exposure)};
}

double longestExposureWeeks(const Usage& usage, double hours, double level, double leadDeviationWeeks)
{
    // hours - mu*P = q*sd(P), squared: a*P^2 - b*P + c = 0. The smaller root, in the form that bears a <= 0.
    const double q = usageQuantile(usage, level);
    const double a = usage.hoursPerWeek * usage.hoursPerWeek - q * q * usage.meanVariance;
    const double b = 2 * hours * usage.hoursPerWeek + q * q * usage.spread * usage.spread;
    const double lead = q * usage.hoursPerWeek * leadDeviationWeeks;
    const double c = hours * hours - lead * lead;
    if (hours <= lead)
        return 0;
    const double weeks = 2 * c / (b + std::sqrt(std::max(0.0, b * b - 4 * a * c)));
    // A week has 168 h, which is a limit only where the time is certain; see usageBound.
    return leadDeviationWeeks > 0 ? weeks : std::max(weeks, hours / kHoursOfAWeek);
}

double meanUnusedHours(double allowedHours, double thresholdHours, const Usage& usage,
                       const Exposure& exposure)
{
    return allowedHours - thresholdHours -
           usage.hoursPerWeek * (exposure.lookGapWeeks / 2 + exposure.leadWeeks);
}

bool mustComeOutNow(const Usage& usage, double hoursNow, double weeksToNextVisit, const Promise& promise)
{
    return hoursNow + usageBound(usage, weeksToNextVisit, promise.level) > promise.allowedHours;
}

ThresholdVerdict thresholdVerdict(double thresholdHours, double warrantyHours, const QString& reason,
                                  Countersign countersign)
{
    ThresholdVerdict verdict;
    verdict.isNoThreshold = !std::isfinite(thresholdHours) || thresholdHours <= 0;
    verdict.atOrAboveWarranty = !(thresholdHours < warrantyHours); // so too where either is not a number
    verdict.waitsForReason = verdict.atOrAboveWarranty && reason.trimmed().isEmpty();
    verdict.waitsForCountersign = verdict.atOrAboveWarranty && countersign == Countersign::Missing;
    return verdict;
}

} // namespace coldarc::lamps
