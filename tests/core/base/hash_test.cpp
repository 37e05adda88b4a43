#include "core/base/hash.h"

#include "tests/support/testing.h"

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

TEST(HashTest, ChainsByThePreviousDigestThenTheExactBytes)
{
    const Hash first = chained(Hash(), "one");

    EXPECT_EQ(first, sha256(QByteArray(32, '\0') + "one"));
    EXPECT_EQ(chained(first, "two"), sha256(first.bytes() + "two"));
}

} // namespace
} // namespace coldarc
