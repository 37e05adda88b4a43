#pragma once

#include "core/alignment/light_run.h"
#include "core/alignment/plan.h"
#include "core/catalogue/projector_model.h"
#include "core/photometry/typed.h"
#include "core/visit/light_of_visit.h"

#include <QList>
#include <QString>
#include <QStringList>

namespace coldarc::ui {

/// "Across".
[[nodiscard]] QString nameOf(catalogue::Axis axis);

/// "an eighth of a turn", "one and a quarter turns". Pre: more than nothing.
[[nodiscard]] QString turnText(alignment::Eighths turn);
/// A place of a knob: "0", "+1/4", "\u22121 1/2", in turns.
[[nodiscard]] QString knobText(alignment::Eighths place);
/// The step of a search: "1/4 turn", "1 1/2 turns".
[[nodiscard]] QString stepText(alignment::Eighths step);
/// What the hand does at one knob: "clockwise by half a turn", "anticlockwise by one turn, then clockwise by
/// half a turn".
[[nodiscard]] QString moveText(const alignment::Move& move, catalogue::Sense forward);

/// A light as the meter shows it, in the person's locale.
[[nodiscard]] QString lightText(double light);
/// A share as a part of a hundred with one decimal: "1.4 %".
[[nodiscard]] QString shareText(double share);
/// What is left to win, as a bound that stays one: "1.4 %".
[[nodiscard]] QString boundText(double left);
/// Why nothing is said of what is left to win, or why it is not enough. @param setup  what the run is held
/// to.
[[nodiscard]] QString notYetText(alignment::NotYet why, const alignment::RunSetup& setup);

/// The same of a search that was ended with a knob off the place where the last whole cycle set it.
[[nodiscard]] QString endedText();

/// A light run in a report, a row each: what it is about, and what is said. None without a reading.
[[nodiscard]] QList<QStringList> rowsOf(const visit::LightOfSwap& light);

/// Why a number cannot be a reading. @param typed  what stands in the box.
[[nodiscard]] QString faultText(photometry::TypedFault fault, const QString& typed);
/// What is asked before it is taken; empty when there is nothing to ask.
[[nodiscard]] QString doubtText(alignment::ReadingDoubt doubt, double typed, double before);
/// The same about the first reading.
[[nodiscard]] QString firstDoubtText(photometry::Doubt doubt, double typed,
                                     const visit::ExpectedLight& expected);

} // namespace coldarc::ui
