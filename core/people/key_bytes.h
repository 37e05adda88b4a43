#pragma once

#include <QByteArray>

#include <optional>
#include <utility>

namespace coldarc::people {

/// Bytes of one length that are not secret. Different things do not mix.
template<class Tag, qsizetype Length>
class FixedBytes {
public:
    static constexpr qsizetype kBytes = Length;

    /// Nothing unless there are exactly kBytes.
    [[nodiscard]] static std::optional<FixedBytes> fromBytes(const QByteArray& bytes)
    {
        return bytes.size() == Length ? std::optional(FixedBytes(bytes)) : std::nullopt;
    }
    [[nodiscard]] const QByteArray& bytes() const { return m_bytes; }

    friend bool operator==(const FixedBytes&, const FixedBytes&) = default;
    friend bool operator<(const FixedBytes& a, const FixedBytes& b) { return a.m_bytes < b.m_bytes; }

private:
    explicit FixedBytes(QByteArray bytes)
        : m_bytes(std::move(bytes))
    {
    }
    QByteArray m_bytes;
};

/// An Ed25519 public key (RFC 8032, section 5.1.5).
using PublicKey = FixedBytes<struct PublicKeyTag, 32>;
/// An Ed25519 signature (RFC 8032, section 5.1.6).
using Signature = FixedBytes<struct SignatureTag, 64>;

} // namespace coldarc::people
