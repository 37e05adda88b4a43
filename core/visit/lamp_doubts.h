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

/// Whether what was read of the new lamp of this swap stands for it: its box was matched, or it was booked
/// in, and that was not withdrawn.
[[nodiscard]] bool standsForItsLamp(const SwapState& swap);

/// Serials among these readings that stand for the new lamp of another swap already: one doubt for each swap
/// and serial, in their order. Two lamps of one type bear no one serial, so that one box was read for both.
/// Lamps of two types are no doubt; one whose type is not known yet may be of any.
[[nodiscard]] QList<label::Doubt> doubtsWithinVisit(const VisitState& state, const SwapState& swap,
                                                    const QList<label::Reading>& readings);

/// What is on record outside this visit.
struct OnRecord {
    QList<label::KnownLamp> lamps;
    QList<label::KnownPicture>
        pictures;          ///< of those that stand for the lamp; those of this visit may be missing
    bool isUnread = false; ///< they could not be read, or not all of them
};

/// Everything that memory and the visit itself say against the new lamp of a swap, as its entry names it.
/// While the entry names no type, only what the visit says. A type that the model does not take is told by
/// the agreement already and left out here.
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
