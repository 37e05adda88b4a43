#include "app/demo.h"
#include "app/demo_data.h"
#include "app/visit_room.h"
#include "app/walker.h"
#include "app/workbench.h"
#include "core/store/workspace_file.h"
#include "ui/parts/theme.h"
#include "ui/people/lock_overlay.h"

#include <QAbstractButton>
#include <QApplication>
#include <QDir>
#include <QFile>
#include <QLineEdit>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>

#include <algorithm>
#include <array>
#include <cstdio>
#include <memory>
#include <utility>

// Goes through every page of the program on the demo, both themes and both sizes, and leaves pictures for
// people to look at:
//   QT_QPA_PLATFORM=offscreen coldarc_pages <folder>

namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using namespace coldarc;

constexpr WallTime kEvening{std::chrono::milliseconds(1'798'140'000'000)}; // 2026-12-24 19:20 UTC
constexpr people::GuessCost kCheap{1,
                                   8}; // no secret is kept by these seals: the demo's stand on its first page
const auto kPin = u"604193"_s;

struct Look {
    ui::ThemeKind theme;
    QSize size;
    QString name;
};

/// One workbench, and hands that go through its pages by name.
class Tour {
public:
    Tour(const Look& look, ui::Theme& theme, const app::Library& library, const QString& workspace,
         const QString& folder)
        : m_settings(m_scratch.filePath(u"settings.ini"_s), QSettings::IniFormat)
        , m_folder(QDir(folder).filePath(look.name))
        , m_theme(theme)
        , m_library(library)
    {
        QDir().mkpath(m_folder.path());
        store::OpenAnswer opened = store::openWorkspace(workspace, {u"tour"_s, m_clock.now().wall});
        if (!opened.database)
            qFatal("%s", qUtf8Printable(opened.detail));
        m_bench = std::make_unique<app::Workbench>(
            app::Outside{m_clock, m_ids, m_settings, m_theme, m_library, ui::inPlace(), kCheap},
            std::move(opened));
        theme.apply(look.theme);
        window().resize(look.size);
        window().show();
        window().activateWindow();
        QApplication::setActiveWindow(&window());
        settle();
    }

    [[nodiscard]] app::Workbench& bench() { return *m_bench; }
    void press(const QString& name)
    {
        if (auto* button = find<QAbstractButton>(name))
            button->click();
        settle();
    }
    void pressFirstIn(const QString& list)
    {
        auto* whole = find<QWidget>(list);
        if (auto* button = whole ? whole->findChild<QAbstractButton*>() : nullptr)
            button->click();
        settle();
    }
    void key(Qt::Key key)
    {
        QWidget* focus = QApplication::focusWidget();
        QTest::keyClick(focus && window().isAncestorOf(focus) ? focus : &window(), key);
        settle();
    }
    void type(const QString& field, const QString& text)
    {
        auto* whole = find<QWidget>(field);
        if (auto* box = whole ? whole->findChild<QLineEdit*>() : nullptr) {
            box->setFocus();
            QTest::keyClicks(box, text);
        }
        settle();
    }
    void paste(const QString& field, const QString& text)
    {
        auto* whole = find<QWidget>(field);
        if (auto* box = whole ? whole->findChild<QLineEdit*>() : nullptr)
            box->setText(text);
        settle();
    }
    void picture(const QString& name)
    {
        settle();
        window().grab().save(
            m_folder.filePath(u"%1-%2.png"_s.arg(++m_taken, 2, 10, QLatin1Char('0')).arg(name)));
    }
    /// Picture of what a key brings up over the bench, and back.
    void pictureBehind(Qt::Key behind, const QString& name)
    {
        key(behind);
        picture(name);
        key(Qt::Key_Escape);
    }
    void walk(const QString& name, QList<app::Walker::NewLamp> lamps)
    {
        const QString folder = m_folder.filePath(name);
        QDir().mkpath(folder);
        app::VisitRoom* room = m_bench->visitRoom();
        if (!room)
            return;
        app::Walker walker(room->page(), room->desk(), m_clock, folder, std::move(lamps));
        bool isDone = walker.walk();
        while (!isDone && unlock()) // nobody presses for as long as a lamp takes to cool
            isDone = walker.walk();
        if (!isDone)
            std::fprintf(stderr, "%s: %s\n", qUtf8Printable(folder),
                         qUtf8Printable(walker.trouble().join(u"; "_s)));
    }

private:
    [[nodiscard]] QWidget& window() { return m_bench->window(); }
    template<class Kind>
    [[nodiscard]] Kind* find(const QString& name)
    {
        for (Kind* one : window().findChildren<Kind*>(name)) {
            if (one->isVisible())
                return one;
        }
        std::fprintf(stderr, "not in sight: %s\n", qUtf8Printable(name));
        return nullptr;
    }
    /// The PIN of whoever is signed in. False where nothing is locked.
    bool unlock()
    {
        auto* overlay = window().findChild<ui::LockOverlay*>();
        if (!overlay || !overlay->isVisible())
            return false;
        Q_EMIT overlay->pinGiven(kPin);
        settle();
        return !overlay->isVisible();
    }
    void settle()
    {
        m_clock.advance(1s);
        QApplication::sendPostedEvents();
        for (int count = 0; count < 3; ++count)
            QApplication::processEvents();
    }

    QTemporaryDir m_scratch;
    QSettings m_settings;
    app::WalkClock m_clock{kEvening};
    RandomIds m_ids;
    QDir m_folder;
    ui::Theme& m_theme;
    const app::Library& m_library;
    std::unique_ptr<app::Workbench> m_bench;
    int m_taken = 0;
};

void signIn(Tour& tour, const app::DemoPerson& engineer)
{
    tour.picture(u"sign-in"_s);
    tour.press(u"row-"_s + engineer.person.id.text());
    tour.picture(u"passphrase"_s);
    tour.type(u"secret"_s, engineer.passphrase);
    tour.press(u"action"_s);
    tour.picture(u"pin"_s);
    tour.type(u"secret"_s, kPin);
    tour.type(u"again"_s, kPin);
    tour.press(u"action"_s);
}

void lookAtPlaces(Tour& tour)
{
    for (const QString& place : {u"people"_s, u"sites"_s, u"stock"_s, u"workspace"_s}) {
        tour.press(u"place-"_s + place);
        tour.picture(place);
    }
    tour.press(u"place-labels"_s);
    tour.picture(u"codes"_s);
    tour.paste(u"pasted"_s, u"]C0ORDER 77120/00417"_s);
    tour.press(u"take"_s);
    tour.picture(u"codes-one-in-hand"_s);
    tour.press(u"scanner"_s);
    tour.picture(u"scanner"_s);
    tour.key(Qt::Key_Escape);
    tour.press(u"place-histories"_s);
    for (const QString& about : {u"lamphouse"_s, u"person"_s, u"lamp"_s}) {
        tour.press(u"choice-"_s + about);
        tour.pressFirstIn(u"found"_s);
        tour.picture(u"history-of-a-"_s + about);
    }
    tour.press(u"place-visits"_s);
}

void lookAtBench(Tour& tour)
{
    tour.picture(u"bench"_s);
    tour.key(Qt::Key_PageDown);
    tour.picture(u"bench-pressed"_s);
    tour.pictureBehind(Qt::Key_F9, u"what-happened"_s);
    tour.pictureBehind(Qt::Key_F10, u"who-is-here"_s);
    tour.pictureBehind(Qt::Key_F11, u"what-was-done"_s);
    tour.pictureBehind(Qt::Key_F12, u"make-safe"_s);
}

/// Tonight's two swaps, by every page around them.
void goTonight(Tour& tour)
{
    tour.picture(u"visits"_s);
    lookAtPlaces(tour);
    tour.press(u"action"_s); // the visit that is planned for tonight
    tour.picture(u"new-visit"_s);
    tour.press(u"action"_s);
    lookAtBench(tour);
    tour.walk(u"two-swaps"_s, {{u"HVQ30-40B"_s, u"HB-228714"_s}, {u"HVQ30-408"_s, u"HS-35112"_s}});
}

/// The supervisor's desk: the first visit, further down, another one, what is looked for, sent back.
void goToDesk(Tour& tour)
{
    tour.press(u"place-review"_s);
    tour.picture(u"review"_s);
    tour.key(Qt::Key_N);
    tour.picture(u"review-next"_s);
    tour.key(Qt::Key_R);
    tour.picture(u"review-remark"_s);
    tour.key(Qt::Key_Escape);
    tour.key(Qt::Key_F);
    tour.picture(u"review-filter"_s);
    tour.key(Qt::Key_Escape);
}

/// A projector with two lamphouses.
void goToPair(Tour& tour)
{
    tour.press(u"newVisit"_s);
    tour.picture(u"which-site"_s);
    tour.press(u"row-corn-exchange"_s);
    tour.press(u"tick-corn-exchange-1-left"_s);
    tour.picture(u"new-visit-two-lamphouses"_s);
    tour.press(u"action"_s);
    lookAtBench(tour);
    tour.walk(u"two-lamphouses"_s, {{u"TWA-K65R5"_s, u"TK6-09046"_s}});
}

} // namespace

int main(int argc, char** argv)
{
    QApplication application(argc, argv);
    if (argc != 2) {
        std::fputs("usage: coldarc_pages <folder>\n", stderr);
        return 2;
    }
    const QString folder = QString::fromLocal8Bit(argv[1]);
    const QString source = QString::fromUtf8(COLDARC_SOURCE_DIR);
    const app::Library library(QDir(source).filePath(u"resources"_s));
    const auto demo = app::readDemoData(QDir(source).filePath(u"sample-data"_s));
    QTemporaryDir scratch;
    const QString made = scratch.filePath(u"demo.coldarc"_s);
    RandomIds ids;
    const app::WalkClock evening(kEvening);
    const auto isMade = app::makeDemo(made, {QDir(source).filePath(u"sample-data"_s),
                                             {library.catalogue(), library.proved()},
                                             evening.now(),
                                             1,
                                             ids,
                                             people::SigningKey::generate,
                                             kCheap});
    if (!demo || !isMade)
        qFatal("the demo could not be made");
    ui::Theme theme(application);
    const std::array looks{Look{ui::ThemeKind::Booth, {1366, 768}, u"booth-1366"_s},
                           Look{ui::ThemeKind::Booth, {1920, 1080}, u"booth-1920"_s},
                           Look{ui::ThemeKind::Office, {1366, 768}, u"office-1366"_s},
                           Look{ui::ThemeKind::Office, {1920, 1080}, u"office-1920"_s}};
    for (const Look& look : looks) {
        const QString empty = scratch.filePath(look.name + u"-empty.coldarc"_s);
        Tour start(look, theme, library, empty, QDir(folder).filePath(u"start"_s));
        start.picture(u"start-here"_s);
        const auto tourOf = [&](const QString& name, void (*go)(Tour&), const app::DemoPerson& who) {
            const QString workspace = scratch.filePath(u"%1-%2.coldarc"_s.arg(look.name, name));
            QFile::copy(made, workspace);
            Tour tour(look, theme, library, workspace, QDir(folder).filePath(name));
            signIn(tour, who);
            go(tour);
        };
        const auto& everybody = demo->people.people;
        tourOf(u"tonight"_s, goTonight, everybody.first());
        tourOf(u"pair"_s, goToPair, everybody.first());
        const auto supervisor = std::ranges::find_if(everybody, [](const app::DemoPerson& one) {
            return one.person.role == people::Role::Supervisor;
        });
        if (supervisor != everybody.end())
            tourOf(u"desk"_s, goToDesk, *supervisor);
    }
    return 0;
}
