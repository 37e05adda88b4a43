#include "core/people/certificate.h"

#include "core/base/json.h"
#include "core/people/store_text.h"

using namespace Qt::StringLiterals;

namespace coldarc::people {
namespace {

const QString kTyp = u"coldarc-enrolment"_s;

QByteArray payloadOf(const Enrolment& enrolment)
{
    return R"({"at":)" + jsonText(isoUtc(enrolment.at)) + R"(,"from":)" + jsonText(isoText(enrolment.from)) +
           R"(,"key":)" + jwkText(enrolment.key) + R"(,"name":)" + jsonText(enrolment.name) +
           R"(,"person":)" + jsonText(enrolment.person.text()) + R"(,"role":)" +
           jsonText(wordText(wordOf(enrolment.role))) + R"(,"until":)" + jsonText(isoText(enrolment.until)) +
           '}';
}

bool isWhole(const Enrolment& enrolment)
{
    return !enrolment.person.isEmpty() && !enrolment.name.trimmed().isEmpty() && enrolment.from.ok() &&
           enrolment.until.ok() && enrolment.from <= enrolment.until;
}

} // namespace

Result<Certificate> certify(const Enrolment& enrolment, const SigningKey& office)
{
    if (!isWhole(enrolment))
        return fail(Error::Kind::Malformed, u"an enrolment that is not whole"_s);
    if (enrolment.key == office.publicKey())
        return fail(Error::Kind::Malformed, u"an office does not certify its own key"_s);
    const PaperJws jws{paperHeader(kTyp, thumbprint(office.publicKey())), payloadOf(enrolment)};
    return Certificate{jws, office.sign(signingInput(jws))};
}

std::optional<Certified> saidBy(const Certificate& certificate)
{
    const auto header = parseObject(certificate.jws.protectedHeader);
    const auto payload = parseObject(certificate.jws.payload);
    if (!header || !payload)
        return std::nullopt;
    const auto key = keyFromJwk(payload->value(u"key"_s).toObject());
    const auto role = roleFromWord(payload->value(u"role"_s).toString().toStdString());
    const auto from = dayFromIso(payload->value(u"from"_s).toString());
    const auto until = dayFromIso(payload->value(u"until"_s).toString());
    const auto at = wallFromIso(payload->value(u"at"_s).toString());
    if (!key || !role || !from || !until || !at)
        return std::nullopt;
    const Certified said{{*key, PersonId(payload->value(u"person"_s).toString()),
                          payload->value(u"name"_s).toString(), *role, *from, *until, *at},
                         header->value(u"kid"_s).toString()};
    const bool isExact = isWhole(said.enrolment) &&
                         paperHeader(kTyp, said.office) == certificate.jws.protectedHeader &&
                         payloadOf(said.enrolment) == certificate.jws.payload;
    return isExact ? std::optional(said) : std::nullopt;
}

bool isCertifiedBy(const PublicKey& office, const Certificate& certificate)
{
    const auto said = saidBy(certificate);
    return said && isCertifiedBy(office, certificate, *said);
}

bool isCertifiedBy(const PublicKey& office, const Certificate& certificate, const Certified& said)
{
    return said.office == thumbprint(office) && said.enrolment.key != office &&
           isSignedBy(office, signingInput(certificate.jws), certificate.signature);
}

bool holdsAt(const Enrolment& enrolment, WallTime moment)
{
    const Day day = utcDayOf(moment);
    return enrolment.from <= day && day <= enrolment.until;
}

} // namespace coldarc::people
