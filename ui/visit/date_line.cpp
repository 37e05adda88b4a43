#include "ui/visit/date_line.h"

#include "ui/parts/figures.h"
#include "ui/parts/theme.h"

#include <QEvent>
#include <QPainter>

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kRow = 34;  // px: a line of text and the line of dates below it
constexpr int kLine = 26; // px from the top of a row
constexpr int kTick = 5;  // px to both sides

QString rowText(const DateMark& mark)
{
    return mark.interval.isEmpty() ? u"%1: %2"_s.arg(mark.name, mark.when)
                                   : u"%1: %2, %3"_s.arg(mark.name, mark.when, mark.interval);
}

} // namespace

DateLine::DateLine(QWidget* parent)
    : QWidget(parent)
{
    setObjectName(u"dateLine"_s);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void DateLine::setMarks(const QList<DateMark>& marks)
{
    m_marks = marks;
    QStringList texts;
    for (const DateMark& mark : marks)
        texts.append(rowText(mark));
    setAccessibleName(texts.join(u"; "_s));
    updateGeometry();
    update();
}

QSize DateLine::sizeHint() const
{
    return {420, kRow * static_cast<int>(m_marks.size())};
}

void DateLine::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    update();
}

void DateLine::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Tokens& t = tokensOf(*this);
    const auto at = [&](double place) { return 6 + place * (width() - 12); };
    painter.setFont(fontFor(TextRole::Caption));
    const QFontMetricsF metrics(painter.font());
    for (int i = 0; i < static_cast<int>(m_marks.size()); ++i) {
        const DateMark& mark = m_marks.at(i);
        const int top = kRow * i;
        const int line = top + kLine;
        painter.setPen(QPen(t.edge, 1));
        painter.drawLine(QPointF(at(0), line), QPointF(at(1), line));
        painter.setPen(QPen(t.quiet, 5, Qt::SolidLine, Qt::FlatCap));
        if (mark.to > mark.from)
            painter.drawLine(QPointF(at(mark.from), line), QPointF(at(mark.to), line));
        painter.setPen(QPen(t.text, 2));
        painter.drawLine(QPointF(at(mark.at), line - kTick), QPointF(at(mark.at), line + kTick));
        drawFigures(painter, QPointF(0, top + metrics.ascent()),
                    figureElided(metrics, rowText(mark), width()));
    }
}

} // namespace coldarc::ui
