#include "core/visit/settlement_store.h"

#include <algorithm>
#include <set>

using namespace Qt::StringLiterals;

namespace coldarc::visit {

namespace {

using lamps::Custody;
using Kind = Leftover::Kind;

/// A rule or a row says no, unlike a disk that is full.
bool isOfTheRows(const Error& error)
{
    return error.kind == Error::Kind::Conflict || error.kind == Error::Kind::NotFound;
}

const LampFacts& lampOf(const SeatDeed& deed)
{
    return std::visit([](const auto& one) -> const LampFacts& { return one.lamp; }, deed);
}

lamps::Lamp lampFrom(const LampFacts& facts)
{
    lamps::Lamp lamp{facts.id, facts.type.value_or(LampTypeId()), facts.serial, std::nullopt};
    if (facts.hours)
        lamp.hours = lamps::LampHours::fromHours(*facts.hours);
    return lamp;
}

/// Everything in a settlement that names a lamp.
template<class Visitor>
void eachLamp(Settlement& settlement, Visitor visitor)
{
    for (SeatSettlement& seat : settlement.seats) {
        for (SeatDeed& deed : seat.deeds) {
            if (auto* ended = std::get_if<StayEnded>(&deed)) {
                visitor(ended->lamp.id);
                visitor(ended->move.lamp);
            }
            if (auto* began = std::get_if<StayBegan>(&deed)) {
                visitor(began->lamp.id);
                visitor(began->fit.lamp);
            }
        }
        for (Handed& handed : seat.handed) {
            visitor(handed.lamp.id);
            visitor(handed.move.lamp);
        }
    }
    for (OwedStep& owed : settlement.owed)
        visitor(owed.lamp);
    for (OwedDone& done : settlement.owedDone)
        visitor(done.lamp);
}

QList<LampFacts> lampsIn(const Settlement& settlement)
{
    QList<LampFacts> lamps;
    for (const SeatSettlement& seat : settlement.seats) {
        for (const SeatDeed& deed : seat.deeds)
            lamps.append(lampOf(deed));
        for (const Handed& handed : seat.handed)
            lamps.append(handed.lamp);
    }
    return lamps;
}

} // namespace

/// One settlement on its way. Each deed answers with what stands in its way, or nothing when it is done.
class SettlementStore::Settling {
public:
    using Outcome = Result<std::optional<Leftover>>;

    Settling(SettlementStore& owner, const Settlement& settlement, CountersAre counters)
        : m_database(*owner.m_database)
        , m_lamps(owner.m_lamps)
        , m_sites(owner.m_sites)
        , m_settlement(settlement)
        , m_counters(counters)
    {
    }

    Result<std::vector<Leftover>> all()
    {
        for (const lamps::CounterReading& reading : m_settlement.readings) {
            if (auto read = addReading(reading); !read)
                return tl::unexpected(read.error());
        }
        for (const SeatSettlement& seat : m_settlement.seats) {
            if (auto settled = settle(seat); !settled)
                return tl::unexpected(settled.error());
        }
        return m_left;
    }

private:
    /// Does the work whole or not at all, and keeps what stood in its way.
    template<class Work>
    Result<bool> whole(const Leftover& otherwise, Work work)
    {
        std::optional<Leftover> left;
        const Result<void> done = m_database.transaction([&]() -> Result<void> {
            const Outcome outcome = work();
            if (!outcome && isOfTheRows(outcome.error()))
                left = otherwise;
            else if (!outcome)
                return tl::unexpected(outcome.error());
            else
                left = *outcome;
            if (left)
                return fail(Error::Kind::Refused, u"left over"_s); // undoes this part alone
            return {};
        });
        if (!done && !left)
            return tl::unexpected(done.error());
        if (left)
            m_left.push_back(*left);
        return !left;
    }

    Result<void> addReading(const lamps::CounterReading& reading)
    {
        const auto has = m_lamps.has(reading.id);
        if (!has)
            return tl::unexpected(has.error());
        return *has ? Result<void>() : m_lamps.addReading(reading);
    }

    Result<void> settle(const SeatSettlement& seat)
    {
        const auto isDone = whole({Kind::Contradicted, seat.lamphouse,
                                   seat.deeds.empty() ? LampFacts() : lampOf(seat.deeds.back())},
                                  [&] { return fit(seat); });
        if (!isDone)
            return tl::unexpected(isDone.error());
        for (const Handed& handed : seat.handed) {
            const bool waitsForSeat = !*isDone && std::ranges::any_of(seat.deeds, [&](const SeatDeed& deed) {
                return lampOf(deed).id == handed.lamp.id;
            });
            if (waitsForSeat || handed.later)
                continue;
            const auto isHanded =
                whole({Kind::Contradicted, seat.lamphouse, handed.lamp}, [&] { return hand(seat, handed); });
            if (!isHanded)
                return tl::unexpected(isHanded.error());
        }
        return {};
    }

    // ---- Seats --------------------------------------------------------------------------------------------

    Outcome fit(const SeatSettlement& seat)
    {
        m_isChanged = false;
        for (const SeatDeed& deed : seat.deeds) {
            Outcome outcome = std::visit([&](const auto& one) { return fit(one); }, deed);
            if (!outcome || *outcome)
                return outcome;
        }
        if (!m_isChanged)
            return std::nullopt;
        const auto* last = std::get_if<StayBegan>(&seat.deeds.back());
        const auto kept =
            m_sites.setFitted(seat.lamphouse, last ? std::optional(last->lamp.id) : std::nullopt);
        if (!kept && kept.error().kind != Error::Kind::NotFound) // a lamphouse that the site has no more
            return tl::unexpected(kept.error());
        return std::nullopt;
    }

    Outcome fit(const StayEnded& ended)
    {
        const auto isDone = m_lamps.has(ended.move.id);
        const auto running = m_lamps.runningIn(ended.lamphouse);
        if (!isDone || !running)
            return tl::unexpected(!isDone ? isDone.error() : running.error());
        if (*isDone)
            return std::nullopt;
        if (*running && (*running)->lamp == ended.lamp.id)
            return end(**running, ended, ended.counterOut);
        // Whatever the workspace has in this seat since before the visit, it is out now.
        if (*running && !ended.lamp.type && (*running)->from < m_settlement.openedAt)
            return end(**running, ended, std::nullopt);
        const auto isKnown = knows(ended.lamp.id);
        if (!isKnown)
            return tl::unexpected(isKnown.error());
        if (*running || *isKnown)
            return Leftover{Kind::SeatDiffers, ended.lamphouse, ended.lamp};
        return ended.lamp.type ? endUnknown(ended) : Outcome();
    }

    Outcome end(const lamps::Fit& fit, const StayEnded& ended,
                const std::optional<lamps::CounterHours>& counterOut)
    {
        lamps::Removal removal{fit.id, counterOut, ended.move.at, ended.cause, std::nullopt};
        auto answer = m_lamps.endFit(removal, ended.move);
        if (answer && std::holds_alternative<lamps::CounterQuestion>(*answer) &&
            m_counters == CountersAre::SetAside) {
            removal.counterOut.reset();
            answer = m_lamps.endFit(removal, ended.move);
        }
        if (!answer)
            return tl::unexpected(answer.error());
        m_isChanged = true;
        if (const auto* question = std::get_if<lamps::CounterQuestion>(&*answer))
            return Leftover{Kind::Counters, ended.lamphouse, ended.lamp, *question};
        if (const auto* no = std::get_if<lamps::MoveNotAllowed>(&*answer))
            return Leftover{Kind::LampIsThere, ended.lamphouse, ended.lamp, std::nullopt, no->from, no->to};
        return std::nullopt;
    }

    /// It was in the seat when the visit was opened, and the workspace hears of it only now. What it had
    /// burnt by then stands in its facts.
    Outcome endUnknown(const StayEnded& ended)
    {
        const lamps::Fit found{lamps::FitId(ended.move.id.text() + u"/found"_s),
                               ended.lamp.id,
                               ended.lamphouse,
                               ended.counterOut,
                               m_settlement.openedAt,
                               std::nullopt};
        const auto added =
            m_lamps.addFitted(lampFrom(ended.lamp), found, lamps::MoveId(ended.move.id.text() + u"/found"_s));
        if (!added)
            return tl::unexpected(added.error());
        return end(found, ended, ended.counterOut);
    }

    Outcome fit(const StayBegan& began)
    {
        const auto isDone = m_lamps.has(began.move);
        if (!isDone)
            return tl::unexpected(isDone.error());
        if (*isDone)
            return std::nullopt;
        if (auto met = meet(began.lamp, began.move, Custody::Fitted); !met)
            return tl::unexpected(met.error());
        if (auto named = nameIt(began.lamp, began.fit.from); !named)
            return tl::unexpected(named.error());
        const auto answer = m_lamps.beginFit(began.fit, began.move);
        if (!answer)
            return tl::unexpected(answer.error());
        m_isChanged = true;
        return leftBy(*answer, began.fit.lamphouse, began.lamp);
    }

    // ---- Hands --------------------------------------------------------------------------------------------

    Outcome hand(const SeatSettlement& seat, const Handed& handed)
    {
        const auto isDone = m_lamps.has(handed.move.id);
        if (!isDone)
            return tl::unexpected(isDone.error());
        const auto isKnown = knows(handed.lamp.id);
        if (!isKnown)
            return tl::unexpected(isKnown.error());
        if (*isDone || (!*isKnown && !handed.lamp.type))
            return std::nullopt;
        if (auto met = meet(handed.lamp, handed.move.id, handed.move.custody); !met)
            return tl::unexpected(met.error());
        const auto now = m_lamps.lamp(handed.lamp.id);
        if (!now)
            return tl::unexpected(now.error());
        if (now->custody == handed.move.custody)
            return std::nullopt; // somebody was quicker
        lamps::CustodyMove move = handed.move;
        const bool staysWithHolder = move.custody == Custody::InVan || move.custody == Custody::Unused;
        if (staysWithHolder && !now->holder.isEmpty())
            move.holder = now->holder;
        const auto answer = m_lamps.move(move);
        if (!answer)
            return tl::unexpected(answer.error());
        return leftBy(*answer, seat.lamphouse, handed.lamp);
    }

    // ---- Lamps --------------------------------------------------------------------------------------------

    [[nodiscard]] Result<bool> knows(const LampId& lamp) const
    {
        const auto found = m_lamps.lamp(lamp);
        if (!found && found.error().kind != Error::Kind::NotFound)
            return tl::unexpected(found.error());
        return found.has_value();
    }

    /// A lamp that the workspace does not know, or that was on order or in the store by it, and that was at
    /// hand all the same: it came in the van of whoever led.
    /// @param to  where it went from there.
    Result<void> meet(const LampFacts& lamp, const lamps::MoveId& before, Custody to)
    {
        const lamps::CustodyMove brought{lamps::MoveId(before.text() + u"/brought"_s),
                                         lamp.id,
                                         Custody::InVan,
                                         m_settlement.lead,
                                         {},
                                         m_settlement.openedAt};
        const auto isKnown = knows(lamp.id);
        if (!isKnown)
            return tl::unexpected(isKnown.error());
        if (!*isKnown)
            return withoutAnswer(m_lamps.add(lampFrom(lamp), brought));
        const auto now = m_lamps.lamp(lamp.id);
        if (!now)
            return tl::unexpected(now.error());
        const bool wasElsewhere = now->custody == Custody::OnOrder || now->custody == Custody::InStock;
        const bool wasBrought =
            wasElsewhere && !lamps::canMove(now->custody, to) && lamps::canMove(Custody::InVan, to);
        return wasBrought ? withoutAnswer(m_lamps.move(brought)) : Result<void>();
    }

    static Result<void> withoutAnswer(const Result<lamps::MoveAnswer>& answer)
    {
        if (!answer)
            return tl::unexpected(answer.error());
        return {};
    }

    /// One that was entered without a serial has the one that was read now.
    Result<void> nameIt(const LampFacts& lamp, WallTime at)
    {
        const auto known = m_lamps.lamp(lamp.id);
        if (!known)
            return tl::unexpected(known.error());
        return known->lamp.serial.isEmpty() && !lamp.serial.isEmpty()
                   ? m_lamps.readSerial(lamp.id, lamp.serial, at)
                   : Result<void>();
    }

    static Outcome leftBy(const lamps::MoveAnswer& answer, const LamphouseId& lamphouse,
                          const LampFacts& lamp)
    {
        const auto* no = std::get_if<lamps::MoveNotAllowed>(&answer);
        if (!no)
            return std::nullopt;
        return Leftover{Kind::LampIsThere, lamphouse, lamp, std::nullopt, no->from, no->to};
    }

    store::Database& m_database;
    lamps::LampStore& m_lamps;
    site::SiteStore& m_sites;
    const Settlement& m_settlement;
    CountersAre m_counters;
    bool m_isChanged = false; ///< a stay of the seat in hand began or ended just now
    std::vector<Leftover> m_left;
};

Result<std::vector<Leftover>> SettlementStore::settle(const Settlement& told, WallTime now,
                                                      CountersAre counters)
{
    return m_database->transaction([&]() -> Result<std::vector<Leftover>> {
        const auto known = asKnownHere(told);
        if (!known)
            return tl::unexpected(known.error());
        const Settlement& settlement = *known;
        if (auto owed = m_owed.tell(settlement, now); !owed)
            return tl::unexpected(owed.error());
        const auto isDone = isMarked(settlement.visit);
        if (!isDone)
            return tl::unexpected(isDone.error());
        if (*isDone)
            return std::vector<Leftover>();
        auto left = Settling(*this, settlement, counters).all();
        if (!left || !left->empty())
            return left;
        const auto marked =
            m_database->run(u"INSERT INTO visit_settlement (visit_id, settled_at_ms) VALUES (:visit, :at)"_s,
                            {{u":visit"_s, settlement.visit.text()}, {u":at"_s, msOf(now)}});
        if (!marked)
            return tl::unexpected(marked.error());
        return left;
    });
}

Result<Settlement> SettlementStore::asKnownHere(Settlement settlement) const
{
    for (const LampFacts& facts : lampsIn(settlement)) {
        const auto here = m_lamps.lamp(facts.id);
        if (!here && here.error().kind != Error::Kind::NotFound)
            return tl::unexpected(here.error());
        const bool isNamedHere = here && !here->lamp.serial.isEmpty();
        if (isNamedHere || !facts.type || facts.serial.isEmpty())
            continue;
        const auto known = m_lamps.ofTypeWithSerial(*facts.type, facts.serial);
        if (!known)
            return tl::unexpected(known.error());
        eachLamp(settlement, [&](LampId& lamp) {
            if (*known && lamp == facts.id)
                lamp = **known;
        });
    }
    return settlement;
}

Result<bool> SettlementStore::isSettled(const VisitId& visit) const
{
    const auto isTold = m_owed.isTold(visit); // not so of visits that were settled before step 0008
    return isTold && *isTold ? isMarked(visit) : isTold;
}

Result<bool> SettlementStore::isMarked(const VisitId& visit) const
{
    const auto found = m_database->run(u"SELECT visit_id FROM visit_settlement WHERE visit_id = :visit"_s,
                                       {{u":visit"_s, visit.text()}});
    if (!found)
        return tl::unexpected(found.error());
    return !found->rows.empty();
}

} // namespace coldarc::visit
