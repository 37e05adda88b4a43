#include "core/report/time_scale.h"

#include "core/review/replay.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace coldarc::report {
namespace {

constexpr double kMillisecondsPerMinute = 60'000;
constexpr double kMostTicks = 10;
constexpr double kHour = 60;

double stepOver(double minutes)
{
    for (const double step : std::array{5.0, 10.0, 15.0, 30.0, kHour}) {
        if (minutes / step < kMostTicks)
            return step;
    }
    return std::ceil(minutes / kHour / (kMostTicks - 1)) * kHour;
}

} // namespace

double minutesBetween(WallTime from, WallTime to)
{
    return std::max(0.0, static_cast<double>((to - from).count()) / kMillisecondsPerMinute);
}

WallTime after(WallTime from, double minutes)
{
    return from + std::chrono::milliseconds(static_cast<qint64>(minutes * kMillisecondsPerMinute));
}

double minutesShown(const Report& report)
{
    double most = 1;
    for (const visit::Entry& entry : report.entries.first(review::endOfWork(report.entries) + 1))
        most = std::max(most, minutesBetween(report.from, entry.at.wall));
    return most;
}

std::vector<double> ticksOver(double minutes)
{
    std::vector<double> ticks;
    const double step = stepOver(minutes);
    for (double at = 0; at <= minutes; at += step)
        ticks.push_back(at);
    return ticks;
}

} // namespace coldarc::report
