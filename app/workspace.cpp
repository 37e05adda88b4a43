#include "app/workspace.h"

namespace coldarc::app {

Result<void> Workspace::enrol(const ui::Enrolment& enrolment, const Stamp& now)
{
    return database.transaction([&]() -> Result<void> {
        if (auto added = people.add(enrolment.person); !added)
            return added;
        for (const people::Authorisation& one : enrolment.authorisations) {
            if (auto given = people.give(one); !given)
                return given;
        }
        return enrolment.key ? keys.enrol(enrolment.person.id, *enrolment.key, now) : Result<void>();
    });
}

Result<QList<ui::VisitLine>> JournalShelf::all() const
{
    const auto summaries = m_workspace.summaries.all();
    if (!summaries)
        return tl::unexpected(summaries.error());
    QList<ui::VisitLine> lines;
    for (const store::VisitSummary& one : *summaries) {
        lines.append({one.visit, one.site, one.siteText, one.openedAt, one.state, one.swaps, one.isSigned});
    }
    return lines;
}

Result<visit::VisitState> JournalShelf::state(const VisitId& id) const
{
    auto logbook = visit::Logbook::read(m_workspace.journal, m_workspace.summaries, id);
    if (!logbook)
        return tl::unexpected(logbook.error());
    return logbook->state();
}

Result<void> JournalShelf::begin(const PersonId& by, const visit::Opening& opening)
{
    const auto begun =
        visit::Logbook::begin(m_workspace.journal, m_workspace.summaries, by, opening, m_clock.now());
    if (!begun)
        return tl::unexpected(begun.error());
    return {};
}

} // namespace coldarc::app
