#include "core/record/review_store.h"

#include "core/people/store_text.h"

using namespace Qt::StringLiterals;

namespace coldarc::record {
namespace {

Result<KeptReview> reviewFrom(const store::Row& row)
{
    const auto bad = fail(Error::Kind::Malformed, u"a review that is not as it was kept"_s);
    const auto id = Hash::fromBytes(row.bytes(u"review_id"));
    const auto key = people::PublicKey::fromBytes(row.bytes(u"public_key"));
    const auto signature = people::Signature::fromBytes(row.bytes(u"signature"));
    if (!id || !key || !signature)
        return bad;
    const SignedReview paper{{row.bytes(u"protected_header"), row.bytes(u"payload")}, *signature};
    const auto said = saidBy(paper);
    if (!said || idOf(paper) != *id || !isSignedBy(*key, paper))
        return bad;
    // By these columns a list tells how the visit stands.
    const bool isListedAsSaid = row.whole(u"seq") == said->review.entry &&
                                row.text(u"verdict") == wordOf(said->review.verdict) &&
                                row.whole(u"reviewed_at_ms") == said->review.at.time_since_epoch().count();
    if (!isListedAsSaid)
        return bad;
    return KeptReview{*id, said->review, paper, *key};
}

} // namespace

Result<void> ReviewStore::keep(const SignedReview& paper, const people::PublicKey& key, const Stamp& now)
{
    const auto said = saidBy(paper);
    if (!said || !isSignedBy(key, paper))
        return fail(Error::Kind::Malformed, u"no review that this key signed"_s);
    const Hash id = idOf(paper);
    const Review& review = said->review;
    return m_database->transaction([&]() -> Result<void> {
        const auto known = m_database->run(u"SELECT 1 AS is_kept FROM review WHERE review_id = :id"_s,
                                           {{u":id"_s, id.bytes()}});
        if (!known || !known->rows.empty())
            return people::doneOf(known);
        return people::doneOf(m_database->run(
            u"INSERT INTO review(review_id, visit_id, seq, head_hash, verdict, reviewed_at_ms, public_key, "
            "protected_header, payload, signature, kept_at_ms) "
            "VALUES(:id, :visit, :seq, :head, :verdict, :at, :key, :header, :payload, :signature, :kept)"_s,
            {{u":id"_s, id.bytes()},
             {u":visit"_s, review.visit.text()},
             {u":seq"_s, review.entry},
             {u":head"_s, review.head.bytes()},
             {u":verdict"_s, wordOf(review.verdict)},
             {u":at"_s, qint64(review.at.time_since_epoch().count())},
             {u":key"_s, key.bytes()},
             {u":header"_s, paper.jws.protectedHeader},
             {u":payload"_s, paper.jws.payload},
             {u":signature"_s, paper.signature.bytes()},
             {u":kept"_s, qint64(now.wall.time_since_epoch().count())}}));
    });
}

Result<std::vector<KeptReview>> ReviewStore::of(const VisitId& visit) const
{
    const auto found = m_database->run(
        u"SELECT review_id, seq, verdict, reviewed_at_ms, public_key, protected_header, payload, signature "
        "FROM review "
        "WHERE visit_id = :visit ORDER BY seq, reviewed_at_ms, review_id"_s,
        {{u":visit"_s, visit.text()}});
    if (!found)
        return tl::unexpected(found.error());
    std::vector<KeptReview> kept;
    for (const store::Row& row : found->rows) {
        auto one = reviewFrom(row);
        if (!one)
            return tl::unexpected(one.error());
        kept.push_back(std::move(*one));
    }
    return kept;
}

} // namespace coldarc::record
