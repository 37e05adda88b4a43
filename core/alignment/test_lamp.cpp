#include "core/alignment/test_lamp.h"

#include "core/alignment/scan_record.h"

#include <boost/random/normal_distribution.hpp>
#include <boost/random/uniform_real_distribution.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace coldarc::alignment {

LampNature pinnedTestLamp()
{
    LampNature nature;
    nature.axes.resize(3);
    return nature;
}

LampNature testLampFor(const RunSetup& setup)
{
    LampNature nature = pinnedTestLamp();
    nature.axes.clear();
    for (const AxisSetup& axis : setup.axes) {
        AxisNature knob;
        knob.halfRange = kEndOfScan * axis.step.count;
        nature.axes.push_back(knob);
    }
    return nature;
}

LampNature skewedTestLamp()
{
    LampNature nature = pinnedTestLamp();
    nature.axes.back().widthBack = 0.7;
    nature.axes.back().widthForward = 1.6;
    return nature;
}

SimulatedLight::SimulatedLight(LampNature nature, std::uint64_t seed)
    : m_nature(std::move(nature))
    , m_chance(seed)
    , m_knobs(m_nature.axes.size())
    , m_lamp(m_nature.axes.size())
{
    boost::random::uniform_real_distribution<double> start(-m_nature.startWithin, m_nature.startWithin);
    for (std::size_t i = 0; i < m_nature.axes.size(); ++i) {
        m_peak.push_back(start(m_chance) * m_nature.axes[i].halfRange);
        m_lamp[i] = -m_nature.axes[i].backlash / 2; // the knob was last turned forward
    }
    m_wander = normal();
}

void SimulatedLight::turnTo(int axis, double eighths)
{
    const std::size_t i = index(axis);
    const double play = m_nature.axes[i].backlash / 2;
    m_knobs[i] = eighths;
    m_lamp[i] = std::clamp(m_lamp[i], eighths - play, eighths + play);
}

void SimulatedLight::turn(const Move& move)
{
    const double target =
        knob(move.axis) + (move.direction == Direction::Forward ? move.turn.count : -move.turn.count);
    if (move.past.count > 0)
        turnTo(move.axis, target - move.past.count);
    turnTo(move.axis, target);
}

double SimulatedLight::read()
{
    const double missing = m_nature.warmUp * std::exp(-m_time / m_nature.warmUpReadings);
    m_time += 1;
    m_wander =
        m_nature.wanderKept * m_wander + std::sqrt(1 - m_nature.wanderKept * m_nature.wanderKept) * normal();
    return m_nature.light * std::exp(-fall()) * (1 - missing) *
           std::exp(m_nature.noise * normal() + m_nature.wander * m_wander);
}

void SimulatedLight::settle()
{
    m_time += m_nature.waitReadings;
    for (std::size_t i = 0; i < m_peak.size(); ++i)
        m_peak[i] += m_nature.settleMove * m_nature.axes[i].halfRange * normal();
}

double SimulatedLight::loss() const
{
    return -std::expm1(-fall());
}

double SimulatedLight::bestKnob(int axis) const
{
    double others = 0;
    for (std::size_t i = 0; i < m_peak.size(); ++i)
        if (i != index(axis))
            others += offPeak(i);
    // The fall is a quadratic form of the places in half ranges, so its least along one of them is linear in
    // the others.
    const double off = -m_nature.coupling * others;
    const AxisNature& own = m_nature.axes[index(axis)];
    return m_peak[index(axis)] + off * own.halfRange * (off < 0 ? own.widthBack : own.widthForward) +
           own.backlash / 2;
}

double SimulatedLight::normal()
{
    boost::random::normal_distribution<double> distribution;
    return distribution(m_chance);
}

double SimulatedLight::offPeak(std::size_t axis) const
{
    const AxisNature& own = m_nature.axes[axis];
    const double off = (m_lamp[axis] - m_peak[axis]) / own.halfRange;
    return off / (off < 0 ? own.widthBack : own.widthForward);
}

double SimulatedLight::fall() const
{
    double squares = 0;
    double sum = 0;
    for (std::size_t i = 0; i < m_peak.size(); ++i) {
        const double off = offPeak(i);
        squares += off * off;
        sum += off;
    }
    const double products = sum * sum - squares; // twice the sum over pairs
    return -std::log1p(-m_nature.fallAtHalfRange) * (squares + m_nature.coupling * products);
}

} // namespace coldarc::alignment
