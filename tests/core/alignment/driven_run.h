#pragma once

#include "core/alignment/plan.h"
#include "core/alignment/test_lamp.h"

#include <vector>

namespace coldarc::test {

/// How closely the engineer follows what is said of the screw's play.
enum class Hand : unsigned char {
    AsTold,   ///< comes forward to every setting
    Straight, ///< turns straight to it
};

/// A run in which an engineer did whatever was advised.
struct DrivenRun {
    alignment::LightRun run;
    alignment::RunState state;
    int before = 0; ///< readings before the settle wait
    int after = 0;
    double loss = 0;              ///< true share of the light lost at the final knobs
    std::vector<double> bestKnob; ///< per entry: where the axis in hand had its true peak at that moment
};

/// The setup that fits a test lamp: scans as wide as its half range either way.
[[nodiscard]] alignment::RunSetup setupFor(const alignment::LampNature& nature);

/// Drives a run until nothing more is advised; twenty seconds a reading.
[[nodiscard]] DrivenRun driveRun(const alignment::RunSetup& setup, alignment::SimulatedLight light,
                                 Hand hand = Hand::AsTold);

} // namespace coldarc::test
