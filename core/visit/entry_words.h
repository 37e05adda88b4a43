#pragma once

#include "core/label/agreement.h"
#include "core/machine/act.h"

#include <QString>

#include <optional>

namespace coldarc::visit {

// The words that entries use for enumerations of other rooms. All lower case with dashes.

[[nodiscard]] QString wordOf(machine::Outcome outcome);
[[nodiscard]] std::optional<machine::Outcome> outcomeFromWord(const QString& word);
[[nodiscard]] QString wordOf(machine::Drive drive);
[[nodiscard]] std::optional<machine::Drive> driveFromWord(const QString& word);
[[nodiscard]] QString wordOf(machine::Seat seat);
[[nodiscard]] std::optional<machine::Seat> seatFromWord(const QString& word);
[[nodiscard]] QString wordOf(machine::Life life);
[[nodiscard]] std::optional<machine::Life> lifeFromWord(const QString& word);
[[nodiscard]] QString wordOf(label::Source source);
[[nodiscard]] std::optional<label::Source> sourceFromWord(const QString& word);
[[nodiscard]] QString wordOf(label::Means means);
[[nodiscard]] std::optional<label::Means> meansFromWord(const QString& word);

} // namespace coldarc::visit
