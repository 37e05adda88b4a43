#pragma once

#include "core/machine/effect.h"
#include "core/visit/incident.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>

namespace coldarc::test {

/// What came of many random commands.
struct RandomNights {
    std::size_t asked = 0;
    std::size_t accepted = 0;
    std::size_t nights = 0;
    std::size_t done = 0;     ///< nights that ended the plain way
    std::size_t madeSafe = 0; ///< nights from whose random state the list led to an end
    std::size_t compared = 0; ///< times the re-read bytes were folded and compared with the live state
    std::array<std::size_t, machine::kEffects> effects{};   ///< accepted, by effect
    std::array<std::size_t, visit::kIncidents> incidents{}; ///< met, by kind
    std::size_t withdrawn = 0;
    std::size_t passedOn = 0;
    std::size_t removed = 0;
    std::string broken; ///< the first rule that was broken, with the night and the command; empty: none

    [[nodiscard]] std::size_t rarestEffect() const; ///< how often the effect was done that was done least
    [[nodiscard]] std::size_t rarestIncident() const;
};

/// Nights on the shipped models and procedures, in which people say and do whatever comes into their heads,
/// more often than not what is next. After each command the machine's invariants are asked, and
/// every 200th time and at the end of each night the entries are read back and folded anew. Costs about 20
/// microseconds per command; the same numbers for the same seed.
[[nodiscard]] RandomNights runRandomNights(std::size_t commands, std::uint32_t seed);

} // namespace coldarc::test
