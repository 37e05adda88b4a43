#include "core/record/review_store.h"

#include "core/people/store_text.h"

using namespace Qt::StringLiterals;

namespace coldarc::record {
namespace {

/// Nothing for one that is not as it was kept.
std::optional<KeptReview> reviewFrom(const store::Row& row, const VisitId& visit)
{
    const auto id = Hash::fromBytes(row.bytes(u"review_id"));
    const auto key = people::PublicKey::fromBytes(row.bytes(u"public_key"));
    const auto signature = people::Signature::fromBytes(row.bytes(u"signature"));
    if (!id || !key || !signature)
        return std::nullopt;
    const SignedReview paper{{row.bytes(u"protected_header"), row.bytes(u"payload")}, *signature};
    const auto said = saidBy(paper);
    if (!said || idOf(paper) != *id || !isSignedBy(*key, paper))
        return std::nullopt;
    // By these columns a list tells how the visit stands.
    const bool isListedAsSaid =
        visit == said->review.visit && row.bytes(u"head_hash") == said->review.head.bytes() &&
        row.whole(u"seq") == said->review.entry && row.text(u"verdict") == wordOf(said->review.verdict) &&
        row.whole(u"reviewed_at_ms") == msOf(said->review.at);
    if (!isListedAsSaid)
        return std::nullopt;
    return KeptReview{*id, said->review, paper, *key, row.flag(u"is_counted")};
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
        const auto known = m_database->run(
            u"SELECT visit_id, review_id, seq, head_hash, verdict, reviewed_at_ms, public_key, "
            "protected_header, payload, signature, 1 AS is_counted FROM review WHERE review_id = :id"_s,
            {{u":id"_s, id.bytes()}});
        if (!known)
            return people::doneOf(known);
        if (!known->rows.empty()) {
            const VisitId listed(known->rows.front().text(u"visit_id"));
            if (reviewFrom(known->rows.front(), listed))
                return {};
            if (auto removed = removeAltered(id, listed); !removed)
                return removed;
        }
        return people::doneOf(m_database->run(
            u"INSERT INTO review(review_id, visit_id, seq, head_hash, verdict, reviewed_at_ms, public_key, "
            "protected_header, payload, signature, kept_at_ms) "
            "VALUES(:id, :visit, :seq, :head, :verdict, :at, :key, :header, :payload, :signature, :kept)"_s,
            {{u":id"_s, id.bytes()},
             {u":visit"_s, review.visit.text()},
             {u":seq"_s, review.entry},
             {u":head"_s, review.head.bytes()},
             {u":verdict"_s, wordOf(review.verdict)},
             {u":at"_s, msOf(review.at)},
             {u":key"_s, key.bytes()},
             {u":header"_s, paper.jws.protectedHeader},
             {u":payload"_s, paper.jws.payload},
             {u":signature"_s, paper.signature.bytes()},
             {u":kept"_s, msOf(now.wall)}}));
    });
}

/// The guard of the table lets go of what is listed as altered.
Result<void> ReviewStore::removeAltered(const Hash& id, const VisitId& visit)
{
    const auto listed = m_database->run(
        u"INSERT INTO uncounted_review(review_id, visit_id, is_altered) VALUES(:id, :visit, 1) "
        "ON CONFLICT(review_id) DO UPDATE SET is_altered = 1"_s,
        {{u":id"_s, id.bytes()}, {u":visit"_s, visit.text()}});
    if (!listed)
        return people::doneOf(listed);
    for (const QString& sql : {u"DELETE FROM review WHERE review_id = :id"_s,
                               u"DELETE FROM uncounted_review WHERE review_id = :id"_s}) {
        if (const auto removed = m_database->run(sql, {{u":id"_s, id.bytes()}}); !removed)
            return people::doneOf(removed);
    }
    return {};
}

Result<KeptReviews> ReviewStore::of(const VisitId& visit) const
{
    const auto found = m_database->run(
        u"SELECT review_id, seq, head_hash, verdict, reviewed_at_ms, public_key, protected_header, payload, "
        "signature, review_id NOT IN (SELECT review_id FROM uncounted_review) AS is_counted FROM review "
        "WHERE visit_id = :visit ORDER BY seq, reviewed_at_ms, review_id"_s,
        {{u":visit"_s, visit.text()}});
    if (!found)
        return tl::unexpected(found.error());
    KeptReviews kept;
    for (const store::Row& row : found->rows) {
        if (auto one = reviewFrom(row, visit))
            kept.whole.push_back(std::move(*one));
        else if (const auto id = Hash::fromBytes(row.bytes(u"review_id")))
            kept.altered.push_back(*id);
    }
    return kept;
}

Result<void> ReviewStore::setUncounted(const VisitId& visit, const std::vector<Hash>& altered,
                                       const std::vector<Hash>& uncounted)
{
    return m_database->transaction([&]() -> Result<void> {
        for (const QString& sql : {u"DELETE FROM uncounted_review WHERE visit_id = :visit"_s,
                                   u"DELETE FROM review_to_check WHERE visit_id = :visit"_s}) {
            if (const auto cleared = m_database->run(sql, {{u":visit"_s, visit.text()}}); !cleared)
                return tl::unexpected(cleared.error());
        }
        const auto add = [&](const Hash& id, bool isAltered) {
            // It may stand there for another visit, if its row was put to this one by hand.
            const auto cleared = m_database->run(u"DELETE FROM uncounted_review WHERE review_id = :id"_s,
                                                 {{u":id"_s, id.bytes()}});
            if (!cleared)
                return people::doneOf(cleared);
            return people::doneOf(m_database->run(
                u"INSERT INTO uncounted_review(review_id, visit_id, is_altered) "
                "VALUES(:id, :visit, :altered)"_s,
                {{u":id"_s, id.bytes()}, {u":visit"_s, visit.text()}, {u":altered"_s, isAltered ? 1 : 0}}));
        };
        for (const Hash& id : altered) {
            if (auto added = add(id, true); !added)
                return added;
        }
        for (const Hash& id : uncounted) {
            if (auto added = add(id, false); !added)
                return added;
        }
        return {};
    });
}

Result<QHash<VisitId, int>> ReviewStore::altered() const
{
    const auto found = m_database->run(u"SELECT visit_id, count(*) AS altered FROM uncounted_review "
                                       "WHERE is_altered = 1 GROUP BY visit_id"_s);
    if (!found)
        return tl::unexpected(found.error());
    QHash<VisitId, int> altered;
    for (const store::Row& row : found->rows)
        altered.insert(VisitId(row.text(u"visit_id")), static_cast<int>(row.whole(u"altered")));
    return altered;
}

Result<QList<VisitId>> ReviewStore::toCheck(int most) const
{
    const auto found =
        m_database->run(u"SELECT visit_id FROM review_to_check LIMIT :most"_s, {{u":most"_s, most}});
    if (!found)
        return tl::unexpected(found.error());
    QList<VisitId> visits;
    for (const store::Row& row : found->rows)
        visits.append(VisitId(row.text(u"visit_id")));
    return visits;
}

} // namespace coldarc::record
