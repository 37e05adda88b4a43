#pragma once

#include "core/catalogue/catalogue.h"
#include "core/machine/act.h"
#include "core/machine/demand.h"
#include "core/procedure/procedure.h"

#include <QList>
#include <QString>

#include <cstddef>
#include <optional>

namespace coldarc::procedure {

/// Why a procedure is refused.
enum class Flaw : std::uint8_t {
    Plant,            ///< the model does not fit a visit
    Order,            ///< impossible order: a step cannot be done when its turn comes; `demand` says why
    Exposed,          ///< something exposing can be done without `gate`
    Unsafe,           ///< a state that must not be: bare without a lock, lit while open, and the like
    StruckUnbooked,   ///< a lamp is lit before it was booked in and its type read back
    GateBypassed,     ///< what waits for `gate` can be done although nothing proves it any more
    NoWayToSafety,    ///< making safe from here does not end, or ends where nobody can sign
    LockLeft,         ///< a lock hangs at the end
    LampLeft,         ///< a lamp is bare, loose or in a seat without being booked in, at the end
    AdaptorLeft,      ///< the adaptor goes away with a lamp that came out
    PowerLeft,        ///< a point is off at the end
    CountLeft,        ///< a difference of count, or no count, at the end
    CountMissing,     ///< counted back without a count at opening
    TestPointMissing, ///< a test point of the model is not proved before what needs it
    StopMisplaced,    ///< a stop does not stand where it belongs
    NotSigned,        ///< the last step is not the signing
};

/// One part of a path through a procedure: a step and how it came out, or what happened at it.
struct PathPart {
    StepId step;
    machine::Outcome outcome = machine::Outcome::Plain;
    std::optional<machine::Happening> happening; ///< then the step was not done yet

    friend bool operator==(const PathPart&, const PathPart&) = default;
};

struct ProofFailure {
    Flaw flaw = Flaw::Order;
    StepId step; ///< where it shows: the step that is blocked, or that should not be possible
    std::optional<machine::Demand> demand;
    machine::Gate gate = machine::Gate::None;
    Facts facts;          ///< the lamps for which it was found
    QList<PathPart> path; ///< the shortest way there, waits left out
    QString detail;       ///< for the log
};

struct Proof {
    std::optional<ProofFailure> failure; ///< nothing: the procedure is proved
    std::size_t pairings = 0;            ///< of lamps, each walked
    std::size_t nodes = 0;               ///< states at a step, over all of them
};

/// How far to walk.
struct ProofScope {
    int incidents = 1;  ///< incidents and bad outcomes on one path
    bool again = false; ///< after one, earlier steps may be done once more; takes about ten times as long
    /// Demands that the walk overlooks, to see that the proof then finds the hole. None in the program.
    machine::Unmet overlooked;
};

/// Walks every path through a procedure: each lamp that the model takes as the new one, against an empty
/// seat, an old lamp of each such type and one that nobody knows; each way in which the lamphouses can be
/// found; at each step every outcome and every incident that can happen there, `scope.incidents` of them on
/// one path. Acts are judged by the shipping rules of `core/machine`. What it shows stands at `Flaw`; what it
/// does not: steps done in another order than the procedure's, which those rules judge by themselves.
[[nodiscard]] Proof prove(const Procedure& procedure, const catalogue::ProjectorModel& model,
                          const catalogue::Catalogue& catalogue, const ProofScope& scope = {});

/// The same of a visit that only does what was owed: the lamp in the seat stays there, whether it is found
/// lit or not.
/// @param owed  as for `followUpSteps`.
[[nodiscard]] Proof proveFollowUp(const Procedure& procedure, const catalogue::ProjectorModel& model,
                                  const catalogue::Catalogue& catalogue, const QList<StepId>& owed,
                                  const ProofScope& scope = {});

/// One line with the flaw, its step and the path, for logs and for whoever mends a file.
[[nodiscard]] QString describe(const ProofFailure& failure);
/// For logs: like "impossible order".
[[nodiscard]] QString wordOf(Flaw flaw);

} // namespace coldarc::procedure
