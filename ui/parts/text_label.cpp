#include "ui/parts/text_label.h"

#include "ui/parts/figures.h"

#include <QEvent>
#include <QPainter>

#include <cmath>

namespace coldarc::ui {

TextLabel::TextLabel(TextRole role, Ink ink, QWidget* parent)
    : QLabel(parent)
    , m_font(fontFor(role))
    , m_role(role)
    , m_ink(ink)
{
    setTextFormat(Qt::PlainText);
    setMargin(0);
    setOverflow(Overflow::Wraps);
}

void TextLabel::setInk(Ink ink)
{
    m_ink = ink;
    update();
}

void TextLabel::setOverflow(Overflow overflow)
{
    m_overflow = overflow;
    const bool wraps = overflow == Overflow::Wraps;
    QSizePolicy policy(wraps ? QSizePolicy::Preferred : QSizePolicy::Maximum, QSizePolicy::Preferred);
    policy.setHeightForWidth(wraps);
    setSizePolicy(policy);
    updateGeometry();
}

void TextLabel::setLeading(int pixels)
{
    m_leading = pixels;
    updateGeometry();
}

QString TextLabel::shown() const
{
    return m_role == TextRole::Section ? text().toUpper() : text();
}

QStringList TextLabel::linesAt(int width) const
{
    const QString text = shown();
    for (const Broken& one : m_broken) {
        if (one.width == width && one.text == text)
            return one.lines;
    }
    Broken& broken = m_broken.at(m_nextBroken);
    m_nextBroken = (m_nextBroken + 1) % m_broken.size();
    broken = {text, width, figureLines(m_font, text, width)};
    return broken.lines;
}

int TextLabel::heightOf(qsizetype lines) const
{
    const QFontMetricsF metrics(m_font);
    return static_cast<int>(
        std::ceil(static_cast<qreal>(lines) * (metrics.lineSpacing() + m_leading) - m_leading));
}

bool TextLabel::fits() const
{
    if (text().isEmpty() || m_overflow == Overflow::Elides)
        return height() >= heightOf(1) || text().isEmpty();
    return heightForWidth(width()) <= height();
}

bool TextLabel::hasHeightForWidth() const
{
    return m_overflow == Overflow::Wraps;
}

int TextLabel::heightForWidth(int width) const
{
    if (m_overflow == Overflow::Elides)
        return heightOf(1);
    return heightOf(linesAt(width).size());
}

QSize TextLabel::sizeHint() const
{
    qreal widest = 0;
    const QStringList paragraphs = shown().split(u'\n');
    for (const QString& line : paragraphs)
        widest = std::max(widest, figureAdvance(m_font, line));
    return {static_cast<int>(std::ceil(widest)) + 1, heightOf(paragraphs.size())};
}

QSize TextLabel::minimumSizeHint() const
{
    const QSize hint = sizeHint();
    return {std::min(hint.width(), 40), heightOf(1)};
}

void TextLabel::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.setFont(m_font);
    painter.setPen(inkColour(tokensOf(*this), m_ink));
    const QFontMetricsF metrics(m_font);
    const QStringList lines = m_overflow == Overflow::Elides
                                  ? QStringList{figureElided(metrics, shown(), width())}
                                  : linesAt(width());
    const qreal step = metrics.lineSpacing() + m_leading;
    QRectF line(0, 0, width(), metrics.lineSpacing());
    const int spare = height() - heightOf(lines.size());
    if (alignment().testFlag(Qt::AlignVCenter))
        line.moveTop(spare / 2.0);
    else if (alignment().testFlag(Qt::AlignBottom))
        line.moveTop(spare);
    for (const QString& text : lines) {
        drawFigureLines(painter, line, alignment(), {text});
        line.translate(0, step);
    }
}

void TextLabel::changeEvent(QEvent* event)
{
    QLabel::changeEvent(event);
    if (event->type() == QEvent::PaletteChange)
        update();
}

TextLabel* namedLabel(TextRole role, Ink ink, const QString& name, QWidget* parent)
{
    auto* label = new TextLabel(role, ink, parent);
    label->setObjectName(name);
    return label;
}

SectionLabel::SectionLabel(const QString& text, QWidget* parent)
    : TextLabel(TextRole::Section, Ink::Quiet, parent)
{
    setText(text);
}

} // namespace coldarc::ui
