#include "app/record_out.h"

#include "core/record/record_file.h"

#include <algorithm>

namespace coldarc::app {
namespace {

bool isNamed(const Hash& picture, const std::vector<store::Entry>& entries)
{
    const QByteArray name = picture.hex().toLatin1();
    return std::ranges::any_of(entries,
                               [&](const store::Entry& entry) { return entry.bytes.contains(name); });
}

Result<std::vector<record::Picture>> picturesOf(const std::vector<store::Entry>& entries,
                                                const store::Pictures& pictures)
{
    const auto hashes = pictures.hashes();
    if (!hashes)
        return tl::unexpected(hashes.error());
    std::vector<record::Picture> named;
    for (const Hash& hash : *hashes) {
        if (!isNamed(hash, entries))
            continue;
        auto picture = pictures.read(hash);
        if (!picture)
            return tl::unexpected(picture.error());
        named.push_back({hash, std::move(picture->bytes)});
    }
    return named;
}

} // namespace

Result<QByteArray> recordFileOf(const VisitId& visit, const store::Journal& journal,
                                const store::Pictures& pictures)
{
    const auto entries = journal.entries(visit);
    if (!entries)
        return tl::unexpected(entries.error());
    const auto signatures = journal.signatures(visit);
    if (!signatures)
        return tl::unexpected(signatures.error());
    auto named = picturesOf(*entries, pictures);
    if (!named)
        return tl::unexpected(named.error());
    const auto record = record::recordOf(visit, *entries, *signatures, std::move(*named));
    if (!record)
        return tl::unexpected(record.error());
    return record::bytesOf(*record);
}

} // namespace coldarc::app
