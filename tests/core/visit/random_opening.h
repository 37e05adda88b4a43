#pragma once

#include "core/visit/opening.h"
#include "tests/core/visit/random_procedure.h"

#include <random>

namespace coldarc::test {

/// An invented site and who comes there tonight: one or two projectors of these models, each lamphouse on one
/// or two points, now and then one point for both projectors or one that takes no lock; one to three people,
/// the first of whom may lead; what is fitted known or not; a swap in each projector, at the first lamphouse.
/// Pre: at least one procedure was proved.
[[nodiscard]] visit::Opening randomOpening(const RandomProcedures& made, std::mt19937& random);

} // namespace coldarc::test
