#include "ui/review/review_page.h"

#include "tests/support/targets.h"
#include "tests/ui/review/desk_at_work.h"
#include "ui/machine/machine_drawing.h"
#include "ui/parts/field.h"
#include "ui/parts/painted_button.h"
#include "ui/parts/reach.h"
#include "ui/parts/text_label.h"
#include "ui/review/review_parts.h"

#include <QApplication>
#include <QLineEdit>
#include <QMouseEvent>
#include <QTest>

#include <cmath>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using test::DeskAtWork;

/// The page over its presenter, as the program ties them.
class ReviewPageTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        QObject::connect(&presenter, &ReviewPresenter::queueChanged, &page, &ReviewPage::setQueueView);
        QObject::connect(&presenter, &ReviewPresenter::viewChanged, &page, &ReviewPage::setView);
        QObject::connect(&presenter, &ReviewPresenter::momentChanged, &page, &ReviewPage::setMoment);
        QObject::connect(&page, &ReviewPage::rowChosen, &presenter, &ReviewPresenter::chooseRow);
        QObject::connect(&page, &ReviewPage::nextRequested, &presenter, &ReviewPresenter::next);
        QObject::connect(&page, &ReviewPage::previousRequested, &presenter, &ReviewPresenter::previous);
        QObject::connect(&page, &ReviewPage::textTyped, &presenter, &ReviewPresenter::setText);
        QObject::connect(&page, &ReviewPage::entryChosen, &presenter, &ReviewPresenter::goTo);
        QObject::connect(&page, &ReviewPage::momentWanted, &presenter, &ReviewPresenter::goToMoment);
        QObject::connect(&page, &ReviewPage::stepWanted, &presenter, &ReviewPresenter::step);
        page.resize(1366, 720);
        page.show();
        QApplication::setActiveWindow(&page);
        presenter.refresh();
        page.takeFocus();
        settle();
    }
    static void settle()
    {
        QApplication::sendPostedEvents();
        QApplication::processEvents();
    }
    void key(int key, Qt::KeyboardModifiers with = Qt::NoModifier)
    {
        QWidget* focus = QApplication::focusWidget();
        QTest::keyClick(focus && page.isAncestorOf(focus) ? focus : &page, static_cast<Qt::Key>(key), with);
        settle();
    }
    template<class Kind>
    [[nodiscard]] Kind* find(const QString& name) const
    {
        return page.findChild<Kind*>(name);
    }

    test::FakeClock clock;
    DeskAtWork desk;
    ReviewPresenter presenter{desk.deeds(), clock, inPlace(), QTimeZone::utc()};
    ReviewPage page{presenter.queue()};
};

TEST_F(ReviewPageTest, JAndKGoThroughTheQueue)
{
    ASSERT_EQ(presenter.visit(), VisitId(u"visit-1"_s));
    key(Qt::Key_J);
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-2"_s));
    EXPECT_EQ(find<QueueList>(u"queue"_s)->currentIndex().row(), 1);
    key(Qt::Key_K);
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-1"_s));
}

TEST_F(ReviewPageTest, TheArrowsGoThroughTheQueueWhileItHasTheFocus)
{
    find<QueueList>(u"queue"_s)->setFocus();
    key(Qt::Key_Down);
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-2"_s));
    key(Qt::Key_Up);
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-1"_s));
}

TEST_F(ReviewPageTest, NoLetterActsWhileATextFieldHasTheFocus)
{
    key(Qt::Key_F);
    QLineEdit* box = find<Field>(u"filterText"_s)->box();
    ASSERT_TRUE(box->hasFocus());

    QTest::keyClicks(box, u"jkf"_s);
    settle();

    EXPECT_EQ(box->text(), u"jkf"_s);
    EXPECT_EQ(desk.lastFilter.text, u"jkf"_s);
    EXPECT_EQ(presenter.queueView().current, -1) << "nothing is called so";
    key(Qt::Key_Escape);
    EXPECT_FALSE(find<QWidget>(u"filterPanel"_s)->isVisible());
}

TEST_F(ReviewPageTest, DraggingAlongTheTimeLineMovesTheMoment)
{
    auto* line = find<TimeLineDrawing>(u"timeLine"_s);
    ASSERT_TRUE(line->isVisible());
    const auto at = [&](double minutes) {
        return QPoint(static_cast<int>(std::lround(line->placeOf(minutes))), line->height() / 2);
    };
    const double whole = presenter.view().timeLine.minutes;

    QTest::mousePress(line, Qt::LeftButton, {}, at(0));
    EXPECT_LE(presenter.moment().entry, 2);
    QMouseEvent move(QEvent::MouseMove, at(whole), line->mapToGlobal(at(whole)), Qt::NoButton, Qt::LeftButton,
                     Qt::NoModifier);
    QApplication::sendEvent(line, &move);
    QTest::mouseRelease(line, Qt::LeftButton, {}, at(whole));

    EXPECT_EQ(presenter.moment().entry, desk.night.entries.size() - 1);
    EXPECT_EQ(find<TextLabel>(u"momentHead"_s)->text(), presenter.moment().head);
}

TEST_F(ReviewPageTest, TheArrowsGoAlongTheTimeLineFromItsKey)
{
    key(Qt::Key_T);
    ASSERT_TRUE(find<TimeLineDrawing>(u"timeLine"_s)->hasFocus());
    key(Qt::Key_Home);
    EXPECT_EQ(presenter.moment().entry, 0);
    key(Qt::Key_Right);
    key(Qt::Key_Right);
    EXPECT_EQ(presenter.moment().entry, 2);
    key(Qt::Key_Left);
    EXPECT_EQ(presenter.moment().entry, 1);
    key(Qt::Key_PageDown);
    EXPECT_EQ(presenter.moment().entry, presenter.view().timeLine.marks.first().entry);
}

TEST_F(ReviewPageTest, ACardLeadsToItsMoment)
{
    presenter.goTo(0);
    const ReviewCard& first = presenter.view().cards.first();
    auto* card = find<ExceptionCard>(u"exception-%1"_s.arg(first.entry));
    ASSERT_TRUE(card && card->isVisible());

    QTest::mouseClick(card, Qt::LeftButton);

    EXPECT_EQ(presenter.moment().entry, first.entry);
}

TEST_F(ReviewPageTest, EveryTargetIsLargeEnoughAndNothingIsCutOff)
{
    for (const QSize size : {QSize(1366, 720), QSize(1920, 1032)}) {
        page.resize(size);
        settle();
        for (const QWidget* target : test::targetsOf(page)) {
            if (qobject_cast<const QAbstractButton*>(target)) {
                EXPECT_GE(target->height(), kHandTarget) << target->objectName().toStdString();
            }
        }
        for (const auto* label : page.findChildren<TextLabel*>())
            EXPECT_TRUE(!label->isVisible() || label->fits()) << label->text().toStdString();
        for (const auto* button : page.findChildren<PaintedButton*>())
            EXPECT_TRUE(!button->isVisible() || button->fits()) << button->text().toStdString();
        EXPECT_TRUE(find<TimeLineDrawing>(u"timeLine"_s)->fits());
        EXPECT_TRUE(page.findChild<MachineDrawing*>()->fits());
    }
}

TEST_F(ReviewPageTest, EverythingHasANameForAScreenReader)
{
    for (const auto* button : page.findChildren<QAbstractButton*>())
        EXPECT_TRUE(!button->isVisible() || !button->accessibleName().isEmpty())
            << button->objectName().toStdString();
    EXPECT_FALSE(find<TimeLineDrawing>(u"timeLine"_s)->accessibleDescription().isEmpty());
}

} // namespace
} // namespace coldarc::ui
