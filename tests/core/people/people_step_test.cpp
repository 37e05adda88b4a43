#include "core/people/gear_store.h"
#include "core/people/key_store.h"
#include "core/people/people_store.h"
#include "core/store/workspace_file.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

#include <QTemporaryDir>

// Every person, model, marking and date here is invented.

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono;
using store::Opening;

constexpr int kBefore = 6; ///< the last step before electricians

store::Schema schemaBefore()
{
    std::vector<store::SchemaStep> steps = store::Schema::shipped().steps();
    steps.resize(kBefore);
    return store::Schema(std::move(steps));
}

/// A workspace file as programs made it that knew no electrician, with people and all that refers to them.
class PeopleStepTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        store::OpenAnswer made = store::openWorkspace(file, kNew, schemaBefore());
        ASSERT_EQ(made.outcome, Opening::Created) << made.detail.toStdString();
        ASSERT_EQ(made.database->version(), kBefore);
        PeopleStore people(*made.database);
        KeyStore keys(*made.database);
        GearStore gear(*made.database);
        for (const Person& person : {boss, ada, gone})
            ASSERT_TRUE(people.add(person));
        ASSERT_TRUE(people.give(swaps));
        ASSERT_TRUE(people.give(proves));
        ASSERT_TRUE(people.withdraw(proves.id, 2026y / May / 1d, boss.id));
        proves.withdrawnOn = 2026y / May / 1d;
        sealed = sealKey(SigningKey::generate(), ada.id,
                         *Passphrase::accept(u"nine herons over Pier Street"_s), {1, 8})
                     .value();
        ASSERT_TRUE(keys.enrol(ada.id, *sealed, clock.now()));
        ASSERT_TRUE(keys.setAttempts(sealed->publicKey, {2, clock.now()}));
        ASSERT_TRUE(gear.add(shield));
        ASSERT_TRUE(gear.inspect(shield.id, *shield.lastInspection));
        ASSERT_TRUE(people.retire(gone.id, 2026y / June / 1d, clock.now()));
        gone.retiredOn = 2026y / June / 1d;
    }

    const QTemporaryDir folder;
    const QString file = folder.filePath(u"work.coldarc"_s);
    const store::NewWorkspace kNew{u"invented"_s, WallTime(1'795'000'000'000ms)};
    test::FakeClock clock;
    Person boss{PersonId(u"p-2"_s), u"Bo Invented"_s, Role::Supervisor, {}, {}, {}};
    Person ada{PersonId(u"p-1"_s), u"Ada Invented"_s,    Role::Engineer,
               u"0100 100"_s,      u"ada@example.org"_s, {}};
    Person gone{PersonId(u"p-3"_s), u"Cy Invented"_s, Role::Trainee, {}, {}, {}};
    Authorisation swaps{AuthorisationId(u"a-1"_s),
                        ada.id,
                        Duty::LampSwap,
                        {{ModelId(u"calder-2"_s), ModelId(u"arden-1"_s)}},
                        2026y / March / 1d,
                        2026y / September / 30d,
                        boss.id,
                        {}};
    Authorisation proves{AuthorisationId(u"a-2"_s),
                         ada.id,
                         Duty::ProveAbsence,
                         {},
                         2026y / March / 1d,
                         2026y / September / 30d,
                         boss.id,
                         {}};
    GearItem shield{GearId(u"g-1"_s),
                    u"face-shield"_s,
                    u"EN 166 1 B"_s,
                    u"S1"_s,
                    2025y / April,
                    2030y / April,
                    GearInspection{2026y / May / 2d, boss.id, GearInspection::Outcome::Passed},
                    ada.id};
    std::optional<SealedKey> sealed;
};

TEST_F(PeopleStepTest, KeepsEverybodyAndEverythingThatNamesThem)
{
    store::OpenAnswer opened = store::openWorkspace(file, kNew);

    ASSERT_EQ(opened.outcome, Opening::Upgraded) << opened.detail.toStdString();
    PeopleStore people(*opened.database);
    const KeyStore keys(*opened.database);
    EXPECT_EQ(people.all(), (std::vector<Person>{ada, boss, gone}));
    EXPECT_EQ(people.authorisationsOf(ada.id), (std::vector<Authorisation>{swaps, proves}));
    EXPECT_EQ(keys.sealedKey(ada.id), *sealed);
    EXPECT_EQ(keys.ownerOf(sealed->publicKey)->person, ada.id);
    EXPECT_EQ(keys.attempts(sealed->publicKey), (Attempts{2, clock.now()}));
    EXPECT_EQ(GearStore(*opened.database).all(), (std::vector<GearItem>{shield}));
    const auto astray = opened.database->run(u"PRAGMA foreign_key_check"_s);
    ASSERT_TRUE(astray);
    EXPECT_TRUE(astray->rows.empty());
}

TEST_F(PeopleStepTest, AdmitsAnElectricianAndStillNoOtherRole)
{
    store::OpenAnswer opened = store::openWorkspace(file, kNew);
    ASSERT_TRUE(opened.database);
    PeopleStore people(*opened.database);
    const Person electrician{PersonId(u"p-4"_s), u"Di Invented"_s, Role::Electrician, {}, {}, {}};

    EXPECT_TRUE(people.add(electrician));

    EXPECT_EQ(people.person(electrician.id), electrician);
    EXPECT_FALSE(opened.database->run(u"INSERT INTO person(person_id, name, role, phone, email) "
                                      "VALUES('p-5', 'x', 'plumber', '', '')"_s));
}

TEST_F(PeopleStepTest, LeavesThePersonsAsGuardedAsTheyWere)
{
    store::OpenAnswer opened = store::openWorkspace(file, kNew);
    ASSERT_TRUE(opened.database);
    PeopleStore people(*opened.database);

    const auto kindOf = [](const auto& result) {
        return result ? Error::Kind::NotFound : result.error().kind;
    };
    EXPECT_EQ(kindOf(opened.database->run(u"DELETE FROM person WHERE person_id = 'p-3'"_s)),
              Error::Kind::Conflict);
    EXPECT_EQ(kindOf(opened.database->run(u"UPDATE person SET person_id = 'p-9' WHERE person_id = 'p-3'"_s)),
              Error::Kind::Conflict);
    EXPECT_EQ(kindOf(people.change(gone)), Error::Kind::Conflict) << "retired";
    Authorisation astray = swaps;
    astray.id = AuthorisationId(u"a-9"_s);
    astray.person = PersonId(u"p-9"_s);
    EXPECT_EQ(kindOf(people.give(astray)), Error::Kind::Conflict) << "nobody of this workspace";
}

TEST_F(PeopleStepTest, ChangesNothingWhereAPersonWouldBeLost)
{
    std::vector<store::SchemaStep> steps = store::Schema::shipped().steps();
    ASSERT_TRUE(steps.at(kBefore).sql.contains(u"FROM person_before ORDER"_s));
    steps.at(kBefore).sql.replace(u"FROM person_before ORDER"_s,
                                  u"FROM person_before WHERE person_id <> 'p-2' ORDER"_s);

    const store::OpenAnswer failed = store::openWorkspace(file, kNew, store::Schema(std::move(steps)));

    EXPECT_EQ(failed.outcome, Opening::Failed);
    store::OpenAnswer opened = store::openWorkspace(file, kNew, schemaBefore());
    ASSERT_TRUE(opened.database) << opened.detail.toStdString();
    EXPECT_EQ(PeopleStore(*opened.database).all()->size(), 3u);
}

} // namespace
} // namespace coldarc::people
