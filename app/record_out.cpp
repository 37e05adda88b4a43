#include "app/record_out.h"

#include "core/people/read_trust.h"
#include "core/record/record_file.h"
#include "core/record/review_store.h"
#include "core/review/checked_record.h"
#include "core/store/journal.h"
#include "core/store/pictures.h"
#include "core/visit/entry.h"

#include <algorithm>

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

/// What the offices that the workspace believes say of these keys.
Result<record::Vouching> vouchingFor(const std::set<people::PublicKey>& keys, store::Database& workspace)
{
    const auto trust = people::readTrust(people::OfficeStore(workspace), people::KeyStore(workspace), keys);
    if (!trust)
        return tl::unexpected(trust.error());
    return record::Vouching{trust->officesHeard(), trust->certificates(), trust->retirements()};
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
    auto vouching = vouchingFor(record::keysOf(signatures, kept), workspace);
    if (!vouching)
        return tl::unexpected(vouching.error());
    const auto record = record::recordOf(visit, entries, signatures, {}, std::move(*vouching), kept);
    if (!record)
        return tl::unexpected(record.error());
    const review::CheckedRecord checked = review::checkRecord({}, *record);
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
    auto vouching = vouchingFor(record::keysOf(*signatures, *reviews), workspace);
    if (!vouching)
        return tl::unexpected(vouching.error());
    const auto record =
        record::recordOf(visit, *entries, *signatures, std::move(*named), std::move(*vouching), *reviews);
    if (!record)
        return tl::unexpected(record.error());
    return record::bytesOf(*record);
}

} // namespace coldarc::app
