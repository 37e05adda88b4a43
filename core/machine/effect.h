#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>

namespace coldarc::machine {

/// What a step does to the machine, to a person in its zone, or to the record of a lamp. A procedure names
/// effects; what each one demands is decided in `demands.h` and nowhere else.
enum class Effect : std::uint8_t {
    Look,         ///< read, photograph, tick: changes nothing
    Find,         ///< what is seen of a lamphouse on arrival, or after a gap that nobody witnessed
    CountOpening, ///< tools and fasteners counted before anything is opened
    Count,        ///< counted back, against the count at opening
    ExtractionOn,
    GearOff,
    DowserShut,
    DowserOpen,
    TellBefore, ///< people told before isolation
    TellAgain,  ///< people told again, after the locks are off and before the strike
    LampOff,
    Standby,
    Isolate,
    LockOn,
    Relieve, ///< stored charge let down: a timed wait
    TryStart,
    ProveAbsence,
    OpenHousing,
    GearOn,
    EnterZone,
    ExposeLamp, ///< opens the guard
    WorkInside,
    LampOut,
    Unbox,
    AdaptorOff,
    AdaptorOn,
    LampIn,
    ClampLamp,
    BoxLamp,
    ShutGuard,
    LeaveZone,
    ShutHousing,
    LockOff,    ///< a personal lock, by its owner
    JobLockOff, ///< the job lock of one point, by its holder
    Restore,    ///< puts the point on, not the projector
    PowerUp,
    MatchBox, ///< Matched 1 of 2: box label and paper agree with what was typed, read from the closed box
    BookIn,
    KeyController,
    Strike,
    Settle,    ///< holds until the light has settled
    Peak,      ///< the first search for the peak, while the light still settles
    PeakAgain, ///< the search that counts, after the settle wait
    MeasureScreen,
    TagOut, ///< "out of use" tag left on an isolated, locked machine
    Sign,
};
inline constexpr int kEffects = static_cast<int>(Effect::Sign) + 1;

/// The word that a procedure file and an entry use: lower case with dashes, for example "expose-lamp".
[[nodiscard]] std::string_view wordOf(Effect effect);
/// Nothing for a word that is none.
[[nodiscard]] std::optional<Effect> effectFromWord(std::string_view word);

} // namespace coldarc::machine
