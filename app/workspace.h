#pragma once

#include "core/lamps/lamp_store.h"
#include "core/people/gear_store.h"
#include "core/people/key_store.h"
#include "core/people/people_store.h"
#include "core/site/site_store.h"
#include "core/store/journal.h"
#include "core/store/summaries.h"
#include "core/visit/logbook.h"
#include "core/visit/plan_store.h"
#include "ui/people/enrolment.h"
#include "ui/visit/visit_sources.h"

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

    store::Database database;
    store::Journal journal{database};
    store::Summaries summaries{database};
    people::PeopleStore people{database};
    people::KeyStore keys{database};
    people::GearStore gear{database};
    site::SiteStore sites{database};
    lamps::LampStore lamps{database};
    visit::PlanStore plans{database};
};

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
