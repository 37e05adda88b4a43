#include "ui/parts/wait_ring.h"

#include "ui/parts/figures.h"
#include "ui/parts/glyphs.h"
#include "ui/parts/theme.h"

#include <QEvent>
#include <QPainter>

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr qreal kThickness = 14;
constexpr qreal kUsualSide = 226;

} // namespace

WaitRing::WaitRing(QWidget* parent)
    : QWidget(parent)
{
    setObjectName(u"waitRing"_s);
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

void WaitRing::setView(const WaitView& view)
{
    if (view == m_view)
        return;
    m_view = view;
    setAccessibleName(u"%1, %2"_s.arg(view.number, view.sub));
    update();
}

WaitRing::Layout WaitRing::arranged() const
{
    Layout layout;
    const qreal side = std::min(width(), height());
    layout.ring = QRectF((width() - side) / 2, (height() - side) / 2, side, side);
    const qreal room = side - 2 * kThickness - 28;
    layout.numberFont = fontFor(TextRole::Number);
    layout.numberFont.setPixelSize(static_cast<int>(layout.numberFont.pixelSize() * side / kUsualSide));
    // A wait of more than an hour has two more figures: the number gives way, the ring does not.
    while (figureAdvance(layout.numberFont, m_view.number) > room && layout.numberFont.pixelSize() > 20)
        layout.numberFont.setPixelSize(layout.numberFont.pixelSize() - 2);
    const QFontMetricsF number(layout.numberFont);
    const QFontMetricsF sub(fontFor(TextRole::Caption));
    layout.subLines = figureLines(sub, m_view.sub, room);
    const qreal centre = layout.ring.center().y();
    layout.number =
        QRectF(layout.ring.left(), centre - number.lineSpacing() / 2 - 12, side, number.lineSpacing());
    layout.sub = QRectF(layout.ring.center().x() - room / 2, layout.number.bottom() - 2, room,
                        sub.lineSpacing() * static_cast<qreal>(layout.subLines.size()));
    return layout;
}

bool WaitRing::fits() const
{
    const Layout layout = arranged();
    return layout.subLines.size() <= 2 &&
           figureAdvance(layout.numberFont, m_view.number) <= layout.ring.width() - 2 * kThickness;
}

void WaitRing::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Tokens& t = tokensOf(*this);
    const Layout layout = arranged();
    drawRing(painter, layout.ring, kThickness, m_view.share, t.line, t.accent);
    painter.setPen(t.text);
    painter.setFont(layout.numberFont);
    drawFigureLines(painter, layout.number, Qt::AlignCenter, {m_view.number});
    painter.setPen(t.quiet);
    painter.setFont(fontFor(TextRole::Caption));
    drawFigureLines(painter, layout.sub, Qt::AlignHCenter | Qt::AlignTop, layout.subLines);
}

void WaitRing::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    update();
}

} // namespace coldarc::ui
