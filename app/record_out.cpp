#include "app/record_out.h"

#include "app/record_verify.h"
#include "core/people/office_store.h"
#include "core/record/record_file.h"
#include "core/record/review_store.h"
#include "core/store/journal.h"
#include "core/store/pictures.h"
#include "core/visit/entry.h"

#include <algorithm>
#include <iterator>
#include <set>

namespace coldarc::app {
namespace {

/// Every picture that these entries name, each once; one that is not there is an error.
Result<std::vector<record::Picture>> picturesOf(const std::vector<store::Entry>& entries,
                                                const store::Pictures& pictures)
{
    std::vector<record::Picture> named;
    for (const store::Entry& entry : entries) {
        const auto read = visit::entryFrom(entry.bytes);
        for (const Hash& hash : read ? visit::picturesOf(*read) : QList<Hash>()) {
            if (std::ranges::find(named, hash, &record::Picture::hash) != named.end())
                continue;
            auto picture = pictures.read(hash);
            if (!picture)
                return tl::unexpected(picture.error());
            named.push_back({hash, std::move(picture->bytes)});
        }
    }
    return named;
}

/// The keys that signed and reviewed, each once.
std::set<people::PublicKey> keysOf(const std::vector<store::Signature>& signatures,
                                   const std::vector<record::KeptReview>& reviews)
{
    std::set<people::PublicKey> keys;
    for (const store::Signature& one : signatures) {
        if (const auto key = people::PublicKey::fromBytes(one.publicKey))
            keys.insert(*key);
    }
    for (const record::KeptReview& one : reviews)
        keys.insert(one.key);
    return keys;
}

/// What the offices that the workspace believes say of these keys.
Result<record::Vouching> vouchingFor(const std::set<people::PublicKey>& keys,
                                     const people::OfficeStore& offices)
{
    auto known = offices.offices();
    if (!known)
        return tl::unexpected(known.error());
    record::Vouching vouching;
    for (const people::PublicKey& key : keys) {
        const auto certificates = offices.certificatesOf(key);
        if (!certificates)
            return tl::unexpected(certificates.error());
        std::ranges::copy(*certificates, std::back_inserter(vouching.certificates));
        const auto retirements = offices.retirementsOf(key);
        if (!retirements)
            return tl::unexpected(retirements.error());
        std::ranges::copy(*retirements, std::back_inserter(vouching.retirements));
    }
    std::erase_if(*known, [](const people::Office& office) { return office.droppedAt.has_value(); });
    std::erase_if(vouching.certificates, [&](const people::Certificate& one) {
        return std::ranges::none_of(
            *known, [&](const people::Office& office) { return people::isCertifiedBy(office.key, one); });
    });
    std::erase_if(vouching.retirements, [&](const people::SignedRetirement& one) {
        return std::ranges::none_of(
            *known, [&](const people::Office& office) { return people::isRetiredBy(office.key, one); });
    });
    for (const people::Office& office : *known) {
        const bool saysAnything =
            std::ranges::any_of(
                vouching.certificates,
                [&](const people::Certificate& one) { return people::isCertifiedBy(office.key, one); }) ||
            std::ranges::any_of(vouching.retirements, [&](const people::SignedRetirement& one) {
                return people::isRetiredBy(office.key, one);
            });
        if (saysAnything)
            vouching.offices.push_back(office.key);
    }
    return vouching;
}

/// Without those whose reviewer turned out to have a part in the visit: one that came before the entry which
/// says so would make a record that nobody takes.
Result<std::vector<record::KeptReview>> standingReviews(const VisitId& visit,
                                                        const std::vector<store::Entry>& entries,
                                                        const std::vector<store::Signature>& signatures,
                                                        store::Database& workspace,
                                                        std::vector<record::KeptReview> kept)
{
    if (kept.empty())
        return kept;
    auto vouching = vouchingFor(keysOf(signatures, kept), people::OfficeStore(workspace));
    if (!vouching)
        return tl::unexpected(vouching.error());
    const auto record = record::recordOf(visit, entries, signatures, {}, std::move(*vouching), kept);
    if (!record)
        return tl::unexpected(record.error());
    const CheckedRecord checked = checkRecord({}, *record);
    for (std::size_t place = 0; place < checked.reviewerParts.size(); ++place) {
        if (checked.reviewerParts[place])
            std::erase_if(kept, [&](const record::KeptReview& one) {
                return one.id == checked.found.reviews[place].id;
            });
    }
    return kept;
}

} // namespace

Result<QByteArray> recordFileOf(const VisitId& visit, store::Database& workspace)
{
    const store::Journal journal(workspace);
    const auto entries = journal.entries(visit);
    if (!entries)
        return tl::unexpected(entries.error());
    const auto signatures = journal.signatures(visit);
    if (!signatures)
        return tl::unexpected(signatures.error());
    auto kept = record::ReviewStore(workspace).of(visit);
    if (!kept)
        return tl::unexpected(kept.error());
    const auto reviews = standingReviews(visit, *entries, *signatures, workspace, std::move(kept->whole));
    if (!reviews)
        return tl::unexpected(reviews.error());
    auto named = picturesOf(*entries, store::Pictures(workspace));
    if (!named)
        return tl::unexpected(named.error());
    auto vouching = vouchingFor(keysOf(*signatures, *reviews), people::OfficeStore(workspace));
    if (!vouching)
        return tl::unexpected(vouching.error());
    const auto record =
        record::recordOf(visit, *entries, *signatures, std::move(*named), std::move(*vouching), *reviews);
    if (!record)
        return tl::unexpected(record.error());
    return record::bytesOf(*record);
}

} // namespace coldarc::app
