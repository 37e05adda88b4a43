#pragma once

#include <QRectF>

#include <vector>

class QPainter;

namespace coldarc::ui {

/// The bars of the code that sets a scanner up, from the left: true is black. A GS1-128 code: scanners that
/// read lines and those that read areas know it, and it must come with a symbology identifier and a
/// separator.
[[nodiscard]] std::vector<bool> setUpBars();

/// Quiet zone at either side, in modules. Source: ISO/IEC 15417, ten modules, from memory.
inline constexpr int kQuietModules = 10;

/// Black on white whatever the theme, each module the same whole number of the painter's device pixels where
/// there is room for one.
/// @param frame  in the painter's own units; the code takes its whole height and is centred across it.
void paintBars(QPainter& painter, const QRectF& frame, const std::vector<bool>& bars);

} // namespace coldarc::ui
