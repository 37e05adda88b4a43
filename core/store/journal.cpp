#include "core/store/journal.h"

#include <algorithm>
#include <functional>
#include <string_view>

using namespace Qt::StringLiterals;

namespace coldarc::store {
namespace {

Result<Hash> hashFrom(const QByteArray& bytes, const QString& place)
{
    const auto hash = Hash::fromBytes(bytes);
    if (!hash)
        return fail(Error::Kind::Malformed, place + u": a hash has 32 bytes"_s);
    return *hash;
}

/// Finds a text that an entry holds only where it says so itself: a quotation mark in somebody's words is
/// escaped.
class Finder {
public:
    explicit Finder(std::string_view text)
        : m_search(text.begin(), text.end())
    {
    }
    /// Where it ends; nothing where it is not.
    [[nodiscard]] std::optional<qsizetype> endIn(const QByteArray& bytes) const
    {
        const auto [begin, end] = m_search(bytes.begin(), bytes.end());
        return begin == end ? std::nullopt : std::optional(end - bytes.begin());
    }

private:
    std::boyer_moore_horspool_searcher<std::string_view::iterator> m_search;
};

std::optional<Hash> pictureNamedIn(const QByteArray& bytes)
{
    static const Finder kPicture(R"("picture":")");
    const auto end = kPicture.endIn(bytes);
    return end ? Hash::fromHex(QString::fromLatin1(bytes.mid(*end, 2 * Hash::kBytes))) : std::nullopt;
}

bool holdsCodes(const QByteArray& bytes)
{
    static const Finder kCodes(R"("scanned":[)");
    return kCodes.endIn(bytes).has_value();
}

/// Why the row cannot be the next entry, or nothing.
std::optional<Error> faultOf(const VisitId& visit, const Row& row, Sequence expected, const Hash& previous)
{
    const QString place = u"visit %1, entry %2"_s.arg(visit.text()).arg(expected.value());
    if (row.whole(u"seq") != expected.value())
        return Error{Error::Kind::Malformed, place + u": is missing"_s};
    if (row.bytes(u"previous") != previous.bytes())
        return Error{Error::Kind::Malformed, place + u": does not follow the entry before"_s};
    if (row.bytes(u"hash") != chained(previous, row.bytes(u"bytes")).bytes())
        return Error{Error::Kind::Malformed, place + u": its bytes do not fit its hash"_s};
    return std::nullopt;
}

} // namespace

Result<Hash> Journal::append(const VisitId& visit, Sequence expected, const QByteArray& bytes)
{
    if (bytes.isEmpty() || bytes.size() > kMostBytes)
        return fail(Error::Kind::Malformed,
                    u"an entry has 1 to %1 bytes, not %2"_s.arg(kMostBytes).arg(bytes.size()));
    const std::optional<Hash> picture = pictureNamedIn(bytes);
    const bool withCodes = holdsCodes(bytes);
    if (!picture && !withCodes)
        return follow(visit, expected, bytes);
    return m_database->transaction([&]() -> Result<Hash> {
        const auto added = follow(visit, expected, bytes);
        if (added && picture) {
            if (auto noted =
                    noteDown(u"INSERT INTO picture_naming(entry_id, picture_hash) SELECT entry_id, :hash"_s,
                             visit, expected, {{u":hash"_s, picture->hex()}});
                !noted)
                return tl::unexpected(noted.error());
        }
        if (added && withCodes) {
            if (auto noted =
                    noteDown(u"INSERT INTO code_holding(entry_id) SELECT entry_id"_s, visit, expected);
                !noted)
                return tl::unexpected(noted.error());
        }
        return added;
    });
}

Result<Hash> Journal::follow(const VisitId& visit, Sequence expected, const QByteArray& bytes)
{
    if (m_last && m_last->visit == visit && m_last->seq.next() == expected) {
        const Hash previous = m_last->hash;
        auto added = insert(visit, expected, bytes, previous);
        if (added || added.error().kind != Error::Kind::Conflict)
            return added;
    }
    const auto previous = hashBefore(visit, expected);
    if (!previous)
        return tl::unexpected(previous.error());
    return insert(visit, expected, bytes, *previous);
}

Result<Hash> Journal::insert(const VisitId& visit, Sequence seq, const QByteArray& bytes,
                             const Hash& previous)
{
    const Hash hash = chained(previous, bytes);
    const auto added = m_database->run(
        u"INSERT INTO entry(visit_id, seq, bytes, previous, hash) VALUES(:visit, :seq, :bytes, :previous, :hash)"_s,
        {{u":visit"_s, visit.text()},
         {u":seq"_s, seq.value()},
         {u":bytes"_s, bytes},
         {u":previous"_s, previous.bytes()},
         {u":hash"_s, hash.bytes()}});
    if (!added) {
        m_last.reset();
        return tl::unexpected(added.error());
    }
    m_last = Head{visit, seq, hash};
    return hash;
}

/// By what an entry is found again.
Result<void> Journal::noteDown(const QString& sql, const VisitId& visit, Sequence seq, Bindings more)
{
    more.append({{u":visit"_s, visit.text()}, {u":seq"_s, seq.value()}});
    const auto noted = m_database->run(sql + u" FROM entry WHERE visit_id = :visit AND seq = :seq"_s, more);
    if (!noted)
        return tl::unexpected(noted.error());
    return {};
}

Result<Hash> Journal::hashBefore(const VisitId& visit, Sequence seq) const
{
    if (seq == Sequence(0))
        return Hash();
    const auto found = m_database->run(u"SELECT hash FROM entry WHERE visit_id = :visit AND seq = :seq"_s,
                                       {{u":visit"_s, visit.text()}, {u":seq"_s, seq.value() - 1}});
    if (!found)
        return tl::unexpected(found.error());
    if (found->rows.empty())
        return fail(Error::Kind::Conflict,
                    u"visit %1 has no entry %2"_s.arg(visit.text()).arg(seq.value() - 1));
    return hashFrom(found->rows.front().bytes(u"hash"), u"visit "_s + visit.text());
}

Result<Chain> Journal::chain(const VisitId& visit) const
{
    const auto found = m_database->run(
        u"SELECT seq, bytes, previous, hash FROM entry WHERE visit_id = :visit ORDER BY seq"_s,
        {{u":visit"_s, visit.text()}});
    if (!found)
        return tl::unexpected(found.error());
    Chain chain;
    chain.good.reserve(found->rows.size());
    Hash previous;
    for (const Row& row : found->rows) {
        const Sequence expected(static_cast<qint64>(chain.good.size()));
        chain.fault = faultOf(visit, row, expected, previous);
        if (chain.fault)
            break;
        previous = *Hash::fromBytes(row.bytes(u"hash"));
        chain.good.push_back({expected, row.bytes(u"bytes"), previous});
    }
    return chain;
}

Result<std::vector<Entry>> Journal::entries(const VisitId& visit) const
{
    auto read = chain(visit);
    if (!read)
        return tl::unexpected(read.error());
    if (read->fault)
        return tl::unexpected(*read->fault);
    return std::move(read->good);
}

Result<Head> Journal::head(const VisitId& visit) const
{
    const auto found =
        m_database->run(u"SELECT seq, hash FROM entry WHERE visit_id = :visit ORDER BY seq DESC LIMIT 1"_s,
                        {{u":visit"_s, visit.text()}});
    if (!found)
        return tl::unexpected(found.error());
    if (found->rows.empty())
        return fail(Error::Kind::NotFound, u"no visit "_s + visit.text());
    const auto hash = hashFrom(found->rows.front().bytes(u"hash"), u"visit "_s + visit.text());
    if (!hash)
        return tl::unexpected(hash.error());
    return Head{visit, Sequence(found->rows.front().whole(u"seq")), *hash};
}

Result<std::vector<Head>> Journal::heads() const
{
    const auto found = m_database->run(uR"(
SELECT first.visit_id, last.seq, last.hash
FROM (SELECT visit_id, min(entry_id) AS arrived FROM entry GROUP BY visit_id) AS first
JOIN entry AS last ON last.visit_id = first.visit_id
    AND last.seq = (SELECT max(seq) FROM entry WHERE visit_id = first.visit_id)
ORDER BY first.arrived)"_s.trimmed());
    if (!found)
        return tl::unexpected(found.error());
    std::vector<Head> heads;
    heads.reserve(found->rows.size());
    for (const Row& row : found->rows) {
        const VisitId visit(row.text(u"visit_id"));
        const auto hash = hashFrom(row.bytes(u"hash"), u"visit "_s + visit.text());
        if (!hash)
            return tl::unexpected(hash.error());
        heads.push_back({visit, Sequence(row.whole(u"seq")), *hash});
    }
    return heads;
}

Result<void> Journal::keep(const Signature& signature)
{
    const auto added =
        m_database->run(u"INSERT INTO signature(visit_id, seq, head_hash, person_id, public_key, "
                        u"signature_bytes, meaning, signed_at_ms) "
                        "VALUES(:visit, :seq, :head, :person, :key, :bytes, :meaning, :at)"_s,
                        {{u":visit"_s, signature.visit.text()},
                         {u":seq"_s, signature.seq.value()},
                         {u":head"_s, signature.head.bytes()},
                         {u":person"_s, signature.person.text()},
                         {u":key"_s, signature.publicKey},
                         {u":bytes"_s, signature.bytes},
                         {u":meaning"_s, signature.meaning},
                         {u":at"_s, msOf(signature.at)}});
    if (!added)
        return tl::unexpected(added.error());
    return {};
}

Result<std::vector<Signature>> Journal::signatures(const VisitId& visit) const
{
    const auto found = m_database->run(u"SELECT seq, head_hash, person_id, public_key, signature_bytes, "
                                       u"meaning, signed_at_ms FROM signature "
                                       "WHERE visit_id = :visit ORDER BY signature_id"_s,
                                       {{u":visit"_s, visit.text()}});
    if (!found)
        return tl::unexpected(found.error());
    std::vector<Signature> signatures;
    for (const Row& row : found->rows) {
        const auto head = hashFrom(row.bytes(u"head_hash"), u"a signature of visit "_s + visit.text());
        if (!head)
            return tl::unexpected(head.error());
        signatures.push_back({visit, Sequence(row.whole(u"seq")), *head, PersonId(row.text(u"person_id")),
                              row.bytes(u"public_key"), row.bytes(u"signature_bytes"), row.text(u"meaning"),
                              wallOf(row.whole(u"signed_at_ms"))});
    }
    return signatures;
}

} // namespace coldarc::store
