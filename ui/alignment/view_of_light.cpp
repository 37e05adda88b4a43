#include "ui/alignment/view_of_light.h"

#include "core/alignment/hand_turn.h"
#include "core/alignment/scan_curve.h"
#include "ui/alignment/words_light.h"

#include <QCoreApplication>
#include <QLocale>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using alignment::Advice;
using alignment::Eighths;
using alignment::Move;
using alignment::NotYet;
using alignment::Phase;
using alignment::ScanRecord;
using alignment::ScanVerdict;
using machine::Effect;
using visit::LightForm;
using visit::LightOfSwap;

QString words(const char* text)
{
    return QCoreApplication::translate("light", text);
}

QString axisName(const LightMoment& moment, int axis)
{
    return nameOf(moment.model.axes.value(axis).axis);
}

QString sentence(const QString& text)
{
    return text.left(1).toUpper() + text.mid(1);
}

// ---- The left column -----------------------------------------------------------------------------------

const ScanRecord* lastOfCycle(const alignment::RunState& state, int axis)
{
    const auto found = std::find_if(state.done.rbegin(), state.done.rend(), [&](const ScanRecord& scan) {
        return scan.axis == axis && scan.cycle == state.cycle;
    });
    return found == state.done.rend() ? nullptr : &*found;
}

QString againText(ScanVerdict verdict)
{
    switch (verdict) {
    case ScanVerdict::Recentre:
        return words("in hand again, further on");
    case ScanVerdict::Widen:
        return words("in hand again, wider");
    default:
        return words("in hand again");
    }
}

LightAxisRow rowOf(const LightMoment& moment, int axis)
{
    const alignment::RunState& state = moment.light.state;
    const Advice advice = moment.light.advice();
    const ScanRecord* last = lastOfCycle(state, axis);
    const bool isSet = last && alignment::isSet(*last);
    LightAxisRow row;
    row.name = axisName(moment, axis);
    if (isSet) {
        row.stand = LightAxisRow::Stand::Done;
        row.state = last->verdict == ScanVerdict::Peak ? words("at its peak") : words("set");
        row.sub = words("%1 of %1 readings").arg(last->points.size());
        return row;
    }
    const bool isStuck = state.phase == Phase::Stuck;
    if (axis == advice.axis && isStuck) {
        row.stand = LightAxisRow::Stand::Now;
        row.state = words("no peak seen");
        row.sub = words("however it is scanned");
        return row;
    }
    if (axis != advice.axis) {
        row.state = isStuck ? words("not reached") : words("later");
        row.sub = words("%1 a step").arg(stepText(state.steps[static_cast<std::size_t>(axis)]));
        return row;
    }
    row.stand = LightAxisRow::Stand::Now;
    row.state = last ? againText(last->verdict) : words("in hand");
    row.sub = words("%1 of %2 readings").arg(advice.reading - 1).arg(advice.ofReadings);
    return row;
}

void tellAxes(LightView& view, const LightMoment& moment, LightForm form)
{
    if (form == LightForm::Quick) {
        view.axesTitle = words("Turned by eye");
        return;
    }
    const int cycle = moment.light.state.cycle;
    view.axesTitle = cycle == 0 ? words("Axes, before the wait") : words("Axes, cycle %1").arg(cycle);
    for (int axis = 0; axis < static_cast<int>(moment.model.axes.size()); ++axis)
        view.axes.append(rowOf(moment, axis));
}

QString signedShare(double share)
{
    return (share < 0 ? u"\u2212 "_s : u"+ "_s) + shareText(std::abs(share));
}

void tellLeft(LightView& view, const LightMoment& moment)
{
    const LightOfSwap& light = moment.light;
    view.leftTitle = words("Left to win, all axes");
    const auto why = alignment::notYet(light.state);
    const bool isEnough = !why || why == NotYet::NotRead;
    const bool isElsewhere = light.left && !light.leftHere();
    view.left = light.left ? words("at most %1").arg(boundText(*light.left)) : u"\u2013"_s;
    if (isElsewhere && !moment.step) {
        view.left = u"\u2013"_s;
        view.leftSub = words("Not known: %1.").arg(endedText());
    } else if (isEnough) {
        view.leftSub = words("Below that the meter decides, not the lamp.");
    } else if (!light.left) {
        view.leftSub = words("Not known: %1.").arg(notYetText(*why, light.state.setup));
    } else {
        view.leftSub = sentence(notYetText(*why, light.state.setup)) + u'.';
    }
    if (isElsewhere && moment.step)
        view.leftSub = words("Where the last whole cycle set the knobs. %1").arg(view.leftSub);
}

void tellLight(LightView& view, const LightMoment& moment, LightForm form)
{
    const LightOfSwap& light = moment.light;
    view.light = light.points.empty() ? u"\u2013"_s : lightText(light.points.back().light);
    view.won = light.points.size() < 2 ? u"\u2013"_s : signedShare(light.won);
    view.wonSub = words("best seen against the first reading; the lamp's warming up is part of it");
    if (form == LightForm::Quick) {
        view.lightSub = light.quick ? words("best seen %1").arg(lightText(light.quick->bestLight))
                                    : words("as the meter shows it");
        view.leftTitle = words("Below the best seen");
        view.left = light.quick ? shareText(light.quick->fallBack) : u"\u2013"_s;
        view.leftSub = words("What is left to win is not known: turning by eye shows no interval.");
        return;
    }
    view.lightSub = light.state.best ? words("best since the wait %1").arg(lightText(light.state.best->light))
                                     : words("as the meter shows it");
    if (light.state.cycle > 0 && !light.points.empty())
        view.wonSub = words("of it %1 in this cycle").arg(signedShare(light.wonInCycle));
    tellLeft(view, moment);
}

// ---- The charts ----------------------------------------------------------------------------------------

QList<QPointF> pointsOf(const std::vector<alignment::ScanCurve::Point>& points)
{
    QList<QPointF> drawn;
    drawn.reserve(static_cast<qsizetype>(points.size()));
    for (const alignment::ScanCurve::Point& point : points)
        drawn.append({point.eighths, point.light});
    return drawn;
}

QString turnsNumber(double eighths, bool isSigned)
{
    const double turns = alignment::turnsOf(eighths);
    const QString number = QLocale().toString(std::abs(turns), 'f', 2);
    const QString sign = turns < 0 ? u"\u2212"_s : isSigned ? u"+"_s : QString();
    return sign + number;
}

} // namespace

ScanChartView scanChartOf(const ScanRecord& scan, const QString& name)
{
    ScanChartView chart;
    const alignment::ScanCurve curve = alignment::curveOf(scan);
    chart.title = words("Reading against position, %1").arg(name);
    chart.axisTitle = words("turns of the knob \u201c%1\u201d from where it stood").arg(name);
    chart.readings = pointsOf(curve.readings);
    chart.leftOut = pointsOf(curve.leftOut);
    chart.fitted = pointsOf(curve.fitted);
    chart.from = curve.from;
    chart.to = curve.to;
    chart.least = curve.lights.least;
    chart.most = curve.lights.most;
    for (int step = -alignment::kEndOfScan; step <= alignment::kEndOfScan; ++step) {
        const Eighths place = scan.middle + step * scan.step;
        chart.ticks.append({static_cast<double>(place.count), knobText(place)});
    }
    if (curve.peak)
        chart.peak = ScanChartView::Peak{curve.peak->at, curve.peak->low, curve.peak->high,
                                         words("peak at %1 turns, between %2 and %3")
                                             .arg(turnsNumber(curve.peak->at, true),
                                                  turnsNumber(curve.peak->low, true),
                                                  turnsNumber(curve.peak->high, true))};
    return chart;
}

QList<ScanChartView> lastScansOf(const visit::LightOfSwap& light, const catalogue::ProjectorModel& model)
{
    QList<ScanChartView> scans;
    for (int axis = 0; axis < model.axes.size(); ++axis) {
        const auto& done = light.state.done;
        const auto last = std::find_if(done.rbegin(), done.rend(), [&](const ScanRecord& one) {
            return one.axis == axis && !one.points.empty();
        });
        if (last != done.rend())
            scans.append(scanChartOf(*last, nameOf(model.axes[axis].axis)));
    }
    return scans;
}

TraceChartView traceChartOf(const LightOfSwap& light)
{
    TraceChartView trace;
    trace.readings.reserve(static_cast<qsizetype>(light.points.size()));
    for (const visit::LightPoint& point : light.points)
        trace.readings.append({point.minutes, point.light});
    for (const visit::LightMark& mark : light.marks) {
        const auto axis = catalogue::axisFromWord(mark.axis);
        trace.marks.append({mark.minutes, axis ? nameOf(*axis) : words("settled")});
    }
    trace.least = light.shown.least;
    trace.most = light.shown.most;
    trace.minutes = light.shownMinutes;
    trace.from = words("first reading");
    if (!light.points.empty())
        trace.to = words("%1 min").arg(QLocale().toString(light.points.back().minutes, 'f', 0));
    return trace;
}

namespace {

/// The scan in hand once it has a reading; else the one before it.
const ScanRecord* scanShown(const alignment::RunState& state)
{
    if (!state.scan.points.empty())
        return &state.scan;
    return state.done.empty() ? nullptr : &state.done.back();
}

void tellScan(LightView& view, const LightMoment& moment, LightForm form)
{
    ScanChartView& chart = view.scan;
    if (form == LightForm::Quick)
        return; // nobody counts the turns: there is no position to draw a reading at
    const ScanRecord* scan = scanShown(moment.light.state);
    chart.title = words("Reading against position");
    if (!scan) {
        chart.empty = words("The first reading draws its point here.");
        return;
    }
    chart = scanChartOf(*scan, axisName(moment, scan->axis));
}

void tellTrace(LightView& view, const LightMoment& moment)
{
    view.trace = traceChartOf(moment.light);
}

// ---- What to do ----------------------------------------------------------------------------------------

QList<double> signedTurns(const Move& move, catalogue::Sense forward)
{
    QList<double> turns;
    for (const alignment::HandTurn& turn : alignment::handTurnsOf(move)) {
        const double size = alignment::turnsOf(turn.turn.count);
        turns.append(visit::senseOf(turn.direction, forward) == catalogue::Sense::Clockwise ? size : -size);
    }
    return turns;
}

QString moveSentence(const LightMoment& moment, const Move& move)
{
    return words("%1: %2").arg(axisName(moment, move.axis),
                               moveText(move, moment.model.axes.value(move.axis).forward));
}

/// The moves: those before the last into the first sentence, the last one large.
void tellMoves(LightView& view, const LightMoment& moment, const std::vector<Move>& moves,
               const QString& after)
{
    QStringList first;
    for (std::size_t i = 0; i + 1 < moves.size(); ++i)
        first.append(moveSentence(moment, moves[i]));
    if (!first.isEmpty())
        view.first = words("First set %1.").arg(first.join(u"; "_s));
    if (moves.empty()) {
        view.what = sentence(after) + u'.';
        return;
    }
    const Move& last = moves.back();
    view.what = words("%1, then %2.").arg(moveSentence(moment, last), after);
    view.dial = TurnDialView{axisName(moment, last.axis),
                             signedTurns(last, moment.model.axes.value(last.axis).forward)};
    const bool comesForward =
        std::any_of(moves.begin(), moves.end(), [](const Move& move) { return move.past != Eighths{0}; });
    if (comesForward)
        view.how =
            words("Going past it and coming back takes up the play of the screw, so that the lamp follows.");
}
void tellMoves(LightView& view, const LightMoment& moment, const QString& after)
{
    tellMoves(view, moment, moment.light.advice().moves, after);
}

QString nextAxis(const LightMoment& moment)
{
    for (int axis = moment.light.advice().axis + 1; axis < static_cast<int>(moment.model.axes.size());
         ++axis) {
        const ScanRecord* last = lastOfCycle(moment.light.state, axis);
        if (!last || !alignment::isSet(*last))
            return axisName(moment, axis);
    }
    return {};
}

QString thenText(const LightMoment& moment)
{
    const alignment::RunState& state = moment.light.state;
    if (const QString next = nextAxis(moment); !next.isEmpty())
        return words("Then %1.").arg(next);
    if (state.phase == Phase::BeforeWait)
        return words("Then the settle wait. This first cycle sets the knobs and proves nothing: the lamp "
                     "still warms up.");
    return words("Done when all axes together have less than %1 left to win: below that the meter decides, "
                 "not the lamp.")
        .arg(shareText(state.setup.target));
}

void tellEnd(LightView& view, const LightMoment& moment)
{
    const LightOfSwap& light = moment.light;
    if (light.state.isWithinTarget())
        view.then =
            words("At the peak: at most %1 is left to win, all axes together.").arg(boundText(*light.left));
    else if (light.state.fellBack)
        view.then =
            words("The best seen was better than the last setting, so the knobs go back to it. What is "
                  "left to win can not be told.");
    else if (light.left)
        view.then = words("As near as %1 cycles bring it: up to %2 may be left to win, all axes together.")
                        .arg(light.state.cycle)
                        .arg(boundText(*light.left));
    else
        view.then = words("The peak was not seen well enough to say what is left to win.");
}

void tellPlanned(LightView& view, const LightMoment& moment)
{
    const alignment::RunState& state = moment.light.state;
    switch (moment.light.advice().kind) {
    case Advice::Kind::Read:
        tellMoves(view, moment, words("read"));
        view.then = thenText(moment);
        if (state.phase == Phase::Final)
            view.then = words("One reading where everything was set, against the best seen.");
        if (state.phase == Phase::Pairing)
            view.then =
                words("The last reading fell short of the best seen: both places are read twice, by turns.");
        break;
    case Advice::Kind::ReadAgain:
        tellMoves(view, moment, words("read there again"));
        view.then = words("One reading does not fit the others of this scan. A second one there decides.");
        break;
    case Advice::Kind::Wait:
        tellMoves(view, moment, words("leave the knobs alone"));
        view.then = words("Then the settle wait.");
        break;
    case Advice::Kind::Stop:
        tellMoves(view, moment, words("leave it there"));
        tellEnd(view, moment);
        break;
    case Advice::Kind::Stuck:
        view.what = words("%1 shows no peak, however it is scanned.").arg(axisName(moment, state.scan.axis));
        view.then = words("Look whether the knob moves the lamp at all. Then go on turning by eye.");
        break;
    }
    if (moment.light.isSet && !moment.isSettling()) {
        view.first.clear();
        view.how.clear();
        view.dial.reset();
        view.what = words("The knobs stand where they should.");
    }
}

/// Of the settings of the last whole cycle, and what is known without them.
void tellLeaving(LightView& view, const LightMoment& moment, const Advice& leaving)
{
    tellMoves(view, moment, leaving.moves, words("leave it there"));
    view.then = moment.light.left
                    ? words("There the last whole cycle set the knobs: there at most %1 is left to win. As "
                            "they stand now it is not known.")
                          .arg(boundText(*moment.light.left))
                    : words("There the last whole cycle set the knobs; for the readings since they were "
                            "turned off it.");
}

void tellQuick(LightView& view, const LightMoment& moment)
{
    view.what = words("Turn one knob a little and read. Keep what is better, go back from what is worse.");
    view.how = words("Come to each place from the same side.");
    view.then =
        words("The best reading is kept. Where the peak lies is not known, only what was seen: no interval, "
              "and nothing about what is left to win.");
    const auto& quick = moment.light.quick;
    if (quick && quick->fallBack > 0)
        view.how = words("The last reading is %1 below the best one: going back would win that.")
                       .arg(shareText(quick->fallBack));
}

void tellSettling(LightView& view, const LightMoment& moment)
{
    using State = alignment::SettledVerdict::State;
    view.wait = moment.wait;
    view.what = moment.wait ? words("Leave the lamp lit and the knobs alone.") : words("The wait is over.");
    if (moment.light.state.phase == Phase::Waiting && !moment.light.isSet &&
        !moment.light.advice().moves.empty())
        tellMoves(view, moment, words("leave the knobs alone"));
    view.dial.reset();
    const alignment::SettledVerdict rest = moment.light.rest;
    const alignment::SettleRule rule;
    switch (rest.state) {
    case State::TooFewLooks:
        view.then =
            words("A number typed now is a look at the resting light. Three looks, five minutes apart and "
                  "within %1, show that it is steady: %2 so far. The wait stays as long either way.")
                .arg(shareText(rule.within))
                .arg(rest.looks);
        break;
    case State::Moving:
        view.then =
            words("The last three looks spread over %1: the light still moves.").arg(shareText(rest.spread));
        break;
    case State::Settled:
        view.then =
            words("The last three looks lie within %1: the light is steady.").arg(shareText(rest.spread));
        break;
    }
}

void tellWhat(LightView& view, const LightMoment& moment, const LightMind& mind)
{
    const LightForm form = moment.form(mind);
    const auto leaving = moment.leaving(mind);
    if (!moment.step) {
        view.what = words("No step of the light is in hand.");
        view.then = words("The bench shows what comes next.");
    } else if (moment.isSettling()) {
        tellSettling(view, moment);
    } else if (leaving) {
        tellLeaving(view, moment, *leaving);
    } else if (form == LightForm::Quick) {
        tellQuick(view, moment);
    } else {
        tellPlanned(view, moment);
        if (mind.hasTakenBack && view.dial)
            view.how =
                words("A knob that was turned already for the reading that was taken back stands there: "
                      "turn it no second time.");
    }
}

// ---- Presses -------------------------------------------------------------------------------------------

ActionView actionOf(const LightMoment& moment, const LightMind& mind)
{
    ActionView action;
    if (!moment.step) {
        action.waits = words("Nothing to read now");
        return action;
    }
    const bool isEnding = moment.isSettling() || moment.isThrough(mind);
    action.stepKey = moment.step->id.text() + (isEnding ? u"/end"_s : u"/read"_s);
    action.stand = ActionView::Stand::Ready;
    if (moment.leaving(mind)) {
        action.stepKey = moment.step->id.text() + u"/leave"_s;
        action.text = mind.leaving == LightMind::Leaving::Owed ? words("Knobs set, leave the rest")
                                                               : words("Knobs set, done");
        return action;
    }
    if (moment.isSettling() && moment.wait) {
        action.stand = ActionView::Stand::Waits;
        action.waits = words("Waits: %1").arg(moment.wait->number);
    } else if (moment.isSettling()) {
        action.text = words("Done");
    } else if (isEnding) {
        const bool setsKnobs =
            visit::knobsToSet(moment.light, moment.form(mind), *moment.step, moment.model).has_value();
        action.text = setsKnobs ? words("Knobs set, done") : words("Done");
    } else {
        action.text = moment.form(mind) == LightForm::Quick || moment.light.advice().moves.empty()
                          ? words("Read")
                          : words("Set and read");
    }
    return action;
}

void tellPresses(LightView& view, const LightMoment& moment, const LightMind& mind)
{
    const bool isLeaving = moment.leaving(mind).has_value();
    view.action = actionOf(moment, mind);
    view.isFinishing = moment.step && (moment.isSettling() || moment.isThrough(mind) || isLeaving);
    view.said = mind.said;
    view.boxTurn = mind.boxTurn;
    view.boxText = mind.boxText;
    view.fieldName = mind.putsRight >= 0 ? words("What the meter showed") : words("What the meter shows");
    view.canTakeBack = moment.light.mayTakeBack && moment.step;
    if (!moment.light.points.empty() && moment.step)
        view.putRight = mind.putsRight >= 0 ? words("Leave it") : words("Put right");
    const bool isSearch = moment.step && !moment.isSettling();
    const bool isQuick = moment.form(mind) == LightForm::Quick;
    if (isSearch && !view.isFinishing)
        view.finish = isQuick ? words("Done, as it is") : words("Enough, done");
    if (isSearch)
        view.form = isQuick ? words("By the plan") : words("By eye only");
    view.canOwe = moment.step && moment.step->mayFollow && !isLeaving;
    if (isLeaving) {
        view.finish = mind.leaving == LightMind::Leaving::Owed ? words("Leave as they stand")
                                                               : words("Done as they stand");
        view.form = words("Go on searching");
    }
}

} // namespace

bool LightMoment::isSettling() const
{
    return step && step->effect == Effect::Settle;
}

bool LightMoment::isThrough(const LightMind& mind) const
{
    return step && form(mind) == LightForm::Planned && light.form == LightForm::Planned &&
           visit::isThrough(light, *step, model);
}

std::optional<alignment::Advice> LightMoment::leaving(const LightMind& mind) const
{
    const bool isShown = mind.leaving != LightMind::Leaving::No && step && !isThrough(mind);
    return isShown && visit::knobsToSet(light, form(mind), *step, model)
               ? alignment::adviseLeaving(light.state)
               : std::nullopt;
}

LightView viewOf(const LightMoment& moment, const LightMind& mind)
{
    const LightForm form = moment.form(mind);
    LightView view;
    view.place = moment.place;
    view.makeSafeEnd = moment.makeSafeEnd;
    tellAxes(view, moment, form);
    tellLight(view, moment, form);
    tellScan(view, moment, form);
    tellTrace(view, moment);
    tellWhat(view, moment, mind);
    tellPresses(view, moment, mind);
    return view;
}

} // namespace coldarc::ui
