#pragma once

#include "core/label/agreement.h"

#include <QList>
#include <QMap>

namespace coldarc::test {

/// What became of many visits whose lamps and labels are known.
struct Tally {
    int visits = 0;
    int wrong = 0;       ///< the lamp in the seat is not of the type that was planned
    int wrongPassed = 0; ///< matched, and the current range of the lamp differs from that of the entry
    int wrongPassedWithoutMarking = 0; ///< the same if only the closed box were looked at
    int rightPassed = 0;
    int rightHeld = 0; ///< a right lamp that could not be matched: its labels or slips stood in the way
    /// Wrong lamps by the first thing that Matched waited for and that no reason lets pass, by its cause and
    /// source. That may be a slip of the hand too.
    QMap<std::pair<int, int>, int> caughtBy;
};

/// Plays visits by chance. The generator knows which lamp is in the seat and may corrupt every source: the
/// box's label torn, misread or another lamp's; the paper's type missing or the sister's, or all of it
/// misread; the marking worn or misread; the type of the entry taken off the plan, the box or the marking,
/// its serial off the box or the marking, with slips. The engineer reads every source that Matched waits for
/// a second time, lets every serial pass that can be passed, and chooses between sisters where that is asked,
/// now and then wrongly. All lamps are invented; how often each happens is our own choice and no measured
/// rate.
[[nodiscard]] Tally playWrongLamps(const QList<catalogue::LampType>& lampTypes, int visits, unsigned seed);

} // namespace coldarc::test
