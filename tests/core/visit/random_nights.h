#pragma once

#include "core/machine/effect.h"
#include "core/visit/incident.h"
#include "tests/core/visit/random_procedure.h"

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

/// Nights at random sites with random procedures, one in eight at one with a shipped model, in which people
/// say and do whatever comes into their heads, more often than not what is next; in some of the nights almost
/// always, so that what stands at the end of a swap is met too. After each command the machine's invariants
/// are asked and, after a refusal, whether nothing was added; every 200th time and at the end of each night
/// the entries are read back and folded anew. The same numbers for the same seed and procedures.
/// Pre: at least one procedure was proved.
[[nodiscard]] RandomNights runRandomNights(std::size_t commands, std::uint32_t seed,
                                           const RandomProcedures& made);

} // namespace coldarc::test
