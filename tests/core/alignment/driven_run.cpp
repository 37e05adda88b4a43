#include "tests/core/alignment/driven_run.h"

#include <cmath>
#include <utility>

namespace coldarc::test {

using namespace coldarc::alignment;

namespace {

constexpr std::chrono::seconds kPerReading{20};

Stamp stampAt(double readings)
{
    Stamp stamp;
    stamp.sinceBoot = std::chrono::milliseconds(std::llround(readings * 1000) * kPerReading.count());
    return stamp;
}

void append(DrivenRun& driven, const auto& entry)
{
    driven.state = evolve(std::move(driven.state), entry);
    driven.run.entries.emplace_back(entry);
}

} // namespace

RunSetup setupFor(const LampNature& nature)
{
    RunSetup setup;
    for (const AxisNature& axis : nature.axes) {
        AxisSetup knob;
        knob.step = Eighths{static_cast<int>(axis.halfRange / 2)};
        setup.axes.push_back(knob);
    }
    return setup;
}

DrivenRun driveRun(const RunSetup& setup, SimulatedLight light, Hand hand)
{
    DrivenRun driven;
    driven.run.setup = setup;
    driven.state = beginRun(setup);
    for (;;) {
        const Advice advice = advise(driven.state);
        for (Move move : advice.moves) {
            if (hand == Hand::Straight)
                move.past = Eighths{0};
            light.turn(move);
        }
        const Stamp now = stampAt(light.time());
        driven.bestKnob.push_back(light.bestKnob(advice.axis));
        if (advice.kind == Advice::Kind::Wait) {
            light.settle();
            append(driven, SettleWaitOver{advice.knobs, now});
        } else if (advice.kind == Advice::Kind::Read || advice.kind == Advice::Kind::ReadAgain) {
            ++(driven.state.cycle == 0 ? driven.before : driven.after);
            append(driven, Reading{advice.axis, advice.knobs, light.read(), now});
        } else {
            break;
        }
    }
    driven.loss = light.loss();
    return driven;
}

} // namespace coldarc::test
