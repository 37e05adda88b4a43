#pragma once

#include "core/lamps/lamp_store.h"
#include "core/lamps/taught_rule_store.h"
#include "core/people/gear_store.h"
#include "core/people/key_store.h"
#include "core/people/office_store.h"
#include "core/people/people_store.h"
#include "core/record/intake_store.h"
#include "core/record/review_store.h"
#include "core/review/history_store.h"
#include "core/site/site_store.h"
#include "core/store/journal.h"
#include "core/store/summaries.h"
#include "core/visit/logbook.h"
#include "core/visit/plan_store.h"
#include "core/visit/settlement_store.h"
#include "ui/people/enrolment.h"
#include "ui/visit/supervisor_said.h"
#include "ui/visit/visit_sources.h"

#include <future>

namespace coldarc::app {

/// One open workspace file and every room's store on it.
class Workspace {
public:
    explicit Workspace(store::Database opened)
        : database(std::move(opened))
    {
    }
    Workspace(const Workspace&) = delete; // the stores point to the database
    Workspace& operator=(const Workspace&) = delete;

    /// Person, authorisations and key in one transaction.
    Result<void> enrol(const ui::Enrolment& enrolment, const Stamp& now);

    /// Carries what a closed visit says over to lamps and sites. What was left over, and a disk that refused,
    /// is remembered until it is tried again; a visit that is not closed is left alone.
    void settle(const visit::Logbook& logbook, WallTime now,
                visit::CountersAre counters = visit::CountersAre::AsRead);
    void settle(const VisitId& visit, WallTime now, visit::CountersAre counters);
    /// Every closed visit that is not settled yet, the one that was closed first at first. A logbook that
    /// cannot be read is left alone, and so is a visit of another workspace: its lamps are not of this one.
    void settleAll(WallTime now);
    /// Begins to fold every visit of this workspace that is not settled, in a thread and over a connection of
    /// its own; whoever asks for the state of a visit waits until that is done.
    void foldBehind();
    /// One piece of what waits to be caught up with, if there is any: the reviews of a visit are held against
    /// what came since, or a summary of an earlier program is made anew. False: there is none.
    Result<bool> catchUp();
    /// A visit as its logbook tells it. Folded again only when an entry was added since: every page asks.
    [[nodiscard]] Result<visit::VisitState> stateOf(const VisitId& visit);
    /// @param zone  whose days those of authorisations are.
    [[nodiscard]] bool maySupervise(const people::Person& person, WallTime now,
                                    const QTimeZone& zone = QTimeZone::systemTimeZone()) const;
    [[nodiscard]] QList<visit::Leftover> leftovers(const VisitId& visit) const
    {
        return m_leftovers.value(visit);
    }

    store::Database database;
    store::Journal journal{database};
    store::Summaries summaries{database};
    people::PeopleStore people{database};
    people::KeyStore keys{database};
    people::OfficeStore offices{database};
    people::GearStore gear{database};
    site::SiteStore sites{database};
    lamps::LampStore lamps{database};
    lamps::TaughtRuleStore taughtRules{database};
    visit::PlanStore plans{database};
    visit::OwedStore owed{database};
    visit::SettlementStore settlements{database};
    record::IntakeStore intake{database};
    review::HistoryStore histories{database};
    record::ReviewStore reviews{database};

private:
    Result<bool> checkReviews();
    struct Folded {
        Hash head; ///< of the entries that were folded
        visit::VisitState state;
    };
    using Folds = QHash<VisitId, Folded>;
    [[nodiscard]] static Folds foldsOf(const QString& file);

    Folds m_folded; ///< of visits that are still open
    std::future<Folds> m_folding;
    QHash<VisitId, QList<visit::Leftover>> m_leftovers;
    QSet<VisitId> m_uncheckable; ///< whose reviews could not be checked since the program started
};

/// What a review says, for the pages of whoever did the work.
[[nodiscard]] ui::SupervisorSaid saidOf(const record::Review& review);

/// The logbooks of a workspace, as the pages ask for them.
class JournalShelf final : public ui::VisitShelf {
public:
    /// Borrows both, which must outlive the shelf.
    JournalShelf(Workspace& workspace, const Clock& clock)
        : m_workspace(workspace)
        , m_clock(clock)
    {
    }
    [[nodiscard]] Result<QList<ui::VisitLine>> all() const override;
    [[nodiscard]] Result<visit::VisitState> state(const VisitId& visit) const override;
    [[nodiscard]] Result<void> begin(const PersonId& by, const visit::Opening& opening) override;

private:
    Workspace& m_workspace;
    const Clock& m_clock;
};

} // namespace coldarc::app
