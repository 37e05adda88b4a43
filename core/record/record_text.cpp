#include "core/record/record_text.h"

#include "core/base/json.h"
#include "core/base/words.h"

#include <QJsonDocument>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::record {
namespace {

constexpr qint64 kVersion = 1;
constexpr qsizetype kMostComplaints = 48; ///< nobody reads more; whoever made a bad file can make it worse

QString textOf(const QByteArray& bytes)
{
    return QString::fromLatin1(people::base64Url(bytes));
}

QJsonArray jwksOf(const std::vector<people::PublicKey>& keys)
{
    QJsonArray array;
    for (const people::PublicKey& key : keys)
        array.append(people::jwkOf(key));
    return array;
}

/// In the Flattened JSON Serialization (RFC 7515, section 7.2.2).
template<class Paper>
QJsonArray flattened(const std::vector<Paper>& papers)
{
    QJsonArray all;
    for (const Paper& one : papers)
        all.append(QJsonObject{{u"payload"_s, textOf(one.jws.payload)},
                               {u"protected"_s, textOf(one.jws.protectedHeader)},
                               {u"signature"_s, textOf(one.signature.bytes())}});
    return all;
}

/// How many members there are of whatever a manifest lists by the hundred; they are not looked at.
bool isTooLong(const QJsonObject& object)
{
    const auto count = [&](const QString& key) { return object.value(key).toArray().size(); };
    qsizetype signatures = count(u"former"_s);
    for (const QJsonValue& head : object.value(u"heads"_s).toArray())
        signatures += 1 + head.toObject().value(u"signatures"_s).toArray().size();
    const auto isMany = [&](const QString& key) { return count(key) > static_cast<qsizetype>(kMostKeys); };
    const QStringList papers{u"keys"_s, u"offices"_s, u"certificates"_s, u"retirements"_s, u"reviews"_s};
    return count(u"chain"_s) > kMostEntries || signatures > kMostEntries ||
           std::ranges::any_of(papers, isMany);
}

/// Signatures over one payload are one JWS, in the order in which the payloads come up first.
QJsonArray headsOf(const std::vector<HeadSignature>& signatures)
{
    std::vector<std::pair<QByteArray, QJsonArray>> heads;
    for (const HeadSignature& one : signatures) {
        auto head = std::ranges::find(heads, one.jws.payload, &std::pair<QByteArray, QJsonArray>::first);
        if (head == heads.end())
            head = heads.insert(heads.end(), {one.jws.payload, {}});
        head->second.append(QJsonObject{{u"protected"_s, textOf(one.jws.protectedHeader)},
                                        {u"signature"_s, textOf(one.signature.bytes())}});
    }
    QJsonArray array;
    for (const auto& [payload, list] : heads)
        array.append(QJsonObject{{u"payload"_s, textOf(payload)}, {u"signatures"_s, list}});
    return array;
}

QJsonObject toJson(const FormerSignature& one)
{
    return {{u"entry"_s, one.statement.sequence},
            {u"kid"_s, one.thumbprint},
            {u"meaning"_s, wordText(people::wordOf(one.statement.meaning))},
            {u"sha256"_s, one.statement.head.hex()},
            {u"signature"_s, textOf(one.signature.bytes())}};
}

class ManifestReader {
public:
    Result<Record> read(const QJsonObject& object)
    {
        if (isTooLong(object))
            return fail(
                Error::Kind::Malformed,
                u"keys must be %1 at most, like offices, certificates, retirements and reviews; entries "
                "and signatures %2"_s.arg(kMostKeys)
                    .arg(kMostEntries));
        JsonReader reader(object, {}, m_complaints);
        if (reader.text(u"coldarc"_s) != u"record"_s)
            reader.complain(u"coldarc"_s, u"must be record"_s);
        static_cast<void>(reader.whole(u"version"_s, kVersion, kVersion));
        m_record.visit = VisitId(reader.text(u"visit"_s));
        for (const QString& link : reader.texts(u"chain"_s)) {
            const auto hash = Hash::fromHex(link);
            m_record.chain.push_back(hash.value_or(Hash()));
            if (hash && hash->hex() == link)
                continue;
            reader.complain(u"chain"_s, u"must be links of 64 lower hexadecimal digits"_s);
            break;
        }
        const auto each = [&](const QList<JsonReader::Child>& children, const auto& read) {
            for (const JsonReader::Child& child : children) {
                if (m_complaints.size() < kMostComplaints)
                    read(child);
            }
        };
        Vouching& vouching = m_record.vouching;
        each(reader.children(u"keys"_s), [&](const auto& key) { readKey(key, m_record.keys); });
        each(reader.children(u"heads"_s), [&](const auto& head) { readHead(head); });
        each(reader.children(u"former"_s), [&](const auto& former) { readFormer(former); });
        each(reader.childrenOr(u"offices"_s), [&](const auto& key) { readKey(key, vouching.offices); });
        each(reader.childrenOr(u"certificates"_s),
             [&](const auto& paper) { readPaper(paper, vouching.certificates); });
        each(reader.childrenOr(u"retirements"_s),
             [&](const auto& paper) { readPaper(paper, vouching.retirements); });
        each(reader.childrenOr(u"reviews"_s), [&](const auto& paper) { readPaper(paper, m_record.reviews); });
        reader.finish();
        if (!m_complaints.isEmpty())
            return fail(Error::Kind::Malformed, m_complaints.join(u"; "_s));
        return std::move(m_record);
    }

private:
    QByteArray bytes(JsonReader& reader, const QString& key)
    {
        const auto read = people::fromBase64Url(reader.text(key).toLatin1());
        if (!read)
            reader.complain(key, u"must be base64url without padding"_s);
        return read.value_or(QByteArray());
    }

    void readKey(const JsonReader::Child& child, std::vector<people::PublicKey>& keys)
    {
        JsonReader reader(child.object, child.place, m_complaints);
        if (reader.text(u"kty"_s) != u"OKP"_s || reader.text(u"crv"_s) != u"Ed25519"_s)
            reader.complain(u"crv"_s, u"must be a key of Ed25519"_s);
        if (const auto key = people::PublicKey::fromBytes(bytes(reader, u"x"_s)))
            keys.push_back(*key);
        else
            reader.complain(u"x"_s, u"must be 32 bytes"_s);
        reader.finish();
    }

    void readHead(const JsonReader::Child& child)
    {
        JsonReader reader(child.object, child.place, m_complaints);
        const QByteArray payload = bytes(reader, u"payload"_s);
        for (const JsonReader::Child& one : reader.children(u"signatures"_s)) {
            JsonReader signature(one.object, one.place, m_complaints);
            const QByteArray header = bytes(signature, u"protected"_s);
            if (const auto signed64 = signatureIn(signature))
                m_record.signatures.push_back({{header, payload}, *signed64});
            signature.finish();
        }
        reader.finish();
    }

    void readFormer(const JsonReader::Child& child)
    {
        JsonReader reader(child.object, child.place, m_complaints);
        const auto meaning = people::meaningFromWord(reader.text(u"meaning"_s).toStdString());
        const auto head = Hash::fromHex(reader.text(u"sha256"_s));
        if (!meaning || !head)
            reader.complain(u"meaning"_s, u"must be the meaning of a head"_s);
        const people::HeadStatement statement{m_record.visit, reader.whole(u"entry"_s, 0, kMostEntries),
                                              head.value_or(Hash()),
                                              meaning.value_or(people::Meaning::Performed)};
        const QString kid = reader.text(u"kid"_s);
        if (const auto signature = signatureIn(reader))
            m_record.former.push_back({statement, kid, *signature});
        reader.finish();
    }

    template<class Paper>
    void readPaper(const JsonReader::Child& child, std::vector<Paper>& papers)
    {
        JsonReader reader(child.object, child.place, m_complaints);
        const QByteArray header = bytes(reader, u"protected"_s);
        const QByteArray payload = bytes(reader, u"payload"_s);
        if (const auto signature = signatureIn(reader))
            papers.push_back({{header, payload}, *signature});
        reader.finish();
    }

    std::optional<people::Signature> signatureIn(JsonReader& reader)
    {
        const auto signature = people::Signature::fromBytes(bytes(reader, u"signature"_s));
        if (!signature)
            reader.complain(u"signature"_s, u"must be 64 bytes"_s);
        return signature;
    }

    Record m_record;
    QStringList m_complaints;
};

} // namespace

QByteArray manifestOf(const Record& record)
{
    QJsonArray chain;
    for (const Hash& link : record.chain)
        chain.append(link.hex());
    QJsonArray former;
    for (const FormerSignature& one : record.former)
        former.append(toJson(one));
    const QJsonArray certificates = flattened(record.vouching.certificates);
    const QJsonArray retirements = flattened(record.vouching.retirements);
    const QJsonArray reviews = flattened(record.reviews);
    QJsonObject manifest{{u"coldarc"_s, u"record"_s},
                         {u"version"_s, kVersion},
                         {u"visit"_s, record.visit.text()},
                         {u"chain"_s, chain},
                         {u"keys"_s, jwksOf(record.keys)},
                         {u"heads"_s, headsOf(record.signatures)},
                         {u"former"_s, former}};
    if (!record.vouching.offices.empty())
        manifest.insert(u"offices"_s, jwksOf(record.vouching.offices));
    if (!certificates.isEmpty())
        manifest.insert(u"certificates"_s, certificates);
    if (!retirements.isEmpty())
        manifest.insert(u"retirements"_s, retirements);
    if (!reviews.isEmpty())
        manifest.insert(u"reviews"_s, reviews);
    return QJsonDocument(manifest).toJson(QJsonDocument::Compact);
}

Result<Record> recordFromManifest(const QByteArray& json)
{
    const auto object = parseObject(json);
    if (!object)
        return tl::unexpected(object.error());
    return ManifestReader().read(*object);
}

QByteArray linesOf(const std::vector<QByteArray>& entries)
{
    QByteArray lines;
    for (const QByteArray& entry : entries)
        lines += entry + '\n';
    return lines;
}

Result<std::vector<QByteArray>> entriesFromLines(const QByteArray& lines)
{
    std::vector<QByteArray> entries;
    for (qsizetype from = 0; from < lines.size();) {
        const qsizetype end = lines.indexOf('\n', from);
        const qsizetype length = end - from;
        if (end < 0 || length == 0 || length > store::Journal::kMostBytes)
            return fail(Error::Kind::Malformed, u"line %1 is no entry"_s.arg(entries.size() + 1));
        if (entries.size() == static_cast<std::size_t>(kMostEntries))
            return fail(Error::Kind::Malformed, u"more than %1 entries"_s.arg(kMostEntries));
        entries.push_back(lines.mid(from, length));
        from = end + 1;
    }
    return entries;
}

} // namespace coldarc::record
