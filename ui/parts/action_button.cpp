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
    const int arrow = isReady() ? arrowRoom() : 0;
    const int room = std::max(width - 2 * kSidePadding - arrow, 40);
    return figureLines(fontFor(TextRole::Action), text(), room);
}

QSize ActionButton::sizeHint() const
{
    const qreal text = figureAdvance(fontFor(TextRole::Action), this->text());
    const int width = static_cast<int>(std::ceil(text)) + 2 * kSidePadding + arrowRoom() + 2;
    return {std::clamp(width, 240, 420), target()};
}

void ActionButton::setEnterShown(bool isShown)
{
    m_isEnterShown = isShown;
    updateGeometry();
    update();
}

int ActionButton::arrowRoom() const
{
    return m_isEnterShown ? kArrow + kArrowGap : 0;
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
    const qreal whole = widest + (isReady() ? arrowRoom() : 0);
    const QRectF block((width() - whole) / 2, 0, widest, height());
    drawFigureLines(painter, block, Qt::AlignCenter, lines);
    if (isReady() && m_isEnterShown)
        drawEnterArrow(painter, QRectF(block.right() + kArrowGap, height() / 2.0 - 7, kArrow, 15), ink);
}

} // namespace coldarc::ui
