#pragma once

#include "core/visit/decide.h"

#include <QString>
#include <QStringList>

namespace coldarc::ui {

/// One thing that stands in the way, as a sentence that says what opens the way: "Cold: 6 min 41 s left, the
/// fan must keep running." Never a way around Cold, Dead or Geared, since there is none.
/// @param state  as seen at the moment of the refusal: it knows how long waits still run, and who is missing
///               what.
[[nodiscard]] QString wordsOf(const visit::Why& why, const visit::Refusal& refusal,
                              const visit::VisitState& state);

/// All of them, each once, gates first.
[[nodiscard]] QStringList wordsOf(const visit::Refusal& refusal, const visit::VisitState& state);

/// A demand that waits for this act, with the time that is left and the people who miss something.
[[nodiscard]] QString wordsOf(machine::Demand demand, const machine::Act& act,
                              const visit::VisitState& state);

/// The same in a few words, with the time that is left: "Cold, 6:41", "start tried".
[[nodiscard]] QString shortWordsOf(machine::Demand demand, const machine::Act& act,
                                   const visit::VisitState& state);

/// The demands that wait, those of gates first, then in the order of the enumeration.
[[nodiscard]] QList<machine::Demand> inOrder(machine::Unmet unmet);

/// What people of the zone of this lamphouse still miss: "B. Lind: gear, own lock"; "nobody is in the zone".
[[nodiscard]] QString missingInZone(const visit::VisitState& state, machine::Index lamphouse);

/// "6 min 41 s".
[[nodiscard]] QString leftWords(std::chrono::milliseconds left);

} // namespace coldarc::ui
