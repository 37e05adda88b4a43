#include "core/alignment/plan.h"

#include "core/alignment/skew.h"

#include <QtGlobal>

#include <boost/math/distributions/normal.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace coldarc::alignment {

namespace {

constexpr int kMostScans = 4; // of one axis in one cycle
constexpr Eighths kLeastStep{2};
constexpr double kSkewByChance = 0.01;
constexpr double kShortByChance = 0.01;
constexpr std::size_t kScansBeforeOutliers = 2;
constexpr std::size_t kPair = 4;

std::size_t index(int axis)
{
    return static_cast<std::size_t>(axis);
}

int axisCount(const RunState& state)
{
    return static_cast<int>(state.setup.axes.size());
}

/// The play of a suspected screw is measured once, after the wait; from then on coming forward takes it up.
Order orderFor(const RunState& state, int axis)
{
    const bool isMeasured = std::ranges::any_of(state.done, [&](const ScanRecord& scan) {
        return scan.axis == axis && scan.cycle > 0 && scan.backlash && scan.verdict == ScanVerdict::Peak;
    });
    if (state.cycle > 0 && state.setup.axes[index(axis)].backlashSuspected && !isMeasured)
        return Order::UpAndBack9;
    return state.cycle % 2 == 0 ? Order::DriftProof5 : Order::DriftProof5Mirror;
}

void openScan(RunState& state, int axis, Eighths middle)
{
    ScanRecord scan;
    scan.axis = axis;
    scan.cycle = state.cycle;
    scan.order = orderFor(state, axis);
    scan.middle = middle;
    scan.step = state.steps[index(axis)];
    scan.knobs = state.wanted;
    scan.knobs[index(axis)] = middle;
    state.wanted[index(axis)] = middle + settingsOf(scan.order).front() * scan.step;
    state.scan = std::move(scan);
    state.again.reset();
}

/// Seconds on one clock; after a restart of the computer only the wall clock is left.
double secondsOf(const Stamp& stamp, const Stamp& first)
{
    const auto gone = stamp.boot == first.boot ? stamp.sinceBoot - first.sinceBoot
                                               : std::chrono::milliseconds(stamp.wall - first.wall);
    return std::chrono::duration<double>(gone).count();
}

// ---- Noise ------------------------------------------------------------------------------------------

/// Robust spread of the residuals of all scans done; 0 while there are too few to judge by.
double spreadOf(const RunState& state)
{
    std::vector<double> residuals;
    std::size_t scans = 0;
    for (const ScanRecord& scan : state.done) {
        if (!scan.fit)
            continue;
        ++scans;
        const std::vector<double> own = standardResiduals(*scan.fit);
        residuals.insert(residuals.end(), own.begin(), own.end());
    }
    return scans >= kScansBeforeOutliers ? robustSpread(residuals) : 0;
}

// ---- A reading joins the scan -----------------------------------------------------------------------

bool belongs(const ScanRecord& scan, const Reading& reading)
{
    if (reading.axis != scan.axis)
        return false;
    for (std::size_t i = 0; i < scan.knobs.size(); ++i)
        if (i != index(scan.axis) && reading.knobs[i] != scan.knobs[i])
            return false;
    return true;
}

void beginScanAt(RunState& state, const Reading& reading)
{
    const std::size_t axis = index(reading.axis);
    const bool isOtherAxis = reading.axis != state.scan.axis;
    state.wanted = reading.knobs;
    openScan(state, reading.axis, state.scan.middle);
    if (isOtherAxis)
        state.scan.middle = reading.knobs[axis] - settingsOf(state.scan.order).front() * state.scan.step;
    state.scan.knobs[axis] = state.scan.middle;
}

void addPoint(RunState& state, const Reading& reading)
{
    ScanRecord& scan = state.scan;
    const Eighths from = reading.knobs[index(scan.axis)] - scan.middle;
    if (scan.points.empty())
        scan.began = reading.stamp;
    scan.points.push_back(
        {static_cast<double>(from.count), reading.light, secondsOf(reading.stamp, scan.began)});
    scan.entries.push_back(state.entries);
}

// ---- Slips ------------------------------------------------------------------------------------------

void setAside(RunState& state, std::size_t point)
{
    const std::size_t entry = state.scan.entries[point];
    leaveOut(state.scan, point);
    state.leftOut.push_back(entry);
    std::erase_if(state.seen, [&](const BestSeen& one) { return one.entry == entry; });
    const auto best = std::ranges::max_element(state.seen, {}, &BestSeen::light);
    state.best = best == state.seen.end() ? std::nullopt : std::optional(*best);
}

/// After the place of a doubtful reading was read again: a reading that repeats is no slip.
void settleDoubt(RunState& state)
{
    ScanRecord& scan = state.scan;
    const std::size_t doubtful = *std::exchange(state.again, std::nullopt);
    scan.isRepeated = true;
    const double apart = std::log(scan.points.back().light / scan.points[doubtful].light);
    if (std::abs(apart) > kOutlierLimit * std::sqrt(2.0) * spreadOf(state))
        setAside(state, doubtful);
}

/// Whether one of the points has to be read again first. Not so going up and back, where a place read again
/// would be come upon from another side: there the doubtful reading is left out, and the play is measured
/// anew.
bool asksAgain(RunState& state)
{
    ScanRecord& scan = state.scan;
    const double spread = spreadOf(state);
    if (scan.isRepeated || spread <= 0)
        return false;
    ScanRecord tried = scan;
    const FitOutcome fit = fitRecord(tried, scatterSinceWait(state));
    const auto doubtful = fit ? outlierOf(*fit, spread) : std::nullopt;
    if (!doubtful)
        return false;
    if (scan.order == Order::UpAndBack9) {
        setAside(state, *doubtful);
        return false;
    }
    state.again = doubtful;
    const int from = static_cast<int>(scan.points[*doubtful].position);
    state.wanted[index(scan.axis)] = scan.middle + Eighths{from};
    return true;
}

// ---- A scan is whole, a cycle is whole --------------------------------------------------------------

bool isDone(const RunState& state, int axis)
{
    return std::ranges::any_of(state.done, [&](const ScanRecord& scan) {
        return scan.axis == axis && scan.cycle == state.cycle && isSet(scan);
    });
}

int scansOf(const RunState& state, int axis)
{
    return static_cast<int>(std::ranges::count_if(
        state.done, [&](const ScanRecord& scan) { return scan.axis == axis && scan.cycle == state.cycle; }));
}

/// Scatter of the scans of one axis at its present step, or of all the other axes.
Scatter scatterAt(const RunState& state, int axis)
{
    Scatter sum;
    for (const ScanRecord& scan : state.done)
        if (tellsNoise(scan) && scan.axis == axis && scan.step == state.steps[index(axis)])
            sum = sum + scan.fit->scatter;
    return sum;
}

Scatter scatterBut(const RunState& state, int axis)
{
    Scatter sum;
    for (const ScanRecord& scan : state.done)
        if (tellsNoise(scan) && scan.axis != axis)
            sum = sum + scan.fit->scatter;
    return sum;
}

const ScanRecord& lastScan(const RunState& state, int axis)
{
    return *std::find_if(state.done.rbegin(), state.done.rend(),
                         [&](const ScanRecord& scan) { return scan.axis == axis && isSet(scan); });
}

std::optional<Skew> skewAt(const RunState& state, int axis)
{
    std::vector<std::vector<ScanPoint>> scans;
    for (const ScanRecord& scan : state.done)
        if (tellsNoise(scan) && scan.axis == axis && scan.step == state.steps[index(axis)] && !scan.backlash)
            scans.push_back(scan.points);
    return skewOf(scans, scatterBut(state, axis));
}

void markSkewed(RunState& state, int axis, const std::optional<Skew>& skew)
{
    const Eighths step = state.steps[index(axis)];
    const ScanRecord& last = lastScan(state, axis);
    state.biases[index(axis)] =
        skew ? vertexBias(*skew, *last.fit, last.points) : static_cast<double>(step.count);
    for (ScanRecord& scan : state.done)
        if (scan.axis == axis && scan.step == step && scan.cycle > 0)
            scan.isSkewed = true;
}

/// The next scans of this axis are half as wide, which halves the bias of a peak with two different flanks
/// and does better on any smoother one.
void narrow(RunState& state, int axis)
{
    Eighths& step = state.steps[index(axis)];
    const Eighths narrower = std::max(kLeastStep, Eighths{step.count / 2});
    state.biases[index(axis)] *= static_cast<double>(narrower.count) / step.count;
    step = narrower;
}

/// Marks every axis whose peak is no parabola at the present width: it has a cubic part, or scatter that the
/// other axes do not have. All are judged before any is marked.
std::vector<int> markSkewed(RunState& state)
{
    std::vector<std::pair<int, std::optional<Skew>>> skewed;
    for (int axis = 0; axis < axisCount(state); ++axis) {
        const auto skew = skewAt(state, axis);
        if ((skew && skew->isSeen()) ||
            scattersMore(scatterAt(state, axis), withLastDigit(scatterBut(state, axis)), kSkewByChance))
            skewed.emplace_back(axis, skew);
    }
    std::vector<int> axes;
    for (const auto& [axis, skew] : skewed) {
        markSkewed(state, axis, skew);
        axes.push_back(axis);
    }
    return axes;
}

std::optional<double> leftAfterCycle(const RunState& state)
{
    std::vector<AxisStand> stands;
    const Scatter known = scatterSinceWait(state);
    for (int axis = 0; axis < axisCount(state); ++axis) {
        const ScanRecord& scan = lastScan(state, axis);
        const auto vertex = vertexOfRecord(scan, known);
        if (!vertex)
            return std::nullopt;
        stands.push_back({scan.fit->curvature, *vertex,
                          static_cast<double>((scan.setting - scan.middle).count),
                          static_cast<double>((scan.setting - state.cycleStart[index(axis)]).count),
                          state.biases[index(axis)]});
    }
    return leftToWin(stands);
}

void beginCycle(RunState& state)
{
    ++state.cycle;
    state.cycleStart = state.wanted;
    openScan(state, 0, state.wanted.front());
}

void endCycle(RunState& state)
{
    if (state.phase == Phase::BeforeWait) {
        state.phase = Phase::Waiting;
        return;
    }
    state.cycleEnd = state.wanted;
    const std::vector<int> skewed = markSkewed(state);
    state.left = leftAfterCycle(state); // of scans that were as wide as the bias is told for
    for (const int axis : skewed)
        narrow(state, axis);
    const bool isEnough = state.left && *state.left <= state.setup.target && skewed.empty();
    if (state.cycle < state.setup.leastCycles || (!isEnough && state.cycle < state.setup.mostCycles))
        beginCycle(state);
    else
        state.phase = Phase::Final;
}

void goOn(RunState& state)
{
    for (int axis = 0; axis < axisCount(state); ++axis) {
        if (!isDone(state, axis)) {
            openScan(state, axis, state.wanted[index(axis)]);
            return;
        }
    }
    endCycle(state);
}

void giveUp(RunState& state)
{
    state.phase = Phase::Stuck;
    state.left.reset(); // it was told of a peak that shows no more
}

void conclude(RunState& state)
{
    if (state.again)
        settleDoubt(state);
    else if (asksAgain(state))
        return;
    const Scatter others = scatterSinceWait(state);
    ScanRecord scan = std::move(state.scan);
    const FitOutcome fit = fitRecord(scan, others);
    if (fit)
        scan.fit = *fit;
    else
        scan.refusal = fit.error();
    if (state.phase == Phase::BeforeWait)
        judgeBeforeWait(scan);
    else
        judgeAfterWait(scan, others);

    const int axis = scan.axis;
    state.wanted[index(axis)] = scan.setting;
    if (scan.backlash)
        state.pasts[index(axis)] =
            std::max(state.setup.past, Eighths{static_cast<int>(std::ceil(scan.backlash->high))});
    if (scan.verdict == ScanVerdict::Widen)
        state.steps[index(axis)] = 2 * state.steps[index(axis)];
    const bool isAgain = !isSet(scan);
    state.done.push_back(std::move(scan));
    if (!isAgain)
        goOn(state);
    else if (scansOf(state, axis) < kMostScans)
        openScan(state, axis, state.wanted[index(axis)]);
    else
        giveUp(state);
}

void joinScan(RunState& state, const Reading& reading)
{
    if (!belongs(state.scan, reading))
        beginScanAt(state, reading);
    addPoint(state, reading);
    const ScanRecord& scan = state.scan;
    const std::span<const int> settings = settingsOf(scan.order);
    const std::size_t read = scan.points.size();
    if (scan.order == Order::UpAndBack9)
        state.loose[index(scan.axis)] = read > settings.size() / 2 + 1;
    if (read >= settings.size())
        conclude(state);
    else
        state.wanted[index(scan.axis)] = scan.middle + settings[read] * scan.step;
}

// ---- The last reading -------------------------------------------------------------------------------

/// How far one reading may stay under the largest of all, ln, before chance no longer explains it.
double shortByChance(const RunState& state)
{
    const Scatter known = withLastDigit(scatterSinceWait(state));
    double readings = 1;
    for (const ScanRecord& scan : state.done)
        if (scan.cycle > 0)
            readings += static_cast<double>(scan.points.size());
    const double normal = boost::math::quantile(boost::math::normal(), 1 - kShortByChance / readings);
    return normal * std::sqrt(2 * known.variance());
}

void judgeFinal(RunState& state, const Reading& reading)
{
    const bool isShort = state.best && std::log(state.best->light / reading.light) > shortByChance(state);
    state.phase = isShort ? Phase::Pairing : Phase::Done;
    state.cycleStart = state.wanted; // X, to come back to
}

void joinPair(RunState& state, const Reading& reading)
{
    state.pair.push_back(std::log(reading.light));
    const std::size_t read = state.pair.size();
    state.wanted = read == 1 || read == 2 ? state.best->knobs : state.cycleStart;
    if (read < kPair)
        return;
    const Scatter known = withLastDigit(scatterSinceWait(state));
    const double difference =
        pairedDifference(state.pair[0], state.pair[1], state.pair[2], state.pair[3]).difference;
    state.fellBack =
        difference + studentFactor(known.degreesOfFreedom, kConfidence) * std::sqrt(known.variance()) < 0;
    state.wanted = state.fellBack ? state.best->knobs : state.cycleStart;
    if (state.fellBack)
        state.left.reset(); // it was told of where the cycle had set the knobs
    state.phase = Phase::Done;
}

void keepBest(RunState& state, const Reading& reading)
{
    if (state.cycle == 0 || state.phase != Phase::AfterWait)
        return;
    state.seen.push_back({reading.light, reading.knobs, state.entries});
    if (!state.best || reading.light > state.best->light)
        state.best = state.seen.back();
}

void standAt(RunState& state, const Knobs& knobs)
{
    for (std::size_t i = 0; i < state.loose.size(); ++i)
        if (knobs[i] != state.knobs[i])
            state.loose[i] = false; // came upon forward; a way back is told by the scan
    state.knobs = knobs;
}

Move moveOf(const RunState& state, std::size_t axis)
{
    const Eighths by = state.wanted[axis] - state.knobs[axis];
    const bool isBack = by < Eighths{0};
    Move move{static_cast<int>(axis), isBack ? Direction::Back : Direction::Forward,
              isBack ? Eighths{-by.count} : by, Eighths{0}};
    const bool isWayBack = state.scan.axis == move.axis && state.scan.order == Order::UpAndBack9 &&
                           !state.scan.points.empty() && !state.again && isBack;
    const bool leavesPlay = state.loose[axis] && move.turn < state.pasts[axis];
    if ((isBack && !isWayBack) || (!isBack && leavesPlay))
        move.past = state.pasts[axis];
    return move;
}

Advice::Kind kindOf(const RunState& state)
{
    switch (state.phase) {
    case Phase::BeforeWait:
    case Phase::AfterWait:
        return state.again ? Advice::Kind::ReadAgain : Advice::Kind::Read;
    case Phase::Final:
    case Phase::Pairing:
        return Advice::Kind::Read;
    case Phase::Waiting:
        return Advice::Kind::Wait;
    case Phase::Done:
        return Advice::Kind::Stop;
    case Phase::Stuck:
        return Advice::Kind::Stuck;
    }
    Q_UNREACHABLE();
}

} // namespace

bool RunState::isWithinTarget() const
{
    return !notYet(*this);
}

std::optional<NotYet> notYet(const RunState& state)
{
    const bool showsSkew = std::ranges::any_of(
        state.done, [&](const ScanRecord& one) { return one.isSkewed && one.cycle == state.cycle; });
    if (state.phase == Phase::Stuck)
        return NotYet::NoPeak;
    if (state.fellBack)
        return NotYet::FellBack;
    if (wholeCycles(state) < state.setup.leastCycles)
        return NotYet::TooFewCycles;
    if (!state.left)
        return NotYet::NoInterval;
    if (showsSkew)
        return NotYet::Skewed;
    if (*state.left > state.setup.target)
        return NotYet::TooMuchLeft;
    return state.phase == Phase::Done ? std::nullopt : std::optional(NotYet::NotRead);
}

int wholeCycles(const RunState& state)
{
    const bool isInCycle = state.phase == Phase::AfterWait || state.phase == Phase::Stuck;
    return isInCycle ? state.cycle - 1 : state.cycle;
}

Scatter scatterSinceWait(const RunState& state)
{
    return scatterBut(state, -1);
}

RunState beginRun(RunSetup setup)
{
    Q_ASSERT_X(!setup.axes.empty(), "beginRun", "a lamp without knobs cannot be moved");
    RunState state;
    for (const AxisSetup& axis : setup.axes) {
        state.pasts.push_back(axis.backlashSuspected ? std::max(setup.past, axis.step) : setup.past);
        Q_ASSERT_X(axis.step >= kLeastStep, "beginRun", "the step is too small to be halved");
        state.steps.push_back(axis.step);
    }
    state.setup = std::move(setup);
    state.biases.resize(state.steps.size());
    state.knobs.resize(state.steps.size());
    state.wanted.resize(state.steps.size());
    state.loose.resize(state.steps.size());
    openScan(state, 0, Eighths{0});
    return state;
}

RunState evolve(RunState state, const Reading& reading)
{
    standAt(state, reading.knobs);
    keepBest(state, reading);
    switch (state.phase) {
    case Phase::BeforeWait:
    case Phase::AfterWait:
        joinScan(state, reading);
        break;
    case Phase::Final:
        judgeFinal(state, reading);
        break;
    case Phase::Pairing:
        joinPair(state, reading);
        break;
    case Phase::Waiting:
    case Phase::Done:
    case Phase::Stuck:
        break; // kept in the run, for the chart against time
    }
    ++state.entries;
    return state;
}

RunState evolve(RunState state, const SettleWaitOver& over)
{
    ++state.entries;
    state.phase = Phase::AfterWait;
    if (!isDone(state, state.scan.axis))
        state.wanted[index(state.scan.axis)] = state.scan.middle; // a scan that the wait broke off
    standAt(state, over.knobs);
    beginCycle(state);
    return state;
}

RunState evolve(RunState state, const KnobsSet& set)
{
    ++state.entries;
    standAt(state, set.knobs);
    return state;
}

RunState foldRun(const LightRun& run)
{
    std::vector<RunEntry> entries = run.entries;
    for (const RunEntry& entry : run.entries)
        if (const auto* correction = std::get_if<Correction>(&entry))
            std::get<Reading>(entries[correction->entry]).light = correction->light;
    RunState state = beginRun(run.setup);
    for (const RunEntry& entry : entries) {
        if (const auto* reading = std::get_if<Reading>(&entry))
            state = evolve(std::move(state), *reading);
        else if (const auto* over = std::get_if<SettleWaitOver>(&entry))
            state = evolve(std::move(state), *over);
        else if (const auto* set = std::get_if<KnobsSet>(&entry))
            state = evolve(std::move(state), *set);
        else
            ++state.entries; // a correction: done above
    }
    return state;
}

Advice advise(const RunState& state)
{
    Advice advice;
    advice.kind = kindOf(state);
    advice.knobs = state.wanted;
    advice.axis = state.scan.axis;
    for (std::size_t axis = 0; axis < state.wanted.size(); ++axis)
        if (state.wanted[axis] != state.knobs[axis])
            advice.moves.push_back(moveOf(state, axis));
    std::stable_partition(advice.moves.begin(), advice.moves.end(),
                          [&](const Move& move) { return move.axis != advice.axis; });
    if (state.phase == Phase::BeforeWait || state.phase == Phase::AfterWait) {
        advice.ofReadings = static_cast<int>(settingsOf(state.scan.order).size());
        advice.reading = static_cast<int>(state.scan.points.size()) + 1;
    }
    return advice;
}

std::optional<Advice> adviseLeaving(RunState state)
{
    if (state.phase == Phase::Done || state.cycleEnd.empty() || state.standsAtCycleEnd())
        return std::nullopt;
    state.phase = Phase::Done;
    state.wanted = state.cycleEnd;
    state.scan.points.clear(); // no place is come upon on a way back
    return advise(state);
}

} // namespace coldarc::alignment
