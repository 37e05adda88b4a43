#pragma once

#include "core/alignment/plan.h"
#include "core/alignment/quick_form.h"
#include "core/alignment/settled.h"
#include "core/catalogue/projector_model.h"
#include "core/visit/state.h"

#include <optional>
#include <vector>

namespace coldarc::visit {

/// How the peak is sought.
enum class LightForm : std::uint8_t {
    Planned, ///< by scans: where each knob stands is known
    Quick,   ///< the engineer turns and watches; only what was read is known
};

/// One reading that counts.
struct LightPoint {
    enum class Of : std::uint8_t {
        Scan,  ///< of the planned run
        Quick, ///< nobody counted the turns
        Rest,  ///< nothing was touched, while the lamp settled
    };
    qint64 entry = 0;
    Stamp at;
    double light = 0;   ///< as its last correction has it
    double minutes = 0; ///< since the first of them
    Of of = Of::Scan;
    QString axis; ///< in hand; may be empty

    friend bool operator==(const LightPoint&, const LightPoint&) = default;
};

/// Where something began, among the readings.
struct LightMark {
    double minutes = 0; ///< since the first reading
    QString axis;       ///< whose scan began; empty: the settle wait was over
    int cycle = 0;      ///< as in a scan

    friend bool operator==(const LightMark&, const LightMark&) = default;
};

/// The light of one swap since its lamp was last struck, rebuilt from the entries of the visit alone.
struct LightOfSwap {
    LightForm form = LightForm::Planned; ///< of the last reading; planned while there is none
    bool isWaitOver = false;
    std::vector<LightPoint> points; ///< every one, in order
    std::vector<LightMark> marks;   ///< scans of the run in hand, and the end of the wait, in order
    alignment::LightRun run;   ///< the planned run in hand: since the strike, or since the last quick reading
    alignment::RunState state; ///< of that run
    std::optional<alignment::QuickForm> quick; ///< of the quick readings since the last other thing
    alignment::SettledVerdict rest;            ///< of the readings at rest
    /// What may be said to be left to win, a share: nothing until as many cycles as the plan asks at least
    /// are whole since the wait, and nothing of a quick form.
    std::optional<double> left;
    /// The knobs stand where the plan wants them: written down without a reading, or nothing is left to turn.
    bool isSet = false;
    double best = 0;       ///< of all that were read; 0 before the first
    double won = 0;        ///< the best against the first, a share; the lamp's warming up is part of it
    double wonInCycle = 0; ///< the best of this cycle against the best before it; 0 before it has a reading

    [[nodiscard]] alignment::Advice advice() const { return alignment::advise(state); }
};

/// Axes in the model's order, with its steps. A step is at least two eighths.
[[nodiscard]] alignment::RunSetup setupOf(const catalogue::ProjectorModel& model);

/// Pre: the visit is opened. Of a swap that it does not know: a run in which nothing has happened, of one
/// axis.
///
/// The settle wait is over for the run once its step is done, or once the second search has a reading. A
/// quick reading ends a planned run, since nobody knows any more where the knobs stand: the next planned
/// reading begins one of its own. A reading that was taken back never counts; a correction takes the place of
/// what it corrects.
[[nodiscard]] LightOfSwap lightOf(const VisitState& state, const SwapId& swap);

/// Whether nothing is left to read for this step: its axis has its knob set, or the plan is at its end. A
/// quick form is never through by itself.
[[nodiscard]] bool isThrough(const LightOfSwap& light, const procedure::Step& step,
                             const catalogue::ProjectorModel& model);

/// Where every knob stands by what the plan advises next, as an entry keeps it.
[[nodiscard]] KnobTurns advisedTurns(const LightOfSwap& light, const catalogue::ProjectorModel& model);

/// The reading that the plan advises, with what the meter showed. `step` is left empty.
[[nodiscard]] LightRead advisedReading(const LightOfSwap& light, const catalogue::ProjectorModel& model,
                                       double value);

} // namespace coldarc::visit
