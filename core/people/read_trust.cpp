#include "core/people/read_trust.h"

namespace coldarc::people {
namespace {

template<class Paper>
Result<void> addAll(const Result<std::vector<Paper>>& papers, const Trust& heard, Trust& trust)
{
    if (!papers)
        return tl::unexpected(papers.error());
    for (const Paper& paper : *papers)
        trust.add(paper, heard);
    return {};
}

} // namespace

Result<Trust> readTrust(const OfficeStore& offices, const KeyStore& keys, const std::set<PublicKey>& about,
                        const Trust& heard)
{
    const auto known = offices.believed();
    if (!known)
        return tl::unexpected(known.error());
    std::vector<PublicKey> believed;
    for (const Office& office : *known)
        believed.push_back(office.key);
    Trust trust(believed);
    for (const PublicKey& key : about) {
        if (const auto owner = keys.ownerOf(key))
            trust.add(*owner);
        else if (owner.error().kind != Error::Kind::NotFound)
            return tl::unexpected(owner.error());
        if (auto added = addAll(offices.certificatesOf(key), heard, trust); !added)
            return tl::unexpected(added.error());
        if (auto added = addAll(offices.retirementsOf(key), heard, trust); !added)
            return tl::unexpected(added.error());
    }
    return trust;
}

} // namespace coldarc::people
