#pragma once

#include <QtGlobal>

#include <cmath>
#include <compare>

namespace coldarc::lamps {

/// Hours that a lamp has burnt. Unit: h. Finite and >= 0.
class LampHours {
public:
    LampHours() = default;
    /// Pre: finite and not negative.
    [[nodiscard]] static LampHours fromHours(double value)
    {
        Q_ASSERT_X(std::isfinite(value) && value >= 0, "LampHours",
                   "hours burnt are finite and not negative");
        return LampHours(value);
    }

    [[nodiscard]] double hours() const { return m_hours; }
    friend LampHours operator+(LampHours a, LampHours b) { return LampHours(a.m_hours + b.m_hours); }
    friend auto operator<=>(LampHours, LampHours) = default;

private:
    explicit LampHours(double value)
        : m_hours(value)
    {
    }
    double m_hours = 0;
};

/// What the hour counter of a lamphouse shows. Unit: h. Finite and >= 0. It says nothing of a lamp until two
/// of them are compared, see `hoursRun`.
class CounterHours {
public:
    CounterHours() = default;
    /// Pre: finite and not negative.
    [[nodiscard]] static CounterHours fromHours(double value)
    {
        Q_ASSERT_X(std::isfinite(value) && value >= 0, "CounterHours",
                   "a counter is finite and not negative");
        return CounterHours(value);
    }

    [[nodiscard]] double hours() const { return m_hours; }
    friend auto operator<=>(CounterHours, CounterHours) = default;

private:
    explicit CounterHours(double value)
        : m_hours(value)
    {
    }
    double m_hours = 0;
};

} // namespace coldarc::lamps
