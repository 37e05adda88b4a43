#pragma once

#include "core/people/certificate.h"
#include "core/people/key_store.h"
#include "core/people/retirement.h"

#include <QSet>

#include <map>
#include <vector>

namespace coldarc::people {

/// What is known of a key that signed, for whoever says to have signed and for the day on which they say so.
struct KnownOfKey {
    /// What the workspace's own list of keys says of it.
    enum class Listed : std::uint8_t {
        No,
        Theirs,
        Retired, ///< theirs, and taken out of use by then
        Others,  ///< somebody else's
    };
    Listed listed = Listed::No;
    std::vector<Certified> vouchedBy{};        ///< that it is theirs, for that day
    std::vector<Certified> vouchedOtherDays{}; ///< that it is theirs, for other days
    std::vector<Certified> vouchedForOthers{}; ///< that it is somebody else's
    std::vector<Retired> outOfUse{};           ///< who says that it was out of use on that day

    /// By the workspace's own list, whether it is in use or not.
    [[nodiscard]] bool isListedAsTheirs() const
    {
        return listed == Listed::Theirs || listed == Listed::Retired;
    }
    /// Whether it is known as somebody else's alone, and thus signs nothing for whoever says to have signed.
    [[nodiscard]] bool isOthers() const;
    /// Those of `vouchedBy` whose office did not itself call the key out of use.
    [[nodiscard]] std::vector<Certified> stillVouchedBy() const;
    /// By how anybody who vouches for it names whose it is.
    [[nodiscard]] QStringList names() const;
    /// Whether one of these offices, named by their thumbprints, says that it was out of use.
    [[nodiscard]] bool isOutOfUseFor(const QSet<QString>& offices) const;
    /// Whether one of these offices vouches for it, in that role where one is named, and none says that it
    /// was out of use.
    [[nodiscard]] bool isVouchedFor(const QSet<QString>& offices,
                                    std::optional<Role> role = std::nullopt) const;

    friend bool operator==(const KnownOfKey&, const KnownOfKey&) = default;
};

/// Whose keys are: what offices that are believed say of them, and a workspace's own list. What any other
/// office says counts for nothing.
class Trust {
public:
    Trust() = default;
    /// Believes these offices.
    explicit Trust(const std::vector<PublicKey>& offices);

    /// False where none of the offices gave it, exactly so: it says nothing then.
    bool add(const Certificate& certificate);
    bool add(const SignedRetirement& paper);
    /// The same; a paper that `other` has heard, exactly so, is not read and checked once more.
    bool add(const Certificate& certificate, const Trust& other);
    bool add(const SignedRetirement& paper, const Trust& other);
    /// Of the workspace's own list.
    void add(const EnrolledKey& key);

    /// @param key     its thumbprint.
    /// @param person  who says to have signed; empty where the signature names neither person nor moment:
    ///                then everything that is said of the key is of them and of that day.
    [[nodiscard]] KnownOfKey of(const QString& key, const PersonId& person, WallTime at) const;

    /// Whom the workspace's own list gives this key to, in use or not.
    /// @param key  its thumbprint.
    [[nodiscard]] std::optional<PersonId> ownerOf(const QString& key) const;
    /// The thumbprints of the offices that are believed, and of the keys that the workspace lists.
    [[nodiscard]] QSet<QString> offices() const;
    [[nodiscard]] QSet<QString> listed() const;
    /// Those offices that say something, in the order in which they were given, and what they say, in the
    /// order in which it was added.
    [[nodiscard]] std::vector<PublicKey> officesHeard() const;
    [[nodiscard]] std::vector<Certificate> certificates() const;
    [[nodiscard]] std::vector<SignedRetirement> retirements() const;

    /// What an office that is believed says, on which paper.
    template<class Paper, class Said>
    struct Heard {
        QString key; ///< thumbprint of the one that it is about
        Paper paper;
        Said said;
    };
    [[nodiscard]] const std::vector<Heard<Certificate, Certified>>& heardCertificates() const
    {
        return m_certificates;
    }
    [[nodiscard]] const std::vector<Heard<SignedRetirement, Retired>>& heardRetirements() const
    {
        return m_retirements;
    }

private:
    template<class All, class Paper>
    bool addTo(All& all, const Paper& paper, const All& heard);

    std::vector<PublicKey> m_inOrder;
    std::map<QString, PublicKey> m_offices; ///< by thumbprint
    std::vector<Heard<Certificate, Certified>> m_certificates;
    std::vector<Heard<SignedRetirement, Retired>> m_retirements;
    std::map<QString, EnrolledKey> m_enrolled; ///< by thumbprint
};

} // namespace coldarc::people
