#include "core/base/hash.h"

#include "tests/support/testing.h"

#include <QCryptographicHash>

namespace coldarc {
namespace {

// Source: FIPS 180-4 example messages (values from memory; they are the published SHA-256 examples).
TEST(HashTest, AgreesWithThePublishedExamples)
{
    EXPECT_EQ(sha256("abc").hex(),
              QStringLiteral("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"));
    EXPECT_EQ(sha256("").hex(),
              QStringLiteral("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"));
}

// Source: FIPS 180-4 example of two blocks (from memory).
TEST(HashTest, AgreesWithThePublishedExampleOfTwoBlocks)
{
    EXPECT_EQ(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq").hex(),
              QStringLiteral("248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"));
}

// Qt's own SHA-256 is another implementation of the same standard.
TEST(HashTest, AgreesWithASecondImplementationAtEveryLengthAroundABlock)
{
    for (int length = 0; length < 200; ++length) {
        const QByteArray bytes(length, static_cast<char>(length));
        EXPECT_EQ(sha256(bytes).bytes(), QCryptographicHash::hash(bytes, QCryptographicHash::Sha256))
            << length;
    }
}

TEST(HashTest, TakesExactlyThirtyTwoBytes)
{
    EXPECT_EQ(Hash::fromBytes(sha256("abc").bytes()), sha256("abc"));
    EXPECT_FALSE(Hash::fromBytes(QByteArray(31, 'x')));
    EXPECT_FALSE(Hash::fromBytes(QByteArray(33, 'x')));
    EXPECT_EQ(Hash().bytes(), QByteArray(32, '\0'));
}

TEST(HashTest, TakesExactlySixtyFourHexadecimalDigits)
{
    const QString hex = sha256("abc").hex();

    EXPECT_EQ(Hash::fromHex(hex), sha256("abc"));
    EXPECT_EQ(Hash::fromHex(hex.toUpper()), sha256("abc"));
    EXPECT_FALSE(Hash::fromHex(hex.left(63)));
    EXPECT_FALSE(Hash::fromHex(hex.left(63) + QLatin1Char('g')));
    EXPECT_FALSE(Hash::fromHex({}));
}

TEST(HashTest, ChainsByThePreviousDigestThenTheExactBytes)
{
    const Hash first = chained(Hash(), "one");

    EXPECT_EQ(first, sha256(QByteArray(32, '\0') + "one"));
    EXPECT_EQ(chained(first, "two"), sha256(first.bytes() + "two"));
}

} // namespace
} // namespace coldarc
