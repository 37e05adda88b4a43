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
    /// Wrong lamps by the first thing that showed them, by its cause and source.
    QMap<std::pair<int, int>, int> caughtBy;
};

/// Plays visits by chance. The generator knows which lamp is in the seat and may corrupt every source: the
/// box's label torn, misread or another lamp's; the paper missing, misread or of the sister type; the marking
/// worn or misread; the entry typed off the plan, off the box or off the marking, with slips. The engineer
/// reads what differs a second time, lets every serial pass that can be passed, and chooses between sisters
/// where that is asked, now and then wrongly. All lamps are invented; how often each happens is our own
/// choice and no measured rate.
[[nodiscard]] Tally playWrongLamps(const QList<catalogue::LampType>& lampTypes, int visits, unsigned seed);

} // namespace coldarc::test
