#pragma once

#include "core/base/result.h"
#include "core/catalogue/projector_model.h"
#include "core/machine/plant.h"
#include "core/procedure/step_act.h"

#include <optional>

namespace coldarc::procedure {

/// The type of a lamp that no document knows. It is none that a controller can be set to.
inline constexpr std::uint8_t kUnknownType = 0xFE;

/// One projector of this model as the machine counts it: lamphouses in the model's order, isolation points in
/// the order in which they are cut, points that share a lamphouse (directly or by another point) in one
/// group. Nobody is authorised yet and no lamp is there. Malformed if the model has more of something than a
/// visit can hold, or a point that feeds a lamphouse it does not have.
/// @param people  1 to machine::kMostPeople
[[nodiscard]] Result<machine::Plant> plantOf(const catalogue::ProjectorModel& model, int people);

/// Adds a lamp meant for this lamphouse and gives its index. A type is counted by its place in
/// `model.lampTypes`; nothing, or one that the model does not take, is kUnknownType and not accepted.
/// Pre: fewer than machine::kMostLamps are there.
machine::Index addLamp(machine::Plant& plant, const catalogue::ProjectorModel& model,
                       machine::Index lamphouse, const std::optional<LampTypeId>& type);

/// What a procedure of this model names, as indices of `plantOf(model)`; person, lamps and what was found
/// stay as they are by default. The other lamphouse is the first one that is not the swap's own.
[[nodiscard]] StepContext contextOf(const catalogue::ProjectorModel& model, machine::Index lamphouse);

} // namespace coldarc::procedure
