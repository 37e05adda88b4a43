#pragma once

#include "core/visit/sheet_of_visit.h"
#include "ui/photometry/sheet_view.h"

namespace coldarc::ui {

/// How a screen of which nobody said the shape is drawn.
inline constexpr double kUsualAspect = 2.39;

[[nodiscard]] SheetSign signOf(photometry::Outcome outcome);
[[nodiscard]] SheetSign signOf(photometry::Whole whole);

/// The points of the sheet's convention in reading order, as seen from the seats.
[[nodiscard]] QList<SheetPointView> pointViewsOf(const visit::SheetOfSwap& sheet,
                                                 photometry::LuminanceUnit unit, photometry::Place inHand);
[[nodiscard]] QList<VerdictLine> verdictLinesOf(const photometry::SheetVerdict& verdict);
/// Why verdicts are held back, each once, then what the whole sheet is marked with.
[[nodiscard]] QStringList notesOf(const photometry::SheetVerdict& verdict);
/// "not a conformity claim"; empty where every verdict is one, and where nothing is judged.
[[nodiscard]] QString claimOf(const photometry::SheetVerdict& verdict);
[[nodiscard]] XyView xyViewOf(const visit::SheetOfSwap& sheet);
/// "lit 34 min · meter calibrated".
[[nodiscard]] QString conditionsLine(const photometry::Conditions& conditions);
/// Everything that was written down of them, in one line.
[[nodiscard]] QString conditionsText(const photometry::Conditions& conditions);
/// What was said of projector, screen and glass: "9100 lm leave the projector; gain 1.1"; or nothing.
[[nodiscard]] QString lightText(const visit::ScreenConditions& said);
/// The limits of a set that somebody chose: "Light at the centre: at least 15 cd/m²"; or nothing.
[[nodiscard]] QString ownLimitsText(const photometry::ToleranceSet& set);
/// "Top left 36.1 -> 45.2 cd/m², 1.25 times", one for each point that both have.
[[nodiscard]] QStringList changeLinesOf(const photometry::Comparison& comparison,
                                        photometry::LuminanceUnit unit);
[[nodiscard]] QString comparisonWords(const std::optional<photometry::Comparison>& comparison);
/// For a sheet of paper: name and figure of each point, then the verdicts, the conditions and what they are
/// held against; empty without a reading.
[[nodiscard]] QList<QStringList> sheetRows(const visit::SheetOfSwap& sheet);
/// One line for whoever signs: "centre 48.2 cd/m²; within Digital cinema, theatre (2008); not a conformity
/// claim"; empty without a reading.
[[nodiscard]] QString sheetSummary(const visit::SheetOfSwap& sheet);
/// That the current that was said is none for the lamp, and which is: "outside the 40 to 60 A of this lamp
/// type". Empty: it is one, or nobody can tell.
[[nodiscard]] QString currentText(const visit::SheetOfSwap& sheet);

} // namespace coldarc::ui
