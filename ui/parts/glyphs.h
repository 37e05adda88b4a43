#pragma once

#include <QRectF>
#include <QString>

class QColor;
class QPainter;

namespace coldarc::ui {

// Small signs of our own, drawn to fill a rectangle. State is never told by colour alone: each of these
// stands beside a word.

/// A triangle with an exclamation mark, for hazards to people only.
void drawAlertTriangle(QPainter& painter, const QRectF& inside, const QColor& body, const QColor& mark);
void drawTick(QPainter& painter, const QRectF& inside, const QColor& colour);
/// A small triangle that points right: here and now.
void drawPointer(QPainter& painter, const QRectF& inside, const QColor& colour);
/// A flag on its pole: somebody remarked on this.
void drawFlag(QPainter& painter, const QRectF& inside, const QColor& colour);
/// An empty circle: still to come.
void drawRound(QPainter& painter, const QRectF& inside, const QColor& colour);
/// The bent arrow of the Enter key.
void drawEnterArrow(QPainter& painter, const QRectF& inside, const QColor& colour);
/// A key with its name on it, from the middle of its left edge; and how wide that is, in pixels.
void drawKeyCap(QPainter& painter, QPointF left, const QString& key, const QColor& edge, const QColor& name);
[[nodiscard]] qreal keyCapWidth(const QString& key);
/// A ring with its first `share` (0 to 1) filled from the top, clockwise, with round ends.
void drawRing(QPainter& painter, const QRectF& inside, qreal thickness, qreal share, const QColor& track,
              const QColor& filled);
void drawPadlock(QPainter& painter, const QRectF& inside, const QColor& colour);

} // namespace coldarc::ui
