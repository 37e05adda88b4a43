#include "ui/review/review_page.h"

#include "tests/support/targets.h"
#include "tests/ui/review/desk_at_work.h"
#include "ui/machine/machine_drawing.h"
#include "ui/parts/action_button.h"
#include "ui/parts/combo_field.h"
#include "ui/parts/field.h"
#include "ui/parts/painted_button.h"
#include "ui/parts/reach.h"
#include "ui/parts/text_label.h"
#include "ui/review/review_parts.h"
#include "ui/review/verdict_presenter.h"

#include <QApplication>
#include <QComboBox>
#include <QLineEdit>
#include <QMouseEvent>
#include <QPlainTextEdit>
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
        QObject::connect(&presenter, &ReviewPresenter::viewChanged, &verdict,
                         [this] { verdict.show(presenter.reading()); });
        QObject::connect(&presenter, &ReviewPresenter::momentChanged, &verdict,
                         [this](const MomentView& moment) { verdict.setMoment(moment.entry); });
        QObject::connect(&verdict, &VerdictPresenter::viewChanged, &page, &ReviewPage::setVerdict);
        QObject::connect(&page, &ReviewPage::remarkRequested, &verdict, &VerdictPresenter::beginRemark);
        QObject::connect(&page, &ReviewPage::sendBackRequested, &verdict, &VerdictPresenter::beginSendBack);
        QObject::connect(&page, &ReviewPage::formLeft, &verdict, &VerdictPresenter::leaveForm);
        QObject::connect(&page, &ReviewPage::draftChanged, &verdict, &VerdictPresenter::setDraft);
        QObject::connect(&page, &ReviewPage::remarkDropped, &verdict, &VerdictPresenter::dropRemark);
        QObject::connect(&page, &ReviewPage::doneRequested, &verdict, &VerdictPresenter::done);
        QObject::connect(&verdict, &VerdictPresenter::given, [this](const VisitId& visit) {
            for (DeskAtWork::Line& line : desk.lines) {
                if (line.id == visit.text())
                    line.review = u"accepted"_s;
            }
            presenter.refresh();
        });
        clock.setWall(desk.night.clock.now().wall);
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
    QList<record::Review> signed_;
    VerdictPresenter verdict{{[this] { return supervisor(); }, [] { return true; },
                              [this](const record::Review& review) {
                                  signed_.append(review);
                                  return Result<void>();
                              }},
                             clock};
    ReviewPage page{presenter.queue(), clock};

private:
    [[nodiscard]] std::optional<review::Reviewer> supervisor() const
    {
        const PersonId id(u"duarte"_s);
        const people::Day today = people::utcDayOf(clock.now().wall);
        const people::Authorisation supervise{
            people::AuthorisationId(u"a1"_s), id, people::Duty::Supervise, {}, today, today, id, {}};
        return review::Reviewer{{id, u"M. Duarte"_s, people::Role::Supervisor, {}, {}, {}}, {supervise}};
    }
};

TEST_F(ReviewPageTest, NAndBGoThroughTheQueue)
{
    ASSERT_EQ(presenter.visit(), VisitId(u"visit-1"_s));
    key(Qt::Key_N);
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-2"_s));
    EXPECT_EQ(find<QueueList>(u"queue"_s)->currentIndex().row(), 1);
    key(Qt::Key_B);
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

    QTest::keyClicks(box, u"nbf"_s);
    settle();

    EXPECT_EQ(box->text(), u"nbf"_s);
    EXPECT_EQ(desk.lastFilter.text, u"nbf"_s);
    EXPECT_EQ(presenter.queueView().current, -1) << "nothing is called so";
    key(Qt::Key_Escape);
    EXPECT_FALSE(find<QWidget>(u"filterPanel"_s)->isVisible());
}

TEST_F(ReviewPageTest, NoLetterActsWhileSomethingIsChosenInTheFilter)
{
    key(Qt::Key_F);
    auto* stand = find<ComboField>(u"filterStand"_s);
    ASSERT_TRUE(stand);
    auto* box = stand->findChild<QComboBox*>();
    box->setFocus();
    ASSERT_TRUE(box->hasFocus());

    for (const Qt::Key letter : {Qt::Key_A, Qt::Key_S, Qt::Key_R})
        QTest::keyClick(box, letter);
    QTest::keyClick(box, Qt::Key_Return, Qt::ControlModifier);
    settle();

    EXPECT_TRUE(signed_.isEmpty());
    EXPECT_FALSE(find<QWidget>(u"verdictForm"_s)->isVisible());
}

TEST_F(ReviewPageTest, TheQueueTakesNobodyToAnotherVisitByHavingTheFocus)
{
    presenter.showAt(VisitId(u"visit-of-another-list"_s), 0);
    settle();
    ASSERT_FALSE(find<QueueList>(u"queue"_s)->currentIndex().isValid());
    find<QWidget>(u"timeLine"_s)->setFocus();

    find<QueueList>(u"queue"_s)->setFocus(Qt::TabFocusReason);
    settle();

    EXPECT_EQ(presenter.visit(), VisitId(u"visit-of-another-list"_s));
    EXPECT_FALSE(find<QueueList>(u"queue"_s)->currentIndex().isValid());
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

TEST_F(ReviewPageTest, AAcceptsAndTheNextVisitComesUp)
{
    clock.advance(std::chrono::seconds(1)); // a visit just shown takes no press for 0.7 s
    key(Qt::Key_A);

    ASSERT_EQ(signed_.size(), 1);
    EXPECT_EQ(signed_.first().verdict, record::Verdict::Accepted);
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-2"_s));
    EXPECT_TRUE(find<TextLabel>(u"said"_s)->text().startsWith(u"Accepted and signed"_s));
    key(Qt::Key_A);
    EXPECT_EQ(signed_.size(), 1) << "the press was meant for the visit before";
    clock.advance(std::chrono::seconds(1));
    key(Qt::Key_A);
    EXPECT_EQ(signed_.size(), 2);
}

TEST_F(ReviewPageTest, RRemarksOnTheEntryInHandAndTheLettersGoIntoTheBox)
{
    presenter.goTo(5);
    key(Qt::Key_R);
    auto* box = find<QPlainTextEdit>(u"box"_s);
    ASSERT_TRUE(box->isVisible() && box->hasFocus());
    QTest::keyClicks(box, u"jkars"_s);
    settle();
    EXPECT_EQ(box->toPlainText(), u"jkars"_s);
    EXPECT_TRUE(signed_.isEmpty());
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-1"_s));

    clock.advance(std::chrono::seconds(1));
    key(Qt::Key_Return, Qt::ControlModifier);

    EXPECT_FALSE(box->isVisible());
    ASSERT_EQ(verdict.view().remarks.size(), 1);
    EXPECT_TRUE(verdict.view().remarks.first().sub.startsWith(u"Entry 5, "_s));
}

TEST_F(ReviewPageTest, SSendsBackWithWordsAndEscapeLeavesThem)
{
    key(Qt::Key_S);
    auto* box = find<QPlainTextEdit>(u"box"_s);
    ASSERT_TRUE(box->hasFocus());
    QTest::keyClicks(box, u"Read it again"_s);
    key(Qt::Key_Escape);
    EXPECT_FALSE(box->isVisible());
    EXPECT_TRUE(signed_.isEmpty());

    key(Qt::Key_S);
    EXPECT_EQ(box->toPlainText(), u"Read it again"_s) << "what was typed is not lost";
    clock.advance(std::chrono::seconds(1));
    key(Qt::Key_Return, Qt::ControlModifier);
    ASSERT_EQ(signed_.size(), 1);
    EXPECT_EQ(signed_.first().verdict, record::Verdict::SentBack);
    EXPECT_EQ(signed_.first().text, u"Read it again"_s);
}

TEST_F(ReviewPageTest, WithAFormOpenNothingIsCutOffEither)
{
    key(Qt::Key_S);
    for (const auto* label : page.findChildren<TextLabel*>())
        EXPECT_TRUE(!label->isVisible() || label->fits()) << label->text().toStdString();
    for (const auto* button : page.findChildren<PaintedButton*>())
        EXPECT_TRUE(!button->isVisible() || button->fits()) << button->text().toStdString();
}

TEST_F(ReviewPageTest, EveryTargetIsLargeEnoughAndNothingIsCutOff)
{
    EXPECT_GE(page.findChild<ActionButton*>()->height(), kGloveTargetFloor);
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
