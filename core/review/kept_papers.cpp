#include "core/review/kept_papers.h"

#include "core/people/jws.h"

#include <algorithm>

namespace coldarc::review {
namespace {

bool isOver(const std::vector<store::Entry>& entries, qint64 number, const Hash& head)
{
    const auto place = static_cast<std::size_t>(number);
    return place < entries.size() && entries[place].hash == head;
}

/// The moment that a paper is held against: nobody signs what is not written yet.
WallTime heldAt(WallTime said, qint64 entry, const QList<visit::Entry>& visit)
{
    return entry < visit.size() ? std::max(said, visit[entry].at.wall) : said;
}

/// By whoever may say so here: the offices that are believed, and the workspace's own list.
bool isGone(const people::KnownOfKey& known)
{
    return !known.outOfUse.empty() || known.listed == people::KnownOfKey::Listed::Retired;
}

HeadSigned readSignature(const store::Signature& kept, const std::vector<store::Entry>& entries,
                         const QList<visit::Entry>& visit, const people::Trust& trust)
{
    HeadSigned read{kept.seq.value(), kept.person, kept.meaning, kept.at};
    const auto key = people::PublicKey::fromBytes(kept.publicKey);
    const auto signature = people::Signature::fromBytes(kept.bytes);
    const auto meaning = people::meaningFromWord(kept.meaning.toStdString());
    if (!key || !signature || !meaning)
        return read;
    read.key = people::thumbprint(*key);
    const people::HeadStatement said{kept.visit, kept.seq.value(), kept.head, *meaning, kept.at, kept.person};
    const bool isThere = isOver(entries, said.sequence, said.head);
    const auto jws = people::headJws(said, *key);
    const bool isOfToday = jws && people::isSignedBy(*key, people::signingInput(*jws), *signature);
    const bool verifies = isThere && (isOfToday || people::isSignedBy(*key, said, *signature));
    const people::KnownOfKey known = trust.of(read.key, kept.person, heldAt(kept.at, said.sequence, visit));
    read.isFormer = verifies && !isOfToday;
    read.isGood = verifies && !known.isOthers();
    read.vouchedBy = vouchedBy(known);
    read.isOutOfUse = isGone(known);
    if (read.isFormer) { // what was signed names neither
        read.person = PersonId();
        read.at = {};
        read.isOutOfUse = !trust.of(read.key, {}, {}).outOfUse.empty();
    }
    return read;
}

} // namespace

QList<VouchedBy> vouchedBy(const people::KnownOfKey& known)
{
    QList<VouchedBy> all;
    for (const people::Certified& one : known.stillVouchedBy()) {
        const people::Enrolment& enrolment = one.enrolment;
        all.append({one.office, enrolment.name, enrolment.role, enrolment.from, enrolment.until});
    }
    return all;
}

QList<HeadSigned> readSignatures(const std::vector<store::Signature>& kept,
                                 const std::vector<store::Entry>& entries, const QList<visit::Entry>& visit,
                                 const people::Trust& trust)
{
    QList<HeadSigned> signatures;
    for (const store::Signature& one : kept) {
        if (static_cast<std::size_t>(one.seq.value()) < entries.size())
            signatures.append(readSignature(one, entries, visit, trust));
    }
    std::ranges::stable_sort(signatures, {}, &HeadSigned::entry);
    return signatures;
}

std::optional<qint64> cutOffAt(const std::vector<store::Signature>& signatures,
                               const std::vector<record::KeptReview>& reviews, qint64 entries)
{
    std::optional<qint64> first;
    const auto look = [&](qint64 entry) {
        if (entry >= entries && (!first || entry < *first))
            first = entry;
    };
    for (const store::Signature& one : signatures)
        look(one.seq.value());
    for (const record::KeptReview& one : reviews)
        look(one.review.entry);
    return first;
}

ReadReview readReview(const record::KeptReview& kept, const std::vector<store::Entry>& entries,
                      const QList<visit::Entry>& visit, const QList<HeadSigned>& signatures,
                      const people::Trust& trust)
{
    const record::Review& said = kept.review;
    ReadReview read{said};
    read.key = people::thumbprint(kept.key);
    const people::KnownOfKey known = trust.of(read.key, said.by, heldAt(said.at, said.entry, visit));
    read.isGood = record::isSignedBy(kept.key, kept.paper) && !known.isOthers() &&
                  isOver(entries, said.entry, said.head);
    read.isOutOfUse = isGone(known);
    read.vouchedBy = vouchedBy(known);
    read.isVouchedFor =
        known.isListedAsTheirs() || (known.listed == people::KnownOfKey::Listed::No &&
                                     std::ranges::any_of(read.vouchedBy, [](const VouchedBy& one) {
                                         return one.role == people::Role::Supervisor;
                                     }));
    Reviewer reviewer{{said.by, said.name, {}, {}, {}, {}}, {}, read.key};
    reviewer.otherNames = known.names();
    read.part = partOf(reviewer, visit, signatures);
    return read;
}

} // namespace coldarc::review
