#pragma once

#include "core/alignment/knob.h"
#include "core/alignment/light_run.h"

#include <boost/random/mersenne_twister.hpp>

#include <cstdint>
#include <vector>

namespace coldarc::alignment {

/// One axis of an invented lamp.
struct AxisNature {
    double halfRange =
        16; ///< eighths of a turn off the peak at which the light has fallen by `fallAtHalfRange`
    double widthBack = 1;    ///< half range behind the peak, as a multiple of `halfRange`
    double widthForward = 1; ///< and before it; both differ where the peak is skewed
    double backlash = 0;     ///< eighths that the knob turns before the lamp follows
};

/// What kind of light answers. All of it is invented; nothing is measured on a lamp.
struct LampNature {
    std::vector<AxisNature> axes;
    double fallAtHalfRange = 0.2;
    double coupling = 0.4;    ///< between any two axes, in (-1, 1); 0: each axis minds its own peak
    double startWithin = 0.8; ///< the peak lies this many half ranges from the start at most, on each axis
    /// At the peak of the settled lamp. As large as the nominal screen light in cd/m2: 48.0, that is 14.0 fL
    /// (ISO 26431-1, read in two summaries that agree).
    double light = 48;
    double noise = 0.01;        ///< relative standard deviation of one reading
    double wander = 0;          ///< relative standard deviation of the arc's own slow wander
    double wanderKept = 0.8;    ///< share of the wander that is still there one reading later, in [0, 1)
    double warmUp = 0.08;       ///< share of the light that is missing just after the strike
    double warmUpReadings = 12; ///< time constant, in readings
    double settleMove = 0.2;    ///< standard deviation, in half ranges, by which the wait moves the peak
    double waitReadings = 60;   ///< how long the settle wait is, in readings
};

/// The lamp that figures are told of: three axes of two turns half range, otherwise as above. Light falls 20
/// % at one half range, start within 0.8 half range, coupling 0.4, warm-up 8 % with a time constant of 12
/// readings, peak moved by 0.2 half range (standard deviation) during the wait, noise 1 %. Two turns and 60
/// readings of wait are this program's own choice.
[[nodiscard]] LampNature pinnedTestLamp();

/// The same with the knobs of a run: each scan ends one half range off its middle.
[[nodiscard]] LampNature testLampFor(const RunSetup& setup);

/// The same with a peak along the last axis whose flanks are as 0.7 to 1.6.
[[nodiscard]] LampNature skewedTestLamp();

/// A light that answers: knobs in, readings out, the same for the same seed everywhere. A value; copies go
/// their own ways from the same moment.
class SimulatedLight {
public:
    SimulatedLight(LampNature nature, std::uint64_t seed);

    /// Turns one knob, straight, to a place in eighths from where it stood at first. Fractions are allowed.
    void turnTo(int axis, double eighths);
    /// Turns as a person does who was told so: further back and forward again where the move says it.
    void turn(const Move& move);
    /// One look at the meter; a reading's time goes by.
    [[nodiscard]] double read();
    /// The settle wait: the lamp warms through and its peak moves.
    void settle();

    [[nodiscard]] double knob(int axis) const { return m_knobs[index(axis)]; }
    /// Readings that have gone by, the wait counted by its length.
    [[nodiscard]] double time() const { return m_time; }
    /// Light at the lamp's place now, without noise, wander and warm-up, against the best there is: in [0,
    /// 1).
    [[nodiscard]] double loss() const;
    /// Where the knob of one axis would have to stand, come upon going forward, for the most light while the
    /// others stand where they are; eighths.
    [[nodiscard]] double bestKnob(int axis) const;

private:
    [[nodiscard]] static std::size_t index(int axis) { return static_cast<std::size_t>(axis); }
    [[nodiscard]] double normal();
    [[nodiscard]] double offPeak(std::size_t axis) const; ///< in half ranges of its own flank
    [[nodiscard]] double fall() const;                    ///< of ln(light)

    LampNature m_nature;
    boost::random::mt19937_64 m_chance;
    std::vector<double> m_knobs;
    std::vector<double> m_lamp; ///< places of the lamp, in eighths of the knob that drives it
    std::vector<double> m_peak;
    double m_time = 0;
    double m_wander = 0;
};

} // namespace coldarc::alignment
