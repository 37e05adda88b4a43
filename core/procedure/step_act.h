#pragma once

#include "core/machine/act.h"
#include "core/procedure/procedure.h"

#include <QHash>
#include <QJsonObject>
#include <QSet>
#include <QString>
#include <QStringList>

#include <optional>

namespace coldarc::procedure {

/// Where a step stands in one visit: the places that a procedure names, as indices of `machine::Plant`. What
/// is not there stays kNone.
struct StepContext {
    machine::Index person = machine::kNone; ///< who does it
    machine::Index lamphouse = machine::kNone;
    machine::Index otherLamphouse = machine::kNone; ///< of the same projector
    machine::Index oldLamp =
        machine::kNone; ///< needed wherever the seat may hold a lamp, its type known or not
    machine::Index newLamp = machine::kNone;
    machine::Index otherLamp = machine::kNone;       ///< the one found in the other lamphouse
    QHash<catalogue::RoleId, machine::Index> points; ///< every isolation point of the model
    QSet<catalogue::TestPointId> testPointsBehindGuard;
    /// Isolate: the point that was picked as really moved where it was not the named one; kNone: none of
    /// ours.
    machine::Index otherMoved = machine::kNone;
    bool oldAdaptorOn = false; ///< Find: the lamp found carries the adaptor
};

/// What was chosen or typed at a step, by capture id: the choice's text, or the value as text.
using Answers = QHash<QString, QString>;

/// As an entry keeps them.
[[nodiscard]] Answers answersOf(const QJsonObject& object);

/// The act that a step is, before anything is answered: it proves nothing yet. The only place where a step
/// becomes an act. Pre: every isolation point of the model is in `context.points`.
[[nodiscard]] machine::Act actOf(const Step& step, const StepContext& context);

/// The act with what was answered. An answer that is missing, unknown or against another one never proves
/// anything: the outcome stays Plain and flags stay false; what is seen, and a lock that was not
/// pulled, count as the worse case. An
/// answer that tells of danger (it started, voltage, burst, differs) counts whatever the others say; who
/// decides does not refuse such an act for its demands. Not answered here, and left Plain: match-box (the
/// typed words are compared), sign, and unbox where the serial differs or nothing can be read.
[[nodiscard]] machine::Act withAnswers(machine::Act act, const Step& step, const StepContext& context,
                                       const Answers& answers);

/// Ids of captures that stand in the way: not optional and not answered, or answered with `bad`. Where the
/// effect proves something (gear-on, lock-on, relieve, a stop) the step is not done while there is one; a
/// safe-ward step is never refused for it.
[[nodiscard]] QStringList standsAgainst(const Step& step, const Answers& answers);

/// What else has happened, by these answers: the fan does not run at lamp-off, or nobody saw it run; a new
/// lamp that is marked or of another type.
[[nodiscard]] std::optional<machine::Event> happenedBy(const machine::Act& act, const Step& step,
                                                       const Answers& answers);

} // namespace coldarc::procedure
