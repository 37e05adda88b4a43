#pragma once

#include "core/visit/state.h"

namespace coldarc::visit {

/// The lamp that one of this visit turned out to be. A visit names the lamp that it was planned with; whoever
/// takes another one of that type out of the van says so by the serial of the entry. Once the box is open
/// that serial counts: with it another lamp of this visit, as the visit knows that one; else one that the
/// visit did not know before, whose id is made of the visit's and the planned one's. A lamp that was planned
/// without a serial has the entry's.
[[nodiscard]] LampFacts unitOf(const VisitState& state, machine::Index lamp);

} // namespace coldarc::visit
