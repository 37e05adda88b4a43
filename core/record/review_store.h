#pragma once

#include "core/record/review.h"
#include "core/store/database.h"

#include <QHash>

#include <vector>

namespace coldarc::record {

/// The reviews of one visit as a workspace keeps them.
struct KeptReviews {
    std::vector<KeptReview> whole; ///< each as its reviewer signed it
    std::vector<Hash> altered{};   ///< ids of rows that are not as they were kept: they say nothing

    friend bool operator==(const KeptReviews&, const KeptReviews&) = default;
};

/// The reviews of one workspace: added, never changed, and removed only where the row is not as it was kept
/// and the paper itself takes its place. Who may review is not looked at here, nor whose the key is: whoever
/// does tells which of them count for nobody, and the stand in the lists follows.
class ReviewStore {
public:
    /// Borrows the database, which must outlive this. Schema: steps 0001, 0012, 0013, 0016 and 0017.
    explicit ReviewStore(store::Database& database)
        : m_database(&database)
    {
    }

    /// Keeps a paper; one that is kept already is no error, and takes the place of a row that was altered
    /// since. Malformed unless it is a review that this key signed; Conflict unless the visit has the entry
    /// that it names, with that link of the chain.
    Result<void> keep(const SignedReview& paper, const people::PublicKey& key, const Stamp& now);
    /// Of one visit: by the entry that was looked at last, then by the moment, then by the id, whichever of
    /// them came first.
    [[nodiscard]] Result<KeptReviews> of(const VisitId& visit) const;

    /// Of one visit these count for nobody, every other one does. The visit is to be checked no longer.
    /// @param altered    among them, see KeptReviews.
    /// @param uncounted  the others.
    Result<void> setUncounted(const VisitId& visit, const std::vector<Hash>& altered,
                              const std::vector<Hash>& uncounted);
    /// How many reviews of a visit are said to be altered; visits without one are left out.
    [[nodiscard]] Result<QHash<VisitId, int>> altered() const;
    /// Visits with reviews of which something came since that may change which of them count: so many at
    /// most.
    [[nodiscard]] Result<QList<VisitId>> toCheck(int most) const;

private:
    Result<void> removeAltered(const Hash& id, const VisitId& visit);

    store::Database* m_database;
};

} // namespace coldarc::record
