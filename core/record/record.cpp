#include "core/record/record.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::record {
namespace {

void addKey(Record& record, const people::PublicKey& key)
{
    if (std::ranges::find(record.keys, key) == record.keys.end())
        record.keys.push_back(key);
}

/// Adds one signature in the form in which it verifies.
Result<void> add(Record& record, const store::Signature& kept)
{
    const auto bad = fail(Error::Kind::Malformed, u"the signature of %1 over entry %2 does not verify"_s.arg(
                                                      kept.person.text(), QString::number(kept.seq.value())));
    const auto key = people::PublicKey::fromBytes(kept.publicKey);
    const auto signature = people::Signature::fromBytes(kept.bytes);
    const auto meaning = people::meaningFromWord(kept.meaning.toStdString());
    if (!key || !signature || !meaning || kept.visit != record.visit)
        return bad;
    const people::HeadStatement statement{kept.visit, kept.seq.value(), kept.head,
                                          *meaning,   kept.at,          kept.person};
    addKey(record, *key);
    const auto jws = people::headJws(statement, *key);
    if (jws && people::isSignedBy(*key, people::signingInput(*jws), *signature)) {
        record.signatures.push_back({*jws, *signature});
        return {};
    }
    if (!people::isSignedBy(*key, statement, *signature))
        return bad;
    record.former.push_back({statement, people::thumbprint(*key), *signature});
    return {};
}

} // namespace

Result<Record> recordOf(const VisitId& visit, const std::vector<store::Entry>& entries,
                        const std::vector<store::Signature>& signatures, std::vector<Picture> pictures,
                        Vouching vouching, const std::vector<KeptReview>& reviews)
{
    if (entries.empty())
        return fail(Error::Kind::Malformed, u"a visit without entries"_s);
    Record record;
    record.visit = visit;
    record.pictures = std::move(pictures);
    record.vouching = std::move(vouching);
    for (const store::Entry& entry : entries) {
        if (entry.bytes.contains('\n'))
            return fail(Error::Kind::Malformed, u"entry %1 has a line feed inside"_s.arg(entry.seq.value()));
        record.entries.push_back(entry.bytes);
        record.chain.push_back(entry.hash);
    }
    for (const store::Signature& kept : signatures) {
        if (auto added = add(record, kept); !added)
            return tl::unexpected(added.error());
    }
    for (const KeptReview& one : reviews) {
        if (one.review.visit != visit || !isSignedBy(one.key, one.paper))
            return fail(Error::Kind::Malformed, u"review %1 does not verify"_s.arg(one.id.hex()));
        addKey(record, one.key);
        record.reviews.push_back(one.paper);
    }
    return record;
}

std::set<people::PublicKey> keysOf(const std::vector<store::Signature>& signatures,
                                   const std::vector<KeptReview>& reviews)
{
    std::set<people::PublicKey> keys;
    for (const store::Signature& one : signatures) {
        if (const auto key = people::PublicKey::fromBytes(one.publicKey))
            keys.insert(*key);
    }
    for (const KeptReview& one : reviews)
        keys.insert(one.key);
    return keys;
}

} // namespace coldarc::record
