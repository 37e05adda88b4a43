#include "core/people/jws.h"

#include "core/base/json.h"
#include "core/base/words.h"

#include <QJsonDocument>

using namespace Qt::StringLiterals;

namespace coldarc::people {
namespace {

constexpr auto kForm = QByteArray::Base64UrlEncoding | QByteArray::OmitTrailingEquals;

/// Qt writes keys by code unit, numbers that are whole without a point, and nothing between.
QByteArray compact(const QJsonObject& object)
{
    return QJsonDocument(object).toJson(QJsonDocument::Compact);
}

QByteArray headerOf(const HeadStatement& statement, const QString& thumbprint)
{
    return compact({{u"alg"_s, u"Ed25519"_s},
                    {u"at"_s, isoUtc(statement.at)},
                    {u"kid"_s, thumbprint},
                    {u"meaning"_s, wordText(wordOf(statement.meaning))},
                    {u"person"_s, statement.person.text()}});
}

QByteArray payloadOf(const HeadStatement& statement)
{
    return compact({{u"entry"_s, statement.sequence},
                    {u"sha256"_s, statement.head.hex()},
                    {u"visit"_s, statement.visit.text()}});
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
    return key && jwkOf(*key) == jwk ? key : std::nullopt;
}

QString thumbprint(const PublicKey& key)
{
    return QString::fromLatin1(base64Url(sha256(compact(jwkOf(key))).bytes()));
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
    return QJsonDocument(QJsonObject{{u"alg"_s, u"Ed25519"_s}, {u"kid"_s, thumbprint}, {u"typ"_s, typ}})
        .toJson(QJsonDocument::Compact);
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
