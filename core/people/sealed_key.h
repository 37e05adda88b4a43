#pragma once

#include "core/people/secret_rules.h"
#include "core/people/signing_key.h"

namespace coldarc::people {

/// How dear one guess is: the parameters of Argon2id (RFC 9106), with one lane.
struct GuessCost {
    quint32 passes = 0;
    quint32 memoryKib = 0;

    friend bool operator==(const GuessCost&, const GuessCost&) = default;
};

/// The least that a new seal is made with.
inline constexpr GuessCost kFloorCost{2, 64 * 1024};
/// What the program seals with: 64 MiB and three passes, as in the second choice of RFC 9106 section 4 (from
/// memory; that one has four lanes, the library has one).
inline constexpr GuessCost kShippedCost{3, 64 * 1024};
/// What a stored seal may ask for at most: a row with more was tampered with, and is not tried. No source.
inline constexpr GuessCost kMostCost{64, 1024 * 1024};

[[nodiscard]] bool isBelowFloor(GuessCost cost);

/// A person's signing key as it is stored. Nothing in it is secret without the passphrase, yet whoever copies
/// it can guess as fast as their computers allow.
///
/// The box is XSalsa20-Poly1305 (the library's secretbox) over the seed and the SHA-256 of the person's id,
/// under the key that Argon2id makes of the passphrase and the salt. Every field takes part: a changed byte
/// anywhere, or a row put under another person, does not open.
struct SealedKey {
    static constexpr qsizetype kSaltBytes = 16;
    static constexpr qsizetype kNonceBytes = 24;
    static constexpr qsizetype kBoxBytes = 16 + 32 + 32;

    PublicKey publicKey;
    QByteArray salt;
    QByteArray nonce;
    QByteArray box;
    GuessCost cost;

    friend bool operator==(const SealedKey&, const SealedKey&) = default;
};

/// Seals a key with fresh salt and nonce. Takes as long and as much memory as `cost` says.
/// Error::Storage if the computer has not that much memory to give.
[[nodiscard]] Result<SealedKey> sealKey(const SigningKey& key, const PersonId& person,
                                        const Passphrase& passphrase, GuessCost cost = kShippedCost);

/// Error::Refused for a wrong passphrase, for another person's row and for a changed one: they cannot be told
/// apart. Error::Malformed for a row that no seal can look like. Error::Storage if there is not enough
/// memory.
[[nodiscard]] Result<SigningKey> openKey(const SealedKey& sealed, const PersonId& person,
                                         const TypedSecret& passphrase);

/// The same key under another passphrase; errors as for openKey. The cost is raised to the floor.
[[nodiscard]] Result<SealedKey> changePassphrase(const SealedKey& sealed, const PersonId& person,
                                                 const TypedSecret& old, const Passphrase& fresh,
                                                 GuessCost cost = kShippedCost);

} // namespace coldarc::people
