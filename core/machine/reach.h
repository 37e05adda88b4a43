#pragma once

#include "core/machine/act.h"

namespace coldarc::machine {

// Questions about a state that several rules ask.

/// Lamphouses that the points of this act can energise: of the point it names, of the whole isolation group
/// for a personal lock, else of every point that feeds its lamphouse.
[[nodiscard]] Mask lamphousesOnPoints(const Plant& plant, const Act& act);
[[nodiscard]] Mask lamphousesOfProjector(const Plant& plant, Index projector);
[[nodiscard]] Mask lamphousesOfGroup(const Plant& plant, Index group);
[[nodiscard]] Mask pointsOfGroup(const Plant& plant, Index group);

template<class Predicate>
[[nodiscard]] bool everyPoint(const Plant& plant, Mask points, Predicate predicate)
{
    for (Index point = 0; point < plant.points; ++point) {
        if (has(points, point) && !predicate(point))
            return false;
    }
    return true;
}

/// A personal lock hangs on it, or, where the group has several points, its job lock is on and its key is
/// held in the lock box by at least one personal lock. A point that takes no lock is never locked.
[[nodiscard]] bool isLocked(const Plant& plant, const State& state, Index point);
/// Every point that feeds it stands off, undoubted.
[[nodiscard]] bool isIsolated(const Plant& plant, const State& state, Index lamphouse);
/// Somebody has looked at it in this visit, and again since it was said to be not as it was left.
[[nodiscard]] bool isLookedAt(const State& state, Index lamphouse);
/// Whether its lamp is known to be cold, by more than hearsay.
[[nodiscard]] bool isKnownCold(const Plant& plant, const State& state, Index lamphouse);
/// Housing and guard.
[[nodiscard]] bool isShut(const State& state, Index lamphouse);
[[nodiscard]] bool isZoneEmpty(const Plant& plant, const State& state, Index lamphouse);
/// At least one person is in this zone, and each one there has gear signed for it and an own lock.
[[nodiscard]] bool isGeared(const Plant& plant, const State& state, Index lamphouse);
/// The lamp that somebody holds at this lamphouse, or kNone.
[[nodiscard]] Index lampInHand(const Plant& plant, const State& state, Index lamphouse);
/// In hand, or entered but not clamped.
[[nodiscard]] bool hasLooseLamp(const Plant& plant, const State& state, Index lamphouse);
/// A lamp out of its box with no cover over it: in hand, or in a seat with the guard open.
[[nodiscard]] bool isExposed(const Plant& plant, const State& state, Index lamphouse);
/// Somebody has gear on or stands in a zone, or a lamphouse stands open: nothing is typed now, and no secret
/// is asked.
[[nodiscard]] bool isSomebodyInside(const State& state);
/// A cover of any lamphouse.
[[nodiscard]] bool isSomethingOpen(const Plant& plant, const State& state);
/// Hand-over: every zone empty, everything shut, and the new owner's lock hangs wherever the old one's does.
[[nodiscard]] bool canPassOn(const Plant& plant, const State& state, Index from, Index to);
/// Removal of an absent owner's lock: as for his own, without him.
[[nodiscard]] bool canRemoveLock(const Plant& plant, const State& state, Index owner, Index group);

} // namespace coldarc::machine
