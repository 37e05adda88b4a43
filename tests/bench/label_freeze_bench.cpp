#include "app/visit_room.h"
#include "app/workspace.h"
#include "core/store/pictures.h"
#include "core/store/workspace_file.h"
#include "tests/app/label_pictures.h"
#include "tests/bench/times.h"
#include "tests/core/visit/night.h"
#include "ui/parts/theme.h"
#include "ui/people/key_ring.h"
#include "ui/visit/book_in_page.h"

#include <QApplication>
#include <QDropEvent>
#include <QFile>
#include <QLabel>
#include <QMimeData>
#include <QTemporaryDir>
#include <QThread>
#include <QUrl>

#include <algorithm>
#include <array>
#include <cstdio>

// How long the window stands still at most while a photo of 12 megapixels is dropped on the book-in card,
// looked at, its code picked, the picture kept and the step done: on a workspace on the disk that holds many
// visits.

namespace {

using namespace Qt::StringLiterals;
using namespace coldarc;

constexpr int kVisits = 100;
constexpr std::array<std::uint32_t, 5> kSeeds{0, 3, 4, 0, 3}; // photos in which the code is found
constexpr double kLongestLook = 60'000;                       // ms

[[noreturn]] void stop(const char* why)
{
    std::fprintf(stderr, "label.longest_freeze_ms: %s\n", why);
    std::exit(1);
}

/// The longest turn of the event loop, by the wall clock and by this thread's own work.
struct Turns {
    double wall = 0;
    double work = 0;

    void of(const std::function<void()>& deed)
    {
        const double before = bench::threadMs();
        wall = std::max(wall, bench::millisecondsOf(deed));
        work = std::max(work, bench::threadMs() - before);
    }
    void turnUntil(const char* what, const std::function<bool()>& isReached)
    {
        const double begun = bench::monotonicMs();
        while (!isReached()) {
            if (bench::monotonicMs() - begun > kLongestLook)
                stop(what);
            of([] { QCoreApplication::processEvents(); });
            QThread::usleep(200);
        }
    }
};

/// A workspace with many visits, and one of them at the match of the box.
class Stage {
public:
    explicit Stage(const QString& file)
        : m_workspace(opened(file, m_night.clock))
    {
        m_night.doUntil(u"match-box"_s);
        keep(m_night.opening().visit);
        (void)m_workspace.database.transaction([&]() -> Result<void> {
            for (int visit = 0; visit < kVisits; ++visit)
                keep(VisitId(u"other %1"_s.arg(visit)));
            return {};
        });
        auto logbook =
            visit::Logbook::read(m_workspace.journal, m_workspace.summaries, m_night.opening().visit);
        if (!logbook)
            stop("the logbook cannot be read");
        m_room = std::make_unique<app::VisitRoom>(
            std::move(*logbook), m_workspace,
            ui::PeopleTools{&m_ring, [] { return QList<visit::PersonFacts>(); }}, m_night.clock,
            m_night.ada(), false);
        m_room->resize(1366, 720);
        m_room->show();
        Q_EMIT m_room->page().bench().bookInWanted();
        m_page = m_room->findChild<ui::BookInPage*>();
    }

    [[nodiscard]] Turns run(const QString& photo)
    {
        Turns turns;
        turns.turnUntil("the page", [settled = 0]() mutable { return ++settled > 50; });
        turns = {}; // the page has been painted
        QMimeData brought;
        brought.setUrls({QUrl::fromLocalFile(photo)});
        QDragEnterEvent enter({200, 200}, Qt::CopyAction, &brought, Qt::LeftButton, Qt::NoModifier);
        turns.of([&] { QCoreApplication::sendEvent(m_page, &enter); });
        QDropEvent drop({200, 200}, Qt::CopyAction, &brought, Qt::LeftButton, Qt::NoModifier);
        const auto says = [&] { return m_room->findChild<QLabel*>(u"pictureSays"_s)->text(); };
        const QString before = says();
        turns.of([&] { QCoreApplication::sendEvent(m_page, &drop); });
        turns.turnUntil("the picture was not looked at", [&] { return says() != before; });
        const QString looking = says();
        turns.turnUntil("the picture was not looked at to its end", [&] { return says() != looking; });
        if (!m_room->findChild<QWidget*>(u"code-0"_s))
            stop(qUtf8Printable(says()));
        turns.of([&] { Q_EMIT m_page->codePicked(0); });
        turns.turnUntil("the code was not taken",
                        [&] { return !m_page->view().columns.first().serial.text.isEmpty(); });
        turns.of([&] { Q_EMIT m_page->doneRequested(); });
        turns.turnUntil("the page", [settled = 0]() mutable { return ++settled > 50; });
        const auto kept = store::Pictures(m_workspace.database).hashes();
        if (!kept || kept->size() != 1)
            stop("the picture was not kept");
        return turns;
    }

private:
    static store::Database opened(const QString& file, const Clock& clock)
    {
        store::OpenAnswer answer = store::openWorkspace(file, {u"bench"_s, clock.now().wall});
        if (!answer.database)
            stop("no workspace");
        return std::move(*answer.database);
    }
    void keep(const VisitId& visit)
    {
        for (qsizetype at = 0; at < m_night.entries.size(); ++at)
            (void)m_workspace.journal.append(visit, store::Sequence(at), visit::bytesOf(m_night.entries[at]));
    }

    test::Night m_night{u"larkmoor-teal"_s, test::Night::Crew::Alone, {}, u"hollin-30b"_s};
    app::Workspace m_workspace;
    ui::SessionKeeper m_keeper{m_night.clock, ui::inPlace()};
    ui::KeyRing m_ring{m_workspace.keys, m_keeper, m_night.clock, ui::inPlace()};
    std::unique_ptr<app::VisitRoom> m_room;
    ui::BookInPage* m_page = nullptr;
};

} // namespace

int main(int count, char** arguments)
{
    QApplication application(count, arguments);
    const std::string figure = "label.longest_freeze_ms";
    if (count > 1 && figure.find(arguments[1]) == std::string::npos)
        return 0;
    ui::Theme theme(application);
    theme.apply(ui::ThemeKind::Booth);
    const QTemporaryDir folder;
    std::vector<Turns> all;
    for (const std::uint32_t seed : kSeeds) {
        const QString name = folder.filePath(QString::number(all.size()));
        QFile file(name + u".jpg"_s);
        const QByteArray photo = test::photoOf(u"TYPE: HVQ30-40B\nS/N: NEW000001"_s, seed);
        if (!file.open(QIODevice::WriteOnly) || file.write(photo) != photo.size())
            stop("no photo");
        file.close();
        all.push_back(Stage(name + u".coldarc"_s).run(file.fileName()));
    }
    // Whatever else the machine does only ever makes a turn longer.
    const auto best = std::ranges::min_element(all, {}, &Turns::wall);
    std::printf("%s %.1f ms\n", figure.c_str(), best->wall);
    for (const Turns& turns : all)
        std::fprintf(stderr, "  longest turn %.1f ms, of which this thread worked at most %.1f ms\n",
                     turns.wall, turns.work);
    return 0;
}
