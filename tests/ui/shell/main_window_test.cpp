#include "ui/shell/main_window.h"

#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"
#include "ui/parts/row_list.h"
#include "ui/parts/theme.h"

#include <QApplication>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScreen>
#include <QSettings>
#include <QShortcut>
#include <QTemporaryDir>
#include <QTest>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::test {
namespace {

using namespace ui;

class MainWindowTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        shell.addPlace({u"visits"_s, u"Visits"_s, u"Ctrl+1"_s, {people::Role::Engineer}});
        shell.addPlace({u"sites"_s, u"Sites"_s, u"Ctrl+2"_s, {people::Role::Engineer}});
        QObject::connect(&window, &MainWindow::placeChosen, &shell, &ShellPresenter::go);
        window.addPage(u"visits"_s, visits);
        window.addPage(u"sites"_s, sites);
        people::Person ada;
        ada.id = PersonId(u"ada"_s);
        ada.name = u"A. Okoro"_s;
        ada.role = people::Role::Engineer;
        keeper.begin(ada, people::Session(ada.id, people::SigningKey::generate(), clock.now(), {1, 8}));
        keeper.setPin(*people::Pin::accept(u"604193"_s));
        shell.showWork();
        window.show();
        QApplication::processEvents();
        qApp->installEventFilter(&window);
    }

    QTemporaryDir folder;
    QSettings settings{folder.filePath(u"s.ini"_s), QSettings::IniFormat};
    FakeClock clock;
    SessionKeeper keeper{clock, inPlace()};
    ShellPresenter shell{keeper};
    Theme theme{*qApp};
    MainWindow window{shell, keeper, theme, clock, settings};
    QWidget* visits = new QLabel(u"visits"_s);
    QWidget* sites = new QLabel(u"sites"_s);
};

TEST_F(MainWindowTest, GoesToAPlaceByItsKey)
{
    QTest::keyClick(&window, Qt::Key_2, Qt::ControlModifier);

    EXPECT_TRUE(sites->isVisible());
    EXPECT_FALSE(visits->isVisible());
}

TEST_F(MainWindowTest, CountsAKeyThatIsAPagesOwnAsAPress)
{
    new QShortcut(QKeySequence(Qt::Key_PageDown), visits);
    for (int count = 0; count < 4; ++count) {
        clock.advance(6min);
        QTest::keyClick(&window, Qt::Key_PageDown);
    }
    keeper.look();

    EXPECT_EQ(keeper.state(), SessionKeeper::State::Open);
}

TEST_F(MainWindowTest, HearsNoKeyOfAPageBeneathTheLock)
{
    int heard = 0;
    auto* shortcut = new QShortcut(QKeySequence(Qt::Key_PageDown), visits);
    QObject::connect(shortcut, &QShortcut::activated, visits, [&heard] { ++heard; });
    QTest::keyClick(&window, Qt::Key_PageDown);
    ASSERT_EQ(heard, 1);

    keeper.lock();
    QTest::keyClick(&window, Qt::Key_PageDown);

    EXPECT_EQ(heard, 1);
    EXPECT_TRUE(window.findChild<QWidget*>(u"lockOverlay"_s)->isVisible());
}

TEST_F(MainWindowTest, RemembersThemeAndSize)
{
    window.resize(1111, 700);
    QTest::keyClick(&window, Qt::Key_T, Qt::ControlModifier);
    const ThemeKind chosen = theme.kind();
    window.close();

    Theme other(*qApp);
    ShellPresenter otherShell(keeper);
    MainWindow again(otherShell, keeper, other, clock, settings);

    EXPECT_EQ(other.kind(), chosen);
    EXPECT_EQ(again.size(), QSize(1111, 700));
}

TEST_F(MainWindowTest, TheFirstWindowLeavesRoomForItsTitleBarOnTheScreen)
{
    const QSize free = window.screen()->availableGeometry().size();

    EXPECT_LE(window.height() + 40, free.height());
    EXPECT_LE(window.width(), free.width());
}

TEST_F(MainWindowTest, APageThatIsShownTakesTheFocusAndGetsItBackWhereItWas)
{
    auto* first = new QLineEdit(sites);
    auto* second = new QLineEdit(sites);
    sites->setFocusProxy(first);
    QApplication::setActiveWindow(&window);
    EXPECT_EQ(QApplication::focusWidget(), visits) << "and no button of the bar";

    QTest::keyClick(&window, Qt::Key_2, Qt::ControlModifier);
    EXPECT_EQ(QApplication::focusWidget(), first);
    second->setFocus();
    QTest::keyClick(&window, Qt::Key_1, Qt::ControlModifier);
    QTest::keyClick(&window, Qt::Key_2, Qt::ControlModifier);
    EXPECT_EQ(QApplication::focusWidget(), second);

    keeper.lock();
    EXPECT_FALSE(window.focusWidget() == second);
    keeper.unlock(u"604193"_s);
    EXPECT_EQ(QApplication::focusWidget(), second) << "after the lock too";
}

// The focus fell to the bar, and the next Enter left the bench.
TEST_F(MainWindowTest, AMessageThatWasSeenGivesTheFocusBackToThePage)
{
    auto* box = new QLineEdit(sites);
    QApplication::setActiveWindow(&window);
    QTest::keyClick(&window, Qt::Key_2, Qt::ControlModifier);
    box->setFocus();
    shell.say({u"This laptop may sleep."_s, {}, {}});
    auto* seen = window.findChild<QAbstractButton*>(u"stripDismiss"_s);
    ASSERT_TRUE(seen && seen->isVisible());
    seen->setFocus(Qt::TabFocusReason);

    QTest::keyClick(seen, Qt::Key_Return);

    EXPECT_FALSE(seen->isVisible());
    EXPECT_EQ(QApplication::focusWidget(), box);
}

TEST_F(MainWindowTest, TabFollowsWhatIsSeenWheneverItWasMade)
{
    auto* column = new QVBoxLayout(sites);
    auto* last = new QPushButton(u"last"_s, sites);
    RowList* rows = new RowList(u"Sites"_s, sites);
    column->addWidget(rows);
    column->addWidget(last);
    rows->setRows({{u"a"_s, u"Pier Street"_s, {}, {}}, {u"b"_s, u"Regatta Lane"_s, {}, {}}}, {});
    QApplication::setActiveWindow(&window);
    QTest::keyClick(&window, Qt::Key_2, Qt::ControlModifier);
    const auto next = [](Qt::KeyboardModifiers with = {}) {
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Tab, with);
        return QApplication::focusWidget()->objectName();
    };
    last->setObjectName(u"last"_s);

    EXPECT_EQ(next(), u"row-a"_s);
    EXPECT_EQ(next(), u"row-b"_s);
    EXPECT_EQ(next(), u"last"_s);
    EXPECT_EQ(next(), u"place-visits"_s) << "and round by the bar";
    EXPECT_EQ(next(Qt::ShiftModifier), u"last"_s);
}

TEST_F(MainWindowTest, ShowsTheBenchOverItsPlaceUntilItIsTakenAway)
{
    auto* bench = new QLabel(u"bench"_s);
    window.setOverPage(u"visits"_s, bench);
    EXPECT_TRUE(bench->isVisible());
    shell.go(u"sites"_s);
    EXPECT_FALSE(bench->isVisible());
    shell.go(u"visits"_s);
    EXPECT_TRUE(bench->isVisible()) << "what is in hand stays in hand";

    window.setOverPage(u"visits"_s, nullptr);

    EXPECT_TRUE(visits->isVisible());
}

} // namespace
} // namespace coldarc::test
