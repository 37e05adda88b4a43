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
#include <QPushButton>
#include <QTest>
#include <QVBoxLayout>

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
        QObject::connect(&presenter, &ReviewPresenter::pictureRead, &page, &ReviewPage::setPicture);
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
        column->addWidget(other);
        column->addWidget(&page, 1);
        window.resize(1366, 760);
        window.show();
        QApplication::setActiveWindow(&window);
        presenter.refresh();
        later.doAll();
        page.takeFocus();
        settle();
    }
    void TearDown() override { page.setParent(nullptr); }
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
        later.doAll();
        settle();
    }
    /// The same, and where the focus is while the next visit is read.
    [[nodiscard]] QString focusWhileReading(int key, Qt::KeyboardModifiers with = Qt::NoModifier)
    {
        QTest::keyClick(QApplication::focusWidget(), static_cast<Qt::Key>(key), with);
        settle();
        EXPECT_GT(later.waiting(), 0) << "something is being read";
        const QWidget* focus = QApplication::focusWidget();
        const QString name = focus && page.isAncestorOf(focus) ? focus->objectName() : u"not on the desk"_s;
        later.doAll();
        settle();
        return name;
    }
    template<class Kind>
    [[nodiscard]] Kind* find(const QString& name) const
    {
        return page.findChild<Kind*>(name);
    }

    test::FakeClock clock;
    DeskAtWork desk;
    test::Later later;
    ReviewPresenter presenter{desk.deeds(), clock, later.behind(), QTimeZone::utc()};
    QList<record::Review> signed_;
    VerdictPresenter verdict{{[this] { return supervisor(); }, [] { return true; },
                              [this](const record::Review& review) {
                                  signed_.append(review);
                                  return Result<void>();
                              }},
                             clock};
    QWidget window;
    QVBoxLayout* column = new QVBoxLayout(&window);
    QPushButton* other = new QPushButton(u"a place"_s, &window); ///< as those above the desk
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
    later.doAll();
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

TEST_F(ReviewPageTest, PageDownAndEndReachARemarkAfterClosingThatTheTimeLineDoesNotDraw)
{
    desk.night.clock.advance(std::chrono::days(36));
    ASSERT_TRUE(desk.night.tell(visit::Addendum{u"the site called: the fan rattles"_s}));
    key(Qt::Key_N);
    const qint64 remark = desk.night.entries.size() - 1;
    auto* line = find<TimeLineDrawing>(u"timeLine"_s);
    auto* after = find<TextLabel>(u"afterClosing"_s);
    EXPECT_TRUE(after->isVisible());
    EXPECT_TRUE(after->text().endsWith(u"entry %1"_s.arg(remark))) << after->text().toStdString();

    line->setFocus();
    key(Qt::Key_Home);
    key(Qt::Key_PageDown);
    ASSERT_LT(presenter.moment().entry, remark) << "what went wrong that night";
    for (int press = 0; press < 10 && presenter.moment().entry < remark; ++press)
        key(Qt::Key_PageDown);

    EXPECT_EQ(presenter.moment().entry, remark);
    key(Qt::Key_PageUp);
    EXPECT_LT(presenter.moment().entry, remark);
    key(Qt::Key_End);
    EXPECT_EQ(presenter.moment().entry, remark);
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
    auto* action = find<ActionButton>(u"action"_s);
    EXPECT_EQ(action->keyCap(), u"A"_s);
    key(Qt::Key_R);
    EXPECT_EQ(action->keyCap(), u"Ctrl+Enter"_s) << "letters go into the box";
    key(Qt::Key_Escape);
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

TEST_F(ReviewPageTest, WhileSomethingIsBegunItsKeysLeadBackIntoTheBox)
{
    key(Qt::Key_R);
    ASSERT_EQ(QApplication::focusWidget()->objectName(), u"box"_s);
    for (const Qt::Key letter : {Qt::Key_A, Qt::Key_S, Qt::Key_R}) {
        find<QWidget>(u"timeLine"_s)->setFocus();
        QTest::keyClick(find<QWidget>(u"timeLine"_s), letter);
        settle();
        EXPECT_EQ(QApplication::focusWidget()->objectName(), u"box"_s) << letter;
    }
    EXPECT_TRUE(find<QPlainTextEdit>(u"box"_s)->toPlainText().isEmpty());
    EXPECT_TRUE(signed_.isEmpty());
}

TEST_F(ReviewPageTest, TheFocusStaysOnTheDeskWhileTheNextVisitIsRead)
{
    EXPECT_EQ(focusWhileReading(Qt::Key_N), u"queue"_s);
    key(Qt::Key_T);
    ASSERT_EQ(QApplication::focusWidget()->objectName(), u"timeLine"_s);
    EXPECT_EQ(focusWhileReading(Qt::Key_B), u"queue"_s);
    EXPECT_EQ(QApplication::focusWidget()->objectName(), u"timeLine"_s) << "the next one has a time line too";
    key(Qt::Key_Home);
    EXPECT_EQ(presenter.moment().entry, 0) << "the arrows go on along it";

    clock.advance(std::chrono::seconds(1));
    EXPECT_EQ(focusWhileReading(Qt::Key_A), u"queue"_s);
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-2"_s));
    EXPECT_EQ(QApplication::focusWidget()->objectName(), u"timeLine"_s);
}

TEST_F(ReviewPageTest, WhoeverSendsBackByKeyboardStaysOnTheDesk)
{
    key(Qt::Key_S);
    QTest::keyClicks(find<QPlainTextEdit>(u"box"_s), u"Read it again"_s);
    settle();
    clock.advance(std::chrono::seconds(1));

    EXPECT_EQ(focusWhileReading(Qt::Key_Return, Qt::ControlModifier), u"queue"_s);

    ASSERT_EQ(signed_.size(), 1);
    EXPECT_EQ(QApplication::focusWidget()->objectName(), u"queue"_s);
    key(Qt::Key_Down);
    EXPECT_EQ(presenter.visit(), VisitId(u"visit-2"_s));
}

TEST_F(ReviewPageTest, WhoeverPressedTheButtonIsInTheQueueAfterwards)
{
    clock.advance(std::chrono::seconds(1));
    auto* action = page.findChild<ActionButton*>();
    action->setFocus();
    QTest::mouseClick(action, Qt::LeftButton);
    settle();
    later.doAll();
    settle();

    ASSERT_EQ(signed_.size(), 1);
    EXPECT_EQ(QApplication::focusWidget()->objectName(), u"queue"_s)
        << "no second press by Space signs the next";
}

TEST_F(ReviewPageTest, TheLastVisitOfTheQueueLeavesItsConfirmationAndTheFocusOnTheDesk)
{
    for (int visit = 0; visit < 2; ++visit) {
        clock.advance(std::chrono::seconds(1));
        key(Qt::Key_A);
    }
    ASSERT_EQ(signed_.size(), 2);
    ASSERT_TRUE(presenter.visit().isEmpty());

    const auto* said = find<TextLabel>(u"saidAlone"_s);
    EXPECT_TRUE(said->isVisible());
    EXPECT_TRUE(said->text().startsWith(u"Accepted and signed: Pier Street"_s)) << said->text().toStdString();
    EXPECT_TRUE(said->fits());
    const auto* empty = find<TextLabel>(u"empty"_s);
    EXPECT_TRUE(empty->isVisible());
    EXPECT_GE(empty->mapTo(&page, QPoint()).x(), find<QWidget>(u"queue"_s)->geometry().right() + 20)
        << "not on the line beside the queue";
    EXPECT_EQ(QApplication::focusWidget()->objectName(), u"filter"_s);

    key(Qt::Key_F);
    EXPECT_TRUE(find<Field>(u"filterText"_s)->box()->hasFocus());
    key(Qt::Key_Escape);
    EXPECT_EQ(QApplication::focusWidget()->objectName(), u"filter"_s) << "there is no row to go to";
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
        window.resize(size);
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
