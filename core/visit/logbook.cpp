#include "core/visit/logbook.h"

#include "core/visit/evolve.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::visit {
namespace {

/// Whether lists show something else after it. What is noticed between these entries comes with the next one.
bool isListed(const Body& body)
{
    return std::holds_alternative<Opening>(body) || std::holds_alternative<Closed>(body) ||
           std::holds_alternative<SafeBegun>(body) || std::holds_alternative<Signed>(body) ||
           std::holds_alternative<Addendum>(body);
}

/// "Pier Street, Screen 2": the site, and each screen whose lamp is swapped.
QString whereOf(const VisitState& state)
{
    const site::SiteDocument& site = state.ground->opening.site;
    QStringList screens;
    for (const SwapState& swap : state.swaps) {
        const site::Lamphouse* house = site.lamphouse(state.ground->lamphouses[swap.lamphouse]);
        const site::Projector* projector = house ? site.projector(house->projector) : nullptr;
        const site::Screen* screen = projector ? site.screen(projector->screen) : nullptr;
        if (screen && !screens.contains(screen->name))
            screens.append(screen->name);
    }
    return (QStringList{site.site.name} + screens).join(u", "_s);
}

} // namespace

Result<Logbook> Logbook::read(store::Journal& journal, store::Summaries& summaries, const VisitId& visit,
                              Summary made)
{
    const auto kept = journal.entries(visit);
    if (!kept)
        return tl::unexpected(kept.error());
    if (kept->empty())
        return fail(Error::Kind::NotFound, u"visit %1"_s.arg(visit.text()));
    Logbook logbook(journal, summaries, visit, made);
    auto entries = entriesFrom(*kept, &store::Entry::bytes);
    if (!entries)
        return tl::unexpected(entries.error());
    logbook.m_state = fold(*entries);
    logbook.m_entries = std::move(*entries);
    logbook.m_head = kept->back().hash;
    return logbook;
}

Result<Logbook> Logbook::begin(store::Journal& journal, store::Summaries& summaries, const PersonId& by,
                               const Opening& opening, const Stamp& now, Summary made)
{
    Logbook logbook(journal, summaries, opening.visit, made);
    const auto answer = logbook.tell(by, opening, now);
    if (!answer)
        return tl::unexpected(answer.error());
    if (const auto* refusal = std::get_if<Refusal>(&*answer)) {
        const int kind = refusal->whys.isEmpty() ? -1 : static_cast<int>(refusal->whys.first().kind);
        return fail(Error::Kind::Refused, u"a visit that cannot be opened, reason %1"_s.arg(kind));
    }
    return logbook;
}

Result<Logbook::Answer> Logbook::tell(const PersonId& by, const Body& asked, const Stamp& now)
{
    const Decision decision = decide(m_state, by, asked, now);
    if (!decision)
        return Answer(decision.error());
    if (auto kept = keep(*decision); !kept)
        return tl::unexpected(kept.error());
    return Answer(*decision);
}

Result<void> Logbook::keep(const Entry& entry)
{
    const auto hash = m_journal->append(m_visit, store::Sequence(m_state.entries), bytesOf(entry));
    if (!hash)
        return tl::unexpected(hash.error());
    m_head = *hash;
    m_state = evolve(std::move(m_state), entry);
    m_entries.append(entry);
    if (!isListed(entry.body))
        return {};
    store::VisitSummary summary = m_summary(m_state, m_entries);
    summary.headSeq = store::Sequence(m_state.entries - 1);
    summary.headHash = m_head;
    // A list that could not be written is made anew from the logbooks; the entry itself is safe.
    static_cast<void>(m_summaries->put(summary));
    return {};
}

store::VisitSummary summaryOf(const VisitState& state, const QList<Entry>& entries)
{
    store::VisitSummary summary;
    if (!state.ground)
        return summary;
    const Opening& opening = state.ground->opening;
    summary.visit = opening.visit;
    summary.site = opening.site.site.id;
    summary.siteText = whereOf(state);
    summary.openedAt = entries.isEmpty() ? WallTime() : entries.first().at.wall;
    summary.state = !state.end.isEmpty() ? state.end : state.isMakingSafe ? u"making-safe"_s : u"open"_s;
    summary.swaps = static_cast<int>(state.swaps.size());
    summary.engineerText = state.lead == machine::kNone ? QString() : state.people[state.lead].name;
    summary.isSigned = std::any_of(state.signatures.begin(), state.signatures.end(),
                                   [](const SignedBy& one) { return one.meaning == u"performed"_s; });
    summary.review = state.end.isEmpty() ? QString() : u"waiting"_s;
    return summary;
}

Result<store::VisitSummary> summariseBy(Summary made, const VisitId& visit,
                                        const std::vector<store::Entry>& entries)
{
    const auto read = entriesFrom(entries, &store::Entry::bytes);
    if (!read)
        return tl::unexpected(read.error());
    const VisitState state = fold(*read);
    if (!state.ground)
        return fail(Error::Kind::Malformed, u"visit %1 was never opened"_s.arg(visit.text()));
    return made(state, *read);
}

Result<store::VisitSummary> summarise(const VisitId& visit, const std::vector<store::Entry>& entries)
{
    return summariseBy(summaryOf, visit, entries);
}

} // namespace coldarc::visit
