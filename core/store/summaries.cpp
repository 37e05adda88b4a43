#include "core/store/summaries.h"

using namespace Qt::StringLiterals;

namespace coldarc::store {
Result<VisitSummary> summaryFrom(const Row& row)
{
    const auto head = Hash::fromBytes(row.bytes(u"head_hash"));
    if (!head)
        return fail(Error::Kind::Malformed, u"a summary's head hash has 32 bytes"_s);
    return VisitSummary{VisitId(row.text(u"visit_id")),
                        SiteId(row.text(u"site_id")),
                        row.text(u"site_text"),
                        wallOf(row.whole(u"opened_at_ms")),
                        row.text(u"state"),
                        static_cast<int>(row.whole(u"swaps")),
                        row.text(u"engineer_text"),
                        Sequence(row.whole(u"head_seq")),
                        *head,
                        row.flag(u"is_signed"),
                        static_cast<int>(row.whole(u"weight")),
                        row.text(u"kinds").split(u' ', Qt::SkipEmptyParts),
                        row.text(u"review")};
}

Result<void> Summaries::put(const VisitSummary& summary)
{
    const auto written = m_database->run(
        u"INSERT INTO visit_summary(visit_id, site_id, site_text, opened_at_ms, state, swaps, "
        u"engineer_text, "
        "head_seq, head_hash, is_signed, weight, kinds, review) "
        "VALUES(:visit, :site, :site_text, :opened_at_ms, :state, :swaps, :engineer_text, "
        ":head_seq, :head_hash, :is_signed, :weight, :kinds, :review) "
        "ON CONFLICT(visit_id) DO UPDATE SET site_id = excluded.site_id, site_text = excluded.site_text, "
        "opened_at_ms = excluded.opened_at_ms, state = excluded.state, swaps = excluded.swaps, "
        "engineer_text = excluded.engineer_text, head_seq = "
        "excluded.head_seq, "
        "head_hash = excluded.head_hash, is_signed = excluded.is_signed, "
        "weight = excluded.weight, kinds = excluded.kinds, review = excluded.review"_s,
        {{u":visit"_s, summary.visit.text()},
         {u":site"_s, summary.site.text()},
         {u":site_text"_s, summary.siteText},
         {u":opened_at_ms"_s, msOf(summary.openedAt)},
         {u":state"_s, summary.state},
         {u":swaps"_s, summary.swaps},
         {u":engineer_text"_s, summary.engineerText},
         {u":head_seq"_s, summary.headSeq.value()},
         {u":head_hash"_s, summary.headHash.bytes()},
         {u":is_signed"_s, summary.isSigned ? 1 : 0},
         {u":weight"_s, summary.weight},
         // A space on both sides, so that one word is not found within another.
         {u":kinds"_s, summary.kinds.isEmpty() ? u""_s : u" %1 "_s.arg(summary.kinds.join(u' '))},
         {u":review"_s, summary.review}});
    if (!written)
        return tl::unexpected(written.error());
    return {};
}

Result<void> Summaries::putWhole(const VisitSummary& summary)
{
    return m_database->transaction([&]() -> Result<void> {
        if (auto written = put(summary); !written)
            return written;
        return isMade(summary.visit);
    });
}

Result<void> Summaries::isMade(const VisitId& visit)
{
    const auto done = m_database->run(u"DELETE FROM summary_to_make WHERE visit_id = :visit"_s,
                                      {{u":visit"_s, visit.text()}});
    if (!done)
        return tl::unexpected(done.error());
    return {};
}

Result<std::vector<VisitSummary>> Summaries::all() const
{
    const auto found = m_database->run(
        u"SELECT visit_id, site_id, site_text, opened_at_ms, state, swaps, "
        u"engineer_text, head_seq, "
        "head_hash, is_signed, weight, kinds, review FROM visit_summary ORDER BY opened_at_ms DESC, visit_id"_s);
    if (!found)
        return tl::unexpected(found.error());
    std::vector<VisitSummary> summaries;
    summaries.reserve(found->rows.size());
    for (const Row& row : found->rows) {
        auto summary = summaryFrom(row);
        if (!summary)
            return tl::unexpected(summary.error());
        summaries.push_back(std::move(*summary));
    }
    return summaries;
}

Result<VisitSummary> Summaries::of(const VisitId& visit) const
{
    const auto found = m_database->run(
        u"SELECT visit_id, site_id, site_text, opened_at_ms, state, swaps, "
        u"engineer_text, head_seq, "
        "head_hash, is_signed, weight, kinds, review FROM visit_summary WHERE visit_id = :visit"_s,
        {{u":visit"_s, visit.text()}});
    if (!found)
        return tl::unexpected(found.error());
    if (found->rows.empty())
        return fail(Error::Kind::NotFound, u"no summary of visit "_s + visit.text());
    return summaryFrom(found->rows.front());
}

Result<Summaries::Rebuilt> Summaries::rebuild(const Summarise& summarise)
{
    return m_database->transaction([&]() -> Result<Rebuilt> {
        if (const auto cleared = m_database->run(u"DELETE FROM visit_summary"_s); !cleared)
            return tl::unexpected(cleared.error());
        const auto visits = Journal(*m_database).heads();
        if (!visits)
            return tl::unexpected(visits.error());
        Rebuilt rebuilt;
        for (const Head& head : *visits) {
            if (auto made = make(head.visit, summarise, rebuilt); !made)
                return tl::unexpected(made.error());
        }
        return rebuilt;
    });
}

Result<bool> Summaries::makeNext(const Summarise& summarise)
{
    return m_database->transaction([&]() -> Result<bool> {
        const auto due = m_database->run(u"SELECT visit_id FROM summary_to_make LIMIT 1"_s);
        if (!due)
            return tl::unexpected(due.error());
        if (due->rows.empty())
            return false;
        const VisitId visit(due->rows.front().text(u"visit_id"));
        Rebuilt rebuilt;
        if (auto made = make(visit, summarise, rebuilt); !made)
            return tl::unexpected(made.error());
        if (auto done = isMade(visit); !done)
            return tl::unexpected(done.error());
        return true;
    });
}

Result<void> Summaries::make(const VisitId& visit, const Summarise& summarise, Rebuilt& rebuilt)
{
    const auto entries = Journal(*m_database).entries(visit);
    if (!entries && isOfTheDisk(entries.error()))
        return tl::unexpected(entries.error());
    auto summary = entries ? summarise(visit, *entries) : tl::unexpected(entries.error());
    if (!summary && isOfTheDisk(summary.error()))
        return tl::unexpected(summary.error());
    if (!summary) {
        rebuilt.faults.push_back({visit, summary.error()});
        return {};
    }
    summary->visit = visit;
    summary->headSeq = entries->back().seq;
    summary->headHash = entries->back().hash;
    if (auto written = put(*summary); !written)
        return tl::unexpected(written.error());
    ++rebuilt.made;
    return {};
}

} // namespace coldarc::store
