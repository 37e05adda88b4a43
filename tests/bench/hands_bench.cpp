// Figures of a swap at the keyboard, through the real pages: how many presses and characters it takes, and
// how long one press takes until the next step is painted, durable append included.

#include "app/walk_stage.h"
#include "core/label/key_burst.h"
#include "tests/bench/painted.h"
#include "tests/bench/times.h"
#include "ui/parts/theme.h"

#include <QTemporaryDir>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>
#include <vector>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using namespace coldarc;
using namespace coldarc::app;

namespace {

constexpr qint64 kEntries = 500; // already in the visit when the first press is timed
constexpr int kWalks = 5;

[[noreturn]] void stop(const QString& why)
{
    std::fprintf(stderr, "hands_bench: %s\n", qUtf8Printable(why));
    std::exit(1);
}

/// On the disk that the program itself lies on: an append is durable there or nowhere.
std::unique_ptr<WalkStage> stageIn(const QTemporaryDir& folder)
{
    const QString tree = QStringLiteral(COLDARC_SOURCE_DIR);
    auto stage = WalkStage::set(folder.filePath(u"walk.coldarc"_s),
                                {tree + u"/resources"_s, tree + u"/sample-data"_s});
    if (!stage)
        stop(stage.error().detail);
    return std::move(*stage);
}

double cpuMs()
{
    timespec time{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return 1e3 * static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_nsec);
}

QString folderName()
{
    return QCoreApplication::applicationDirPath() + u"/bench-XXXXXX"_s;
}

void printHands()
{
    const QTemporaryDir folder(folderName());
    const auto stage = stageIn(folder);
    Walker hands(stage->room(), stage->desk(), stage->clock(), {}, stage->lamps(), Walker::Refusals::None);
    if (!hands.walk() || !hands.trouble().isEmpty())
        stop(hands.trouble().join(u"; "_s));
    std::printf("visit.presses %d presses\n", hands.plain().presses);
    std::printf("visit.typed_chars %d chars\n", hands.plain().typed);
    std::printf("visit.typed_chars_in_zone %d chars\n",
                hands.plain().typedInGear + hands.light().typedInGear);
}

void printScanned()
{
    const QTemporaryDir folder(folderName());
    const auto stage = stageIn(folder);
    Walker hands(stage->room(), stage->desk(), stage->clock(), {}, stage->lamps(), Walker::Refusals::None,
                 Walker::Labels::Scanned);
    if (!hands.walk() || !hands.trouble().isEmpty())
        stop(hands.trouble().join(u"; "_s));
    std::printf("visit.typed_chars_scanned %d chars\n", hands.plain().typed);
}

/// What the presses of one walk took that each wrote an entry, in ascending order.
struct Presses {
    std::vector<double> wall; ///< ms, until the next step was painted
    std::vector<double> cpu;  ///< ms of this process
};

double p95(const std::vector<double>& times)
{
    return times[times.size() * 95 / 100];
}

Presses timePresses()
{
    const QTemporaryDir folder(folderName());
    const auto stage = stageIn(folder);
    const auto& state = stage->logbook().state();
    while (state.entries < kEntries)
        stage->desk().tell(visit::Noted{state.swaps[0].id, u"looked in again, nothing new"_s});
    Presses times;
    bench::Painted painted(stage->room());
    Walker hands(stage->room(), stage->desk(), stage->clock(), {}, stage->lamps(), Walker::Refusals::None);
    hands.setWatch([&](const std::function<void()>& press) {
        painted.forget();
        const qint64 before = state.entries;
        const double cpu = cpuMs();
        const double begun = bench::monotonicMs();
        press();
        // A figure may begin a scan: it is held for the gap, which is part of the time that the press takes.
        stage->clock().advance(label::BurstRule().gap + 1ms);
        const bool isSeen = painted.wait();
        if (state.entries <= before || !isSeen)
            return;
        times.wall.push_back(bench::monotonicMs() - begun);
        times.cpu.push_back(cpuMs() - cpu);
    });
    if (!hands.walk() || !hands.trouble().isEmpty())
        stop(hands.trouble().join(u"; "_s));
    std::ranges::sort(times.wall);
    std::ranges::sort(times.cpu);
    return times;
}

/// Of the walk with the shortest one: whatever else the machine does only ever makes a press longer.
void printPressToPaint()
{
    Presses best;
    for (int walk = 0; walk < kWalks; ++walk) {
        Presses times = timePresses();
        if (best.wall.empty() || p95(times.wall) < p95(best.wall))
            best = std::move(times);
    }
    std::printf("visit.press_to_paint_ms %.1f ms\n", p95(best.wall));
    std::fprintf(stderr, "  %zu presses, median %.1f ms, longest %.1f ms; p95 of processor time %.1f ms\n",
                 best.wall.size(), best.wall[best.wall.size() / 2], best.wall.back(), p95(best.cpu));
}

} // namespace

int main(int count, char** arguments)
{
    QApplication application(count, arguments);
    ui::Theme theme(application);
    theme.apply(ui::ThemeKind::Booth);
    const std::string wanted = count > 1 ? arguments[1] : "";
    const auto isWanted = [&](const char* name) {
        return std::string(name).find(wanted) != std::string::npos;
    };
    if (isWanted("visit.presses") || isWanted("visit.typed_chars") || isWanted("visit.typed_chars_in_zone"))
        printHands();
    if (isWanted("visit.typed_chars_scanned"))
        printScanned();
    if (isWanted("visit.press_to_paint_ms"))
        printPressToPaint();
    return 0;
}
