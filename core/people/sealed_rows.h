#pragma once

#include "core/people/sealed_keys.h"
#include "core/store/database.h"

namespace coldarc::people {

/// Of `public_key, salt, nonce, box, passes, memory_kib`. Malformed for a row that no seal can look like.
[[nodiscard]] Result<SealedKey> sealedKeyFrom(const store::Row& row);

/// The same as values for `:key, :salt, :nonce, :box, :passes, :memory`.
[[nodiscard]] store::Bindings bindingsOf(const SealedKey& sealed);
/// Puts another seal on a key and forgets the wrong tries at it. NotFound, naming `what`, where `sql` changes
/// no row.
/// @param sql  with those values.
Result<void> reseal(store::Database& database, const QString& sql, const SealedKey& sealed,
                    const QString& what, SealedKeys& keys);

/// The wrong tries in a row of `wrong, wall_at_ms, machine, boot, since_boot_ms, asleep_ms`; no rows: none.
[[nodiscard]] Attempts attemptsIn(const std::vector<store::Row>& rows);
/// The same as values for `:key, :wrong, :wall, :machine, :boot, :since_boot, :asleep`. Pre: there is one.
[[nodiscard]] store::Bindings bindingsOf(const PublicKey& key, const Attempts& attempts);

} // namespace coldarc::people
