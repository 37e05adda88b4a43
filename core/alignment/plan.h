#pragma once

#include "core/alignment/light_run.h"
#include "core/alignment/scan_record.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace coldarc::alignment {

/// Where a light run stands.
enum class Phase : std::uint8_t {
    BeforeWait, ///< one short cycle while the lamp warms up; it sets knobs and proves nothing
    Waiting,    ///< the settle wait
    AfterWait,  ///< the cycles that count
    Final,      ///< one reading where everything was set
    Pairing,    ///< that reading fell short of the best seen: X, R, R, X decides
    Done,
    Stuck, ///< one axis shows no peak however it is scanned
};

/// A reading since the wait; of `RunState::best` the best.
struct BestSeen {
    double light = 0;
    Knobs knobs;
    std::size_t entry = 0;

    friend bool operator==(const BestSeen&, const BestSeen&) = default;
};

/// A light run so far. Computed from the run's entries only.
struct RunState {
    RunSetup setup;
    Phase phase = Phase::BeforeWait;
    int cycle = 0;
    std::size_t entries = 0;    ///< how many were folded
    Knobs knobs;                ///< where they stand: of the last reading, or set since
    Knobs wanted;               ///< where they have to stand at the next
    std::vector<bool> loose;    ///< knobs last turned back: their screw's play is on the other side
    std::vector<Eighths> steps; ///< of the next scan of each axis
    /// How much further back each knob goes: past the play it was seen to have, or by a step while that is
    /// unknown.
    std::vector<Eighths> pasts;
    std::vector<double> biases; ///< of each vertex at that step, eighths; 0 while no skew was seen
    Knobs cycleStart;
    Knobs cycleEnd;                   ///< where the last whole cycle since the wait set them; empty before
    ScanRecord scan;                  ///< in hand
    std::optional<std::size_t> again; ///< the point of it that has to be read again
    std::vector<ScanRecord> done;
    /// What is left to win, a share of the light, where the knobs stand at `cycleEnd` and nowhere else;
    /// nothing while no cycle counts, or where it cannot be told: of a peak without an interval, of a knob
    /// that shows none any more, and of the best seen once the knobs go back to it.
    std::optional<double> left;
    std::vector<BestSeen> seen;       ///< in the cycles since the wait, less what was left out
    std::optional<BestSeen> best;     ///< of these
    std::vector<std::size_t> leftOut; ///< entries: slips
    std::vector<double> pair;         ///< logs of X, R, R, X so far
    bool fellBack = false;            ///< the best seen was better than where everything was set

    /// Done, and what is left is within the target: the only way to say "at the peak".
    [[nodiscard]] bool isWithinTarget() const;
    /// The knobs stand where the last whole cycle since the wait set them.
    [[nodiscard]] bool standsAtCycleEnd() const { return !cycleEnd.empty() && knobs == cycleEnd; }
};

/// Why it cannot be said that a run is at the peak.
enum class NotYet : std::uint8_t {
    NoPeak,       ///< one axis shows none, however it is scanned
    FellBack,     ///< the knobs go back to a place that no scan has set, so nothing is known of what is left
    TooFewCycles, ///< of whole ones since the wait, fewer than the setup asks
    NoInterval,   ///< one peak was not seen well enough to say where it ends
    Skewed,       ///< one peak has two different flanks at the width scanned last
    TooMuchLeft,  ///< more than the target
    NotRead,      ///< where everything was set was not read to the end
};
/// The first that holds; nothing: `isWithinTarget`.
[[nodiscard]] std::optional<NotYet> notYet(const RunState& state);

/// Cycles since the wait of which every scan set its knob.
[[nodiscard]] int wholeCycles(const RunState& state);

/// What to do next. Values; the words belong to whoever shows it.
struct Advice {
    enum class Kind : std::uint8_t {
        Read,      ///< make the moves, read the light
        ReadAgain, ///< the same place once more: its reading does not fit the others
        Wait,      ///< make the moves, then the settle wait
        Stop,      ///< make the moves, that is all
        Stuck,     ///< look whether the knob moves the lamp; go on by the quick form
    };
    Kind kind = Kind::Read;
    std::vector<Move> moves; ///< knobs set by the scan before come first
    Knobs knobs;             ///< where all stand afterwards
    int axis = 0;            ///< in hand
    int reading = 0;         ///< of this scan, from 1
    int ofReadings = 0;

    friend bool operator==(const Advice&, const Advice&) = default;
};

/// A run in which nothing has happened. Pre: at least one axis, every step >= 2 eighths.
[[nodiscard]] RunState beginRun(RunSetup setup);

/// One entry further. A reading of another axis than the one advised, or with another knob moved, begins that
/// axis's scan anew: what is done is what counts, not what was advised.
/// Pre: the entry fits the run's setup, as LightRun says.
[[nodiscard]] RunState evolve(RunState state, const Reading& reading);
[[nodiscard]] RunState evolve(RunState state, const SettleWaitOver& over);
[[nodiscard]] RunState evolve(RunState state, const KnobsSet& set);

/// The whole run, each reading as its last correction has it.
[[nodiscard]] RunState foldRun(const LightRun& run);

[[nodiscard]] Advice advise(const RunState& state);

/// What to do before the search is ended half way: put the knobs where the last whole cycle since the wait
/// set them. Nothing where there is none, where they stand there, and at the plan's own end.
[[nodiscard]] std::optional<Advice> adviseLeaving(RunState state);

/// Scatter of ln(light) over every scan since the wait, but for those of a skewed peak.
[[nodiscard]] Scatter scatterSinceWait(const RunState& state);

} // namespace coldarc::alignment
