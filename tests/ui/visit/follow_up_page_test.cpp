#include "tests/ui/visit/fingers.h"
#include "tests/ui/visit/visit_at_work.h"
#include "ui/parts/painted_button.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"
#include "ui/visit/bench_page.h"
#include "ui/visit/visit_page.h"

#include <QApplication>
#include <QDir>
#include <QLineEdit>
#include <QStackedLayout>
#include <QTest>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::Night;
using test::VisitAtWork;

// All lamps, persons and places are invented.

/// Somebody at the keyboard who only does what was owed.
class FollowUpPageTest : public ::testing::Test {
protected:
    void bringUp(const QStringList& owed, ThemeKind kind = ThemeKind::Booth, QSize size = {1366, 768})
    {
        theme.apply(kind);
        page.reset();
        work.reset();
        night = std::make_unique<Night>(test::followUpOf(Night(), owed));
        work = std::make_unique<VisitAtWork>(*night);
        page = std::make_unique<VisitPage>(work->desk(), *qApp);
        page->resize(size);
        page->show();
        QApplication::setActiveWindow(page.get());
        settle();
        page->findChild<BenchPage*>()->takeFocus();
    }
    void settle()
    {
        for (int i = 0; i < 3; ++i)
            QApplication::processEvents();
    }
    [[nodiscard]] QWidget* shown() const { return page->findChild<QStackedLayout*>()->currentWidget(); }
    [[nodiscard]] QString shownName() const { return shown()->objectName(); }
    void key(Qt::Key pressed)
    {
        QWidget* holder = QApplication::focusWidget();
        test::pressByHand(*page, work->clock(), holder ? holder : shown(), pressed);
        settle();
    }
    void type(const QString& text)
    {
        test::typeByHand(*page, work->clock(), text);
        settle();
    }
    /// The first answer to every question of the card, then the main action.
    void doCard()
    {
        night->clock.advance(1s);
        const qsizetype asked = page->bench().view().card.captures.size();
        for (qsizetype index = 0; index < asked; ++index)
            key(Qt::Key_1);
        key(Qt::Key_Return);
    }
    void look(const QString& name)
    {
        if (const QString folder = qEnvironmentVariable("COLDARC_PICTURES"); !folder.isEmpty())
            page->grab().save(QDir(folder).filePath(
                u"follow-up-%1-%2-%3.png"_s
                    .arg(name, theme.kind() == ThemeKind::Booth ? u"booth"_s : u"office"_s)
                    .arg(page->width())));
        for (const auto* label : shown()->findChildren<TextLabel*>())
            EXPECT_TRUE(!label->isVisible() || label->fits()) << label->text().toStdString();
        for (const auto* button : shown()->findChildren<PaintedButton*>()) {
            EXPECT_TRUE(!button->isVisible() || button->fits()) << button->text().toStdString();
        }
    }

    Theme theme{*qApp};
    std::unique_ptr<Night> night;
    std::unique_ptr<VisitAtWork> work;
    std::unique_ptr<VisitPage> page;
};

TEST_F(FollowUpPageTest, GoesFromTheLookToTheSignatureByKeyboard)
{
    bringUp({u"peak-again"_s, u"measure-screen"_s});
    EXPECT_EQ(page->bench().view().subtitle, u"what is owed"_s);
    EXPECT_EQ(page->bench().view().gates.last().words, u"waits: lamp lit"_s);

    doCard(); // lit, and everything as it should be
    ASSERT_EQ(work->state().machine.lamphouse[0].heat, machine::Heat::Lit);
    EXPECT_EQ(page->bench().view().makeSafeEnd, u"leads to: as it was, the lamp stays in use"_s);
    if (!work->state().machine.lamphouse[0].dowserOpen)
        doCard();
    night->clock.advance(work->state().ground->waits[0].settle);
    page->refresh();
    settle();
    night->clock.advance(1s);
    key(Qt::Key_Return);
    ASSERT_EQ(shownName(), u"lightPage"_s);
    for (const QString& light : {u"40"_s, u"41,5"_s}) {
        type(light);
        night->clock.advance(20s);
        key(Qt::Key_Return);
    }
    EXPECT_EQ(work->state().light.size(), 2);
    night->clock.advance(1s);
    key(Qt::Key_F6);
    ASSERT_TRUE(work->state().swaps[0].record(StepId(u"peak-again"_s)).status ==
                visit::StepRecord::Status::Done);
    if (shownName() == u"benchPage") {
        night->clock.advance(1s);
        key(Qt::Key_Return);
    }
    ASSERT_EQ(shownName(), u"sheetPage"_s);
    EXPECT_EQ(page->sheet().view().time, u"under the lamp that is in"_s);
    type(u"48"_s);
    key(Qt::Key_Return);
    night->clock.advance(1s);
    QTest::mouseClick(shown()->findChild<QWidget*>(u"action"_s), Qt::LeftButton);
    settle();

    EXPECT_EQ(work->state().swaps[0].record(StepId(u"measure-screen"_s)).status,
              visit::StepRecord::Status::Done);
    const visit::NextStep next = visit::nextStep(work->state(), work->state().swaps[0], 0);
    ASSERT_TRUE(next.step);
    EXPECT_EQ(next.step->effect, machine::Effect::Sign);
}

TEST_F(FollowUpPageTest, NothingIsCutOffInEitherThemeOrSize)
{
    for (const ThemeKind kind : {ThemeKind::Booth, ThemeKind::Office}) {
        for (const QSize size : {QSize(1366, 768), QSize(1920, 1080)}) {
            bringUp({u"peak-again"_s, u"measure-screen"_s}, kind, size);
            look(u"find"_s);
            doCard();
            if (!work->state().machine.lamphouse[0].dowserOpen)
                doCard();
            look(u"settling"_s);
            EXPECT_NE(shownName(), u"lightPage"_s) << "nobody seeks a peak before it has settled";
        }
    }
}

} // namespace
} // namespace coldarc::ui
