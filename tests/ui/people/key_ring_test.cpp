#include "ui/people/key_ring.h"

#include "core/people/jws.h"
#include "tests/ui/people/people_at_work.h"

#include <QSignalSpy>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::test {
namespace {

using namespace ui;
using Stand = KeyRing::Stand;
using Kind = KeyRing::Answer::Kind;

const QString kAdas = u"a long walk by the river"_s;
const QString kBens = u"four grey geese at dusk"_s;
const QString kPin = u"604193"_s;

class KeyRingTest : public PeopleAtWork {
protected:
    void SetUp() override
    {
        ada = enrol(u"ada"_s, u"A. Okoro"_s, kAdas);
        ben = enrol(u"ben"_s, u"B. Lind"_s, kBens, people::Role::Trainee);
        signIn();
        QObject::connect(&ring, &KeyRing::answered, &ring,
                         [this](const PersonId&, const KeyRing::Answer& answer) { last = answer; });
    }
    void signIn()
    {
        keeper.begin(ada, people::Session(ada.id, people::SigningKey::generate(), clock.now(), kCheapGuess));
        keeper.setPin(*people::Pin::accept(kPin));
        held.finish();
    }
    void openBens()
    {
        ring.open(ben.id, kBens);
        held.finish();
    }
    void setBensPin()
    {
        ring.setPin(ben.id, *people::Pin::accept(kPin));
        held.finish();
    }
    [[nodiscard]] Result<people::Signature> sign(const PersonId& person)
    {
        return ring.sign(person,
                         {VisitId(u"visit-1"_s), 0, Hash(), people::Meaning::Countersigned, {}, person});
    }

    people::Person ada;
    people::Person ben;
    HeldWork held;
    SessionKeeper keeper{clock, held.behind()};
    KeyRing ring{keys, keeper, clock, held.behind(), kCheapGuess};
    KeyRing::Answer last;
};

TEST_F(KeyRingTest, OpensASecondKeyByItsOwnPassphraseAwayFromTheWindow)
{
    EXPECT_EQ(ring.standOf(ben.id), Stand::Shut);
    EXPECT_FALSE(sign(ben.id));

    ring.open(ben.id, kBens);

    EXPECT_EQ(ring.standOf(ben.id), Stand::Busy);
    EXPECT_FALSE(sign(ben.id));
    held.finish();
    EXPECT_EQ(ring.standOf(ben.id), Stand::Open);
    EXPECT_EQ(last.kind, Kind::Opened);
    EXPECT_TRUE(ring.needsPin(ben.id));
    EXPECT_TRUE(sign(ben.id));
    EXPECT_TRUE(sign(ada.id)) << "the key of whoever signed in stays open beside it";
    const people::PaperJws paper{"{\"typ\":\"coldarc-review\"}", "{}"};
    for (const PersonId& person : {ada.id, ben.id}) {
        const auto signature = ring.sign(person, paper);
        ASSERT_TRUE(signature);
        EXPECT_TRUE(people::isSignedBy(*ring.publicKey(person), people::signingInput(paper), *signature));
    }
    EXPECT_FALSE(ring.sign(PersonId(u"nobody"_s), paper));
    EXPECT_NE(ring.publicKey(ben.id)->bytes(), ring.publicKey(ada.id)->bytes());
    EXPECT_EQ(ring.publicKey(ben.id)->bytes(), keys.sealedKey(ben.id)->publicKey.bytes());
}

TEST_F(KeyRingTest, AWrongPassphraseOpensNothingAndIsCounted)
{
    ring.open(ben.id, u"not the passphrase at all"_s);
    held.finish();

    EXPECT_EQ(last.kind, Kind::WrongPassphrase);
    EXPECT_EQ(ring.standOf(ben.id), Stand::Shut);
    EXPECT_EQ(keys.attempts(keys.sealedKey(ben.id)->publicKey)->wrong, 1);
    ring.open(ben.id, kAdas); // somebody else's does not help
    held.finish();
    EXPECT_EQ(ring.standOf(ben.id), Stand::Shut);
    EXPECT_EQ(keys.attempts(keys.sealedKey(ben.id)->publicKey)->wrong, 2);
}

TEST_F(KeyRingTest, SaysWhenTheNextTryIsFreeAndWhenThereIsNoKey)
{
    for (int count = 0; count < 4; ++count) {
        ring.open(ben.id, u"not the passphrase at all"_s);
        held.finish();
    }
    ring.open(ben.id, kBens);
    EXPECT_FALSE(held.isHeld()) << "nothing was tried";
    EXPECT_EQ(last.kind, Kind::MustWait);
    EXPECT_EQ(last.next.left, 30s);

    ring.open(PersonId(u"nobody"_s), kBens);
    EXPECT_EQ(last.kind, Kind::NoKey);
}

// people::Session locks after ten minutes without a press of that person.
TEST_F(KeyRingTest, LocksAfterTenMinutesWithoutAPressOfItsOwner)
{
    openBens();
    setBensPin();
    EXPECT_FALSE(ring.needsPin(ben.id));
    clock.advance(6min);
    keeper.press();
    ring.press(ben.id);
    clock.advance(9min + 59s);
    keeper.press();
    ring.press(ada.id); // nobody else's press counts for him
    ring.look();
    EXPECT_EQ(ring.standOf(ben.id), Stand::Open);

    clock.advance(1s);
    QSignalSpy changed(&ring, &KeyRing::changed);
    ring.look();

    EXPECT_EQ(changed.size(), 1);
    EXPECT_EQ(ring.standOf(ben.id), Stand::Locked);
    EXPECT_FALSE(sign(ben.id));
}

TEST_F(KeyRingTest, SignsNothingThatTheClockHasLockedThoughNobodyLooked)
{
    openBens();
    setBensPin();
    clock.advance(10min);

    EXPECT_FALSE(sign(ben.id));
}

TEST_F(KeyRingTest, OpensByItsPinThoughNobodyLookedSinceTheClockLockedIt)
{
    openBens();
    setBensPin();
    clock.advance(10min);

    ring.unlock(ben.id, kPin);

    ASSERT_TRUE(held.isHeld());
    held.finish();
    EXPECT_EQ(ring.standOf(ben.id), Stand::Open);
}

TEST_F(KeyRingTest, OpensAgainByItsPinAndEndsWithTheTenthWrongOne)
{
    openBens();
    setBensPin();
    ring.lockAll();
    EXPECT_EQ(ring.standOf(ben.id), Stand::Locked);
    ring.unlock(ben.id, kPin);
    EXPECT_EQ(ring.standOf(ben.id), Stand::Busy);
    held.finish();
    EXPECT_EQ(ring.standOf(ben.id), Stand::Open);

    ring.lockAll();
    for (int count = 1; count <= 9; ++count) {
        ring.unlock(ben.id, u"111222"_s);
        held.finish();
        EXPECT_EQ(last.kind, Kind::WrongPin);
        EXPECT_EQ(last.pinsLeft, 10 - count);
    }
    ring.unlock(ben.id, u"111222"_s);
    held.finish();

    EXPECT_EQ(last.kind, Kind::Ended);
    EXPECT_EQ(ring.standOf(ben.id), Stand::Ended);
    ring.unlock(ben.id, kPin);
    EXPECT_FALSE(held.isHeld()) << "the right PIN is not even tried";
    openBens();
    EXPECT_EQ(ring.standOf(ben.id), Stand::Open) << "the passphrase helps";
}

TEST_F(KeyRingTest, WithoutAPinALockedKeyHasEnded)
{
    openBens();
    ring.lockAll();

    EXPECT_EQ(ring.standOf(ben.id), Stand::Ended);
}

TEST_F(KeyRingTest, StaysOpenWhileSomebodyIsInsideAlsoWhenItWasOpenedMeanwhile)
{
    ring.holdOpen();
    openBens();
    setBensPin();
    clock.advance(50min);
    ring.look();
    EXPECT_EQ(ring.standOf(ben.id), Stand::Open);

    ring.release();
    clock.advance(10min);
    ring.look();

    EXPECT_EQ(ring.standOf(ben.id), Stand::Locked);
}

TEST_F(KeyRingTest, AKeyThatIsOpenAlreadyStaysSoWhileSomebodyIsInside)
{
    openBens();
    setBensPin();
    ring.holdOpen();
    clock.advance(50min);
    ring.look();

    EXPECT_EQ(ring.standOf(ben.id), Stand::Open);
}

TEST_F(KeyRingTest, LocksInTimeThoughEveryoneCameOutWhileItsPinWasBeingSet)
{
    ring.holdOpen();
    openBens();
    ring.setPin(ben.id, *people::Pin::accept(kPin));
    ring.release();
    held.finish();

    clock.advance(10min);
    ring.look();

    EXPECT_EQ(ring.standOf(ben.id), Stand::Locked);
}

TEST_F(KeyRingTest, ToldAgainThatNobodyIsInsideItCountsNoPress)
{
    openBens();
    setBensPin();
    clock.advance(9min + 59s);
    ring.release();
    clock.advance(1s);
    ring.look();

    EXPECT_EQ(ring.standOf(ben.id), Stand::Locked);
}

TEST_F(KeyRingTest, LocksWithTheKeyOfWhoeverSignedIn)
{
    openBens();
    setBensPin();

    keeper.lock();

    EXPECT_EQ(ring.standOf(ada.id), Stand::Locked);
    EXPECT_EQ(ring.standOf(ben.id), Stand::Locked);
}

TEST_F(KeyRingTest, LocksAlsoWhereTheKeyOfWhoeverSignedInHasNoPinAndEnds)
{
    keeper.begin(ada, people::Session(ada.id, people::SigningKey::generate(), clock.now(), kCheapGuess));
    openBens();
    setBensPin();

    keeper.lock();

    EXPECT_EQ(ring.standOf(ada.id), Stand::Ended);
    EXPECT_EQ(ring.standOf(ben.id), Stand::Locked);
    ring.open(ada.id, kAdas);
    EXPECT_FALSE(held.isHeld()) << "whoever signed in signs in again elsewhere";
}

TEST_F(KeyRingTest, AKeyBeingOpenedWhenTheOtherLocksIsLockedAsSoonAsItIsOpen)
{
    openBens();
    setBensPin();
    ring.lockAll();
    ring.unlock(ben.id, kPin);

    keeper.lock();
    held.finish();

    EXPECT_EQ(ring.standOf(ben.id), Stand::Locked);
}

TEST_F(KeyRingTest, KeepsNoKeyOfWhoeverWentAway)
{
    openBens();
    setBensPin();

    ring.wipe(ben.id);
    ring.wipe(ada.id);

    EXPECT_EQ(ring.standOf(ben.id), Stand::Shut);
    EXPECT_FALSE(sign(ben.id));
    EXPECT_EQ(ring.standOf(ada.id), Stand::Open) << "the window stands under it";
}

TEST_F(KeyRingTest, IsEmptyWhenWhoeverSignedInHasSignedOut)
{
    openBens();
    keeper.signOut();

    EXPECT_EQ(ring.standOf(ben.id), Stand::Shut);
    EXPECT_FALSE(ring.publicKey(ben.id));
}

TEST_F(KeyRingTest, ATryUnderWayForWhoeverSignedOutOpensNothing)
{
    ring.open(ben.id, kBens);
    keeper.signOut();
    held.finish();

    EXPECT_EQ(ring.standOf(ben.id), Stand::Shut);
    EXPECT_EQ(keys.attempts(keys.sealedKey(ben.id)->publicKey)->wrong, 0) << "it was the right one";
}

TEST_F(KeyRingTest, ATryFromBeforeTheSignOutDecidesNothingForTheTryAfterIt)
{
    std::vector<std::pair<std::function<void()>, std::function<void()>>> waiting;
    KeyRing slow{keys, keeper, clock,
                 [&](auto work, auto then) { waiting.emplace_back(std::move(work), std::move(then)); },
                 kCheapGuess};
    slow.open(ben.id, kBens);
    keeper.signOut();
    signIn();
    slow.open(ben.id, u"not the passphrase at all"_s);
    ASSERT_EQ(waiting.size(), 2u);

    waiting[0].first();
    waiting[0].second();

    EXPECT_EQ(slow.standOf(ben.id), Stand::Busy);
    waiting[1].first();
    waiting[1].second();
    EXPECT_EQ(slow.standOf(ben.id), Stand::Shut);
}

TEST_F(KeyRingTest, WhoeverSignsInHasOneSessionOnly)
{
    openBens();
    keeper.begin(ben, people::Session(ben.id, people::SigningKey::generate(), clock.now(), kCheapGuess));

    EXPECT_TRUE(ring.isKeepers(ben.id));
    EXPECT_EQ(ring.publicKey(ben.id)->bytes(), keeper.publicKey()->bytes());
    ring.open(ben.id, kBens);
    EXPECT_FALSE(held.isHeld());
}

TEST_F(KeyRingTest, WhoeverSignedInLeavesNoOpenKeyBehindForTheNextOne)
{
    openBens();
    keeper.begin(ben, people::Session(ben.id, people::SigningKey::generate(), clock.now(), kCheapGuess));
    keeper.begin(ada, people::Session(ada.id, people::SigningKey::generate(), clock.now(), kCheapGuess));

    EXPECT_EQ(ring.standOf(ben.id), Stand::Shut);
    EXPECT_FALSE(sign(ben.id));
}

} // namespace
} // namespace coldarc::test
