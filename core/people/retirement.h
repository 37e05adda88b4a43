#pragma once

#include "core/people/calendar.h"
#include "core/people/jws.h"
#include "core/people/signing_key.h"

#include <QString>

#include <optional>

namespace coldarc::people {

/// That a key is out of use: what an office says of one that it vouched for, say because a laptop was lost.
struct Retirement {
    PublicKey key;
    Day since; ///< first day on which what it signs does not count, in UTC; what it signed before stays good
    WallTime at{}; ///< when the office said so, as that computer's clock had it

    friend bool operator==(const Retirement&, const Retirement&) = default;
};

/// A retirement as the office signed it: a JWS (RFC 7515).
struct SignedRetirement {
    /// Header: {"alg":"Ed25519","kid":"<thumbprint of the office's key>","typ":"coldarc-retirement"}.
    /// Payload:
    /// {"at":"2026-11-26T09:12:40.000Z","key":{"crv":"Ed25519","kty":"OKP","x":"..."},"since":"2026-11-26"}.
    PaperJws jws;
    Signature signature;

    friend bool operator==(const SignedRetirement&, const SignedRetirement&) = default;
};

/// Error::Malformed for a day that does not exist, and for the office's own key.
[[nodiscard]] Result<SignedRetirement> retire(const Retirement& retirement, const SigningKey& office);

/// What a retirement says, and which office says so.
struct Retired {
    Retirement retirement;
    QString office; ///< thumbprint of its key

    friend bool operator==(const Retired&, const Retired&) = default;
};
/// Nothing unless the texts are, byte for byte, what retire makes of it. The signature is not looked at.
[[nodiscard]] std::optional<Retired> saidBy(const SignedRetirement& paper);

/// Whether this office signed exactly this retirement.
[[nodiscard]] bool isRetiredBy(const PublicKey& office, const SignedRetirement& paper);
/// The same of one that was read. Pre: it says this.
[[nodiscard]] bool isRetiredBy(const PublicKey& office, const SignedRetirement& paper, const Retired& said);

/// Whether a signature of that moment counts no more.
[[nodiscard]] bool isOutOfUseAt(const Retirement& retirement, WallTime moment);

} // namespace coldarc::people
