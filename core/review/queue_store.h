#pragma once

#include "core/review/exception.h"
#include "core/review/reviewing.h"
#include "core/store/database.h"
#include "core/store/summaries.h"

#include <vector>

namespace coldarc::review {

/// What somebody wants to see of the queue. What is not said lets everything pass.
struct QueueFilter {
    std::optional<Stand> stand;
    bool waitsAlone = false;     ///< only visits that a supervisor has to look at: waiting or answered
    bool isUnusualAlone = false; ///< only visits with something out of the ordinary
    std::optional<Exception::Kind> kind{};
    QString text{}; ///< part of the site's or the engineer's name, in any letter case of ASCII; may be empty
    std::optional<WallTime> from{}; ///< opened at or after

    friend bool operator==(const QueueFilter&, const QueueFilter&) = default;
};

enum class QueueOrder : std::uint8_t {
    Weight, ///< what weighs most first, of equal ones the newest
    Newest,
    Oldest,
    Site,
    Engineer,
};

/// A part of the queue, and how much there is.
struct QueuePage {
    std::vector<store::VisitSummary> lines;
    qint64 all = 0;     ///< visits that the filter lets pass
    qint64 unusual = 0; ///< those among them with something out of the ordinary

    friend bool operator==(const QueuePage&, const QueuePage&) = default;
};

/// The review desk's queue: visits that are over, signed or not, as their summaries have them. Nothing is
/// decided by it (the stand among it follows the reviews that are kept, see standOf); a visit is read from
/// its logbook before anybody judges it.
class QueueStore {
public:
    /// Borrows the database, which must outlive this. Schema: steps 0001, 0012, 0013 and 0022.
    explicit QueueStore(store::Database& database)
        : m_database(&database)
    {
    }

    /// Pre: first >= 0, most > 0.
    [[nodiscard]] Result<QueuePage> page(const QueueFilter& filter, QueueOrder order, qint64 first,
                                         int most) const;
    /// How many visits of the queue stand before this one; -1: the filter does not let it pass.
    [[nodiscard]] Result<qint64> placeOf(const QueueFilter& filter, QueueOrder order,
                                         const VisitId& visit) const;

private:
    store::Database* m_database;
};

} // namespace coldarc::review
