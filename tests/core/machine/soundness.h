#pragma once

#include "core/machine/make_safe.h"
#include "tests/core/machine/world.h"

#include <set>

namespace coldarc::test {

#if defined(__SANITIZE_ADDRESS__)
inline constexpr bool kUnderSanitizers = true; ///< what is large is left to the ordinary run
#else
inline constexpr bool kUnderSanitizers = false;
#endif

/// What following the make-safe list from every world of an enumeration showed.
struct Soundness {
    std::string trouble; ///< empty if every world leads to a signed end
    std::set<machine::SafeEnd> ends;
    int longest = 0; ///< steps of the longest way
};

/// Follows the list from each world in which every lamphouse was looked at, by each engineer, asking the
/// shipping rules at each step.
[[nodiscard]] Soundness followToSafety(const Setting& setting, const Worlds& worlds);

/// What one whole enumeration showed, without its worlds.
struct Report {
    std::string name;
    std::string trouble; ///< a broken invariant with its trace, or what the way to safety met; empty if sound
    std::size_t states = 0;
    std::size_t transitions = 0;
    std::size_t plainSwaps = 0;
    std::array<std::size_t, machine::kEffects> effects{};
    std::array<std::size_t, machine::kHappenings> happenings{};
    std::set<machine::SafeEnd> ends;
    int longest = 0;
};

/// Enumerates the setting whole, once for all that ask in this run, and prints its counts.
[[nodiscard]] const Report& reportOf(const Setting& setting);
/// No invariant broken, every world leads to safety, all three ends and a plain swap that can be signed.
void expectSound(const Setting& setting);

} // namespace coldarc::test
