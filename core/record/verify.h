#pragma once

#include "core/people/trust.h"
#include "core/record/record.h"

#include <compare>

namespace coldarc::record {

/// What is wrong with a record, and where.
struct Fault {
    enum class Kind : std::uint8_t {
        NoEntries,
        ChainBreaks,        ///< this entry or its link is not as it was written
        LinksMissing,       ///< more entries than links, or fewer
        NothingSigned,      ///< nobody has signed anything
        NotAHead,           ///< a signature over something else than a head
        OtherVisit,         ///< a signature over another visit's head
        NoSuchEntry,        ///< a signature over an entry that is not there
        OtherHead,          ///< the entry was another one when it was signed
        UnknownKey,         ///< signed by a key that is not in the record
        DoesNotVerify,      ///< the key did not sign this
        SignedTwice,        ///< the same signature stands there again
        PictureAltered,     ///< the bytes are not those that the name tells
        CertificateAltered, ///< no certificate and no retirement, or no office of the record gave it
        OtherPerson,        ///< the key is certified, for somebody else than the one who says to have signed
        NotAReview,         ///< a paper among the reviews that is none
    };
    Kind kind = Kind::NoEntries;
    qint64 entry = -1;       ///< number of the entry, from 0; -1: of none
    qint64 signature = -1;   ///< place in the record's list, former ones after the others; -1: of none
    QString picture{};       ///< its name, 64 hexadecimal digits
    qint64 certificate = -1; ///< place in the record's list, retirements after the others; -1: of none
    qint64 review = -1;      ///< the same

    friend bool operator==(const Fault&, const Fault&) = default;
};

/// "no-entries", "chain-breaks", "links-missing", "nothing-signed", "not-a-head", "other-visit",
/// "no-such-entry", "other-head", "unknown-key", "does-not-verify", "signed-twice", "picture-altered",
/// "certificate-altered", "other-person", "not-a-review".
[[nodiscard]] QString wordOf(Fault::Kind kind);

/// A signature that verifies.
struct Signed {
    people::HeadStatement statement; ///< of a former one person and moment are empty: they are not signed
    QString thumbprint;
    bool isFormer = false;
    /// By the offices of the record. Where nobody vouches for the key, whose it is has to be known from
    /// elsewhere.
    people::KnownOfKey known{};
    /// What the days of certificates and retirements are held against: the moment that the signature says,
    /// until whoever understands the entries knows a later one.
    WallTime heldAt{};
    QByteArray bytes{}; ///< the 64 of the signature
};

/// A review that verifies. Whether the reviewer had a part in the visit is not told here: the entries would
/// have to be understood for that, see core/review/reviewing.h.
struct Reviewed {
    ReviewSaid said;
    Hash id;                    ///< see idOf
    people::KnownOfKey known{}; ///< as in Signed; in whichever role
    WallTime heldAt{};          ///< the same
};

/// Whether one of these offices, named by the thumbprints of their keys, vouches for whoever signed, and none
/// says that the key was out of use.
[[nodiscard]] bool isVouchedFor(const Signed& one, const QSet<QString>& offices);
/// The same for whoever reviewed, as a supervisor.
[[nodiscard]] bool isVouchedFor(const Reviewed& one, const QSet<QString>& offices);

/// What is found of a record.
struct Verification {
    VisitId visit;
    std::vector<Fault> faults; ///< by place; none: it is as it was signed
    std::vector<Signed> signatures;
    std::vector<Reviewed> reviews{};
    people::Trust trust{}; ///< what the offices of the record say
    qint64 entries = 0;
    qint64 signedUpTo =
        -1; ///< the last entry that a good signature covers; what comes after is nobody's word

    [[nodiscard]] bool isGood() const { return faults.empty(); }
    /// Whether a signature that verifies was given over entries of which one is not as it was written: it
    /// vouches for what stood there, not for what stands there now.
    [[nodiscard]] bool coversABreak(const Signed& one) const;
    /// The same of a review.
    [[nodiscard]] bool coversABreak(const Reviewed& one) const;

private:
    [[nodiscard]] bool breaksUpTo(qint64 entry) const;
};

/// Checks chain, signatures, reviews and pictures of a record, by nothing but what is in it. Whose a key is
/// is what an office says; whether that office is the one it should be, a record cannot tell: hold the
/// thumbprint of its key against one that is known.
[[nodiscard]] Verification verify(const Record& record);

} // namespace coldarc::record
