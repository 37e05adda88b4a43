#pragma once

#include "core/base/ids.h"
#include "core/people/calendar.h"
#include "core/store/database.h"

#include <QString>

#include <optional>
#include <vector>

namespace coldarc::visit {

/// One lamp that is to be exchanged on a planned visit.
struct PlannedSwap {
    LamphouseId lamphouse;
    std::optional<LampId> newLamp; ///< nothing: none is put aside yet

    friend bool operator==(const PlannedSwap&, const PlannedSwap&) = default;
};

/// A visit that is meant to be made and was not opened yet. Nothing is decided on it: whoever opens the visit
/// gathers what is true then.
struct PlannedVisit {
    VisitId visit; ///< the id that the visit has once it is opened
    SiteId site;
    people::Day day;
    QString reason; ///< may be empty
    std::vector<PlannedSwap> swaps;

    friend bool operator==(const PlannedVisit&, const PlannedVisit&) = default;
};

/// The plans of one workspace.
class PlanStore {
public:
    /// Borrows the database, which must outlive this. Schema: step 0005.
    explicit PlanStore(store::Database& database)
        : m_database(&database)
    {
    }

    /// Writes the plan over what was there of this visit, all or nothing. Conflict if the site or a lamp is
    /// not there, a lamphouse stands in it twice, or a lamp is put aside for another swap.
    /// Pre: the day exists.
    Result<void> save(const PlannedVisit& plan);
    /// The visit was opened, or is not made. NotFound if there is no such plan.
    Result<void> drop(const VisitId& visit);

    /// NotFound if there is none.
    [[nodiscard]] Result<PlannedVisit> plan(const VisitId& visit) const;
    /// Every plan, the earliest day first.
    [[nodiscard]] Result<std::vector<PlannedVisit>> all() const;

private:
    [[nodiscard]] Result<PlannedVisit> planFrom(const store::Row& row) const;

    store::Database* m_database;
};

} // namespace coldarc::visit
