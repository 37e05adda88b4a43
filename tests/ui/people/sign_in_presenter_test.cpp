#include "ui/people/sign_in_presenter.h"

#include "tests/ui/people/people_at_work.h"
#include "ui/people/sign_in_page.h"

#include <QAbstractButton>
#include <QApplication>
#include <QLineEdit>
#include <QTest>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::test {
namespace {

using namespace ui;

const QString kRight = u"three hats on a peg"_s;

class SignInPresenterTest : public PeopleAtWork {
protected:
    void SetUp() override
    {
        enrol(u"ada"_s, u"A. Okoro"_s, kRight);
        enrol(u"ben"_s, u"B. Lind"_s, u"another long passphrase"_s, people::Role::Trainee);
        presenter.setPinCost(kCheapGuess);
        QObject::connect(&presenter, &SignInPresenter::signedIn, &presenter, [this] { ++signedIn; });
        presenter.begin();
    }
    void tryWrongly(int times)
    {
        for (int count = 0; count < times; ++count) {
            presenter.go(u"not this one either"_s, {});
            held.finish();
        }
    }

    HeldWork held;
    SessionKeeper keeper{clock, inPlace()};
    SignInPresenter presenter{people, keys, keeper, clock, held.behind()};
    int signedIn = 0;
};

TEST_F(SignInPresenterTest, AsksWhoAmongSeveral)
{
    const SignInView& view = presenter.view();

    EXPECT_EQ(view.ask, SignInView::Ask::Who);
    ASSERT_EQ(view.people.size(), 2);
    EXPECT_EQ(view.people.first(), (RowView{u"ada"_s, u"A. Okoro"_s, u"engineer"_s, {}}));
    EXPECT_EQ(view.action.stand, ActionView::Stand::Waits);
}

TEST_F(SignInPresenterTest, SaysThatItIsAtWorkWhileTheKeyIsOpenedElsewhere)
{
    presenter.choose(u"ada"_s);
    presenter.go(kRight, {});

    EXPECT_TRUE(held.isHeld());
    EXPECT_FALSE(presenter.view().busy.isEmpty());
    EXPECT_EQ(presenter.view().action.stand, ActionView::Stand::Waits);
    EXPECT_EQ(keeper.state(), SessionKeeper::State::Nobody);
}

TEST_F(SignInPresenterTest, TakesNoSecondTryWhileOneIsUnderWay)
{
    presenter.choose(u"ada"_s);
    presenter.go(u"not this one either"_s, {});
    presenter.go(u"nor this one, surely"_s, {});
    held.finish();

    EXPECT_EQ(keys.attempts(keys.sealedKey(PersonId(u"ada"_s))->publicKey)->wrong, 1);
}

TEST_F(SignInPresenterTest, OpensTheKeyAndThenAsksForAPin)
{
    presenter.choose(u"ada"_s);
    presenter.go(kRight, {});
    held.finish();

    EXPECT_EQ(presenter.view().ask, SignInView::Ask::Pin);
    EXPECT_EQ(keeper.state(), SessionKeeper::State::Open);
    EXPECT_EQ(keeper.who()->name, u"A. Okoro"_s);
    EXPECT_EQ(signedIn, 0);

    presenter.go(u"604193"_s, u"604193"_s);

    EXPECT_EQ(signedIn, 1);
}

TEST_F(SignInPresenterTest, TakesNoPinThatIsEasyOrTypedInTwoWays)
{
    presenter.choose(u"ada"_s);
    presenter.go(kRight, {});
    held.finish();

    presenter.go(u"123456"_s, u"123456"_s);
    EXPECT_FALSE(presenter.view().secret.error.isEmpty());
    presenter.go(u"604193"_s, u"604194"_s);
    EXPECT_EQ(presenter.view().again.error, u"The two differ."_s);

    EXPECT_EQ(signedIn, 0);
}

TEST_F(SignInPresenterTest, ARefusedPinLeavesBothBoxesEmptyAndTheCursorInTheFirst)
{
    SignInPage page(clock);
    QObject::connect(&presenter, &SignInPresenter::viewChanged, &page, &SignInPage::setView);
    QObject::connect(&page, &SignInPage::goRequested, &presenter, &SignInPresenter::go);
    page.setView(presenter.view());
    page.show();
    QApplication::setActiveWindow(&page);
    presenter.choose(u"ada"_s);
    presenter.go(kRight, {});
    held.finish();
    auto* first = page.findChild<QWidget*>(u"secret"_s)->findChild<QLineEdit*>();
    auto* second = page.findChild<QWidget*>(u"again"_s)->findChild<QLineEdit*>();
    const auto type = [](const QString& pin) {
        QTest::keyClicks(QApplication::focusWidget(), pin);
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    };
    clock.advance(1s);

    for (const QString& again : {u"111111"_s, u"604139"_s}) { // too easy; then not the same
        type(again == u"111111"_s ? again : u"604193"_s);
        EXPECT_EQ(QApplication::focusWidget(), second);
        type(again);
        EXPECT_EQ(first->text() + second->text(), QString());
        EXPECT_EQ(QApplication::focusWidget(), first);
    }
    type(u"604193"_s);
    type(u"604193"_s);
    EXPECT_EQ(signedIn, 1);
}

TEST_F(SignInPresenterTest, SaysOfAWrongPassphraseThatItIsWrongAndNothingElse)
{
    presenter.choose(u"ada"_s);
    tryWrongly(1);

    EXPECT_EQ(presenter.view().message, u"That is not the passphrase."_s);
    EXPECT_EQ(presenter.view().action.stand, ActionView::Stand::Ready);
    EXPECT_EQ(keeper.state(), SessionKeeper::State::Nobody);
}

// The fourth wrong one in a row makes the next try wait 30 s (core/people/attempts.h).
TEST_F(SignInPresenterTest, ShowsHowLongTheNextTryWaitsAndTakesNoneBefore)
{
    presenter.choose(u"ada"_s);
    tryWrongly(4);

    EXPECT_EQ(presenter.view().message, u"That is not the passphrase. The next try is free in 0:30."_s);
    EXPECT_EQ(presenter.view().action.stand, ActionView::Stand::Waits);
    clock.advance(12s);
    presenter.refresh();
    EXPECT_EQ(presenter.view().message, u"The next try is free in 0:18."_s);

    presenter.go(kRight, {});

    EXPECT_FALSE(held.isHeld()) << "nothing was tried";
    clock.advance(18s);
    presenter.refresh();
    EXPECT_EQ(presenter.view().message, QString());
    EXPECT_EQ(presenter.view().action.stand, ActionView::Stand::Ready);
}

TEST_F(SignInPresenterTest, StillWaitsForWhoeverGoesAwayAndComesBack)
{
    presenter.choose(u"ada"_s);
    tryWrongly(4);

    presenter.begin();
    presenter.choose(u"ada"_s);

    EXPECT_EQ(presenter.view().message, u"The next try is free in 0:30."_s);
}

TEST_F(SignInPresenterTest, OneClickAndTheKeysOfTheKeyboardSignIn)
{
    SignInPage page(clock);
    QObject::connect(&presenter, &SignInPresenter::viewChanged, &page, &SignInPage::setView);
    QObject::connect(&page, &SignInPage::personChosen, &presenter, &SignInPresenter::choose);
    QObject::connect(&page, &SignInPage::goRequested, &presenter, &SignInPresenter::go);
    page.setView(presenter.view());
    page.resize(1366, 768);
    page.show();

    QTest::mouseClick(page.findChild<QAbstractButton*>(u"row-ada"_s), Qt::LeftButton);
    auto* box = page.findChild<QWidget*>(u"secret"_s)->findChild<QLineEdit*>();
    QTest::keyClicks(box, kRight);
    clock.advance(1s);
    QTest::keyClick(box, Qt::Key_Return);
    ASSERT_TRUE(held.isHeld());
    EXPECT_FALSE(box->isEnabled());
    held.finish();

    EXPECT_EQ(keeper.state(), SessionKeeper::State::Open);
    EXPECT_EQ(box->text(), QString()) << "no secret stays in the box";
}

} // namespace
} // namespace coldarc::test
