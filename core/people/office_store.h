#pragma once

#include "core/people/certificate.h"
#include "core/people/retirement.h"
#include "core/people/sealed_keys.h"
#include "core/store/database.h"

#include <vector>

namespace coldarc::people {

class Trust;

/// Somebody who vouches for enrolments, as one workspace knows them.
struct Office {
    PublicKey key;
    QString name;
    WallTime knownAt;
    PersonId knownBy; ///< who made it, or took it up as known
    bool isOwn = false;
    std::optional<WallTime> droppedAt{}; ///< no longer believed from here on

    friend bool operator==(const Office&, const Office&) = default;
};

/// Whom the own office's key is sealed for.
[[nodiscard]] PersonId officeHolder();

/// The offices that one workspace knows, its own one's sealed key, and the certificates of enrolment. Offices
/// and certificates are never removed.
class OfficeStore final : public SealedKeys {
public:
    /// Borrows the database, which must outlive this. Schema: steps 0009 and 0015.
    explicit OfficeStore(store::Database& database)
        : m_database(&database)
    {
    }

    /// Makes the own office. Conflict if there is one, or this key is known as another's; Malformed without a
    /// name. The key is sealed for officeHolder().
    Result<void> found(const QString& name, const SealedKey& sealed, const PersonId& by, const Stamp& now);
    /// Puts another seal on the own office's key. NotFound unless it is that key. The wrong tries are
    /// forgotten: whoever made the new seal had the old passphrase.
    Result<void> reseal(const SealedKey& sealed);
    /// Takes up the office of another workspace as known, or once more one that was dropped. Whoever does so
    /// has held the thumbprint against what the office itself says. Conflict if it is known already.
    Result<void> takeUp(const PublicKey& key, const QString& name, const PersonId& by, const Stamp& now);
    /// No longer believes it. NotFound unless it is known and another workspace's.
    Result<void> drop(const PublicKey& key, const Stamp& now);

    /// In the order in which they were made known, dropped ones too.
    [[nodiscard]] Result<std::vector<Office>> offices() const;
    /// Those that are believed: the own one, and those that were taken up and not dropped, in the same order.
    [[nodiscard]] Result<std::vector<Office>> believed() const;
    /// NotFound if there is none.
    [[nodiscard]] Result<Office> own() const;

    /// Keeps a certificate of an office that is known; one that is kept already is no error. Malformed unless
    /// it is one and its office signed it, NotFound if that is not known or was dropped.
    Result<void> keep(const Certificate& certificate, const Stamp& now);
    /// Of one key, in the order in which they were kept, by whichever office.
    [[nodiscard]] Result<std::vector<Certificate>> certificatesOf(const PublicKey& key) const;
    /// Of every key that was said to be somebody's, of another workspace too, in the same order.
    [[nodiscard]] Result<std::vector<Certificate>> certificatesOf(const PersonId& person) const;

    /// Each that this office gave, in the same order.
    [[nodiscard]] Result<std::vector<Certificate>> certificatesBy(const PublicKey& office) const;
    /// Keeps what an office that is known says of a key that is out of use; errors as for a certificate.
    Result<void> keep(const SignedRetirement& paper, const Stamp& now);
    /// Keeps every paper that was heard of an office that is known here and was not dropped; what others say
    /// stays out.
    Result<void> keep(const Trust& heard, const Stamp& now);
    /// Of one key, in the order in which they were kept, by whichever office.
    [[nodiscard]] Result<std::vector<SignedRetirement>> retirementsOf(const PublicKey& key) const;

    /// The own office's key. NotFound if there is none, or for anybody but officeHolder().
    [[nodiscard]] Result<SealedKey> sealedKey(const PersonId& holder) const override;
    [[nodiscard]] Result<Attempts> attempts(const PublicKey& key) const override;
    Result<void> setAttempts(const PublicKey& key, const Attempts& attempts) override;

private:
    [[nodiscard]] Result<PublicKey> believedKey(const QString& office) const;
    Result<void> insert(const Certificate& certificate, const Enrolment& said, const PublicKey& office,
                        const Stamp& now);
    Result<void> insert(const SignedRetirement& paper, const Retirement& said, const PublicKey& office,
                        const Stamp& now);

    store::Database* m_database;
};

} // namespace coldarc::people
