#include "core/review/replay.h"

#include "core/visit/evolve.h"

#include <algorithm>
#include <utility>

namespace coldarc::review {
namespace {

using machine::Index;
using machine::kNone;

/// Where an entry was at work by its own words, or kNone.
class PlaceOf {
public:
    explicit PlaceOf(const visit::VisitState& state)
        : m_state(state)
    {
    }

    template<class Body>
    [[nodiscard]] Index operator()(const Body& body) const
    {
        Index place = kNone;
        if constexpr (requires { body.lamphouse; })
            place = lamphouse(body.lamphouse);
        if constexpr (requires { body.act.lamphouse; })
            place = lamphouse(body.act.lamphouse);
        if constexpr (requires { body.swap; })
            place = place == kNone ? ofSwap(body.swap) : place;
        if constexpr (requires { body.lamp; })
            place = place == kNone ? ofLamp(body.lamp) : place;
        return place;
    }

private:
    [[nodiscard]] Index lamphouse(const LamphouseId& id) const
    {
        return id.isEmpty() ? kNone : m_state.ground->lamphouse(id);
    }
    [[nodiscard]] Index ofSwap(const SwapId& id) const
    {
        const visit::SwapState* swap = m_state.swap(id);
        return swap ? swap->lamphouse : kNone;
    }
    [[nodiscard]] Index ofLamp(const LampId& id) const
    {
        const auto& lamps = m_state.ground->lamps;
        for (const visit::SwapState& swap : m_state.swaps) {
            if (lamps[swap.newLamp].id == id || lamps[swap.oldLamp].id == id)
                return swap.lamphouse;
        }
        return kNone;
    }

    const visit::VisitState& m_state;
};

} // namespace

Replay::Replay(QList<visit::Entry> entries)
    : m_entries(std::move(entries))
{
    Q_ASSERT_X(!m_entries.isEmpty(), "Replay", "a visit has an entry");
    for (qint64 number = 0; number < m_entries.size(); ++number) {
        m_state = visit::evolve(std::move(m_state), m_entries[number]);
        if (number % kBetweenKept == 0)
            m_kept.push_back(m_state);
    }
    m_at = m_entries.size() - 1;
}

const visit::VisitState& Replay::after(qint64 entry)
{
    Q_ASSERT_X(entry >= 0 && entry < m_entries.size(), "Replay::after", "the entry is one of the visit");
    const qint64 kept = entry / kBetweenKept * kBetweenKept;
    if (m_at > entry || m_at < kept) {
        m_state = m_kept[static_cast<std::size_t>(entry / kBetweenKept)];
        m_at = kept;
    }
    while (m_at < entry)
        m_state = visit::evolve(std::move(m_state), m_entries[++m_at]);
    return m_state;
}

qint64 endOfWork(const QList<visit::Entry>& entries)
{
    Q_ASSERT_X(!entries.isEmpty(), "endOfWork", "a visit has an entry");
    const auto closed = std::ranges::find_if(
        entries, [](const visit::Entry& entry) { return std::holds_alternative<visit::Closed>(entry.body); });
    return closed == entries.end() ? entries.size() - 1 : closed - entries.begin();
}

qint64 entryAt(const QList<visit::Entry>& entries, WallTime moment)
{
    const auto last = std::find_if(entries.rbegin(), entries.rend(),
                                   [&](const visit::Entry& entry) { return entry.at.wall <= moment; });
    return last == entries.rend() ? 0 : entries.rend() - last - 1;
}

machine::Index lamphouseOf(const QList<visit::Entry>& entries, qint64 entry, const visit::VisitState& state)
{
    const PlaceOf placeOf(state);
    for (qint64 number = entry; number >= 0; --number) {
        const Index place = std::visit(placeOf, entries[number].body);
        if (place != kNone)
            return place;
    }
    return state.swaps.isEmpty() ? Index{0} : state.swaps.first().lamphouse;
}

} // namespace coldarc::review
