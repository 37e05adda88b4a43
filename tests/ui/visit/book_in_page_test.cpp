#include "ui/visit/book_in_page.h"

#include "tests/ui/visit/card_at_work.h"
#include "ui/label/picture_panel.h"
#include "ui/parts/choice_row.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"
#include "ui/visit/bench_page.h"
#include "ui/visit/visit_page.h"

#include <QApplication>
#include <QClipboard>
#include <QDropEvent>
#include <QLineEdit>
#include <QMimeData>
#include <QScrollArea>
#include <QStackedLayout>
#include <QTest>

#include <algorithm>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::Night;
using test::VisitAtWork;

const QString kBoth = u"]d1TYPE: HVQ30-40B\nS/N: NEW000001"_s; // invented

/// The card in the visit's own page, as the program shows it. A shell answers in the place of the decoding
/// program: every picture holds one code.
class BookInPageTest : public ::testing::Test {
protected:
    BookInPageTest()
        : night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, u"hollin-30b"_s)
    {
    }

    void standAt(const QString& step, ThemeKind kind = ThemeKind::Booth, QSize size = {1366, 768})
    {
        theme.apply(kind);
        night.doUntil(step);
        work = std::make_unique<VisitAtWork>(night);
        page = std::make_unique<VisitPage>(work->desk(), *qApp);
        page->setShelf(drawer);
        page->setLampRecords(records);
        const label::PictureReading reading{
            200, 100, {{kBoth, {label::Place{20, 20}, {90, 20}, {90, 80}, {20, 80}}}}};
        process = std::make_unique<DecodingProcess>(
            u"/bin/sh"_s,
            QStringList{u"-c"_s, u"cat > /dev/null; printf '%s\\n' '"_s +
                                     QString::fromUtf8(label::toLine(reading)).trimmed() + u"'"_s},
            20s);
        page->setPictureReading(*process, inPlace());
        page->resize(size);
        page->show();
        QApplication::setActiveWindow(page.get());
        settle();
        work->clock().advance(1s);
        page->findChild<BenchPage*>()->takeFocus();
    }
    void bringUp(const QString& step, ThemeKind kind = ThemeKind::Booth, QSize size = {1366, 768})
    {
        standAt(step, kind, size);
        QTest::keyClick(page->findChild<BenchPage*>(), Qt::Key_Return); // to the card
        settle();
        ASSERT_TRUE(card().isVisible());
    }
    static void settle()
    {
        for (int i = 0; i < 4; ++i)
            QApplication::processEvents();
    }
    [[nodiscard]] BookInPage& card() const { return *page->findChild<BookInPage*>(); }
    [[nodiscard]] QLineEdit& box(const QString& name) const
    {
        return *card().findChild<QWidget*>(name)->findChild<QLineEdit*>();
    }
    [[nodiscard]] QString says(const char* name) const
    {
        auto* label = card().findChild<TextLabel*>(QString::fromLatin1(name));
        return label && label->isVisible() ? label->text() : QString();
    }
    void scanKeys(const QString& text)
    {
        for (const QChar letter : text) {
            work->clock().advance(2ms);
            QWidget* focus = QApplication::focusWidget();
            QTest::sendKeyEvent(QTest::Click, focus, Qt::Key(letter.toUpper().unicode()), QString(letter),
                                Qt::NoModifier);
        }
        work->clock().advance(2ms);
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
        settle();
    }
    void typeSlowly(const QString& text)
    {
        for (const QChar letter : text) {
            work->clock().advance(120ms);
            QTest::keyClicks(QApplication::focusWidget(), letter);
        }
        pause();
    }
    void pause()
    {
        work->clock().advance(1s);
        page->scanner().lookAgain();
        settle();
    }
    void press(Qt::Key key)
    {
        work->clock().advance(1s);
        QTest::keyClick(QApplication::focusWidget(), key);
        pause();
    }
    void dropOnCard(const QMimeData& brought) const
    {
        QDragEnterEvent enter(QPoint(5, 5), Qt::CopyAction, &brought, Qt::LeftButton, Qt::NoModifier);
        QApplication::sendEvent(&card(), &enter);
        EXPECT_TRUE(enter.isAccepted());
        QDropEvent drop(QPointF(5, 5), Qt::CopyAction, &brought, Qt::LeftButton, Qt::NoModifier);
        QApplication::sendEvent(&card(), &drop);
    }
    static QImage snapshot()
    {
        QImage image(200, 100, QImage::Format_RGB32);
        image.fill(Qt::white);
        return image;
    }
    void waitForCodes()
    {
        ASSERT_TRUE(QTest::qWaitFor([this] { return card().findChild<PlainButton*>(u"code-0"_s); }, 30'000));
    }

    Theme theme{*qApp};
    Night night;
    test::ToldRecords records;
    test::PictureDrawer drawer;
    std::unique_ptr<DecodingProcess> process;
    std::unique_ptr<VisitAtWork> work;
    std::unique_ptr<VisitPage> page;
};

TEST_F(BookInPageTest, AScanGoesToTheSourceThatIsAskedForWhateverFieldHasTheFocus)
{
    bringUp(u"match-box"_s);
    box(u"entry-serial"_s).setFocus();

    scanKeys(u"]d1HVQ30-40B"_s);

    EXPECT_EQ(box(u"box-type"_s).text(), u"HVQ30-40B"_s);
    EXPECT_EQ(box(u"entry-serial"_s).text(), QString());
    EXPECT_EQ(says("scanSays"), u"Box: Type HVQ30-40B"_s);
}

TEST_F(BookInPageTest, OneScanOneKeyForTheEntryAndEnterMatchTheBox)
{
    bringUp(u"match-box"_s);
    page->bookIn().scan(kBoth); // a wedge sends no line's end inside a code: as the filter tells it

    press(Qt::Key_F6);
    press(Qt::Key_Return);

    EXPECT_FALSE(card().isVisible()) << says("waits").toStdString();
}

TEST_F(BookInPageTest, WhatAPersonTypesArrivesWithItsLastLetter)
{
    bringUp(u"match-box"_s);
    ASSERT_TRUE(box(u"box-type"_s).hasFocus());

    typeSlowly(u"HVQ30-40B"_s);

    EXPECT_EQ(box(u"box-type"_s).text(), u"HVQ30-40B"_s);
}

TEST_F(BookInPageTest, ABarcodeButtonSendsTheNextCodeThereAndIsAGlovedTarget)
{
    bringUp(u"match-box"_s);
    auto* codes = card().findChild<PlainButton*>(u"paper-codes"_s);
    ASSERT_TRUE(codes->isVisible());
    EXPECT_GE(codes->height(), 72);
    EXPECT_TRUE(
        card().findChild<PlainButton*>(u"box-codes"_s)->text().contains(u"The next code goes here"_s));

    codes->click();
    scanKeys(u"]d1HVQ30-40B"_s);

    EXPECT_EQ(box(u"paper-type"_s).text(), u"HVQ30-40B"_s);
    EXPECT_EQ(box(u"box-type"_s).text(), QString());
    EXPECT_FALSE(card().findChild<PlainButton*>(u"entry-codes"_s)->isVisible());
}

TEST_F(BookInPageTest, APictureThatIsDroppedIsShownAndItsCodeIsPicked)
{
    bringUp(u"match-box"_s);
    QMimeData brought;
    brought.setImageData(snapshot());

    dropOnCard(brought);
    waitForCodes();
    EXPECT_TRUE(card().findChild<QWidget*>(u"pictureBox"_s)->isVisible());
    EXPECT_EQ(box(u"box-type"_s).text(), QString()) << "nothing is taken before it is picked";
    card().findChild<PlainButton*>(u"code-0"_s)->click();

    EXPECT_EQ(box(u"box-type"_s).text(), u"HVQ30-40B"_s);
    EXPECT_EQ(box(u"box-serial"_s).text(), u"NEW000001"_s);
    EXPECT_EQ(page->bookIn().view().columns.first().how, u"scanned, Data Matrix, picture kept"_s);
}

TEST_F(BookInPageTest, AfterThePictureIsPutAwayEnterMatchesTheBoxAndThePictureIsKept)
{
    bringUp(u"match-box"_s);
    QMimeData brought;
    brought.setImageData(snapshot());
    dropOnCard(brought);
    waitForCodes();
    card().findChild<PlainButton*>(u"code-0"_s)->click();
    press(Qt::Key_F6);

    press(Qt::Key_F4);
    press(Qt::Key_Return);

    EXPECT_FALSE(card().isVisible()) << says("waits").toStdString();
    ASSERT_EQ(drawer.kept.size(), 1);
    EXPECT_TRUE(std::ranges::any_of(work->entries(), [&](const visit::Entry& entry) {
        const auto* read = std::get_if<visit::LampRead>(&entry.body);
        return read && read->picture && read->picture->hex() == drawer.kept.firstKey();
    }));
}

TEST_F(BookInPageTest, APictureIsPastedEvenWhereABoxHasTheFocusAndWordsAreNot)
{
    bringUp(u"match-box"_s);
    box(u"paper-type"_s).setFocus();
    QApplication::clipboard()->setText(u"HVQ30-40B"_s);
    QTest::keyClick(&box(u"paper-type"_s), Qt::Key_V, Qt::ControlModifier);
    EXPECT_EQ(box(u"paper-type"_s).text(), QString());
    EXPECT_FALSE(card().findChild<QWidget*>(u"pictureBox"_s)->isVisible());

    QApplication::clipboard()->setImage(snapshot());
    QTest::keyClick(&box(u"paper-type"_s), Qt::Key_V, Qt::ControlModifier);
    waitForCodes();

    EXPECT_TRUE(card().findChild<QWidget*>(u"pictureBox"_s)->isVisible());
}

TEST_F(BookInPageTest, APictureWithoutAUsefulCodeIsKeptWithItsSource)
{
    bringUp(u"match-box"_s);
    QApplication::clipboard()->setImage(snapshot());
    press(Qt::Key_F4);
    EXPECT_FALSE(card().findChild<PlainButton*>(u"keepPicture"_s)->isVisible());
    QTest::keyClick(card().findChild<PicturePanel*>(), Qt::Key_V, Qt::ControlModifier);
    waitForCodes();

    auto* keep = card().findChild<PlainButton*>(u"keepPicture"_s);
    EXPECT_EQ(keep->text(), u"Keep it as a picture of: Box"_s);
    keep->click();

    EXPECT_EQ(page->bookIn().view().columns.first().how, u"picture kept"_s);
    press(Qt::Key_F4);
    EXPECT_FALSE(card().findChild<QWidget*>(u"pictureBox"_s)->isVisible());
}

TEST_F(BookInPageTest, AScanOnTheBenchAnswersNoQuestionAndIsSaidToBeLeftAlone)
{
    standAt(u"unbox-new"_s); // two questions that number keys answer: its marking, its bulb
    ASSERT_TRUE(page->findChild<BenchPage*>()->isVisible());
    const auto entries = work->entries().size();
    const QString step = page->bench().view().card.stepKey;

    for (const QString& scan : {u"HB-10417"_s, u"HB-20417"_s, u"0102900417000011"_s}) { // invented
        scanKeys(scan);
        pause();
        work->clock().advance(1s);
    }

    EXPECT_EQ(work->entries().size(), entries);
    EXPECT_EQ(page->bench().view().card.stepKey, step);
    for (const auto& choice : page->findChildren<ChoiceRow*>())
        EXPECT_TRUE(!choice->isVisible() || choice->chosen().isEmpty()) << choice->objectName().toStdString();
    EXPECT_TRUE(page->bench().view().strip.text.contains(u"nothing was answered"_s));
}

TEST_F(BookInPageTest, AScanWritesInNoBoxOfTheOtherPages)
{
    bringUp(u"match-box"_s);
    press(Qt::Key_Escape);
    ASSERT_FALSE(card().isVisible());
    page->showPeople();

    QLineEdit other(page.get());
    other.show();
    other.setFocus();
    scanKeys(u"]d1K7LONG"_s);

    EXPECT_EQ(other.text(), QString());
}

TEST_F(BookInPageTest, AVisitOutOfSightHearsNoScanner)
{
    bringUp(u"match-box"_s);
    page->hide();

    QLineEdit other;
    other.show();
    QTest::keyClicks(&other, u"]d1K7"_s);

    EXPECT_EQ(other.text(), u"]d1K7"_s);
}

TEST_F(BookInPageTest, WhatMemorySaysStandsOnTheCardAndIsAnsweredByANumber)
{
    records.known = {{LampTypeId(u"hollin-30b"_s), u"NEW000001"_s, label::KnownLamp::Where::Recycled}};
    bringUp(u"match-box"_s);
    page->bookIn().scan(kBoth);
    press(Qt::Key_F6);
    EXPECT_TRUE(says("doubts").startsWith(u"NEW000001 is on record as recycled"_s))
        << says("doubts").toStdString();

    press(Qt::Key_Return);
    ASSERT_TRUE(card().isVisible());
    auto* ask = card().findChild<QWidget*>(u"capture-doubts-answer"_s);
    ASSERT_TRUE(ask);
    EXPECT_FALSE(ask->visibleRegion().isEmpty()) << "brought into sight";
    EXPECT_EQ(ask->visibleRegion().boundingRect().size(), ask->size());
    press(Qt::Key_1);
    press(Qt::Key_Return);

    EXPECT_FALSE(card().isVisible()) << says("waits").toStdString();
    EXPECT_EQ(std::get<visit::Did>(work->entries().last().body).doubts, QStringList{u"serial-recycled"_s});
}

// With a picture on the card, a press that came to nothing changed nothing that was in sight.
TEST_F(BookInPageTest, WhatStandsInTheWayIsInSightAfterThePressThatItHeldUp)
{
    bringUp(u"match-box"_s);
    page->resize(1366, 623); // a banner stands above
    card().findChild<QAbstractButton*>(u"labelPicture"_s)->click();
    pause();

    work->clock().advance(1s);
    card().findChild<QAbstractButton*>(u"action"_s)->click();
    pause();

    const auto* waits = card().findChild<TextLabel*>(u"waits"_s);
    ASSERT_FALSE(waits->text().isEmpty());
    EXPECT_EQ(waits->visibleRegion().boundingRect().size(), waits->size());
}

TEST_F(BookInPageTest, WhatWasTypedIsThereAgainAfterEscWithTheCursorInTheNextBox)
{
    bringUp(u"match-box"_s);
    typeSlowly(u"HVQ30-40B"_s);
    press(Qt::Key_Escape);
    ASSERT_FALSE(card().isVisible());

    press(Qt::Key_Return);

    ASSERT_TRUE(card().isVisible());
    EXPECT_EQ(box(u"box-type"_s).text(), u"HVQ30-40B"_s);
    EXPECT_TRUE(box(u"box-serial"_s).hasFocus());
}

TEST_F(BookInPageTest, ASerialThatDiffersTakesTheCursorAndTheNextEnterGoesToItsReason)
{
    bringUp(u"match-box"_s);
    for (const QString& typed :
         {u"HVQ30-40B"_s, u"NEW000001"_s, u"HVQ30-40B"_s, u"NEW000010"_s, u"HVQ30-40B"_s}) {
        typeSlowly(typed);
        press(Qt::Key_Return);
    }
    typeSlowly(u"NEW000001"_s);

    press(Qt::Key_Return);

    EXPECT_TRUE(box(u"paper-serial"_s).hasFocus()) << "to be read again";
    EXPECT_EQ(box(u"paper-serial"_s).selectedText(), u"NEW000010"_s);

    press(Qt::Key_Return);
    const auto* pass = card().findChild<QWidget*>(u"pass"_s);
    EXPECT_TRUE(pass->isAncestorOf(QApplication::focusWidget()));
    EXPECT_FALSE(QApplication::focusWidget()->visibleRegion().isEmpty());

    press(Qt::Key_Escape);
    press(Qt::Key_Return);
    EXPECT_TRUE(box(u"paper-serial"_s).hasFocus()) << "the first that differs";
    const auto* scroll = card().findChild<QScrollArea*>(u"bookInScroll"_s);
    EXPECT_GE(box(u"paper-type"_s).mapTo(scroll->viewport(), QPoint(0, 0)).y(), 0);
}

TEST_F(BookInPageTest, WhatIsTypedAgainIntoTheEntryStaysInTheEntry)
{
    bringUp(u"book-in"_s);
    box(u"entry-serial"_s).setFocus();
    box(u"entry-serial"_s).selectAll();
    press(Qt::Key_Delete);
    box(u"entry-serial"_s).setFocus();

    typeSlowly(u"NEW000001"_s);

    EXPECT_EQ(box(u"entry-serial"_s).text(), u"NEW000001"_s);
    EXPECT_EQ(box(u"marking-type"_s).text(), QString());
    EXPECT_EQ(box(u"marking-serial"_s).text(), QString());
}

TEST_F(BookInPageTest, ACorrectionOfAChosenEntryStaysInTheEntry)
{
    bringUp(u"match-box"_s);
    press(Qt::Key_F6);
    box(u"entry-serial"_s).setFocus();
    box(u"entry-serial"_s).end(false);

    typeSlowly(u"234"_s);

    EXPECT_EQ(box(u"entry-serial"_s).text(), u"NEW000001234"_s);
    EXPECT_EQ(box(u"box-type"_s).text() + box(u"paper-type"_s).text(), QString());
}

TEST_F(BookInPageTest, TabReachesEveryControlOfTheCard)
{
    bringUp(u"match-box"_s);
    QSet<QWidget*> met;
    for (int count = 0; count < 60; ++count) {
        met.insert(QApplication::focusWidget());
        press(Qt::Key_Tab);
    }

    for (QWidget* control : card().findChildren<QWidget*>()) {
        const bool isControl = qobject_cast<QAbstractButton*>(control) || qobject_cast<QLineEdit*>(control);
        if (isControl && control->isVisible() && control->isEnabled()) {
            EXPECT_TRUE(met.contains(control)) << control->objectName().toStdString();
        }
    }
}

} // namespace
} // namespace coldarc::ui
