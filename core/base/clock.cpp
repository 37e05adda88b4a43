#include "core/base/clock.h"

#include "core/base/hash.h"

#include <QFile>
#include <QSysInfo>

#include <ctime>

namespace coldarc {
namespace {

std::chrono::nanoseconds read(clockid_t clock)
{
    timespec value{};
    clock_gettime(clock, &value);
    return std::chrono::seconds(value.tv_sec) + std::chrono::nanoseconds(value.tv_nsec);
}

QString bootId()
{
    QFile file(QStringLiteral("/proc/sys/kernel/random/boot_id"));
    if (!file.open(QIODevice::ReadOnly))
        return QString::fromLatin1(QSysInfo::bootUniqueId());
    return QString::fromLatin1(file.readAll().trimmed());
}

} // namespace

SystemClock::SystemClock()
    : m_machine(sha256(QByteArrayLiteral("coldarc machine\n") + QSysInfo::machineUniqueId()).hex().left(16))
    , m_boot(bootId())
{
}

Stamp SystemClock::now() const
{
    using std::chrono::floor;
    using std::chrono::milliseconds;
    const auto sinceBoot = read(CLOCK_BOOTTIME);
    const auto awake = read(CLOCK_MONOTONIC);
    const auto wall = floor<milliseconds>(std::chrono::system_clock::now());
    const auto asleep = sinceBoot > awake ? sinceBoot - awake : std::chrono::nanoseconds(0);
    return {wall, m_machine, m_boot, floor<milliseconds>(sinceBoot), floor<milliseconds>(asleep)};
}

} // namespace coldarc
