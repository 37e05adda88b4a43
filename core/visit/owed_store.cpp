#include "core/visit/owed_store.h"

using namespace Qt::StringLiterals;

namespace coldarc::visit {
namespace {

OwedStep stepFrom(const store::Row& row)
{
    return {VisitId(row.text(u"visit_id")),  SwapId(row.text(u"swap_id")),
            StepId(row.text(u"step_id")),    row.text(u"title"),
            SiteId(row.text(u"site_id")),    LamphouseId(row.text(u"lamphouse_id")),
            LampId(row.text(u"lamp_id")),    PersonId(row.text(u"person_id")),
            wallOf(row.whole(u"owed_at_ms"))};
}

} // namespace

Result<void> OwedStore::tell(const Settlement& settlement, WallTime now)
{
    return m_database->transaction([&]() -> Result<void> {
        const auto isDone = isTold(settlement.visit);
        if (!isDone)
            return tl::unexpected(isDone.error());
        return *isDone ? Result<void>() : write(settlement, now);
    });
}

Result<void> OwedStore::write(const Settlement& settlement, WallTime now)
{
    qint64 position = 0;
    for (const OwedStep& owed : settlement.owed) {
        const auto added = m_database->run(u"INSERT INTO owed_step (visit_id, swap_id, step_id, position, "
                                           u"title, site_id, lamphouse_id, lamp_id,"
                                           " person_id, owed_at_ms) VALUES (:visit, :swap, :step, :position, "
                                           ":title, :site, :lamphouse, :lamp,"
                                           " :person, :at)"_s,
                                           {{u":visit"_s, owed.visit.text()},
                                            {u":swap"_s, owed.swap.text()},
                                            {u":step"_s, owed.step.text()},
                                            {u":position"_s, position++},
                                            {u":title"_s, owed.title},
                                            {u":site"_s, owed.site.text()},
                                            {u":lamphouse"_s, owed.lamphouse.text()},
                                            {u":lamp"_s, owed.lamp.text()},
                                            {u":person"_s, owed.by.text()},
                                            {u":at"_s, msOf(owed.since)}});
        if (!added)
            return tl::unexpected(added.error());
    }
    for (const OwedDone& done : settlement.owedDone) {
        const auto added = m_database->run(
            u"INSERT INTO owed_step_done (visit_id, swap_id, step_id, lamphouse_id, lamp_id, done_at_ms)"
            " VALUES (:visit, :swap, :step, :lamphouse, :lamp, :at)"_s,
            {{u":visit"_s, settlement.visit.text()},
             {u":swap"_s, done.swap.text()},
             {u":step"_s, done.step.text()},
             {u":lamphouse"_s, done.lamphouse.text()},
             {u":lamp"_s, done.lamp.text()},
             {u":at"_s, msOf(done.at)}});
        if (!added)
            return tl::unexpected(added.error());
    }
    const auto marked =
        m_database->run(u"INSERT INTO visit_owing (visit_id, told_at_ms) VALUES (:visit, :at)"_s,
                        {{u":visit"_s, settlement.visit.text()}, {u":at"_s, msOf(now)}});
    return marked ? Result<void>() : tl::unexpected(marked.error());
}

Result<bool> OwedStore::isTold(const VisitId& visit) const
{
    const auto found = m_database->run(u"SELECT visit_id FROM visit_owing WHERE visit_id = :visit"_s,
                                       {{u":visit"_s, visit.text()}});
    if (!found)
        return tl::unexpected(found.error());
    return !found->rows.empty();
}

Result<std::vector<OwedStep>> OwedStore::open() const
{
    const auto found = m_database->run(
        u"SELECT visit_id, swap_id, step_id, title, site_id, lamphouse_id, lamp_id, person_id, owed_at_ms"
        " FROM owed_step AS owed"
        " WHERE NOT EXISTS (SELECT 1 FROM owed_step_done AS done"
        "   WHERE done.lamphouse_id = owed.lamphouse_id AND done.lamp_id = owed.lamp_id"
        "     AND done.step_id = owed.step_id AND done.done_at_ms >= owed.owed_at_ms)"
        " AND NOT EXISTS (SELECT 1 FROM fit JOIN fit_end ON fit_end.fit_id = fit.fit_id"
        "   WHERE fit.lamphouse_id = owed.lamphouse_id AND fit.lamp_id = owed.lamp_id"
        "     AND fit_end.removed_at_ms >= owed.owed_at_ms)"
        " AND NOT EXISTS (SELECT 1 FROM fit"
        "   WHERE fit.lamphouse_id = owed.lamphouse_id AND fit.lamp_id <> owed.lamp_id"
        "     AND fit.fitted_at_ms >= owed.owed_at_ms)"
        " ORDER BY owed_at_ms, visit_id, position"_s);
    if (!found)
        return tl::unexpected(found.error());
    std::vector<OwedStep> steps;
    for (const store::Row& row : found->rows)
        steps.push_back(stepFrom(row));
    return steps;
}

} // namespace coldarc::visit
