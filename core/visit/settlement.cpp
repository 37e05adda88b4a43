#include "core/visit/settlement.h"

#include "core/visit/evolve.h"
#include "core/visit/unit.h"

#include <algorithm>
#include <array>

using namespace Qt::StringLiterals;

namespace coldarc::visit {
namespace {

using lamps::Custody;
using machine::Effect;
using machine::Index;
using machine::kNone;

constexpr qint64 kNever = -1;

/// One lamp's time in one seat, by the numbers of entries.
struct Stay {
    Index lamp = kNone;
    qint64 in = kNever;  ///< never: it was in when the visit was opened
    qint64 out = kNever; ///< never: it is in still
};

/// What happened to lamps and seats, told by folding the entries one by one.
class Course {
public:
    explicit Course(const QList<Entry>& entries)
        : m_entries(entries)
    {
        m_burst.fill(kNever);
        m_decided.fill(kNever);
        for (const Entry& entry : entries) {
            const QHash<LampId, QString> custody = m_state.custody;
            m_state = evolve(std::move(m_state), entry);
            if (!m_state.ground || m_state.isReadOnly)
                return;
            note(custody);
            if (!m_state.end.isEmpty())
                return;
        }
    }

    [[nodiscard]] bool isWhole() const
    {
        return m_state.ground && !m_state.isReadOnly && !m_state.end.isEmpty();
    }
    [[nodiscard]] const VisitState& state() const { return m_state; }
    [[nodiscard]] const QList<Stay>& stays(Index lamphouse) const { return m_stays[lamphouse]; }
    [[nodiscard]] qint64 burst(Index lamp) const { return m_burst[lamp]; }
    [[nodiscard]] qint64 decided(Index lamp) const { return m_decided[lamp]; }
    [[nodiscard]] WallTime at(qint64 entry) const { return m_entries[entry].at.wall; }

private:
    void note(const QHash<LampId, QString>& custodyBefore)
    {
        const qint64 number = m_state.entries - 1;
        for (Index lamphouse = 0; lamphouse < m_state.plant.lamphouses; ++lamphouse)
            noteSeat(lamphouse, number);
        for (Index lamp = 0; lamp < m_state.plant.lamps; ++lamp) {
            const LampId id = m_state.ground->lamps[lamp].id;
            if (m_state.machine.lamp[lamp].place == machine::Place::Burst && m_burst[lamp] == kNever)
                m_burst[lamp] = number;
            if (m_state.custody.value(id) != custodyBefore.value(id))
                m_decided[lamp] = number;
        }
    }

    void noteSeat(Index lamphouse, qint64 number)
    {
        QList<Stay>& stays = m_stays[lamphouse];
        if (stays.isEmpty())
            stays.append({lamphouse, kNever, kNever}); // the fitted ones come first, by lamphouse
        const machine::LamphouseState& here = m_state.machine.lamphouse[lamphouse];
        const bool wasLookedAt = here.heat != machine::Heat::Unknown;
        const Index in = stays.last().out == kNever ? stays.last().lamp : kNone;
        if (!wasLookedAt || here.lamp == in)
            return;
        if (in != kNone)
            stays.last().out = number;
        if (here.lamp == kNone)
            return;
        if (here.lamp == stays.last().lamp)
            stays.last().out = kNever; // back where it was
        else
            stays.append({here.lamp, number, kNever});
    }

    const QList<Entry>& m_entries;
    VisitState m_state;
    std::array<QList<Stay>, machine::kMostLamphouses> m_stays;
    std::array<qint64, machine::kMostLamps> m_burst{};
    std::array<qint64, machine::kMostLamps> m_decided{};
};

/// An hour counter as somebody took it down.
struct CounterLook {
    qint64 entry = kNever;
    lamps::CounterHours hours;
    bool isKeyedIn = false; ///< read back after the controller was told of the new lamp; else as it stood
};

class Teller {
public:
    explicit Teller(const Course& course)
        : m_course(course)
        , m_state(course.state())
    {
        m_told.visit = opening().visit;
        m_told.openedAt = course.at(0);
        m_told.closedAt = course.at(m_state.entries - 1);
        m_told.lead = m_state.people[m_state.lead].id;
    }

    Settlement told()
    {
        for (Index lamphouse = 0; lamphouse < m_state.plant.lamphouses; ++lamphouse) {
            lookAtCounters(lamphouse);
            SeatSettlement seat;
            seat.lamphouse = m_state.ground->lamphouses[lamphouse];
            for (const Stay& stay : m_course.stays(lamphouse))
                tellStay(lamphouse, stay, seat);
            for (Index lamp = 0; lamp < m_state.plant.lamps; ++lamp) {
                if (m_state.plant.lamp[lamp].lamphouse == lamphouse)
                    tellHanded(lamp, seat);
            }
            if (!seat.deeds.empty() || !seat.handed.empty())
                m_told.seats.push_back(seat);
        }
        for (const SwapState& swap : m_state.swaps) {
            if (swap.followsUp)
                tellOwedDone(swap);
            else
                tellOwed(swap);
        }
        return m_told;
    }

private:
    [[nodiscard]] const Opening& opening() const { return m_state.ground->opening; }
    [[nodiscard]] LampFacts facts(Index lamp) const { return unitOf(m_state, lamp); }

    template<class Name>
    [[nodiscard]] Name idOf(qint64 entry, const QString& what) const
    {
        return Name(u"%1/%2/%3"_s.arg(m_told.visit.text(), QString::number(entry), what));
    }

    // ---- Owed ---------------------------------------------------------------------------------------------

    void tellOwed(const SwapState& swap)
    {
        for (const StepId& id : leftOwed(m_state, swap, m_state.end)) {
            const procedure::Step& step = *swap.step(id);
            const StepRecord record = swap.record(id);
            const bool isLeft = record.status == StepRecord::Status::Owed;
            m_told.owed.push_back({m_told.visit, swap.id, id, step.title, opening().site.site.id,
                                   m_state.ground->lamphouses[swap.lamphouse], facts(swap.newLamp).id,
                                   isLeft ? record.by : m_told.lead,
                                   isLeft ? record.at.wall : m_told.closedAt});
        }
    }

    void tellOwedDone(const SwapState& swap)
    {
        for (const StepId& step : owedSteps(m_state, swap.id)) {
            const StepRecord record = swap.record(step);
            if (record.status == StepRecord::Status::Done)
                m_told.owedDone.push_back({swap.id, step, m_state.ground->lamphouses[swap.lamphouse],
                                           facts(swap.oldLamp).id, record.at.wall});
        }
    }

    // ---- Counters -----------------------------------------------------------------------------------------

    void lookAtCounters(Index lamphouse)
    {
        m_looks.clear();
        for (const SwapState& swap : m_state.swaps) {
            for (const procedure::Step& step : swap.steps) {
                if (placeOf(m_state, swap, step) == lamphouse)
                    lookAtCounter(lamphouse, swap, step);
            }
        }
        std::ranges::sort(m_looks, {}, &CounterLook::entry);
    }

    void lookAtCounter(Index lamphouse, const SwapState& swap, const procedure::Step& step)
    {
        const StepRecord record = swap.record(step.id);
        const auto hours = visit::counterIn(step, record);
        if (!hours)
            return;
        m_looks.append({record.entry, lamps::CounterHours::fromHours(*hours), !readsCounter(swap, step)});
        m_told.readings.push_back({idOf<lamps::CounterReadingId>(record.entry, u"counter"_s),
                                   m_state.ground->lamphouses[lamphouse], m_looks.last().hours,
                                   m_course.at(record.entry), std::nullopt});
    }

    /// What was keyed in last between two entries.
    [[nodiscard]] std::optional<lamps::CounterHours> keyedIn(qint64 after, qint64 before) const
    {
        std::optional<lamps::CounterHours> hours;
        for (const CounterLook& one : m_looks) {
            if (one.isKeyedIn && one.entry > after && (before == kNever || one.entry < before))
                hours = one.hours;
        }
        return hours;
    }

    /// What the counter showed at an entry, since it stands as long as the lamp is off and nothing is keyed
    /// in.
    [[nodiscard]] std::optional<lamps::CounterHours> asItStood(qint64 entry) const
    {
        if (const auto hours = keyedIn(kNever, entry))
            return hours;
        const auto stood = std::find_if(m_looks.rbegin(), m_looks.rend(),
                                        [](const CounterLook& one) { return !one.isKeyedIn; });
        return stood == m_looks.rend() ? std::nullopt : std::optional(stood->hours);
    }

    [[nodiscard]] std::optional<lamps::CounterHours> counterIn(const Stay& stay) const
    {
        const auto keyed = keyedIn(stay.in, stay.out);
        return keyed ? keyed : asItStood(stay.in);
    }

    // ---- Seats --------------------------------------------------------------------------------------------

    void tellStay(Index lamphouse, const Stay& stay, SeatSettlement& seat)
    {
        const LampFacts lamp = facts(stay.lamp);
        if (stay.in != kNever) {
            seat.deeds.push_back(StayBegan{lamp,
                                           {idOf<lamps::FitId>(stay.in, u"fit"_s), lamp.id,
                                            m_state.ground->lamphouses[lamphouse], counterIn(stay),
                                            m_course.at(stay.in), std::nullopt},
                                           idOf<lamps::MoveId>(stay.in, u"in"_s)});
        }
        if (stay.out == kNever)
            return;
        const bool isBurst = m_course.burst(stay.lamp) == stay.out;
        StayEnded ended{lamp, m_state.ground->lamphouses[lamphouse],
                        wasFoundGone(stay) ? std::nullopt : counterOut(stay),
                        isBurst ? lamps::Cause::Burst : causeOf(stay),
                        move(stay.lamp, stay.out, u"out"_s, isBurst ? Custody::Burst : Custody::Boxed)};
        if (goesAlong(stay.lamp))
            ended.move.site = SiteId();
        seat.deeds.push_back(ended);
    }

    [[nodiscard]] std::optional<Custody> decided(Index lamp) const
    {
        return lamps::custodyFromWord(m_state.custody.value(m_state.ground->lamps[lamp].id));
    }

    /// In its box, into the van, to be given away later.
    [[nodiscard]] bool goesAlong(Index lamp) const
    {
        const auto to = decided(lamp);
        return m_state.machine.lamp[lamp].place == machine::Place::Boxed &&
               (to == Custody::Returned || to == Custody::Recycled);
    }

    /// Somebody else took it out before this visit.
    [[nodiscard]] bool wasFoundGone(const Stay& stay) const
    {
        return stay.in == kNever && m_state.machine.lamp[stay.lamp].place == machine::Place::SealedBox;
    }

    [[nodiscard]] std::optional<lamps::CounterHours> counterOut(const Stay& stay) const
    {
        return stay.in == kNever ? asItStood(stay.out) : counterIn(stay);
    }

    /// As it was said when the new lamp was booked in.
    [[nodiscard]] lamps::Cause causeOf(const Stay& stay) const
    {
        for (const SwapState& swap : m_state.swaps) {
            if (swap.oldLamp != stay.lamp || stay.in != kNever)
                continue;
            for (const procedure::Step& step : swap.steps) {
                const procedure::Capture* capture = step.capture(u"cause"_s);
                const auto means =
                    capture && step.effect == Effect::BookIn
                        ? capture->meansOf(swap.record(step.id).answers.value(u"cause"_s).toString())
                        : std::nullopt;
                if (means)
                    return lamps::causeFromWord(procedure::wordOf(*means)).value_or(lamps::Cause::Other);
            }
        }
        return lamps::Cause::Other;
    }

    // ---- Hands --------------------------------------------------------------------------------------------

    void tellHanded(Index lamp, SeatSettlement& seat)
    {
        const QList<Stay>& stays = m_course.stays(m_state.plant.lamp[lamp].lamphouse);
        const bool isIn = stays.last().lamp == lamp && stays.last().out == kNever;
        const bool burstInSeat = std::ranges::any_of(stays, [&](const Stay& stay) {
            return stay.lamp == lamp && stay.out != kNever && stay.out == m_course.burst(lamp);
        });
        if (m_course.burst(lamp) != kNever && !burstInSeat)
            hand(lamp, m_course.burst(lamp), u"burst"_s, Custody::Burst, seat);
        const auto to = decided(lamp);
        const bool cameOut = std::ranges::any_of(stays, [&](const Stay& stay) { return stay.lamp == lamp; });
        const bool neverLeftTheVan = lamp >= m_state.plant.lamphouses && !cameOut && to == Custody::InVan;
        if (isIn || !to || neverLeftTheVan)
            return;
        if (cameOut && goesAlong(lamp)) {
            hand(lamp, m_course.decided(lamp), u"along"_s, Custody::Boxed, seat);
            seat.handed.back().move.site = SiteId();
            seat.handed.back().later = to;
            return;
        }
        hand(lamp, m_course.decided(lamp), u"decided"_s, *to, seat);
        if (to == Custody::Unused)
            hand(lamp, m_course.decided(lamp), u"van"_s, Custody::InVan, seat);
    }

    void hand(Index lamp, qint64 entry, const QString& what, Custody to, SeatSettlement& seat)
    {
        seat.handed.push_back({facts(lamp), move(lamp, entry, what, to)});
    }

    [[nodiscard]] lamps::CustodyMove move(Index lamp, qint64 entry, const QString& what, Custody to) const
    {
        const bool isInVan = to == Custody::InVan || to == Custody::Unused;
        const bool isWithUs = isInVan || to == Custody::Boxed || to == Custody::Burst;
        return {idOf<lamps::MoveId>(entry, what + u'/' + facts(lamp).id.text()),
                facts(lamp).id,
                to,
                isWithUs ? m_told.lead : PersonId(),
                isInVan ? SiteId() : opening().site.site.id,
                m_course.at(entry),
                std::nullopt};
    }

    const Course& m_course;
    const VisitState& m_state;
    Settlement m_told;
    QList<CounterLook> m_looks; ///< of one lamphouse
};

} // namespace

QList<StepId> leftOwed(const VisitState& state, const SwapState& swap, const QString& end)
{
    QList<StepId> owed;
    if (state.machine.lamphouse[swap.lamphouse].lamp != swap.newLamp)
        return owed;
    const bool isCutShort = end == u"as-it-is"_s;
    const QList<StepId> takenUp = swap.followsUp ? owedSteps(state, swap.id) : QList<StepId>();
    for (const procedure::Step& step : swap.steps) {
        const StepRecord::Status status = swap.record(step.id).status;
        const bool isLeft =
            status == StepRecord::Status::Owed || (isCutShort && status == StepRecord::Status::Waiting);
        if (step.mayFollow && isLeft && (!swap.followsUp || takenUp.contains(step.id)))
            owed.append(step.id);
    }
    return owed;
}

std::optional<Settlement> settlementOf(const QList<Entry>& entries)
{
    const Course course(entries);
    if (!course.isWhole())
        return std::nullopt;
    return Teller(course).told();
}

} // namespace coldarc::visit
