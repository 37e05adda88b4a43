#pragma once

#include "core/record/review.h"
#include "core/store/database.h"

#include <vector>

namespace coldarc::record {

/// The reviews of one workspace: added, never changed or removed. Who may review is not looked at here, nor
/// whose the key is.
class ReviewStore {
public:
    /// Borrows the database, which must outlive this. Schema: steps 0001, 0012 and 0013.
    explicit ReviewStore(store::Database& database)
        : m_database(&database)
    {
    }

    /// Keeps a paper; one that is kept already is no error. Malformed unless it is a review that this key
    /// signed; Conflict unless the visit has the entry that it names, with that link of the chain.
    Result<void> keep(const SignedReview& paper, const people::PublicKey& key, const Stamp& now);
    /// Of one visit: by the entry that was looked at last, then by the moment, then by the id, whichever of
    /// them came first. Malformed for one that is not as it was kept.
    [[nodiscard]] Result<std::vector<KeptReview>> of(const VisitId& visit) const;

private:
    store::Database* m_database;
};

} // namespace coldarc::record
