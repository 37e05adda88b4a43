#include "core/people/sealing.h"

#include "core/people/sodium.h"

using namespace Qt::StringLiterals;

namespace coldarc::people {
namespace {

static_assert(SealedKey::kSaltBytes == crypto_pwhash_SALTBYTES);
static_assert(SealedKey::kNonceBytes == crypto_secretbox_NONCEBYTES);
static_assert(SealedKey::kBoxBytes == crypto_secretbox_MACBYTES + 2 * 32);

unsigned char* writable(QByteArray& bytes)
{
    return reinterpret_cast<unsigned char*>(bytes.data());
}

const unsigned char* readable(const QByteArray& bytes)
{
    return reinterpret_cast<const unsigned char*>(bytes.constData());
}

QByteArray randomBytes(qsizetype count)
{
    startSodium();
    QByteArray bytes(count, '\0');
    randombytes_buf(bytes.data(), static_cast<std::size_t>(count));
    return bytes;
}

Result<SecretBytes> stretched(const SecretBytes& remembered, const QByteArray& salt, GuessCost cost)
{
    SecretBytes key(crypto_secretbox_KEYBYTES);
    const int done = crypto_pwhash(key.data(), key.size(), reinterpret_cast<const char*>(remembered.data()),
                                   remembered.size(), readable(salt), cost.passes,
                                   std::size_t(cost.memoryKib) * 1024, crypto_pwhash_ALG_ARGON2ID13);
    if (done != 0)
        return fail(Error::Kind::Storage, u"not enough memory for %1 KiB of Argon2id"_s.arg(cost.memoryKib));
    return key;
}

bool canBeABox(const SecretBox& box)
{
    return box.salt.size() == crypto_pwhash_SALTBYTES && box.nonce.size() == crypto_secretbox_NONCEBYTES &&
           box.box.size() > qsizetype(crypto_secretbox_MACBYTES) &&
           box.cost.passes >= crypto_pwhash_OPSLIMIT_MIN && box.cost.passes <= kMostCost.passes &&
           box.cost.memoryKib >= crypto_pwhash_MEMLIMIT_MIN / 1024 &&
           box.cost.memoryKib <= kMostCost.memoryKib;
}

} // namespace

Result<SecretBox> putAway(const SecretBytes& secret, const SecretBytes& under, GuessCost cost)
{
    SecretBox box{randomBytes(SealedKey::kSaltBytes), randomBytes(SealedKey::kNonceBytes),
                  QByteArray(qsizetype(secret.size() + crypto_secretbox_MACBYTES), '\0'), cost};
    Q_ASSERT_X(canBeABox(box), "putAway", "the cost lies outside what a box may have");
    const auto key = stretched(under, box.salt, cost);
    if (!key)
        return tl::unexpected(key.error());
    crypto_secretbox_easy(writable(box.box), secret.data(), secret.size(), readable(box.nonce), key->data());
    return box;
}

Result<SecretBytes> takeOut(const SecretBox& box, const SecretBytes& under)
{
    if (!canBeABox(box))
        return fail(Error::Kind::Malformed, u"not a sealed secret"_s);
    const auto key = stretched(under, box.salt, box.cost);
    if (!key)
        return tl::unexpected(key.error());
    SecretBytes secret(static_cast<std::size_t>(box.box.size()) - crypto_secretbox_MACBYTES);
    const int opened = crypto_secretbox_open_easy(secret.data(), readable(box.box),
                                                  static_cast<unsigned long long>(box.box.size()),
                                                  readable(box.nonce), key->data());
    if (opened != 0)
        return fail(Error::Kind::Refused, u"the secret does not open it"_s);
    return secret;
}

} // namespace coldarc::people
