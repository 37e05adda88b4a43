#pragma once

#include "core/visit/state.h"

#include <QList>

#include <vector>

namespace coldarc::review {

/// How a visit stood after each of its entries. Some of the folds are kept, so that whoever goes back and
/// forth over a visit folds a few entries and never all of them.
class Replay {
public:
    /// A fold is kept after every so many entries. A figure of the house: memory against the time of a move.
    static constexpr qint64 kBetweenKept = 16;

    /// Folds every entry once. Pre: the entries are a visit, the first opens it.
    explicit Replay(QList<visit::Entry> entries);

    [[nodiscard]] const QList<visit::Entry>& entries() const { return m_entries; }
    /// After this entry and all before it. The answer stands until the next question.
    /// Pre: 0 <= entry < entries().size().
    [[nodiscard]] const visit::VisitState& after(qint64 entry);

private:
    QList<visit::Entry> m_entries;
    std::vector<visit::VisitState> m_kept; ///< after entry 0, kBetweenKept, 2 * kBetweenKept ...
    visit::VisitState m_state;
    qint64 m_at = 0; ///< the entry that m_state was folded to
};

/// Number of the entry that closed the visit, of an open one of the last: the time of the visit ends with it,
/// and what was remarked on later is no part of that time. Pre: there is one.
[[nodiscard]] qint64 endOfWork(const QList<visit::Entry>& entries);

/// Number of the last entry that was written at this moment or before it, by the clock on the wall; the first
/// one where none was. Pre: there is one.
[[nodiscard]] qint64 entryAt(const QList<visit::Entry>& entries, WallTime moment);

/// Where this entry was at work, or, where it names no place, the last one before it that does; the first
/// lamphouse where none does. As an index of the ground.
/// @param state  a fold of these entries, opened.
[[nodiscard]] machine::Index lamphouseOf(const QList<visit::Entry>& entries, qint64 entry,
                                         const visit::VisitState& state);

} // namespace coldarc::review
