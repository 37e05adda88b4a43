#pragma once

#include "core/base/clock.h"
#include "core/base/hash.h"
#include "core/base/ids.h"
#include "core/base/result.h"
#include "core/people/key_bytes.h"
#include "core/people/secret_bytes.h"

#include <optional>
#include <string_view>

namespace coldarc::people {

/// What a signature says (the meaning that 21 CFR 11.50(a) asks for; the list is ours).
enum class Meaning : std::uint8_t {
    Performed,
    TookPart,
    Verified,
    Countersigned,
    Witnessed,
    Reviewed,
    Released,    ///< given free again after an incident
    RemovedLock, ///< took off the lock of an owner who is not there
    SignedIn,
    Stop,
    Incident,
    Addendum, ///< added a remark to a visit that is closed
};
inline constexpr int kMeanings = static_cast<int>(Meaning::Addendum) + 1;

/// "performed", "took-part", "verified", "countersigned", "witnessed", "reviewed", "released",
/// "removed-lock", "signed-in", "stop", "incident", "addendum".
[[nodiscard]] std::string_view wordOf(Meaning meaning);
[[nodiscard]] std::optional<Meaning> meaningFromWord(std::string_view word);

/// What is signed: the head of one visit's chain, and what the person means by signing it.
struct HeadStatement {
    VisitId visit;
    qint64 sequence = 0; ///< of the entry that `head` is the hash of, >= 0
    Hash head;
    Meaning meaning = Meaning::Performed;
    WallTime at{};     ///< when it was signed, as that computer's clock had it
    PersonId person{}; ///< who signs

    friend bool operator==(const HeadStatement&, const HeadStatement&) = default;
};

/// The exact bytes that are signed, so that a signature fits no other visit, entry, meaning, moment,
/// person or key:
/// the signing input of the JWS that jws.h tells of, which any JOSE library can check. Errors: as for
/// headJws.
[[nodiscard]] Result<QByteArray> signedMessage(const HeadStatement& statement, const PublicKey& key);

/// What was signed before signatures were JWS; those made then stay good, and say nothing of
/// moment and person:
///
///     "coldarc head v1\n" visit-id "\n" sequence "\n" 32 hash bytes "\n" meaning-word
///
/// The id is UTF-8, the sequence decimal without sign or leading zeros, the hash raw; the word ends the
/// message. Error::Malformed for a negative sequence, and for an id that is empty or holds a character below
/// U+0021 or U+007F, since it could then be read in two ways.
[[nodiscard]] Result<QByteArray> formerMessage(const HeadStatement& statement);

/// A person's Ed25519 key, open. Moves, is never copied, is wiped when it goes.
class SigningKey {
public:
    static constexpr std::size_t kSeedBytes = 32;

    /// A new one from the system's randomness.
    [[nodiscard]] static SigningKey generate();
    /// The key of a seed (RFC 8032, section 5.1.5). Pre: 32 bytes.
    [[nodiscard]] static SigningKey fromSeed(SecretBytes seed);

    [[nodiscard]] const PublicKey& publicKey() const { return m_publicKey; }
    [[nodiscard]] const SecretBytes& seed() const { return m_seed; }

    /// Signs any bytes (RFC 8032, section 5.1.6: the same bytes give the same signature). What people sign
    /// goes through Session, which holds the rules.
    [[nodiscard]] Signature sign(const QByteArray& message) const;

private:
    SigningKey(SecretBytes seed, SecretBytes secret, PublicKey publicKey);
    SecretBytes m_seed;
    SecretBytes m_secret; ///< seed and public key, as the library wants them
    PublicKey m_publicKey;
};

/// Whether the key signed exactly these bytes.
[[nodiscard]] bool isSignedBy(const PublicKey& key, const QByteArray& message, const Signature& signature);
/// Whether the key signed exactly this statement, in today's form or the former one. False for one that
/// cannot be a message.
[[nodiscard]] bool isSignedBy(const PublicKey& key, const HeadStatement& statement,
                              const Signature& signature);

} // namespace coldarc::people
