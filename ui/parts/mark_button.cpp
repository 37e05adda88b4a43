#include "ui/parts/mark_button.h"

#include "ui/parts/figures.h"
#include "ui/parts/glyphs.h"

#include <QPainter>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {

namespace {

constexpr int kPadding = 10;
constexpr int kMark = 22;
constexpr int kMarkGap = 9;

} // namespace

MarkButton::MarkButton(Mark mark, Reach reach, QWidget* parent)
    : PaintedButton(reach, parent)
    , m_mark(mark)
{
    setCheckable(true);
    setCursor(Qt::PointingHandCursor);
}

void MarkButton::setSub(const QString& sub)
{
    m_sub = sub;
    setAccessibleDescription(sub);
    updateGeometry();
}

void MarkButton::setKeyCap(const QString& key)
{
    m_keyCap = key;
    updateGeometry();
}

qreal MarkButton::roomIn(int width) const
{
    return std::max(width - 2 * kPadding - kMark - kMarkGap, 24);
}

QSize MarkButton::sizeHint() const
{
    // The heavier of the two weights, so that a mark does not change the size.
    const qreal text = std::max(figureAdvance(fontFor(TextRole::Strong), this->text()),
                                figureAdvance(fontFor(TextRole::Caption), m_sub));
    const int width =
        static_cast<int>(std::ceil(std::min(text, 260.0))) + 2 * kPadding + kMark + kMarkGap + 2;
    return {std::max(width, target()), heightForWidth(width)};
}

int MarkButton::heightForWidth(int width) const
{
    const QFontMetricsF text(fontFor(TextRole::Strong));
    const QFontMetricsF sub(fontFor(TextRole::Caption));
    const qreal room = roomIn(width);
    qreal height = text.lineSpacing() *
                   static_cast<qreal>(figureLines(fontFor(TextRole::Strong), this->text(), room).size());
    if (!m_sub.isEmpty())
        height += sub.lineSpacing() *
                  static_cast<qreal>(figureLines(fontFor(TextRole::Caption), m_sub, room).size());
    return std::max(target(), static_cast<int>(std::ceil(height)) + 12);
}

void MarkButton::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const Tokens& t = tokens();
    const QColor outline = isChecked() ? t.text : (underMouse() ? t.quiet : t.edge);
    paintBody(painter, isDown() ? t.line : t.panel, QPen(outline, isChecked() ? 2 : 1), t.text);

    paintMark(painter, QRectF(kPadding, height() / 2.0 - kMark / 2.0, kMark, kMark));

    const QFont textFont = fontFor(isChecked() ? TextRole::Strong : TextRole::Small);
    const QFontMetricsF text(textFont);
    const QFontMetricsF sub(fontFor(TextRole::Caption));
    const qreal room = roomIn(width());
    const QStringList lines = figureLines(textFont, this->text(), room);
    const QStringList subLines =
        m_sub.isEmpty() ? QStringList() : figureLines(fontFor(TextRole::Caption), m_sub, room);
    const qreal textHeight = text.lineSpacing() * static_cast<qreal>(lines.size());
    const qreal subHeight = sub.lineSpacing() * static_cast<qreal>(subLines.size());
    const qreal left = kPadding + kMark + kMarkGap;
    const qreal top = (height() - textHeight - subHeight) / 2;
    painter.setPen(t.text);
    painter.setFont(textFont);
    drawFigureLines(painter, QRectF(left, top, room, textHeight), Qt::AlignLeft, lines);
    painter.setPen(t.quiet);
    painter.setFont(fontFor(TextRole::Caption));
    drawFigureLines(painter, QRectF(left, top + textHeight, room, subHeight), Qt::AlignLeft, subLines);
}

void MarkButton::paintMark(QPainter& painter, const QRectF& mark) const
{
    const Tokens& t = tokens();
    painter.setPen(QPen(isChecked() ? t.text : t.edge, 1.6));
    painter.setBrush(isChecked() ? t.text : QColor(Qt::transparent));
    const QRectF outline = mark.adjusted(1, 1, -1, -1);
    if (m_mark == Mark::Round)
        painter.drawEllipse(outline);
    else
        painter.drawRoundedRect(outline, 5, 5);
    if (m_mark == Mark::Square && isChecked())
        drawTick(painter, mark.adjusted(5, 5, -5, -5), t.ground);
    QFont font = fontFor(TextRole::Caption);
    font.setPixelSize(12);
    font.setWeight(QFont::DemiBold);
    painter.setFont(font);
    painter.setPen(isChecked() ? t.ground : t.quiet);
    drawFigureLines(painter, mark, Qt::AlignCenter, {m_keyCap});
}

qreal MarkButton::leastWidth() const
{
    qreal word = 0;
    for (const QString& one : this->text().split(u' '))
        word = std::max(word, figureAdvance(fontFor(TextRole::Strong), one));
    return word + 2 * kPadding + kMark + kMarkGap + 1;
}

} // namespace coldarc::ui
