#pragma once

#include "core/visit/state.h"

namespace coldarc::visit {

/// The visit after one more entry. Reads the entry and nothing else. An entry that names what this visit does
/// not know, or a kind that this program does not know, makes the visit read-only from here on, never wrong.
[[nodiscard]] VisitState evolve(const VisitState& state, const Entry& entry);
/// The same for a state that nobody needs any more: nothing of it is copied.
[[nodiscard]] VisitState evolve(VisitState&& state, const Entry& entry);

/// The visit as it stands at `now` with nothing done: waits witnessed up to then, those that are over
/// counted, and what a gap that nobody witnessed makes wait again. Pre: `now` comes after the last entry.
[[nodiscard]] VisitState seenAt(const VisitState& state, const Stamp& now);

/// All entries of a visit, from nothing.
[[nodiscard]] VisitState fold(const QList<Entry>& entries);

} // namespace coldarc::visit
