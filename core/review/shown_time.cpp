#include "core/review/shown_time.h"

#include "core/review/replay.h"

#include <algorithm>

namespace coldarc::review {
namespace {

constexpr double kMillisecondsPerMinute = 60'000;

double minutesBetween(WallTime from, WallTime to)
{
    return static_cast<double>((to - from).count()) / kMillisecondsPerMinute;
}

} // namespace

ShownTime::ShownTime(const QList<visit::Entry>& entries)
{
    Q_ASSERT_X(!entries.isEmpty(), "ShownTime", "a visit has an entry");
    WallTime latest = entries.first().at.wall;
    Stretch now{0, 0, latest, latest};
    for (const visit::Entry& entry : entries.first(endOfWork(entries) + 1)) {
        const double pause = minutesBetween(latest, entry.at.wall);
        if (pause <= 0)
            continue; // set back
        if (pause > kLongPause) {
            m_stretches.push_back(now);
            m_stretches.push_back({now.until, now.until + kShownPause, latest, entry.at.wall, true});
            now = {m_stretches.back().until, m_stretches.back().until, entry.at.wall, entry.at.wall};
        } else {
            now.until += pause;
            now.ends = entry.at.wall;
        }
        latest = entry.at.wall;
    }
    m_stretches.push_back(now);
    m_minutes = std::max(1.0, now.until);
}

double ShownTime::at(WallTime moment) const
{
    for (const Stretch& one : m_stretches) {
        if (moment > one.ends)
            continue;
        const double whole = minutesBetween(one.begins, one.ends);
        const double gone = std::max(0.0, minutesBetween(one.begins, moment));
        return whole > 0 ? one.from + (one.until - one.from) * gone / whole : one.from;
    }
    return m_stretches.back().until;
}

WallTime ShownTime::momentAt(double shown) const
{
    for (const Stretch& one : m_stretches) {
        if (shown > one.until)
            continue;
        const double room = one.until - one.from;
        const double share = room > 0 ? std::max(0.0, shown - one.from) / room : 0;
        const auto whole = static_cast<double>((one.ends - one.begins).count());
        return one.begins + std::chrono::milliseconds(static_cast<qint64>(share * whole));
    }
    return m_stretches.back().ends;
}

} // namespace coldarc::review
