#pragma once

#include "core/machine/evolve.h"
#include "core/procedure/step_act.h"
#include "core/visit/entry.h"

#include <QHash>
#include <QSet>

#include <array>
#include <memory>

namespace coldarc::visit {

/// How far one step of one swap has come.
struct StepRecord {
    enum class Status {
        Waiting,
        Done,
        Owed,      ///< to a follow-up visit
        AlreadySo, ///< nobody's hand was needed when its turn came; `entry` is that of the step behind it
    };
    Status status = Status::Waiting;
    qint64 entry = -1; ///< the entry that says so
    Stamp at;
    PersonId by;
    QJsonObject answers;

    friend bool operator==(const StepRecord&, const StepRecord&) = default;
};

/// One swap of the visit.
struct SwapState {
    SwapId id;
    const procedure::Procedure* procedure = nullptr; ///< lives in the ground
    machine::Index lamphouse = machine::kNone;
    machine::Index oldLamp = machine::kNone; ///< the one that was believed to be in the seat
    machine::Index newLamp = machine::kNone; ///< where nothing is exchanged, the old one
    bool followsUp = false;                  ///< nothing is exchanged: only what was owed is done
    QList<procedure::Step> steps; ///< those that apply, in order; made anew when the lamphouse was looked at
    QHash<StepId, StepRecord> records;
    std::optional<double> thresholdHours; ///< as booked in

    [[nodiscard]] const procedure::Step* step(const StepId& wanted) const;
    [[nodiscard]] StepRecord record(const StepId& step) const { return records.value(step); }
    friend bool operator==(const SwapState&, const SwapState&) = default;
};

struct IncidentState {
    qint64 entry = 0;
    Incident kind = Incident::NoTimeLeft;
    SwapId swap;
    Stamp at;
    bool isAnswered = false;
    QString answer;
    friend bool operator==(const IncidentState&, const IncidentState&) = default;
};

/// What was read of one lamp.
struct LampPaper {
    QList<label::Reading> readings; ///< of each source the last counts
    /// That were ever read off each source: a code that was typed over since is still that source's.
    QHash<label::Source, QStringList> codes{};
    QList<label::SerialPass> passes;
    /// What Matched had proved before a reading contradicted it: readings that agree again prove as much
    /// again.
    std::optional<machine::Match> spoilt;
    /// Doubts that somebody answered, as label::keptAs has them, by the entry that says so; since the entry
    /// was read last.
    QHash<qint64, QStringList> answered{};
    friend bool operator==(const LampPaper&, const LampPaper&) = default;
};

/// A light reading with its moment.
struct LightReading {
    LightRead read;
    Stamp at;
    qint64 entry = 0;
    friend bool operator==(const LightReading&, const LightReading&) = default;
};

/// Knobs that were set without a reading, with the moment.
struct LightSetting {
    LightSet set;
    Stamp at;
    qint64 entry = 0;
    friend bool operator==(const LightSetting&, const LightSetting&) = default;
};

/// Something said of the screens, with the moment.
struct SheetLine {
    std::variant<ScreenRead, ScreenConditions, ScreenLimits> said;
    Stamp at;
    qint64 entry = 0;
    friend bool operator==(const SheetLine&, const SheetLine&) = default;
};

/// What a review looks at first.
struct Exception {
    enum class Kind {
        GateSkipped, ///< something that is not safe-ward was done, and Cold, Dead or Geared waited
        SafeWardWithGateWaiting,
        SerialPassed,
        ThresholdAtOrAboveWarranty,
        LabelsDisagreed,
        StepOwed,
        EntryWithdrawn,
        WaitCutByIncident,
        IncidentMet,
        LockRemoved,
        ClockWentBack,    ///< set back, as the boot clock of the same computer shows or the wall clock itself
        OtherClockBehind, ///< the visit goes on on another computer, whose clock stands before the last entry
        GapNobodyWitnessed,
        NotAsLeft,         ///< after one: a lock gone, a breaker moved, a lamp lit, or nobody could say
        LitOfUnknownHours, ///< a lamp that was found fitted, was lit again, and nobody can say that it is
                           ///< below its replace-by hours
        NeighbourLeftDark, ///< the lamp beside it stays out, though the procedure would light it again
        WrongAnswerAtAStop,
        LampDoubted, ///< memory said something against the lamp, and it went in all the same
        OnOneCode,   ///< one code stands for two sources of the lamp, somebody says
        OnOneTyping, ///< box or paper was typed, and nothing else vouches for it
        Addendum,
    };
    Kind kind = Kind::IncidentMet;
    qint64 entry = 0;
    QStringList gates{}; ///< GateSkipped, SafeWardWithGateWaiting: see gates_waiting.h
    friend bool operator==(const Exception&, const Exception&) = default;
};

struct SignedBy {
    PersonId person; ///< empty: the site's contact
    QString name;
    QString role;
    QString meaning; ///< a word of people::Meaning
    Stamp at;
    qint64 entry = 0;
    friend bool operator==(const SignedBy&, const SignedBy&) = default;
};

/// Everything that the entries say, folded. A plain value: copying it is cheap, since its lists are shared.
struct VisitState {
    std::shared_ptr<const Ground> ground; ///< nullptr before the first entry
    machine::Plant plant;                 ///< the ground's, with the people
    machine::State machine;
    WaitBook waits;
    QList<PersonFacts> people; ///< by index
    machine::Index lead = machine::kNone;
    machine::Mask passedOn = 0; ///< people who handed over: nobody waits for them any more
    machine::Mask gone = 0;     ///< people who left: they are not here
    /// By person: lamphouses for which the whole gear was signed for item by item and nothing of it changed
    /// since; coming back in is then one press.
    std::array<machine::Mask, machine::kMostPeople> wholeGear{};
    QSet<PersonId> removalsToTell; ///< whose lock was removed and who has not been told of it yet
    QList<SwapState> swaps;
    QList<IncidentState> incidents;
    QHash<LampId, LampPaper> papers;
    QHash<LampId, QString> custody;
    QList<LightReading> light;     ///< in the order of their entries, those taken back left out
    QList<LightSetting> lightSets; ///< the same
    QList<SheetLine> sheets;       ///< the same
    QList<SignedBy> signatures;
    QList<Exception> exceptions;
    bool isMakingSafe = false;
    QString end;                      ///< how the visit ended; empty while it is open
    bool isReadOnly = false;          ///< an entry of a kind that this program does not know was met
    Stamp last;                       ///< of the last entry
    qint64 entries = 0;               ///< how many there are; the number of the next one
    QHash<qint64, machine::Act> acts; ///< by entry, for withdrawing
    QHash<qint64, QPair<SwapId, StepId>> stepsByEntry;
    QSet<qint64> withdrawn;
    QHash<qint64, machine::Mask> givesWay; ///< by entry that counts: the points that take no lock, it says
    /// By entry by which a lock hangs now, its owner being who hung it then: the last digits that were
    /// written down of it; empty: none.
    QHash<qint64, QString> hungBy;

    [[nodiscard]] machine::Index person(const PersonId& id) const;
    [[nodiscard]] const SwapState* swap(const SwapId& id) const;
    /// Somebody of this visit who did not leave.
    [[nodiscard]] bool isHere(machine::Index person) const { return !machine::has(gone, person); }
    [[nodiscard]] bool isOpen() const { return ground && end.isEmpty() && !isReadOnly; }
    [[nodiscard]] bool hasOpenIncident() const;
};

/// Who countersigns what somebody who may not lead does: whoever leads; kNone where nobody is asked to, or
/// nobody is here who may.
[[nodiscard]] machine::Index mayCountersign(const VisitState& state, const PersonId& by);

/// Ids of the steps that a follow-up takes up; empty of a swap.
[[nodiscard]] QList<StepId> owedSteps(const VisitState& state, const SwapId& swap);

/// What the readings of a lamp prove, by the rule of Matched.
[[nodiscard]] label::Agreement agreementOf(const VisitState& state, machine::Index lamp);
/// The same of other readings, with passes beside those that were given.
[[nodiscard]] label::Agreement agreementOf(const VisitState& state, machine::Index lamp,
                                           const QList<label::Reading>& readings,
                                           const QList<label::SerialPass>& further = {});

/// Where a step is done: in the swap's own lamphouse, or in the other one of its projector.
[[nodiscard]] machine::Index placeOf(const VisitState& state, const SwapState& swap,
                                     const procedure::Step& step);

/// Whether this step takes down an hour counter as it stands, before anything is keyed into it.
[[nodiscard]] bool readsCounter(const SwapState& swap, const procedure::Step& step);

/// What an answered step says of the hour counter, h; nothing where it says no such figure.
[[nodiscard]] std::optional<double> counterIn(const procedure::Step& step, const StepRecord& record);

/// What the hour counter of a lamphouse showed in this visit when it was read last as it stood; nothing where
/// nobody read it.
[[nodiscard]] std::optional<double> counterRead(const VisitState& state, machine::Index lamphouse);

/// What a lamp that is found fitted has burnt, h. It is never less than at the last reading, and it cannot
/// have burnt more hours since than have gone by.
struct BurntHours {
    double least = 0;
    std::optional<double> most; ///< nothing: nobody can say
    friend bool operator==(const BurntHours&, const BurntHours&) = default;
};

/// @param counter  of its lamphouse, as read in this visit; one below that of the last reading says nothing.
/// @return nothing where its hours were never known.
[[nodiscard]] std::optional<BurntHours> burntHours(const LampFacts& lamp, std::optional<double> counter,
                                                   WallTime now);

/// Whether a lamp that is found fitted may be lit again, by its hours; where those leave it open, a lamp that
/// burns may, and one that is out may not.
[[nodiscard]] machine::Life lifeOf(const Ground& ground, const LampFacts& lamp,
                                   const std::optional<BurntHours>& burnt, bool isLit);

/// Whether the lamp that was found here may be lit if its counter, which nobody has read yet, says so.
[[nodiscard]] bool canCounterTell(const VisitState& state, machine::Index lamphouse);

/// Who does a step, where, with which lamps.
[[nodiscard]] procedure::StepContext contextOf(const VisitState& state, const SwapState& swap,
                                               machine::Index person);

/// Names to positions and back. An id that the visit does not know becomes kNone.
[[nodiscard]] machine::Act toAct(const VisitState& state, const ActRecord& record);
[[nodiscard]] ActRecord toRecord(const VisitState& state, const machine::Act& act);

} // namespace coldarc::visit
