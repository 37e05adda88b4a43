// Figures of taking records in, each of a whole invented night with a picture and a review, into a workspace
// file; how long its page stands still meanwhile, and how often it is painted. Prints `record.name value
// unit`; an argument is a text that the wanted names contain.

#include "app/record_behind.h"
#include "core/store/workspace_file.h"
#include "tests/app/killed_intake.h"
#include "tests/app/many_records.h"
#include "tests/bench/painted.h"
#include "tests/bench/times.h"
#include "ui/parts/theme.h"
#include "ui/record/records_page.h"

#include <QApplication>
#include <QFile>
#include <QTemporaryDir>
#include <QThread>

#include <algorithm>
#include <cstdio>

using namespace Qt::StringLiterals;
using namespace coldarc;

namespace {

constexpr int kRecords = 3'000;
constexpr int kPart = 500;
constexpr int kShown = 1'000;
constexpr int kKilled = 1'000;
constexpr int kKills = 100;

bool isWanted(const QString& name)
{
    const QStringList arguments = QCoreApplication::arguments();
    return arguments.size() < 2 || name.contains(arguments.at(1));
}

void print(const char* name, double value, const char* unit)
{
    if (isWanted(QString::fromLatin1(name)))
        std::printf("%s %g %s\n", name, value, unit);
    std::fflush(stdout);
}

void write(const test::ManyRecords& made, int number, const QString& name)
{
    QFile file(name);
    if (!file.open(QIODevice::WriteOnly) || file.write(made.fileOf(number)) < 0)
        qFatal("no room for the records");
}

/// Milliseconds of each record.
std::vector<double> takeAll(const test::ManyRecords& made, const QTemporaryDir& folder,
                            app::RecordIntake& intake, record::Intake::Verdict wanted)
{
    std::vector<double> each;
    for (int number = 0; number < kRecords; ++number) {
        record::TakenRecord taken;
        each.push_back(bench::millisecondsOf([&] {
            taken = intake.takeFile(test::recordFileIn(folder.path(), number), made.engineer(), made.now());
        }));
        if (taken.intake.verdict != wanted || !taken.unread.isEmpty())
            qFatal("record %d: %s %s", number, qPrintable(taken.unread),
                   qPrintable(record::wordOf(taken.intake.why)));
    }
    return each;
}

void measureTaking()
{
    if (!isWanted(u"record.take_ms record.take_slowest_ms record.take_last_to_first record.take_there_ms"_s))
        return;
    const test::ManyRecords made;
    const QTemporaryDir folder;
    for (int number = 0; number < kRecords; ++number)
        write(made, number, test::recordFileIn(folder.path(), number));
    store::OpenAnswer opened =
        store::openWorkspace(folder.filePath(u"bench.coldarc"_s), {u"bench"_s, made.now().wall});
    made.believeIn(*opened.database);
    app::RecordIntake intake(*opened.database);
    const std::vector<double> each = takeAll(made, folder, intake, record::Intake::Verdict::Take);
    print("record.take_ms", bench::median(each), "ms");
    print("record.take_slowest_ms", *std::ranges::max_element(each), "ms");
    print("record.take_last_to_first",
          bench::median({each.end() - kPart, each.end()}) /
              bench::median({each.begin(), each.begin() + kPart}),
          "ratio");
    print("record.take_there_ms",
          bench::median(takeAll(made, folder, intake, record::Intake::Verdict::Nothing)), "ms");
}

/// Takes records in as somebody at the page does.
void measurePage()
{
    if (!isWanted(u"record.take_freeze_ms record.take_paints_per_s"_s))
        return;
    const test::ManyRecords made;
    const SystemClock clock;
    const QTemporaryDir folder;
    QStringList files;
    for (int number = 0; number < kShown; ++number) {
        files.append(test::recordFileIn(folder.path(), number));
        write(made, number, files.last());
    }
    store::OpenAnswer opened =
        store::openWorkspace(folder.filePath(u"bench.coldarc"_s), {u"bench"_s, made.now().wall});
    made.believeIn(*opened.database);
    app::RecordBehind behind(*opened.database, clock);
    record::IntakeStore intake(*opened.database);
    ui::RecordsPresenter presenter({[&](const QStringList& some, const ui::RecordDeeds::Taken& then) {
                                        behind.take(some, made.engineer(), then);
                                    },
                                    [](const Hash&) { return record::TakenRecord(); },
                                    [&] { return intake.waiting(); }, [](const Hash&) { return QString(); },
                                    [](const Hash&) { return Result<void>(); }});
    ui::RecordsPage page;
    QObject::connect(&presenter, &ui::RecordsPresenter::viewChanged, &page, &ui::RecordsPage::setView);
    page.resize(1366, 720);
    page.show();
    QApplication::processEvents();
    bench::Painted painted(*page.findChild<QWidget*>(u"progress"_s));
    double wall = 0;
    double work = 0;
    int paints = 0;
    const double begun = bench::monotonicMs();
    presenter.takeIn(files);
    while (!presenter.view().progress.isEmpty()) {
        const double before = bench::threadMs();
        wall = std::max(wall, bench::millisecondsOf([] { QApplication::processEvents(); }));
        work = std::max(work, bench::threadMs() - before);
        paints += painted.hasPainted() ? 1 : 0;
        QThread::usleep(200);
    }
    if (!presenter.view().outcome.startsWith(u"%L1 taken in"_s.arg(kShown)))
        qFatal("%s", qPrintable(presenter.view().outcome));
    std::fprintf(stderr, "longest turn %.1f ms, of which this thread worked at most %.1f ms\n", wall, work);
    print("record.take_freeze_ms", wall, "ms");
    print("record.take_paints_per_s", paints * 1e3 / (bench::monotonicMs() - begun), "paints");
}

void measureKills()
{
    if (!isWanted(u"record.kills record.kill_lost"_s))
        return;
    const auto times = test::killIntake(QStringLiteral(COLDARC_RECORD_TAKER), kKilled, kKills, 1126);
    if (times.broken != 0)
        qFatal("%s", qPrintable(times.firstTrouble));
    print("record.kills", times.kills, "kills");
    print("record.kill_lost", static_cast<double>(times.lost), "records");
}

} // namespace

int main(int argc, char** argv)
{
    QApplication application(argc, argv);
    ui::Theme theme(application);
    theme.apply(ui::ThemeKind::Booth);
    measureTaking();
    measurePage();
    measureKills();
    return 0;
}
