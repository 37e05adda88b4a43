#pragma once

#include "core/base/id_source.h"
#include "core/people/gear_store.h"
#include "core/people/people_store.h"
#include "core/site/site_store.h"
#include "core/visit/open_visit.h"
#include "core/visit/owed_store.h"
#include "core/visit/plan_store.h"
#include "core/visit/settlement_store.h"
#include "core/visit/state.h"
#include "ui/visit/supervisor_said.h"

#include <QTimeZone>

#include <functional>

namespace coldarc::ui {

/// A visit of this workspace, as its lists have it.
struct VisitLine {
    VisitId visit;
    SiteId site;
    QString siteText;
    WallTime openedAt;
    QString state; ///< the word of how it ended, "open" or "making-safe"
    int swaps = 0;
    bool isSigned = false;
    QList<visit::Leftover> leftovers{};       ///< of a closed visit: what did not go over to lamps and sites
    std::optional<SupervisorSaid> sentBack{}; ///< why, where it was and nobody has answered yet
    int alteredReviews = 0;                   ///< that are not as they were written, and do not count

    friend bool operator==(const VisitLine&, const VisitLine&) = default;
};

/// The logbooks of a workspace, for pages. The program's root brings the real one.
class VisitShelf {
public:
    virtual ~VisitShelf() = default;
    /// Newest first.
    [[nodiscard]] virtual Result<QList<VisitLine>> all() const = 0;
    [[nodiscard]] virtual Result<visit::VisitState> state(const VisitId& visit) const = 0;
    /// Keeps the first entry of a new visit. Errors as for visit::Logbook::begin.
    [[nodiscard]] virtual Result<void> begin(const PersonId& by, const visit::Opening& opening) = 0;
};

/// Everything that is asked before a visit. All of it is borrowed.
struct VisitSources {
    people::PeopleStore& people;
    people::GearStore& gear;
    site::SiteStore& sites;
    lamps::LampStore& lamps;
    visit::PlanStore& plans;
    visit::OwedStore& owed;
    const catalogue::Catalogue& catalogue;
    const procedure::ProcedureLoading& readable;                ///< not proved: to plan by
    std::function<const procedure::ProcedureLoading&()> proved; ///< to work by; may take a moment
    VisitShelf& shelf;
    const Clock& clock;
    IdSource& ids;
    QTimeZone zone = QTimeZone::systemTimeZone();

    [[nodiscard]] visit::Shelf documents() const { return {catalogue, proved()}; }
};

/// What is known of the lamp in every lamphouse of a site that holds a known one.
[[nodiscard]] QList<visit::FittedLamp> fittedAt(const site::SiteDocument& site, const VisitSources& sources);

/// People of the workspace, in the order asked for, with all that it knows of what they may do at this site;
/// those of whom that cannot be read are left out. The newest visit there that knows of somebody says whether
/// a removal of their lock is still to be told. Reads logbooks of this site, each once at most.
[[nodiscard]] QList<visit::Attendant> attendantsOf(const QList<PersonId>& people, const SiteId& site,
                                                   const VisitSources& sources);

/// What the unfinished visits have in hand; one that cannot be read holds nothing up.
[[nodiscard]] lamps::InHand inHand(const VisitShelf& shelf);

/// What is owed to the lamp in one lamphouse.
struct OwedThere {
    SiteId site;
    LamphouseId lamphouse;
    QList<visit::OwedStep> steps; ///< oldest first, each step once

    /// As a visit takes it up.
    [[nodiscard]] QList<visit::OwedPlan> plan() const;
    [[nodiscard]] QList<StepId> ids() const;
    /// "Check the peak again, Measure the screen".
    [[nodiscard]] QString titles() const;
    friend bool operator==(const OwedThere&, const OwedThere&) = default;
};
/// Everything that is owed still, by lamphouse, what has waited longest first.
[[nodiscard]] Result<QList<OwedThere>> owedThere(const VisitSources& sources);
/// How long doing what is owed takes; nothing where its model has no procedure.
[[nodiscard]] std::optional<visit::NeededTime> neededFor(const site::SiteDocument& site,
                                                         const QList<visit::FittedLamp>& fitted,
                                                         const OwedThere& owed, const VisitSources& sources);

/// How long swaps take together, nothing overlapped; nothing where a model has no procedure.
struct SwapTypes {
    LamphouseId lamphouse;
    std::optional<LampTypeId> newType;
};
[[nodiscard]] std::optional<visit::NeededTime> neededFor(const site::SiteDocument& site,
                                                         const QList<visit::FittedLamp>& fitted,
                                                         const QList<SwapTypes>& swaps,
                                                         const VisitSources& sources);

/// "HVQ21-40A, HV00123": what is printed on it, as far as it is known.
[[nodiscard]] QString lampText(const visit::LampFacts& lamp, const catalogue::Catalogue& catalogue);
/// "1980 h on 2026-10-02, 20 h left of its warranty", as at that reading; "hours unknown".
[[nodiscard]] QString hoursLeftText(const visit::LampFacts& lamp, const VisitSources& sources);
/// "needs 1 h 38, gap 2 h, next show 16:40", and what follows from it.
struct TimeWords {
    QString needs;   ///< "needs 1 h 38"
    QString gap;     ///< "gap 2 h, next show 16:40"; "no show is known here"
    QString verdict; ///< "22 min to spare"; "12 min too short: ..."; or empty
    friend bool operator==(const TimeWords&, const TimeWords&) = default;
};
[[nodiscard]] TimeWords timeWords(const std::optional<visit::NeededTime>& needed,
                                  const std::optional<site::NextShow>& show, WallTime now,
                                  const QTimeZone& zone);

} // namespace coldarc::ui
