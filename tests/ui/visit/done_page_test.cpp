#include "ui/visit/done_page.h"

#include "tests/ui/visit/fingers.h"
#include "tests/ui/visit/visit_at_work.h"
#include "ui/parts/action_button.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"
#include "ui/visit/bench_page.h"
#include "ui/visit/done_list.h"
#include "ui/visit/visit_page.h"

#include <QApplication>
#include <QBuffer>
#include <QClipboard>
#include <QDir>
#include <QImage>
#include <QMimeData>
#include <QPainter>
#include <QPlainTextEdit>
#include <QSignalSpy>
#include <QStackedLayout>
#include <QTest>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::Night;
using test::VisitAtWork;

class Album final : public PictureShelf {
public:
    [[nodiscard]] qsizetype mostBytes() const override { return 1'000'000; }
    [[nodiscard]] Result<Hash> keep(const QString& /*mediaType*/, const QByteArray& bytes) override
    {
        kept = bytes;
        return sha256(bytes);
    }
    [[nodiscard]] Result<QByteArray> read(const Hash& /*hash*/) const override { return kept; }

    QByteArray kept;
};

/// A lamp box on a bench, roughly; drawn for this test.
QImage snapshot()
{
    QImage image(640, 420, QImage::Format_RGB32);
    image.fill(QColor(70, 60, 50));
    QPainter painter(&image);
    painter.setBrush(QColor(200, 190, 170));
    painter.drawRect(120, 110, 400, 200);
    painter.drawEllipse(270, 160, 100, 100);
    return image;
}

class DonePageTest : public ::testing::Test {
protected:
    void bringUp(Night& night, QSize size = {1366, 718}, ThemeKind kind = ThemeKind::Booth)
    {
        theme.apply(kind);
        work = std::make_unique<VisitAtWork>(night);
        page = std::make_unique<VisitPage>(work->desk(), *qApp);
        page->setShelf(album);
        page->resize(size);
        page->show();
        QApplication::setActiveWindow(page.get());
        settle();
        page->findChild<BenchPage*>()->takeFocus();
    }
    void settle()
    {
        work->clock().advance(1s); // the presses that a page just shown does not take
        for (int i = 0; i < 4; ++i)
            QApplication::processEvents();
    }
    void press(Qt::Key key, Qt::KeyboardModifiers with = Qt::NoModifier)
    {
        QWidget* holder = QApplication::focusWidget();
        test::pressByHand(*page, work->clock(), holder ? holder : page.get(), key, with);
        settle();
    }
    void pressAt(const QString& name)
    {
        auto* button = done()->findChild<QAbstractButton*>(name);
        ASSERT_TRUE(button) << name.toStdString();
        ASSERT_TRUE(button->isVisible()) << name.toStdString();
        QTest::mouseClick(button, Qt::LeftButton);
        settle();
    }
    [[nodiscard]] QString shown() const
    {
        return page->findChild<QStackedLayout*>()->currentWidget()->objectName();
    }
    [[nodiscard]] DonePage* done() const { return page->findChild<DonePage*>(); }
    [[nodiscard]] QPlainTextEdit* box() const { return done()->findChild<QPlainTextEdit*>(u"box"_s); }
    /// Saves what is in sight where COLDARC_PICTURES names a folder; always checks that nothing is clipped
    /// and that every control is large enough.
    void look(const QString& name)
    {
        settle();
        if (const QString pictures = qEnvironmentVariable("COLDARC_PICTURES"); !pictures.isEmpty())
            page->grab().save(QDir(pictures).filePath(
                u"%1-%2-%3.png"_s.arg(name, theme.kind() == ThemeKind::Booth ? u"booth"_s : u"office"_s)
                    .arg(page->width())));
        for (const auto* label : done()->findChildren<TextLabel*>())
            EXPECT_TRUE(!label->isVisible() || label->fits()) << label->text().toStdString();
        for (const auto* button : done()->findChildren<PaintedButton*>()) {
            if (!button->isVisible())
                continue;
            EXPECT_TRUE(button->fits()) << name.toStdString() << ": " << button->text().toStdString();
            EXPECT_GE(button->height(), 44) << button->text().toStdString();
            EXPECT_FALSE(button->accessibleName().isEmpty() && button->text().isEmpty());
        }
        if (auto* action = done()->findChild<ActionButton*>(u"action"_s); action->isVisible()) {
            EXPECT_GE(action->height(), 72);
        }
    }

    Theme theme{*qApp};
    Album album;
    std::unique_ptr<VisitAtWork> work;
    std::unique_ptr<VisitPage> page;
};

TEST_F(DonePageTest, IsReachedByOneKeyAndLeftByAnother)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    bringUp(night);

    press(Qt::Key_F11);
    ASSERT_EQ(shown(), u"donePage"_s);
    EXPECT_TRUE(done()->findChild<DoneList*>()->hasFocus());
    press(Qt::Key_Escape);
    EXPECT_EQ(shown(), u"benchPage"_s);
    page->findChild<PlainButton*>(u"whatWasDone"_s)->click();
    settle();
    EXPECT_EQ(shown(), u"donePage"_s);
}

TEST_F(DonePageTest, WithdrawsAnEntryByKeyboardAloneAndTheStepComesUpAgain)
{
    Night night;
    night.doUntil(u"gear-on"_s);
    bringUp(night);
    const qint64 tried = night.swap().record(StepId(u"try-start"_s)).entry;
    press(Qt::Key_F11);
    auto* list = done()->findChild<DoneList*>();
    ASSERT_EQ(list->currentIndex().row(), work->entries().size() - 1);
    while (list->currentIndex().row() > tried)
        press(Qt::Key_Up);
    for (int count = 0; count < 20 && !done()->findChild<QWidget*>(u"withdraw"_s)->hasFocus(); ++count)
        press(Qt::Key_Tab);
    ASSERT_TRUE(done()->findChild<QWidget*>(u"withdraw"_s)->hasFocus());
    press(Qt::Key_Return);
    ASSERT_TRUE(box()->hasFocus());
    look(u"done-withdraw"_s);
    test::typeByHand(*page, work->clock(), u"nobody watched the lamp"_s);
    settle();
    press(Qt::Key_Return); // a new line, not a press
    EXPECT_FALSE(work->state().withdrawn.contains(tried));
    press(Qt::Key_Return, Qt::ControlModifier);

    EXPECT_TRUE(work->state().withdrawn.contains(tried));
    EXPECT_TRUE(list->hasFocus());
    press(Qt::Key_Escape);
    EXPECT_EQ(shown(), u"benchPage"_s);
    EXPECT_EQ(page->bench().view().card.title, u"Try to start it"_s);
}

TEST_F(DonePageTest, TakesANoteFromTheBenchAndGoesBackInTwoSteps)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    bringUp(night);

    page->findChild<PlainButton*>(u"note"_s)->click();
    settle();
    ASSERT_EQ(shown(), u"donePage"_s);
    ASSERT_TRUE(box()->hasFocus());
    test::typeByHand(*page, work->clock(), u"the stair light is out"_s);
    settle();
    pressAt(u"action"_s);

    const auto* noted = std::get_if<visit::Noted>(&work->entries().last().body);
    ASSERT_TRUE(noted);
    EXPECT_EQ(noted->text, u"the stair light is out"_s);
    pressAt(u"write"_s);
    EXPECT_EQ(box()->toPlainText(), QString());
    press(Qt::Key_Escape); // the form
    EXPECT_EQ(shown(), u"donePage"_s);
    press(Qt::Key_Escape); // the page
    EXPECT_EQ(shown(), u"benchPage"_s);
}

TEST_F(DonePageTest, KeepsAPictureThatIsPastedAndOneThatIsChosen)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    bringUp(night);
    const qint64 before = work->state().entries;
    page->findChild<PlainButton*>(u"picture"_s)->click();
    settle();
    ASSERT_EQ(shown(), u"donePage"_s);
    auto* given = new QMimeData;
    given->setImageData(snapshot());
    QApplication::clipboard()->setMimeData(given);

    press(Qt::Key_V, Qt::ControlModifier);

    ASSERT_EQ(work->state().entries, before + 1);
    const auto* kept = std::get_if<visit::PictureKept>(&work->entries().last().body);
    ASSERT_TRUE(kept);
    EXPECT_EQ(kept->picture, sha256(album.kept));
    EXPECT_EQ(done()->findChild<DoneList*>()->selected(), QList<qint64>{before});
    EXPECT_FALSE(done()->findChild<DoneList*>()->thumbnail(QString(kept->picture.hex())).isNull());
    pressAt(u"keepPicture"_s);
    done()->setChooser([] { return u"/nowhere/lamp.png"_s; });
    look(u"done-picture"_s);
    pressAt(u"action"_s);
    EXPECT_EQ(done()->findChild<TextLabel*>(u"said"_s)->text(), u"/nowhere/lamp.png can not be read."_s);
    EXPECT_EQ(work->state().entries, before + 1);
}

TEST_F(DonePageTest, CopiesWhatIsSelectedAndTheWhole)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    bringUp(night);
    press(Qt::Key_F11);

    press(Qt::Key_Up, Qt::ShiftModifier);
    press(Qt::Key_C, Qt::ControlModifier);
    EXPECT_EQ(QApplication::clipboard()->text().count(u"+00:00"_s), 2);
    pressAt(u"copyAll"_s);
    EXPECT_EQ(QApplication::clipboard()->text().count(u"+00:00"_s), work->entries().size());
}

TEST_F(DonePageTest, AsksForPaperAndForWhatIsCarriedAway)
{
    Night night;
    night.doUntil(u"lamp-off"_s);
    bringUp(night);
    press(Qt::Key_F11);
    const QSignalSpy paper(page.get(), &VisitPage::printRequested);
    const QSignalSpy record(page.get(), &VisitPage::recordRequested);
    const QSignalSpy report(page.get(), &VisitPage::reportRequested);
    const QSignalSpy readings(page.get(), &VisitPage::readingsRequested);

    pressAt(u"print"_s);
    pressAt(u"saveRecord"_s);
    pressAt(u"saveReport"_s);
    pressAt(u"saveReadings"_s);

    EXPECT_EQ(paper.size(), 1);
    EXPECT_EQ(record.size(), 1);
    EXPECT_EQ(report.size(), 1);
    EXPECT_EQ(readings.size(), 1);
}

TEST_F(DonePageTest, SpeaksEachEntryForAScreenReader)
{
    Night night;
    night.doUntil(u"gear-on"_s);
    bringUp(night);
    press(Qt::Key_F11);
    const auto* list = done()->findChild<DoneList*>();
    const int row = static_cast<int>(night.swap().record(StepId(u"try-start"_s)).entry);

    const QString spoken = list->model()->index(row, 0).data(Qt::AccessibleTextRole).toString();

    EXPECT_TRUE(spoken.startsWith(u"Try to start it, A. Okoro, "_s)) << spoken.toStdString();
    EXPECT_EQ(list->accessibleName(), u"What was done"_s);
}

TEST_F(DonePageTest, FitsBothSizesInBothThemes)
{
    for (const ThemeKind kind : {ThemeKind::Booth, ThemeKind::Office}) {
        for (const QSize size : {QSize(1366, 718), QSize(1920, 1030)}) {
            Night night(u"larkmoor-teal"_s, Night::Crew::WithTrainee);
            night.doUntil(u"gear-on"_s);
            bringUp(night, size, kind);
            const qint64 tried = night.swap().record(StepId(u"try-start"_s)).entry;
            press(Qt::Key_F11);
            look(u"done"_s);
            page->whatWasDone().beginPicture();
            QByteArray bytes;
            QBuffer buffer(&bytes);
            buffer.open(QIODevice::WriteOnly);
            snapshot().save(&buffer, "PNG");
            page->whatWasDone().givePicture(bytes);
            page->whatWasDone().choose(tried);
            page->whatWasDone().beginWithdraw();
            page->whatWasDone().setDraft(u"nobody watched the lamp of the other load"_s);
            look(u"done-withdrawing"_s);
            page->whatWasDone().done();
            look(u"done-withdrawn"_s);
            page->whatWasDone().beginWriting();
            look(u"done-note"_s);
        }
    }
}

TEST_F(DonePageTest, OffersARemarkOnceTheVisitIsClosedAndLeadsBackToTheVisits)
{
    Night night;
    night.doAll();
    night.close();
    bringUp(night);
    bool isLeft = false;
    QObject::connect(page.get(), &VisitPage::leaveRequested, page.get(), [&] { isLeft = true; });
    page->showWhatWasDone();
    settle();

    pressAt(u"write"_s);
    test::typeByHand(*page, work->clock(), u"the site called"_s);
    look(u"done-addendum"_s);
    press(Qt::Key_Return, Qt::ControlModifier);
    EXPECT_TRUE(std::holds_alternative<visit::Addendum>(work->entries().last().body));
    press(Qt::Key_Escape);
    EXPECT_TRUE(isLeft);
}

} // namespace
} // namespace coldarc::ui
