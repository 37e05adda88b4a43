#include "core/people/retirement.h"

#include "core/base/json.h"

using namespace Qt::StringLiterals;

namespace coldarc::people {
namespace {

const QString kTyp = u"coldarc-retirement"_s;

QByteArray payloadOf(const Retirement& retirement)
{
    return R"({"at":)" + jsonText(isoUtc(retirement.at)) + R"(,"key":)" + jwkText(retirement.key) +
           R"(,"since":)" + jsonText(isoText(retirement.since)) + '}';
}

} // namespace

Result<SignedRetirement> retire(const Retirement& retirement, const SigningKey& office)
{
    if (!retirement.since.ok())
        return fail(Error::Kind::Malformed, u"a day that does not exist"_s);
    if (retirement.key == office.publicKey())
        return fail(Error::Kind::Malformed, u"an office does not retire its own key"_s);
    const PaperJws jws{paperHeader(kTyp, thumbprint(office.publicKey())), payloadOf(retirement)};
    return SignedRetirement{jws, office.sign(signingInput(jws))};
}

std::optional<Retired> saidBy(const SignedRetirement& paper)
{
    const auto header = parseObject(paper.jws.protectedHeader);
    const auto payload = parseObject(paper.jws.payload);
    if (!header || !payload)
        return std::nullopt;
    const auto key = keyFromJwk(payload->value(u"key"_s).toObject());
    const auto since = dayFromIso(payload->value(u"since"_s).toString());
    const auto at = wallFromIso(payload->value(u"at"_s).toString());
    if (!key || !since || !at)
        return std::nullopt;
    const Retired said{{*key, *since, *at}, header->value(u"kid"_s).toString()};
    const bool isExact = since->ok() && paperHeader(kTyp, said.office) == paper.jws.protectedHeader &&
                         payloadOf(said.retirement) == paper.jws.payload;
    return isExact ? std::optional(said) : std::nullopt;
}

bool isRetiredBy(const PublicKey& office, const SignedRetirement& paper)
{
    const auto said = saidBy(paper);
    return said && isRetiredBy(office, paper, *said);
}

bool isRetiredBy(const PublicKey& office, const SignedRetirement& paper, const Retired& said)
{
    return said.office == thumbprint(office) && said.retirement.key != office &&
           isSignedBy(office, signingInput(paper.jws), paper.signature);
}

bool isOutOfUseAt(const Retirement& retirement, WallTime moment)
{
    return retirement.since <= utcDayOf(moment);
}

} // namespace coldarc::people
