#pragma once

#include "core/people/sealed_key.h"

namespace coldarc::people {

/// A secret put away under another secret that a person remembers: what the passphrase's seal and the PIN's
/// have in common.
struct SecretBox {
    QByteArray salt;
    QByteArray nonce;
    QByteArray box;
    GuessCost cost;
};

/// Fresh salt and nonce. Error::Storage if there is not enough memory for the cost.
[[nodiscard]] Result<SecretBox> putAway(const SecretBytes& secret, const SecretBytes& under, GuessCost cost);

/// Error::Refused if it does not open, Error::Malformed if no box can look like that, Error::Storage as
/// above.
[[nodiscard]] Result<SecretBytes> takeOut(const SecretBox& box, const SecretBytes& under);

} // namespace coldarc::people
