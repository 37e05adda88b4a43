#pragma once

#include "core/store/database.h"
#include "core/visit/settlement.h"

#include <vector>

namespace coldarc::visit {

/// What closed visits left to later ones, in one workspace.
class OwedStore {
public:
    /// Borrows the database, which must outlive this. Schema: steps 0004 and 0008.
    explicit OwedStore(store::Database& database)
        : m_database(&database)
    {
    }

    /// Takes over what a closed visit left, and what it did of what others had left. All or nothing; a second
    /// time changes nothing.
    Result<void> tell(const Settlement& settlement, WallTime now);
    [[nodiscard]] Result<bool> isTold(const VisitId& visit) const;

    /// Everything that is owed still, oldest first; what one visit left at one moment in the procedure's
    /// order. Visits may have been told in any order. Nothing is owed any more to a lamp that came out since,
    /// or in whose seat another one was fitted since.
    [[nodiscard]] Result<std::vector<OwedStep>> open() const;

private:
    Result<void> write(const Settlement& settlement, WallTime now);

    store::Database* m_database;
};

} // namespace coldarc::visit
