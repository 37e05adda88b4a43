#include "app/demo_usage.h"

#include <algorithm>

namespace coldarc::app {
namespace {

using WeeksLong = std::chrono::duration<double, std::chrono::weeks::period>;

constexpr double kHoursOfAWeek = 168;

} // namespace

DemoUsage::DemoUsage(const QList<DemoSite>& sites, WallTime begin, WallTime end, double weeklySpread,
                     DemoChance& chance)
    : m_begin(begin)
{
    const auto count = static_cast<std::size_t>(WeeksLong(end - begin).count()) + 1;
    for (const DemoSite& one : sites) {
        for (const site::Lamphouse& lamphouse : one.document.lamphouses) {
            const site::Projector* projector = one.document.projector(lamphouse.projector);
            const site::Screen* screen = projector ? one.document.screen(projector->screen) : nullptr;
            Weeks weeks{screen ? screen->weeklyHours.value_or(0) : 0, {}};
            for (std::size_t week = 0; week < count; ++week) {
                const double hours = chance.about(weeks.mean, weeks.mean * weeklySpread);
                weeks.hours.push_back(std::clamp(hours, 0.0, kHoursOfAWeek));
            }
            m_weeks.insert(lamphouse.id, weeks);
        }
    }
}

double DemoUsage::total(const Weeks& weeks, WallTime at) const
{
    const double passed = WeeksLong(at - m_begin).count();
    if (passed <= 0)
        return weeks.mean * passed;
    double sum = 0;
    for (std::size_t week = 0; week < weeks.hours.size(); ++week)
        sum += weeks.hours[week] * std::clamp(passed - static_cast<double>(week), 0.0, 1.0);
    return sum;
}

double DemoUsage::burnt(const LamphouseId& lamphouse, WallTime from, WallTime to) const
{
    const Weeks& weeks = *m_weeks.find(lamphouse);
    return total(weeks, to) - total(weeks, from);
}

WallTime DemoUsage::since(const LamphouseId& lamphouse, double hours, WallTime at) const
{
    // A fourth of the mean is less than any week, so this reaches back far enough.
    const double mean = weekly(lamphouse);
    auto late = at;
    auto early = at - std::chrono::duration_cast<std::chrono::milliseconds>(WeeksLong(4 * hours / mean + 1));
    while (late - early > std::chrono::minutes(1)) {
        const auto middle = early + (late - early) / 2;
        (burnt(lamphouse, middle, at) > hours ? early : late) = middle;
    }
    return late;
}

} // namespace coldarc::app
