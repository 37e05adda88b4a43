#include "ui/photometry/screen_drawing.h"

#include "ui/parts/figures.h"
#include "ui/parts/glyphs.h"
#include "ui/parts/reach.h"
#include "ui/parts/theme.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr qreal kRadius = 12;
constexpr qreal kGap = 8;
constexpr qreal kMargin = 6;
constexpr qreal kReach = 60; // px from a point that still mean it

QPen strong(const QColor& colour, qreal width)
{
    return QPen(colour, width, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin);
}

void drawArrow(QPainter& painter, const QRectF& inside, bool isUp, const QColor& colour)
{
    painter.setPen(strong(colour, 2.2));
    const qreal middle = inside.center().x();
    const qreal tip = isUp ? inside.top() : inside.bottom();
    const qreal tail = isUp ? inside.bottom() : inside.top();
    const qreal barb = inside.height() * 0.42 * (isUp ? 1 : -1);
    painter.drawLine(QPointF(middle, tail), QPointF(middle, tip));
    painter.drawLine(QPointF(middle, tip), QPointF(inside.left(), tip + barb));
    painter.drawLine(QPointF(middle, tip), QPointF(inside.right(), tip + barb));
}

} // namespace

void drawSheetSign(QPainter& painter, const QRectF& inside, SheetSign sign, const QColor& colour)
{
    switch (sign) {
    case SheetSign::Open:
        return drawRound(painter, inside, colour);
    case SheetSign::Within:
        return drawTick(painter, inside, colour);
    case SheetSign::Low:
    case SheetSign::High:
        return drawArrow(painter, inside.adjusted(1, 0, -1, 0), sign == SheetSign::High, colour);
    case SheetSign::NoLimit:
        painter.setPen(strong(colour, 2.2));
        painter.drawLine(QPointF(inside.left(), inside.center().y()),
                         QPointF(inside.right(), inside.center().y()));
        return;
    case SheetSign::Outside:
        painter.setPen(strong(colour, 2.2));
        painter.drawLine(inside.topLeft(), inside.bottomRight());
        painter.drawLine(inside.topRight(), inside.bottomLeft());
        return;
    case SheetSign::HeldBack:
        painter.setPen(strong(colour, 2.6));
        for (const qreal x : {inside.left() + inside.width() * 0.3, inside.right() - inside.width() * 0.3})
            painter.drawLine(QPointF(x, inside.top()), QPointF(x, inside.bottom()));
        return;
    }
}

ScreenDrawing::ScreenDrawing(QWidget* parent)
    : QWidget(parent)
{
    setObjectName(u"screenDrawing"_s);
    setFocusPolicy(Qt::StrongFocus);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
}

QSize ScreenDrawing::sizeHint() const
{
    return {760, 330};
}

QSize ScreenDrawing::minimumSizeHint() const
{
    return {420, 210};
}

void ScreenDrawing::setView(const SheetView& view)
{
    m_aspect = view.aspect;
    m_points = view.points;
    QStringList said;
    for (const SheetPointView& point : m_points) {
        if (point.isInHand)
            setAccessibleDescription(u"%1: %2"_s.arg(point.name, linesOf(point).join(u", "_s)));
        said.append(u"%1 %2"_s.arg(point.name, linesOf(point).join(u", "_s)));
    }
    setAccessibleName(tr("The screen: %1").arg(said.join(u"; "_s)));
    update();
}

QRectF ScreenDrawing::screen() const
{
    const QRectF room = QRectF(rect()).adjusted(kMargin, kMargin, -kMargin, -kMargin);
    const qreal width = std::min(room.width(), room.height() * m_aspect);
    const QSizeF size(width, width / m_aspect);
    return {room.center() - QPointF(size.width() / 2, size.height() / 2), size};
}

QPointF ScreenDrawing::at(const SheetPointView& point) const
{
    const QRectF lit = screen();
    const QPointF place(lit.left() + point.across * lit.width(), lit.top() + point.down * lit.height());
    // On a small drawing the outer points keep clear of the edge.
    const qreal clear = kRadius + 6;
    return {std::clamp(place.x(), lit.left() + clear, lit.right() - clear),
            std::clamp(place.y(), lit.top() + clear, lit.bottom() - clear)};
}

QPointF ScreenDrawing::placeOf(const QString& id) const
{
    const auto point = std::find_if(m_points.begin(), m_points.end(),
                                    [&](const SheetPointView& one) { return one.id == id; });
    return point == m_points.end() ? QPointF(-1, -1) : at(*point);
}

/// Value, share, word; a point without a reading says its name.
QStringList ScreenDrawing::linesOf(const SheetPointView& point)
{
    if (point.value.isEmpty())
        return {point.name};
    QStringList lines{point.share.isEmpty() ? point.value : u"%1\u2002%2"_s.arg(point.value, point.share)};
    if (!point.words.isEmpty())
        lines.append(point.words);
    return lines;
}

/// Beside the point, towards the middle of the screen; under it in the middle column.
QRectF ScreenDrawing::wordsOf(const SheetPointView& point) const
{
    const QFontMetricsF value(fontFor(TextRole::Strong));
    const QFontMetricsF word(fontFor(TextRole::Caption));
    const QStringList lines = linesOf(point);
    qreal width = figureAdvance(value, lines.first());
    qreal height = value.height();
    for (const QString& line : lines.mid(1)) {
        width = std::max(width, figureAdvance(word, line));
        height += word.height();
    }
    const QPointF middle = at(point);
    const bool isMiddle = std::abs(point.across - 0.5) < 0.1;
    if (isMiddle) {
        const qreal top =
            point.down > 0.7 ? middle.y() - kRadius - kGap / 2 - height : middle.y() + kRadius + kGap / 2;
        return {middle.x() - width / 2, top, width, height};
    }
    const qreal left = point.across < 0.5 ? middle.x() + kRadius + kGap : middle.x() - kRadius - kGap - width;
    const QRectF lit = screen();
    const qreal top = std::clamp(middle.y() - height / 2, lit.top() + 4, lit.bottom() - 4 - height);
    return {left, top, width, height};
}

bool ScreenDrawing::fits() const
{
    const QRectF lit = screen();
    for (qsizetype i = 0; i < m_points.size(); ++i) {
        const QRectF words = wordsOf(m_points.at(i));
        if (!lit.contains(words))
            return false;
        for (qsizetype k = 0; k < m_points.size(); ++k) {
            const QPointF other = at(m_points.at(k));
            const QRectF circle(other - QPointF(kRadius, kRadius), QSizeF(2 * kRadius, 2 * kRadius));
            if (circle.intersects(words) || (k != i && wordsOf(m_points.at(k)).intersects(words)))
                return false;
        }
    }
    return true;
}

void ScreenDrawing::paintPoint(QPainter& painter, const SheetPointView& point) const
{
    const Tokens& t = tokensOf(*this);
    const QPointF middle = at(point);
    const QColor ink = point.value.isEmpty() && !point.isNeeded ? t.faint : t.text;
    painter.setBrush(point.isInHand ? t.accent : t.ground);
    painter.setPen(
        QPen(point.isInHand ? t.accent : (point.isNeeded ? t.text : t.edge), point.isNeeded ? 2 : 1.4));
    painter.drawEllipse(middle, kRadius, kRadius);
    if (point.isInHand) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(t.accent, 1.6));
        painter.drawEllipse(middle, kRadius + 4, kRadius + 4);
    }
    const QRectF glyph(middle - QPointF(6, 6), QSizeF(12, 12));
    if (point.sign != SheetSign::Open)
        drawSheetSign(painter, glyph, point.sign, point.isInHand ? t.onAccent : t.text);

    const QRectF words = wordsOf(point);
    const QStringList lines = linesOf(point);
    const bool isMiddle = std::abs(point.across - 0.5) < 0.1;
    const Qt::Alignment side = isMiddle             ? Qt::AlignHCenter
                               : point.across < 0.5 ? Qt::AlignLeft
                                                    : Qt::AlignRight;
    painter.setFont(fontFor(TextRole::Strong));
    painter.setPen(ink);
    const QFontMetricsF value(painter.font());
    drawFigureLines(painter, QRectF(words.topLeft(), QSizeF(words.width(), value.height())),
                    side | Qt::AlignTop, {lines.first()});
    if (lines.size() < 2)
        return;
    painter.setFont(fontFor(TextRole::Caption));
    painter.setPen(t.quiet);
    drawFigureLines(painter, words.adjusted(0, value.height(), 0, 0), side | Qt::AlignTop, lines.mid(1));
}

void ScreenDrawing::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Tokens& t = tokensOf(*this);
    painter.setBrush(t.panel);
    painter.setPen(QPen(hasFocus() ? t.text : t.edge, hasFocus() ? 2 : 1.2));
    painter.drawRoundedRect(screen(), 4, 4);
    for (const SheetPointView& point : m_points)
        paintPoint(painter, point);
}

void ScreenDrawing::mousePressEvent(QMouseEvent* event)
{
    const SheetPointView* nearest = nullptr;
    qreal best = kReach;
    for (const SheetPointView& point : m_points) {
        const QPointF off = at(point) - event->position();
        const qreal away = wordsOf(point).contains(event->position()) ? 0 : std::hypot(off.x(), off.y());
        if (away < best) {
            best = away;
            nearest = &point;
        }
    }
    if (nearest)
        Q_EMIT pointChosen(nearest->id);
}

void ScreenDrawing::keyPressEvent(QKeyEvent* event)
{
    switch (event->key()) {
    case Qt::Key_Left:
    case Qt::Key_Right:
    case Qt::Key_Up:
    case Qt::Key_Down:
        return Q_EMIT moved(static_cast<Qt::Key>(event->key()));
    default:
        break;
    }
    const QString text = event->text();
    const bool isFigure =
        text.size() == 1 && (text.front().isDigit() || text.front() == u'.' || text.front() == u',');
    if (isFigure && !event->isAutoRepeat())
        return Q_EMIT typed(text);
    QWidget::keyPressEvent(event);
}

void ScreenDrawing::focusInEvent(QFocusEvent* event)
{
    QWidget::focusInEvent(event);
    update();
}

void ScreenDrawing::focusOutEvent(QFocusEvent* event)
{
    QWidget::focusOutEvent(event);
    update();
}

} // namespace coldarc::ui
