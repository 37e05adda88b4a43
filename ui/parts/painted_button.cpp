#include "ui/parts/painted_button.h"

#include <QEvent>
#include <QFocusEvent>
#include <QKeyEvent>
#include <QPainter>

namespace coldarc::ui {

PaintedButton::PaintedButton(Reach reach, QWidget* parent)
    : QAbstractButton(parent)
    , m_reach(reach)
{
    setFocusPolicy(Qt::StrongFocus);
    setAutoRepeat(false);
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

bool PaintedButton::fits() const
{
    return heightForWidth(width()) <= height();
}

QSize PaintedButton::minimumSizeHint() const
{
    return {target(), target()};
}

void PaintedButton::keyPressEvent(QKeyEvent* event)
{
    if (event->isAutoRepeat()) {
        event->accept();
        return;
    }
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        click();
        return;
    }
    QAbstractButton::keyPressEvent(event);
}

void PaintedButton::keyReleaseEvent(QKeyEvent* event)
{
    if (event->isAutoRepeat()) {
        event->accept();
        return;
    }
    QAbstractButton::keyReleaseEvent(event);
}

void PaintedButton::focusInEvent(QFocusEvent* event)
{
    const Qt::FocusReason reason = event->reason();
    m_ringDue =
        reason == Qt::TabFocusReason || reason == Qt::BacktabFocusReason || reason == Qt::ShortcutFocusReason;
    QAbstractButton::focusInEvent(event);
}

void PaintedButton::changeEvent(QEvent* event)
{
    QAbstractButton::changeEvent(event);
    update();
}

void PaintedButton::enterEvent(QEnterEvent* event)
{
    QAbstractButton::enterEvent(event);
    update();
}

void PaintedButton::leaveEvent(QEvent* event)
{
    QAbstractButton::leaveEvent(event);
    update();
}

void PaintedButton::paintBody(QPainter& painter, const QColor& fill, const QPen& outline,
                              const QColor& ring) const
{
    painter.setRenderHint(QPainter::Antialiasing);
    const qreal half = outline.widthF() / 2;
    const QRectF body = QRectF(rect()).adjusted(half, half, -half, -half);
    if (outline.style() == Qt::SolidLine && fill.alpha() == 255) {
        // Two areas, one in the other: an outline that is stroked costs several times as much.
        painter.setPen(Qt::NoPen);
        painter.setBrush(outline.color());
        painter.drawRoundedRect(rect(), kRadius + half, kRadius + half);
        if (outline.color() != fill) {
            painter.setBrush(fill);
            painter.drawRoundedRect(body.adjusted(half, half, -half, -half), kRadius - half, kRadius - half);
        }
    } else if (outline.style() != Qt::NoPen || fill.alpha() > 0) {
        painter.setPen(outline);
        painter.setBrush(fill);
        painter.drawRoundedRect(body, kRadius, kRadius);
    }
    if (!hasFocus() || !m_ringDue)
        return;
    painter.setPen(QPen(ring, 2));
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(body.adjusted(4, 4, -4, -4), kRadius - 4, kRadius - 4);
}

} // namespace coldarc::ui
