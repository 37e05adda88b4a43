#pragma once

#include "core/catalogue/catalogue.h"
#include "core/machine/act.h"
#include "core/machine/plant.h"
#include "core/machine/state.h"
#include "core/procedure/procedure.h"
#include "core/procedure/proof.h"
#include "core/procedure/step_act.h"

#include <vector>

namespace coldarc::procedure {

/// One pairing of lamps, as the proof walks it: the steps that apply, on a projector with these lamps.
struct ProofCase {
    Facts facts;
    QList<Step> steps;
    machine::Plant plant;
    StepContext context;
    bool followsUp = false; ///< the steps are those of `followUpSteps`: old and new lamp are the same
};

/// Every pairing that differs for the walk. Empty if the model does not fit a visit.
[[nodiscard]] std::vector<ProofCase> proofCases(const Procedure& procedure,
                                                const catalogue::ProjectorModel& model,
                                                const catalogue::Catalogue& catalogue);

/// A visit that only does what was owed, for each lamp that the model takes.
/// @param owed  as for `followUpSteps`.
[[nodiscard]] std::vector<ProofCase> followUpCases(const Procedure& procedure,
                                                   const catalogue::ProjectorModel& model,
                                                   const catalogue::Catalogue& catalogue,
                                                   const QList<StepId>& owed);

/// One way for a step to come out.
struct Variant {
    enum class Kind {
        Plain,    ///< as planned
        OtherWay, ///< found in another state that the procedure must cope with
        Bad,      ///< an incident
    };
    machine::Act act;
    Kind kind = Kind::Plain;
};
/// As planned first.
[[nodiscard]] std::vector<Variant> variantsOf(const ProofCase& walked, const Step& step,
                                              const machine::State& state);

/// Everything that can happen here and changes something.
[[nodiscard]] std::vector<machine::Event> eventsAt(const ProofCase& walked, const machine::State& state);

/// What is wrong with this state or with the act that led to it, told by the invariants of the safety rules
/// and not by the demands; nothing if nothing is. `act` is nullptr where no act led here.
struct Breach {
    Flaw flaw = Flaw::Unsafe;
    machine::Gate gate = machine::Gate::None;
    QString detail;
};
[[nodiscard]] std::optional<Breach> breachBy(const ProofCase& walked, const machine::State& before,
                                             const machine::Act* act, const machine::State& after);
/// What is left behind in a state in which the visit is signed.
[[nodiscard]] std::optional<Breach> leftBehind(const ProofCase& walked, const machine::State& state);

} // namespace coldarc::procedure
