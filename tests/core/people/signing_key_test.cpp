#include "core/people/signing_key.h"

#include "core/base/json.h"
#include "tests/support/testing.h"

#include <cstring>

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;

SigningKey keyOf(const char* seedHex)
{
    const QByteArray bytes = QByteArray::fromHex(seedHex);
    SecretBytes seed(SigningKey::kSeedBytes);
    std::memcpy(seed.data(), bytes.constData(), seed.size());
    return SigningKey::fromSeed(std::move(seed));
}

struct Vector {
    const char* name;
    const char* seed;
    const char* publicKey;
    const char* message;
    const char* signature;
    friend void PrintTo(const Vector& vector, std::ostream* out) { *out << vector.name; }
};

// Source: RFC 8032 section 7.1, TEST 1 to TEST 3, read as several public test suites quote them alike.
const Vector kVectors[] = {
    {"Test1", "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
     "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a", "",
     "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f"
     "0595bbe24"
     "655141438e7a100b"},
    {"Test2", "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
     "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c", "72",
     "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2ea"
     "eb4302aee"
     "b00d291612bb0c00"},
    {"Test3", "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
     "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025", "af82",
     "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e"
     "9716ed28d"
     "c027beceea1ec40a"},
};

class PublishedSignatureTest : public ::testing::TestWithParam<Vector> {};

TEST_P(PublishedSignatureTest, ComesOutTheSameHere)
{
    const SigningKey key = keyOf(GetParam().seed);
    const QByteArray message = QByteArray::fromHex(GetParam().message);

    const Signature signature = key.sign(message);

    EXPECT_EQ(key.publicKey().bytes().toHex(), QByteArray(GetParam().publicKey));
    EXPECT_EQ(signature.bytes().toHex(), QByteArray(GetParam().signature));
    EXPECT_TRUE(isSignedBy(key.publicKey(), message, signature));
    EXPECT_FALSE(isSignedBy(key.publicKey(), message + '\n', signature));
}

INSTANTIATE_TEST_SUITE_P(Rfc8032, PublishedSignatureTest, ::testing::ValuesIn(kVectors),
                         [](const auto& instance) { return std::string(instance.param.name); });

HeadStatement statement()
{
    return {VisitId(u"visit-7"_s),
            41,
            sha256("head"),
            Meaning::Performed,
            *wallFromIso(u"2026-11-25T19:04:11.250Z"_s),
            PersonId(u"person-3"_s)};
}

// The message written out by hand from the form in the header.
TEST(FormerMessageTest, IsPrefixVisitSequenceHashAndMeaning)
{
    const QByteArray expected =
        QByteArray("coldarc head v1\nvisit-7\n41\n") + sha256("head").bytes() + QByteArray("\nperformed");

    EXPECT_EQ(formerMessage(statement()), expected);
}

TEST(FormerMessageTest, RefusesAnIdThatCouldBeReadInTwoWays)
{
    for (const QString& id : {u""_s, u"visit\n7"_s, u"visit 7"_s, u"visit\t7"_s, u"visit\u007f"_s}) {
        HeadStatement bad = statement();
        bad.visit = VisitId(id);
        const auto message = formerMessage(bad);
        ASSERT_FALSE(message) << id.toStdString();
        EXPECT_EQ(message.error().kind, Error::Kind::Malformed);
    }
}

TEST(FormerMessageTest, RefusesASequenceBelowZero)
{
    HeadStatement bad = statement();
    bad.sequence = -1;

    EXPECT_FALSE(formerMessage(bad));
}

TEST(HeadSignatureTest, FitsNothingElseThatAHeadSays)
{
    const SigningKey key = SigningKey::generate();
    const Signature signature = key.sign(*signedMessage(statement(), key.publicKey()));
    HeadStatement otherVisit = statement();
    otherVisit.visit = VisitId(u"visit-8"_s);
    HeadStatement otherEntry = statement();
    otherEntry.sequence = 42;
    HeadStatement otherHead = statement();
    otherHead.head = sha256("another head");
    HeadStatement otherMeaning = statement();
    otherMeaning.meaning = Meaning::Reviewed;
    HeadStatement otherMoment = statement();
    otherMoment.at += std::chrono::milliseconds(1);

    HeadStatement otherPerson = statement();
    otherPerson.person = PersonId(u"person-4"_s);

    EXPECT_TRUE(isSignedBy(key.publicKey(), statement(), signature));
    for (const HeadStatement& other :
         {otherVisit, otherEntry, otherHead, otherMeaning, otherMoment, otherPerson})
        EXPECT_FALSE(isSignedBy(key.publicKey(), other, signature));
}

TEST(HeadSignatureTest, StaysGoodInTheFormerFormWhichSaysNothingOfTheMoment)
{
    const SigningKey key = SigningKey::generate();
    const Signature signature = key.sign(*formerMessage(statement()));
    HeadStatement otherMoment = statement();
    otherMoment.at += std::chrono::milliseconds(1);
    HeadStatement otherMeaning = statement();
    otherMeaning.meaning = Meaning::Reviewed;

    EXPECT_TRUE(isSignedBy(key.publicKey(), statement(), signature));
    EXPECT_TRUE(isSignedBy(key.publicKey(), otherMoment, signature));
    EXPECT_FALSE(isSignedBy(key.publicKey(), otherMeaning, signature));
}

TEST(HeadSignatureTest, FitsNoOtherKey)
{
    const SigningKey key = SigningKey::generate();
    const Signature signature = key.sign(*signedMessage(statement(), key.publicKey()));

    EXPECT_FALSE(isSignedBy(SigningKey::generate().publicKey(), statement(), signature));
}

TEST(HeadSignatureTest, BreaksWithAnyBitOfIt)
{
    const SigningKey key = SigningKey::generate();
    const QByteArray good = key.sign(*signedMessage(statement(), key.publicKey())).bytes();

    for (qsizetype index = 0; index < good.size(); ++index) {
        QByteArray bad = good;
        bad[index] = static_cast<char>(bad[index] ^ 1);
        EXPECT_FALSE(isSignedBy(key.publicKey(), statement(), *Signature::fromBytes(bad))) << index;
    }
}

TEST(MeaningTest, HasAWordThatLeadsBackToIt)
{
    for (int index = 0; index < kMeanings; ++index)
        EXPECT_EQ(meaningFromWord(wordOf(static_cast<Meaning>(index))), static_cast<Meaning>(index));
    EXPECT_EQ(wordOf(Meaning::RemovedLock), "removed-lock");
    EXPECT_EQ(meaningFromWord(""), std::nullopt);
}

} // namespace
} // namespace coldarc::people
