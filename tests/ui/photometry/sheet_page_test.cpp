#include "ui/photometry/sheet_page.h"

#include "tests/support/sheet_cases.h"
#include "tests/support/targets.h"
#include "tests/ui/photometry/sheet_at_work.h"
#include "ui/parts/action_button.h"
#include "ui/parts/reach.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"
#include "ui/photometry/screen_drawing.h"
#include "ui/photometry/sheet_at_page.h"
#include "ui/photometry/sheet_presenter.h"

#include <QApplication>
#include <QComboBox>
#include <QPlainTextEdit>
#include <QSignalSpy>
#include <QTest>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using photometry::Place;

void settle()
{
    for (int i = 0; i < 4; ++i)
        QApplication::processEvents();
}

/// The page at work: what is typed goes through the presenter into a night's logbook.
class SheetPageTest : public ::testing::Test {
protected:
    SheetPageTest()
        : theme(*qApp)
        , presenter(work)
        , page(work.clock())
        , finished(&presenter, &SheetPresenter::finished)
        , left(&presenter, &SheetPresenter::left)
    {
        theme.apply(ThemeKind::Booth);
        connectSheetPage(presenter, page);
        presenter.setLimits(test::shippedLimits());
        work.goToScreen();
        work.night().clock.advance(30min);
        page.resize(1366, 768);
        presenter.open(0);
        page.setView(presenter.view());
        page.show();
        QApplication::setActiveWindow(&page);
        page.begin();
        settle();
        work.night().clock.advance(1s);
    }

    void type(const QString& text)
    {
        QWidget* focus = QApplication::focusWidget();
        ASSERT_TRUE(focus);
        QTest::keyClicks(focus, text);
        QTest::keyClick(focus, Qt::Key_Return);
        settle();
    }
    void key(Qt::Key key)
    {
        QWidget* focus = QApplication::focusWidget();
        QTest::keyClick(focus ? focus : &page, key);
        settle();
    }
    template<class Widget = QWidget>
    Widget& part(const char* name)
    {
        return *page.findChild<Widget*>(QString::fromLatin1(name));
    }
    [[nodiscard]] QLineEdit& box(const char* field) { return *part(field).findChild<QLineEdit*>(); }
    [[nodiscard]] std::optional<double> read(Place place) const
    {
        const auto sheet = work.sheet();
        const auto& reading = sheet.sheet.at(place);
        return reading ? std::optional(reading->luminance.cdPerM2()) : std::nullopt;
    }

    Theme theme;
    test::SheetAtWork work;
    SheetPresenter presenter;
    SheetPage page;
    QSignalSpy finished;
    QSignalSpy left;
};

TEST_F(SheetPageTest, TheUnitsStandOnOneLineWhicheverIsChosen)
{
    for (const QString& unit : {u"cd/m2"_s, u"fL"_s}) {
        presenter.chooseUnit(unit);
        settle();
        for (const char* button : {"choice-cd/m2", "choice-fL"})
            EXPECT_EQ(part(button).height(), kHandTarget) << button;
    }
}

TEST_F(SheetPageTest, ASheetIsFilledAndEndedByTypingAndEnterAlone)
{
    type(u"48"_s); // on to x, since the limits name a white
    type(u"0.314"_s);
    type(u"0,351"_s);
    type(u"41"_s);
    type(u"40"_s);
    EXPECT_EQ(read(Place::Right), 40.0);
    const auto sheet = work.sheet();
    ASSERT_TRUE(sheet.sheet.at(Place::Centre)->colour);
    EXPECT_EQ(sheet.sheet.at(Place::Centre)->colour->y(), 0.351);

    key(Qt::Key_Return);

    EXPECT_EQ(finished.size(), 1);
    EXPECT_TRUE(work.isMeasured());
}

TEST_F(SheetPageTest, AnEmptyColourIsPassedByEnter)
{
    type(u"48"_s);
    EXPECT_EQ(QApplication::focusWidget(), &box("x"));
    key(Qt::Key_Return);
    EXPECT_EQ(read(Place::Centre), 48.0);
    EXPECT_EQ(QApplication::focusWidget(), &box("luminance"));
}

TEST_F(SheetPageTest, ATapOnAPointBringsItsBoxUp)
{
    auto& screen = part<ScreenDrawing>("screenDrawing");
    QTest::mouseClick(&screen, Qt::LeftButton, {}, screen.placeOf(u"bottom-left"_s).toPoint());
    settle();
    EXPECT_EQ(part<TextLabel>("point").text(), u"bottom left"_s);
    type(u"38"_s);
    EXPECT_EQ(read(Place::BottomLeft), 38.0);
}

TEST_F(SheetPageTest, UpAndDownGoFromPointToPointWithoutLeavingTheBox)
{
    key(Qt::Key_Up);
    EXPECT_EQ(part<TextLabel>("point").text(), u"top"_s);
    EXPECT_EQ(QApplication::focusWidget(), &box("luminance"));
}

TEST_F(SheetPageTest, OnTheDrawingArrowsMoveAndAFigureGoesIntoTheBox)
{
    part("screenDrawing").setFocus();
    QTest::keyClick(&part("screenDrawing"), Qt::Key_Left);
    settle();
    EXPECT_EQ(part<TextLabel>("point").text(), u"left"_s);
    part("screenDrawing").setFocus();
    QTest::keyClick(&part("screenDrawing"), Qt::Key_4);
    settle();
    EXPECT_EQ(box("luminance").text(), u"4"_s);
    type(u"1"_s);
    EXPECT_EQ(read(Place::Left), 41.0);
}

TEST_F(SheetPageTest, AQuestionIsAnsweredByANumberKey)
{
    type(u"14"_s);
    key(Qt::Key_Return); // no colour
    ASSERT_TRUE(part("question").isVisible());
    EXPECT_TRUE(work.sheet().isEmpty());
    key(Qt::Key_1);
    EXPECT_FALSE(part("question").isVisible());
    EXPECT_NEAR(*read(Place::Centre), 47.96763, 1e-4); // 14 fL
    EXPECT_EQ(QApplication::focusWidget(), &box("luminance"));
}

TEST_F(SheetPageTest, BadInputStaysInTheBoxWithItsMessage)
{
    type(u"fortyeight"_s);
    key(Qt::Key_Return);
    EXPECT_TRUE(part<TextLabel>("fault").text().contains(u"no number"_s));
    EXPECT_EQ(box("luminance").text(), u"fortyeight"_s);
}

TEST_F(SheetPageTest, TheUnitIsAlwaysInSightAndChangedByAKey)
{
    EXPECT_TRUE(part("unit").isVisible());
    key(Qt::Key_F7);
    EXPECT_EQ(page.view().unit.chosen, u"fL"_s);
    type(u"14"_s);
    key(Qt::Key_Return);
    EXPECT_NEAR(*read(Place::Centre), 47.96763, 1e-4);
}

TEST_F(SheetPageTest, TheFourPartsComeUpByTheirKeysAndConditionsAreTypedFromFieldToField)
{
    for (const auto& [pressed, shown] :
         {std::pair{Qt::Key_F6, "comparison"}, std::pair{Qt::Key_F4, "openFile"},
          std::pair{Qt::Key_F3, "form"}, std::pair{Qt::Key_F2, "set"}}) {
        key(pressed);
        EXPECT_TRUE(part(shown).isVisible()) << shown;
    }
    key(Qt::Key_F3);
    EXPECT_EQ(QApplication::focusWidget(), &box("field-lit"));
    key(Qt::Key_Return);
    type(u"Spot 2"_s);
    EXPECT_EQ(QApplication::focusWidget(), &box("field-calibrated"));
    type(u"2026-11-01"_s);
    key(Qt::Key_Escape);
    EXPECT_EQ(left.size(), 1);
    EXPECT_EQ(work.sheet().sheet.conditions().meter.name, u"Spot 2"_s);
}

TEST_F(SheetPageTest, APastedTableIsLookedAtAndTaken)
{
    key(Qt::Key_F4);
    page.findChild<QPlainTextEdit*>(u"pasteBox"_s)->setPlainText(u"Point;Lv\ncentre;47,6\nleft;41,0\n"_s);
    page.findChild<QAbstractButton*>(u"pasteAct"_s)->click();
    settle();
    EXPECT_TRUE(work.sheet().isEmpty());
    ASSERT_TRUE(part("takeTable").isVisible());
    part<QAbstractButton>("takeTable").click();
    settle();
    EXPECT_EQ(read(Place::Centre), 47.6);
    EXPECT_EQ(read(Place::Left), 41.0);
}

TEST_F(SheetPageTest, LeavingAndComingBackShowsTheSame)
{
    type(u"48"_s);
    key(Qt::Key_Return);
    QTest::keyClicks(QApplication::focusWidget(), u"4"_s);
    const SheetView before = presenter.view();
    key(Qt::Key_Escape);
    presenter.open(0);
    SheetView after = presenter.view();
    after.turn = before.turn;
    EXPECT_EQ(after, before);
}

TEST_F(SheetPageTest, TheScreenIsOwedByItsKey)
{
    key(Qt::Key_F5);
    EXPECT_EQ(finished.size(), 1);
}

TEST(SheetPagePictures, NothingIsCutOffAndEveryTargetCanBeHitInEveryStateThemeAndSize)
{
    const test::FakeClock clock;
    Theme theme(*qApp);
    for (const ThemeKind kind : {ThemeKind::Booth, ThemeKind::Office}) {
        theme.apply(kind);
        for (const test::SheetCase& one : test::sheetCases()) {
            for (const QSize size : {QSize(1366, 768), QSize(1920, 1080)}) {
                SheetPage page(clock);
                page.setView(one.view);
                page.resize(size);
                page.show();
                settle();
                EXPECT_TRUE(page.findChild<ScreenDrawing*>()->fits()) << one.name << ' ' << size.width();
                for (const auto* label : page.findChildren<TextLabel*>()) {
                    if (label->isVisible() && !label->text().isEmpty()) {
                        EXPECT_TRUE(label->fits())
                            << one.name << ' ' << size.width() << ": " << label->text().toStdString();
                    }
                }
                EXPECT_GE(page.findChild<ActionButton*>()->height(), 72);
                EXPECT_TRUE(page.findChild<ActionButton*>()->fits()) << one.name;
                for (const auto* button : page.findChildren<QAbstractButton*>()) {
                    if (button->isVisible()) {
                        EXPECT_GE(button->height(), kHandTarget) << button->text().toStdString();
                    }
                }
            }
        }
    }
}

} // namespace
} // namespace coldarc::ui
