#include "core/visit/light_of_visit.h"

#include "core/visit/sheet_of_visit.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <span>
#include <utility>

using namespace Qt::StringLiterals;

namespace coldarc::visit {
namespace {

using alignment::Eighths;
using alignment::Knobs;
using machine::Effect;

constexpr int kLeastStep = 2;

Eighths eighthsOf(double turns)
{
    return {static_cast<int>(std::lround(turns * alignment::kEighthsPerTurn))};
}

double turnsOf(Eighths eighths)
{
    return alignment::turnsOf(eighths.count);
}

/// As an entry keeps them.
KnobTurns turnsFor(const Knobs& knobs, const catalogue::ProjectorModel& model)
{
    KnobTurns turns;
    for (std::size_t i = 0; i < knobs.size(); ++i)
        turns.insert(catalogue::wordOf(model.axes.value(static_cast<qsizetype>(i)).axis), turnsOf(knobs[i]));
    return turns;
}

/// Minutes between two moments; after a restart of the computer only the wall clock is left.
double minutesBetween(const Stamp& first, const Stamp& later)
{
    const auto gone = first.boot == later.boot ? later.sinceBoot - first.sinceBoot
                                               : std::chrono::milliseconds(later.wall - first.wall);
    return std::chrono::duration<double, std::ratio<60>>(gone).count();
}

/// Which reading a scan begins with; nothing while it has none.
std::optional<std::size_t> firstOf(const alignment::ScanRecord& scan, const std::vector<LightPoint>& points)
{
    if (scan.entries.empty())
        return std::nullopt;
    const auto first = std::ranges::find(points, std::ranges::min(scan.entries), &LightPoint::inRun);
    return first == points.end() ? std::nullopt
                                 : std::optional(static_cast<std::size_t>(first - points.begin()));
}

/// Of those that count; 0 where there are none.
double bestOf(std::span<const LightPoint> points)
{
    double best = 0;
    for (const LightPoint& point : points)
        best = point.isLeftOut ? best : std::max(best, point.light);
    return best;
}

void tellSlips(std::vector<LightPoint>& points, const alignment::RunState& state)
{
    for (LightPoint& point : points)
        if (point.inRun)
            point.isLeftOut = std::ranges::count(state.leftOut, *point.inRun) > 0;
}

/// Marks where each scan began, and tells what this cycle won.
void tellScans(LightOfSwap& light)
{
    std::vector<const alignment::ScanRecord*> scans;
    for (const alignment::ScanRecord& scan : light.state.done)
        scans.push_back(&scan);
    scans.push_back(&light.state.scan);
    bool isFirstOfCycle = true;
    for (const alignment::ScanRecord* scan : scans) {
        const auto first = firstOf(*scan, light.points);
        if (!first)
            continue;
        light.marks.push_back({light.points[*first].minutes,
                               light.state.setup.axes[static_cast<std::size_t>(scan->axis)].name});
        if (!isFirstOfCycle || scan->cycle != light.state.cycle)
            continue;
        const std::span points(light.points);
        const double before = bestOf(points.first(std::max<std::size_t>(*first, 1)));
        light.wonInCycle = before > 0 ? bestOf(points.subspan(*first)) / before - 1 : 0;
        isFirstOfCycle = false;
    }
}

/// Marks where the settle wait was over.
void tellWait(LightOfSwap& light)
{
    for (const alignment::RunEntry& entry : light.run.entries) {
        if (const auto* over = std::get_if<alignment::SettleWaitOver>(&entry))
            light.marks.push_back({std::max(0.0, minutesBetween(light.points.front().at, over->stamp)), {}});
    }
    std::ranges::stable_sort(light.marks, {}, &LightMark::minutes);
}

/// Follows the entries of one swap's light in their order.
class Follower {
public:
    Follower(const VisitState& state, const SwapState& swap)
        : m_state(state)
        , m_swap(swap)
        , m_axes(state.ground->model(swap.lamphouse).axes)
    {
        m_light.run.setup = setupOf(state.ground->model(swap.lamphouse));
        m_knobs.resize(m_light.run.setup.axes.size());
        for (const procedure::Step& step : swap.steps) {
            const StepRecord record = swap.record(step.id);
            if (record.status != StepRecord::Status::Done)
                continue;
            if (step.effect == Effect::Strike)
                m_struck = std::max(m_struck, record.entry);
            if (step.effect == Effect::Settle)
                m_settled = record;
        }
    }

    LightOfSwap follow()
    {
        auto set = m_state.lightSets.begin();
        for (const LightReading& reading : m_state.light) {
            for (; set != m_state.lightSets.end() && set->entry < reading.entry; ++set)
                take(*set);
            take(reading);
        }
        for (; set != m_state.lightSets.end(); ++set)
            take(*set);
        passWait(std::numeric_limits<qint64>::max());
        workOut(m_light);
        const alignment::Advice advice = m_light.advice();
        const bool isAtAnEnd =
            advice.kind == alignment::Advice::Kind::Wait || advice.kind == alignment::Advice::Kind::Stop;
        m_light.isSet =
            m_light.form == LightForm::Planned && m_knobs == advice.knobs && (m_isSetSince || isAtAnEnd);
        if (!m_quick.empty())
            m_light.quick = alignment::quickForm(m_quick);
        m_light.rest = alignment::settled(m_rest);
        if (m_last && m_swap.record(m_last->read.step).status != StepRecord::Status::Done)
            m_light.mayTakeBack = m_last->entry;
        return std::move(m_light);
    }

private:
    bool isOurs(const SwapId& swap, qint64 entry) const { return swap == m_swap.id && entry > m_struck; }

    Effect effectOf(const StepId& step) const
    {
        const procedure::Step* found = m_swap.step(step);
        return found ? found->effect : Effect::Peak;
    }

    int axisOf(const QString& word) const
    {
        for (qsizetype i = 0; i < m_axes.size(); ++i)
            if (catalogue::wordOf(m_axes[i].axis) == word)
                return static_cast<int>(i);
        return -1;
    }

    void stand(const KnobTurns& turns)
    {
        for (auto knob = turns.begin(); knob != turns.end(); ++knob)
            if (const int axis = axisOf(knob.key()); axis >= 0)
                m_knobs[static_cast<std::size_t>(axis)] = eighthsOf(knob.value());
    }

    void take(const LightSetting& set)
    {
        if (!isOurs(set.set.swap, set.entry))
            return;
        passWait(set.entry);
        stand(set.set.knobs);
        m_isSetSince = true;
        if (m_light.form == LightForm::Planned)
            m_light.run.entries.push_back(alignment::KnobsSet{m_knobs, set.at});
    }

    void take(const LightReading& reading)
    {
        if (!isOurs(reading.read.swap, reading.entry) || !(reading.read.value > 0))
            return;
        if (reading.read.replaces >= 0)
            return correct(reading);
        const Effect effect = effectOf(reading.read.step);
        passWait(reading.entry);
        if (effect == Effect::PeakAgain)
            endWait(reading.at);
        m_last = &reading;
        LightPoint point{reading.entry,        reading.at,       reading.read.value, 0,
                         LightPoint::Of::Scan, reading.read.axis};
        if (!m_light.points.empty())
            point.minutes = minutesBetween(m_light.points.front().at, reading.at);
        const int axis = reading.read.turns ? axisOf(reading.read.axis) : -1;
        if (effect == Effect::Settle && axis < 0)
            rest(point);
        else if (axis < 0)
            quick(point);
        else
            scan(point, reading, axis);
    }

    void rest(LightPoint point)
    {
        point.of = LightPoint::Of::Rest;
        if (std::exchange(m_restBoot, point.at.boot) != point.at.boot)
            m_rest.clear(); // looks on two clocks are not compared
        m_rest.push_back({point.at.sinceBoot, point.light});
        m_light.points.push_back(std::move(point));
    }

    void quick(LightPoint point)
    {
        point.of = LightPoint::Of::Quick;
        if (m_light.form == LightForm::Planned)
            beginAnew();
        m_light.form = LightForm::Quick;
        m_quick.push_back(point.light);
        m_light.points.push_back(std::move(point));
    }

    void scan(LightPoint point, const LightReading& reading, int axis)
    {
        if (m_light.form == LightForm::Quick)
            beginAnew();
        m_light.form = LightForm::Planned;
        stand(reading.read.others);
        m_knobs[static_cast<std::size_t>(axis)] = eighthsOf(*reading.read.turns);
        m_isSetSince = false;
        point.inRun = m_light.run.entries.size();
        m_light.run.entries.push_back(alignment::Reading{axis, m_knobs, point.light, reading.at});
        m_light.points.push_back(std::move(point));
    }

    /// The number takes the place of what was typed wrong, wherever that went.
    void correct(const LightReading& reading)
    {
        const auto wrong = std::ranges::find(m_light.points, reading.read.replaces, &LightPoint::entry);
        if (wrong == m_light.points.end())
            return; // it was taken back since
        m_last = &reading;
        const double before = std::exchange(wrong->light, reading.read.value);
        wrong->correctedBy = reading.entry;
        if (wrong->inRun)
            m_light.run.entries.push_back(alignment::Correction{*wrong->inRun, reading.read.value});
        if (wrong->of == LightPoint::Of::Quick)
            replaceLast(m_quick, before, reading.read.value);
        for (alignment::RestReading& one : m_rest)
            if (wrong->of == LightPoint::Of::Rest && one.at == wrong->at.sinceBoot)
                one.light = reading.read.value;
    }

    static void replaceLast(std::vector<double>& lights, double before, double now)
    {
        const auto found = std::find(lights.rbegin(), lights.rend(), before);
        if (found != lights.rend())
            *found = now;
    }

    /// Nothing is known any more of where the knobs stand.
    void beginAnew()
    {
        tellSlips(m_light.points, alignment::foldRun(m_light.run));
        m_light.run.entries.clear();
        for (LightPoint& point : m_light.points)
            point.inRun.reset();
        m_quick.clear();
        m_knobs.assign(m_knobs.size(), Eighths{0});
        m_isSetSince = false;
        if (m_light.isWaitOver)
            m_light.run.entries.push_back(alignment::SettleWaitOver{m_knobs, m_waitOverAt});
    }

    void passWait(qint64 upTo)
    {
        if (m_settled && m_settled->entry > m_struck && m_settled->entry < upTo)
            endWait(m_settled->at);
    }

    void endWait(const Stamp& at)
    {
        if (m_light.isWaitOver)
            return;
        m_light.isWaitOver = true;
        m_waitOverAt = at;
        m_quick.clear();
        m_light.run.entries.push_back(alignment::SettleWaitOver{m_knobs, at});
    }

    const VisitState& m_state;
    const SwapState& m_swap;
    QList<catalogue::AxisDrive> m_axes;
    qint64 m_struck = -1;
    std::optional<StepRecord> m_settled;
    Stamp m_waitOverAt;
    LightOfSwap m_light;
    Knobs m_knobs;
    bool m_isSetSince = false;
    const LightReading* m_last = nullptr; ///< reading or correction that counts
    std::vector<double> m_quick;
    std::vector<alignment::RestReading> m_rest;
    QString m_restBoot;
};

} // namespace

void workOut(LightOfSwap& light)
{
    light.state = alignment::foldRun(light.run);
    tellSlips(light.points, light.state);
    const bool isTold = alignment::wholeCycles(light.state) >= light.state.setup.leastCycles;
    light.left = light.form == LightForm::Planned && isTold ? light.state.left : std::nullopt;
    light.marks.clear();
    light.wonInCycle = 0;
    if (light.points.empty())
        return;
    light.best = bestOf(light.points);
    const auto first = std::ranges::find(light.points, false, &LightPoint::isLeftOut);
    light.won = first != light.points.end() && first->light > 0 ? light.best / first->light - 1 : 0;
    const auto [least, most] = std::ranges::minmax(light.points, {}, &LightPoint::light);
    light.shown = alignment::rangeAround(least.light, most.light);
    light.shownMinutes = std::max(1.0, light.points.back().minutes);
    tellScans(light);
    tellWait(light);
}

alignment::RunSetup setupOf(const catalogue::ProjectorModel& model)
{
    alignment::RunSetup setup;
    for (const catalogue::AxisDrive& drive : model.axes) {
        alignment::AxisSetup axis;
        axis.name = catalogue::wordOf(drive.axis);
        axis.step = std::max(eighthsOf(drive.stepTurns), Eighths{kLeastStep});
        axis.backlashSuspected = drive.hasPlay;
        setup.axes.push_back(std::move(axis));
    }
    return setup;
}

LightOfSwap lightOf(const VisitState& state, const SwapId& swap)
{
    if (const SwapState* found = state.swap(swap))
        return Follower(state, *found).follow();
    LightOfSwap light;
    light.run.setup.axes.emplace_back();
    light.state = alignment::beginRun(light.run.setup);
    return light;
}

bool isThrough(const LightOfSwap& light, const procedure::Step& step, const catalogue::ProjectorModel& model)
{
    using alignment::Phase;
    if (light.form == LightForm::Quick)
        return false;
    const Phase phase = light.state.phase;
    if (step.effect == Effect::PeakAgain)
        return phase == Phase::Done;
    if (step.effect != Effect::Peak || !step.axis || phase == Phase::Waiting)
        return phase == Phase::Waiting;
    return std::ranges::any_of(light.state.done, [&](const alignment::ScanRecord& scan) {
        return alignment::isSet(scan) && model.axes.value(scan.axis).axis == *step.axis;
    });
}

std::optional<KnobTurns> knobsToSet(const LightOfSwap& light, LightForm chosen, const procedure::Step& step,
                                    const catalogue::ProjectorModel& model)
{
    using Kind = alignment::Advice::Kind;
    if (chosen != LightForm::Planned || light.form != LightForm::Planned)
        return std::nullopt;
    if (step.effect == Effect::PeakAgain && !isThrough(light, step, model)) {
        const auto leaving = alignment::adviseLeaving(light.state);
        return leaving ? std::optional(turnsFor(leaving->knobs, model)) : std::nullopt;
    }
    const alignment::Advice advice = light.advice();
    const bool isAtAnEnd = advice.kind == Kind::Wait || advice.kind == Kind::Stop;
    const bool asksTurns = isAtAnEnd && !advice.moves.empty() && !light.isSet;
    return asksTurns && isThrough(light, step, model) ? std::optional(advisedTurns(light, model))
                                                      : std::nullopt;
}

catalogue::Sense senseOf(alignment::Direction direction, catalogue::Sense forward)
{
    using catalogue::Sense;
    if (direction == alignment::Direction::Forward)
        return forward;
    return forward == Sense::Clockwise ? Sense::Anticlockwise : Sense::Clockwise;
}

std::optional<ExpectedLight> expectedLight(const VisitState& state, const SwapId& swap)
{
    using photometry::Place;
    const SheetOfSwap arrival = sheetOf(state, swap, SheetTime::Arrival);
    if (const auto& centre = arrival.sheet.at(Place::Centre))
        return ExpectedLight{centre->luminance, centre->shownIn, true};
    for (const SheetTime time : {SheetTime::After, SheetTime::Arrival}) {
        const SheetOfSwap sheet = sheetOf(state, swap, time);
        const auto asked = sheet.set
                               ? photometry::expectedAt(photometry::ScreenSheet(sheet.sheet.convention()),
                                                        *sheet.set, Place::Centre)
                               : std::nullopt;
        if (asked)
            return ExpectedLight{*asked, photometry::LuminanceUnit::CdPerM2, false};
    }
    return std::nullopt;
}

std::optional<photometry::Doubt> doubtOfFirst(double typed, const ExpectedLight& expected)
{
    const auto light = photometry::Luminance::from(typed, expected.unit);
    if (!light)
        return photometry::Doubt::FarOff;
    return photometry::doubtAbout({*light, expected.unit, std::nullopt}, expected.light);
}

KnobTurns advisedTurns(const LightOfSwap& light, const catalogue::ProjectorModel& model)
{
    return turnsFor(light.advice().knobs, model);
}

LightRead advisedReading(const LightOfSwap& light, const catalogue::ProjectorModel& model, double value)
{
    LightRead read;
    read.value = value;
    read.axis = catalogue::wordOf(model.axes.value(light.advice().axis).axis);
    read.others = advisedTurns(light, model);
    read.turns = read.others.take(read.axis);
    return read;
}

} // namespace coldarc::visit
