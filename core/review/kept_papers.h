#pragma once

#include "core/people/trust.h"
#include "core/record/review.h"
#include "core/review/reviewing.h"
#include "core/store/journal.h"

namespace coldarc::review {

// Signatures and reviews that were kept, held against the entries that they are over, and their keys against
// whoever says whose they are.

/// Who vouches for a key and did not take that back.
[[nodiscard]] QList<VouchedBy> vouchedBy(const people::KnownOfKey& known);

/// In the order of their entries, without those over an entry that is not there. Whether a key was in use,
/// and certified, is held against the later of the signature's moment and its entry's: nobody signs before.
/// @param entries  from the first one on, as far as they are as they were written.
/// @param visit    what they say.
[[nodiscard]] QList<HeadSigned> readSignatures(const std::vector<store::Signature>& kept,
                                               const std::vector<store::Entry>& entries,
                                               const QList<visit::Entry>& visit, const people::Trust& trust);

/// The first entry that somebody signed or reviewed and that is not there: where the chain is whole, its end
/// was cut off.
/// @param entries  how many there are.
[[nodiscard]] std::optional<qint64> cutOffAt(const std::vector<store::Signature>& signatures,
                                             const std::vector<record::KeptReview>& reviews, qint64 entries);

/// A review that was kept, and what is known of its signature.
struct ReadReview {
    record::Review review;
    bool isGood = false; ///< it verifies, and the key is not known as somebody else's
    bool isOutOfUse =
        false; ///< the key was, on that day: by an office that is believed here, or the own list
    /// A workspace's own list has the key as the reviewer's, or somebody who is believed here vouches for it
    /// as that of a supervisor.
    bool isVouchedFor = false;
    QString key{}; ///< its thumbprint
    QList<VouchedBy> vouchedBy{};
    /// What part the reviewer had in the visit, by everything that stands in it now.
    std::optional<ReviewRefusal> part{};

    [[nodiscard]] bool isCounted() const { return isGood && !isOutOfUse && isVouchedFor && !part; }
};
/// @param kept                as its reviewer signed it.
/// @param visit, signatures  what these entries say, and readSignatures of them.
[[nodiscard]] ReadReview readReview(const record::KeptReview& kept, const std::vector<store::Entry>& entries,
                                    const QList<visit::Entry>& visit, const QList<HeadSigned>& signatures,
                                    const people::Trust& trust);

} // namespace coldarc::review
