#pragma once

#include "core/visit/state.h"

#include <QList>

#include <cstdint>

namespace coldarc::review {

/// What stood for a while, from one entry to another.
struct Span {
    /// In the order in which they are drawn.
    enum class Row : std::uint8_t {
        LampLit,
        CoolingDown, ///< the wait
        Cold,
        LocksOn,     ///< a personal lock hangs on the points
        LettingDown, ///< the wait of the stored charge
        Dead,        ///< 2 of 2
        Geared,
        HousingOpen,
        GuardOpen,
        Matched, ///< 2 of 2, the new lamp
        Settling,
        Settled,
    };
    Row row = Row::LampLit;
    LamphouseId lamphouse;
    qint64 from = 0;    ///< the entry since which it stood
    qint64 until = -1;  ///< the entry at which it stood no more; -1: it stood at the end of work
    WallTime beganAt{}; ///< of those entries; a wait is seen over at the entry behind it
    WallTime endedAt{};

    friend bool operator==(const Span&, const Span&) = default;
};
inline constexpr int kSpanRows = static_cast<int>(Span::Row::Settled) + 1;

/// What a row shows.
enum class SpanKind : std::uint8_t {
    State, ///< how the machine stood
    Wait,
    Gate, ///< one that was proved
};
[[nodiscard]] SpanKind kindOf(Span::Row row);

/// How the machine stood from the first entry to `endOfWork`: by lamphouse, row and moment. Folds every entry
/// once.
[[nodiscard]] QList<Span> timeLineOf(const QList<visit::Entry>& entries);

} // namespace coldarc::review
