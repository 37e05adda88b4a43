#pragma once

#include <QtGlobal>

#include <compare>

namespace coldarc::store {

/// The number of an entry within its visit: 0, 1, 2 ... without a gap.
class Sequence {
public:
    explicit constexpr Sequence(qint64 value)
        : m_value(value)
    {
    }

    [[nodiscard]] constexpr qint64 value() const { return m_value; }
    [[nodiscard]] constexpr Sequence next() const { return Sequence(m_value + 1); }

    friend constexpr auto operator<=>(Sequence, Sequence) = default;

private:
    qint64 m_value;
};

} // namespace coldarc::store
