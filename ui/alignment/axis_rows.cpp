#include "ui/alignment/axis_rows.h"

#include "ui/parts/figures.h"
#include "ui/parts/theme.h"

#include <QPainter>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kRow = 58;
constexpr int kName = 12;
constexpr int kState = 86;
constexpr int kBar = 4;

} // namespace

AxisRows::AxisRows(QWidget* parent)
    : QWidget(parent)
{
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

QSize AxisRows::sizeHint() const
{
    return {210, static_cast<int>(m_rows.size()) * kRow};
}

void AxisRows::setRows(const QList<LightAxisRow>& rows)
{
    if (rows == m_rows)
        return;
    const bool isOtherHeight = rows.size() != m_rows.size();
    m_rows = rows;
    QStringList all;
    for (const LightAxisRow& row : rows)
        all.append(u"%1: %2, %3"_s.arg(row.name, row.state, row.sub));
    setAccessibleName(all.join(u"; "_s));
    setVisible(!rows.isEmpty());
    if (isOtherHeight)
        updateGeometry();
    update();
}

void AxisRows::paintEvent(QPaintEvent* /*event*/)
{
    const Tokens& t = tokensOf(*this);
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    for (qsizetype i = 0; i < m_rows.size(); ++i) {
        const LightAxisRow& row = m_rows.at(i);
        const QRectF box(0.5, static_cast<qreal>(i) * kRow + 2.5, width() - 1, kRow - 5);
        const bool isNow = row.stand == LightAxisRow::Stand::Now;
        if (isNow) {
            painter.setPen(QPen(t.line, 1));
            painter.setBrush(t.panel);
            painter.drawRoundedRect(box, 9, 9);
            painter.fillRect(QRectF(box.left(), box.top() + 8, kBar, box.height() - 16), t.text);
        }
        const QColor ink = row.stand == LightAxisRow::Stand::Ahead ? t.quiet : t.text;
        const auto line = [&](TextRole role, qreal left, qreal base, const QString& text,
                              const QColor& colour) {
            painter.setFont(fontFor(role));
            painter.setPen(colour);
            const QFontMetricsF metrics(painter.font());
            drawFigures(painter, {left, base}, figureElided(metrics, text, box.right() - left - 8));
        };
        line(TextRole::Strong, kName, box.top() + 31, row.name, ink);
        line(TextRole::Strong, kState, box.top() + 22, row.state, ink);
        line(TextRole::Caption, kState, box.top() + 42, row.sub, t.quiet);
    }
}

} // namespace coldarc::ui
