#include "core/base/hash.h"

#include <QCryptographicHash>

namespace coldarc {

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
    return Hash(QCryptographicHash::hash(bytes, QCryptographicHash::Sha256));
}

Hash chained(const Hash& previous, const QByteArray& bytes)
{
    return sha256(previous.bytes() + bytes);
}

} // namespace coldarc
