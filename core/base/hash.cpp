#include "core/base/hash.h"

#include <sodium/crypto_hash_sha256.h>

namespace coldarc {
namespace {

static_assert(crypto_hash_sha256_BYTES == Hash::kBytes);

const unsigned char* unsignedBytes(const QByteArray& bytes)
{
    return reinterpret_cast<const unsigned char*>(bytes.constData());
}

unsigned char* unsignedBytes(QByteArray& bytes)
{
    return reinterpret_cast<unsigned char*>(bytes.data());
}

} // namespace

std::optional<Hash> Hash::fromBytes(const QByteArray& bytes)
{
    if (bytes.size() != kBytes)
        return std::nullopt;
    return Hash(bytes);
}

std::optional<Hash> Hash::fromHex(const QString& hex)
{
    if (hex.size() != 2 * kBytes)
        return std::nullopt;
    const QByteArray bytes = QByteArray::fromHex(hex.toLatin1());
    if (QString::fromLatin1(bytes.toHex()) != hex.toLower())
        return std::nullopt;
    return fromBytes(bytes);
}

Hash sha256(const QByteArray& bytes)
{
    QByteArray digest(Hash::kBytes, Qt::Uninitialized);
    crypto_hash_sha256(unsignedBytes(digest), unsignedBytes(bytes), static_cast<std::size_t>(bytes.size()));
    return Hash(std::move(digest));
}

Hash chained(const Hash& previous, const QByteArray& bytes)
{
    crypto_hash_sha256_state state;
    crypto_hash_sha256_init(&state);
    crypto_hash_sha256_update(&state, unsignedBytes(previous.bytes()), Hash::kBytes);
    crypto_hash_sha256_update(&state, unsignedBytes(bytes), static_cast<std::size_t>(bytes.size()));
    QByteArray digest(Hash::kBytes, Qt::Uninitialized);
    crypto_hash_sha256_final(&state, unsignedBytes(digest));
    return *Hash::fromBytes(digest);
}

} // namespace coldarc
