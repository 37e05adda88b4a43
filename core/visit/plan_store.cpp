#include "core/visit/plan_store.h"

using namespace Qt::StringLiterals;

namespace coldarc::visit {

Result<void> PlanStore::save(const PlannedVisit& plan)
{
    return m_database->transaction([&]() -> Result<void> {
        const auto cleared = m_database->run(u"DELETE FROM planned_visit WHERE visit_id = :visit"_s,
                                             {{u":visit"_s, plan.visit.text()}});
        if (!cleared)
            return tl::unexpected(cleared.error());
        const auto added = m_database->run(u"INSERT INTO planned_visit(visit_id, site_id, planned_on, reason)"
                                           " VALUES(:visit, :site, :day, :reason)"_s,
                                           {{u":visit"_s, plan.visit.text()},
                                            {u":site"_s, plan.site.text()},
                                            {u":day"_s, people::isoText(plan.day)},
                                            {u":reason"_s, plan.reason}});
        if (!added)
            return tl::unexpected(added.error());
        qint64 position = 0;
        for (const PlannedSwap& swap : plan.swaps) {
            const auto put = m_database->run(
                u"INSERT INTO planned_swap(visit_id, position, lamphouse_id, new_lamp_id)"
                " VALUES(:visit, :position, :lamphouse, :lamp)"_s,
                {{u":visit"_s, plan.visit.text()},
                 {u":position"_s, position++},
                 {u":lamphouse"_s, swap.lamphouse.text()},
                 {u":lamp"_s, swap.newLamp ? QVariant(swap.newLamp->text()) : store::sqlNull()}});
            if (!put)
                return tl::unexpected(put.error());
        }
        return {};
    });
}

Result<void> PlanStore::drop(const VisitId& visit)
{
    const auto dropped = m_database->run(u"DELETE FROM planned_visit WHERE visit_id = :visit"_s,
                                         {{u":visit"_s, visit.text()}});
    if (!dropped)
        return tl::unexpected(dropped.error());
    if (dropped->changed == 0)
        return fail(Error::Kind::NotFound, u"planned visit "_s + visit.text());
    return {};
}

Result<PlannedVisit> PlanStore::plan(const VisitId& visit) const
{
    const auto found = m_database->run(u"SELECT visit_id, site_id, planned_on, reason FROM planned_visit"
                                       " WHERE visit_id = :visit"_s,
                                       {{u":visit"_s, visit.text()}});
    if (!found)
        return tl::unexpected(found.error());
    if (found->rows.empty())
        return fail(Error::Kind::NotFound, u"planned visit "_s + visit.text());
    return planFrom(found->rows.front());
}

Result<std::vector<PlannedVisit>> PlanStore::all() const
{
    const auto found = m_database->run(u"SELECT visit_id, site_id, planned_on, reason FROM planned_visit"
                                       " ORDER BY planned_on, visit_id"_s);
    if (!found)
        return tl::unexpected(found.error());
    std::vector<PlannedVisit> plans;
    for (const store::Row& row : found->rows) {
        auto plan = planFrom(row);
        if (!plan)
            return tl::unexpected(plan.error());
        plans.push_back(std::move(*plan));
    }
    return plans;
}

Result<PlannedVisit> PlanStore::planFrom(const store::Row& row) const
{
    const auto day = people::dayFromIso(row.text(u"planned_on"));
    PlannedVisit plan{VisitId(row.text(u"visit_id")),
                      SiteId(row.text(u"site_id")),
                      day.value_or(people::Day()),
                      row.text(u"reason"),
                      {}};
    if (!day)
        return fail(Error::Kind::Malformed, u"planned visit "_s + plan.visit.text());
    const auto swaps = m_database->run(u"SELECT lamphouse_id, new_lamp_id FROM planned_swap"
                                       " WHERE visit_id = :visit ORDER BY position"_s,
                                       {{u":visit"_s, plan.visit.text()}});
    if (!swaps)
        return tl::unexpected(swaps.error());
    for (const store::Row& swap : swaps->rows) {
        plan.swaps.push_back(
            {LamphouseId(swap.text(u"lamphouse_id")),
             swap.isNull(u"new_lamp_id") ? std::nullopt : std::optional(LampId(swap.text(u"new_lamp_id")))});
    }
    return plan;
}

} // namespace coldarc::visit
