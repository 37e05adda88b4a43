#pragma once

#include "core/people/key_bytes.h"
#include "core/people/signing_key.h"

#include <QByteArray>
#include <QJsonObject>
#include <QString>

#include <optional>

namespace coldarc::people {

/// Base64url without padding (RFC 7515, section 2 and appendix C).
[[nodiscard]] QByteArray base64Url(const QByteArray& bytes);
/// Nothing unless the text is exactly what base64Url makes of some bytes.
[[nodiscard]] std::optional<QByteArray> fromBase64Url(const QByteArray& text);

/// A public key as a JWK (RFC 8037, section 2): `crv`, `kty`, `x`.
[[nodiscard]] QJsonObject jwkOf(const PublicKey& key);
/// The same as the text that Qt writes of it.
[[nodiscard]] QByteArray jwkText(const PublicKey& key);
/// Nothing unless it is what jwkOf makes of some key.
[[nodiscard]] std::optional<PublicKey> keyFromJwk(const QJsonObject& jwk);

/// A public key's name: the JWK thumbprint with SHA-256 of RFC 7638, over `crv`, `kty` and `x` of RFC 8037,
/// in base64url.
[[nodiscard]] QString thumbprint(const PublicKey& key);

/// What people sign, as a JWS (RFC 7515) has it: two texts in JSON.
struct HeadJws {
    /// {"alg":"Ed25519","at":"2026-11-25T19:04:11.250Z","kid":"<thumbprint>","meaning":"performed",
    /// "person":"person-3"}; the name of the algorithm is that of RFC 9864.
    QByteArray protectedHeader;
    /// {"entry":41,"sha256":"<64 hexadecimal digits>","visit":"visit-7"}: the same for all who sign one head.
    QByteArray payload;

    friend bool operator==(const HeadJws&, const HeadJws&) = default;
};

/// Error::Malformed for a negative sequence, and for a visit or a person without an id.
[[nodiscard]] Result<HeadJws> headJws(const HeadStatement& statement, const PublicKey& key);

/// What a JWS says, by whom it says so. Nothing unless it is, byte for byte, what headJws makes of it.
struct HeadSaid {
    HeadStatement statement;
    QString thumbprint;
};
[[nodiscard]] std::optional<HeadSaid> headSaidBy(const HeadJws& jws);

/// A paper that people sign and that is no head: its header has a `typ` (RFC 7515, section 4.1.9), which no
/// head has, so that a signature for the one is never one for the other.
struct PaperJws {
    QByteArray protectedHeader;
    QByteArray payload;

    friend bool operator==(const PaperJws&, const PaperJws&) = default;
};

/// {"alg":"Ed25519","kid":"<thumbprint>","typ":"coldarc-review"}: the header of a paper of that type.
[[nodiscard]] QByteArray paperHeader(const QString& typ, const QString& thumbprint);

/// The JWS Signing Input (RFC 7515, section 5.1).
[[nodiscard]] QByteArray signingInput(const QByteArray& protectedHeader, const QByteArray& payload);
[[nodiscard]] QByteArray signingInput(const PaperJws& jws);
[[nodiscard]] QByteArray signingInput(const HeadJws& jws);

} // namespace coldarc::people
