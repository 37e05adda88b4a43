#include "app/workspace.h"

#include "app/review_reading.h"
#include "core/people/authority.h"
#include "core/review/reviewing.h"
#include "core/review/summary.h"
#include "ui/parts/quantities.h"

#include <algorithm>

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

void Workspace::settle(const visit::Logbook& logbook, WallTime now, visit::CountersAre counters)
{
    if (logbook.state().end.isEmpty())
        return;
    using Kind = visit::Leftover::Kind;
    const auto settlement = visit::settlementOf(logbook.entries());
    if (!settlement) {
        m_leftovers.insert(logbook.visit(), {{Kind::NotUnderstood}});
        return;
    }
    const auto left = settlements.settle(*settlement, now, counters);
    if (!left)
        m_leftovers.insert(logbook.visit(), {{Kind::NotWritten}});
    else if (left->empty())
        m_leftovers.remove(logbook.visit());
    else
        m_leftovers.insert(logbook.visit(), QList<visit::Leftover>(left->begin(), left->end()));
}

void Workspace::settle(const VisitId& visit, WallTime now, visit::CountersAre counters)
{
    if (const auto logbook = visit::Logbook::read(journal, summaries, visit))
        settle(*logbook, now, counters);
}

void Workspace::settleAll(WallTime now)
{
    const auto heads = journal.heads();
    if (!heads)
        return;
    const auto received = intake.received();
    if (!received)
        return;
    std::vector<visit::Logbook> closed;
    for (const store::Head& head : *heads) {
        const auto isSettled = settlements.isSettled(head.visit);
        if (!isSettled || *isSettled || received->contains(head.visit))
            continue;
        const auto state = stateOf(head.visit);
        if (!state || state->end.isEmpty())
            continue;
        auto logbook = visit::Logbook::read(journal, summaries, head.visit);
        if (logbook)
            closed.push_back(std::move(*logbook));
    }
    const auto closedAt = [](const visit::Logbook& logbook) {
        const QList<visit::Entry>& entries = logbook.entries();
        return std::ranges::find_if(entries,
                                    [](const visit::Entry& entry) {
                                        return std::holds_alternative<visit::Closed>(entry.body);
                                    })
            ->at.wall;
    };
    std::ranges::stable_sort(closed, {}, closedAt);
    for (const visit::Logbook& logbook : closed)
        settle(logbook, now);
}

void Workspace::foldBehind()
{
    if (!database.file().isEmpty()) // another connection to one in memory would find nothing
        m_folding = std::async(std::launch::async, foldsOf, database.file());
}

/// What cannot be read is left out: whoever asks for it reads it again and is told why.
Workspace::Folds Workspace::foldsOf(const QString& file)
{
    auto database = store::Database::connect(file, store::Access::Read);
    if (!database)
        return {};
    store::Journal journal(*database);
    store::Summaries summaries(*database);
    const visit::SettlementStore settlements(*database);
    const auto heads = journal.heads();
    const auto received = record::IntakeStore(*database).received();
    if (!heads || !received)
        return {};
    Folds folds;
    for (const store::Head& head : *heads) {
        const auto isSettled = settlements.isSettled(head.visit);
        if (!isSettled || *isSettled || received->contains(head.visit))
            continue;
        const auto logbook = visit::Logbook::read(journal, summaries, head.visit);
        if (logbook && logbook->state().end.isEmpty())
            folds.insert(head.visit, {logbook->head(), logbook->state()});
    }
    return folds;
}

Result<visit::VisitState> Workspace::stateOf(const VisitId& visit)
{
    if (m_folding.valid())
        m_folded = m_folding.get();
    const auto head = journal.head(visit);
    const auto known = m_folded.constFind(visit);
    if (head && known != m_folded.constEnd() && known->head == head->hash)
        return known->state;
    const auto logbook = visit::Logbook::read(journal, summaries, visit);
    if (!logbook)
        return tl::unexpected(logbook.error());
    if (head && logbook->state().end.isEmpty())
        m_folded.insert(visit, {head->hash, logbook->state()});
    else
        m_folded.remove(visit);
    return logbook->state();
}

Result<bool> Workspace::catchUp()
{
    const auto checked = checkReviews();
    if (!checked || *checked)
        return checked;
    return summaries.makeNext([this](const VisitId& visit, const std::vector<store::Entry>& entries) {
        return summarise(database, visit, entries);
    });
}

Result<bool> Workspace::checkReviews()
{
    const auto visits = reviews.toCheck(static_cast<int>(m_uncheckable.size()) + 1);
    if (!visits)
        return tl::unexpected(visits.error());
    const auto next =
        std::ranges::find_if(*visits, [&](const VisitId& visit) { return !m_uncheckable.contains(visit); });
    if (next == visits->end())
        return false;
    if (auto checked = app::checkReviews(database, *next); !checked) {
        if (checked.error().kind == Error::Kind::Busy)
            return tl::unexpected(checked.error()); // somebody else writes: later
        qWarning("reviews of %s not checked: %s", qUtf8Printable(next->text()),
                 qUtf8Printable(checked.error().detail));
        m_uncheckable.insert(*next); // and the others have their turn
    }
    return true;
}

bool Workspace::maySupervise(const people::Person& person, WallTime now, const QTimeZone& zone) const
{
    const auto given = people.authorisationsOf(person.id);
    return given &&
           people::authorityOf(person, *given, people::Duty::Supervise, ModelId(), ui::dayOf(now, zone))
                   .verdict == people::Authority::Verdict::Valid;
}

ui::SupervisorSaid saidOf(const record::Review& review)
{
    ui::SupervisorSaid said{review.name, review.at, review.verdict == record::Verdict::SentBack, review.entry,
                            review.text};
    for (const record::ReviewRemark& remark : review.remarks)
        said.remarks.append({remark.entry, remark.text});
    return said;
}

Result<QList<ui::VisitLine>> JournalShelf::all() const
{
    const auto summaries = m_workspace.summaries.all();
    if (!summaries)
        return tl::unexpected(summaries.error());
    const auto received = m_workspace.intake.received();
    const auto altered = m_workspace.reviews.altered();
    QList<ui::VisitLine> lines;
    for (const store::VisitSummary& one : *summaries) {
        if (received && received->contains(one.visit))
            continue; // reviewed here, not worked on; where that is not known, rather one too many
        lines.append({one.visit, one.site, one.siteText, one.openedAt, one.state, one.swaps, one.isSigned,
                      m_workspace.leftovers(one.visit)});
        lines.last().alteredReviews = altered ? altered->value(one.visit) : 0;
        if (review::standFromWord(one.review) != review::Stand::SentBack)
            continue;
        const auto reviews = m_workspace.reviews.of(one.visit);
        if (!reviews)
            continue;
        lines.last().alteredReviews = static_cast<int>(reviews->altered.size());
        for (const record::KeptReview& kept : reviews->whole) {
            if (kept.isCounted)
                lines.last().sentBack = saidOf(kept.review);
        }
    }
    return lines;
}

Result<visit::VisitState> JournalShelf::state(const VisitId& id) const
{
    return m_workspace.stateOf(id);
}

Result<void> JournalShelf::begin(const PersonId& by, const visit::Opening& opening)
{
    const auto begun = visit::Logbook::begin(m_workspace.journal, m_workspace.summaries, by, opening,
                                             m_clock.now(), review::summaryOf);
    if (!begun)
        return tl::unexpected(begun.error());
    return {};
}

} // namespace coldarc::app
