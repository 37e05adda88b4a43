#pragma once

#include "tests/core/machine/world.h"

#include <span>

namespace coldarc::test {

/// A demand that is needed: without it this invariant breaks on this night.
struct Needed {
    machine::Demand demand;
    const char* name; ///< of the demand
    const char* night;
    const char* breaks;
};
[[nodiscard]] std::span<const Needed> needs();

/// A demand that breaks nothing when it alone is dropped, and why it stands there all the same.
struct Redundant {
    machine::Demand demand;
    const char* name; ///< of the demand
    const char* reason;
};
[[nodiscard]] std::span<const Redundant> redundancies();

} // namespace coldarc::test
