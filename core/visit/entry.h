#pragma once

#include "core/base/clock.h"
#include "core/base/ids.h"
#include "core/base/result.h"
#include "core/label/agreement.h"
#include "core/machine/act.h"
#include "core/visit/incident.h"
#include "core/visit/opening.h"
#include "core/visit/sheet_entry.h"

#include <QByteArray>
#include <QJsonObject>
#include <QList>
#include <QMap>
#include <QString>
#include <QStringList>

#include <functional>
#include <optional>
#include <variant>
#include <vector>

namespace coldarc::visit {

/// An act with names instead of indices, as an entry keeps it.
struct ActRecord {
    machine::Effect effect = machine::Effect::Look;
    machine::Outcome outcome = machine::Outcome::Plain;
    PersonId person;
    LamphouseId lamphouse;
    PointId point;
    LampId lamp;
    PointId moved; ///< isolate; empty where the breaker that was moved is none of ours
    bool supplySeen = false;
    bool testerProved = false;
    bool behindGuard = false;
    bool custodyDecided = false;
    bool answered = false;
    std::optional<machine::Seen> seen;
    QList<PointId> pointsOff; ///< of `seen`
    QList<PointId> held;      ///< of `seen`

    friend bool operator==(const ActRecord&, const ActRecord&) = default;
};

// ---- What an entry can say
// -------------------------------------------------------------------------------------

/// Somebody came to the visit after it was opened; judged by what the workspace knew at that moment.
struct Joined {
    PersonFacts person;
    friend bool operator==(const Joined&, const Joined&) = default;
};

/// A step of a swap was done.
struct Did {
    SwapId swap;
    StepId step;
    std::optional<ActRecord> act; ///< nothing for a look
    QJsonObject answers;          ///< by capture id
    QStringList gatesWaiting;     ///< a safe-ward act that was done with these gates waiting: an exception
    PersonId countersignedBy;     ///< empty: none was asked for
    QString reason;               ///< a threshold at or above warranty
    QStringList reopened;         ///< steps that a wrong answer of a stop opens again
    QStringList doubts{};   ///< what memory said against the lamp then, as label::keptAs has it: an exception
    QString doubtsAnswer{}; ///< why it goes in all the same; never empty where there are any
    bool onOneTyping = false; ///< see label::restsOnOneTyping: an exception
    friend bool operator==(const Did&, const Did&) = default;
};

/// An act that is not the swap's next step: somebody else's gear, lock or way in and out, making safe, an
/// incident.
struct Acted {
    ActRecord act;
    QJsonObject answers;
    QStringList gatesWaiting;
    PersonId countersignedBy;
    friend bool operator==(const Acted&, const Acted&) = default;
};

/// Something went wrong.
struct Happened {
    Incident incident = Incident::NoTimeLeft;
    SwapId swap;
    LamphouseId lamphouse;
    PointId point;
    LampId lamp;
    PersonId person;
    QString text;
    /// Fan or power: lamphouses whose lamp burnt until then and is out, said by whoever saw it.
    QList<LamphouseId> wentOut{};
    friend bool operator==(const Happened&, const Happened&) = default;
};

/// What was done about an incident.
struct IncidentAnswered {
    qint64 incident = 0; ///< number of the entry that it stands in
    QString text;
    PersonId countersignedBy{}; ///< of a count that differs, where a trainee answers it
    friend bool operator==(const IncidentAnswered&, const IncidentAnswered&) = default;
};

/// What one source says of a lamp.
struct LampRead {
    LampId lamp;
    label::Reading reading;
    QStringList scanned{};         ///< as in label::SourceRead; empty: no code was read
    std::optional<Hash> picture{}; ///< the same
    bool isAlsoElsewhere = false;  ///< the same
    friend bool operator==(const LampRead&, const LampRead&) = default;
};

/// A serial that does not agree was let pass, with a reason: an exception.
struct SerialPassed {
    LampId lamp;
    label::SerialPass pass;
    std::optional<Hash> picture{}; ///< the evidence, where it is a picture that was kept here
    friend bool operator==(const SerialPassed&, const SerialPassed&) = default;
};

/// Knobs by the word of their axis, in turns from where each stood when the light run began; positive is the
/// way the model's file calls forward.
using KnobTurns = QMap<QString, double>;

// More can be read back from no entry, so that none is written with more: turns either way, and whatever unit
// a meter shows. Figures of the house.
inline constexpr double kMostTurns = 100;
inline constexpr double kMostReading = 1e9;

/// One light reading while the lamp is moved.
struct LightRead {
    SwapId swap;
    StepId step;
    QString axis; ///< in hand, a word of catalogue::Axis; empty where the engineer only turned and watched
    std::optional<double> turns{}; ///< where its knob stood, as in KnobTurns; nothing where nobody counted
    double value = 0;              ///< as the meter shows it, > 0, to kMostReading
    KnobTurns others{};            ///< where the other knobs stood; one that is missing stands as before
    /// Number of the entry that was typed wrong, itself no correction: this is what the meter showed then.
    qint64 replaces = -1;
    friend bool operator==(const LightRead&, const LightRead&) = default;
};

/// Knobs were turned and left there, without a reading: before the settle wait, or at the end.
struct LightSet {
    SwapId swap;
    StepId step;
    KnobTurns knobs; ///< not empty; one that is missing stands as before
    friend bool operator==(const LightSet&, const LightSet&) = default;
};

/// "Did the fan run on?", asked after a gap.
struct FanAnswered {
    LamphouseId lamphouse;
    bool ranOn = false;         ///< false: no, or nobody knows
    PersonId countersignedBy{}; ///< that it ran, where a trainee says so
    friend bool operator==(const FanAnswered&, const FanAnswered&) = default;
};

/// Whether the locks, breakers and lamps of this lamphouse's group are as they were left before a gap that
/// nobody witnessed.
struct LocksSeen {
    LamphouseId lamphouse;
    bool asBefore = false;      ///< false: no, or nobody can say
    PersonId countersignedBy{}; ///< that they are, where a trainee says so
    friend bool operator==(const LocksSeen&, const LocksSeen&) = default;
};

/// A step that may follow is owed to a later visit.
struct Owed {
    SwapId swap;
    StepId step;
    friend bool operator==(const Owed&, const Owed&) = default;
};

/// An earlier entry no longer counts. It stays in the logbook.
struct Withdrawn {
    qint64 entry = 0;
    QString reason;
    PersonId countersignedBy{}; ///< of an act, where a trainee withdraws it
    friend bool operator==(const Withdrawn&, const Withdrawn&) = default;
};

struct Noted {
    SwapId swap;
    QString text;
    friend bool operator==(const Noted&, const Noted&) = default;
};

struct PictureKept {
    SwapId swap;
    StepId step;
    QString capture;
    Hash picture;
    friend bool operator==(const PictureKept&, const PictureKept&) = default;
};

/// The program was started again, or another laptop took the visit up.
struct Resumed {
    friend bool operator==(const Resumed&, const Resumed&) = default;
};

/// MAKE SAFE was pressed: the swaps go no further.
struct SafeBegun {
    QString reason;
    friend bool operator==(const SafeBegun&, const SafeBegun&) = default;
};

/// Change of engineer.
struct PassedOn {
    PersonId from;
    PersonId to;
    friend bool operator==(const PassedOn&, const PassedOn&) = default;
};

/// The lock of an owner who is not there, by the documented exception (29 CFR 1910.147(e)(3)).
struct LockRemoved {
    PersonId owner;
    LamphouseId lamphouse;
    PersonId supervisor;
    QString absence;  ///< how it was verified that the owner is not on site
    QString attempts; ///< when and how it was tried to reach the owner, with what result
    friend bool operator==(const LockRemoved&, const LockRemoved&) = default;
};

/// Whoever writes this was told that their lock was removed while they were away (29 CFR
/// 1910.147(e)(3)(iii)).
struct RemovalTold {
    friend bool operator==(const RemovalTold&, const RemovalTold&) = default;
};

/// Somebody goes home before the visit ends: nobody waits for them any more. Who comes back joins again.
struct Left {
    PersonId person;
    friend bool operator==(const Left&, const Left&) = default;
};

/// Where a lamp goes, and the word for it.
struct CustodyDecided {
    LampId lamp;
    QString custody; ///< a word of lamps::Custody
    friend bool operator==(const CustodyDecided&, const CustodyDecided&) = default;
};

/// Somebody of ours signs.
struct Signed {
    QString meaning; ///< a word of people::Meaning
    friend bool operator==(const Signed&, const Signed&) = default;
};

/// The site's contact signs, in the presence of the engineer: a witness, never an authority.
struct SiteSigned {
    QString name;
    QString role;
    std::optional<Hash> slip; ///< picture of a signed slip
    friend bool operator==(const SiteSigned&, const SiteSigned&) = default;
};

/// After this only addenda.
struct Closed {
    QString end; ///< "done", "as-it-was", "as-it-is" or "out-of-use"
    friend bool operator==(const Closed&, const Closed&) = default;
};

struct Addendum {
    QString text;
    friend bool operator==(const Addendum&, const Addendum&) = default;
};

/// An entry of a kind that this program does not know: the visit is read-only from here on.
struct Unknown {
    QString kind;
    friend bool operator==(const Unknown&, const Unknown&) = default;
};

using Body =
    std::variant<Opening, Joined, Did, Acted, Happened, IncidentAnswered, LampRead, SerialPassed, LightRead,
                 LightSet, ScreenRead, ScreenConditions, ScreenLimits, FanAnswered, LocksSeen, Owed,
                 Withdrawn, Noted, PictureKept, Resumed, SafeBegun, PassedOn, LockRemoved, RemovalTold, Left,
                 CustodyDecided, Signed, SiteSigned, Closed, Addendum, Unknown>;

/// One line of the logbook.
struct Entry {
    Stamp at;
    PersonId by;
    Body body;
    friend bool operator==(const Entry&, const Entry&) = default;
};

/// The exact bytes that are kept: compact UTF-8 JSON, keys in alphabetical order. An Unknown cannot be
/// written.
[[nodiscard]] QByteArray bytesOf(const Entry& entry);
/// Malformed names the place. A kind that is none of ours is an Unknown, not an error.
[[nodiscard]] Result<Entry> entryFrom(const QByteArray& bytes);
/// Of all of them, in order. Malformed names the first that cannot be read, and the place in it.
/// @param bytes  where each has its bytes, if it is not just these.
template<class Kept, class Bytes = std::identity>
[[nodiscard]] Result<QList<Entry>> entriesFrom(const std::vector<Kept>& kept, Bytes bytes = {})
{
    QList<Entry> entries;
    for (const Kept& one : kept) {
        auto entry = entryFrom(std::invoke(bytes, one));
        if (!entry)
            return fail(entry.error().kind,
                        QStringLiteral("entry %1: %2").arg(entries.size()).arg(entry.error().detail));
        entries.append(std::move(*entry));
    }
    return entries;
}
/// "did", "acted" ...: the word of an entry's kind.
[[nodiscard]] QString kindOf(const Body& body);

/// The pictures that an entry names, none where it names none.
[[nodiscard]] QList<Hash> picturesOf(const Entry& entry);

/// Whoever pressed too, on their own key; empty: nobody, or an entry of a kind that nobody countersigns.
[[nodiscard]] PersonId countersignerOf(const Entry& entry);

} // namespace coldarc::visit
