#pragma once

#include "core/procedure/proof_case.h"

#include <cstddef>
#include <optional>

namespace coldarc::procedure {

/// Every path of one pairing, breadth first, so that the first failure is one with a shortest path.
struct Walked {
    std::optional<ProofFailure> failure;
    std::size_t nodes = 0;
};
[[nodiscard]] Walked walk(const ProofCase& walked, const ProofScope& scope);

/// For each gate: without what proves it, from the start and from whatever lets it wait again at each step of
/// the planned way, nothing that waits for it can be done, however many other steps are passed over. Source
/// of the test: reachability after deletion, as for dominators in a flow graph. Pre: `walk` found no failure.
[[nodiscard]] std::optional<ProofFailure> bypass(const ProofCase& walked, const ProofScope& scope);

} // namespace coldarc::procedure
