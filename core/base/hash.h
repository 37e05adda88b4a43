#pragma once

#include <QByteArray>
#include <QString>

#include <optional>

namespace coldarc {

/// A SHA-256 digest: 32 bytes (FIPS 180-4). The default one is all zero and stands before the first entry of
/// a chain.
class Hash {
public:
    static constexpr qsizetype kBytes = 32;

    Hash()
        : m_bytes(kBytes, '\0')
    {
    }
    /// Nothing unless there are exactly 32 bytes.
    [[nodiscard]] static std::optional<Hash> fromBytes(const QByteArray& bytes);
    /// Nothing unless there are exactly 64 hexadecimal digits.
    [[nodiscard]] static std::optional<Hash> fromHex(const QString& hex);

    [[nodiscard]] const QByteArray& bytes() const { return m_bytes; }
    [[nodiscard]] QString hex() const { return QString::fromLatin1(m_bytes.toHex()); }

    friend bool operator==(const Hash&, const Hash&) = default;

private:
    explicit Hash(QByteArray bytes)
        : m_bytes(std::move(bytes))
    {
    }
    friend Hash sha256(const QByteArray& bytes);
    QByteArray m_bytes;
};

/// Source: FIPS 180-4, by libsodium, which takes half the time of Qt's own.
[[nodiscard]] Hash sha256(const QByteArray& bytes);

/// The next link of a chain: SHA-256 over the 32 bytes of the previous link, then the entry's exact bytes.
[[nodiscard]] Hash chained(const Hash& previous, const QByteArray& bytes);

} // namespace coldarc
