#include "ui/alignment/turn_dial.h"

#include "ui/parts/figures.h"
#include "ui/parts/theme.h"

#include <QPainter>
#include <QPainterPath>
#include <QtMath>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {

namespace {

constexpr qreal kRing = 12;
constexpr qreal kBetween = 20;
constexpr double kMostShown = 0.93; // of a turn: the arrow must not run into its own beginning
constexpr qreal kArrow = 11;

/// From `start` turns clockwise of the top, by `turn`.
void drawTurn(QPainter& painter, const QRectF& circle, double start, double turn, const QColor& ink)
{
    const double shown = std::clamp(turn, -kMostShown, kMostShown);
    painter.setPen(QPen(ink, kRing, Qt::SolidLine, Qt::FlatCap));
    painter.setBrush(Qt::NoBrush);
    painter.drawArc(circle, qRound((90 - 360 * start) * 16), qRound(-360 * shown * 16));

    const double end = qDegreesToRadians(360 * (start + shown) - 90);
    const double way = shown < 0 ? -1 : 1;
    const QPointF out(std::cos(end), std::sin(end));
    const QPointF along(-out.y() * way, out.x() * way);
    const QPointF tip = circle.center() + out * circle.width() / 2;
    QPainterPath arrow;
    arrow.moveTo(tip + out * kArrow);
    arrow.lineTo(tip + along * kArrow * 1.5);
    arrow.lineTo(tip - out * kArrow);
    arrow.closeSubpath();
    painter.fillPath(arrow, ink);
}

} // namespace

TurnDial::TurnDial(QWidget* parent)
    : QWidget(parent)
{
    setFixedSize(sizeHint());
}

void TurnDial::setView(const TurnDialView& view)
{
    if (view == m_view)
        return;
    m_view = view;
    update();
}

void TurnDial::paintEvent(QPaintEvent* /*event*/)
{
    const Tokens& t = tokensOf(*this);
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    QRectF circle = QRectF(rect()).adjusted(14, 14, -14, -14);
    double start = 0;
    for (qsizetype i = 0; i < m_view.turns.size(); ++i) {
        painter.setPen(QPen(t.line, kRing));
        painter.drawEllipse(circle);
        const bool isLast = i + 1 == m_view.turns.size();
        drawTurn(painter, circle, start, m_view.turns.at(i), isLast ? t.text : t.quiet);
        start += std::clamp(m_view.turns.at(i), -kMostShown, kMostShown);
        circle.adjust(kBetween, kBetween, -kBetween, -kBetween);
    }
    painter.setFont(fontFor(TextRole::Strong));
    painter.setPen(t.text);
    drawFigureLines(painter, rect(), Qt::AlignCenter, {m_view.axis});
}

} // namespace coldarc::ui
