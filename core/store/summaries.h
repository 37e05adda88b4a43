#pragma once

#include "core/store/journal.h"

#include <functional>

namespace coldarc::store {

/// What lists show of a visit. Made from its entries and never the source of a rule or a signature.
struct VisitSummary {
    VisitId visit;
    SiteId site;
    QString siteText; ///< and the screens, "Pier Street, Screen 2"
    WallTime openedAt;
    QString state; ///< the visit room's word
    int swaps = 0; ///< >= 0
    QString engineerText;
    Sequence headSeq{0}; ///< the last entry that it was made from
    Hash headHash;
    bool isSigned = false;
    int weight = 0;      ///< of what is out of the ordinary, 0 to 100
    QStringList kinds{}; ///< of that, the review room's words, each once
    QString
        review{}; ///< the visit room's word for how a review stands; empty while there is nothing to review

    friend bool operator==(const VisitSummary&, const VisitSummary&) = default;
};

/// A summary from a row with every column of the table. Malformed where the hash is none.
[[nodiscard]] Result<VisitSummary> summaryFrom(const Row& row);

/// The summaries of one workspace: a table that may be rewritten, thrown away, and rebuilt from the logbooks.
class Summaries {
public:
    /// Makes a summary from the entries of one visit, at least one. The store knows nothing of visits, so the
    /// visit room brings this. `visit`, `headSeq` and `headHash` are filled in afterwards.
    using Summarise = std::function<Result<VisitSummary>(const VisitId&, const std::vector<Entry>&)>;

    /// What a rebuild could not do.
    struct Fault {
        VisitId visit;
        Error error;
    };
    struct Rebuilt {
        int made = 0;
        std::vector<Fault>
            faults; ///< visits without a summary now: a broken chain, or entries that say nothing
    };

    /// Borrows the database, which must outlive this. Schema: steps 0001, 0012, 0018 and 0019.
    explicit Summaries(Database& database)
        : m_database(&database)
    {
    }

    /// Writes the summary of one visit, over the one before.
    Result<void> put(const VisitSummary& summary);
    /// The same with everything that stands here of the visit by now: it is not made anew behind that.
    Result<void> putWhole(const VisitSummary& summary);
    /// Newest opened first.
    [[nodiscard]] Result<std::vector<VisitSummary>> all() const;
    /// NotFound if there is none.
    [[nodiscard]] Result<VisitSummary> of(const VisitId& visit) const;
    /// Throws all away and makes them anew, in one transaction. A visit that cannot be summarised is left out
    /// and named.
    Result<Rebuilt> rebuild(const Summarise& summarise);
    /// Makes one summary anew of those about which something came since, or that an earlier program wrote;
    /// false: none is left. One that cannot be made stays as it is.
    Result<bool> makeNext(const Summarise& summarise);

private:
    Result<void> isMade(const VisitId& visit);
    Result<void> make(const VisitId& visit, const Summarise& summarise, Rebuilt& rebuilt);

    Database* m_database;
};

} // namespace coldarc::store
