#pragma once

#include <QString>

#include <cstdint>
#include <optional>

namespace coldarc::procedure {

/// What a choice says of the machine, of a person or of a lamp. Which words a capture may use is decided by
/// the effect of its step and by its id, see `CaptureRule`.
enum class Means : std::uint8_t {
    Note, ///< taken down, nothing rests on it
    Good, ///< as it should be
    Bad,  ///< not as it should be: a step that proves something is not proved with it
    Lit,
    Off,
    On,
    Standby,
    Runs,
    Still,
    Locked, ///< a point: off, with a lock on it
    Shut,
    Open,
    Clamped,
    Entered,
    Empty,
    NotSeen,
    None,
    OutOfUse,
    ForeignLock,
    Named,      ///< isolate: the breaker that the step names
    OtherPoint, ///< isolate: another one of this visit's points
    NoneOfOurs, ///< isolate: one that feeds nothing here, or one that nobody can name
    StillLive,  ///< isolate: something that should be dark is lit
    Holds,
    GivesWay,
    Present,
    NoResponse,
    Started,
    AtOff,
    NotAtOff,
    Proved,
    NotProved,
    Absent,
    Voltage,
    Unsteady,
    Agrees,
    TypeDiffers,
    SerialDiffers,
    Unreadable,
    Differs,
    Whole,
    Marked,
    Right,
    Wrong,
    Same,
    NoLight,
    Burst,
    Returned, ///< custody of a lamp that came out: to the maker or dealer
    Recycled,
    KeptBySite,
    EndOfLife, ///< why a lamp came out, in the words of lamps::Cause
    Dim,
    Flicker,
    WillNotLight,
    Blackened,
    EarlyFailure,
    Damaged,
    Other,
};
/// The word of a procedure file: lower case with dashes, like "no-response".
[[nodiscard]] QString wordOf(Means means);
/// Nothing for a word that is none.
[[nodiscard]] std::optional<Means> meansFromWord(const QString& word);

/// One of the answers that a capture offers.
struct Choice {
    QString text; ///< shown, and kept by an entry
    Means means = Means::Note;

    friend bool operator==(const Choice&, const Choice&) = default;
};

} // namespace coldarc::procedure
