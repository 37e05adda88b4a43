#pragma once

#include "core/machine/effect.h"
#include "core/machine/state.h"

namespace coldarc::machine {

/// How an effect came out, where it can come out in more than one way.
enum class Outcome : std::uint8_t {
    Plain,
    NoResponse, ///< try-start
    Started,    ///< try-start: incident "it started"
    Absent,     ///< prove-absence
    Voltage,    ///< prove-absence: incident "voltage found"
    Lit,        ///< strike
    NoLight,    ///< strike
    Burst,      ///< strike
    Same,       ///< count
    Differs,    ///< count: incident "count differs"
    Agrees, ///< match-box, unbox (own marking), clamp-lamp (polarity and seating), key-controller (read-back)
    /// The same, and it differs. Of shut-guard, shut-housing, box-lamp, adaptor-off and adaptor-on: it does
    /// not hold, shut, sit or come off. Of look: the lamp that it is about is not in the seat.
    Disagrees,
    WillNotLock, ///< lock-on: incident "point will not lock"
    FanRuns,     ///< lamp-off that is no step of a swap: air moves over it
    FanStill,    ///< the same, and it does not, or nobody saw it: incident "fan or power"
};

/// What is seen of one lamphouse by `find`.
struct Seen {
    bool lit = false;
    bool fanRuns = false; ///< the lamp is off and air moves: the fan wait; otherwise the longer unforced one
    Drive drive = Drive::On;
    bool extraction = false;
    Mask pointsOff = 0; ///< points of this lamphouse that stand off
    Mask held = 0;      ///< points of this lamphouse under a lock or tag of somebody who is not of this visit
    bool housingOpen = false;
    bool guardOpen = false;
    bool dowserOpen = false;
    Seat seat = Seat::Clamped;
    Index lamp = kNone; ///< the lamp in the seat; kNone with an empty seat
    bool adaptorOn = false;
    Life life = Life::Below; ///< of the lamp in the seat
    friend bool operator==(const Seen&, const Seen&) = default;
};

/// One act of one person on the machine. Indices that an effect does not use stay kNone.
struct Act {
    Effect effect = Effect::Look;
    Index person = kNone;
    Index lamphouse = kNone;
    Index point = kNone;
    Index lamp = kNone;
    Outcome outcome = Outcome::Plain;
    Index moved =
        kNone; ///< isolate: the point whose breaker was really moved; kNone: one that we do not know
    bool supplySeen = false;     ///< try-start, prove-absence: supply seen present in the same step
    bool testerProved = false;   ///< prove-absence: the tester proved before and after
    bool behindGuard = false;    ///< prove-absence: at the test point behind the guard
    bool custodyDecided = false; ///< sign: where each lamp goes is decided
    bool answered = false;       ///< sign: each incident is answered
    Seen seen;                   ///< find
    friend bool operator==(const Act&, const Act&) = default;
};

/// What happens to the machine, or is noticed, without being a step of anybody's.
enum class Happening : std::uint8_t {
    FanStopped,  ///< at one lamphouse; a lamp that burns is not out by that
    PowerFailed, ///< at one point; the same: another point may carry the arc
    LampBurst,   ///< the given lamp
    GearDamaged, ///< an item of the given person
    LampUnfit,   ///< the given lamp: dropped, marked
    AdaptorLost, ///< at one lamphouse
    WrongLamp,   ///< the given lamp is not what was typed
    SomeoneHurt,
    CountAnswered, ///< the difference of count at one lamphouse is answered
    PointWillNotLock,
    PassedOn,    ///< person hands over to `to`
    LockRemoved, ///< the lock of an absent owner (`person`) at the group of one lamphouse, by the documented
                 ///< exception
    Resumed,     ///< restart or sleep while something stood open
    WentOut,     ///< a lit lamp went out by itself
    FoundOpen,   ///< one lamphouse that was taken to be shut is open; which cover nobody can say, so all of
                 ///< them
    LeftAlone,   ///< nobody watched for a while: what hangs, stands off or is cold is hearsay
    LocksSeen,   ///< somebody looked: in this lamphouse's group all is as it was left
    LocksMissed, ///< somebody looked, and it is not, or cannot be said
};
inline constexpr int kHappenings = static_cast<int>(Happening::LocksMissed) + 1;

struct Event {
    Happening what = Happening::Resumed;
    Index person = kNone;
    Index to = kNone;
    Index lamphouse = kNone;
    Index point = kNone;
    Index lamp = kNone;
    friend bool operator==(const Event&, const Event&) = default;
};

} // namespace coldarc::machine
