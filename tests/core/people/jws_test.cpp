#include "core/people/jws.h"

#include "core/base/json.h"
#include "tests/support/testing.h"

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;

// RFC 8037, appendix A: key, thumbprint and signature (READ in texts about it).
const QByteArray kSeed = "nWGxne_9WmC6hEr0kuwsxERJxWl7MmkZcDusAxyuf2A";
const QByteArray kKey = "11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo";
const QByteArray kInput = "eyJhbGciOiJFZERTQSJ9.RXhhbXBsZSBvZiBFZDI1NTE5IHNpZ25pbmc";
const QByteArray kSignature =
    "hgyY0il_MGCjP0JzlnLWG1PPOt7-09PGcvMg3AIbQR6dWbhijcNR4ki4iylGjg5BhVsPt9g7sVvpAr_MuM0KAg";

SigningKey publishedKey()
{
    const QByteArray bytes = *fromBase64Url(kSeed);
    SecretBytes seed(SigningKey::kSeedBytes);
    std::copy(bytes.begin(), bytes.end(), seed.data());
    return SigningKey::fromSeed(std::move(seed));
}

HeadStatement statement()
{
    return {VisitId(u"visit-7"_s),
            41,
            sha256("head"),
            Meaning::Performed,
            *wallFromIso(u"2026-11-25T19:04:11.250Z"_s),
            PersonId(u"person-3"_s)};
}

TEST(JwsTest, SignsThePublishedExampleWithThePublishedKey)
{
    const SigningKey key = publishedKey();

    EXPECT_EQ(base64Url(key.publicKey().bytes()), kKey);
    EXPECT_EQ(base64Url(key.sign(kInput).bytes()), kSignature);
    EXPECT_EQ(thumbprint(key.publicKey()), u"kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k"_s);
}

// RFC 7515, appendix C: the octets 3 236 255 224 193.
TEST(JwsTest, WritesBase64UrlAsPublished)
{
    const QByteArray octets = QByteArray::fromHex("03ecffe0c1");

    EXPECT_EQ(base64Url(octets), "A-z_4ME");
    EXPECT_EQ(fromBase64Url("A-z_4ME"), octets);
}

TEST(JwsTest, ReadsBase64UrlInOneFormOnly)
{
    for (const QByteArray& text : {QByteArray("A-z_4ME="), QByteArray("A+z/4ME"), QByteArray("A-z_4MF"),
                                   QByteArray("A-z_ 4ME"), QByteArray("A-z_4M")})
        EXPECT_FALSE(fromBase64Url(text)) << text.toStdString();
}

TEST(JwsTest, ReadsAKeyInOneFormOnly)
{
    const QJsonObject good = jwkOf(publishedKey().publicKey());
    const auto with = [&](const QString& member, const QString& text) {
        QJsonObject changed = good;
        changed.insert(member, text);
        return changed;
    };
    QJsonObject shorter = good;
    shorter.remove(u"crv"_s);

    EXPECT_EQ(keyFromJwk(good), publishedKey().publicKey());
    EXPECT_FALSE(keyFromJwk(with(u"crv"_s, u"X25519"_s)));
    EXPECT_FALSE(keyFromJwk(with(u"kty"_s, u"EC"_s)));
    EXPECT_FALSE(keyFromJwk(with(u"use"_s, u"sig"_s)));
    EXPECT_FALSE(keyFromJwk(with(u"x"_s, QString::fromLatin1(kKey) + u'=')));
    EXPECT_FALSE(keyFromJwk(with(u"x"_s, QString::fromLatin1(kKey).left(42) + QChar(0x0131))));
    EXPECT_FALSE(keyFromJwk(shorter));
}

TEST(JwsTest, SaysWhoMeansWhatOfWhichHeadAndWhen)
{
    const HeadJws jws = *headJws(statement(), publishedKey().publicKey());

    EXPECT_EQ(jws.protectedHeader, "{\"alg\":\"Ed25519\",\"at\":\"2026-11-25T19:04:11.250Z\","
                                   "\"kid\":\"kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k\",\"meaning\":"
                                   "\"performed\",\"person\":\"person-3\"}");
    EXPECT_EQ(jws.payload,
              "{\"entry\":41,\"sha256\":\"" + sha256("head").hex().toLatin1() + "\",\"visit\":\"visit-7\"}");
    EXPECT_EQ(signingInput(jws), base64Url(jws.protectedHeader) + '.' + base64Url(jws.payload));
}

TEST(JwsTest, ReadsBackWhatItSays)
{
    const auto said = headSaidBy(*headJws(statement(), publishedKey().publicKey()));

    ASSERT_TRUE(said);
    EXPECT_EQ(said->statement, statement());
    EXPECT_EQ(said->thumbprint, thumbprint(publishedKey().publicKey()));
}

// RFC 8259, section 7: what has to be escaped, and in which ways.
TEST(JwsTest, SignsNamesThatJsonEscapes)
{
    HeadStatement odd = statement();
    odd.person = PersonId(u"O\"N\\e\tl \u00e9"_s);

    const HeadJws jws = *headJws(odd, publishedKey().publicKey());

    EXPECT_TRUE(jws.protectedHeader.endsWith("\"person\":\"O\\\"N\\\\e\\tl \xc3\xa9\"}"))
        << jws.protectedHeader.toStdString();
    EXPECT_EQ(headSaidBy(jws)->statement, odd);
}

TEST(JwsTest, ReadsNothingThatIsWrittenOtherwise)
{
    const HeadJws good = *headJws(statement(), publishedKey().publicKey());
    const auto reads = [](const HeadJws& jws) { return headSaidBy(jws).has_value(); };
    const auto withHeader = [&](const QByteArray& before, const QByteArray& now) {
        return HeadJws{QByteArray(good.protectedHeader).replace(before, now), good.payload};
    };

    ASSERT_TRUE(reads(good));
    EXPECT_FALSE(reads(withHeader("Ed25519", "EdDSA"))) << "the name of RFC 9864 alone";
    EXPECT_FALSE(reads(withHeader("{", "{\"b64\":false,"))) << "nothing that changes what is signed";
    EXPECT_FALSE(reads(withHeader(",", ", ")));
    EXPECT_FALSE(reads(withHeader("performed", "liked")));
    EXPECT_FALSE(reads(withHeader("2026-11-25T", "yesterday ")));
    EXPECT_FALSE(reads({good.protectedHeader, QByteArray(good.payload).replace("41", "41.0")}));
    EXPECT_FALSE(reads({good.protectedHeader, QByteArray(good.payload).replace("41", "-1")}));
    EXPECT_FALSE(reads({good.protectedHeader, QByteArray(good.payload).replace("visit-7", "")}));
    EXPECT_FALSE(reads({"", ""}));
}

TEST(JwsTest, NamesNoVisitOrPersonWithoutAnIdAndNoEntryBelowZero)
{
    HeadStatement noVisit = statement();
    noVisit.visit = VisitId();
    HeadStatement below = statement();
    below.sequence = -1;
    HeadStatement nobody = statement();
    nobody.person = PersonId();

    for (const HeadStatement& bad : {noVisit, nobody, below}) {
        const auto jws = headJws(bad, publishedKey().publicKey());
        ASSERT_FALSE(jws);
        EXPECT_EQ(jws.error().kind, Error::Kind::Malformed);
    }
}

} // namespace
} // namespace coldarc::people
