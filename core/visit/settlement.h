#pragma once

#include "core/lamps/lamp_store.h"
#include "core/visit/state.h"

#include <optional>
#include <variant>

namespace coldarc::visit {

/// A lamp came out of its seat and stayed out.
struct StayEnded {
    LampFacts lamp;
    LamphouseId lamphouse;
    std::optional<lamps::CounterHours> counterOut; ///< nothing: was not read
    lamps::Cause cause = lamps::Cause::Other;
    lamps::CustodyMove move; ///< boxed or burst, at the moment when it came out; at no site: in the van

    friend bool operator==(const StayEnded&, const StayEnded&) = default;
};

/// A lamp went into a seat.
struct StayBegan {
    LampFacts lamp;
    lamps::Fit fit; ///< without an end
    lamps::MoveId move;

    friend bool operator==(const StayBegan&, const StayBegan&) = default;
};
using SeatDeed = std::variant<StayEnded, StayBegan>;

/// A lamp that is in no seat went into somebody's hands.
struct Handed {
    LampFacts lamp;
    lamps::CustodyMove move;
    /// It goes along, boxed as it came out, and there once somebody hands it over: nothing moves now.
    std::optional<lamps::Custody> later{};

    friend bool operator==(const Handed&, const Handed&) = default;
};

/// What a visit did to one lamphouse and to the lamps that were meant for it.
struct SeatSettlement {
    LamphouseId lamphouse;
    std::vector<SeatDeed> deeds; ///< in their order; none: what was in before is in still
    std::vector<Handed> handed;  ///< in their order, after the deeds

    friend bool operator==(const SeatSettlement&, const SeatSettlement&) = default;
};

/// A step that a closed visit left to a later one, at the lamp that was in the seat when it ended.
struct OwedStep {
    VisitId visit; ///< that left it
    SwapId swap;
    StepId step;
    QString title;
    SiteId site;
    LamphouseId lamphouse;
    LampId lamp;
    PersonId by;    ///< who left it
    WallTime since; ///< when

    friend bool operator==(const OwedStep&, const OwedStep&) = default;
};

/// A step that an earlier visit had left and this one did.
struct OwedDone {
    SwapId swap;
    StepId step;
    LamphouseId lamphouse;
    LampId lamp;
    WallTime at;

    friend bool operator==(const OwedDone&, const OwedDone&) = default;
};

/// What a closed visit tells the lamps of its workspace. Its ids are made of the visit's id and the number of
/// the entry that says it, so that nothing is told twice; its moments are those of the entries.
struct Settlement {
    VisitId visit;
    WallTime openedAt{};
    WallTime closedAt{};
    PersonId lead; ///< who led at the end; a lamp that was brought was in this person's van
    std::vector<lamps::CounterReading> readings;
    std::vector<SeatSettlement> seats; ///< by lamphouse
    std::vector<OwedStep> owed;        ///< in the order of swaps and steps
    std::vector<OwedDone> owedDone;    ///< the same

    friend bool operator==(const Settlement&, const Settlement&) = default;
};

/// The steps of a swap that a visit which ends so leaves to a later one: what was put off, and of one that is
/// left as it is also what may follow and was not come to; in the order of the steps. None where its new lamp
/// is not in the seat. Of a follow-up: of those that it took up.
/// @param end  see endWord.
[[nodiscard]] QList<StepId> leftOwed(const VisitState& state, const SwapState& swap, const QString& end);

/// The settlement of a visit; nothing while it is open, or where an entry before its end is of a kind that
/// this program does not know.
///
/// A stay counts from the moment a lamp is in a seat to the moment it is out, whatever entry says so. A lamp
/// that goes back into the seat that it came out of, with none in between, was never away: its stay runs on.
/// A seat that was found empty ends the stay of the lamp that was believed to be in, without a counter. Of a
/// lamphouse that nobody looked at nothing is told.
///
/// Counters: an old lamp comes out at the counter as it was read in this visit, a new one begins at what was
/// read back from the controller that was told of it, else at the counter as it stood. A lamp that was
/// brought and is decided unused goes back into the van. One that came out and is to be returned or recycled
/// goes along in its box: it is not given away before somebody says that it was handed over.
///
/// A lamp is told as the one that it turned out to be, see `unitOf`.
///
/// Owed is what may follow and was left, where the new lamp is in its seat: of a visit made safe as it is
/// also what was not come to. What a follow-up leaves again is owed already, since the visit that left it
/// first.
/// @param entries  the whole logbook; what comes after its end does not matter.
[[nodiscard]] std::optional<Settlement> settlementOf(const QList<Entry>& entries);

} // namespace coldarc::visit
