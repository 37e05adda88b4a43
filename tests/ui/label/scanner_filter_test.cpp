#include "ui/label/scanner_filter.h"

#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

#include <QApplication>
#include <QDialog>
#include <QLineEdit>
#include <QPushButton>
#include <QShortcut>
#include <QSignalSpy>
#include <QTest>
#include <QVBoxLayout>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

/// A window with a field and a button, as any page has; keys are struck as a keyboard sends them.
class ScannerFilterTest : public ::testing::Test {
protected:
    ScannerFilterTest()
    {
        auto* column = new QVBoxLayout(&window);
        column->addWidget(field);
        column->addWidget(button);
        QObject::connect(button, &QPushButton::clicked, &window, [this] { ++clicks; });
        QObject::connect(field, &QLineEdit::returnPressed, &window, [this] { ++returns; });
        button->setDefault(true);
        window.show();
        window.activateWindow();
        EXPECT_TRUE(QTest::qWaitForWindowActive(&window));
        field->setFocus();
        filter.setListening(true);
    }

    void strike(const QString& text, std::chrono::milliseconds gap)
    {
        QWidget* const focus = QApplication::focusWidget();
        for (const QChar c : text) {
            clock.advance(gap);
            filter.lookAgain();
            if (c == u'\n')
                QTest::keyClick(focus, Qt::Key_Return);
            else if (c == QChar(0x1D))
                QTest::sendKeyEvent(QTest::Click, focus, Qt::Key_BracketRight, u"\u001D"_s,
                                    Qt::ControlModifier);
            else
                QTest::sendKeyEvent(QTest::Click, focus, Qt::Key(c.toUpper().unicode()), QString(c),
                                    Qt::NoModifier);
        }
    }

    void pause()
    {
        clock.advance(41ms);
        filter.lookAgain();
    }

    test::FakeClock clock;
    QWidget window;
    QLineEdit* field = new QLineEdit(&window);
    QPushButton* button = new QPushButton(u"Done"_s, &window);
    int clicks = 0;
    int returns = 0;
    ScannerFilter filter{*qApp, clock};
    QSignalSpy scanned{&filter, &ScannerFilter::scanned};
};

const QString kScan = u"]d2010950600013435221AB-12\u001D10LOT7/A"_s;

TEST_F(ScannerFilterTest, AScanIsHeardWithItsSeparatorAndWritesNothing)
{
    strike(kScan + u'\n', 2ms);

    ASSERT_EQ(scanned.count(), 1);
    EXPECT_EQ(scanned.front().front().toString(), kScan);
    EXPECT_EQ(field->text(), QString());
    EXPECT_EQ(returns, 0) << "its Enter presses nothing";
}

TEST_F(ScannerFilterTest, AScanIsHeardWhateverHasTheFocusAndPressesNoButton)
{
    button->setFocus();

    strike(u"HB 20417 X\n"_s, 2ms); // a space would press the button

    EXPECT_EQ(scanned.count(), 1);
    EXPECT_EQ(clicks, 0);
}

TEST_F(ScannerFilterTest, AScanLeavesWhatWasTypedBeforeItAlone)
{
    strike(u"abc"_s, 120ms);
    pause();
    strike(kScan + u'\n', 2ms);
    strike(u"d"_s, 120ms);
    pause();

    EXPECT_EQ(field->text(), u"abcd"_s);
    EXPECT_EQ(scanned.count(), 1);
}

TEST_F(ScannerFilterTest, TypingArrivesAsItWasTypedWithItsEnter)
{
    strike(u"HB-20417\n"_s, 120ms);

    EXPECT_EQ(field->text(), u"HB-20417"_s);
    EXPECT_EQ(returns, 1);
    EXPECT_EQ(scanned.count(), 0);
}

TEST_F(ScannerFilterTest, AFastRunOfFingersIsNotAScan)
{
    strike(u"the\n"_s, 20ms);

    EXPECT_EQ(field->text(), u"the"_s);
    EXPECT_EQ(returns, 1);
}

TEST_F(ScannerFilterTest, KeysThatABusyMomentBringsAtOnceAreStillAPersons)
{
    quint64 struckAt = 5000;
    for (const QChar c : u"HB-20417"_s) {
        QKeyEvent key(QEvent::KeyPress, Qt::Key(c.toUpper().unicode()), Qt::NoModifier, QString(c));
        key.setTimestamp(struckAt += 90);
        QApplication::sendEvent(field, &key);
    }
    pause();

    EXPECT_EQ(field->text(), u"HB-20417"_s);
    EXPECT_EQ(scanned.count(), 0);
}

TEST_F(ScannerFilterTest, AKeyBehindAScanThatWasOverArrives)
{
    strike(kScan, 2ms);
    clock.advance(1s); // and nobody looked
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);

    EXPECT_EQ(scanned.count(), 1);
    EXPECT_EQ(returns, 1);
}

TEST_F(ScannerFilterTest, AKeyThatWritesNothingIsNeverHeldBack)
{
    strike(u"ab"_s, 120ms);
    QTest::keyClick(field, Qt::Key_Backspace);

    EXPECT_EQ(field->text(), u"a"_s) << "and comes after what was struck before it";
}

TEST_F(ScannerFilterTest, AScanWithoutEnterEndsWithThePause)
{
    strike(kScan, 2ms);
    EXPECT_EQ(scanned.count(), 0);
    pause();

    EXPECT_EQ(scanned.count(), 1);
    EXPECT_EQ(field->text(), QString());
}

TEST_F(ScannerFilterTest, NoShortcutIsTakenFromTheMiddleOfAScan)
{
    QShortcut shortcut(QKeySequence(u"Ctrl+]"_s), &window);
    QSignalSpy taken(&shortcut, &QShortcut::activated);

    strike(kScan + u'\n', 2ms);

    EXPECT_EQ(taken.count(), 0);
    EXPECT_EQ(scanned.count(), 1);
}

TEST_F(ScannerFilterTest, AFieldThatGoesAwayWhileAKeyIsHeldHarmsNothing)
{
    strike(u"a"_s, 120ms);
    delete field;
    pause();

    EXPECT_EQ(scanned.count(), 0);
}

TEST_F(ScannerFilterTest, ByItsOwnTimerAHeldKeyArrives)
{
    strike(u"a"_s, 120ms);
    clock.advance(41ms);

    EXPECT_TRUE(QTest::qWaitFor([&] { return field->text() == u"a"_s; }));
}

TEST_F(ScannerFilterTest, UntilItListensAndUnderADialogAllKeysArriveAtOnce)
{
    filter.setListening(false);
    strike(u"]d1K7"_s, 2ms);
    EXPECT_EQ(field->text(), u"]d1K7"_s);

    filter.setListening(true);
    QDialog dialog(&window);
    dialog.setModal(true);
    auto* over = new QLineEdit(&dialog);
    dialog.show();
    over->setFocus();
    QTest::keyClicks(over, u"]d1K7"_s);
    EXPECT_EQ(over->text(), u"]d1K7"_s);
    EXPECT_EQ(scanned.size(), 0);
}

TEST_F(ScannerFilterTest, WhatAKeyTypesIntoAMaskedBoxArrives)
{
    field->setEchoMode(QLineEdit::Password);
    strike(u"correct horse\n"_s, 2ms);

    EXPECT_EQ(field->text(), u"correct horse"_s);
    EXPECT_EQ(scanned.count(), 0);
}

TEST_F(ScannerFilterTest, AScanThatIsUnderWayWhenItStopsIsForgotten)
{
    strike(u"]d1K7LONGENOUGH"_s, 2ms);
    filter.setListening(false);
    filter.setListening(true);
    pause();

    EXPECT_EQ(scanned.size(), 0);
    EXPECT_EQ(field->text(), QString());
}

} // namespace
} // namespace coldarc::ui
