#include "app/lamp_records.h"

#include "core/store/pictures.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::app {

namespace {

using Where = label::KnownLamp::Where;

Where whereOf(lamps::Custody custody)
{
    switch (custody) {
    case lamps::Custody::OnOrder:
    case lamps::Custody::InStock:
    case lamps::Custody::InVan:
    case lamps::Custody::Unused:
        return Where::AtHand;
    case lamps::Custody::Fitted:
        return Where::Fitted;
    case lamps::Custody::Boxed:
    case lamps::Custody::KeptBySite:
        return Where::Boxed;
    case lamps::Custody::Returned:
        return Where::Returned;
    case lamps::Custody::Recycled:
    case lamps::Custody::Burst:
        return Where::Recycled;
    }
    Q_UNREACHABLE();
}

LamphouseId seatOf(const std::vector<lamps::Fit>& fits)
{
    const auto running = std::ranges::find_if(fits, [](const lamps::Fit& fit) { return !fit.end; });
    return running == fits.end() ? LamphouseId() : running->lamphouse;
}

} // namespace

/// By the visits that are planned, and by those that are under way.
Result<QHash<LampId, QList<VisitId>>> StoredLampRecords::booked() const
{
    QHash<LampId, QList<VisitId>> booked;
    const auto plans = m_workspace.plans.all();
    if (!plans)
        return tl::unexpected(plans.error());
    for (const visit::PlannedVisit& plan : *plans) {
        for (const visit::PlannedSwap& swap : plan.swaps) {
            if (swap.newLamp)
                booked[*swap.newLamp].append(plan.visit);
        }
    }
    const auto summaries = m_workspace.summaries.all();
    if (!summaries)
        return tl::unexpected(summaries.error());
    for (const store::VisitSummary& one : *summaries) {
        const bool isUnderWay = one.state == u"open" || one.state == u"making-safe";
        const auto state =
            isUnderWay ? m_workspace.stateOf(one.visit) : fail(Error::Kind::NotFound, u"it is over"_s);
        if (!state || !state->ground)
            continue;
        for (const visit::SwapPlan& swap : state->ground->opening.swaps) {
            if (!swap.newLamp.id.isEmpty())
                booked[swap.newLamp.id].append(one.visit);
        }
    }
    return booked;
}

Result<QList<label::KnownLamp>> StoredLampRecords::lamps() const
{
    const auto counted = booked();
    if (!counted)
        return tl::unexpected(counted.error());
    QList<label::KnownLamp> known;
    for (const lamps::Custody custody : lamps::kEveryCustody) {
        const auto there = m_workspace.lamps.in(custody);
        if (!there)
            return tl::unexpected(there.error());
        for (const lamps::LampInCustody& one : *there) {
            label::KnownLamp lamp{one.lamp.type, one.lamp.serial, whereOf(custody)};
            lamp.bookedFor = counted->value(one.lamp.id);
            if (custody == lamps::Custody::InVan || custody == lamps::Custody::Unused)
                lamp.holder = one.holder;
            if (one.lamp.hours)
                lamp.hours = one.lamp.hours->hours();
            if (custody == lamps::Custody::Fitted) {
                const auto fits = m_workspace.lamps.fitsOf(one.lamp.id);
                if (!fits)
                    return tl::unexpected(fits.error());
                lamp.lamphouse = seatOf(*fits);
            }
            known.append(lamp);
        }
    }
    return known;
}

Result<QList<label::KnownPicture>> StoredLampRecords::pictures(const QList<Hash>& wanted) const
{
    QList<label::KnownPicture> known;
    for (const Hash& hash : wanted) {
        const auto visits = store::Pictures(m_workspace.database).visitsWith(hash);
        if (!visits)
            return tl::unexpected(visits.error());
        for (const VisitId& visit : *visits)
            known.append({hash, visit});
    }
    return known;
}

void StoredLampRecords::couldNotRead(const QString& scanned) const
{
    (void)m_workspace.taughtRules.couldNotRead(scanned, m_clock.now().wall);
}

} // namespace coldarc::app
