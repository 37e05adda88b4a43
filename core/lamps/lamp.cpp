#include "core/lamps/lamp.h"

#include <algorithm>
#include <array>
#include <utility>

namespace coldarc::lamps {

namespace {

// In the order of the enumeration.
constexpr std::array<std::pair<Cause, const char16_t*>, kCauses> kCauseWords{{
    {Cause::EndOfLife, u"end-of-life"},
    {Cause::Dim, u"dim"},
    {Cause::Flicker, u"flicker"},
    {Cause::WillNotLight, u"will-not-light"},
    {Cause::Blackened, u"blackened"},
    {Cause::Burst, u"burst"},
    {Cause::EarlyFailure, u"early-failure"},
    {Cause::Damaged, u"damaged"},
    {Cause::Other, u"other"},
}};

double hoursOf(std::chrono::milliseconds time)
{
    return std::chrono::duration<double, std::ratio<3600>>(time).count();
}

} // namespace

QString wordOf(Cause cause)
{
    return QString::fromUtf16(kCauseWords.at(static_cast<size_t>(cause)).second);
}

std::optional<Cause> causeFromWord(const QString& word)
{
    const auto found =
        std::ranges::find_if(kCauseWords, [&](const auto& row) { return word == QStringView(row.second); });
    return found == kCauseWords.end() ? std::nullopt : std::optional(found->first);
}

std::variant<LampHours, CounterQuestion> hoursRun(const Counters& counters)
{
    const CounterHours firstEnd = counters.reset ? counters.reset->lastBefore : counters.out;
    const double first = firstEnd.hours() - counters.in.hours();
    const double second = counters.reset ? counters.out.hours() - counters.reset->firstAfter.hours() : 0;
    if (first < 0 || second < 0)
        return counters.reset ? CounterQuestion::ResetDoesNotFit : CounterQuestion::RanBackwards;
    if (counters.stay && first + second > hoursOf(*counters.stay) + kCounterStepHours)
        return CounterQuestion::FasterThanTheClock;
    return LampHours::fromHours(first + second);
}

std::optional<double> warrantyCredit(LampHours run, double warrantyHours)
{
    if (!std::isfinite(warrantyHours) || warrantyHours <= 0)
        return std::nullopt;
    return std::max(0.0, (warrantyHours - run.hours()) / warrantyHours);
}

} // namespace coldarc::lamps
