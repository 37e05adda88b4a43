#include "core/people/office_store.h"

#include "core/base/json.h"
#include "core/people/people_store.h"
#include "core/people/sign_in.h"
#include "core/people/trust.h"
#include "tests/support/fake_clock.h"
#include "tests/support/test_key.h"
#include "tests/support/testing.h"

// Every person, office and passphrase here is invented.

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono;
using coldarc::test::keyOf;

const QString kPhrase = u"nine herons over Pier Street"_s;
const PersonId kAda(u"p-1"_s);

class OfficeStoreTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        ASSERT_TRUE(PeopleStore(database).add({kAda, u"Ada Invented"_s, Role::Supervisor, {}, {}, {}}));
    }
    Result<void> found() { return store.found(u" Invented Lamps "_s, sealed, kAda, clock.now()); }
    [[nodiscard]] Certificate certificate(const SigningKey& by, Day until = 2027y / November / 24d) const
    {
        return *certify({engineer.publicKey(), kAda, u"Ada Invented"_s, Role::Engineer,
                         2026y / November / 25d, until, clock.now().wall},
                        by);
    }

    test::FakeClock clock;
    coldarc::store::Database database = coldarc::store::Database::inMemory();
    OfficeStore store{database};
    SigningKey office = keyOf(4);
    SigningKey other = keyOf(5);
    SigningKey engineer = keyOf(1);
    SealedKey sealed = sealKey(office, officeHolder(), *Passphrase::accept(kPhrase), {1, 8}).value();
};

TEST_F(OfficeStoreTest, FindsTheCertificatesOfSomebodyByWhicheverKey)
{
    ASSERT_TRUE(found());
    ASSERT_TRUE(store.keep(certificate(office), clock.now()));
    ASSERT_TRUE(store.keep(*certify({other.publicKey(), PersonId(u"p-2"_s), u"Ben Invented"_s, Role::Engineer,
                                     2026y / November / 25d, 2027y / November / 24d, clock.now().wall},
                                    office),
                           clock.now()));

    EXPECT_EQ(store.certificatesOf(kAda).value(), std::vector{certificate(office)});
    EXPECT_EQ(store.certificatesOf(PersonId(u"p-2"_s))->size(), 1U);
    EXPECT_TRUE(store.certificatesOf(PersonId(u"p-3"_s))->empty());
}

TEST_F(OfficeStoreTest, AWorkspaceHasOneOfficeOfItsOwn)
{
    EXPECT_EQ(store.own().error().kind, Error::Kind::NotFound);
    ASSERT_TRUE(found());
    EXPECT_EQ(store.own()->name, u"Invented Lamps"_s);
    EXPECT_EQ(store.own()->key, office.publicKey());
    EXPECT_TRUE(store.own()->isOwn);

    const SealedKey second = *sealKey(other, officeHolder(), *Passphrase::accept(kPhrase), {1, 8});
    EXPECT_EQ(store.found(u"Another"_s, second, kAda, clock.now()).error().kind, Error::Kind::Conflict);
    EXPECT_EQ(store.drop(office.publicKey(), clock.now()).error().kind, Error::Kind::NotFound);
}

TEST_F(OfficeStoreTest, ItsKeyOpensByItsPassphraseAndWrongOnesAreCounted)
{
    ASSERT_TRUE(found());

    const auto wrong = signIn(store, officeHolder(), u"nine herons over Pier Stret"_s, clock.now());
    ASSERT_TRUE(wrong);
    EXPECT_TRUE(std::holds_alternative<TurnedAway>(*wrong));
    EXPECT_EQ(OfficeStore(database).attempts(office.publicKey())->wrong, 1);

    const auto right = signIn(store, officeHolder(), kPhrase, clock.now());
    ASSERT_TRUE(right && std::holds_alternative<SignedIn>(*right));
    EXPECT_EQ(std::get<SignedIn>(*right).key.publicKey(), office.publicKey());
    EXPECT_EQ(store.attempts(office.publicKey())->wrong, 0);
    EXPECT_EQ(store.sealedKey(kAda).error().kind, Error::Kind::NotFound);
}

TEST_F(OfficeStoreTest, AnotherSealOpensTheSameKeyAndForgetsTheWrongTries)
{
    const QString fresh = u"seven lamps above the river"_s;
    ASSERT_TRUE(found());
    ASSERT_TRUE(signIn(store, officeHolder(), u"not this one at all"_s, clock.now()));
    ASSERT_EQ(store.attempts(office.publicKey())->wrong, 1);

    ASSERT_TRUE(store.reseal(*sealKey(office, officeHolder(), *Passphrase::accept(fresh), {1, 8})));

    EXPECT_EQ(store.attempts(office.publicKey())->wrong, 0);
    EXPECT_TRUE(std::holds_alternative<SignedIn>(*signIn(store, officeHolder(), fresh, clock.now())));
    EXPECT_TRUE(std::holds_alternative<TurnedAway>(*signIn(store, officeHolder(), kPhrase, clock.now())));
}

TEST_F(OfficeStoreTest, NoSealIsPutOnAKeyThatIsNotTheOwnOffices)
{
    const SealedKey others = *sealKey(other, officeHolder(), *Passphrase::accept(kPhrase), {1, 8});
    EXPECT_EQ(store.reseal(sealed).error().kind, Error::Kind::NotFound);
    ASSERT_TRUE(found());
    ASSERT_TRUE(store.takeUp(other.publicKey(), u"Others"_s, kAda, clock.now()));

    EXPECT_EQ(store.reseal(others).error().kind, Error::Kind::NotFound);
    EXPECT_EQ(*store.sealedKey(officeHolder()), sealed);
}

TEST_F(OfficeStoreTest, KeepsWhatAnOfficeThatItKnowsSays)
{
    const Certificate foreign = certificate(other);
    EXPECT_EQ(store.keep(foreign, clock.now()).error().kind, Error::Kind::NotFound);
    ASSERT_TRUE(store.takeUp(other.publicKey(), u"Other Invented"_s, kAda, clock.now()));

    EXPECT_TRUE(store.keep(foreign, clock.now()));
    EXPECT_TRUE(store.keep(foreign, clock.now())) << "twice is no error";
    EXPECT_TRUE(store.keep(certificate(other, 2028y / November / 24d), clock.now()));
    ASSERT_EQ(store.certificatesOf(engineer.publicKey())->size(), 2U);
    EXPECT_EQ(store.certificatesOf(engineer.publicKey())->front(), foreign);
    EXPECT_TRUE(store.certificatesOf(office.publicKey())->empty());
}

TEST_F(OfficeStoreTest, KeepsNoCertificateThatTheOfficeDidNotSign)
{
    ASSERT_TRUE(found());
    Certificate altered = certificate(office);
    altered.jws.payload.replace("2027-11-24", "2037-11-24");
    Certificate claimed = certificate(other);
    claimed.jws.protectedHeader = certificate(office).jws.protectedHeader;

    EXPECT_EQ(store.keep(altered, clock.now()).error().kind, Error::Kind::Malformed);
    EXPECT_EQ(store.keep(claimed, clock.now()).error().kind, Error::Kind::Malformed);
    EXPECT_TRUE(store.certificatesOf(engineer.publicKey())->empty());
}

TEST_F(OfficeStoreTest, ADroppedOfficeIsBelievedNoLongerUntilItIsTakenUpAgain)
{
    ASSERT_TRUE(store.takeUp(other.publicKey(), u"Other Invented"_s, kAda, clock.now()));
    EXPECT_EQ(store.takeUp(other.publicKey(), u"Other"_s, kAda, clock.now()).error().kind,
              Error::Kind::Conflict);
    ASSERT_TRUE(store.drop(other.publicKey(), clock.now()));
    EXPECT_TRUE(store.offices()->front().droppedAt);
    EXPECT_EQ(store.keep(certificate(other), clock.now()).error().kind, Error::Kind::NotFound);

    ASSERT_TRUE(store.takeUp(other.publicKey(), u"Other once more"_s, kAda, clock.now()));
    EXPECT_FALSE(store.offices()->front().droppedAt);
    EXPECT_TRUE(store.keep(certificate(other), clock.now()));
}

TEST_F(OfficeStoreTest, KeepsWhatAKnownOfficeSaysOfAKeyThatIsOutOfUse)
{
    const SignedRetirement paper =
        *retire({engineer.publicKey(), 2026y / November / 26d, clock.now().wall}, office);
    EXPECT_EQ(store.keep(paper, clock.now()).error().kind, Error::Kind::NotFound);
    ASSERT_TRUE(found());
    ASSERT_TRUE(store.keep(paper, clock.now()));
    ASSERT_TRUE(store.keep(paper, clock.now())) << "once more";
    SignedRetirement altered = paper;
    altered.jws.payload.replace("2026-11-26", "2020-11-26");
    EXPECT_EQ(store.keep(altered, clock.now()).error().kind, Error::Kind::Malformed);

    EXPECT_EQ(store.retirementsOf(engineer.publicKey()).value(), std::vector{paper});
    EXPECT_TRUE(store.retirementsOf(other.publicKey())->empty());
    EXPECT_FALSE(database.run(u"DELETE FROM key_retirement"_s));
    EXPECT_FALSE(database.run(u"UPDATE key_retirement SET kept_at_ms = 0"_s));
}

TEST_F(OfficeStoreTest, KeepsOfWhatARecordHeardWhatOfficesSayThatAreBelievedHere)
{
    const SigningKey dropped = keyOf(6);
    Trust heard{{office.publicKey(), other.publicKey(), dropped.publicKey()}};
    const auto retirement = [&](const SigningKey& by) {
        return *retire({engineer.publicKey(), 2026y / November / 26d, clock.now().wall}, by);
    };
    for (const SigningKey* by : std::initializer_list<const SigningKey*>{&office, &other, &dropped}) {
        ASSERT_TRUE(heard.add(certificate(*by)));
        ASSERT_TRUE(heard.add(retirement(*by)));
    }
    ASSERT_TRUE(found());
    ASSERT_TRUE(store.takeUp(dropped.publicKey(), u"Others"_s, kAda, clock.now()));
    ASSERT_TRUE(store.drop(dropped.publicKey(), clock.now()));

    ASSERT_TRUE(store.keep(heard, clock.now()));
    ASSERT_TRUE(store.keep(heard, clock.now())) << "once more";

    EXPECT_EQ(store.certificatesOf(engineer.publicKey()).value(), std::vector{certificate(office)});
    EXPECT_EQ(store.retirementsOf(engineer.publicKey()).value(), std::vector{retirement(office)});
    EXPECT_EQ(store.certificatesBy(office.publicKey())->size(), 1U);
}

TEST_F(OfficeStoreTest, FindsWhatOneOfficeGave)
{
    ASSERT_TRUE(found());
    ASSERT_TRUE(store.takeUp(other.publicKey(), u"Others"_s, kAda, clock.now()));
    ASSERT_TRUE(store.keep(certificate(office), clock.now()));
    ASSERT_TRUE(store.keep(certificate(other), clock.now()));

    EXPECT_EQ(store.certificatesBy(office.publicKey()).value(), std::vector{certificate(office)});
}

TEST_F(OfficeStoreTest, NothingIsChangedOrRemovedByHand)
{
    ASSERT_TRUE(found());
    ASSERT_TRUE(store.keep(certificate(office), clock.now()));

    EXPECT_FALSE(database.run(u"DELETE FROM office"_s));
    EXPECT_FALSE(database.run(u"UPDATE office SET public_key = zeroblob(32)"_s));
    EXPECT_FALSE(database.run(u"DELETE FROM enrolment_certificate"_s));
    EXPECT_FALSE(database.run(u"UPDATE enrolment_certificate SET public_key = zeroblob(32)"_s));
}

} // namespace
} // namespace coldarc::people
