#include "ui/people/session_keeper.h"

#include "tests/ui/people/people_at_work.h"
#include "ui/people/lock_overlay.h"

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::test {
namespace {

using namespace ui;

const QString kPin = u"604193"_s;

class SessionKeeperTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        people::Person ada;
        ada.id = PersonId(u"ada"_s);
        ada.name = u"A. Okoro"_s;
        keeper.begin(ada, people::Session(ada.id, people::SigningKey::generate(), clock.now(), kCheapGuess));
    }
    void setPin()
    {
        keeper.setPin(*people::Pin::accept(kPin));
        held.finish();
    }
    [[nodiscard]] Result<people::Signature> sign()
    {
        return keeper.sign(
            {VisitId(u"visit-1"_s), 0, Hash(), people::Meaning::Performed, {}, PersonId(u"engineer-1"_s)});
    }

    FakeClock clock;
    HeldWork held;
    SessionKeeper keeper{clock, held.behind()};
    LockPresenter lock{keeper};
};

// people::Session locks after ten minutes without a press.
TEST_F(SessionKeeperTest, LocksAfterTenMinutesWithoutAPress)
{
    setPin();
    clock.advance(9min + 59s);
    keeper.look();
    EXPECT_EQ(keeper.state(), SessionKeeper::State::Open);

    clock.advance(1s);
    keeper.look();

    EXPECT_EQ(keeper.state(), SessionKeeper::State::Locked);
    EXPECT_TRUE(lock.view().isUp);
    EXPECT_FALSE(sign());
}

TEST_F(SessionKeeperTest, StaysOpenWhileSomebodyPressesNowAndThen)
{
    setPin();
    for (int count = 0; count < 5; ++count) {
        clock.advance(6min);
        keeper.press();
    }

    EXPECT_EQ(keeper.state(), SessionKeeper::State::Open);
    EXPECT_TRUE(sign());
}

TEST_F(SessionKeeperTest, StaysOpenWithoutAPressWhileSomebodyIsInside)
{
    setPin();
    keeper.holdOpen();
    clock.advance(50min);
    keeper.look();
    EXPECT_EQ(keeper.state(), SessionKeeper::State::Open);

    keeper.release();
    clock.advance(10min);
    keeper.look();

    EXPECT_EQ(keeper.state(), SessionKeeper::State::Locked);
}

TEST_F(SessionKeeperTest, OpensAgainByThePinAndSignsNothingWhileItIsTried)
{
    setPin();
    keeper.lock();

    lock.tryPin(kPin);

    EXPECT_EQ(keeper.state(), SessionKeeper::State::Busy);
    EXPECT_FALSE(sign());
    EXPECT_FALSE(lock.view().busy.isEmpty());
    EXPECT_TRUE(lock.view().isUp);
    held.finish();
    EXPECT_EQ(keeper.state(), SessionKeeper::State::Open);
    EXPECT_FALSE(lock.view().isUp);
    EXPECT_TRUE(sign());
}

TEST_F(SessionKeeperTest, TellsHowManyWrongPinsAreLeftAndEndsWithTheTenth)
{
    setPin();
    keeper.lock();
    for (int count = 1; count <= 9; ++count) {
        lock.tryPin(u"111222"_s);
        held.finish();
    }
    EXPECT_EQ(lock.view().message, u"That is not the PIN. One more try, then only the passphrase helps."_s);

    lock.tryPin(u"111222"_s);
    held.finish();

    EXPECT_EQ(keeper.state(), SessionKeeper::State::Ended);
    EXPECT_FALSE(lock.view().asksPin);
    lock.tryPin(kPin);
    held.finish();
    EXPECT_EQ(keeper.state(), SessionKeeper::State::Ended) << "the right PIN is refused as well";
}

TEST_F(SessionKeeperTest, ALockDuringWorkForWhoeverLeftMeanwhileChangesNothing)
{
    setPin();
    keeper.lock();
    lock.tryPin(kPin);

    keeper.signOut();
    held.finish();

    EXPECT_EQ(keeper.state(), SessionKeeper::State::Nobody);
    EXPECT_FALSE(keeper.who());
}

TEST_F(SessionKeeperTest, IsNotCoveredWhileThePinIsSetForTheFirstTime)
{
    keeper.setPin(*people::Pin::accept(kPin));

    EXPECT_EQ(keeper.state(), SessionKeeper::State::Busy);
    EXPECT_FALSE(lock.view().isUp);
}

} // namespace
} // namespace coldarc::test
