#pragma once

#include "core/machine/act.h"

#include <bitset>
#include <span>

namespace coldarc::machine {

/// A condition that an effect asks for. Which effect asks for which stands in one table in `demand.cpp`.
/// "Here" is the lamphouse of the act, "its points" the points that feed it, "on the points" every lamphouse
/// that these points feed.
enum class Demand : std::uint8_t {
    Found,          ///< every lamphouse on the points was looked at
    NotLeftExposed, ///< nothing on the points stands open since before this visit
    NobodyHurt,
    Lit,
    NotLit,          ///< here
    NoneLit,         ///< on the points
    Cold,            ///< here
    ProjectorCold,   ///< every lamphouse of this projector
    FedCold,         ///< every lamphouse that the point of the act feeds
    ProjectorsNotOn, ///< every projector that the point of the act feeds
    ProjectorOn,
    ProjectorOff, ///< off or in standby
    ToldBefore,
    ToldAgain,
    PointNotDoubted,
    PointsOff, ///< personal lock: every point of the group; job lock: the point
    PointsTakeLocks,
    NotHeld, ///< no lock or tag of somebody else hangs at the point; or, of none, at any of the projector's
    PointsLocked, ///< every point that feeds this lamphouse stands off, undoubted and locked
    LocksSeen,    ///< somebody has looked at its locks and breakers since a gap that nobody witnessed
    PointsOn,     ///< every point of this projector
    NoLock,       ///< neither a personal nor a job lock on the points
    NoPersonalLock,
    OwnLock,          ///< the person's own lock hangs on the group
    AuthorisedLock,   ///< one of the locks on the group is an authorised person's
    LockHeld,         ///< the person's own lock is there to be taken off
    JobLockHeld,      ///< the person holds the job lock of the point
    LastLockLast,     ///< a lock that stays is an authorised person's; a trainee's goes first
    GearOffIfNotLast, ///< whoever leaves others locked in the box has taken the gear off
    Relieved,
    SupplySeen,
    StartTried,   ///< Dead 1 of 2
    Absent,       ///< Dead 2 of 2
    AbsentBehind, ///< proved again behind the guard, where the model has a test point there
    TesterProved,
    MayProve,
    TestReachable, ///< the cover over the test point is off
    GearedIfOpen,  ///< Geared, where the guard stands open
    Geared,
    GearSigned, ///< the person's gear, for this lamphouse
    InZone,
    Outside,       ///< the person is in no zone
    ZonesEmpty,    ///< on the points
    StaysWithOpen, ///< the last person does not leave while the guard is open
    OneBare,       ///< fewer lamphouses stand open than there are authorised engineers
    Shut,          ///< here: housing and guard
    AllShut,       ///< on the points
    ProjectorShut, ///< every lamphouse of this projector
    HousingShut,
    HousingOpen, ///< or the model has none
    GuardShut,
    GuardOpen,
    NoLooseLamp, ///< here: none in hand or entered
    NoneLoose,   ///< on the points
    NoBareLamp,  ///< here: none in hand, none in the seat
    NoOtherBare, ///< here: none in hand
    SeatEmpty,
    SeatFull,    ///< a lamp entered or clamped
    SeatEntered, ///< a lamp not yet clamped, or clamped and not seen right: it is clamped anew
    SeatClamped,
    LampInHand,
    LampSealed,
    LampNotUsed, ///< boxed or sealed, not unfit, not one found past its end
    NotBarred,   ///< no lamp burst here, no tag hangs here
    AdaptorOnIt,
    AdaptorLaidBy,
    CountsAnswered, ///< on the points
    Matched,        ///< 2 of 2, of a type that the model takes
    LampKnown,      ///< the lamp in the seat is booked in, or was found fitted and is below its end
    ReadBack,       ///< the controller names the type of the lamp in the seat
    SeatingSeen,
    AdaptorRight,
    DowserShut,
    DowserOpen,
    ExtractionOn,
    PauseOver,
    StrikesLeft,
    Settled,
    IsolatedAndLocked, ///< for the tag: off and locked, as far as the points take locks
    NothingLeft, ///< every lamphouse shut, zone empty, no lamp loose; points on and free, or off and locked
                 ///< under a tag
    CustodyDecided,
    Answered,
};
inline constexpr int kDemands = static_cast<int>(Demand::Answered) + 1;

/// Demands that do not hold; empty means the act can be done.
using Unmet = std::bitset<kDemands>;

/// The five gates that the bench shows.
enum class Gate : std::uint8_t {
    Cold,
    Dead,
    Geared,
    Matched,
    Settled,
    None,
};

[[nodiscard]] std::span<const Demand> demandsOf(Effect effect);
/// The gate that a demand belongs to; None for order, place and paper.
[[nodiscard]] Gate gateOf(Demand demand);
/// Does it hold for this act, in this state?
[[nodiscard]] bool holds(const Plant& plant, const State& state, const Act& act, Demand demand);
/// Every demand of the act's effect that does not hold, not only the first.
[[nodiscard]] Unmet unmet(const Plant& plant, const State& state, const Act& act);
/// The same for what can be reported only when it can have happened (a lamp that is not lit does not go out).
[[nodiscard]] bool canHappen(const Plant& plant, const State& state, const Event& event);

/// Safe-ward effects demand physical order only, never a gate.
[[nodiscard]] bool isSafeWard(Effect effect);

} // namespace coldarc::machine
