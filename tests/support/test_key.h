#pragma once

#include "core/people/signing_key.h"

#include <algorithm>

namespace coldarc::test {

/// A key whose seed is one byte, over and over.
inline people::SigningKey keyOf(unsigned char byte)
{
    people::SecretBytes seed(people::SigningKey::kSeedBytes);
    std::fill_n(seed.data(), seed.size(), byte);
    return people::SigningKey::fromSeed(std::move(seed));
}

} // namespace coldarc::test
