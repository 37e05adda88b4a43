#include "core/people/certificate.h"

#include "core/base/json.h"
#include "core/people/jws.h"
#include "tests/support/testing.h"

// Every person here is invented.

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono;

// RFC 8037, appendix A.1 and A.2 (READ-2).
const QByteArray kPublishedSeed = "nWGxne_9WmC6hEr0kuwsxERJxWl7MmkZcDusAxyuf2A";
const QByteArray kPublishedKey = "11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo";

SigningKey keyOf(const QByteArray& bytes)
{
    SecretBytes seed(SigningKey::kSeedBytes);
    std::copy(bytes.begin(), bytes.end(), seed.data());
    return SigningKey::fromSeed(std::move(seed));
}

class CertificateTest : public ::testing::Test {
protected:
    SigningKey office = keyOf(QByteArray(32, 4));
    SigningKey engineer = keyOf(*fromBase64Url(kPublishedSeed));
    Enrolment enrolment{engineer.publicKey(),
                        PersonId(u"person-3"_s),
                        u"A. Ok\u00f6ro \"Ada\""_s,
                        Role::Engineer,
                        2026y / November / 25d,
                        2027y / November / 24d,
                        *wallFromIso(u"2026-11-25T19:04:11.250Z"_s)};
};

TEST_F(CertificateTest, IsAJwsOverTheKeyAsAJwk)
{
    const Certificate certificate = *certify(enrolment, office);

    EXPECT_EQ(certificate.jws.protectedHeader, "{\"alg\":\"Ed25519\",\"kid\":\"" +
                                                   thumbprint(office.publicKey()).toLatin1() +
                                                   "\",\"typ\":\"coldarc-enrolment\"}");
    const auto payload = parseObject(certificate.jws.payload);
    ASSERT_TRUE(payload);
    EXPECT_EQ(payload->value(u"key"_s).toObject(),
              (QJsonObject{{u"kty"_s, u"OKP"_s},
                           {u"crv"_s, u"Ed25519"_s},
                           {u"x"_s, QString::fromLatin1(kPublishedKey)}}));
    EXPECT_TRUE(isSignedBy(office.publicKey(), signingInput(certificate.jws), certificate.signature));
}

TEST_F(CertificateTest, SaysAgainWhatWasCertifiedAndByWhom)
{
    const auto said = saidBy(*certify(enrolment, office));

    ASSERT_TRUE(said);
    EXPECT_EQ(said->enrolment, enrolment);
    EXPECT_EQ(said->office, thumbprint(office.publicKey()));
}

TEST_F(CertificateTest, NoFlippedBitIsCertified)
{
    const Certificate good = *certify(enrolment, office);
    ASSERT_TRUE(isCertifiedBy(office.publicKey(), good));
    for (qsizetype bit = 0; bit < good.jws.payload.size() * 8; ++bit) {
        Certificate bad = good;
        bad.jws.payload[bit / 8] = static_cast<char>(bad.jws.payload[bit / 8] ^ (1 << (bit % 8)));
        EXPECT_FALSE(isCertifiedBy(office.publicKey(), bad)) << "payload " << bit;
    }
    for (qsizetype bit = 0; bit < good.jws.protectedHeader.size() * 8; ++bit) {
        Certificate bad = good;
        bad.jws.protectedHeader[bit / 8] =
            static_cast<char>(bad.jws.protectedHeader[bit / 8] ^ (1 << (bit % 8)));
        EXPECT_FALSE(isCertifiedBy(office.publicKey(), bad)) << "header " << bit;
    }
    EXPECT_FALSE(isCertifiedBy(engineer.publicKey(), good));
}

TEST_F(CertificateTest, AHeadIsNoCertificate)
{
    const HeadJws head = *headJws(
        {VisitId(u"visit-7"_s), 0, sha256("head"), Meaning::SignedIn, enrolment.at, enrolment.person},
        office.publicKey());

    EXPECT_FALSE(saidBy({{head.protectedHeader, head.payload}, office.sign(signingInput(head))}));
}

TEST_F(CertificateTest, HoldsFromTheFirstDayToTheLast)
{
    const auto at = [](const QString& text) { return *wallFromIso(text); };

    EXPECT_FALSE(holdsAt(enrolment, at(u"2026-11-24T23:59:59.999Z"_s)));
    EXPECT_TRUE(holdsAt(enrolment, at(u"2026-11-25T00:00:00.000Z"_s)));
    EXPECT_TRUE(holdsAt(enrolment, at(u"2027-11-24T23:59:59.999Z"_s)));
    EXPECT_FALSE(holdsAt(enrolment, at(u"2027-11-25T00:00:00.000Z"_s)));
}

TEST_F(CertificateTest, IsNotGivenForWhatIsNotWhole)
{
    const auto isGiven = [&](auto change) {
        Enrolment other = enrolment;
        change(other);
        return certify(other, office).has_value();
    };

    EXPECT_FALSE(isGiven([](Enrolment& one) { one.name = u"  "_s; }));
    EXPECT_FALSE(isGiven([](Enrolment& one) { one.person = PersonId(); }));
    EXPECT_FALSE(isGiven([](Enrolment& one) { one.until = 2026y / November / 24d; }));
    EXPECT_FALSE(isGiven([](Enrolment& one) { one.from = 2026y / February / 30d; }));
    EXPECT_FALSE(isGiven([&](Enrolment& one) { one.key = office.publicKey(); }))
        << "nobody vouches for themselves";
    EXPECT_TRUE(isGiven([](Enrolment&) {}));
}

} // namespace
} // namespace coldarc::people
