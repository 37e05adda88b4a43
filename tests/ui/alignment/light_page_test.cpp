#include "ui/alignment/light_page.h"

#include "tests/support/light_cases.h"
#include "tests/support/targets.h"
#include "tests/ui/alignment/light_at_work.h"
#include "ui/parts/painted_button.h"
#include "ui/parts/reach.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"

#include <QApplication>
#include <QKeyEvent>
#include <QLineEdit>
#include <QSignalSpy>
#include <QTest>

#include <map>
#include <string>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

void settle()
{
    for (int i = 0; i < 4; ++i)
        QApplication::processEvents();
}

/// The page at work: what is typed goes through the presenter into a night's logbook.
class LightPageTest : public ::testing::Test {
protected:
    LightPageTest()
        : theme(*qApp)
        , presenter(work)
        , page(work.clock())
        , makeSafe(&page, &LightPage::makeSafeRequested)
        , leave(&page, &LightPage::leaveRequested)
    {
        theme.apply(ThemeKind::Booth);
        QObject::connect(&presenter, &LightPresenter::viewChanged, &page, &LightPage::setView);
        QObject::connect(&page, &LightPage::entered, &presenter, &LightPresenter::enter);
        QObject::connect(&page, &LightPage::doneRequested, &presenter, &LightPresenter::done);
        QObject::connect(&page, &LightPage::finishRequested, &presenter, &LightPresenter::finish);
        QObject::connect(&page, &LightPage::takeBackRequested, &presenter, &LightPresenter::takeBack);
        QObject::connect(&page, &LightPage::putRightRequested, &presenter, &LightPresenter::putRight);
        QObject::connect(&page, &LightPage::formRequested, &presenter, &LightPresenter::changeForm);
        QObject::connect(&page, &LightPage::oweRequested, &presenter, &LightPresenter::owe);
        page.resize(1366, 768);
        presenter.open(0);
        page.setView(presenter.view());
        page.show();
        QApplication::setActiveWindow(&page);
        page.begin();
        settle();
        work.night().clock.advance(1s);
    }

    [[nodiscard]] QLineEdit& box() { return *page.findChild<QLineEdit*>(u"reading"_s); }
    template<class Widget = QWidget>
    Widget& part(const char* name)
    {
        return *page.findChild<Widget*>(QString::fromLatin1(name));
    }
    /// A number and Enter, where the focus is.
    void type(const QString& text)
    {
        QWidget* focus = QApplication::focusWidget();
        ASSERT_TRUE(focus);
        QTest::keyClicks(focus, text);
        QTest::keyClick(focus, Qt::Key_Return);
    }
    void key(Qt::Key key) { QTest::keyClick(QApplication::focusWidget(), key); }
    [[nodiscard]] std::size_t readings() const { return work.light().points.size(); }

    Theme theme;
    test::LightAtWork work;
    LightPresenter presenter;
    LightPage page;
    QSignalSpy makeSafe;
    QSignalSpy leave;
};

TEST_F(LightPageTest, KeepsUpWithAPersonWhoTurnsAKnob)
{
    // No pause between them: neither the guard of the main action nor the focus stands in the way.
    for (int reading = 0; reading < 12; ++reading)
        type(QString::number(41 + 0.1 * reading, 'f', 1));

    EXPECT_EQ(readings(), 12u);
    EXPECT_EQ(QApplication::focusWidget(), &box());
    EXPECT_EQ(box().text(), QString());
}

TEST_F(LightPageTest, LeavesInTheBoxWhatWasNotTaken)
{
    type(u"4x"_s);

    EXPECT_EQ(box().text(), u"4x"_s);
    EXPECT_TRUE(part<TextLabel>("said").text().contains(u"4x"_s));
    EXPECT_EQ(readings(), 0u);
    EXPECT_EQ(QApplication::focusWidget(), &box());
}

TEST_F(LightPageTest, ARefreshEatsNothingThatIsBeingTyped)
{
    QTest::keyClicks(&box(), u"41."_s);

    work.night().clock.advance(1min);
    presenter.refresh();
    page.setView(presenter.view());

    EXPECT_EQ(box().text(), u"41."_s);
}

TEST_F(LightPageTest, TheFocusComesBackFromEveryButton)
{
    type(u"41"_s);
    for (const char* name : {"takeBack", "form", "form", "putRight"}) {
        QTest::mouseClick(&part(name), Qt::LeftButton);

        EXPECT_EQ(QApplication::focusWidget(), &box()) << name;
    }
}

TEST_F(LightPageTest, TabGetsToEveryButtonAndEnterPressesIt)
{
    type(u"41"_s);
    part("takeBack").setFocus(Qt::TabFocusReason);
    ASSERT_EQ(QApplication::focusWidget(), &part("takeBack"));

    key(Qt::Key_Return);

    EXPECT_EQ(readings(), 0u);
    for (const QWidget* target : test::targetsOf(page))
        EXPECT_TRUE(target->focusPolicy() & Qt::TabFocus) << target->objectName().toStdString();
}

TEST_F(LightPageTest, AKeyForEachButton)
{
    type(u"41"_s);
    type(u"42"_s);
    key(Qt::Key_F8);
    EXPECT_EQ(readings(), 1u);
    key(Qt::Key_F7);
    EXPECT_EQ(box().text(), u"41"_s);
    type(u"43"_s); // it was marked, so it is typed over
    EXPECT_EQ(work.light().points.front().light, 43);
    key(Qt::Key_F4);
    EXPECT_EQ(presenter.view().form, u"By the plan"_s);
    key(Qt::Key_F12);
    EXPECT_EQ(makeSafe.size(), 1);
    key(Qt::Key_Escape);
    EXPECT_EQ(leave.size(), 1);
}

TEST_F(LightPageTest, AnEnterTooManyDoesNotEndTheStep)
{
    for (int reading = 0; reading < 5; ++reading)
        type(work.turnAndLook());
    ASSERT_TRUE(presenter.view().isFinishing);
    const auto step = work.night().nextId();

    key(Qt::Key_Return);
    EXPECT_EQ(work.night().nextId(), step) << "within the guard's hold";

    work.night().clock.advance(1s);
    key(Qt::Key_Return);
    EXPECT_NE(work.night().nextId(), step);
}

TEST_F(LightPageTest, AKeyTooManyDoesNotEndTheNextStepToo)
{
    const auto first = work.night().nextId();
    key(Qt::Key_F6);
    const auto second = work.night().nextId();
    ASSERT_NE(second, first);

    key(Qt::Key_F6);
    key(Qt::Key_F5);
    EXPECT_EQ(work.night().nextId(), second) << "within the guard's hold";

    work.night().clock.advance(1s);
    key(Qt::Key_F6);
    EXPECT_NE(work.night().nextId(), second);
}

TEST_F(LightPageTest, AKeyTooManyDoesNotLeaveTheKnobsOffTheirPlace)
{
    work.doUntil(machine::Effect::PeakAgain);
    work.settle();
    presenter.refresh();
    for (int reading = 0; reading < 150 && work.light().state.phase != alignment::Phase::Final; ++reading)
        type(work.turnAndLook());
    ASSERT_EQ(work.light().state.phase, alignment::Phase::Final);
    work.night().clock.advance(1s);

    key(Qt::Key_F6);
    key(Qt::Key_F6);
    ASSERT_EQ(work.effect(), machine::Effect::PeakAgain) << "within the guard's hold";
    EXPECT_EQ(presenter.view().finish, u"Done as they stand"_s);

    work.night().clock.advance(1s);
    key(Qt::Key_Return);
    EXPECT_NE(work.effect(), machine::Effect::PeakAgain);
    EXPECT_TRUE(work.light().leftHere());
}

TEST_F(LightPageTest, KeysThatEndOrTakeBackLeaveWhatIsTyped)
{
    type(u"41"_s);
    work.night().clock.advance(1s);
    QTest::keyClicks(&box(), u"42."_s);

    key(Qt::Key_F8);
    EXPECT_EQ(box().text(), u"42."_s);
    key(Qt::Key_F6);
    EXPECT_EQ(box().text(), u"42."_s);
    work.night().clock.advance(1s);
    key(Qt::Key_F5);
    EXPECT_EQ(box().text(), u"42."_s);
}

TEST_F(LightPageTest, EnterInAnEmptyBoxEndsNothingWhileReadingsAreDue)
{
    type(u"41"_s);
    const qsizetype before = work.entries();

    key(Qt::Key_Return);
    key(Qt::Key_PageDown);

    EXPECT_EQ(work.entries(), before);
    EXPECT_FALSE(presenter.view().said.isEmpty());
}

TEST_F(LightPageTest, TheMainActionTakesTheNumberToo)
{
    QTest::keyClicks(&box(), u"41.5"_s);
    QTest::mouseClick(&part("action"), Qt::LeftButton);

    EXPECT_EQ(readings(), 1u);
    EXPECT_EQ(box().text(), QString());
    QTest::keyClicks(&box(), u"41.9"_s);
    key(Qt::Key_PageDown);
    EXPECT_EQ(readings(), 2u);
}

TEST_F(LightPageTest, AKeyThatRepeatsTakesNothing)
{
    QTest::keyClicks(&box(), u"41"_s);
    QKeyEvent repeat(QEvent::KeyPress, Qt::Key_Return, Qt::NoModifier, QString(), true);
    QCoreApplication::sendEvent(&box(), &repeat);

    EXPECT_EQ(readings(), 0u);
}

TEST_F(LightPageTest, AsksForNoRoomThatTheScreenHasNotWhileItWasNeverOpened)
{
    const LightPage fresh(work.clock());

    EXPECT_LE(fresh.minimumSizeHint().height(), 768);
    EXPECT_LE(fresh.minimumSizeHint().width(), 1366);
}

TEST_F(LightPageTest, AWaitThatEndsElsewhereCallsAndLeavesTheFocusAlone)
{
    QSignalSpy act(&page, &LightPage::stripActRequested);
    QTest::keyClicks(&box(), u"41"_s);

    page.setStrip({u"Screen 2: the wait is over."_s, u"Go to Screen 2"_s, u"F2"_s, StripView::Call::Sounds});
    settle();

    EXPECT_EQ(QApplication::focusWidget(), &box());
    EXPECT_EQ(box().text(), u"41"_s);
    key(Qt::Key_F2);
    EXPECT_EQ(act.size(), 1);
}

TEST(LightCasesTest, ShowWhatTheCoreMakesOfTheirReadings)
{
    std::map<std::string, LightView> views;
    for (const test::LightCase& one : test::lightCases())
        views[one.name] = one.view;

    EXPECT_EQ(views["first"].won, u"\u2013"_s);
    EXPECT_TRUE(views["asked"].said.startsWith(u"13 after %1: as if the meter"_s.arg(views["asked"].light)));
    EXPECT_EQ(views["done"].action.text, u"Done"_s) << "the last reading was where all is left";
}

struct Look {
    ThemeKind theme;
    QSize size;
};

class LightLookTest : public ::testing::TestWithParam<Look> {};

TEST_P(LightLookTest, CutsNoWordAndKeepsEveryTargetInReach)
{
    Theme theme(*qApp);
    theme.apply(GetParam().theme);
    const test::FakeClock clock;
    for (const test::LightCase& one : test::lightCases()) {
        LightPage page(clock);
        page.setView(one.view);
        page.setStrip({u"Screen 2: the wait is over. Next: Open the guard"_s, u"Go to Screen 2"_s, u"F2"_s,
                       StripView::Call::Silent});
        page.resize(GetParam().size);
        page.show();
        settle();

        EXPECT_EQ(page.size(), GetParam().size) << one.name << ": it asks for more room";
        for (const TextLabel* label : page.findChildren<TextLabel*>()) {
            EXPECT_TRUE(!label->isVisible() || label->fits())
                << one.name << ": " << label->text().toStdString();
        }
        for (const QWidget* target : test::targetsOf(page)) {
            EXPECT_GE(target->height(), kHandTarget) << one.name << target->objectName().toStdString();
            EXPECT_EQ(test::seenOnPage(target, page).size(), target->size())
                << one.name << ": " << target->objectName().toStdString() << " is cut";
        }
        const auto* action = page.findChild<QWidget*>(u"action"_s);
        const auto* makeSafe = page.findChild<QWidget*>(u"makeSafe"_s);
        EXPECT_GE(action->height(), kGloveTargetFloor);
        EXPECT_GE(makeSafe->height(), kGloveTargetFloor);
        EXPECT_GE(test::gapBetween(test::seenOnPage(makeSafe, page), test::seenOnPage(action, page)),
                  kGloveGapFloor);
    }
}

INSTANTIATE_TEST_SUITE_P(
    InBothThemesAndSizes, LightLookTest,
    ::testing::Values(Look{ThemeKind::Booth, {1366, 768}}, Look{ThemeKind::Office, {1366, 768}},
                      Look{ThemeKind::Booth, {1920, 1080}}, Look{ThemeKind::Office, {1920, 1080}}),
    [](const auto& instance) {
        return std::string(instance.param.theme == ThemeKind::Booth ? "Booth" : "Office") +
               std::to_string(instance.param.size.width());
    });

} // namespace
} // namespace coldarc::ui
