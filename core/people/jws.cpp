#include "core/people/jws.h"

#include "core/base/json.h"
#include "core/base/words.h"

using namespace Qt::StringLiterals;

namespace coldarc::people {
namespace {

constexpr auto kForm = QByteArray::Base64UrlEncoding | QByteArray::OmitTrailingEquals;

// As Qt writes objects in JSON: keys by code unit, whole numbers without a point, and nothing between.

QByteArray headerOf(const HeadStatement& statement, const QString& thumbprint)
{
    return R"({"alg":"Ed25519","at":)" + jsonText(isoUtc(statement.at)) + R"(,"kid":)" +
           jsonText(thumbprint) + R"(,"meaning":)" + jsonText(wordText(wordOf(statement.meaning))) +
           R"(,"person":)" + jsonText(statement.person.text()) + '}';
}

QByteArray payloadOf(const HeadStatement& statement)
{
    return R"({"entry":)" + QByteArray::number(statement.sequence) + R"(,"sha256":)" +
           jsonText(statement.head.hex()) + R"(,"visit":)" + jsonText(statement.visit.text()) + '}';
}

} // namespace

QByteArray base64Url(const QByteArray& bytes)
{
    return bytes.toBase64(kForm);
}

std::optional<QByteArray> fromBase64Url(const QByteArray& text)
{
    const auto read = QByteArray::fromBase64Encoding(text, QByteArray::Base64UrlEncoding |
                                                               QByteArray::AbortOnBase64DecodingErrors);
    if (!read || base64Url(*read) != text)
        return std::nullopt;
    return *read;
}

QJsonObject jwkOf(const PublicKey& key)
{
    return {{u"crv"_s, u"Ed25519"_s},
            {u"kty"_s, u"OKP"_s},
            {u"x"_s, QString::fromLatin1(base64Url(key.bytes()))}};
}

std::optional<PublicKey> keyFromJwk(const QJsonObject& jwk)
{
    const auto bytes = fromBase64Url(jwk.value(u"x"_s).toString().toLatin1());
    const auto key = bytes ? PublicKey::fromBytes(*bytes) : std::nullopt;
    const bool isExact =
        jwk.size() == 3 && jwk.value(u"crv"_s) == u"Ed25519"_s && jwk.value(u"kty"_s) == u"OKP"_s;
    return isExact ? key : std::nullopt;
}

QByteArray jwkText(const PublicKey& key)
{
    return R"({"crv":"Ed25519","kty":"OKP","x":")" + base64Url(key.bytes()) + R"("})";
}

QString thumbprint(const PublicKey& key)
{
    return QString::fromLatin1(base64Url(sha256(jwkText(key)).bytes()));
}

Result<HeadJws> headJws(const HeadStatement& statement, const PublicKey& key)
{
    if (statement.visit.isEmpty() || statement.person.isEmpty())
        return fail(Error::Kind::Malformed, u"a visit or a person without an id"_s);
    if (statement.sequence < 0)
        return fail(Error::Kind::Malformed, u"a sequence below 0"_s);
    return HeadJws{headerOf(statement, thumbprint(key)), payloadOf(statement)};
}

std::optional<HeadSaid> headSaidBy(const HeadJws& jws)
{
    const auto header = parseObject(jws.protectedHeader);
    const auto payload = parseObject(jws.payload);
    if (!header || !payload)
        return std::nullopt;
    const auto at = wallFromIso(header->value(u"at"_s).toString());
    const auto meaning = meaningFromWord(header->value(u"meaning"_s).toString().toStdString());
    const auto head = Hash::fromHex(payload->value(u"sha256"_s).toString());
    if (!at || !meaning || !head)
        return std::nullopt;
    const HeadSaid said{{VisitId(payload->value(u"visit"_s).toString()),
                         payload->value(u"entry"_s).toInteger(-1), *head, *meaning, *at,
                         PersonId(header->value(u"person"_s).toString())},
                        header->value(u"kid"_s).toString()};
    const bool isWhole = !said.statement.visit.isEmpty() && !said.statement.person.isEmpty() &&
                         said.statement.sequence >= 0 &&
                         headerOf(said.statement, said.thumbprint) == jws.protectedHeader &&
                         payloadOf(said.statement) == jws.payload;
    return isWhole ? std::optional(said) : std::nullopt;
}

QByteArray paperHeader(const QString& typ, const QString& thumbprint)
{
    return R"({"alg":"Ed25519","kid":)" + jsonText(thumbprint) + R"(,"typ":)" + jsonText(typ) + '}';
}

QByteArray signingInput(const QByteArray& protectedHeader, const QByteArray& payload)
{
    return base64Url(protectedHeader) + '.' + base64Url(payload);
}

QByteArray signingInput(const PaperJws& jws)
{
    return signingInput(jws.protectedHeader, jws.payload);
}

QByteArray signingInput(const HeadJws& jws)
{
    return signingInput(jws.protectedHeader, jws.payload);
}

} // namespace coldarc::people
