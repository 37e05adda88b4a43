#include "core/people/people_store.h"

#include "core/people/key_store.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

// Every person, model and date here is invented.

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono;

class PeopleStoreTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        ASSERT_TRUE(people.add(ada));
        ASSERT_TRUE(people.add(boss));
    }

    test::FakeClock clock;
    store::Database database = store::Database::inMemory();
    PeopleStore people{database};
    Person ada{PersonId(u"p-1"_s), u"Ada Invented"_s,    Role::Engineer,
               u"0100 100"_s,      u"ada@example.org"_s, {}};
    Person boss{PersonId(u"p-2"_s), u"Bo Invented"_s, Role::Supervisor, {}, {}, {}};
    Authorisation swaps{AuthorisationId(u"a-1"_s),
                        ada.id,
                        Duty::LampSwap,
                        {{ModelId(u"calder-2"_s), ModelId(u"arden-1"_s)}},
                        2026y / March / 1d,
                        2026y / September / 30d,
                        boss.id,
                        {}};
};

TEST_F(PeopleStoreTest, GivesBackThePersonsAsTheyWereAdded)
{
    EXPECT_EQ(people.person(ada.id), ada);
    EXPECT_EQ(people.all(), (std::vector<Person>{ada, boss}));
    EXPECT_EQ(people.person(PersonId(u"p-9"_s)).error().kind, Error::Kind::NotFound);
}

TEST_F(PeopleStoreTest, ChangesWhatAPersonIsCalledAndDoes)
{
    ada.name = u"Ada Remarried"_s;
    ada.role = Role::Supervisor;
    ada.phone = u"0200"_s;

    ASSERT_TRUE(people.change(ada));

    EXPECT_EQ(people.person(ada.id), ada);
    ada.id = PersonId(u"p-9"_s);
    EXPECT_EQ(people.change(ada).error().kind, Error::Kind::NotFound);
}

TEST_F(PeopleStoreTest, NeverGivesAnIdToAnotherPerson)
{
    Person other{ada.id, u"Somebody Else"_s, Role::Trainee, {}, {}, {}};
    EXPECT_EQ(people.add(other).error().kind, Error::Kind::Conflict);

    ASSERT_TRUE(people.retire(ada.id, 2026y / May / 4d, clock.now()));
    EXPECT_EQ(people.add(other).error().kind, Error::Kind::Conflict);
    EXPECT_EQ(people.person(ada.id)->name, ada.name);
}

TEST_F(PeopleStoreTest, RetiresButNeverRemoves)
{
    ASSERT_TRUE(people.retire(ada.id, 2026y / May / 4d, clock.now()));

    EXPECT_EQ(people.person(ada.id)->retiredOn, Day(2026y / May / 4d));
    EXPECT_EQ(people.all()->size(), 2u);
    EXPECT_EQ(database.run(u"DELETE FROM person"_s).error().kind, Error::Kind::Conflict);
    EXPECT_EQ(database
                  .run(u"INSERT OR REPLACE INTO person(person_id, name, role, phone, email) "
                       "VALUES('p-1', 'x', 'trainee', '', '')"_s)
                  .error()
                  .kind,
              Error::Kind::Conflict);
}

TEST_F(PeopleStoreTest, LeavesARetiredPersonAsTheyWere)
{
    ASSERT_TRUE(people.retire(ada.id, 2026y / May / 4d, clock.now()));

    EXPECT_EQ(people.change(ada).error().kind, Error::Kind::Conflict);
    EXPECT_EQ(people.retire(ada.id, 2026y / June / 4d, clock.now()).error().kind, Error::Kind::Conflict);
}

TEST_F(PeopleStoreTest, TakesTheKeyOfARetiredPersonOutOfUse)
{
    KeyStore keys(database);
    const auto sealed = sealKey(SigningKey::generate(), ada.id,
                                std::move(*Passphrase::accept(u"nine herons over Pier Street"_s)), {1, 8});
    ASSERT_TRUE(keys.enrol(ada.id, *sealed, clock.now()));

    ASSERT_TRUE(people.retire(ada.id, 2026y / May / 4d, clock.now()));

    EXPECT_EQ(keys.sealedKey(ada.id).error().kind, Error::Kind::NotFound);
    EXPECT_EQ(keys.ownerOf(sealed->publicKey)->person, ada.id);
}

TEST_F(PeopleStoreTest, KeepsAuthorisationsWithTheirModels)
{
    Authorisation everything = swaps;
    everything.id = AuthorisationId(u"a-2"_s);
    everything.models.reset();
    Authorisation nothing = swaps;
    nothing.id = AuthorisationId(u"a-3"_s);
    nothing.models = std::vector<ModelId>();

    for (const Authorisation& one : {swaps, everything, nothing})
        ASSERT_TRUE(people.give(one));

    EXPECT_EQ(people.authorisationsOf(ada.id), (std::vector<Authorisation>{swaps, everything, nothing}));
    EXPECT_EQ(people.authorisationsOf(boss.id), std::vector<Authorisation>{});
}

TEST_F(PeopleStoreTest, RefusesAnAuthorisationThatCannotBe)
{
    Authorisation ofNobody = swaps;
    ofNobody.person = PersonId(u"p-9"_s);
    Authorisation byNobody = swaps;
    byNobody.givenBy = PersonId(u"p-9"_s);
    Authorisation backwards = swaps;
    backwards.until = 2026y / February / 1d;

    EXPECT_EQ(people.give(ofNobody).error().kind, Error::Kind::Conflict);
    EXPECT_EQ(people.give(byNobody).error().kind, Error::Kind::Conflict);
    EXPECT_EQ(people.give(backwards).error().kind, Error::Kind::Malformed);
    EXPECT_EQ(people.authorisationsOf(ada.id), std::vector<Authorisation>{});
}

TEST_F(PeopleStoreTest, GivesAnAuthorisationWhollyOrNotAtAll)
{
    swaps.models = {{ModelId(u"calder-2"_s), ModelId(u"calder-2"_s)}};

    EXPECT_EQ(people.give(swaps).error().kind, Error::Kind::Conflict);

    EXPECT_EQ(people.authorisationsOf(ada.id), std::vector<Authorisation>{});
}

TEST_F(PeopleStoreTest, WithdrawsAnAuthorisationOnce)
{
    ASSERT_TRUE(people.give(swaps));

    ASSERT_TRUE(people.withdraw(swaps.id, 2026y / May / 4d, boss.id));

    EXPECT_EQ(people.authorisationsOf(ada.id)->front().withdrawnOn, Day(2026y / May / 4d));
    EXPECT_EQ(people.withdraw(swaps.id, 2026y / June / 4d, boss.id).error().kind, Error::Kind::Conflict);
    EXPECT_EQ(people.withdraw(AuthorisationId(u"a-9"_s), 2026y / June / 4d, boss.id).error().kind,
              Error::Kind::Conflict);
}

TEST_F(PeopleStoreTest, NeverRewritesWhatWasGivenOrWithdrawn)
{
    ASSERT_TRUE(people.give(swaps));
    ASSERT_TRUE(people.withdraw(swaps.id, 2026y / May / 4d, boss.id));

    for (const QString& rewriting :
         {u"UPDATE authorisation SET until_day = '2099-01-01'"_s, u"DELETE FROM authorisation_model"_s,
          u"UPDATE authorisation_model SET model_id = 'x'"_s, u"DELETE FROM authorisation_withdrawal"_s,
          u"UPDATE authorisation_withdrawal SET withdrawn_on = '2099-01-01'"_s})
        EXPECT_EQ(database.run(rewriting).error().kind, Error::Kind::Conflict) << rewriting.toStdString();
}

} // namespace
} // namespace coldarc::people
