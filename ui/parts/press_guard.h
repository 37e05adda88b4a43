#pragma once

#include "core/base/clock.h"

namespace coldarc::ui {

/// Keeps a press that was meant for the step before from reaching the step that has just come up.
class PressGuard {
public:
    static constexpr std::chrono::milliseconds kHold{700};

    /// Borrows the clock, which must outlive the guard. Takes presses until something is shown.
    explicit PressGuard(const Clock& clock)
        : m_clock(clock)
    {
    }

    /// A new thing came up: no press is taken for `kHold` from now.
    void shown() { m_opensAt = m_clock.now().sinceBoot + kHold; }
    [[nodiscard]] bool takesPress() const { return m_clock.now().sinceBoot >= m_opensAt; }

private:
    const Clock& m_clock;
    std::chrono::milliseconds m_opensAt{0};
};

} // namespace coldarc::ui
