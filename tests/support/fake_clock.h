#pragma once

#include "core/base/clock.h"
#include "core/base/id_source.h"

namespace coldarc::test {

/// A clock that moves only when told to. Starts on an invented evening, an hour after a boot.
class FakeClock final : public Clock {
public:
    [[nodiscard]] Stamp now() const override { return m_now; }

    /// Time passes, awake.
    void advance(std::chrono::milliseconds by)
    {
        m_now.wall += by;
        m_now.sinceBoot += by;
    }
    /// The laptop sleeps: the boot clock runs on.
    void sleep(std::chrono::milliseconds by)
    {
        advance(by);
        m_now.asleep += by;
    }
    /// The laptop is off for a while, then has been up for `up`.
    void reboot(std::chrono::milliseconds off, std::chrono::milliseconds up)
    {
        m_now.wall += off + up;
        m_now.boot = QStringLiteral("boot-%1").arg(++m_boots);
        m_now.sinceBoot = up;
        m_now.asleep = std::chrono::milliseconds(0);
    }
    /// Somebody sets the wall clock. Nothing else changes.
    void setWall(WallTime wall) { m_now.wall = wall; }
    /// Another laptop takes over, up for `up`.
    void otherMachine(std::chrono::milliseconds up)
    {
        m_now.machine = QStringLiteral("machine-%1").arg(++m_boots);
        reboot(std::chrono::milliseconds(0), up);
    }

private:
    int m_boots = 1;
    Stamp m_now{WallTime(std::chrono::milliseconds(1'795'000'000'000)), QStringLiteral("machine-1"),
                QStringLiteral("boot-1"), std::chrono::hours(1), std::chrono::milliseconds(0)};
};

/// Ids 1, 2, 3 ... with a word before them.
class CountingIds final : public IdSource {
public:
    explicit CountingIds(QString word = QStringLiteral("id-"))
        : m_word(std::move(word))
    {
    }
    [[nodiscard]] QString next() override { return m_word + QString::number(++m_last); }

private:
    QString m_word;
    int m_last = 0;
};

} // namespace coldarc::test
