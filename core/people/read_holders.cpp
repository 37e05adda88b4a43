#include "core/people/read_holders.h"

namespace coldarc::people {

Result<std::vector<Holder>> readHolders(const PeopleStore& people, const KeyStore& keys)
{
    auto all = people.all();
    if (!all)
        return tl::unexpected(all.error());
    std::vector<Holder> holders;
    for (Person& person : *all) {
        auto held = people.authorisationsOf(person.id);
        if (!held)
            return tl::unexpected(held.error());
        const auto key = keys.sealedKey(person.id);
        if (!key && key.error().kind != Error::Kind::NotFound)
            return tl::unexpected(key.error());
        holders.push_back({std::move(person), std::move(*held), key.has_value()});
    }
    return holders;
}

} // namespace coldarc::people
