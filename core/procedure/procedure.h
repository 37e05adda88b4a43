#pragma once

#include "core/base/ids.h"
#include "core/catalogue/lamp_type.h"
#include "core/catalogue/projector_model.h"
#include "core/machine/effect.h"
#include "core/procedure/choice.h"

#include <QList>
#include <QString>
#include <QStringList>

#include <cstdint>
#include <optional>

namespace coldarc::procedure {

/// The parts of a swap, in their order.
enum class Phase : std::uint8_t {
    Arrive,
    ColdAndDead,
    Open,
    Swap,
    Close,
    BookIn,
    Light,
    Prove,
    Account,
    Sign,
};
/// One of "arrive", "cold-and-dead", "open", "swap", "close", "book-in", "light", "prove", "account", "sign".
[[nodiscard]] QString wordOf(Phase phase);

/// A page of 5 to 9 lines, each answered with what is seen.
enum class Stop : std::uint8_t {
    ColdAndDead,   ///< before gear-on
    ReadyToOpen,   ///< at the guard; every answer is chosen from four, nothing is typed
    ReadyToStrike, ///< before the last lock comes off
};
/// One of "cold-and-dead", "ready-to-open", "ready-to-strike".
[[nodiscard]] QString wordOf(Stop stop);

/// How bad it would be. Source of the words: ANSI Z535.4. Notice is for damage to things only.
enum class SignalWord : std::uint8_t {
    Danger,
    Warning,
    Caution,
    Notice,
};
/// One of "danger", "warning", "caution", "notice".
[[nodiscard]] QString wordOf(SignalWord word);

/// What can go wrong at a step, for the person who does it.
struct Hazard {
    SignalWord word = SignalWord::Warning;
    QString text;

    friend bool operator==(const Hazard&, const Hazard&) = default;
};

/// The shape of what is taken down at a step.
enum class CaptureKind : std::uint8_t {
    Counter, ///< h, typed
    Text,    ///< typed
    Choice,  ///< one of the choices
    Number,  ///< typed, in the unit
    Picture,
    Reading, ///< what a meter shows: one of the choices, or a number in the unit where none are given
    Serial,  ///< typed or scanned
    Type,    ///< typed or scanned
    Answer,  ///< a line of a stop: one of the choices, or typed where none are given
};
/// One of "counter", "text", "choice", "number", "picture", "reading", "serial", "type", "answer".
[[nodiscard]] QString wordOf(CaptureKind kind);

/// One thing to take down at a step.
struct Capture {
    QString id; ///< differs within the step; an entry keeps the value under it
    CaptureKind kind = CaptureKind::Choice;
    QString label;
    QList<Choice> choices; ///< in the order shown; empty where the value is typed
    QString unit;          ///< as written behind a number; may be empty
    bool optional = false; ///< the step can be done without it

    /// Whether a value of this capture is keyed in, letter by letter.
    [[nodiscard]] bool isTyped() const;
    /// What a choice of this text means; nothing if there is none.
    [[nodiscard]] std::optional<Means> meansOf(const QString& text) const;

    friend bool operator==(const Capture&, const Capture&) = default;
};

enum class Lamp : std::uint8_t {
    Old, ///< the one found in the seat
    New, ///< the one that was brought
};
/// "old" or "new".
[[nodiscard]] QString wordOf(Lamp lamp);

/// What is known of one lamp when it is asked which steps apply.
struct LampFacts {
    std::optional<LampTypeId> type; ///< nothing: unknown
    std::optional<bool> adaptor;    ///< whether this model fits that type with the adaptor; nothing: unknown
    std::optional<catalogue::Fill> fill;

    friend bool operator==(const LampFacts&, const LampFacts&) = default;
};
/// Everything that the catalogue knows of a lamp of this type in this model.
[[nodiscard]] LampFacts factsOf(const catalogue::LampType& type, const catalogue::ProjectorModel& model);

/// What decides which steps of a procedure apply to one swap.
struct Facts {
    std::optional<LampFacts> oldLamp; ///< nothing: the seat was found empty
    LampFacts newLamp;

    friend bool operator==(const Facts&, const Facts&) = default;
};

/// Tests on one lamp; all that are given must hold, none given holds always. A test on something that is
/// unknown holds, so a step is rather shown than left out.
struct LampCondition {
    std::optional<bool> adaptor;
    QList<LampTypeId> types; ///< empty: any
    std::optional<catalogue::Fill> fill;

    [[nodiscard]] bool isEmpty() const { return !adaptor && types.isEmpty() && !fill; }
    [[nodiscard]] bool holds(const LampFacts& facts) const;

    friend bool operator==(const LampCondition&, const LampCondition&) = default;
};

/// Both must hold.
struct Condition {
    LampCondition oldLamp; ///< a test on it never holds where the seat was found empty
    LampCondition newLamp;

    friend bool operator==(const Condition&, const Condition&) = default;
};

/// One thing that a person does, or looks at.
struct Step {
    StepId id;
    Phase phase = Phase::Arrive;
    machine::Effect effect = machine::Effect::Look;
    std::optional<Stop> stop; ///< then the effect is Look
    QString title;            ///< what to do, as an order
    QString why;              ///< one sentence
    std::optional<Hazard> hazard;
    QList<Capture> captures;
    Condition when;
    int minutes = 0; ///< expected, without the wait of a gate; 0: under a minute. Invented in what is shipped
    QStringList tools;
    bool mayFollow = false; ///< may be owed to a follow-up visit when time runs out
    /// Isolate, Restore, JobLockOff: which point. LockOn: the point whose job lock it is; nothing: the
    /// person's own.
    std::optional<catalogue::RoleId> point;
    std::optional<catalogue::TestPointId> testPoint; ///< ProveAbsence: where
    std::optional<Lamp> lamp;                        ///< which lamp is handled
    std::optional<catalogue::Axis> axis;             ///< Peak: which one
    bool otherLamphouse = false; ///< it is about the lamphouse of this projector that is not the swap's own
    /// The person has gear on: the step lies after GearOn, up to and with GearOff. Nothing is typed there.
    bool inGear = false;

    /// nullptr if there is none of this name. The pointer lives as long as this value is not changed.
    [[nodiscard]] const Capture* capture(const QString& wanted) const;

    friend bool operator==(const Step&, const Step&) = default;
};

/// The ordered steps of one swap in one projector model.
struct Procedure {
    ProcedureId id;
    ModelId model;
    QString title;
    QList<Step> steps; ///< ids all different

    /// nullptr if there is none of this name. The pointer lives as long as this value is not changed.
    [[nodiscard]] const Step* step(const StepId& wanted) const;

    friend bool operator==(const Procedure&, const Procedure&) = default;
};

/// Whether a step belongs to a swap with these facts. Where the seat was found empty, nothing that handles
/// the old lamp does.
[[nodiscard]] bool applies(const Step& step, const Facts& facts);

/// The steps that apply, in their order.
[[nodiscard]] QList<Step> stepsFor(const Procedure& procedure, const Facts& facts);

} // namespace coldarc::procedure
