#pragma once

#include "core/people/attempts.h"
#include "core/people/sealed_key.h"
#include "core/store/answer.h"

namespace coldarc::people {

/// Of `public_key, salt, nonce, box, passes, memory_kib`. Malformed for a row that no seal can look like.
[[nodiscard]] Result<SealedKey> sealedKeyFrom(const store::Row& row);

/// The wrong tries in a row of `wrong, wall_at_ms, machine, boot, since_boot_ms, asleep_ms`; no rows: none.
[[nodiscard]] Attempts attemptsIn(const std::vector<store::Row>& rows);
/// The same as values for `:key, :wrong, :wall, :machine, :boot, :since_boot, :asleep`. Pre: there is one.
[[nodiscard]] store::Bindings bindingsOf(const PublicKey& key, const Attempts& attempts);

} // namespace coldarc::people
