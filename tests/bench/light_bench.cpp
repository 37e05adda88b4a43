// Figure of the light page: how long it takes from the Enter behind a number until the charts with 500
// readings on them are painted, the durable entry included.

#include "core/alignment/test_lamp.h"
#include "core/store/workspace_file.h"
#include "core/visit/light_of_visit.h"
#include "core/visit/logbook.h"
#include "tests/bench/painted.h"
#include "tests/bench/times.h"
#include "tests/core/visit/night.h"
#include "ui/alignment/light_chart.h"
#include "ui/parts/theme.h"
#include "ui/visit/visit_page.h"

#include <QLineEdit>
#include <QTemporaryDir>
#include <QTest>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

using namespace Qt::StringLiterals;
using namespace coldarc;

namespace {

constexpr std::size_t kReadings = 500; // on the chart when the first one is timed
constexpr int kTimed = 200;
constexpr int kRounds = 3;

[[noreturn]] void stop(const char* why)
{
    std::fprintf(stderr, "light_bench: %s\n", why);
    std::exit(1);
}

/// A visit at the second search for the peak, in a workspace on the disk that the program lies on.
class Work {
public:
    Work()
        : m_folder(QCoreApplication::applicationDirPath() + u"/bench-XXXXXX"_s)
        , m_night(u"larkmoor-teal"_s)
    {
        m_night.doUntil(u"peak-again"_s);
        store::OpenAnswer opened = store::openWorkspace(m_folder.filePath(u"light.coldarc"_s),
                                                        {u"bench"_s, m_night.clock.now().wall});
        if (!opened.database)
            stop("the workspace cannot be opened");
        m_database = std::make_unique<store::Database>(std::move(*opened.database));
        m_journal = std::make_unique<store::Journal>(*m_database);
        m_summaries = std::make_unique<store::Summaries>(*m_database);
        const VisitId visit = m_night.opening().visit;
        for (qsizetype index = 0; index < m_night.entries.size(); ++index)
            if (!m_journal->append(visit, store::Sequence(index), visit::bytesOf(m_night.entries[index])))
                stop("an entry cannot be kept");
        auto read = visit::Logbook::read(*m_journal, *m_summaries, visit);
        if (!read)
            stop("the logbook cannot be read");
        m_logbook = std::make_unique<visit::Logbook>(std::move(*read));
        m_desk = std::make_unique<ui::VisitDesk>(*m_logbook, m_night.clock, m_night.ada(), QTimeZone::utc());
        m_room = std::make_unique<ui::VisitPage>(*m_desk, *qApp);
        m_room->resize(1366, 768);
        m_room->show();
        QApplication::setActiveWindow(m_room.get());
        m_room->bench().goOn();
        QApplication::processEvents();
        m_box = m_room->findChild<QLineEdit*>(u"reading"_s);
        if (!m_box || !m_box->isVisible())
            stop("the light page did not come up");
    }

    /// Types a reading where the plan wants the knobs, and presses Enter.
    void type()
    {
        m_night.clock.advance(std::chrono::seconds(15));
        const auto light = visit::lightOf(m_logbook->state(), m_logbook->state().swaps[0].id);
        for (const alignment::Move& move : light.advice().moves)
            m_lamp.turn(move);
        m_box->setText(QString::number(m_lamp.read(), 'f', 1));
    }
    void enter() { QTest::keyClick(m_box, Qt::Key_Return); }

    [[nodiscard]] std::size_t readings() const
    {
        return visit::lightOf(m_logbook->state(), m_logbook->state().swaps[0].id).points.size();
    }
    [[nodiscard]] const QWidget& chart() const { return *m_room->findChild<ui::TraceChart*>(); }

private:
    static alignment::LampNature nature()
    {
        alignment::LampNature nature = alignment::pinnedTestLamp();
        nature.axes = {{8, 1, 1, 0}, {4, 1, 1, 0}, {4, 1, 1, 0}}; // two steps of the model's axes
        return nature;
    }

    QTemporaryDir m_folder;
    test::Night m_night;
    alignment::SimulatedLight m_lamp{nature(), 5};
    std::unique_ptr<store::Database> m_database;
    std::unique_ptr<store::Journal> m_journal;
    std::unique_ptr<store::Summaries> m_summaries;
    std::unique_ptr<visit::Logbook> m_logbook;
    std::unique_ptr<ui::VisitDesk> m_desk;
    std::unique_ptr<ui::VisitPage> m_room;
    QLineEdit* m_box = nullptr;
};

/// Ascending.
std::vector<double> timeReadings()
{
    Work work;
    while (work.readings() < kReadings) {
        const std::size_t before = work.readings();
        work.type();
        work.enter();
        if (work.readings() == before)
            stop("a reading was not taken");
    }
    std::vector<double> times;
    bench::Painted painted(work.chart());
    for (int reading = 0; reading < kTimed; ++reading) {
        work.type();
        for (int turn = 0; turn < 20; ++turn)
            QApplication::processEvents();
        painted.forget();
        const std::size_t before = work.readings();
        const double begun = bench::monotonicMs();
        work.enter();
        const bool isSeen = painted.wait();
        const double took = bench::monotonicMs() - begun;
        if (!isSeen || work.readings() != before + 1)
            stop("a reading was not taken, or not painted");
        times.push_back(took);
    }
    std::ranges::sort(times);
    return times;
}

/// Of the round with the shortest one: whatever else the machine does only ever makes a reading longer.
void printKeyToPaint()
{
    std::vector<double> best;
    const auto p95 = [](const std::vector<double>& times) { return times[times.size() * 95 / 100]; };
    for (int round = 0; round < kRounds; ++round) {
        std::vector<double> times = timeReadings();
        if (best.empty() || p95(times) < p95(best))
            best = std::move(times);
    }
    std::printf("alignment.key_to_paint_ms %.1f ms\n", p95(best));
    std::fprintf(stderr, "  %zu readings, median %.1f ms, longest %.1f ms\n", best.size(),
                 best[best.size() / 2], best.back());
}

} // namespace

int main(int count, char** arguments)
{
    QApplication application(count, arguments);
    ui::Theme theme(application);
    theme.apply(ui::ThemeKind::Booth);
    const std::string wanted = count > 1 ? arguments[1] : "";
    if (std::string("alignment.key_to_paint_ms").find(wanted) != std::string::npos)
        printKeyToPaint();
    return 0;
}
