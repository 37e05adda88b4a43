#pragma once

#include "ui/report/paper_block.h"

#include <QRectF>

#include <vector>

class QPainter;

namespace coldarc::ui {

/// Draws into a rectangle of the paper, in vectors but for pictures, black on white.
void draw(QPainter& painter, const QRectF& place, const PaperDrawing& drawing);

/// The modules of a matrix code, row by row; a square without its quiet zone. Empty: there is none.
struct CodeModules {
    int side = 0;
    std::vector<bool> dark;
};
/// Draws a code with a quiet zone of four modules, as ISO/IEC 18004 asks of a QR code (from memory).
void draw(QPainter& painter, const QRectF& place, const CodeModules& code);

} // namespace coldarc::ui
