#include "core/record/intake_store.h"

#include "core/people/store_text.h"
#include "core/record/review_store.h"
#include "core/store/journal.h"
#include "core/store/pictures.h"

#include <map>

using namespace Qt::StringLiterals;

namespace coldarc::record {
namespace {

/// What begins the bytes of the pictures that records carry.
QString mediaTypeOf(const QByteArray& picture)
{
    if (picture.startsWith("\x89PNG"))
        return u"image/png"_s;
    if (picture.startsWith("\xff\xd8\xff"))
        return u"image/jpeg"_s;
    return u"application/octet-stream"_s;
}

std::map<QString, people::PublicKey> byThumbprint(const std::vector<people::PublicKey>& keys)
{
    std::map<QString, people::PublicKey> all;
    for (const people::PublicKey& key : keys)
        all.emplace(people::thumbprint(key), key);
    return all;
}

} // namespace

Result<Standing> IntakeStore::standing(const VisitId& visit) const
{
    const store::Journal journal(*m_database);
    const auto entries = journal.entries(visit);
    if (!entries)
        return tl::unexpected(entries.error());
    const auto signatures = journal.signatures(visit);
    if (!signatures)
        return tl::unexpected(signatures.error());
    Standing standing;
    for (const store::Entry& entry : *entries)
        standing.chain.push_back(entry.hash);
    for (const store::Signature& one : *signatures)
        standing.signatures.insert(one.bytes);
    const auto reviews = ReviewStore(*m_database).of(visit);
    if (!reviews)
        return tl::unexpected(reviews.error());
    for (const KeptReview& one : reviews->whole)
        standing.reviews.insert(one.id.bytes());
    standing.keys = keysOf(*signatures, reviews->whole);
    const auto isOthers = isReceived(visit);
    if (!isOthers)
        return tl::unexpected(isOthers.error());
    standing.isOwn = !standing.chain.empty() && !*isOthers;
    return standing;
}

Result<void> IntakeStore::take(const Record& record, const Intake& intake, const QList<Hash>& named,
                               const PersonId& by, const Stamp& now)
{
    return m_database->transaction([&]() -> Result<void> {
        store::Pictures pictures(*m_database);
        for (const Picture& picture : record.pictures) {
            if (!named.contains(picture.hash))
                continue;
            if (const auto kept = pictures.keep({mediaTypeOf(picture.bytes), picture.bytes}); !kept)
                return tl::unexpected(kept.error());
        }
        store::Journal journal(*m_database);
        for (qint64 entry = intake.first; entry < intake.entries; ++entry) {
            const auto added = journal.append(record.visit, store::Sequence(entry),
                                              record.entries[static_cast<std::size_t>(entry)]);
            if (!added)
                return tl::unexpected(added.error());
        }
        if (auto kept = keepSignatures(record, intake); !kept)
            return kept;
        if (auto kept = keepReviews(record, intake, now); !kept)
            return kept;
        if (intake.first > 0)
            return {};
        return people::doneOf(m_database->run(
            u"INSERT INTO received_visit(visit_id, received_at_ms, received_by) "
            "VALUES(:visit, :at, :by)"_s,
            {{u":visit"_s, record.visit.text()}, {u":at"_s, msOf(now.wall)}, {u":by"_s, by.text()}}));
    });
}

Result<void> IntakeStore::keepReviews(const Record& record, const Intake& intake, const Stamp& now)
{
    if (record.reviews.empty())
        return {};
    const auto keys = byThumbprint(record.keys);
    ReviewStore reviews(*m_database);
    for (const SignedReview& one : record.reviews) {
        const auto said = saidBy(one);
        const auto key = said ? keys.find(said->thumbprint) : keys.end();
        if (key == keys.end() || said->review.entry >= intake.entries)
            continue;
        if (auto kept = reviews.keep(one, key->second, now); !kept)
            return kept;
    }
    return {};
}

Result<void> IntakeStore::keepSignatures(const Record& record, const Intake& intake)
{
    const auto keys = byThumbprint(record.keys);
    store::Journal journal(*m_database);
    for (const HeadSignature& one : record.signatures) {
        const auto said = people::headSaidBy(one.jws);
        const auto key = said ? keys.find(said->thumbprint) : keys.end();
        if (key == keys.end() || said->statement.sequence >= intake.entries)
            continue;
        const people::HeadStatement& statement = said->statement;
        const auto kept = journal.keep({record.visit, store::Sequence(statement.sequence), statement.head,
                                        statement.person, key->second.bytes(), one.signature.bytes(),
                                        wordText(people::wordOf(statement.meaning)), statement.at});
        if (!kept && kept.error().kind != Error::Kind::Conflict) // that key has signed it so
            return kept;
    }
    return {};
}

Result<void> IntakeStore::wait(const QByteArray& file, const VisitId& visit, Intake::Why why,
                               const PersonId& by, const Stamp& now)
{
    if (file.size() > kMostWaitingBytes)
        return fail(Error::Kind::Malformed, u"a record of %1 bytes cannot wait"_s.arg(file.size()));
    const auto kept = m_database->run(
        u"SELECT coalesce(sum(length(bytes)), 0) AS bytes FROM waiting_record WHERE sha256 <> :hash"_s,
        {{u":hash"_s, sha256(file).bytes()}});
    if (!kept)
        return tl::unexpected(kept.error());
    if (kept->rows.front().whole(u"bytes") + file.size() > kMostWaitingInAllBytes)
        return fail(Error::Kind::Malformed,
                    u"what waits already takes %1 bytes"_s.arg(kMostWaitingInAllBytes));
    return people::doneOf(m_database->run(
        u"INSERT INTO waiting_record(sha256, visit_id, why, bytes, received_at_ms, received_by) "
        "VALUES(:hash, :visit, :why, :bytes, :at, :by) "
        "ON CONFLICT(sha256) DO UPDATE SET why = excluded.why"_s,
        {{u":hash"_s, sha256(file).bytes()},
         {u":visit"_s, visit.text()},
         {u":why"_s, wordOf(why)},
         {u":bytes"_s, file},
         {u":at"_s, msOf(now.wall)},
         {u":by"_s, by.text()}}));
}

Result<std::vector<WaitingRecord>> IntakeStore::waiting() const
{
    const auto found = m_database->run(
        u"SELECT sha256, visit_id, why, received_at_ms, received_by, length(bytes) AS bytes FROM waiting_record ORDER BY rowid"_s);
    if (!found)
        return tl::unexpected(found.error());
    std::vector<WaitingRecord> waiting;
    for (const store::Row& row : found->rows) {
        const auto hash = Hash::fromBytes(row.bytes(u"sha256"));
        const auto why = intakeWhyFromWord(row.text(u"why"));
        if (!hash || !why)
            return fail(Error::Kind::Malformed, u"waiting_record"_s);
        waiting.push_back({*hash, VisitId(row.text(u"visit_id")), *why, wallOf(row.whole(u"received_at_ms")),
                           PersonId(row.text(u"received_by")), row.whole(u"bytes")});
    }
    return waiting;
}

Result<QByteArray> IntakeStore::fileOf(const Hash& file) const
{
    const auto found = m_database->run(u"SELECT bytes FROM waiting_record WHERE sha256 = :hash"_s,
                                       {{u":hash"_s, file.bytes()}});
    if (!found)
        return tl::unexpected(found.error());
    if (found->rows.empty())
        return fail(Error::Kind::NotFound, u"no record waits as "_s + file.hex());
    return found->rows.front().bytes(u"bytes");
}

Result<void> IntakeStore::release(const Hash& file)
{
    return people::doneOf(
        m_database->run(u"DELETE FROM waiting_record WHERE sha256 = :hash"_s, {{u":hash"_s, file.bytes()}}));
}

Result<bool> IntakeStore::isReceived(const VisitId& visit) const
{
    const auto found = m_database->run(u"SELECT 1 FROM received_visit WHERE visit_id = :visit"_s,
                                       {{u":visit"_s, visit.text()}});
    if (!found)
        return tl::unexpected(found.error());
    return !found->rows.empty();
}

Result<QSet<VisitId>> IntakeStore::received() const
{
    const auto found = m_database->run(u"SELECT visit_id FROM received_visit"_s);
    if (!found)
        return tl::unexpected(found.error());
    QSet<VisitId> visits;
    for (const store::Row& row : found->rows)
        visits.insert(VisitId(row.text(u"visit_id")));
    return visits;
}

} // namespace coldarc::record
