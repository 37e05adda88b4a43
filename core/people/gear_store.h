#pragma once

#include "core/people/gear.h"
#include "core/store/database.h"

namespace coldarc::people {

/// The pieces of protective gear of one workspace. None is removed: one that is no longer fit is withdrawn at
/// an inspection.
class GearStore {
public:
    /// Borrows the database, which must outlive this. Schema: step 0002.
    explicit GearStore(store::Database& database)
        : m_database(&database)
    {
    }

    /// Conflict if the id is taken or the person is not there. The inspection in it is not written: see
    /// `inspect`.
    Result<void> add(const GearItem& item);
    /// Corrects what was read on it, or gives it to somebody else. NotFound if it is not there. The
    /// inspection in it is not written.
    Result<void> change(const GearItem& item);
    /// Conflict if the item or the person is not there.
    Result<void> inspect(const GearId& item, const GearInspection& inspection);

    /// All items, each with its latest inspection, by kind and identifier.
    [[nodiscard]] Result<std::vector<GearItem>> all() const;
    /// Those assigned to one person.
    [[nodiscard]] Result<std::vector<GearItem>> assignedTo(const PersonId& person) const;

private:
    store::Database* m_database;
};

} // namespace coldarc::people
