#include "ui/parts/plain_button.h"

#include "ui/parts/figures.h"
#include "ui/parts/glyphs.h"

#include <QPainter>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {

namespace {

constexpr int kSidePadding = 18;
constexpr qreal kLineGap = 3;

} // namespace

PlainButton::PlainButton(const QString& text, Reach reach, Weight weight, QWidget* parent)
    : PaintedButton(reach, parent)
    , m_weight(weight)
{
    setText(text);
    setAccessibleName(text);
    setCursor(Qt::PointingHandCursor);
}

void PlainButton::setSub(const QString& sub)
{
    if (sub == m_sub)
        return;
    m_sub = sub;
    setAccessibleDescription(sub);
    updateGeometry();
    update();
}

void PlainButton::setKeyCap(const QString& key)
{
    m_keyCap = key;
    updateGeometry();
    update();
}

QFont PlainButton::nameFont() const
{
    QFont font = fontFor(m_weight == Weight::Strong ? TextRole::Heading : TextRole::Small);
    if (m_weight == Weight::Strong) {
        font.setWeight(QFont::Bold);
        font.setLetterSpacing(QFont::AbsoluteSpacing, 0.8);
    }
    return font;
}

qreal PlainButton::roomIn(int width) const
{
    return std::max(width - 2 * kSidePadding - (m_keyCap.isEmpty() ? 0 : keyCapWidth(m_keyCap) + 12), 30.0);
}

QSize PlainButton::sizeHint() const
{
    const qreal name = figureAdvance(nameFont(), text());
    const qreal sub = std::min(figureAdvance(fontFor(TextRole::Caption), m_sub), 240.0);
    const qreal cap = m_keyCap.isEmpty() ? 0 : keyCapWidth(m_keyCap) + 12;
    const int width = static_cast<int>(std::ceil(std::max(name, sub) + cap)) + 2 * kSidePadding + 2;
    return {std::max(width, target()), heightForWidth(width)};
}

QSize PlainButton::minimumSizeHint() const
{
    qreal widest = 0;
    for (const QString& word : text().split(u' '))
        widest = std::max(widest, figureAdvance(nameFont(), word));
    for (const QString& word : m_sub.split(u' '))
        widest = std::max(widest, figureAdvance(fontFor(TextRole::Caption), word));
    const qreal cap = m_keyCap.isEmpty() ? 0 : keyCapWidth(m_keyCap) + 12;
    return {std::max(static_cast<int>(std::ceil(widest + cap)) + 2 * kSidePadding, target()), target()};
}

int PlainButton::heightForWidth(int width) const
{
    const qreal room = roomIn(width);
    const QFontMetricsF name(nameFont());
    const QFontMetricsF sub(fontFor(TextRole::Caption));
    qreal height = name.lineSpacing() * static_cast<qreal>(figureLines(nameFont(), text(), room).size());
    if (!m_sub.isEmpty())
        height +=
            kLineGap + sub.lineSpacing() *
                           static_cast<qreal>(figureLines(fontFor(TextRole::Caption), m_sub, room).size());
    return std::max(target(), static_cast<int>(std::ceil(height)) + 16);
}

void PlainButton::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const Tokens& t = tokens();
    const bool strong = m_weight == Weight::Strong;
    QPen outline(strong ? t.text : (underMouse() ? t.edge : t.line), strong ? 2 : 1);
    if (!isEnabled())
        outline.setStyle(Qt::DashLine);
    const QColor fill = isDown() ? t.line : (strong || !isEnabled() ? t.ground : t.panel);
    paintBody(painter, fill, outline, t.text);

    const qreal room = roomIn(width());
    const QFontMetricsF name(nameFont());
    const QFontMetricsF sub(fontFor(TextRole::Caption));
    const QStringList nameLines = figureLines(nameFont(), text(), room);
    const QStringList subLines =
        m_sub.isEmpty() ? QStringList() : figureLines(fontFor(TextRole::Caption), m_sub, room);
    const qreal nameHeight = name.lineSpacing() * static_cast<qreal>(nameLines.size());
    const qreal subHeight = sub.lineSpacing() * static_cast<qreal>(subLines.size());
    const qreal gap = subLines.isEmpty() ? 0 : kLineGap;
    const qreal top = (height() - nameHeight - gap - subHeight) / 2;

    painter.setFont(nameFont());
    painter.setPen(isEnabled() ? t.text : t.faint);
    drawFigureLines(painter, QRectF(kSidePadding, top, room, nameHeight), Qt::AlignHCenter, nameLines);
    painter.setFont(fontFor(TextRole::Caption));
    painter.setPen(t.quiet);
    drawFigureLines(painter, QRectF(kSidePadding, top + nameHeight + gap, room, subHeight), Qt::AlignHCenter,
                    subLines);
    if (m_keyCap.isEmpty())
        return;
    drawKeyCap(painter, QPointF(width() - kSidePadding - keyCapWidth(m_keyCap), height() / 2.0), m_keyCap,
               t.edge, t.quiet);
}

PlainButton* quietButton(const QString& text, const QString& name, QWidget* parent)
{
    auto* button = new PlainButton(text, Reach::Hand, PlainButton::Weight::Quiet, parent);
    button->setObjectName(name);
    return button;
}

} // namespace coldarc::ui
