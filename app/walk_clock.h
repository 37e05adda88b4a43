#pragma once

#include "core/base/clock.h"

namespace coldarc::app {

/// The clock of the automatic walk: it moves only when the walk moves it, so that a wait of twelve minutes is
/// walked through without being slept through. Nothing but the walk, on a workspace of its own, is ever given
/// it.
class WalkClock final : public Clock {
public:
    explicit WalkClock(WallTime start)
        : m_now{start, QStringLiteral("walk"), QStringLiteral("walk"), std::chrono::hours(1),
                std::chrono::milliseconds(0)}
    {
    }

    [[nodiscard]] Stamp now() const override { return m_now; }
    void advance(std::chrono::milliseconds by)
    {
        m_now.wall += by;
        m_now.sinceBoot += by;
    }

private:
    Stamp m_now;
};

} // namespace coldarc::app
