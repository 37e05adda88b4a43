#include "ui/parts/glyphs.h"

#include "ui/parts/figures.h"
#include "ui/parts/theme.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>

namespace coldarc::ui {

namespace {

QPointF at(const QRectF& inside, qreal x, qreal y)
{
    return {inside.left() + x * inside.width(), inside.top() + y * inside.height()};
}

QPen strokePen(const QColor& colour, qreal width)
{
    return QPen(colour, width, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin);
}

} // namespace

void drawAlertTriangle(QPainter& painter, const QRectF& inside, const QColor& body, const QColor& mark)
{
    const qreal stroke = inside.height() * 0.12;
    painter.setPen(strokePen(body, stroke));
    painter.setBrush(body);
    painter.drawPolygon(QPolygonF({at(inside, 0.5, 0.08), at(inside, 0.95, 0.9), at(inside, 0.05, 0.9)}));
    painter.setPen(strokePen(mark, stroke));
    painter.drawLine(at(inside, 0.5, 0.36), at(inside, 0.5, 0.6));
    painter.drawPoint(at(inside, 0.5, 0.79));
}

void drawTick(QPainter& painter, const QRectF& inside, const QColor& colour)
{
    painter.setPen(strokePen(colour, std::max(1.6, inside.height() * 0.13)));
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(QPolygonF({at(inside, 0.08, 0.55), at(inside, 0.38, 0.85), at(inside, 0.95, 0.18)}));
}

void drawPointer(QPainter& painter, const QRectF& inside, const QColor& colour)
{
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour);
    painter.drawPolygon(QPolygonF({at(inside, 0.15, 0.05), at(inside, 0.95, 0.5), at(inside, 0.15, 0.95)}));
}

void drawFlag(QPainter& painter, const QRectF& inside, const QColor& colour)
{
    painter.setPen(QPen(colour, 1.5, Qt::SolidLine, Qt::RoundCap));
    painter.drawLine(QPointF(inside.left() + 1, inside.top()), QPointF(inside.left() + 1, inside.bottom()));
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour);
    painter.drawRect(QRectF(inside.left() + 1, inside.top(), inside.width() - 1, inside.height() * 0.6));
    painter.setBrush(Qt::NoBrush);
}

void drawRound(QPainter& painter, const QRectF& inside, const QColor& colour)
{
    painter.setPen(QPen(colour, 1.6));
    painter.setBrush(Qt::NoBrush);
    painter.drawEllipse(inside.adjusted(0.8, 0.8, -0.8, -0.8));
}

void drawEnterArrow(QPainter& painter, const QRectF& inside, const QColor& colour)
{
    painter.setPen(strokePen(colour, std::max(1.8, inside.height() * 0.13)));
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(QPolygonF({at(inside, 0.92, 0.12), at(inside, 0.92, 0.62), at(inside, 0.12, 0.62)}));
    painter.drawPolyline(QPolygonF({at(inside, 0.4, 0.34), at(inside, 0.12, 0.62), at(inside, 0.4, 0.9)}));
}

void drawRing(QPainter& painter, const QRectF& inside, qreal thickness, qreal share, const QColor& track,
              const QColor& filled)
{
    const QRectF circle = inside.adjusted(thickness / 2, thickness / 2, -thickness / 2, -thickness / 2);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(track, thickness));
    painter.drawEllipse(circle);
    const qreal part = std::clamp(share, 0.0, 1.0);
    if (part <= 0)
        return;
    painter.setPen(QPen(filled, thickness, Qt::SolidLine, Qt::RoundCap));
    painter.drawArc(circle, 90 * 16, -qRound(part * 360 * 16));
}

void drawPadlock(QPainter& painter, const QRectF& inside, const QColor& colour)
{
    const qreal stroke = std::max(1.5, inside.width() * 0.13);
    painter.setPen(strokePen(colour, stroke));
    painter.setBrush(Qt::NoBrush);
    QPainterPath shackle(at(inside, 0.25, 0.48));
    shackle.lineTo(at(inside, 0.25, 0.32));
    shackle.cubicTo(at(inside, 0.25, 0.0), at(inside, 0.75, 0.0), at(inside, 0.75, 0.32));
    shackle.lineTo(at(inside, 0.75, 0.48));
    painter.drawPath(shackle);
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour);
    painter.drawRoundedRect(QRectF(at(inside, 0.1, 0.46), at(inside, 0.9, 1.0)), 2, 2);
}

qreal keyCapWidth(const QString& key)
{
    return figureAdvance(fontFor(TextRole::Caption), key) + 12;
}

void drawKeyCap(QPainter& painter, QPointF left, const QString& key, const QColor& edge, const QColor& name)
{
    constexpr qreal kHeight = 20;
    const QRectF cap(left.x(), left.y() - kHeight / 2, keyCapWidth(key), kHeight);
    painter.setPen(QPen(edge, 1));
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(cap, 4, 4);
    painter.setFont(fontFor(TextRole::Caption));
    painter.setPen(name);
    drawFigureLines(painter, cap, Qt::AlignCenter, {key});
}

} // namespace coldarc::ui
