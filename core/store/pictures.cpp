#include "core/store/pictures.h"

using namespace Qt::StringLiterals;

namespace coldarc::store {

Result<Hash> Pictures::keep(const Picture& picture)
{
    if (picture.bytes.isEmpty() || picture.bytes.size() > kMostBytes)
        return fail(Error::Kind::Malformed,
                    u"a picture has 1 to %1 bytes, not %2"_s.arg(kMostBytes).arg(picture.bytes.size()));
    const Hash hash = sha256(picture.bytes);
    const auto added = m_database->run(
        u"INSERT INTO picture(hash, media_type, bytes) SELECT :hash, :media_type, :bytes "
        "WHERE NOT EXISTS (SELECT 1 FROM picture WHERE hash = :hash)"_s,
        {{u":hash"_s, hash.bytes()}, {u":media_type"_s, picture.mediaType}, {u":bytes"_s, picture.bytes}});
    if (!added)
        return tl::unexpected(added.error());
    return hash;
}

Result<Picture> Pictures::read(const Hash& hash) const
{
    const auto found = m_database->run(u"SELECT media_type, bytes FROM picture WHERE hash = :hash"_s,
                                       {{u":hash"_s, hash.bytes()}});
    if (!found)
        return tl::unexpected(found.error());
    if (found->rows.empty())
        return fail(Error::Kind::NotFound, u"no picture "_s + hash.hex());
    const Row& row = found->rows.front();
    Picture picture{row.text(u"media_type"), row.bytes(u"bytes")};
    if (sha256(picture.bytes) != hash)
        return fail(Error::Kind::Malformed, u"picture %1: its bytes do not fit its hash"_s.arg(hash.hex()));
    return picture;
}

Result<std::vector<VisitId>> Pictures::visitsWith(const Hash& hash) const
{
    const auto found =
        m_database->run(u"SELECT DISTINCT visit_id FROM picture_naming JOIN entry USING (entry_id) "
                        "WHERE picture_hash = :hash ORDER BY visit_id"_s,
                        {{u":hash"_s, hash.hex()}});
    if (!found)
        return tl::unexpected(found.error());
    std::vector<VisitId> visits;
    for (const Row& row : found->rows)
        visits.emplace_back(row.text(u"visit_id"));
    return visits;
}

Result<std::vector<Hash>> Pictures::hashes() const
{
    const auto found = m_database->run(u"SELECT hash FROM picture ORDER BY picture_id"_s);
    if (!found)
        return tl::unexpected(found.error());
    std::vector<Hash> hashes;
    for (const Row& row : found->rows) {
        const auto hash = Hash::fromBytes(row.bytes(u"hash"));
        if (!hash)
            return fail(Error::Kind::Malformed, u"a picture's hash has 32 bytes"_s);
        hashes.push_back(*hash);
    }
    return hashes;
}

} // namespace coldarc::store
