#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"
#include "ui/parts/action_button.h"
#include "ui/parts/choice_row.h"
#include "ui/parts/combo_field.h"
#include "ui/parts/command_finder.h"
#include "ui/parts/field.h"
#include "ui/parts/figures.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/signal_panel.h"
#include "ui/parts/strip.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"
#include "ui/parts/wait_ring.h"

#include <QAbstractItemView>
#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QHBoxLayout>
#include <QImage>
#include <QKeyEvent>
#include <QLineEdit>
#include <QListView>
#include <QPainter>
#include <QPushButton>
#include <QScrollBar>
#include <QSignalSpy>
#include <QTest>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

ActionView ready(const QString& step)
{
    return {step, u"Done"_s, u""_s, ActionView::Stand::Ready};
}

ActionView waiting(const QString& step)
{
    return {step, u"Done"_s, u"Waits for Cold, 6:41"_s, ActionView::Stand::Waits};
}

void repeatKey(QWidget* widget, Qt::Key key)
{
    QKeyEvent repeat(QEvent::KeyPress, key, Qt::NoModifier, QString(), true);
    QCoreApplication::sendEvent(widget, &repeat);
}

class ActionButtonTest : public ::testing::Test {
protected:
    ActionButtonTest()
        : button(clock)
        , done(&button, &ActionButton::done)
    {
        button.resize(button.sizeHint());
        button.show();
    }

    test::FakeClock clock;
    ActionButton button;
    QSignalSpy done;
};

TEST_F(ActionButtonTest, ASteadyStepTakesAPressByPointerSpaceAndEnter)
{
    button.setView(ready(u"step-7"_s));
    clock.advance(700ms);

    QTest::mouseClick(&button, Qt::LeftButton);
    QTest::keyClick(&button, Qt::Key_Space);
    QTest::keyClick(&button, Qt::Key_Return);
    QTest::keyClick(&button, Qt::Key_Enter);

    EXPECT_EQ(done.size(), 4);
}

TEST_F(ActionButtonTest, WhatAsksSaysWhatItWaitsForAndStillTakesAPress)
{
    ActionView asks = waiting(u"step-7"_s);
    asks.stand = ActionView::Stand::Asks;
    button.setView(asks);
    clock.advance(1s);

    QTest::mouseClick(&button, Qt::LeftButton);

    EXPECT_EQ(button.text(), u"Waits for Cold, 6:41"_s);
    EXPECT_EQ(done.size(), 1);
}

TEST_F(ActionButtonTest, AStepJustShownTakesNoPressForSevenTenthsOfASecond)
{
    button.setView(ready(u"step-7"_s));

    QTest::mouseClick(&button, Qt::LeftButton);
    clock.advance(699ms);
    QTest::mouseClick(&button, Qt::LeftButton);
    EXPECT_EQ(done.size(), 0);

    clock.advance(1ms);
    QTest::mouseClick(&button, Qt::LeftButton);
    EXPECT_EQ(done.size(), 1);
}

TEST_F(ActionButtonTest, ACountdownWithinOneStepDoesNotHoldThePress)
{
    button.setView(waiting(u"step-7"_s));
    clock.advance(10s);

    button.setView(ready(u"step-7"_s));
    QTest::mouseClick(&button, Qt::LeftButton);

    EXPECT_EQ(done.size(), 1);
}

TEST_F(ActionButtonTest, TheNextStepHoldsThePressAnew)
{
    button.setView(ready(u"step-7"_s));
    clock.advance(10s);
    button.setView(ready(u"step-8"_s));

    QTest::mouseDClick(&button, Qt::LeftButton);

    EXPECT_EQ(done.size(), 0);
}

TEST_F(ActionButtonTest, AWaitingStepTakesNoPressAndSaysWhatItWaitsFor)
{
    button.setView(waiting(u"step-7"_s));
    clock.advance(10s);

    QTest::mouseClick(&button, Qt::LeftButton);
    QTest::keyClick(&button, Qt::Key_Return);
    button.click();

    EXPECT_EQ(done.size(), 0);
    EXPECT_EQ(button.accessibleName(), u"Waits for Cold, 6:41");
}

TEST_F(ActionButtonTest, ARepeatingKeyIsIgnored)
{
    button.setView(ready(u"step-7"_s));
    clock.advance(10s);

    repeatKey(&button, Qt::Key_Return);
    repeatKey(&button, Qt::Key_Space);
    QTest::keyRelease(&button, Qt::Key_Space);

    EXPECT_EQ(done.size(), 0);
}

TEST_F(ActionButtonTest, IsLargeEnoughForAGloveAndGrowsWithItsWords)
{
    button.setView(waiting(u"step-7"_s));
    EXPECT_GE(button.sizeHint().height(), 72);

    ActionView wordy = waiting(u"step-7"_s);
    wordy.waits =
        u"Waits for start tried, voltage tested at the lamp terminals, gear of A. Okoro and B. Lind, "
        "and the count of fasteners"_s;
    button.setView(wordy);

    EXPECT_GT(button.heightForWidth(300), 72);
    button.resize(300, button.heightForWidth(300));
    EXPECT_TRUE(button.fits());
    button.resize(300, 72);
    EXPECT_FALSE(button.fits());
}

TEST(PlainButtonTest, BreaksNoWordHoweverNarrowItsRow)
{
    QWidget row;
    auto* layout = new QHBoxLayout(&row);
    for (const QString& type : {u"HVQ30-408"_s, u"HVQ30-40B"_s}) {
        auto* button = new PlainButton(type, Reach::Hand, PlainButton::Weight::Quiet, &row);
        button->setKeyCap(u"F6"_s);
        button->setSub(u"in the van"_s);
        layout->addWidget(button);
    }
    row.resize(10, 100);
    row.show();

    const QFont name = fontFor(TextRole::Small);
    const QFont cap = fontFor(TextRole::Caption);
    for (const PlainButton* button : row.findChildren<PlainButton*>())
        EXPECT_GE(button->width(),
                  figureAdvance(name, button->text()) + 2 * 18 + figureAdvance(cap, u"F6"_s));
}

TEST(PlainButtonTest, AGloveButtonIsSeventyTwoPixelsAndAHandButtonFortyFour)
{
    const PlainButton glove(u"Something went wrong"_s, Reach::Glove);
    const PlainButton hand(u"Note"_s);

    EXPECT_GE(glove.sizeHint().height(), 72);
    EXPECT_GE(hand.sizeHint().height(), 44);
    EXPECT_GE(hand.sizeHint().width(), 44);
    EXPECT_GE(gloveGap(glove), 50);
}

ChoiceView breakers()
{
    return {u"Which breaker was moved?"_s,
            {{u"b12"_s, u"B 12"_s},
             {u"b14"_s, u"B 14"_s},
             {u"b16"_s, u"B 16"_s},
             {u"none"_s, u"None of these"_s}},
            u""_s,
            u""_s,
            Reach::Glove};
}

class ChoiceRowTest : public ::testing::Test {
protected:
    ChoiceRowTest()
        : choices(&row, &ChoiceRow::choiceChanged)
    {
        row.setView(breakers());
        row.resize(680, 100);
        row.show();
    }

    ChoiceRow row;
    QSignalSpy choices;
};

TEST_F(ChoiceRowTest, AClickChoosesOneAndOnlyOne)
{
    auto* first = row.findChild<QAbstractButton*>(u"choice-b12"_s);
    auto* second = row.findChild<QAbstractButton*>(u"choice-b14"_s);

    QTest::mouseClick(first, Qt::LeftButton);
    QTest::mouseClick(second, Qt::LeftButton);
    QTest::mouseClick(second, Qt::LeftButton);

    EXPECT_EQ(row.chosen(), u"b14");
    EXPECT_FALSE(first->isChecked());
    EXPECT_TRUE(second->isChecked());
    EXPECT_EQ(choices.size(), 2);
}

TEST_F(ChoiceRowTest, ANumberKeyChooses)
{
    auto* first = row.findChild<QAbstractButton*>(u"choice-b12"_s);

    QTest::keyClick(first, Qt::Key_3);
    EXPECT_EQ(row.chosen(), u"b16");

    QTest::keyClick(first, Qt::Key_9);
    QTest::keyClick(first, Qt::Key_0);
    EXPECT_EQ(row.chosen(), u"b16");
}

TEST_F(ChoiceRowTest, ItsAnswersAreLargeEnoughForAGlove)
{
    for (const auto* button : row.findChildren<PaintedButton*>())
        EXPECT_GE(button->height(), 72) << button->text().toStdString();
}

TEST_F(ChoiceRowTest, ItsHeightFollowsFromTheWidthAndNotFromHowItStandsNow)
{
    row.resize(300, 400);
    for (int i = 0; i < 4; ++i)
        QApplication::processEvents();

    EXPECT_EQ(row.layout()->heightForWidth(900), gloveTarget(row)) << "one row";
    EXPECT_EQ(row.layout()->heightForWidth(300), 4 * gloveTarget(row) + 3 * 16) << "one below the other";
}

TEST_F(ChoiceRowTest, IsAsHighAsItsAnswersWhereThereIsRoomBelowIt)
{
    QWidget page;
    auto* column = new QVBoxLayout(&page);
    auto* panel = new QWidget(&page);
    auto* questions = new QVBoxLayout(panel);
    questions->setContentsMargins(0, 0, 0, 0);
    column->addWidget(panel);
    column->addStretch(1);
    page.resize(700, 500);
    page.show();
    auto* alone = new ChoiceRow(panel);
    ChoiceView view = breakers();
    view.reach = Reach::Hand;
    alone->setView(view);
    questions->addWidget(alone);
    for (int i = 0; i < 4; ++i)
        QApplication::processEvents();

    EXPECT_LE(alone->height(), 60);
}

TEST_F(ChoiceRowTest, ItsLabelStaysBesideTheAnswersWhenAnErrorComesUpBelowThem)
{
    const auto aside = [this] {
        row.resize(680, row.layout()->heightForWidth(680));
        row.layout()->activate();
        QRect answers;
        for (const auto* button : row.findChildren<PaintedButton*>())
            answers |= button->geometry();
        return row.findChild<TextLabel*>()->geometry().center().y() - answers.center().y();
    };
    EXPECT_NEAR(aside(), 0, 1);

    ChoiceView asked = breakers();
    asked.error = u"Not answered yet."_s;
    row.setView(asked);

    EXPECT_NEAR(aside(), 0, 1);
}

TEST_F(ChoiceRowTest, AnErrorDoesNotTakeTheAnswerAway)
{
    row.chooseByNumber(2);

    ChoiceView again = breakers();
    again.error = u"That breaker feeds Screen 4."_s;
    row.setView(again);

    EXPECT_EQ(row.chosen(), u"b14");
    EXPECT_TRUE(row.findChild<TextLabel*>(u"error"_s)->isVisible());
}

TEST(TickListTest, TicksAreFarEnoughApartForGlovesAndTellWhatIsTicked)
{
    TickList list;
    list.setView({u"Gear"_s,
                  {{u"shield"_s, u"Face shield"_s, u"Z87+, down"_s},
                   {u"gloves"_s, u"Gloves"_s, u""_s},
                   {u"bib"_s, u"Bib"_s, u""_s}},
                  {u"bib"_s},
                  u""_s,
                  Reach::Glove});
    list.resize(680, list.sizeHint().height());
    list.show();
    QSignalSpy changes(&list, &TickList::ticksChanged);
    auto* shield = list.findChild<PaintedButton*>(u"tick-shield"_s);
    auto* gloves = list.findChild<PaintedButton*>(u"tick-gloves"_s);
    auto* bib = list.findChild<PaintedButton*>(u"tick-bib"_s);

    QTest::mouseClick(shield, Qt::LeftButton);

    EXPECT_EQ(list.ticked(), (QStringList{u"shield"_s, u"bib"_s}));
    EXPECT_EQ(changes.size(), 1);
    EXPECT_GE(shield->height(), 72);
    EXPECT_GE(gloves->x() - shield->geometry().right() - 1, 50);
    EXPECT_GE(bib->y() - shield->geometry().bottom() - 1, 50);
}

TEST(FieldTest, ARefreshDoesNotEatWhatIsBeingTyped)
{
    Field field(Field::Kind::Number);
    FieldView view{u"Counter reading"_s, u""_s, u"h"_s, u""_s, u""_s};
    field.setView(view);
    field.show();

    QTest::keyClicks(field.box(), u"1204"_s);
    view.error = u"Below the last reading, 1 240 h."_s;
    field.setView(view);

    EXPECT_EQ(field.value(), u"1204");
    EXPECT_TRUE(field.findChild<TextLabel*>(u"error"_s)->isVisible());
    EXPECT_EQ(field.box()->accessibleDescription(), u"Below the last reading, 1 240 h.");
}

TEST(FieldTest, TakesAPaste)
{
    Field field;
    QApplication::clipboard()->setText(u"INV-20481"_s);

    field.box()->paste();

    EXPECT_EQ(field.value(), u"INV-20481");
}

TEST(StripTest, ANewCallSoundsOnceAndTakesNoFocus)
{
    QWidget window;
    QVBoxLayout layout(&window);
    Strip strip;
    QPushButton inHand(u"in hand"_s);
    layout.addWidget(&strip);
    layout.addWidget(&inHand);
    window.show();
    QApplication::setActiveWindow(&window);
    inHand.setFocus();
    int sounds = 0;
    strip.setSound([&] { ++sounds; });

    const StripView call{u"Screen 4 has settled."_s, u"Go to Screen 4"_s, u"F2"_s, StripView::Call::Sounds};
    strip.setView(call);
    strip.setView(call);

    EXPECT_EQ(sounds, 1);
    EXPECT_TRUE(strip.isVisible());
    EXPECT_TRUE(inHand.hasFocus());
    strip.setView({});
    EXPECT_FALSE(strip.isVisible());
}

TEST(StripTest, ASilentMessageMakesNoSound)
{
    Strip strip;
    int sounds = 0;
    strip.setSound([&] { ++sounds; });

    strip.setView(
        {u"The program could not hold off the screen lock."_s, u""_s, u""_s, StripView::Call::Silent});

    EXPECT_EQ(sounds, 0);
}

TEST(SignalPanelTest, EachWordHasItsPublishedColoursAndOnlyInjuryHasTheTriangle)
{
    EXPECT_EQ(lookOf(SignalWord::Danger).fill.name(), u"#9b2423");
    EXPECT_EQ(lookOf(SignalWord::Danger).ink.name(), u"#ffffff");
    EXPECT_EQ(lookOf(SignalWord::Warning).fill.name(), u"#d05d29");
    EXPECT_EQ(lookOf(SignalWord::Warning).ink.name(), u"#000000");
    EXPECT_EQ(lookOf(SignalWord::Caution).fill.name(), u"#f9a800");
    EXPECT_EQ(lookOf(SignalWord::Caution).ink.name(), u"#000000");
    EXPECT_EQ(lookOf(SignalWord::Notice).fill.name(), u"#005387");
    EXPECT_EQ(lookOf(SignalWord::Notice).ink.name(), u"#ffffff");
    EXPECT_TRUE(lookOf(SignalWord::Danger).triangle);
    EXPECT_TRUE(lookOf(SignalWord::Warning).triangle);
    EXPECT_TRUE(lookOf(SignalWord::Caution).triangle);
    EXPECT_FALSE(lookOf(SignalWord::Notice).triangle);
}

TEST(SignalPanelTest, ItsWordIsReadableOnItsColour)
{
    for (const SignalWord word :
         {SignalWord::Danger, SignalWord::Warning, SignalWord::Caution, SignalWord::Notice})
        EXPECT_GE(contrastRatio(lookOf(word).ink, lookOf(word).fill), 4.5);
}

TEST(SignalPanelTest, AGroupShowsTheWorstWordFirst)
{
    SignalGroup group;
    group.setView(u"Before anything is opened"_s, {{SignalWord::Notice, u"Fingerprints burn in."_s},
                                                   {SignalWord::Danger, u"Voltage."_s},
                                                   {SignalWord::Warning, u"Quartz."_s}});
    group.resize(700, group.sizeHint().height());
    group.show();

    QList<SignalPanel*> panels = group.findChildren<SignalPanel*>();
    ASSERT_EQ(panels.size(), 3);
    std::sort(panels.begin(), panels.end(), [](auto* a, auto* b) { return a->y() < b->y(); });
    EXPECT_EQ(panels.at(0)->accessibleName(), u"DANGER: Voltage.");
    EXPECT_EQ(panels.at(2)->accessibleName(), u"NOTICE: Fingerprints burn in.");
}

TEST(WaitRingTest, AWaitOfMoreThanAnHourIsStillSeenWhole)
{
    WaitRing ring;
    ring.resize(ring.minimumSizeHint());

    ring.setView({0.2, u"1:06:41"_s, u"of 1:30:00, cold at 14:44"_s});

    EXPECT_TRUE(ring.fits());
    EXPECT_EQ(ring.accessibleName(), u"1:06:41, of 1:30:00, cold at 14:44");
}

TEST(FiguresTest, EveryFigureIsAsWideAsEveryOther)
{
    const QFontMetricsF metrics(fontFor(TextRole::Number));

    EXPECT_DOUBLE_EQ(figureAdvance(metrics, u"1:11"_s), figureAdvance(metrics, u"8:08"_s));
}

TEST(FiguresTest, NoLineIsWiderThanItsRoomAndNoWordIsLost)
{
    const QFontMetricsF metrics(fontFor(TextRole::Body));
    const QString text = u"Isolate panel B, circuit 14 and anunbrokenwordthatislongerthantheroom here"_s;

    const QStringList lines = figureLines(metrics, text, 120);

    for (const QString& line : lines)
        EXPECT_LE(figureAdvance(metrics, line), 120) << line.toStdString();
    EXPECT_EQ(lines.join(QString()).remove(u' '), QString(text).remove(u' '));
}

TEST(FiguresTest, ALineIsAsWideByItsFontAsByTheMetricsOfThatFont)
{
    const QString text = u"waits 6:41, the fan must keep running"_s;

    for (const TextRole role : {TextRole::Title, TextRole::Body, TextRole::Caption, TextRole::Section}) {
        const QFont font = fontFor(role);
        EXPECT_NEAR(figureAdvance(font, text), figureAdvance(QFontMetricsF(font), text), 1);
        EXPECT_EQ(figureLines(font, text, 130), figureLines(QFontMetricsF(font), text, 130));
    }
}

TEST(FiguresTest, ALineIsPaintedWhereItWasMeasured)
{
    const QFont font = fontFor(TextRole::Body);
    const QString text = u"HH 11 HH"_s; // letters and figures that fill their cells nearly to the edge
    const auto width = static_cast<int>(std::ceil(figureAdvance(font, text)));
    QImage image(width + 40, 40, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.setFont(font);
    drawFigures(painter, {20, 30}, text);
    painter.end();

    int first = image.width();
    int last = -1;
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            if (qGray(image.pixel(x, y)) > 127)
                continue;
            first = std::min(first, x);
            last = std::max(last, x);
            EXPECT_LE(y, 30) << "no letter of these hangs below the base line";
        }
    }
    EXPECT_NEAR(first, 20, 3);
    EXPECT_NEAR(last, 20 + width, 3);
}

TEST(ComboFieldTest, NoRowOfAnOpenListIsCut)
{
    Theme theme(*qApp);
    theme.apply(ThemeKind::Booth);
    for (const int count : {3, 9, 14, 40}) {
        ComboField field;
        ChoiceView view;
        view.label = u"Which"_s;
        for (int number = 0; number < count; ++number)
            view.options.append({QString::number(number), u"Choice %1"_s.arg(number)});
        field.setView(view);
        field.resize(320, 90);
        field.show();
        field.box()->showPopup();
        QApplication::processEvents();

        const QAbstractItemView& list = *field.box()->view();
        const int height = list.viewport()->height();
        int whole = 0;
        for (int row = 0; row < count; ++row) {
            const QRect rect = list.visualRect(list.model()->index(row, 0));
            if (rect.top() < height) {
                EXPECT_LT(rect.bottom(), height) << "row " << row << " of " << count;
                ++whole;
            }
        }
        EXPECT_GE(whole, std::min(count, 9));
        field.box()->hidePopup();
    }
}

TEST(ComboFieldTest, WhatIsTypedChoosesAWholeTextOnlyAndNeverItsSister)
{
    Theme theme(*qApp);
    theme.apply(ThemeKind::Booth);
    ComboField field;
    field.takeWholeTextsOnly();
    ChoiceView view;
    view.label = u"Type"_s;
    view.options = {{u"plain"_s, u"HVQ30-40"_s}, {u"sister"_s, u"HVQ30-40B"_s}, {u"other"_s, u"84-12"_s}};
    field.setView(view);
    field.show();
    QApplication::setActiveWindow(&field);
    field.box()->setFocus();
    const auto said = [&field] { return field.box()->accessibleDescription(); };

    QTest::keyClicks(field.box(), u"HVQ30"_s);
    EXPECT_EQ(field.chosen(), u""_s) << "no type is called so";
    EXPECT_EQ(said(), u"HVQ30 is none of these: nothing is chosen."_s);
    EXPECT_EQ(field.box()->placeholderText(), u"HVQ30"_s) << "what was typed is seen";

    QTest::keyClicks(field.box(), u"-40"_s);
    EXPECT_EQ(field.chosen(), u"plain"_s);
    EXPECT_EQ(said(), QString());

    const int interval = QApplication::keyboardInputInterval();
    QApplication::setKeyboardInputInterval(0); // the next key is a late one, after a look at the box
    QTest::keyClicks(field.box(), u"8"_s);
    QApplication::setKeyboardInputInterval(interval);
    EXPECT_EQ(field.chosen(), u""_s) << "neither its sister nor one that begins with 8";
    EXPECT_EQ(said(), u"HVQ30-408 is none of these: nothing is chosen."_s);

    QTest::keyClick(field.box(), Qt::Key_Backspace);
    EXPECT_EQ(field.chosen(), u"plain"_s);
    QTest::keyClicks(field.box(), u"b"_s);
    EXPECT_EQ(field.chosen(), u"sister"_s) << "typed whole, capital or not";
    QTest::keyClicks(field.box(), u"X"_s);
    EXPECT_EQ(field.chosen(), u""_s);
    QTest::keyClick(field.box(), Qt::Key_Down);
    EXPECT_EQ(field.chosen(), u"plain"_s) << "the list is walked by arrows as before";
    EXPECT_EQ(said(), QString());
}

class CommandFinderTest : public ::testing::Test {
protected:
    CommandFinderTest()
        : layout(&window)
        , inHand(u"in hand"_s)
        , finder(&window)
    {
        layout.addWidget(&inHand);
        window.resize(900, 600);
        window.show();
        QApplication::setActiveWindow(&window);
        inHand.setFocus();
        finder.setCommands({{u"Back up now"_s, u"Ctrl+B"_s, [this] { ran += u"backup "_s; }},
                            {u"New visit"_s, u""_s, [this] { ran += u"visit "_s; }},
                            {u"Something went wrong"_s, u"F9"_s, [this] { ran += u"incident "_s; }}});
        box = finder.findChild<QLineEdit*>(u"finderBox"_s);
    }

    QWidget window;
    QVBoxLayout layout;
    QPushButton inHand;
    CommandFinder finder;
    QLineEdit* box = nullptr;
    QString ran;
};

TEST_F(CommandFinderTest, TypingAPartOfTheNameAndEnterRunsTheCommand)
{
    QTest::keyClick(&window, Qt::Key_K, Qt::ControlModifier);
    ASSERT_TRUE(finder.isVisible());

    QTest::keyClicks(box, u"wrong some"_s);
    QTest::keyClick(box, Qt::Key_Return);

    EXPECT_EQ(ran, u"incident ");
    EXPECT_FALSE(finder.isVisible());
    EXPECT_TRUE(inHand.hasFocus());
}

TEST_F(CommandFinderTest, ArrowsChoose)
{
    finder.open();

    QTest::keyClick(box, Qt::Key_Down);
    QTest::keyClick(box, Qt::Key_Down);
    QTest::keyClick(box, Qt::Key_Up);
    QTest::keyClick(box, Qt::Key_Return);

    EXPECT_EQ(ran, u"visit ");
}

TEST_F(CommandFinderTest, ALongListIsMovedUpAndDownAlone)
{
    QList<FinderCommand> many;
    for (int number = 0; number < 40; ++number)
        many.append({u"History of the lamp number %1"_s.arg(number), u"Ctrl+9"_s, [] {}});
    finder.setCommands(many);
    finder.open();
    QApplication::processEvents();

    auto* list = finder.findChild<QListView*>(u"finderList"_s);
    EXPECT_TRUE(list->verticalScrollBar()->isVisible());
    EXPECT_FALSE(list->horizontalScrollBar()->isVisible());
    EXPECT_EQ(list->horizontalScrollBar()->maximum(), 0) << "no shortcut stands outside";
}

TEST_F(CommandFinderTest, EscapeLeavesEverythingAsItWas)
{
    finder.open();

    QTest::keyClick(box, Qt::Key_Escape);

    EXPECT_FALSE(finder.isVisible());
    EXPECT_EQ(ran, u"");
    EXPECT_TRUE(inHand.hasFocus());
}

TEST_F(CommandFinderTest, NothingFoundRunsNothing)
{
    finder.open();

    QTest::keyClicks(box, u"zzz"_s);
    QTest::keyClick(box, Qt::Key_Return);

    EXPECT_EQ(ran, u"");
    EXPECT_TRUE(finder.isVisible());
}

} // namespace
} // namespace coldarc::ui
