#include "ui/review/time_line_drawing.h"

#include "ui/parts/figures.h"
#include "ui/parts/glyphs.h"
#include "ui/parts/theme.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr double kPadding = 12;
constexpr double kRow = 18;
constexpr double kThick = 11;
constexpr double kPlace = 24;
constexpr double kTickLine = 18;
constexpr double kMarkLine = 24;
constexpr double kFoot = 30;
constexpr double kCut = 7;
constexpr double kNameGap = 10;
constexpr double kMark = 18;
constexpr double kHatch = 6;
constexpr double kLeastTickGap = 12;

} // namespace

TimeLineDrawing::TimeLineDrawing(QWidget* parent)
    : QWidget(parent)
{
    setObjectName(u"timeLine"_s);
    setFocusPolicy(Qt::StrongFocus);
    setCursor(Qt::SizeHorCursor);
    setAccessibleName(tr("Time line"));
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setSizePolicy(policy);
}

void TimeLineDrawing::setView(const TimeLineView& view)
{
    m_view = view;
    m_names = 0;
    const QFont caption = fontFor(TextRole::Caption);
    for (const TimeLineView::Group& group : view.groups) {
        for (const TimeLineView::Row& row : group.rows)
            m_names = std::max(m_names, figureAdvance(caption, row.name));
    }
    updateGeometry();
    update();
}

void TimeLineDrawing::setMoment(double minutes, const QString& text)
{
    if (minutes == m_at && text == m_text)
        return;
    m_at = minutes;
    m_text = text;
    setAccessibleDescription(text);
    update();
}

bool TimeLineDrawing::hasDays() const
{
    return std::ranges::any_of(m_view.ticks, [](const auto& tick) { return !tick.day.isEmpty(); });
}

double TimeLineDrawing::top() const
{
    return kPadding + kTickLine + (hasDays() ? kTickLine : 0) + kMarkLine;
}

double TimeLineDrawing::bottom() const
{
    double rows = 0;
    for (const TimeLineView::Group& group : m_view.groups)
        rows += kRow * static_cast<double>(group.rows.size()) + (hasPlaces() ? kPlace : 0);
    return top() + rows;
}

double TimeLineDrawing::namesWidth() const
{
    return kPadding + m_names + kNameGap;
}

QSize TimeLineDrawing::sizeHint() const
{
    return {520, static_cast<int>(std::ceil(bottom() + kFoot))};
}

QSize TimeLineDrawing::minimumSizeHint() const
{
    return {320, sizeHint().height()};
}

double TimeLineDrawing::placeOf(double minutes) const
{
    const double from = namesWidth();
    const double room = std::max(1.0, width() - kPadding - from);
    return from + std::clamp(minutes / m_view.minutes, 0.0, 1.0) * room;
}

double TimeLineDrawing::minutesAt(double place) const
{
    const double from = namesWidth();
    const double room = std::max(1.0, width() - kPadding - from);
    return std::clamp((place - from) / room, 0.0, 1.0) * m_view.minutes;
}

bool TimeLineDrawing::fits() const
{
    return height() >= static_cast<int>(bottom() + kFoot) && namesWidth() < width() / 2.0;
}

void TimeLineDrawing::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Tokens& t = tokensOf(*this);
    painter.setPen(QPen(t.line, 1));
    painter.setBrush(t.panel);
    painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), 10, 10);
    paintTicks(painter);
    paintRows(painter);
    paintCuts(painter);
    paintMarks(painter);
    paintMoment(painter);
    if (hasFocus()) {
        painter.setPen(QPen(t.text, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 10, 10);
    }
}

void TimeLineDrawing::paintTicks(QPainter& painter) const
{
    const Tokens& t = tokensOf(*this);
    const QFont caption = fontFor(TextRole::Caption);
    painter.setFont(caption);
    double freeTime = 0;
    double freeDay = 0;
    const double line = kPadding + (hasDays() ? kTickLine : 0);
    for (const TimeLineView::Tick& tick : m_view.ticks) {
        const double x = placeOf(tick.at);
        painter.setPen(QPen(t.line, 1));
        painter.drawLine(QPointF(x, line + kTickLine + 2), QPointF(x, bottom()));
        painter.setPen(t.quiet);
        const auto put = [&](const QString& text, double top, double& free) {
            const double wide = figureAdvance(caption, text);
            const double left =
                std::clamp(x - wide / 2, kPadding, std::max(kPadding, width() - kPadding - wide));
            if (text.isEmpty() || left < free)
                return;
            drawFigureLines(painter, QRectF(left, top, wide, kTickLine), Qt::AlignLeft | Qt::AlignVCenter,
                            {text});
            free = left + wide + kLeastTickGap;
        };
        put(tick.time, line, freeTime);
        put(tick.day, kPadding, freeDay);
    }
}

void TimeLineDrawing::paintRows(QPainter& painter) const
{
    const Tokens& t = tokensOf(*this);
    double y = top();
    for (const TimeLineView::Group& group : m_view.groups) {
        if (hasPlaces()) {
            painter.setFont(fontFor(TextRole::Strong));
            painter.setPen(t.text);
            painter.drawText(QRectF(kPadding, y, width() - 2 * kPadding, kPlace), Qt::AlignVCenter,
                             group.place);
            y += kPlace;
        }
        for (const TimeLineView::Row& row : group.rows) {
            painter.setFont(fontFor(TextRole::Caption));
            painter.setPen(t.quiet);
            drawFigureLines(painter, QRectF(kPadding, y, m_names, kRow), Qt::AlignRight | Qt::AlignVCenter,
                            {row.name});
            for (const TimeLineView::Bar& bar : row.bars) {
                const double left = placeOf(bar.from);
                const double right = std::max(left + 2, placeOf(bar.until));
                paintBar(painter, QRectF(left, y + (kRow - kThick) / 2, right - left, kThick), row.kind);
            }
            y += kRow;
        }
    }
}

/// Two slanted strokes over a strip of the ground: time was left out here.
void TimeLineDrawing::paintCuts(QPainter& painter) const
{
    const Tokens& t = tokensOf(*this);
    for (const TimeLineView::Bar& cut : m_view.cuts) {
        const double middle = (placeOf(cut.from) + placeOf(cut.until)) / 2;
        painter.setPen(Qt::NoPen);
        painter.setBrush(t.panel);
        painter.drawRect(QRectF(middle - kCut / 2, top() - 4, kCut, bottom() - top() + 4));
        painter.setPen(QPen(t.edge, 1.5));
        for (const double x : {middle - kCut / 2, middle + kCut / 2})
            painter.drawLine(QPointF(x - 3, bottom()), QPointF(x + 3, top() - 4));
    }
}

void TimeLineDrawing::paintBar(QPainter& painter, const QRectF& bar, TimeLineView::Kind kind) const
{
    const Tokens& t = tokensOf(*this);
    switch (kind) {
    case TimeLineView::Kind::Gate:
        painter.setPen(Qt::NoPen);
        painter.setBrush(t.quiet);
        painter.drawRoundedRect(bar, 2, 2);
        return;
    case TimeLineView::Kind::State:
        painter.setPen(QPen(t.edge, 1));
        painter.setBrush(t.line);
        painter.drawRoundedRect(bar, 2, 2);
        return;
    case TimeLineView::Kind::Wait:
        painter.setPen(QPen(t.edge, 1));
        painter.setBrush(t.panel);
        painter.drawRoundedRect(bar, 2, 2);
        painter.save();
        painter.setClipRect(bar);
        for (double x = bar.left() - bar.height(); x < bar.right(); x += kHatch)
            painter.drawLine(QPointF(x, bar.bottom()), QPointF(x + bar.height(), bar.top()));
        painter.restore();
        return;
    }
}

void TimeLineDrawing::paintMarks(QPainter& painter) const
{
    const Tokens& t = tokensOf(*this);
    painter.setBrush(Qt::NoBrush);
    for (const double at : m_view.remarks) {
        const double x = placeOf(at);
        painter.setPen(QPen(t.text, 1));
        painter.drawLine(QPointF(x, top() - 4), QPointF(x, bottom()));
        drawFlag(painter, QRectF(x - 1, bottom() - 2, 11, 12), t.text);
    }
    double free = 0;
    for (const TimeLineView::Mark& mark : m_view.marks) {
        const double x = placeOf(mark.at);
        painter.setPen(QPen(t.text, 1.5, Qt::DotLine));
        painter.drawLine(QPointF(x, top() - 4), QPointF(x, bottom()));
        const QRectF ring(x - kMark / 2, top() - kMarkLine + 2, kMark, kMark);
        if (ring.left() < free)
            continue; // one beside it says enough; the line is there
        free = ring.right();
        painter.setPen(QPen(t.text, 1.5));
        painter.setBrush(t.panel);
        painter.drawEllipse(ring.adjusted(1, 1, -1, -1));
        painter.setFont(fontFor(TextRole::Strong));
        painter.drawText(ring, Qt::AlignCenter, u"!"_s);
        painter.setBrush(Qt::NoBrush);
    }
}

void TimeLineDrawing::paintMoment(QPainter& painter) const
{
    if (m_text.isEmpty())
        return;
    const Tokens& t = tokensOf(*this);
    const QFont caption = fontFor(TextRole::Caption);
    const double x = placeOf(m_at);
    painter.setPen(QPen(t.accent, 2));
    painter.drawLine(QPointF(x, top() - 4), QPointF(x, bottom() + 4));
    const double wide = figureAdvance(caption, m_text) + 18;
    const double left = std::clamp(x - wide / 2, 4.0, std::max(4.0, width() - 4 - wide));
    const QRectF pill(left, bottom() + 4, wide, 22);
    painter.setPen(Qt::NoPen);
    painter.setBrush(t.accent);
    painter.drawRoundedRect(pill, 11, 11);
    painter.setFont(caption);
    painter.setPen(t.onAccent);
    drawFigureLines(painter, pill, Qt::AlignCenter, {m_text});
}

void TimeLineDrawing::mousePressEvent(QMouseEvent* event)
{
    if (event->button() == Qt::LeftButton)
        Q_EMIT momentWanted(minutesAt(event->position().x()));
}

void TimeLineDrawing::mouseMoveEvent(QMouseEvent* event)
{
    if (event->buttons().testFlag(Qt::LeftButton))
        Q_EMIT momentWanted(minutesAt(event->position().x()));
}

void TimeLineDrawing::keyPressEvent(QKeyEvent* event)
{
    struct Row {
        int key;
        Step step;
    };
    static constexpr std::array<Row, 6> kKeys{{{Qt::Key_Left, Step::Before},
                                               {Qt::Key_Right, Step::Next},
                                               {Qt::Key_Home, Step::First},
                                               {Qt::Key_End, Step::Last},
                                               {Qt::Key_PageUp, Step::MarkBefore},
                                               {Qt::Key_PageDown, Step::MarkNext}}};
    const auto found = std::ranges::find(kKeys, event->key(), &Row::key);
    if (found == kKeys.end() || event->modifiers() != Qt::NoModifier)
        return QWidget::keyPressEvent(event);
    Q_EMIT stepWanted(found->step);
}

void TimeLineDrawing::focusInEvent(QFocusEvent* event)
{
    QWidget::focusInEvent(event);
    update();
}

void TimeLineDrawing::focusOutEvent(QFocusEvent* event)
{
    QWidget::focusOutEvent(event);
    update();
}

} // namespace coldarc::ui
