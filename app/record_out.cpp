#include "app/record_out.h"

#include "core/record/record_file.h"
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
