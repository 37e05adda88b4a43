#pragma once

#include "core/people/granting.h"
#include "core/people/key_store.h"
#include "core/people/people_store.h"

namespace coldarc::people {

/// Everybody of a workspace, retired ones too, as granting looks at them.
[[nodiscard]] Result<std::vector<Holder>> readHolders(const PeopleStore& people, const KeyStore& keys);

} // namespace coldarc::people
