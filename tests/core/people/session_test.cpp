#include "core/people/session.h"

#include "core/people/jws.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using State = Session::State;
using PinOutcome = Session::PinOutcome;

constexpr GuessCost kCheap{1, 8}; // the least that the library takes

class SessionTest : public ::testing::Test {
protected:
    void setPin(const QString& digits = u"804173"_s)
    {
        ASSERT_TRUE(session.setPin(std::move(*Pin::accept(digits)), clock.now()));
    }
    State state() { return session.state(clock.now()); }
    PinOutcome unlock(const QString& digits) { return session.unlock(digits, clock.now()).value(); }
    Result<Signature> sign() { return session.sign(statement, clock.now()); }

    test::FakeClock clock;
    HeadStatement statement{VisitId(u"visit-7"_s), 3,  sha256("head"),
                            Meaning::Stop,         {}, PersonId(u"person-3"_s)};
    Session session{PersonId(u"p-1"_s), SigningKey::generate(), clock.now(), kCheap};
};

TEST_F(SessionTest, SignsTheHeadOfAVisitWhileOpen)
{
    const auto signature = sign();

    ASSERT_TRUE(signature);
    EXPECT_TRUE(isSignedBy(session.publicKey(), statement, *signature));
}

TEST_F(SessionTest, SignsAnotherPaperOnlyIfItCannotBeTakenForAHead)
{
    const PaperJws paper{"{\"alg\":\"Ed25519\",\"typ\":\"coldarc-review\"}", "{}"};
    const auto signature = session.sign(paper, clock.now());
    ASSERT_TRUE(signature);
    EXPECT_TRUE(isSignedBy(session.publicKey(), signingInput(paper), *signature));

    const HeadJws head = *headJws(statement, session.publicKey());
    EXPECT_EQ(session.sign(PaperJws{head.protectedHeader, head.payload}, clock.now()).error().kind,
              Error::Kind::Malformed);
    EXPECT_FALSE(session.sign(PaperJws{"[]", "{}"}, clock.now()));
    session.lock();
    EXPECT_EQ(session.sign(paper, clock.now()).error().kind, Error::Kind::Refused);
}

TEST_F(SessionTest, LocksAfterTenMinutesWithoutAPress)
{
    setPin();

    clock.advance(9min + 59s);
    EXPECT_EQ(state(), State::Open);
    clock.advance(1s);
    EXPECT_EQ(state(), State::Locked);

    const auto signature = sign();
    ASSERT_FALSE(signature);
    EXPECT_EQ(signature.error().kind, Error::Kind::Refused);
}

TEST_F(SessionTest, RefusesToSignWhenTheTimeIsOverThoughNobodyLooked)
{
    setPin();

    clock.advance(10min);

    EXPECT_FALSE(sign());
}

TEST_F(SessionTest, CountsTheTenMinutesFromTheLastPress)
{
    setPin();
    clock.advance(9min);
    session.press(clock.now());

    clock.advance(9min);
    EXPECT_EQ(state(), State::Open);
    clock.advance(1min);
    EXPECT_EQ(state(), State::Locked);
}

TEST_F(SessionTest, IsNotWokenByAPressOnceTheTimeIsOver)
{
    setPin();
    clock.advance(11min);

    session.press(clock.now());

    EXPECT_EQ(state(), State::Locked);
}

TEST_F(SessionTest, DoesNotCountLookingOrSigningAsAPress)
{
    setPin();
    clock.advance(9min);
    ASSERT_TRUE(sign());

    clock.advance(1min);

    EXPECT_EQ(state(), State::Locked);
}

TEST_F(SessionTest, DoesNotCareForTheWallClock)
{
    setPin();
    clock.setWall(clock.now().wall + 24h);
    EXPECT_EQ(state(), State::Open);

    clock.setWall(clock.now().wall - 48h);
    clock.advance(10min);
    EXPECT_EQ(state(), State::Locked);
}

TEST_F(SessionTest, StaysOpenWhileSomebodyIsInTheZone)
{
    session.holdOpen(clock.now());
    clock.advance(3h);
    EXPECT_EQ(state(), State::Open);
    EXPECT_TRUE(sign());

    session.release(clock.now());
    clock.advance(9min);
    EXPECT_EQ(state(), State::Open);
    clock.advance(1min);
    EXPECT_EQ(state(), State::Ended); // no PIN was set
}

TEST_F(SessionTest, IsNotOpenedByHoldingItOpen)
{
    setPin();
    clock.advance(10min);

    session.holdOpen(clock.now());

    EXPECT_EQ(state(), State::Locked);
}

TEST_F(SessionTest, LocksWhenTheComputerSleptEvenInTheZone)
{
    setPin();
    session.holdOpen(clock.now());

    clock.sleep(1s);

    EXPECT_EQ(state(), State::Locked);
    EXPECT_EQ(unlock(u"804173"_s), PinOutcome::Opened);
    EXPECT_EQ(state(), State::Open);
}

TEST_F(SessionTest, DoesNotTakeTwoClocksReadApartForSleep)
{
    clock.sleep(20ms);

    EXPECT_EQ(state(), State::Open);
}

TEST_F(SessionTest, LocksWhenTheBootClockIsAnotherOneEvenInTheZone)
{
    setPin();
    session.holdOpen(clock.now());

    clock.reboot(0ms, 1h + 1min); // a minute on, as if nothing had happened

    EXPECT_EQ(state(), State::Locked);
}

TEST_F(SessionTest, LocksWhenTheBootClockRanBackwards)
{
    setPin();
    session.holdOpen(clock.now());
    Stamp earlier = clock.now();
    earlier.sinceBoot -= 1ms;

    EXPECT_EQ(session.state(earlier), State::Locked);
}

TEST_F(SessionTest, OpensAgainByPinAsTheSameKey)
{
    setPin();
    session.lock();
    ASSERT_EQ(state(), State::Locked);

    EXPECT_EQ(unlock(u"804173"_s), PinOutcome::Opened);

    const auto signature = sign();
    ASSERT_TRUE(signature);
    EXPECT_TRUE(isSignedBy(session.publicKey(), statement, *signature));
    clock.advance(9min);
    EXPECT_EQ(state(), State::Open);
}

TEST_F(SessionTest, EndsWhenItLocksWithoutAPin)
{
    session.lock();

    EXPECT_EQ(state(), State::Ended);
    EXPECT_EQ(unlock(u"804173"_s), PinOutcome::Ended);
}

// NIST SP 800-63B-4 (second public draft): no more than ten wrong activation secrets in a row.
TEST_F(SessionTest, EndsWithTheTenthWrongPinAndRefusesTheRightOneAfterIt)
{
    setPin();
    session.lock();

    for (int wrong = 1; wrong <= 9; ++wrong)
        EXPECT_EQ(unlock(u"804174"_s), PinOutcome::Wrong) << wrong;
    EXPECT_EQ(session.wrongPinsLeft(), 1);
    EXPECT_EQ(unlock(u"804174"_s), PinOutcome::Ended);

    EXPECT_EQ(unlock(u"804173"_s), PinOutcome::Ended);
    EXPECT_EQ(state(), State::Ended);
    EXPECT_FALSE(sign());
}

TEST_F(SessionTest, TakesTheRightPinAfterNineWrongOnesAndCountsAfresh)
{
    setPin();
    session.lock();
    for (int wrong = 1; wrong <= 9; ++wrong)
        EXPECT_EQ(unlock(u"999998"_s), PinOutcome::Wrong);

    EXPECT_EQ(unlock(u"804173"_s), PinOutcome::Opened);

    EXPECT_EQ(session.wrongPinsLeft(), Session::kMostWrongPins);
}

TEST_F(SessionTest, TriesNoPinWhileOpen)
{
    setPin();

    EXPECT_EQ(unlock(u"000000"_s), PinOutcome::NoNeed);
    EXPECT_EQ(session.wrongPinsLeft(), Session::kMostWrongPins);
}

TEST_F(SessionTest, TakesANewPinOnlyWhileOpen)
{
    setPin();
    session.lock();

    const auto refused = session.setPin(std::move(*Pin::accept(u"315926"_s)), clock.now());

    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, Error::Kind::Refused);
    EXPECT_EQ(unlock(u"804173"_s), PinOutcome::Opened);
}

TEST_F(SessionTest, CarriesItsKeyWithItWhenMoved)
{
    setPin();
    Session moved = std::move(session);

    EXPECT_TRUE(moved.sign(statement, clock.now()));
}

} // namespace
} // namespace coldarc::people
