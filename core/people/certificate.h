#pragma once

#include "core/people/calendar.h"
#include "core/people/jws.h"
#include "core/people/person.h"
#include "core/people/signing_key.h"

#include <QString>

#include <optional>

namespace coldarc::people {

/// That a key is somebody's: what an office vouches for when it certifies an enrolment.
struct Enrolment {
    PublicKey key;
    PersonId person; ///< as the visits name them
    QString name;
    Role role = Role::Engineer;
    Day from;      ///< first day on which it holds, in UTC
    Day until;     ///< last day on which it holds, in UTC
    WallTime at{}; ///< when it was certified, as that computer's clock had it

    friend bool operator==(const Enrolment&, const Enrolment&) = default;
};

/// A certificate of enrolment: a JWS (RFC 7515) over an enrolment, by the key of an office.
struct Certificate {
    /// Header: {"alg":"Ed25519","kid":"<thumbprint of the office's key>","typ":"coldarc-enrolment"}.
    /// Payload: {"at":"2026-11-25T19:04:11.250Z","from":"2026-11-25","key":{"crv":"Ed25519","kty":"OKP",
    /// "x":"..."},"name":"A. Okoro","person":"person-3","role":"engineer","until":"2027-11-24"}: `key` is a
    /// JWK (RFC 8037).
    PaperJws jws;
    Signature signature;

    friend bool operator==(const Certificate&, const Certificate&) = default;
};

/// Error::Malformed for a person without an id or a name, days that do not exist or end before they begin,
/// and for the office's own key: nobody vouches for themselves.
[[nodiscard]] Result<Certificate> certify(const Enrolment& enrolment, const SigningKey& office);

/// What a certificate says, and by which office it says so.
struct Certified {
    Enrolment enrolment;
    QString office; ///< thumbprint of its key

    friend bool operator==(const Certified&, const Certified&) = default;
};
/// Nothing unless the texts are, byte for byte, what certify makes of it. The signature is not looked at.
[[nodiscard]] std::optional<Certified> saidBy(const Certificate& certificate);

/// Whether this office signed exactly this certificate.
[[nodiscard]] bool isCertifiedBy(const PublicKey& office, const Certificate& certificate);
/// The same of one that was read. Pre: it says this.
[[nodiscard]] bool isCertifiedBy(const PublicKey& office, const Certificate& certificate,
                                 const Certified& said);

/// Whether a signature of that moment falls into the days of the enrolment.
[[nodiscard]] bool holdsAt(const Enrolment& enrolment, WallTime moment);

} // namespace coldarc::people
