#pragma once

#include "core/people/authority.h"
#include "core/people/gear.h"

#include <QString>

namespace coldarc::ui {

// The words for people, what they may do, and their gear.

[[nodiscard]] QString wordFor(people::Role role);
[[nodiscard]] QString wordFor(people::Duty duty);
[[nodiscard]] QString wordFor(people::GearRefusal refusal);
/// How an authorisation stands today: "holds until 2026-12-31", "ended on 2026-05-01".
[[nodiscard]] QString standingOf(const people::Authorisation& authorisation, people::Day today);
/// What a verdict says: "not authorised for this model", ...
[[nodiscard]] QString wordFor(people::Authority::Verdict verdict);

/// A thumbprint in groups of four, as it is read to somebody.
[[nodiscard]] QString inGroups(const QString& thumbprint);

} // namespace coldarc::ui
