#include "core/people/signing_key.h"

#include "core/people/jws.h"
#include "core/people/sodium.h"
#include "core/people/words.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::people {
namespace {

constexpr std::array<std::string_view, kMeanings> kWords{
    "performed", "took-part",    "verified",  "countersigned", "witnessed", "reviewed",
    "released",  "removed-lock", "signed-in", "stop",          "incident",  "addendum",
};

static_assert(SigningKey::kSeedBytes == crypto_sign_SEEDBYTES);
static_assert(PublicKey::kBytes == crypto_sign_PUBLICKEYBYTES);
static_assert(Signature::kBytes == crypto_sign_BYTES);

const unsigned char* unsignedBytes(const QByteArray& bytes)
{
    return reinterpret_cast<const unsigned char*>(bytes.constData());
}

bool canStandInAMessage(const VisitId& visit)
{
    const QString& text = visit.text();
    return !text.isEmpty() &&
           std::none_of(text.begin(), text.end(), [](QChar one) { return one <= u' ' || one == u'\x7f'; });
}

} // namespace

std::string_view wordOf(Meaning meaning)
{
    return kWords[static_cast<std::size_t>(meaning)];
}

std::optional<Meaning> meaningFromWord(std::string_view word)
{
    return valueOf<Meaning>(kWords, word);
}

Result<QByteArray> signedMessage(const HeadStatement& statement, const PublicKey& key)
{
    const auto jws = headJws(statement, key);
    if (!jws)
        return tl::unexpected(jws.error());
    return signingInput(*jws);
}

Result<QByteArray> formerMessage(const HeadStatement& statement)
{
    if (!canStandInAMessage(statement.visit))
        return fail(Error::Kind::Malformed, u"a visit id that cannot be signed"_s);
    if (statement.sequence < 0)
        return fail(Error::Kind::Malformed, u"a sequence below 0"_s);
    const std::string_view word = wordOf(statement.meaning);
    QByteArray message("coldarc head v1\n");
    message += statement.visit.text().toUtf8() + '\n';
    message += QByteArray::number(statement.sequence) + '\n';
    message += statement.head.bytes() + '\n';
    message += QByteArray(word.data(), static_cast<qsizetype>(word.size()));
    return message;
}

SigningKey::SigningKey(SecretBytes seed, SecretBytes secret, PublicKey publicKey)
    : m_seed(std::move(seed))
    , m_secret(std::move(secret))
    , m_publicKey(std::move(publicKey))
{
}

SigningKey SigningKey::generate()
{
    SecretBytes seed(kSeedBytes);
    randombytes_buf(seed.data(), seed.size());
    return fromSeed(std::move(seed));
}

SigningKey SigningKey::fromSeed(SecretBytes seed)
{
    Q_ASSERT_X(seed.size() == kSeedBytes, "SigningKey::fromSeed", "a seed has 32 bytes");
    SecretBytes secret(crypto_sign_SECRETKEYBYTES);
    QByteArray open(PublicKey::kBytes, '\0');
    crypto_sign_seed_keypair(reinterpret_cast<unsigned char*>(open.data()), secret.data(), seed.data());
    return SigningKey(std::move(seed), std::move(secret), *PublicKey::fromBytes(open));
}

Signature SigningKey::sign(const QByteArray& message) const
{
    QByteArray signature(Signature::kBytes, '\0');
    crypto_sign_detached(reinterpret_cast<unsigned char*>(signature.data()), nullptr, unsignedBytes(message),
                         static_cast<unsigned long long>(message.size()), m_secret.data());
    return *Signature::fromBytes(signature);
}

bool isSignedBy(const PublicKey& key, const QByteArray& message, const Signature& signature)
{
    startSodium();
    return crypto_sign_verify_detached(unsignedBytes(signature.bytes()), unsignedBytes(message),
                                       static_cast<unsigned long long>(message.size()),
                                       unsignedBytes(key.bytes())) == 0;
}

bool isSignedBy(const PublicKey& key, const HeadStatement& statement, const Signature& signature)
{
    const auto message = signedMessage(statement, key);
    if (message && isSignedBy(key, *message, signature))
        return true;
    const auto former = formerMessage(statement);
    return former && isSignedBy(key, *former, signature);
}

} // namespace coldarc::people
