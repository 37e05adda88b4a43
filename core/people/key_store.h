#pragma once

#include "core/people/sealed_keys.h"
#include "core/store/database.h"

#include <vector>

namespace coldarc::people {

/// A public key and whose it is, for checking signatures of any age.
struct EnrolledKey {
    PublicKey publicKey;
    PersonId person;
    WallTime enrolledAt;
    std::optional<WallTime> retiredAt;

    friend bool operator==(const EnrolledKey&, const EnrolledKey&) = default;
};

/// The signing keys of one workspace, sealed, and the wrong tries at them. Each person has one key in use at
/// most. A passphrase can be changed only with the old one; somebody else can only retire a key, and its
/// owner enrol anew.
class KeyStore final : public SealedKeys {
public:
    /// Borrows the database, which must outlive this. Schema: step 0002.
    explicit KeyStore(store::Database& database)
        : m_database(&database)
    {
    }

    /// Conflict if the person is not there, has a key in use, or the key was enrolled before.
    Result<void> enrol(const PersonId& person, const SealedKey& sealed, const Stamp& now);
    /// Puts another seal on the same key. NotFound unless the key is in use. The wrong tries are forgotten:
    /// whoever made the new seal had the old passphrase.
    Result<void> reseal(const SealedKey& sealed);
    /// Takes the person's key out of use and removes its seal. A copy of the file made before still holds it.
    /// NotFound if there is none in use.
    Result<void> retireKey(const PersonId& person, const Stamp& now);

    /// The key in use. NotFound if there is none.
    [[nodiscard]] Result<SealedKey> sealedKey(const PersonId& person) const override;
    /// Whose key this is. NotFound if nobody's.
    [[nodiscard]] Result<EnrolledKey> ownerOf(const PublicKey& key) const;
    /// Every key of one person, retired ones too, in the order of enrolment.
    [[nodiscard]] Result<std::vector<EnrolledKey>> keysOf(const PersonId& person) const;

    [[nodiscard]] Result<Attempts> attempts(const PublicKey& key) const override;
    Result<void> setAttempts(const PublicKey& key, const Attempts& attempts) override;

private:
    store::Database* m_database;
};

} // namespace coldarc::people
