#pragma once

#include "core/alignment/backlash.h"
#include "core/alignment/light_run.h"
#include "core/alignment/orders.h"
#include "core/alignment/skew.h"
#include "core/alignment/vertex.h"

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

/// What one scan told.
enum class ScanVerdict : std::uint8_t {
    SetOnly,  ///< before the wait: the knob was set, no verdict
    Peak,     ///< the knob was set to the peak
    Recentre, ///< the peak stands outside what was scanned: scan again round that end
    Widen,    ///< no curvature beyond chance: scan again with twice the step
    Refused,  ///< nothing can be said, see `refusal`: scan again
};

/// One scan, in hand or done. Positions are eighths from `middle`.
struct ScanRecord {
    int axis = 0;
    int cycle = 0; ///< 0 before the wait, then from 1
    Order order = Order::DriftProof5;
    Eighths middle; ///< from where the run found the knob
    Eighths step;
    Knobs knobs;                      ///< where all others stood
    Stamp began;                      ///< its first reading, from which its points count seconds
    std::vector<ScanPoint> points;    ///< those that count, in the order in which they were read
    std::vector<std::size_t> entries; ///< of the run, one per point
    std::vector<ScanPoint>
        leftOut;             ///< slips: a second reading at that place disagreed, or there could be none
    bool isRepeated = false; ///< one of the places was read again

    ScanVerdict verdict = ScanVerdict::Refused;
    std::optional<FitRefusal> refusal;
    std::optional<PeakFit> fit;
    std::optional<Vertex> vertex;     ///< with the scatter known when the scan ended
    std::optional<Backlash> backlash; ///< up-and-back scans only
    Eighths setting;                  ///< where the knob was put, from where the run found it
    bool isSkewed = false;            ///< no parabola at this width: the vertex is drawn to one side
};

/// The best reading since the wait.
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
    Knobs knobs;                ///< where they stood at the last reading
    Knobs wanted;               ///< where they have to stand at the next
    std::vector<bool> loose;    ///< knobs last turned back: their screw's play is on the other side
    std::vector<Eighths> steps; ///< of the next scan of each axis
    std::vector<Eighths> pasts; ///< how much further back each knob goes: past the play it was seen to have
    std::vector<double> biases; ///< of each vertex at its present step, eighths; 0 while no skew was seen
    Knobs cycleStart;
    ScanRecord scan;                  ///< in hand
    std::optional<std::size_t> again; ///< the point of it that has to be read again
    std::vector<ScanRecord> done;
    /// What is left to win, a share of the light, as of the last whole cycle; nothing while no cycle counts,
    /// or while it cannot be told.
    std::optional<double> left;
    std::optional<BestSeen> best;
    std::vector<double> pair; ///< logs of X, R, R, X so far
    bool fellBack = false;    ///< the best seen was better than where everything was set

    /// Done, and what is left is within the target: the only way to say "at the peak".
    [[nodiscard]] bool isWithinTarget() const;
};

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
/// Pre: `refusalOf` the entry is nothing.
[[nodiscard]] RunState evolve(RunState state, const Reading& reading);
[[nodiscard]] RunState evolve(RunState state, const SettleWaitOver& over);

/// The whole run, each reading as its last correction has it.
[[nodiscard]] RunState foldRun(const LightRun& run);

[[nodiscard]] Advice advise(const RunState& state);

/// Scatter of ln(light) over every scan since the wait, but for those of a skewed peak.
[[nodiscard]] Scatter scatterSinceWait(const RunState& state);

} // namespace coldarc::alignment
