#include "ui/parts/action_button.h"

#include "ui/parts/figures.h"
#include "ui/parts/glyphs.h"

#include <QPainter>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kSidePadding = 24;
constexpr int kArrow = 18;
constexpr int kArrowGap = 14;

} // namespace

ActionButton::ActionButton(const Clock& clock, QWidget* parent)
    : PaintedButton(Reach::Glove, parent)
    , m_guard(clock)
{
    setObjectName(u"action"_s);
    connect(this, &QAbstractButton::clicked, this, [this] {
        if (takesPress() && m_guard.takesPress())
            Q_EMIT done();
    });
}

void ActionButton::setView(const ActionView& view)
{
    if (view == m_view)
        return;
    if (view.stepKey != m_view.stepKey)
        m_guard.shown();
    m_view = view;
    setText(isReady() ? view.text : view.waits);
    setAccessibleName(text());
    setCursor(takesPress() ? Qt::PointingHandCursor : Qt::ArrowCursor);
    updateGeometry();
    update();
}

QStringList ActionButton::linesFor(int width) const
{
    const int key = isReady() ? keyRoom() : 0;
    const int room = std::max(width - 2 * kSidePadding - key, 40);
    return figureLines(fontFor(TextRole::Action), text(), room);
}

QSize ActionButton::sizeHint() const
{
    const qreal text = figureAdvance(fontFor(TextRole::Action), this->text());
    const int width = static_cast<int>(std::ceil(text)) + 2 * kSidePadding + keyRoom() + 2;
    return {std::clamp(width, 240, 420), target()};
}

void ActionButton::setKeyCap(const QString& key)
{
    m_keyCap = key;
    updateGeometry();
    update();
}

int ActionButton::keyRoom() const
{
    return kArrowGap + (m_keyCap.isEmpty() ? kArrow : static_cast<int>(std::ceil(keyCapWidth(m_keyCap))));
}

int ActionButton::heightForWidth(int width) const
{
    const qreal line = QFontMetricsF(fontFor(TextRole::Action)).lineSpacing();
    const auto lines = static_cast<qreal>(linesFor(width).size());
    return std::max(target(), static_cast<int>(std::ceil(line * lines)) + 20);
}

void ActionButton::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const Tokens& t = tokens();
    if (isReady()) {
        const QColor fill = isDown() ? t.accent.darker(112) : t.accent;
        paintBody(painter, fill, QPen(fill, 1), t.onAccent);
    } else {
        QPen outline(t.edge, 1.5);
        outline.setDashPattern({4, 3});
        paintBody(painter, Qt::transparent, outline, t.text);
    }
    const QColor ink = isReady() ? t.onAccent : t.quiet;
    painter.setFont(fontFor(TextRole::Action));
    painter.setPen(ink);
    const QStringList lines = linesFor(width());
    qreal widest = 0;
    for (const QString& line : lines)
        widest = std::max(widest, figureAdvance(painter.font(), line));
    const qreal whole = widest + (isReady() ? keyRoom() : 0);
    const QRectF block((width() - whole) / 2, 0, widest, height());
    drawFigureLines(painter, block, Qt::AlignCenter, lines);
    const qreal after = block.right() + kArrowGap;
    if (isReady() && m_keyCap.isEmpty())
        drawEnterArrow(painter, QRectF(after, height() / 2.0 - 7, kArrow, 15), ink);
    else if (isReady())
        drawKeyCap(painter, QPointF(after, height() / 2.0), m_keyCap, ink, ink);
}

} // namespace coldarc::ui
