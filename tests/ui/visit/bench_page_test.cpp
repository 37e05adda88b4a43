#include "ui/visit/bench_page.h"

#include "tests/support/fake_clock.h"
#include "tests/support/gallery_views.h"
#include "tests/support/targets.h"
#include "tests/support/testing.h"
#include "ui/machine/gate_list.h"
#include "ui/machine/machine_drawing.h"
#include "ui/parts/painted_button.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"
#include "ui/visit/bench_steps.h"

#include <QApplication>
#include <QKeyEvent>
#include <QLineEdit>
#include <QScrollArea>
#include <QScrollBar>
#include <QSignalSpy>
#include <QTest>

#include <algorithm>
#include <memory>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::gapBetween;
using test::seenOnPage;

void settle()
{
    for (int i = 0; i < 4; ++i)
        QApplication::processEvents();
}

BenchView caseNamed(const std::string& name)
{
    for (const test::BenchCase& one : test::benchCases()) {
        if (one.name == name)
            return one.view;
    }
    ADD_FAILURE() << "no bench case " << name;
    return {};
}

void repeatKey(QWidget* widget, Qt::Key key)
{
    QKeyEvent repeat(QEvent::KeyPress, key, Qt::NoModifier, QString(), true);
    QCoreApplication::sendEvent(widget, &repeat);
}

class BenchPageTest : public ::testing::Test {
protected:
    BenchPageTest()
        : theme(*qApp)
        , page(clock)
        , done(&page, &BenchPage::doneRequested)
    {
        theme.apply(ThemeKind::Booth);
        page.resize(1366, 768);
    }

    void bringUp(const std::string& name)
    {
        page.setView(caseNamed(name));
        page.show();
        QApplication::setActiveWindow(&page);
        settle();
        clock.advance(1s);
    }

    template<class Widget = QWidget>
    Widget* part(const QString& name)
    {
        auto* found = page.findChild<Widget*>(name);
        EXPECT_NE(found, nullptr) << name.toStdString();
        return found;
    }

    test::FakeClock clock;
    Theme theme;
    BenchPage page;
    QSignalSpy done;
};

TEST_F(BenchPageTest, EnterReturnAndPageDownPressTheMainAction)
{
    bringUp("lamp-out");

    QTest::keyClick(&page, Qt::Key_Return);
    QTest::keyClick(&page, Qt::Key_Enter);
    QTest::keyClick(&page, Qt::Key_PageDown);
    QTest::mouseClick(part(u"action"_s), Qt::LeftButton);

    EXPECT_EQ(done.size(), 4);
}

TEST_F(BenchPageTest, AWaitingStepTakesNoKey)
{
    bringUp("cooling");

    QTest::keyClick(&page, Qt::Key_Return);
    QTest::keyClick(&page, Qt::Key_PageDown);

    EXPECT_EQ(done.size(), 0);
}

TEST_F(BenchPageTest, APressWithOpenQuestionsPutsTheFocusOnTheFirstThatIsMarked)
{
    bringUp("typed");
    QObject::connect(&page, &BenchPage::doneRequested, &page, [this] {
        BenchView marked = page.view();
        marked.card.captures[0].error.clear();
        marked.card.captures[1].error = u"Not answered yet."_s;
        page.setView(marked);
    });
    BenchView asks = page.view();
    asks.card.action.stand = ActionView::Stand::Asks;
    asks.card.action.waits = u"Waits for one answer"_s;
    page.setView(asks);
    part(u"somethingWrong"_s)->setFocus();

    QTest::keyClick(&page, Qt::Key_PageDown);

    EXPECT_EQ(done.size(), 1);
    EXPECT_EQ(part<QAbstractButton>(u"action"_s)->text(), u"Waits for one answer"_s);
    EXPECT_TRUE(part(u"capture-luminance"_s)->isAncestorOf(QApplication::focusWidget()));
}

TEST_F(BenchPageTest, AStepJustShownTakesNoKeyForSevenTenthsOfASecond)
{
    bringUp("lamp-out");
    BenchView next = page.view();
    next.card.stepKey = u"s2-dust"_s;
    next.card.action.stepKey = next.card.stepKey;
    page.setView(next);

    clock.advance(699ms);
    QTest::keyClick(&page, Qt::Key_Return);
    EXPECT_EQ(done.size(), 0);

    clock.advance(1ms);
    QTest::keyClick(&page, Qt::Key_Return);
    EXPECT_EQ(done.size(), 1);
}

TEST_F(BenchPageTest, AKeyThatRepeatsDoesNothing)
{
    bringUp("lamp-out");
    QSignalSpy wrong(&page, &BenchPage::somethingWrongRequested);

    for (QWidget* target : {static_cast<QWidget*>(&page), part(u"action"_s), part(u"makeSafe"_s)}) {
        repeatKey(target, Qt::Key_Return);
        repeatKey(target, Qt::Key_PageDown);
        repeatKey(target, Qt::Key_F9);
    }

    EXPECT_EQ(done.size(), 0);
    EXPECT_EQ(wrong.size(), 0);
}

TEST_F(BenchPageTest, EnterOnAnotherButtonPressesThatButton)
{
    bringUp("lamp-out");
    QSignalSpy safe(&page, &BenchPage::makeSafeRequested);
    part(u"makeSafe"_s)->setFocus(Qt::TabFocusReason);

    QTest::keyClick(part(u"makeSafe"_s), Qt::Key_Return);

    EXPECT_EQ(safe.size(), 1);
    EXPECT_EQ(done.size(), 0);
}

TEST_F(BenchPageTest, EnterChoosesTheAnswerThatWasWalkedToAndLeavesTheChosenOneToTheMainAction)
{
    bringUp("stop");
    QWidget* question = part(u"capture-tester"_s);
    auto* answer = question->findChildren<QAbstractButton*>().at(1);
    answer->setFocus(Qt::TabFocusReason);
    QSignalSpy answers(&page, &BenchPage::answersChanged);

    QTest::keyClick(answer, Qt::Key_Return);

    EXPECT_TRUE(answer->isChecked());
    EXPECT_TRUE(answer->hasFocus()) << "whoever walks goes on from here";
    ASSERT_EQ(answers.size(), 1);
    EXPECT_EQ(answers.at(0).at(0).value<QList<CaptureAnswer>>().at(3).value.size(), 1);
    EXPECT_EQ(done.size(), 0);

    QTest::keyClick(answer, Qt::Key_Return);
    EXPECT_TRUE(answer->isChecked());
    EXPECT_EQ(answers.size(), 1);
}

TEST_F(BenchPageTest, EveryOtherWayOutIsOnThePageAndHasItsSignal)
{
    bringUp("gear");
    QSignalSpy wrong(&page, &BenchPage::somethingWrongRequested);
    QSignalSpy safe(&page, &BenchPage::makeSafeRequested);
    QSignalSpy note(&page, &BenchPage::noteRequested);
    QSignalSpy picture(&page, &BenchPage::pictureRequested);
    QSignalSpy swap(&page, &BenchPage::swapChosen);
    QSignalSpy act(&page, &BenchPage::personActRequested);

    QTest::mouseClick(part(u"somethingWrong"_s), Qt::LeftButton);
    QTest::keyClick(&page, Qt::Key_F9);
    QTest::mouseClick(part(u"makeSafe"_s), Qt::LeftButton);
    QTest::keyClick(&page, Qt::Key_F12);
    QTest::mouseClick(part(u"note"_s), Qt::LeftButton);
    QTest::mouseClick(part(u"picture"_s), Qt::LeftButton);
    QTest::keyClick(&page, Qt::Key_F2);
    QTest::mouseClick(part(u"swap-0"_s), Qt::LeftButton);
    QTest::keyClick(&page, Qt::Key_F8);
    QTest::mouseClick(part(u"act-lind-gear"_s), Qt::LeftButton);

    EXPECT_EQ(wrong.size(), 2);
    EXPECT_EQ(safe.size(), 2);
    EXPECT_EQ(note.size(), 1);
    EXPECT_EQ(picture.size(), 1);
    ASSERT_EQ(swap.size(), 2);
    EXPECT_EQ(swap.at(0).at(0).toInt(), 1);
    EXPECT_EQ(swap.at(1).at(0).toInt(), 0);
    ASSERT_EQ(act.size(), 2);
    EXPECT_EQ(act.at(0).at(0).toString(), u"lind-gear");
}

TEST_F(BenchPageTest, AnActThatWasGivenIsNotAskedForAgain)
{
    bringUp("gear");
    BenchView given = page.view();
    given.card.acts.front().stand = PersonAct::Stand::Given;
    page.setView(given);
    QSignalSpy act(&page, &BenchPage::personActRequested);

    QTest::keyClick(&page, Qt::Key_F8);
    QTest::mouseClick(part(u"act-lind-gear"_s), Qt::LeftButton);

    EXPECT_EQ(act.size(), 0);
}

TEST_F(BenchPageTest, ANumberKeyAnswersTheFirstQuestionThatIsOpen)
{
    bringUp("stop");
    QSignalSpy answers(&page, &BenchPage::answersChanged);

    QTest::keyClick(QApplication::focusWidget(), Qt::Key_1);
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_3);

    ASSERT_EQ(answers.size(), 2);
    const auto all = answers.at(1).at(0).value<QList<CaptureAnswer>>();
    EXPECT_EQ(all.at(1), (CaptureAnswer{u"lock"_s, {u"58"_s}})); // answered before, left alone
    EXPECT_EQ(all.at(2), (CaptureAnswer{u"start"_s, {u"nothing moved"_s}}));
    EXPECT_EQ(all.at(3), (CaptureAnswer{u"tester"_s, {u"not reached"_s}}));
}

TEST_F(BenchPageTest, ANumberKeyPressedTwiceDoesNotAnswerTheCardThatHasJustComeUp)
{
    bringUp("stop");
    BenchView next = page.view();
    next.card.stepKey += u"-next"_s;
    page.setView(next);
    QSignalSpy answers(&page, &BenchPage::answersChanged);

    clock.advance(80ms);
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_1);
    EXPECT_EQ(answers.size(), 0);

    clock.advance(700ms);
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_1);
    EXPECT_EQ(answers.size(), 1);
}

TEST_F(BenchPageTest, ANumberKeyOnAnAnswerIsOfItsOwnQuestionAndHeldForANewCardAsElsewhere)
{
    bringUp("stop");
    BenchView next = page.view();
    next.card.stepKey += u"-next"_s;
    page.setView(next);
    QWidget* answer = part(u"capture-tester"_s)->findChild<QAbstractButton*>();
    answer->setFocus(Qt::TabFocusReason);
    QSignalSpy answers(&page, &BenchPage::answersChanged);

    clock.advance(80ms);
    QTest::keyClick(answer, Qt::Key_1);
    EXPECT_EQ(answers.size(), 0) << "pressed twice, on the card before";

    clock.advance(700ms);
    QTest::keyClick(answer, Qt::Key_1);
    QTest::keyClick(answer, Qt::Key_2);
    ASSERT_EQ(answers.size(), 2);
    const auto all = answers.at(1).at(0).value<QList<CaptureAnswer>>();
    EXPECT_TRUE(all.at(2).value.isEmpty()) << "another question";
    EXPECT_EQ(all.at(3).value.size(), 1);
    EXPECT_NE(all.at(3), (answers.at(0).at(0).value<QList<CaptureAnswer>>().at(3)));

    QTest::keyClick(answer, Qt::Key_4);
    EXPECT_EQ(answers.size(), 2) << "it has no fourth answer, and that is not one to the question above";
}

/// More questions than the card is high, the first of them answered.
BenchView longCard()
{
    BenchView view = caseNamed("stop");
    view.card.captures.clear();
    for (int index = 0; index < 14; ++index) {
        CaptureView question;
        question.id = u"part-%1"_s.arg(index);
        question.label = u"Part %1"_s.arg(index);
        question.options = {{u"shut"_s, u"Shut"_s, {}}, {u"open"_s, u"Open"_s, {}}};
        if (index < 11)
            question.value = {u"shut"_s};
        view.card.captures.append(question);
    }
    return view;
}

TEST_F(BenchPageTest, ACardThatComesUpAgainShowsTheFirstQuestionThatIsOpen)
{
    bringUp("stop");
    page.setView(longCard());
    settle();
    auto* scroll = part<QScrollArea>(u"cardScroll"_s);
    scroll->verticalScrollBar()->setValue(0);
    const QWidget* open = part(u"capture-part-11"_s);
    ASSERT_GT(open->mapTo(scroll->viewport(), QPoint(0, open->height())).y(), scroll->viewport()->height());

    page.takeFocus();

    EXPECT_GE(open->mapTo(scroll->viewport(), QPoint(0, 0)).y(), 0);
    EXPECT_LE(open->mapTo(scroll->viewport(), QPoint(0, open->height())).y(), scroll->viewport()->height());
}

TEST_F(BenchPageTest, ANumberKeyAnswersNoQuestionThatIsOutOfSightAndShowsItFirst)
{
    bringUp("stop");
    page.setView(longCard());
    settle();
    part(u"action"_s)->setFocus();
    part<QScrollArea>(u"cardScroll"_s)->verticalScrollBar()->setValue(0);
    QSignalSpy answers(&page, &BenchPage::answersChanged);

    QTest::keyClick(QApplication::focusWidget(), Qt::Key_1);
    EXPECT_EQ(answers.size(), 0) << "nobody saw what was asked";

    QTest::keyClick(QApplication::focusWidget(), Qt::Key_1);
    ASSERT_EQ(answers.size(), 1);
    EXPECT_EQ(answers.at(0).at(0).value<QList<CaptureAnswer>>().at(11).value, QStringList(u"shut"_s));
}

TEST_F(BenchPageTest, ACardThatComesUpAgainGivesTheCursorBackToItsBox)
{
    bringUp("typed");
    BenchView view = page.view();
    view.card.captures[0].error.clear();
    view.card.captures[0].value = {u"1204"_s};
    view.card.captures[1].value = {u"47.5"_s};
    page.setView(view);
    auto* first = part(u"capture-hours"_s)->findChild<QLineEdit*>(u"box"_s);
    auto* second = part(u"capture-luminance"_s)->findChild<QLineEdit*>(u"box"_s);
    second->setFocus();

    part(u"whatWasDone"_s)->setFocus();
    page.takeFocus();
    EXPECT_TRUE(second->hasFocus()) << "where it stood when the card was left";

    view.card.captures[0].error = u"Not plain: write 1204."_s;
    page.setView(view);
    part(u"whatWasDone"_s)->setFocus();
    page.takeFocus();
    EXPECT_TRUE(first->hasFocus()) << "what is marked comes first";
}

TEST_F(BenchPageTest, DoneCarriesWhatWasTypedAndARefreshLeavesItAlone)
{
    bringUp("typed");
    auto* box = part(u"capture-luminance"_s)->findChild<QLineEdit*>(u"box"_s);
    QTest::keyClicks(box, u"47.5"_s);
    BenchView refreshed = page.view();
    refreshed.gap = u"gap 3 h 34"_s;
    refreshed.card.captures.front().error = u"Read it again."_s;
    page.setView(refreshed);

    QTest::keyClick(box, Qt::Key_Return);

    ASSERT_EQ(done.size(), 1);
    const auto all = done.at(0).at(0).value<QList<CaptureAnswer>>();
    EXPECT_EQ(all.at(0), (CaptureAnswer{u"hours"_s, {u"12O4"_s}}));
    EXPECT_EQ(all.at(1), (CaptureAnswer{u"luminance"_s, {u"47.5"_s}}));
}

TEST_F(BenchPageTest, TheNextStepStartsWithoutTheAnswersOfTheOneBefore)
{
    bringUp("typed");
    auto* box = part(u"capture-luminance"_s)->findChild<QLineEdit*>(u"box"_s);
    QTest::keyClicks(box, u"47.5"_s);
    BenchView next = page.view();
    next.card.stepKey = u"s4-counter"_s;
    next.card.action.stepKey = next.card.stepKey;
    page.setView(next);

    EXPECT_EQ(part(u"capture-luminance"_s)->findChild<QLineEdit*>(u"box"_s)->text(), u"");
}

TEST_F(BenchPageTest, AWaitThatEndsElsewhereCallsOnceAndLeavesTheFocusAlone)
{
    int sounds = 0;
    page.setSound([&] { ++sounds; });
    bringUp("typed");
    auto* box = part(u"capture-luminance"_s)->findChild<QLineEdit*>(u"box"_s);
    box->setFocus();
    BenchView called = page.view();
    called.strip = {u"Screen 4 has settled."_s, u"Go to Screen 4"_s, u"F2"_s, StripView::Call::Sounds};

    page.setView(called);
    settle();

    EXPECT_EQ(sounds, 1);
    EXPECT_TRUE(box->hasFocus());
    EXPECT_TRUE(part(u"strip"_s)->isVisible());
}

TEST_F(BenchPageTest, AnAnswerThatIsRefusedMakesRoomForItsReason)
{
    const BenchView refused = caseNamed("worn");
    BenchView asked = refused;
    asked.card.captures.front().error.clear();
    page.setView(asked);
    page.show();
    settle();

    page.setView(refused);
    settle();

    for (const auto* button : part(u"captures"_s)->findChildren<PaintedButton*>()) {
        const QWidget* row = button->parentWidget();
        EXPECT_TRUE(row->rect().contains(button->geometry())) << row->objectName().toStdString();
    }
    const auto* reason = part(u"capture-Jacket"_s)->findChild<TextLabel*>(u"error"_s);
    EXPECT_TRUE(reason->isVisible() && reason->fits());
    for (const auto* button : reason->parentWidget()->findChildren<PaintedButton*>())
        EXPECT_FALSE(button->geometry().intersects(reason->geometry()));
}

TEST_F(BenchPageTest, ACallThatWasSeenGivesTheFocusBackToTheStep)
{
    bringUp("lamp-out");
    BenchView called = page.view();
    called.strip = {u"Screen 4: the wait is over."_s, {}, {}};
    page.setView(called);
    QObject::connect(&page, &BenchPage::stripDismissed, &page, [this] {
        BenchView quiet = page.view();
        quiet.strip = {};
        page.setView(quiet);
    });
    auto* seen = part<QAbstractButton>(u"stripDismiss"_s);
    seen->setFocus(Qt::TabFocusReason);

    seen->click();

    EXPECT_EQ(QApplication::focusWidget(), part(u"action"_s));
}

TEST_F(BenchPageTest, TheStepInHandIsInSight)
{
    bringUp("strike"); // the last of 22 steps
    auto* list = part<StepList>(u"stepList"_s);

    const QRect now = list->visualRect(list->model()->index(21, 0));

    EXPECT_TRUE(list->viewport()->rect().contains(now)) << now.y() << " of " << list->viewport()->height();
}

// ---- What is measured in every state, at both sizes, in both themes
// -----------------------------------------------

struct Seen {
    ThemeKind theme;
    QSize size;

    friend void PrintTo(const Seen& seen, std::ostream* out)
    {
        *out << (seen.theme == ThemeKind::Booth ? "Booth" : "Office") << seen.size.width();
    }
};

class BenchSightTest : public ::testing::TestWithParam<Seen> {
protected:
    BenchSightTest()
        : theme(*qApp)
    {
        theme.apply(GetParam().theme);
    }

    /// Runs `look` on every state of the gallery.
    template<class Look>
    void inEveryState(Look look)
    {
        for (const test::BenchCase& one : test::benchCases()) {
            SCOPED_TRACE(one.name);
            BenchPage page(clock);
            page.setView(one.view);
            page.resize(GetParam().size);
            page.show();
            settle();
            look(page);
        }
    }

    test::FakeClock clock;
    Theme theme;
};

TEST_P(BenchSightTest, NoWordIsClipped)
{
    inEveryState([](const BenchPage& page) {
        for (const auto* label : page.findChildren<TextLabel*>()) {
            EXPECT_TRUE(!label->isVisible() || label->fits())
                << label->text().toStdString() << ": " << label->width() << "x" << label->height()
                << ", needs " << label->heightForWidth(label->width());
        }
        for (const auto* button : page.findChildren<PaintedButton*>()) {
            EXPECT_TRUE(!button->isVisible() || button->fits()) << button->text().toStdString();
        }
        for (const auto* panel : page.findChildren<SignalPanel*>()) {
            EXPECT_TRUE(!panel->isVisible() || panel->fits()) << panel->accessibleName().toStdString();
        }
        for (const auto* ring : page.findChildren<WaitRing*>()) {
            EXPECT_TRUE(!ring->isVisible() || ring->fits());
        }
        EXPECT_TRUE(page.findChild<MachineDrawing*>()->fits());
    });
}

TEST_P(BenchSightTest, UnderABannerTheMachineIsStillSeenWhole)
{
    constexpr int kBanner = 56;
    inEveryState([](BenchPage& page) {
        page.resize(page.width(), page.height() - kBanner);
        settle();
        const auto* machine = page.findChild<MachineDrawing*>();
        EXPECT_TRUE(machine->fits());
        // The longest names that there are, three breakers and two lamphouses: 24 pixels of it scroll.
        const int below = page.view().machine.points.size() > 2 ? 24 : 0;
        EXPECT_LE(machine->height() - machine->visibleRegion().boundingRect().height(), below)
            << page.findChild<GateList*>()->height();
    });
}

TEST_P(BenchSightTest, TheStepsAreInkedInTheThemeInUse)
{
    inEveryState([](BenchPage& page) {
        auto* list = page.findChild<StepList*>(u"stepList"_s);
        const QImage image = page.grab(QRect(list->mapTo(&page, QPoint(0, 0)), list->size())).toImage();
        const Tokens& t = tokensOf(GetParam().theme);
        double strongest = 1;
        for (int y = 0; y < image.height(); ++y) {
            for (int x = 0; x < image.width(); ++x)
                strongest = std::max(strongest, contrastRatio(image.pixelColor(x, y), t.ground));
        }
        EXPECT_NEAR(strongest, contrastRatio(t.text, t.ground), 0.5);
    });
}

TEST_P(BenchSightTest, NothingReachesOverTheEdgeOfItsParent)
{
    inEveryState([](const BenchPage& page) {
        EXPECT_EQ(page.size(), GetParam().size);
        for (const auto* scroll : page.findChildren<QScrollArea*>())
            EXPECT_LE(scroll->widget()->width(), scroll->viewport()->width())
                << scroll->objectName().toStdString();
        for (const auto* widget : page.findChildren<QWidget*>()) {
            const QWidget* parent = widget->parentWidget();
            // What scrolls may be higher than what it scrolls in.
            if (!widget->isVisible() || parent->objectName() == u"qt_scrollarea_viewport")
                continue;
            EXPECT_TRUE(parent->rect().contains(widget->geometry()))
                << widget->metaObject()->className() << " " << widget->objectName().toStdString();
        }
    });
}

TEST_P(BenchSightTest, WhatAGloveMustHitIsLargeAndFarApart)
{
    inEveryState([](const BenchPage& page) {
        for (const QWidget* target : test::targetsOf(page)) {
            EXPECT_GE(target->height(), 44) << target->objectName().toStdString();
            EXPECT_GE(target->width(), 44) << target->objectName().toStdString();
        }
        const QList<const QWidget*> critical = test::gloveTargetsOf(page);
        ASSERT_GE(critical.size(), 3);
        for (const QWidget* one : critical) {
            EXPECT_GE(one->height(), 72) << one->objectName().toStdString();
            EXPECT_GE(one->width(), 72) << one->objectName().toStdString();
            for (const QWidget* other : critical) {
                if (one == other)
                    continue;
                EXPECT_GE(gapBetween(seenOnPage(one, page), seenOnPage(other, page)), 50)
                    << one->objectName().toStdString() << ", " << other->objectName().toStdString();
            }
        }
    });
}

TEST_P(BenchSightTest, MakeSafeStandsAloneAtTheBottomRight)
{
    inEveryState([](const BenchPage& page) {
        const auto* safe = page.findChild<QWidget*>(u"makeSafe"_s);
        const QRect there = seenOnPage(safe, page);
        EXPECT_GE(there.right(), page.width() - 24);
        EXPECT_GE(there.bottom(), page.height() - 30);
        for (const auto* button : page.findChildren<QAbstractButton*>()) {
            if (button->visibleRegion().isEmpty() || button == safe)
                continue;
            EXPECT_GE(gapBetween(there, seenOnPage(button, page)), 50) << button->objectName().toStdString();
        }
    });
}

TEST_P(BenchSightTest, EverythingThatCanBePressedHasAName)
{
    inEveryState([](const BenchPage& page) {
        for (const auto* button : page.findChildren<QAbstractButton*>()) {
            EXPECT_FALSE(button->accessibleName().isEmpty() && button->isVisible())
                << button->objectName().toStdString();
            EXPECT_TRUE(!button->isVisible() || (button->focusPolicy() & Qt::TabFocus) != 0)
                << button->objectName().toStdString();
        }
    });
}

INSTANTIATE_TEST_SUITE_P(
    InEveryTheme, BenchSightTest,
    ::testing::Values(Seen{ThemeKind::Booth, {1366, 768}}, Seen{ThemeKind::Booth, {1920, 1080}},
                      Seen{ThemeKind::Office, {1366, 768}}, Seen{ThemeKind::Office, {1920, 1080}}),
    [](const auto& instance) {
        return std::string(instance.param.theme == ThemeKind::Booth ? "Booth" : "Office") +
               std::to_string(instance.param.size.width());
    });

} // namespace
} // namespace coldarc::ui
