#include "core/people/retirement.h"

#include "core/base/json.h"
#include "core/people/certificate.h"
#include "tests/support/test_key.h"
#include "tests/support/testing.h"

// Every key and office here is invented.

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono;
using coldarc::test::keyOf;

class RetirementTest : public ::testing::Test {
protected:
    SigningKey office = keyOf(4);
    SigningKey engineer = keyOf(1);
    Retirement retirement{engineer.publicKey(), 2026y / November / 26d,
                          *wallFromIso(u"2026-11-27T08:00:00.000Z"_s)};
};

TEST_F(RetirementTest, IsAJwsOfTheOfficeOverTheKeyAndTheDay)
{
    const SignedRetirement paper = *retire(retirement, office);

    EXPECT_EQ(paper.jws.protectedHeader, "{\"alg\":\"Ed25519\",\"kid\":\"" +
                                             thumbprint(office.publicKey()).toLatin1() +
                                             "\",\"typ\":\"coldarc-retirement\"}");
    EXPECT_TRUE(paper.jws.payload.contains("\"since\":\"2026-11-26\""));
    EXPECT_EQ(saidBy(paper), (Retired{retirement, thumbprint(office.publicKey())}));
    EXPECT_TRUE(isRetiredBy(office.publicKey(), paper));
    EXPECT_FALSE(isRetiredBy(keyOf(5).publicKey(), paper));
}

TEST_F(RetirementTest, NothingOfItIsAltered)
{
    const SignedRetirement good = *retire(retirement, office);
    for (const auto& [before, now] :
         {std::pair<QByteArray, QByteArray>("2026-11-26", "2027-11-26"), {"08:00", "09:00"}}) {
        SignedRetirement altered = good;
        altered.jws.payload.replace(before, now);
        ASSERT_TRUE(saidBy(altered));
        EXPECT_FALSE(isRetiredBy(office.publicKey(), altered));
    }
    SignedRetirement spaced = good;
    spaced.jws.payload.replace(",", ", ");
    EXPECT_FALSE(saidBy(spaced));
    SignedRetirement underAnother{retire(retirement, keyOf(5))->jws, good.signature};
    underAnother.signature = office.sign(signingInput(underAnother.jws));
    EXPECT_FALSE(isRetiredBy(office.publicKey(), underAnother)) << "in the name of another office";
}

TEST_F(RetirementTest, IsNoCertificateAndNoneIsARetirement)
{
    const SignedRetirement paper = *retire(retirement, office);
    const Certificate certificate =
        *certify({engineer.publicKey(), PersonId(u"p-1"_s), u"Ada Invented"_s, Role::Engineer,
                  2026y / November / 1d, 2027y / November / 1d, retirement.at},
                 office);

    EXPECT_FALSE(saidBy(Certificate{paper.jws, paper.signature}));
    EXPECT_FALSE(saidBy(SignedRetirement{certificate.jws, certificate.signature}));
}

TEST_F(RetirementTest, AnOfficeDoesNotRetireItselfAndADayHasToExist)
{
    Retirement other = retirement;
    other.key = office.publicKey();
    EXPECT_EQ(retire(other, office).error().kind, Error::Kind::Malformed);
    other = retirement;
    other.since = 2026y / February / 30d;
    EXPECT_EQ(retire(other, office).error().kind, Error::Kind::Malformed);
}

TEST_F(RetirementTest, WhatWasSignedBeforeThatDayStaysGood)
{
    EXPECT_FALSE(isOutOfUseAt(retirement, *wallFromIso(u"2026-11-25T23:59:59.999Z"_s)));
    EXPECT_TRUE(isOutOfUseAt(retirement, *wallFromIso(u"2026-11-26T00:00:00.000Z"_s)));
}

} // namespace
} // namespace coldarc::people
