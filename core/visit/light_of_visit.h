#pragma once

#include "core/alignment/plan.h"
#include "core/alignment/quick_form.h"
#include "core/alignment/scan_curve.h"
#include "core/alignment/settled.h"
#include "core/catalogue/projector_model.h"
#include "core/photometry/typed.h"
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
    /// Place among the entries of the run in hand; nothing while it is no part of that.
    std::optional<std::size_t> inRun{};
    bool isLeftOut = false;  ///< a slip by the plan: it counts for nothing
    qint64 correctedBy = -1; ///< the entry that its light is taken from; -1: its own

    friend bool operator==(const LightPoint&, const LightPoint&) = default;
};

/// Where something began, among the readings.
struct LightMark {
    double minutes = 0; ///< since the first reading
    QString axis;       ///< whose scan began; empty: the settle wait was over

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
    /// What may be said to be left to win where the last whole cycle set the knobs, a share: nothing until as
    /// many cycles as the plan asks at least are whole since the wait, nothing of a quick form, and nothing
    /// once the knobs go back to the best seen. `alignment::notYet` of the state says why.
    std::optional<double> left;
    /// The knobs stand where the plan wants them: written down without a reading, or nothing is left to turn.
    bool isSet = false;
    /// The last reading or correction, as long as its step is not done: a search that ended rests on what was
    /// read.
    std::optional<qint64> mayTakeBack;
    double best = 0;       ///< of all that were read, less the slips; 0 before the first
    double won = 0;        ///< the best against the first, a share; the lamp's warming up is part of it
    double wonInCycle = 0; ///< the best of this cycle against the best before it; 0 before it has a reading
    alignment::LightRange shown; ///< around every light read, for a chart
    double shownMinutes = 1;     ///< from the first reading to the last, a minute at least

    [[nodiscard]] alignment::Advice advice() const { return alignment::advise(state); }
    /// `left`, where the knobs stand at the place that it is told of.
    [[nodiscard]] std::optional<double> leftHere() const
    {
        return state.standsAtCycleEnd() ? left : std::nullopt;
    }
};

/// Fills in everything that follows from the form, the run and the points: the state, what is left, what was
/// won, the marks, and what a chart shows.
void workOut(LightOfSwap& light);

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

/// What whoever ends the step now says to have set without a reading: where every knob stands. Of the second
/// search, ended before the plan is through, where the last whole cycle set them: of that place alone `left`
/// is told. Nothing where nothing was asked to be set: a first search is not through, no cycle is whole, the
/// last turns ended in a reading, they are written down already, or the engineer turns by eye.
/// @param chosen  how the peak is sought from now on, which a reading need not have said yet.
[[nodiscard]] std::optional<KnobTurns> knobsToSet(const LightOfSwap& light, LightForm chosen,
                                                  const procedure::Step& step,
                                                  const catalogue::ProjectorModel& model);

/// Which way a hand turns the screw.
[[nodiscard]] catalogue::Sense senseOf(alignment::Direction direction, catalogue::Sense forward);

/// What the first reading is held against.
struct ExpectedLight {
    photometry::Luminance light = photometry::Luminance::fromCdPerM2(0);
    photometry::LuminanceUnit unit =
        photometry::LuminanceUnit::CdPerM2; ///< that the meter is believed to show
    bool isOfArrival = false; ///< read at the screen's centre on arrival; else what the chosen limits ask

    friend bool operator==(const ExpectedLight&, const ExpectedLight&) = default;
};
/// Nothing where neither is known.
[[nodiscard]] std::optional<ExpectedLight> expectedLight(const VisitState& state, const SwapId& swap);
/// What to ask before a number becomes the first reading, by the rule for readings of the screen.
[[nodiscard]] std::optional<photometry::Doubt> doubtOfFirst(double typed, const ExpectedLight& expected);

/// Where every knob stands by what the plan advises next, as an entry keeps it.
[[nodiscard]] KnobTurns advisedTurns(const LightOfSwap& light, const catalogue::ProjectorModel& model);

/// The reading that the plan advises, with what the meter showed. `step` is left empty.
[[nodiscard]] LightRead advisedReading(const LightOfSwap& light, const catalogue::ProjectorModel& model,
                                       double value);

} // namespace coldarc::visit
