#include "tests/support/light_cases.h"

#include "core/alignment/test_lamp.h"
#include "ui/alignment/view_of_light.h"
#include "ui/alignment/words_light.h"

#include <algorithm>
#include <cmath>

namespace coldarc::test {

using namespace Qt::StringLiterals;
using namespace coldarc::ui;

namespace {

constexpr std::uint64_t kSeed = 11;
constexpr std::chrono::seconds kPerReading{20};

catalogue::ProjectorModel model()
{
    catalogue::ProjectorModel invented;
    invented.axes = {{catalogue::Axis::Across, 1.0, catalogue::Sense::Clockwise, false},
                     {catalogue::Axis::Up, 1.0, catalogue::Sense::Anticlockwise, false},
                     {catalogue::Axis::Along, 1.0, catalogue::Sense::Clockwise, false}};
    invented.settle = std::chrono::seconds(1200);
    return invented;
}

procedure::Step stepOf(machine::Effect effect, const QString& title, std::optional<catalogue::Axis> axis = {})
{
    procedure::Step step;
    step.id = StepId(title);
    step.title = title;
    step.effect = effect;
    step.axis = axis;
    step.mayFollow = true;
    return step;
}

/// Somebody who does as told, at a lamp that answers.
class Run {
public:
    Run()
        : m_lamp(alignment::pinnedTestLamp(), kSeed)
    {
        m_light.run.setup = visit::setupOf(model());
        visit::workOut(m_light);
    }

    void read(int readings)
    {
        for (int i = 0; i < readings; ++i)
            readOnce();
    }

    void readUntil(alignment::Phase phase)
    {
        for (int i = 0; i < 200 && m_light.state.phase != phase; ++i)
            readOnce();
    }

    [[nodiscard]] const visit::LightOfSwap& light() const { return m_light; }

    [[nodiscard]] LightView view(const procedure::Step& step, const LightMind& mind = {},
                                 std::optional<WaitView> wait = {}) const
    {
        const catalogue::ProjectorModel invented = model();
        visit::LightOfSwap light = m_light;
        visit::workOut(light);
        LightMoment moment{light, invented, &step, std::move(wait), {}, {}};
        moment.place = u"Screen 4\u2002\u00b7\u2002"_s + step.title;
        moment.makeSafeEnd = u"leads to: as it is"_s;
        return viewOf(moment, mind);
    }

    void addQuick(double value)
    {
        m_light.form = visit::LightForm::Quick;
        static_cast<void>(m_lamp.read()); // its time goes by
        addPoint(value, visit::LightPoint::Of::Quick, {}, {});
        m_quick.push_back(value);
        m_light.quick = alignment::quickForm(m_quick);
    }

private:
    Stamp now() const
    {
        Stamp stamp;
        stamp.sinceBoot = std::chrono::milliseconds(kPerReading) * static_cast<int>(m_lamp.time());
        return stamp;
    }

    void addPoint(double value, visit::LightPoint::Of of, const QString& axis,
                  std::optional<std::size_t> inRun)
    {
        const auto entry = static_cast<qint64>(m_light.points.size());
        const Stamp first = m_light.points.empty() ? now() : m_light.points.front().at;
        const std::chrono::duration<double, std::ratio<60>> minutes = now().sinceBoot - first.sinceBoot;
        m_light.points.push_back({entry, now(), value, minutes.count(), of, axis, inRun});
        m_light.mayTakeBack = entry;
    }

    void add(const alignment::RunEntry& entry)
    {
        m_light.run.entries.push_back(entry);
        m_light.state = alignment::foldRun(m_light.run);
    }

    void readOnce()
    {
        const alignment::Advice advice = m_light.advice();
        for (const alignment::Move& move : advice.moves)
            m_lamp.turn(move);
        if (advice.kind == alignment::Advice::Kind::Wait) {
            m_lamp.settle();
            m_light.isWaitOver = true;
            return add(alignment::SettleWaitOver{advice.knobs, now()});
        }
        const double light = std::round(m_lamp.read() * 10) / 10; // as a meter shows it
        const QString axis = catalogue::wordOf(model().axes.at(advice.axis).axis);
        addPoint(light, visit::LightPoint::Of::Scan, axis, m_light.run.entries.size());
        add(alignment::Reading{advice.axis, advice.knobs, light, now()});
    }

    alignment::SimulatedLight m_lamp;
    visit::LightOfSwap m_light;
    std::vector<double> m_quick;
};

LightView quickView()
{
    Run run;
    for (const double value : {40.1, 41.7, 43.9, 45.2, 44.6, 46.8, 48.3, 47.1})
        run.addQuick(value);
    return run.view(stepOf(machine::Effect::Peak, u"Find the peak sideways"_s, catalogue::Axis::Across));
}

LightView askedView(const procedure::Step& step)
{
    Run run;
    run.read(8);
    LightMind mind;
    constexpr double kTyped = 13;
    const double before = run.light().points.back().light;
    mind.said = doubtText(alignment::doubtOf(kTyped, before), kTyped, before);
    return run.view(step, mind);
}

} // namespace

ui::LightView lightViewAfter(int readings)
{
    Run run;
    run.readUntil(alignment::Phase::Done);
    LightView view = run.view(stepOf(machine::Effect::PeakAgain, u"Check the peak again"_s));
    const double last = view.trace.readings.last().x();
    const auto read = view.trace.readings;
    for (qsizetype i = 0; view.trace.readings.size() < readings; ++i)
        view.trace.readings.append({last + static_cast<double>(i + 1) / 3, read.at(i % read.size()).y()});
    view.trace.minutes = view.trace.readings.last().x();
    return view;
}

std::vector<LightCase> lightCases()
{
    const procedure::Step across =
        stepOf(machine::Effect::Peak, u"Find the peak sideways"_s, catalogue::Axis::Across);
    const procedure::Step up = stepOf(machine::Effect::Peak, u"Find the peak upwards"_s, catalogue::Axis::Up);
    const procedure::Step settle = stepOf(machine::Effect::Settle, u"Wait until the light has settled"_s);
    const procedure::Step again = stepOf(machine::Effect::PeakAgain, u"Check the peak again"_s);
    Run first;
    Run scan;
    scan.read(8);
    Run ended;
    ended.readUntil(alignment::Phase::Waiting);
    Run peak;
    peak.readUntil(alignment::Phase::Waiting);
    peak.read(1 + 5 * 4 + 3);
    Run whole;
    whole.read(1 + 15 + 5 * 4);
    Run leaving;
    leaving.readUntil(alignment::Phase::Final);
    LightMind mind;
    mind.leaving = LightMind::Leaving::Done;
    Run done;
    done.readUntil(alignment::Phase::Done);
    return {{"first", first.view(across)},
            {"scan", scan.view(up)},
            {"set", ended.view(up)},
            {"settling", ended.view(settle, {}, WaitView{0.4, u"12:00"_s, u"of 20:00, settled at 22:14"_s})},
            {"peak", peak.view(again)},
            {"whole", whole.view(again)},
            {"leaving", leaving.view(again, mind)},
            {"done", done.view(again)},
            {"quick", quickView()},
            {"asked", askedView(up)},
            {"many", lightViewAfter(500)}};
}

} // namespace coldarc::test
