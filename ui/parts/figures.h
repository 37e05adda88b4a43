#pragma once

#include <QFontMetricsF>
#include <QPainter>
#include <QString>
#include <QStringList>

namespace coldarc::ui {

// Text with tabular figures: each digit stands in a cell as wide as the widest digit of the font, so that a
// running number does not tremble. Qt 6.4 cannot ask a font for its own tabular figures.

// Where a font is at hand, it is given rather than its metrics: what was measured by it is painted for less.

/// Width of one line, in pixels.
[[nodiscard]] qreal figureAdvance(const QFont& font, const QString& line);
[[nodiscard]] qreal figureAdvance(const QFontMetricsF& metrics, const QString& line);

/// Breaks a text at spaces (and at its own line ends) so that no line is wider than `width`; a word that is
/// too long by itself is broken anywhere. At least one line.
[[nodiscard]] QStringList figureLines(const QFont& font, const QString& text, qreal width);
[[nodiscard]] QStringList figureLines(const QFontMetricsF& metrics, const QString& text, qreal width);

/// Draws one line, `from` being the left end of its base line, in the painter's font and pen.
void drawFigures(QPainter& painter, QPointF from, const QString& line);

/// Draws lines inside a rectangle by alignment flags (left, right, centre; top, bottom, centre).
void drawFigureLines(QPainter& painter, const QRectF& inside, Qt::Alignment alignment,
                     const QStringList& lines);

/// Cuts a line with an ellipsis when it is wider than `width`.
[[nodiscard]] QString figureElided(const QFontMetricsF& metrics, const QString& line, qreal width);

} // namespace coldarc::ui
