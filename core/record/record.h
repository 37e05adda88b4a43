#pragma once

#include "core/people/certificate.h"
#include "core/people/jws.h"
#include "core/people/retirement.h"
#include "core/record/review.h"
#include "core/store/journal.h"

#include <set>
#include <vector>

namespace coldarc::record {

/// One signature in the form of jws.h.
struct HeadSignature {
    people::HeadJws jws;
    people::Signature signature;
};

/// One signature in the form before: what was signed says nothing of `at` and `person`.
struct FormerSignature {
    people::HeadStatement statement;
    QString thumbprint; ///< of the key
    people::Signature signature;
};

struct Picture {
    Hash hash; ///< SHA-256 of the bytes, as entries name it
    QByteArray bytes;

    friend bool operator==(const Picture&, const Picture&) = default;
};

/// What says whose the keys are, and which are out of use, and the keys of the offices that say so.
struct Vouching {
    std::vector<people::PublicKey> offices;
    std::vector<people::Certificate> certificates;
    std::vector<people::SignedRetirement> retirements{};

    friend bool operator==(const Vouching&, const Vouching&) = default;
};

/// A visit as it is carried away: everything that is needed to check it, and nothing secret.
struct Record {
    VisitId visit;
    std::vector<QByteArray> entries;     ///< exact bytes, in order
    std::vector<Hash> chain;             ///< one link for each entry, as the workspace had it
    std::vector<people::PublicKey> keys; ///< of all who signed and of all who reviewed
    std::vector<HeadSignature> signatures;
    std::vector<FormerSignature> former;
    std::vector<Picture> pictures;
    Vouching vouching{};
    std::vector<SignedReview> reviews{};
};

/// A visit of a workspace as a record. Error::Malformed for a visit without entries, an entry with a line
/// feed inside, a signature or a review that does not verify, or a review of another visit: what is not whole
/// is not carried away.
[[nodiscard]] Result<Record> recordOf(const VisitId& visit, const std::vector<store::Entry>& entries,
                                      const std::vector<store::Signature>& signatures,
                                      std::vector<Picture> pictures, Vouching vouching = {},
                                      const std::vector<KeptReview>& reviews = {});

/// The keys that signed and reviewed.
[[nodiscard]] std::set<people::PublicKey> keysOf(const std::vector<store::Signature>& signatures,
                                                 const std::vector<KeptReview>& reviews);

} // namespace coldarc::record
