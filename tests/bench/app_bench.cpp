// Figures of the whole program on the demo workspace: its start until the Visits page is painted, against an
// empty Qt window that is started in the same way in turn with it, and the memory that it holds. Beside it
// stands what one line of text and an open workspace file cost by themselves. Each start is a process of its
// own, on the display that this one is given. Key derivation is made dear on purpose and is left out.

#include "app/demo.h"
#include "app/workbench.h"
#include "core/store/disk.h"
#include "tests/bench/painted.h"
#include "tests/bench/times.h"
#include "tests/support/fake_clock.h"
#include "ui/visit/bench_page.h"
#include "ui/visit/visits_page.h"

#include <QAbstractButton>
#include <QFile>
#include <QLineEdit>
#include <QProcess>
#include <QRegularExpression>
#include <QSettings>
#include <QTemporaryDir>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <string>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using namespace coldarc;
using namespace coldarc::app;

namespace {

constexpr int kRounds = 11;
constexpr people::GuessCost kCheap{1, 8};
constexpr const char* kAsChild = "--one-start";

[[noreturn]] void stop(const QString& why)
{
    std::fprintf(stderr, "app_bench: %s\n", qUtf8Printable(why));
    std::exit(1);
}

QString tree(const QString& folder)
{
    return QStringLiteral(COLDARC_SOURCE_DIR "/") + folder;
}

double residentMb()
{
    QFile status(u"/proc/self/status"_s);
    if (!status.open(QIODevice::ReadOnly))
        stop(u"/proc/self/status cannot be read"_s);
    static const QRegularExpression kLine(u"VmRSS:\\s+(\\d+) kB"_s);
    const auto found = kLine.match(QString::fromLatin1(status.readAll()));
    return found.captured(1).toDouble() / 1024;
}

/// One start of the program in this process, up to the demo's bench.
class Start {
public:
    explicit Start(const QString& workspace)
        : m_theme(*qApp)
    {
        m_theme.apply(ui::ThemeKind::Booth);
        store::OpenAnswer opened = store::openWorkspace(workspace, {u"bench"_s, m_clock.now().wall});
        if (!opened.database)
            stop(opened.detail);
        const ui::Behind behind = [this](const std::function<void()>& work,
                                         const std::function<void()>& then) {
            const double begun = bench::monotonicMs();
            work();
            m_derivation += bench::monotonicMs() - begun;
            then();
        };
        m_bench = std::make_unique<Workbench>(
            Outside{m_clock, m_ids, m_settings, m_theme, m_library, behind, kCheap}, std::move(opened));
        m_bench->window().resize(1366, 768);
        m_bench->window().show();
        settle();
    }
    void signIn()
    {
        const auto people = readDemoPeople(tree(u"sample-data"_s));
        if (!people)
            stop(people.error().detail);
        const DemoPerson& engineer = people->people.first();
        press(u"row-"_s + engineer.person.id.text());
        write(u"secret"_s, engineer.passphrase);
        press(u"action"_s);
        write(u"secret"_s, u"604193"_s);
        write(u"again"_s, u"604193"_s);
        pressFor<ui::VisitsPage>(u"action"_s);
    }
    void openTonight()
    {
        for (const auto* row :
             m_bench->window().findChildren<QAbstractButton*>(QRegularExpression(u"^row-plan:.*"_s))) {
            press(row->objectName());
            break;
        }
        press(u"action"_s);
        pressFor<ui::BenchPage>(u"action"_s);
    }
    [[nodiscard]] double derivation() const { return m_derivation; }

private:
    template<class Kind>
    [[nodiscard]] Kind& find(const QString& name)
    {
        for (Kind* one : m_bench->window().findChildren<Kind*>(name)) {
            if (one->isVisible())
                return *one;
        }
        stop(u"nothing of the name %1 is in sight"_s.arg(name));
    }
    /// Presses and waits until the page that this brings is painted.
    template<class Page>
    void pressFor(const QString& name)
    {
        find<QAbstractButton>(name).click();
        auto* page = m_bench->window().findChild<Page*>();
        if (!page || !page->isVisible())
            stop(u"the page did not come up"_s);
        bench::Painted painted(*page);
        if (!painted.wait())
            stop(u"the page was not painted"_s);
    }
    void press(const QString& name)
    {
        find<QAbstractButton>(name).click();
        settle();
    }
    void write(const QString& name, const QString& text)
    {
        find<QWidget>(name).findChild<QLineEdit*>()->setText(text);
    }
    /// A step just shown takes no press for a moment; nobody waits for it here.
    void settle()
    {
        m_clock.advance(1s);
        QApplication::processEvents();
    }

    test::FakeClock m_clock;
    test::CountingIds m_ids{u"bench-"_s};
    QTemporaryDir m_folder;
    QSettings m_settings{m_folder.filePath(u"settings.ini"_s), QSettings::IniFormat};
    ui::Theme m_theme;
    const Library m_library{tree(u"resources"_s)};
    double m_derivation = 0;
    std::unique_ptr<Workbench> m_bench;
};

int asChild(double begun, const QString& workspace)
{
    Start start(workspace);
    start.signIn();
    std::printf("%.3f\n", bench::monotonicMs() - begun - start.derivation());
    const double atVisits = residentMb();
    start.openTonight();
    std::printf("%.1f\n", std::max(atVisits, residentMb()));
    return 0;
}

/// The lines that a program prints, each a number.
QList<double> numbersOf(const QString& program, QStringList arguments, qsizetype place)
{
    QProcess process;
    process.setProcessChannelMode(QProcess::ForwardedErrorChannel);
    arguments.insert(place, QString::number(bench::monotonicMs(), 'f', 3));
    process.start(program, arguments);
    if (!process.waitForFinished(120'000) || process.exitCode() != 0)
        stop(u"%1 failed"_s.arg(program));
    QList<double> numbers;
    for (const QByteArray& line : process.readAllStandardOutput().trimmed().split('\n'))
        numbers.append(line.toDouble());
    return numbers;
}

QString makeDemoIn(const QTemporaryDir& folder)
{
    const test::FakeClock clock;
    test::CountingIds ids;
    const Library library(tree(u"resources"_s));
    const QString file = folder.filePath(u"demo.coldarc"_s);
    const auto made = makeDemo(file, {tree(u"sample-data"_s),
                                      {library.catalogue(), library.proved()},
                                      clock.now(),
                                      1,
                                      ids,
                                      people::SigningKey::generate,
                                      kCheap});
    if (!made)
        stop(made.error().detail);
    return file;
}

} // namespace

int main(int count, char** arguments)
{
    QApplication application(count, arguments);
    if (count > 3 && std::string(arguments[1]) == kAsChild)
        return asChild(std::strtod(arguments[2], nullptr), QString::fromLocal8Bit(arguments[3]));

    const std::string wanted = count > 1 ? arguments[1] : "";
    const auto isWanted = [&](const char* name) {
        return std::string(name).find(wanted) != std::string::npos;
    };
    if (!isWanted("app.start_ratio") && !isWanted("app.demo_rss_mb"))
        return 0;
    const QTemporaryDir folder;
    const QString demo = makeDemoIn(folder);
    double start = 1e9;
    double empty = 1e9;
    double text = 1e9;
    double resident = 0;
    for (int round = 0; round < kRounds; ++round) {
        const QString copy = folder.filePath(u"round-%1.coldarc"_s.arg(round));
        if (!QFile::copy(demo, copy) || !store::syncFile(copy)) // else the first start writes the copy, too
            stop(u"the demo could not be copied"_s);
        const QList<double> ours =
            numbersOf(QCoreApplication::applicationFilePath(), {QString::fromLatin1(kAsChild), copy}, 1);
        start = std::min(start, ours.value(0));
        resident = std::max(resident, ours.value(1));
        empty = std::min(empty, numbersOf(QStringLiteral(COLDARC_EMPTY_WINDOW), {}, 0).value(0));
        text = std::min(text, numbersOf(QStringLiteral(COLDARC_TEXT_WINDOW), {copy}, 0).value(0));
    }
    // The shortest of each: whatever else the machine does only ever makes a start longer.
    if (isWanted("app.start_ratio"))
        std::printf("app.start_ratio %.2f x\napp.start_ratio_of_one_line %.2f x\n", start / empty,
                    text / empty);
    if (isWanted("app.demo_rss_mb"))
        std::printf("app.demo_rss_mb %.0f MB\n", resident);
    std::fprintf(stderr, "  start %.0f ms, one line of text and a file open %.0f ms, empty window %.0f ms\n",
                 start, text, empty);
    return 0;
}
