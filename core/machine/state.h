#pragma once

#include "core/machine/plant.h"

#include <array>
#include <cstdint>
#include <type_traits>

namespace coldarc::machine {

enum class Power : std::uint8_t {
    On,
    Off,
    Doubted, ///< switched off, yet it started or voltage was found: counts as not isolated until restored and
             ///< done anew
};
enum class Heat : std::uint8_t {
    Unknown, ///< nobody has looked yet
    Lit,
    Cooling,
    Cold, ///< heat carried off; the pressure stays
};
enum class Charge : std::uint8_t {
    Held,
    LettingDown,
    Relieved,
};
enum class Seat : std::uint8_t {
    Empty,
    Entered,
    Clamped,
};
enum class Drive : std::uint8_t {
    On,
    Standby,
    Off,
};
enum class Told : std::uint8_t {
    No,
    Before,
    Again,
};
enum class Gear : std::uint8_t {
    Off,
    Worn, ///< on, but not signed since the last leaving, change or damage
    Signed,
};
enum class Place : std::uint8_t {
    SealedBox,
    InHand,
    Entered,
    Clamped,
    Boxed,
    Burst,
};
enum class Match : std::uint8_t {
    No,
    Box,  ///< 1 of 2: box label and paper
    Both, ///< 2 of 2: the lamp's own marking too
};
enum class Counting : std::uint8_t {
    NotOpened, ///< nothing has been opened since the last count that came out the same
    Due,
    Same,
    Differs,
    Answered,
};
enum class Waiting : std::uint8_t {
    None,
    Running,
    Over,
};
/// Whether the lamp that was found fitted may be lit again.
enum class Life : std::uint8_t {
    New,     ///< not found fitted: must be booked in before it is lit
    Below,   ///< found fitted, below its replace-by hours, or hours unknown but burning on arrival
    PastEnd, ///< found fitted, at or past its replace-by hours, or hours unknown and out on arrival
};

/// Whether it was met, or could not be ruled out after a gap, that a point was not off when it was thought to
/// be.
enum class ProvedWrong : std::uint8_t {
    No,
    Yes,
    PutRight, ///< isolated anew since, and a tried start had no response
};

struct PointState {
    Power power = Power::On;
    ProvedWrong provedWrong = ProvedWrong::No;
    Index jobLock = kNone;    ///< who holds the job lock; unused where the group has one point
    bool willNotLock = false; ///< met tonight
    /// Lamphouses at which a lock or tag of somebody who is not of this visit was seen when each was looked
    /// at last: a tag hangs at one of them, and holds the point for all that it feeds.
    Mask heldAt = 0;
    friend bool operator==(const PointState&, const PointState&) = default;
};

/// One per isolation group, kept at the index of the group.
struct GroupState {
    Mask locks = 0; ///< people whose personal lock hangs here
    Told told = Told::No;
    /// Nobody has looked at these locks and breakers, and at what is cold behind them, since a gap that
    /// nobody witnessed.
    bool isHearsay = false;
    friend bool operator==(const GroupState&, const GroupState&) = default;
};

/// One per projector, kept at the index of the projector.
struct ProjectorState {
    Drive drive = Drive::On;
    bool extraction = false;
    friend bool operator==(const ProjectorState&, const ProjectorState&) = default;
};

struct LamphouseState {
    Heat heat = Heat::Unknown;
    Charge charge = Charge::Held;
    bool startTried = false;   ///< Dead 1 of 2: tried to start, no response
    bool absent = false;       ///< Dead 2 of 2: absence of voltage proved outside the guard
    bool absentBehind = false; ///< the same behind the guard, since it was opened
    bool housingOpen = false;
    bool guardOpen = false;
    bool dowserOpen = false;
    Seat seat = Seat::Empty;
    Index lamp = kNone;    ///< the lamp in the seat
    Index adaptor = kNone; ///< the lamp that carries it; kNone: laid by
    bool adaptorLost = false;
    bool seatingSeen =
        true; ///< polarity and seating of the lamp in the seat answered; true for the lamp found
    Counting count = Counting::NotOpened;
    std::uint8_t controllerType = kNone; ///< lamp type read back from the projector's own controller
    std::uint8_t failedStrikes = 0;
    Waiting pause = Waiting::None;
    Waiting settle = Waiting::None;
    bool leftExposed = false; ///< found or left open; until it is shut only safe-ward effects are open to it
    bool barred = false;      ///< burst here, or a lamp unfit in the seat: nothing is lit here in this visit
    bool sawVoltage = false;
    bool tagged = false; ///< out of use, own lock and tag left on
    bool unseen = false; ///< said to be not as it was left, and not looked at since
    friend bool operator==(const LamphouseState&, const LamphouseState&) = default;
};

struct PersonState {
    Index at = kNone; ///< lamphouse whose zone the person is in
    Gear gear = Gear::Off;
    Index gearFor = kNone; ///< lamphouse that the sign-off was made for
    friend bool operator==(const PersonState&, const PersonState&) = default;
};

struct LampState {
    Place place = Place::SealedBox;
    Match match = Match::No;
    bool booked = false;
    bool unfit = false;
    bool takenOut = false; ///< came out of a seat in this visit
    Life life = Life::New;
    friend bool operator==(const LampState&, const LampState&) = default;
};

/// The machine, the people in its zones and the lamps of one site visit. Small enumerations all, no times: a
/// wait is running or over, and who keeps the clocks is `core/visit`.
struct State {
    std::array<PointState, kMostPoints> point{};
    std::array<GroupState, kMostPoints> group{};
    std::array<ProjectorState, kMostLamphouses> projector{};
    std::array<LamphouseState, kMostLamphouses> lamphouse{};
    std::array<PersonState, kMostPeople> person{};
    std::array<LampState, kMostLamps> lamp{};
    bool hurt = false; ///< someone was hurt: nothing is lit and no lock comes off in this visit

    friend bool operator==(const State&, const State&) = default;
};
static_assert(std::has_unique_object_representations_v<State>, "states are hashed by their bytes");

} // namespace coldarc::machine
