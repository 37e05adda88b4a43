#include "core/people/sign_in.h"

#include "core/people/key_store.h"
#include "core/people/people_store.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

#include <QDir>
#include <QFile>
#include <QTemporaryDir>

// Every person and passphrase here is invented.

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using Kind = AttemptVerdict::Kind;
using Why = TurnedAway::Why;

constexpr GuessCost kCheap{1, 8}; // the least that the library takes
const QString kPhrase = u"nine herons over Pier Street"_s;
const QString kWrong = u"nine herons over Pier Stret"_s;
const PersonId kAda(u"p-1"_s);

Passphrase phraseOf(const QString& text)
{
    return std::move(*Passphrase::accept(text));
}

QByteArray seedOf(const SigningKey& key)
{
    return {reinterpret_cast<const char*>(key.seed().data()), static_cast<qsizetype>(key.seed().size())};
}

void addAda(store::Database& database)
{
    ASSERT_TRUE(PeopleStore(database).add({kAda, u"Ada Invented"_s, Role::Engineer, {}, {}, {}}));
}

class SignInTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        addAda(database);
        ASSERT_TRUE(keys.enrol(kAda, sealed, clock.now()));
    }
    std::variant<SignedIn, TurnedAway> attempt(const QString& phrase)
    {
        auto outcome = signIn(keys, kAda, phrase, clock.now());
        Q_ASSERT(outcome);
        return std::move(*outcome);
    }
    /// How the attempt was turned away, or nothing when it was let in.
    std::optional<TurnedAway> turnedAway(const QString& phrase)
    {
        const auto outcome = attempt(phrase);
        const auto* away = std::get_if<TurnedAway>(&outcome);
        return away != nullptr ? std::optional(*away) : std::nullopt;
    }

    test::FakeClock clock;
    store::Database database = store::Database::inMemory();
    KeyStore keys{database};
    SigningKey key = SigningKey::generate();
    SealedKey sealed = sealKey(key, kAda, phraseOf(kPhrase), kCheap).value();
};

TEST_F(SignInTest, OpensTheEnrolledKey)
{
    const auto outcome = attempt(kPhrase);

    ASSERT_TRUE(std::holds_alternative<SignedIn>(outcome));
    EXPECT_EQ(std::get<SignedIn>(outcome).key.publicKey(), key.publicKey());
}

TEST_F(SignInTest, WaitsLongerWithEachWrongPassphraseAfterTheThird)
{
    for (int free = 1; free <= 3; ++free)
        EXPECT_EQ(turnedAway(kWrong), (TurnedAway{Why::WrongPassphrase, {Kind::Free, 0ms}})) << free;
    EXPECT_EQ(turnedAway(kWrong), (TurnedAway{Why::WrongPassphrase, {Kind::Waits, 30s}}));

    EXPECT_EQ(turnedAway(kPhrase), (TurnedAway{Why::MustWait, {Kind::Waits, 30s}}));
    clock.advance(30s);
    EXPECT_EQ(turnedAway(kWrong), (TurnedAway{Why::WrongPassphrase, {Kind::Waits, 60s}}));
    clock.advance(60s);
    EXPECT_EQ(turnedAway(kPhrase), std::nullopt);
}

TEST_F(SignInTest, ForgetsTheWrongOnesAfterARightOne)
{
    for (int time = 1; time <= 3; ++time)
        ASSERT_TRUE(turnedAway(kWrong));
    ASSERT_FALSE(turnedAway(kPhrase));

    EXPECT_EQ(keys.attempts(sealed.publicKey), Attempts{});
}

TEST_F(SignInTest, CountsATryBeforeItIsMade)
{
    ASSERT_TRUE(database.run(u"CREATE TRIGGER no_count BEFORE INSERT ON passphrase_attempt\nBEGIN\n"
                             "SELECT RAISE(ABORT, 'disk');\nEND;"_s));

    EXPECT_FALSE(signIn(keys, kAda, kPhrase, clock.now()));
}

TEST_F(SignInTest, ShutsTheKeyForGoodAfterAHundredWrongOnes)
{
    ASSERT_TRUE(keys.setAttempts(sealed.publicKey, {99, clock.now()}));
    clock.advance(1h);
    ASSERT_EQ(turnedAway(kWrong)->why, Why::WrongPassphrase);
    clock.advance(24h);

    EXPECT_EQ(turnedAway(kPhrase)->why, Why::KeyShut);
}

TEST_F(SignInTest, FindsNoKeyOfSomebodyWhoHasNone)
{
    EXPECT_EQ(signIn(keys, PersonId(u"p-9"_s), kPhrase, clock.now()).error().kind, Error::Kind::NotFound);
}

TEST_F(SignInTest, TakesANewPassphraseForTheSameKey)
{
    const QString fresh = u"a kettle on the third shelf"_s;
    ASSERT_TRUE(turnedAway(kWrong));

    ASSERT_TRUE(keys.reseal(changePassphrase(sealed, kAda, kPhrase, phraseOf(fresh)).value()));

    EXPECT_EQ(keys.attempts(sealed.publicKey), Attempts{});
    EXPECT_TRUE(turnedAway(kPhrase));
    const auto outcome = attempt(fresh);
    ASSERT_TRUE(std::holds_alternative<SignedIn>(outcome));
    EXPECT_EQ(seedOf(std::get<SignedIn>(outcome).key), seedOf(key));
    EXPECT_FALSE(isBelowFloor(keys.sealedKey(kAda)->cost));
}

TEST_F(SignInTest, AllowsOneKeyInUsePerPerson)
{
    const auto second = sealKey(SigningKey::generate(), kAda, phraseOf(kPhrase), kCheap).value();
    EXPECT_EQ(keys.enrol(kAda, second, clock.now()).error().kind, Error::Kind::Conflict);

    ASSERT_TRUE(keys.retireKey(kAda, clock.now()));
    ASSERT_TRUE(keys.enrol(kAda, second, clock.now()));

    const auto all = keys.keysOf(kAda);
    ASSERT_TRUE(all);
    ASSERT_EQ(all->size(), 2u);
    EXPECT_EQ((*all)[0], (EnrolledKey{sealed.publicKey, kAda, clock.now().wall, clock.now().wall}));
    EXPECT_EQ((*all)[1], (EnrolledKey{second.publicKey, kAda, clock.now().wall, std::nullopt}));
}

TEST_F(SignInTest, KeepsThePublicKeyAndRemovesTheSealOfARetiredKey)
{
    ASSERT_TRUE(keys.retireKey(kAda, clock.now()));

    EXPECT_EQ(keys.sealedKey(kAda).error().kind, Error::Kind::NotFound);
    EXPECT_EQ(keys.ownerOf(sealed.publicKey)->person, kAda);
    EXPECT_TRUE(database.run(u"SELECT box FROM signing_key"_s)->rows.front().isNull(u"box"));
    EXPECT_EQ(keys.reseal(sealed).error().kind, Error::Kind::NotFound);
    EXPECT_EQ(keys.enrol(kAda, sealed, clock.now()).error().kind, Error::Kind::Conflict);
}

TEST_F(SignInTest, GivesNoKeyToAnotherOwner)
{
    ASSERT_TRUE(PeopleStore(database).add({PersonId(u"p-2"_s), u"Bo Invented"_s, Role::Trainee, {}, {}, {}}));

    EXPECT_EQ(database.run(u"UPDATE signing_key SET person_id = 'p-2'"_s).error().kind,
              Error::Kind::Conflict);
    EXPECT_EQ(database.run(u"DELETE FROM signing_key"_s).error().kind, Error::Kind::Conflict);
}

TEST_F(SignInTest, DoesNotTryASealThatAsksForAllTheMemoryThereIs)
{
    ASSERT_TRUE(database.run(u"UPDATE signing_key SET memory_kib = 4294967304"_s));

    EXPECT_EQ(signIn(keys, kAda, kPhrase, clock.now()).error().kind, Error::Kind::Malformed);
}

class WorkspaceFileTest : public ::testing::Test {
protected:
    store::Database open()
    {
        auto database = store::Database::connect(folder.filePath(u"people.coldarc"_s), store::Access::Write);
        Q_ASSERT(database && database->migrate(store::Schema::shipped()));
        return std::move(*database);
    }

    test::FakeClock clock;
    QTemporaryDir folder;
};

TEST_F(WorkspaceFileTest, RemembersWrongPassphrasesOverARestart)
{
    const auto sealed = sealKey(SigningKey::generate(), kAda, phraseOf(kPhrase), kCheap).value();
    {
        store::Database database = open();
        addAda(database);
        KeyStore keys(database);
        ASSERT_TRUE(keys.enrol(kAda, sealed, clock.now()));
        for (int time = 1; time <= 5; ++time) {
            clock.advance(1h);
            ASSERT_TRUE(signIn(keys, kAda, kWrong, clock.now()));
        }
    }

    clock.reboot(0ms, 20s);
    store::Database database = open();
    KeyStore keys(database);
    const auto outcome = signIn(keys, kAda, kPhrase, clock.now());

    ASSERT_TRUE(outcome);
    ASSERT_TRUE(std::holds_alternative<TurnedAway>(*outcome));
    EXPECT_EQ(std::get<TurnedAway>(*outcome), (TurnedAway{Why::MustWait, {Kind::Waits, 40s}}));
}

TEST_F(WorkspaceFileTest, HoldsNeitherSeedNorPassphrase)
{
    const SigningKey key = SigningKey::generate();
    {
        store::Database database = open();
        addAda(database);
        KeyStore keys(database);
        ASSERT_TRUE(keys.enrol(kAda, sealKey(key, kAda, phraseOf(kPhrase), kCheap).value(), clock.now()));
        ASSERT_TRUE(signIn(keys, kAda, kWrong, clock.now()));
        ASSERT_TRUE(signIn(keys, kAda, kPhrase, clock.now()));
    }

    QByteArray stored;
    for (const QString& name : QDir(folder.path()).entryList(QDir::Files)) {
        QFile file(folder.filePath(name));
        ASSERT_TRUE(file.open(QIODevice::ReadOnly));
        stored += file.readAll();
    }
    ASSERT_TRUE(stored.contains(key.publicKey().bytes())); // the search finds what is there
    for (qsizetype at = 0; at + 8 <= qsizetype(SigningKey::kSeedBytes); ++at)
        EXPECT_FALSE(stored.contains(seedOf(key).mid(at, 8))) << at;
    EXPECT_FALSE(stored.contains(kPhrase.toUtf8()));
    EXPECT_FALSE(stored.contains(kWrong.toUtf8()));
}

} // namespace
} // namespace coldarc::people
