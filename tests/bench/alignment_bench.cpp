// Figures of core/alignment: an engineer who does whatever is advised, on the pinned test lamp and on harder
// ones, and what general optimisers make of the same lamp with the same number of readings.

#include "tests/core/alignment/driven_run.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <functional>
#include <limits>
#include <nlopt.hpp>
#include <string>
#include <utility>
#include <vector>

using namespace coldarc::alignment;
using namespace coldarc::test;

namespace {

constexpr int kRuns = 2000;
constexpr double kBoundHalfRanges =
    2; // either way of the start; the peak is at most 0.8 off, and moves a little
constexpr double kPercent = 100;

double quantileOf(std::vector<double> values, double p)
{
    const auto at = static_cast<std::ptrdiff_t>(p * static_cast<double>(values.size() - 1) + 0.5);
    std::ranges::nth_element(values, values.begin() + at);
    return values[static_cast<std::size_t>(at)];
}

SimulatedLight lampOf(const LampNature& nature, int run)
{
    return {nature, static_cast<std::uint64_t>(run) + 1};
}

// ---- Ours
// ----------------------------------------------------------------------------------------------------

struct Ours {
    std::vector<DrivenRun> runs;
    int stopped = 0;
    int broken = 0;
    int intervals = 0;
    int covered = 0;

    [[nodiscard]] double lossQuantile(double p) const
    {
        std::vector<double> losses;
        for (const DrivenRun& run : runs)
            losses.push_back(run.loss);
        return kPercent * quantileOf(losses, p);
    }
    [[nodiscard]] double readingsMedian() const
    {
        std::vector<double> readings;
        for (const DrivenRun& run : runs)
            readings.push_back(run.before + run.after);
        return quantileOf(readings, 0.5);
    }
};

/// Each interval as it was shown when its scan ended, against the peak at that scan's middle reading.
void countCover(const DrivenRun& run, Ours& ours)
{
    for (const ScanRecord& scan : run.state.done) {
        if (scan.verdict != ScanVerdict::Peak)
            continue;
        const std::size_t middle = scan.entries[settingsOf(scan.order).size() / 2];
        const double truth = run.bestKnob[middle] - scan.middle.count;
        ++ours.intervals;
        ours.covered += truth >= scan.vertex->low && truth <= scan.vertex->high ? 1 : 0;
    }
}

Ours ourRuns(const LampNature& nature, const RunSetup& setup, Hand hand)
{
    Ours ours;
    for (int run = 0; run < kRuns; ++run) {
        ours.runs.push_back(driveRun(setup, lampOf(nature, run), hand));
        const DrivenRun& driven = ours.runs.back();
        countCover(driven, ours);
        if (!driven.state.isWithinTarget())
            continue;
        ++ours.stopped;
        ours.broken += driven.loss > *driven.state.left ? 1 : 0;
    }
    return ours;
}

double share(int part, int whole)
{
    return whole > 0 ? kPercent * part / whole : std::numeric_limits<double>::quiet_NaN();
}

// ---- What is wanted
// ------------------------------------------------------------------------------------------

constexpr std::array kFigures = {"loss_p95_pct", "readings_median", "bound_broken_pct", "stopped_pct",
                                 "cover_pct"};

/// Prints the figures whose names contain the text given on the command line.
class Wanted {
public:
    explicit Wanted(std::string text)
        : m_text(std::move(text))
    {
    }
    [[nodiscard]] bool has(const std::string& name) const
    {
        return ("alignment." + name).find(m_text) != std::string::npos;
    }
    [[nodiscard]] bool hasAny(const std::string& suffix) const
    {
        return std::ranges::any_of(kFigures, [&](const char* figure) { return has(figure + suffix); });
    }
    void print(const std::string& name, double value, const char* unit) const
    {
        if (has(name))
            std::printf("alignment.%s %.4g %s\n", name.c_str(), value, unit);
    }
    void print(const Ours& ours, const std::string& suffix) const
    {
        print("loss_p95_pct" + suffix, ours.lossQuantile(0.95), "%");
        print("readings_median" + suffix, ours.readingsMedian(), "count");
        print("bound_broken_pct" + suffix, share(ours.broken, ours.stopped), "%");
        print("stopped_pct" + suffix, share(ours.stopped, kRuns), "%");
        print("cover_pct" + suffix, share(ours.covered, ours.intervals), "%");
    }

private:
    std::string m_text;
};

// ---- Rivals
// --------------------------------------------------------------------------------------------------

using Place = std::vector<double>; // in half ranges from the start

/// The lamp as an optimiser sees it: places in, minus the light out.
class Meter {
public:
    Meter(SimulatedLight& light, const LampNature& nature)
        : m_light(light)
        , m_nature(nature)
    {
    }

    void turnTo(const Place& place)
    {
        for (std::size_t i = 0; i < place.size(); ++i) {
            const double target = place[i] * m_nature.axes[i].halfRange;
            const int axis = static_cast<int>(i);
            m_light.turnTo(axis,
                           std::min(m_light.knob(axis), target - 2)); // comes forward to it, as ours does
            m_light.turnTo(axis, target);
        }
    }
    double operator()(const Place& place)
    {
        turnTo(place);
        return -m_light.read();
    }

private:
    SimulatedLight& m_light;
    const LampNature& m_nature;
};

/// Looks for the peak with so many readings; leaves its answer in `place`.
using Rival = std::function<void(Meter& meter, Place& place, int readings)>;

Rival nloptRival(nlopt::algorithm algorithm)
{
    return [algorithm](Meter& meter, Place& place, int readings) {
        nlopt::opt optimiser(algorithm, static_cast<unsigned>(place.size()));
        optimiser.set_min_objective(
            [](const Place& at, Place&, void* asked) { return (*static_cast<Meter*>(asked))(at); }, &meter);
        optimiser.set_lower_bounds(-kBoundHalfRanges);
        optimiser.set_upper_bounds(kBoundHalfRanges);
        optimiser.set_initial_step(0.5); // our step
        optimiser.set_maxeval(readings);
        double least = 0;
        try {
            optimiser.optimize(place, least);
        } catch (const nlopt::roundoff_limited&) {
            // `place` holds the best so far
        }
    };
}

void goldenAlong(Meter& meter, Place& place, std::size_t axis, int readings)
{
    const double golden = (std::sqrt(5.0) - 1) / 2;
    double low = std::max(-kBoundHalfRanges, place[axis] - 1); // as wide as our scans
    double high = std::min(kBoundHalfRanges, place[axis] + 1);
    const auto at = [&](double value) {
        Place there = place;
        there[axis] = value;
        return meter(there);
    };
    double left = high - golden * (high - low);
    double right = low + golden * (high - low);
    double atLeft = at(left);
    double atRight = at(right);
    for (int read = 2; read < readings; ++read) {
        if (atLeft < atRight) {
            high = std::exchange(right, left);
            atRight = atLeft;
            left = high - golden * (high - low);
            atLeft = at(left);
        } else {
            low = std::exchange(left, right);
            atLeft = atRight;
            right = low + golden * (high - low);
            atRight = at(right);
        }
    }
    place[axis] = atLeft < atRight ? left : right;
}

/// Axis by axis, in as many cycles as ours would have, the readings dealt out evenly.
void goldenSection(Meter& meter, Place& place, int readings)
{
    const int axes = static_cast<int>(place.size());
    const int cycles = std::max(1, readings / (5 * axes));
    const int scans = cycles * axes;
    for (int scan = 0; scan < scans; ++scan) {
        const int own = readings / scans + (scan < readings % scans ? 1 : 0);
        goldenAlong(meter, place, static_cast<std::size_t>(scan % axes), own);
    }
}

double rivalLoss95(const Rival& rival, const LampNature& nature, const std::vector<DrivenRun>& ours)
{
    std::vector<double> losses;
    for (int run = 0; run < kRuns; ++run) {
        const DrivenRun& own = ours[static_cast<std::size_t>(run)];
        SimulatedLight light = lampOf(nature, run);
        Meter meter(light, nature);
        Place place(nature.axes.size());
        rival(meter, place, own.before);
        meter.turnTo(place);
        light.settle();
        rival(meter, place, own.after);
        meter.turnTo(place);
        losses.push_back(light.loss());
    }
    return kPercent * quantileOf(losses, 0.95);
}

constexpr const char* kRatio = "best_rival_ratio";

std::vector<std::pair<std::string, Rival>> rivals()
{
    return {{"nelder_mead_loss_p95_pct", nloptRival(nlopt::LN_NELDERMEAD)},
            {"sbplx_loss_p95_pct", nloptRival(nlopt::LN_SBPLX)},
            {"bobyqa_loss_p95_pct", nloptRival(nlopt::LN_BOBYQA)},
            {"golden_loss_p95_pct", goldenSection}};
}

void compareRivals(const Wanted& wanted, const LampNature& nature, const Ours& ours)
{
    double least = std::numeric_limits<double>::infinity();
    for (const auto& [name, rival] : rivals()) {
        if (!wanted.has(name) && !wanted.has(kRatio))
            continue;
        const double loss = rivalLoss95(rival, nature, ours.runs);
        wanted.print(name, loss, "%");
        least = std::min(least, loss);
    }
    wanted.print(kRatio, least / ours.lossQuantile(0.95), "ratio");
}

// ---- Lamps
// ---------------------------------------------------------------------------------------------------

LampNature withNoise(double noise)
{
    LampNature nature = pinnedTestLamp();
    nature.noise = noise;
    return nature;
}

LampNature withBacklash()
{
    LampNature nature = pinnedTestLamp();
    for (AxisNature& axis : nature.axes)
        axis.backlash = 1; // an eighth of a turn
    return nature;
}

RunSetup suspecting(RunSetup setup)
{
    for (AxisSetup& axis : setup.axes)
        axis.backlashSuspected = true;
    return setup;
}

void measurePinned(const Wanted& wanted)
{
    const auto names = rivals();
    if (!wanted.hasAny("") && !wanted.has(kRatio) &&
        std::ranges::none_of(names, [&](const auto& rival) { return wanted.has(rival.first); }))
        return;
    const LampNature nature = pinnedTestLamp();
    const Ours ours = ourRuns(nature, setupFor(nature), Hand::AsTold);
    wanted.print(ours, "");
    compareRivals(wanted, nature, ours);
}

/// The same figures on harder lamps.
struct Harder {
    const char* suffix;
    LampNature nature;
    RunSetup setup;
    Hand hand = Hand::AsTold;
};

std::vector<Harder> harderLamps()
{
    const RunSetup setup = setupFor(pinnedTestLamp());
    return {{"_noise_0_5", withNoise(0.005), setup},
            {"_noise_2", withNoise(0.02), setup},
            {"_noise_3", withNoise(0.03), setup},
            {"_backlash", withBacklash(), setup},
            {"_backlash_straight", withBacklash(), setup, Hand::Straight}, // never comes forward to a setting
            {"_backlash_suspected", withBacklash(), suspecting(setup)},
            {"_skewed", skewedTestLamp(), setup}};
}

} // namespace

int main(int argc, char** argv)
{
    const Wanted wanted(argc > 1 ? argv[1] : "");
    measurePinned(wanted);
    for (const Harder& lamp : harderLamps())
        if (wanted.hasAny(lamp.suffix))
            wanted.print(ourRuns(lamp.nature, lamp.setup, lamp.hand), lamp.suffix);
    return 0;
}
