#pragma once

#include "core/people/certificate.h"

namespace coldarc::people {

// What two workspaces hand each other, each as one JSON object: nothing in it is secret.

/// A key that somebody asks an office to vouch for.
struct KeyRequest {
    PublicKey key;
    PersonId person;
    QString name;
    Role role = Role::Engineer;

    friend bool operator==(const KeyRequest&, const KeyRequest&) = default;
};
/// {"coldarc":"key","key":{JWK},"name":"...","person":"...","role":"..."}
[[nodiscard]] QByteArray bytesOf(const KeyRequest& request);
/// Error::Malformed names every place that is not as it should be.
[[nodiscard]] Result<KeyRequest> keyRequestFrom(const QByteArray& bytes);

/// A certificate with the office that gave it.
struct CertificateFile {
    PublicKey office;
    QString officeName; ///< as the office calls itself; nobody vouches for that
    Certificate certificate;

    friend bool operator==(const CertificateFile&, const CertificateFile&) = default;
};
/// {"certificate":{JWS, Flattened JSON Serialization},"coldarc":"certificate","name":"...","office":{JWK}}
[[nodiscard]] QByteArray bytesOf(const CertificateFile& file);
/// Error::Malformed names every place that is not as it should be, a certificate that the office did not sign
/// among them.
[[nodiscard]] Result<CertificateFile> certificateFileFrom(const QByteArray& bytes);

} // namespace coldarc::people
