#pragma once

#include "core/visit/entry.h"

#include <QList>

#include <vector>

namespace coldarc::review {

/// The time of a visit as it is drawn: minute by minute while somebody writes, and long pauses cut short, so
/// that a night between does not squeeze the work into nothing. It ends at `endOfWork`.
class ShownTime {
public:
    /// A pause without an entry that is longer is cut. Minutes; a figure of the house.
    static constexpr double kLongPause = 180;
    /// What is shown of it, minutes.
    static constexpr double kShownPause = 6;

    /// Pre: there is an entry. Where the clock was set back, time stands still until it is caught up.
    explicit ShownTime(const QList<visit::Entry>& entries);

    /// Shown minutes from the first entry, 0 to `minutes`.
    [[nodiscard]] double at(WallTime moment) const;
    /// The other way round.
    [[nodiscard]] WallTime momentAt(double shown) const;
    /// All that is shown, at least 1.
    [[nodiscard]] double minutes() const { return m_minutes; }

    /// A stretch without a cut, or the cut between two.
    struct Stretch {
        double from = 0; ///< shown minutes
        double until = 0;
        WallTime begins{};
        WallTime ends{};
        bool isCut = false;

        friend bool operator==(const Stretch&, const Stretch&) = default;
    };
    [[nodiscard]] const std::vector<Stretch>& stretches() const { return m_stretches; }

private:
    std::vector<Stretch> m_stretches;
    double m_minutes = 1;
};

} // namespace coldarc::review
