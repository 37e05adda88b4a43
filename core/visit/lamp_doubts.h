#pragma once

#include "core/label/doubts.h"
#include "core/label/source_read.h"
#include "core/visit/state.h"

namespace coldarc::visit {

/// What each source says of a lamp by the entries that count: the last one of each, with its codes and its
/// picture.
/// @param entries  of the visit.
[[nodiscard]] QList<label::SourceRead> readsOf(const QList<Entry>& entries, const VisitState& state,
                                               const LampId& lamp);

/// What is on record outside this visit.
struct OnRecord {
    QList<label::KnownLamp> lamps;
    QList<label::KnownPicture>
        pictures;          ///< of those that stand for the lamp; those of this visit may be missing
    bool isUnread = false; ///< they could not be read, or not all of them
};

/// Everything that memory says against the new lamp of a swap, as its entry names it. None while the entry
/// names no type. A type that the model does not take is told by the agreement already and left out here.
///
/// The adaptor counts as ticked where a step of the swap that asks for it is still to come: it is asked then.
/// @param reads  what stands on the card.
[[nodiscard]] QList<label::Doubt> doubtsOf(const VisitState& state, const SwapState& swap,
                                           const QList<label::SourceRead>& reads, const OnRecord& record,
                                           WallTime now);

/// Those of the doubts to which nobody has answered in this swap. An answer is to the very doubt that it was
/// given to (of an older entry, which does not say which one, to every doubt of its kind), counts no more
/// once it was taken back, and stands until what it was given to is read anew: the entry, or for a date or a
/// picture any code or picture of the lamp.
/// @param entries  of the visit.
[[nodiscard]] QList<label::Doubt> unanswered(const QList<label::Doubt>& doubts, const QList<Entry>& entries,
                                             const VisitState& state, const SwapState& swap);

} // namespace coldarc::visit
