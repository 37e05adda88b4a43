#include "ui/review/history_page.h"

#include "tests/support/targets.h"
#include "tests/ui/review/history_night.h"
#include "ui/parts/field.h"

#include <QApplication>
#include <QClipboard>
#include <QSignalSpy>
#include <QTest>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;

// All lamps, persons and places are invented.

class HistoryPageTest : public ::testing::Test {
protected:
    HistoryPageTest()
    {
        QObject::connect(&presenter, &HistoryPresenter::viewChanged, &page, &HistoryPage::setView);
        QObject::connect(&page, &HistoryPage::inSight, &presenter, &HistoryPresenter::open);
        QObject::connect(&page, &HistoryPage::aboutChosen, &presenter, &HistoryPresenter::chooseAbout);
        QObject::connect(&page, &HistoryPage::searched, &presenter, &HistoryPresenter::search);
        QObject::connect(&page, &HistoryPage::chosen, &presenter, &HistoryPresenter::choose);
        QObject::connect(&page, &HistoryPage::olderRequested, &presenter, &HistoryPresenter::older);
        QObject::connect(&page, &HistoryPage::newerRequested, &presenter, &HistoryPresenter::newer);
        QObject::connect(&page, &HistoryPage::lookUpRequested, &presenter, &HistoryPresenter::lookUp);
        QObject::connect(&page, &HistoryPage::stayFollowed, &presenter, &HistoryPresenter::followStay);
        QObject::connect(&page, &HistoryPage::copied, &presenter, &HistoryPresenter::copied);
        page.setText([this] { return presenter.text(); });
        test::keepNight(database, test::nightThatIsOver());
        EXPECT_TRUE(store.catchUp(9));
        page.resize(1366, 700);
        page.show();
        settle();
    }
    static void settle()
    {
        QApplication::sendPostedEvents();
        QApplication::processEvents();
    }
    template<class Kind = QWidget>
    [[nodiscard]] Kind* find(const QString& name) const
    {
        for (Kind* one : page.findChildren<Kind*>(name)) {
            if (one->isVisible())
                return one;
        }
        ADD_FAILURE() << "not in sight: " << name.toStdString();
        return nullptr;
    }
    [[nodiscard]] QString title() const { return page.findChild<QLabel*>(u"title"_s)->text(); }

    store::Database database = store::Database::inMemory();
    review::HistoryStore store{database};
    HistoryPresenter presenter{store, QTimeZone::utc()};
    HistoryPage page;
};

TEST_F(HistoryPageTest, ASerialThatIsTypedAndEnteredShowsItsLamp)
{
    QTest::keyClick(&page, Qt::Key_F, Qt::ControlModifier);
    QWidget* box = QApplication::focusWidget();
    ASSERT_TRUE(qobject_cast<QLineEdit*>(box));

    QTest::keyClicks(box, u"new 0000"_s);
    QTest::keyClick(box, Qt::Key_Return);
    settle();

    EXPECT_TRUE(title().endsWith(u"NEW000001"));
    EXPECT_TRUE(find<QLineEdit>(u"box"_s)->text() == u"new 0000"_s); // what is typed stays
}

TEST_F(HistoryPageTest, TheKeyboardAloneLeadsToEveryLineAndItsEntry)
{
    presenter.showLamp(LampId(u"new-1"_s));
    settle();
    QSignalSpy looked(&presenter, &HistoryPresenter::lookUpRequested);
    page.takeFocus();
    QSet<QWidget*> met;
    for (int press = 0; press < 200; ++press) {
        QWidget* focus = QApplication::focusWidget();
        ASSERT_TRUE(focus);
        if (met.contains(focus))
            break;
        met.insert(focus);
        if (focus->objectName().startsWith(u"act-") && looked.isEmpty() &&
            page.findChild<QWidget*>(u"lines"_s)->isAncestorOf(focus))
            QTest::keyClick(focus, Qt::Key_Space);
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Tab);
    }

    EXPECT_EQ(looked.size(), 1);
    for (QAbstractButton* button : page.findChildren<QAbstractButton*>()) {
        EXPECT_TRUE(!button->isVisible() || met.contains(button)) << button->objectName().toStdString();
    }
}

TEST_F(HistoryPageTest, CtrlCCopiesTheHistoryAndNotWhatIsTyped)
{
    presenter.showLamphouse(LamphouseId(u"lamphouse-1-main"_s));
    settle();
    QApplication::clipboard()->clear();
    auto* copy = find<QAbstractButton>(u"copy"_s);
    ASSERT_TRUE(copy);
    copy->setFocus();
    QTest::keyClick(copy, Qt::Key_C, Qt::ControlModifier);
    settle();

    EXPECT_EQ(QApplication::clipboard()->text(), presenter.text());
    EXPECT_TRUE(find<QLabel>(u"said"_s));
}

TEST_F(HistoryPageTest, EverythingThatIsPressedIsLargeEnough)
{
    presenter.showLamphouse(LamphouseId(u"lamphouse-1-main"_s));
    settle();
    for (const QWidget* target : test::targetsOf(page)) {
        EXPECT_GE(target->height(), 44) << target->objectName().toStdString();
        EXPECT_GE(target->width(), 44) << target->objectName().toStdString();
        const auto* button = qobject_cast<const QAbstractButton*>(target);
        EXPECT_FALSE(button && button->accessibleName().isEmpty() && button->text().isEmpty())
            << target->objectName().toStdString();
    }
}

TEST_F(HistoryPageTest, ThePressOfAStayShowsTheOtherHistoryFromItsTop)
{
    presenter.showLamphouse(LamphouseId(u"lamphouse-1-main"_s));
    settle();
    auto* stays = find<QWidget>(u"stays"_s);
    ASSERT_TRUE(stays);
    auto* act = stays->findChild<QAbstractButton*>(u"act-1"_s);
    ASSERT_TRUE(act);

    QTest::mouseClick(act, Qt::LeftButton);
    settle();

    EXPECT_TRUE(title().endsWith(u"OLD000001"));
    EXPECT_EQ(find<ChoiceRow>(u"about"_s)->chosen(), u"lamp"_s);
}

} // namespace
} // namespace coldarc::ui
