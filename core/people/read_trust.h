#pragma once

#include "core/people/office_store.h"
#include "core/people/trust.h"

#include <set>

namespace coldarc::people {

/// What a workspace knows of these keys, by its own list and by the offices that it believes. Error::Storage,
/// Malformed for a row that no paper and no key can look like.
/// @param heard  elsewhere: papers that are the same here are not checked once more.
[[nodiscard]] Result<Trust> readTrust(const OfficeStore& offices, const KeyStore& keys,
                                      const std::set<PublicKey>& about, const Trust& heard = {});

} // namespace coldarc::people
