#include "core/people/sealed_key.h"

#include "tests/support/testing.h"

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;

constexpr GuessCost kCheap{1, 8}; // the least that the library takes; the shipped cost is asserted below
const PersonId kOwner(u"p-1"_s);
const QString kPhrase = u"nine herons over Pier Street"_s;

Passphrase phraseOf(const QString& text)
{
    auto phrase = Passphrase::accept(text);
    Q_ASSERT(phrase);
    return std::move(*phrase);
}

SealedKey sealedUnder(const SigningKey& key, const QString& text = kPhrase, GuessCost cost = kCheap)
{
    return sealKey(key, kOwner, phraseOf(text), cost).value();
}

QByteArray seedOf(const SigningKey& key)
{
    return {reinterpret_cast<const char*>(key.seed().data()), static_cast<qsizetype>(key.seed().size())};
}

Error::Kind refusalOf(const SealedKey& sealed)
{
    const auto opened = openKey(sealed, kOwner, kPhrase);
    EXPECT_FALSE(opened);
    return opened ? Error::Kind::NotFound : opened.error().kind;
}

// The floor: 64 MiB and two passes.
TEST(SealedKeyTest, IsShippedWithADearGuess)
{
    EXPECT_GE(kShippedCost.memoryKib, 65536u);
    EXPECT_GE(kShippedCost.passes, 2u);
    EXPECT_FALSE(isBelowFloor(kShippedCost));
    EXPECT_TRUE(isBelowFloor({2, 65535}));
    EXPECT_TRUE(isBelowFloor({1, 65536}));
    EXPECT_FALSE(isBelowFloor({2, 65536}));
}

TEST(SealedKeyTest, UsesTheShippedCostUnlessToldOtherwise)
{
    const SigningKey key = SigningKey::generate();

    const auto sealed = sealKey(key, kOwner, phraseOf(kPhrase));

    ASSERT_TRUE(sealed);
    EXPECT_EQ(sealed->cost, kShippedCost);
}

TEST(SealedKeyTest, OpensUnderItsPassphraseAsTheSameKey)
{
    const SigningKey key = SigningKey::generate();

    const auto opened = openKey(sealedUnder(key), kOwner, kPhrase);

    ASSERT_TRUE(opened);
    EXPECT_EQ(seedOf(*opened), seedOf(key));
    EXPECT_EQ(opened->publicKey(), key.publicKey());
}

TEST(SealedKeyTest, StaysShutUnderAnyOtherPassphrase)
{
    const SealedKey sealed = sealedUnder(SigningKey::generate());

    for (const QString& wrong : {kPhrase + u' ', kPhrase.toUpper(), u""_s, kPhrase.chopped(1)}) {
        const auto opened = openKey(sealed, kOwner, wrong);
        ASSERT_FALSE(opened);
        EXPECT_EQ(opened.error().kind, Error::Kind::Refused);
    }
}

TEST(SealedKeyTest, StaysShutUnderAnotherPersonsName)
{
    const auto opened = openKey(sealedUnder(SigningKey::generate()), PersonId(u"p-2"_s), kPhrase);

    ASSERT_FALSE(opened);
    EXPECT_EQ(opened.error().kind, Error::Kind::Refused);
}

TEST(SealedKeyTest, StaysShutWhenAnyByteOfItsBoxSaltOrNonceIsChanged)
{
    const SealedKey good = sealedUnder(SigningKey::generate());

    for (QByteArray SealedKey::*field : {&SealedKey::salt, &SealedKey::nonce, &SealedKey::box}) {
        for (qsizetype index = 0; index < (good.*field).size(); ++index) {
            SealedKey bad = good;
            (bad.*field)[index] = static_cast<char>((good.*field)[index] ^ 1);
            EXPECT_EQ(refusalOf(bad), Error::Kind::Refused) << index;
        }
    }
}

TEST(SealedKeyTest, StaysShutWhenAnyByteOfItsPublicKeyIsChanged)
{
    const SealedKey good = sealedUnder(SigningKey::generate());

    for (qsizetype index = 0; index < PublicKey::kBytes; ++index) {
        QByteArray changed = good.publicKey.bytes();
        changed[index] = static_cast<char>(changed[index] ^ 1);
        SealedKey bad = good;
        bad.publicKey = *PublicKey::fromBytes(changed);
        EXPECT_EQ(refusalOf(bad), Error::Kind::Refused) << index;
    }
}

TEST(SealedKeyTest, StaysShutWhenItsCostIsChanged)
{
    SealedKey morePasses = sealedUnder(SigningKey::generate());
    SealedKey moreMemory = morePasses;
    morePasses.cost.passes = 3;
    moreMemory.cost.memoryKib = 16;

    EXPECT_EQ(refusalOf(morePasses), Error::Kind::Refused);
    EXPECT_EQ(refusalOf(moreMemory), Error::Kind::Refused);
}

TEST(SealedKeyTest, IsNotTriedWhenNoSealCanLookLikeIt)
{
    const SealedKey good = sealedUnder(SigningKey::generate());
    SealedKey shortBox = good;
    shortBox.box.chop(1);
    SealedKey shortSalt = good;
    shortSalt.salt.chop(1);
    SealedKey noPass = good;
    noPass.cost.passes = 0;
    SealedKey allMemory = good;
    allMemory.cost.memoryKib = 0xffffffffu;
    SealedKey allDay = good;
    allDay.cost.passes = 1'000'000;

    for (const SealedKey& bad : {shortBox, shortSalt, noPass, allMemory, allDay})
        EXPECT_EQ(refusalOf(bad), Error::Kind::Malformed);
}

TEST(SealedKeyTest, ShowsNothingOfTheSeed)
{
    const SigningKey key = SigningKey::generate();
    const SealedKey sealed = sealedUnder(key);
    const QByteArray stored = sealed.publicKey.bytes() + sealed.salt + sealed.nonce + sealed.box;

    // Four bytes of 32 agree by chance once in about 10^8 runs.
    for (qsizetype at = 0; at + 4 <= qsizetype(SigningKey::kSeedBytes); ++at)
        EXPECT_FALSE(stored.contains(seedOf(key).mid(at, 4))) << at;
}

TEST(SealedKeyTest, IsSealedAfreshEachTime)
{
    const SigningKey key = SigningKey::generate();
    const SealedKey first = sealedUnder(key);
    const SealedKey second = sealedUnder(key);

    EXPECT_NE(first.salt, second.salt);
    EXPECT_NE(first.nonce, second.nonce);
    EXPECT_NE(first.box, second.box);
}

TEST(ChangePassphraseTest, KeepsTheKeyAndRaisesTheCostToTheFloor)
{
    const SigningKey key = SigningKey::generate();
    const SealedKey cheap = sealedUnder(key);
    const QString fresh = u"a kettle on the third shelf"_s;

    const auto changed = changePassphrase(cheap, kOwner, kPhrase, phraseOf(fresh), kCheap);

    ASSERT_TRUE(changed);
    EXPECT_EQ(changed->cost, kFloorCost);
    EXPECT_EQ(changed->publicKey, key.publicKey());
    EXPECT_EQ(seedOf(openKey(*changed, kOwner, fresh).value()), seedOf(key));
    EXPECT_FALSE(openKey(*changed, kOwner, kPhrase));
}

TEST(ChangePassphraseTest, NeedsTheOldOne)
{
    const SealedKey sealed = sealedUnder(SigningKey::generate());

    const auto changed = changePassphrase(sealed, kOwner, u"not the old passphrase"_s,
                                          phraseOf(u"a kettle on the third shelf"_s));

    ASSERT_FALSE(changed);
    EXPECT_EQ(changed.error().kind, Error::Kind::Refused);
}

} // namespace
} // namespace coldarc::people
