#pragma once

#include "core/people/attempts.h"
#include "core/people/secret_rules.h"
#include "ui/parts/field.h"

namespace coldarc::ui {

/// What is asked of a passphrase before one is given.
[[nodiscard]] QString passphraseRule();
[[nodiscard]] QString pinRule();
/// Why it is not taken.
[[nodiscard]] QString wordsFor(people::PassphraseFault fault);
[[nodiscard]] QString wordsFor(people::PinFault fault);
/// "The next try is free in 0:30."; empty when it is free.
[[nodiscard]] QString waitWords(const people::AttemptVerdict& verdict);

/// What stands in a field for secrets. The field has it still, until it is wiped.
[[nodiscard]] people::TypedSecret typedIn(const Field& field);

} // namespace coldarc::ui
