#pragma once

#include "core/alignment/knob.h"
#include "core/base/clock.h"

#include <QString>

#include <cstddef>
#include <optional>
#include <variant>
#include <vector>

namespace coldarc::alignment {

/// One knob of the lamphouse, as the model's file describes it.
struct AxisSetup {
    QString name; ///< the model's word for it
    Eighths step{
        8}; ///< between neighbouring settings of a scan, >= 2; the ends of a scan stand two steps off
    bool backlashSuspected = false; ///< then its first scan after the wait goes up and back, nine readings

    friend bool operator==(const AxisSetup&, const AxisSetup&) = default;
};

/// What a light run is held to.
struct RunSetup {
    std::vector<AxisSetup> axes; ///< in the order in which they are worked, at least one
    /// Share of the light that may be left. 1 % is the accuracy asked of the meter: 0.5 cd/m2 (ISO 26431-1,
    /// read in a summary only) of 48 cd/m2. Below that the meter decides, not the lamp.
    double target = 0.01;
    int leastCycles = 2; ///< after the settle wait, before anything is said of what is left
    int mostCycles = 3;
    Eighths past{2}; ///< how much further back a knob goes, at least, before it comes forward to a setting

    friend bool operator==(const RunSetup&, const RunSetup&) = default;
};

/// One look at the meter.
struct Reading {
    int axis = 0;     ///< the axis in hand
    Knobs knobs;      ///< where each knob stood, from where the run found it
    double light = 0; ///< as the meter showed it; the unit is the same through the run
    Stamp stamp;

    friend bool operator==(const Reading&, const Reading&) = default;
};

/// The model's wait is over and the lamp has settled.
struct SettleWaitOver {
    Knobs knobs; ///< where each knob stood meanwhile
    Stamp stamp;

    friend bool operator==(const SettleWaitOver&, const SettleWaitOver&) = default;
};

/// Knobs were set without a reading.
struct KnobsSet {
    Knobs knobs; ///< where each of them stands since
    Stamp stamp;

    friend bool operator==(const KnobsSet&, const KnobsSet&) = default;
};

/// A reading was typed wrong; this is what the meter showed. The wrong one stays in the run.
struct Correction {
    std::size_t entry = 0; ///< number of the entry put right, from 0; must be a Reading
    double light = 0;

    friend bool operator==(const Correction&, const Correction&) = default;
};

using RunEntry = std::variant<Reading, SettleWaitOver, KnobsSet, Correction>;

/// A light run as data: how it was set up, and what happened, in order, never rewritten. Every reading names
/// an axis of the setup, a place for each knob and a light above zero; the wait is over once at most.
struct LightRun {
    RunSetup setup;
    std::vector<RunEntry> entries;

    friend bool operator==(const LightRun&, const LightRun&) = default;
};

/// More no meter of this trade shows, in whatever unit. Common practice, no source.
inline constexpr double kMostLight = 1e6;

/// What makes a typed number worth a question before it is taken.
enum class ReadingDoubt : unsigned char {
    None,
    NotALight,           ///< not a number, or not above zero: never taken
    TooMuch,             ///< above kMostLight: never taken
    PerhapsFootlamberts, ///< too small by about 3.43
    PerhapsCdPerM2,      ///< too large by about 3.43: the run is in foot-lamberts
    Jump,                ///< more than twice, or less than half, of the reading before
};

/// Judges a number before it becomes a reading.
/// @param before  the last reading of the run, > 0; nothing for the first.
[[nodiscard]] ReadingDoubt doubtOf(double typed, std::optional<double> before);

} // namespace coldarc::alignment
