#pragma once

#include <QString>

#include <chrono>

namespace coldarc {

using WallTime = std::chrono::sys_time<std::chrono::milliseconds>;

/// Milliseconds since 1970, in UTC: how moments are kept.
[[nodiscard]] inline qint64 msOf(WallTime wall)
{
    return wall.time_since_epoch().count();
}
[[nodiscard]] inline WallTime wallOf(qint64 ms)
{
    return WallTime(std::chrono::milliseconds(ms));
}

/// The year that it is in UTC.
[[nodiscard]] inline int yearOf(WallTime wall)
{
    return static_cast<int>(std::chrono::year_month_day(std::chrono::floor<std::chrono::days>(wall)).year());
}

/// A moment as this computer saw it. Durations are taken on the boot clock; the wall time is for people and
/// proves nothing, since anybody can set it.
struct Stamp {
    WallTime wall;                          ///< UTC
    QString machine;                        ///< which computer; a keyed hash, never the computer's own id
    QString boot;                           ///< changes with every start of the computer
    std::chrono::milliseconds sinceBoot{0}; ///< counts sleep, never runs backwards within one boot
    std::chrono::milliseconds asleep{0};    ///< how much of sinceBoot the computer slept

    friend bool operator==(const Stamp&, const Stamp&) = default;
};

/// Where "now" comes from. Handed to whoever needs it; nothing in core/ asks the system.
class Clock {
public:
    virtual ~Clock() = default;
    [[nodiscard]] virtual Stamp now() const = 0;
};

/// This computer's clocks: CLOCK_BOOTTIME for durations, CLOCK_MONOTONIC against it for sleep, the system's
/// wall clock, the kernel's boot id, and a hash of the machine id keyed to this program.
class SystemClock final : public Clock {
public:
    SystemClock();
    [[nodiscard]] Stamp now() const override;

private:
    QString m_machine;
    QString m_boot;
};

} // namespace coldarc
