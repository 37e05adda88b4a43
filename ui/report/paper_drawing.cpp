#include "ui/report/paper_drawing.h"

#include "ui/parts/quantities.h"
#include "ui/report/paper_flow.h"

#include <QFontMetricsF>
#include <QImage>
#include <QLocale>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr double kThin = 0.5 * kPerPoint;
constexpr double kMiddling = 0.9 * kPerPoint;
constexpr double kStrong = 1.4 * kPerPoint;
constexpr double kDot = 2.2 * kPerPoint;
constexpr double kLabelGap = 3 * kPerPoint;
constexpr int kLightLines = 4;
constexpr int kMostPicturePixels = 900;
constexpr int kQuietZone = 4;
const QColor kGrid(0xcc, 0xcc, 0xcc);
const QColor kPale(0xd8, 0xd8, 0xd8);
const QColor kDark(0x33, 0x33, 0x33);

/// A word kept within `least` and `most`, its middle at `x` where that is possible.
void drawWord(QPainter& painter, const QString& text, double x, double baseline, double least, double most)
{
    const QFontMetricsF metrics(painter.font());
    const QString shown = metrics.elidedText(text, Qt::ElideRight, most - least);
    const double width = metrics.horizontalAdvance(shown);
    painter.setPen(Qt::black);
    painter.drawText(QPointF(std::clamp(x - width / 2, least, std::max(least, most - width)), baseline),
                     shown);
}

/// The area of a chart and how figures become places in it.
struct Plot {
    QRectF area;
    double from = 0;
    double to = 1;
    double least = 0;
    double most = 1;

    [[nodiscard]] QPointF at(const QPointF& value) const
    {
        const double across = to > from ? (value.x() - from) / (to - from) : 0.5;
        const double up = most > least ? (value.y() - least) / (most - least) : 0.5;
        return {area.left() + std::clamp(across, 0.0, 1.0) * area.width(),
                area.bottom() - std::clamp(up, 0.0, 1.0) * area.height()};
    }
};

/// Title above, lights at the left, a frame. @param under  lines of text below the area.
Plot frame(QPainter& painter, const QRectF& place, const QString& title, double least, double most, int under)
{
    painter.setFont(paperFont(PaperRole::Small));
    const QFontMetricsF metrics(painter.font());
    const double line = metrics.height();
    const int digits = most - least < 3 ? 2 : 1;
    const QLocale locale;
    const double labels = metrics.horizontalAdvance(locale.toString(most, 'f', digits)) + kLabelGap;
    drawWord(painter, title, place.left(), place.top() + metrics.ascent(), place.left(), place.right());
    Plot plot;
    plot.area = place.adjusted(labels, 2.4 * line, -kLabelGap, -under * line - kLabelGap);
    plot.least = least;
    plot.most = most;
    for (int index = 0; index < kLightLines; ++index) {
        const double light = least + (most - least) * index / (kLightLines - 1);
        const double y = plot.at({0, light}).y();
        painter.setPen(QPen(kGrid, kThin));
        painter.drawLine(QPointF(plot.area.left(), y), QPointF(plot.area.right(), y));
        const QString text = locale.toString(light, 'f', digits);
        painter.setPen(Qt::black);
        painter.drawText(QPointF(plot.area.left() - kLabelGap - metrics.horizontalAdvance(text),
                                 y + metrics.ascent() / 2 - metrics.descent() / 2),
                         text);
    }
    return plot;
}

void drawDots(QPainter& painter, const Plot& plot, const QList<QPointF>& points)
{
    painter.setPen(Qt::NoPen);
    painter.setBrush(Qt::black);
    for (const QPointF& point : points)
        painter.drawEllipse(plot.at(point), kDot, kDot);
}

void drawCurve(QPainter& painter, const Plot& plot, const QList<QPointF>& points, double pen)
{
    QPolygonF line;
    for (const QPointF& point : points)
        line.append(plot.at(point));
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(Qt::black, pen));
    painter.drawPolyline(line);
}

class Drawer {
public:
    Drawer(QPainter& painter, const QRectF& place)
        : m_painter(painter)
        , m_place(place)
    {
    }

    void operator()(const PaperScan& scan) const
    {
        const ScanChartView& view = scan.view;
        Plot plot = frame(m_painter, m_place, view.title, view.least, view.most, 2);
        const QFontMetricsF metrics(m_painter.font());
        plot.from = view.from;
        plot.to = view.to;
        if (view.peak) {
            const double low = plot.at({view.peak->low, view.least}).x();
            const double high = plot.at({view.peak->high, view.least}).x();
            m_painter.fillRect(QRectF(low, plot.area.top(), std::max(kThin, high - low), plot.area.height()),
                               kPale);
            m_painter.setPen(QPen(Qt::black, kThin, Qt::DashLine));
            const double at = plot.at({view.peak->at, view.least}).x();
            m_painter.drawLine(QPointF(at, plot.area.top()), QPointF(at, plot.area.bottom()));
            drawWord(m_painter, view.peak->text, at, plot.area.top() - kLabelGap, plot.area.left(),
                     plot.area.right());
        }
        drawCurve(m_painter, plot, view.fitted, kMiddling);
        drawDots(m_painter, plot, view.readings);
        m_painter.setPen(QPen(Qt::black, kThin));
        for (const QPointF& point : view.leftOut) {
            const QPointF at = plot.at(point);
            m_painter.drawLine(at + QPointF(-kDot, -kDot), at + QPointF(kDot, kDot));
            m_painter.drawLine(at + QPointF(-kDot, kDot), at + QPointF(kDot, -kDot));
        }
        for (const ChartTick& tick : view.ticks) {
            const double x = plot.at({tick.at, view.least}).x();
            m_painter.setPen(QPen(Qt::black, kThin));
            m_painter.drawLine(QPointF(x, plot.area.bottom()), QPointF(x, plot.area.bottom() + kLabelGap));
            drawWord(m_painter, tick.text, x, plot.area.bottom() + kLabelGap + metrics.ascent(),
                     m_place.left(), m_place.right());
        }
        drawWord(m_painter, view.axisTitle, plot.area.right(), m_place.bottom() - metrics.descent(),
                 m_place.left(), m_place.right());
    }

    void operator()(const PaperTrace& trace) const
    {
        const TraceChartView& view = trace.view;
        Plot plot = frame(m_painter, m_place, {}, view.least, view.most, 1);
        const QFontMetricsF metrics(m_painter.font());
        plot.to = view.minutes;
        double free = m_place.left();
        for (const ChartTick& mark : view.marks) {
            const double x = plot.at({mark.at, view.least}).x();
            m_painter.setPen(QPen(Qt::black, kThin, Qt::DotLine));
            m_painter.drawLine(QPointF(x, plot.area.top()), QPointF(x, plot.area.bottom()));
            const double width = metrics.horizontalAdvance(mark.text);
            if (x < free || x + width > m_place.right())
                continue; // its line stands there; the scans have their names under their own charts
            m_painter.setPen(Qt::black);
            m_painter.drawText(QPointF(x, plot.area.top() - kLabelGap), mark.text);
            free = x + width + kLabelGap;
        }
        drawCurve(m_painter, plot, view.readings, kMiddling);
        drawDots(m_painter, plot, view.readings);
        const double baseline = m_place.bottom() - metrics.descent();
        drawWord(m_painter, view.from, plot.area.left(), baseline, plot.area.left(), plot.area.center().x());
        drawWord(m_painter, view.to, plot.area.right(), baseline, plot.area.center().x(), m_place.right());
    }

    void operator()(const PaperScreen& screen) const
    {
        const double width = std::min(m_place.width(), m_place.height() * screen.aspect);
        QRectF lit(0, 0, width, width / screen.aspect);
        lit.moveCenter(m_place.center());
        m_painter.setPen(QPen(Qt::black, kMiddling));
        m_painter.setBrush(Qt::NoBrush);
        m_painter.drawRect(lit);
        for (const SheetPointView& point : screen.points)
            drawPoint(point, lit);
    }

    void operator()(const PaperTimeLine& line) const
    {
        m_painter.setFont(paperFont(PaperRole::Small));
        const QFontMetricsF metrics(m_painter.font());
        double names = 0;
        for (const PaperTimeLine::Row& row : line.rows)
            names = std::max(names, metrics.horizontalAdvance(row.name));
        names = std::min(names, m_place.width() / 3);
        Plot plot;
        plot.area = m_place.adjusted(names + 2 * kLabelGap, 2.4 * metrics.height(), -kLabelGap, 0);
        plot.to = line.minutes;
        drawMarks(line, plot);
        const double step =
            plot.area.height() / static_cast<double>(std::max<qsizetype>(1, line.rows.size()));
        double top = plot.area.top();
        for (const PaperTimeLine::Row& row : line.rows) {
            const double middle = top + step / 2;
            const QString name = metrics.elidedText(row.name, Qt::ElideRight, names);
            m_painter.setPen(Qt::black);
            m_painter.drawText(QPointF(plot.area.left() - 2 * kLabelGap - metrics.horizontalAdvance(name),
                                       middle + metrics.ascent() / 2 - metrics.descent() / 2),
                               name);
            const double thick = std::min(step * 0.6, 9 * kPerPoint);
            for (const PaperTimeLine::Bar& bar : row.bars) {
                const double left = plot.at({bar.from, 0}).x();
                const double right = std::max(left + kThin, plot.at({bar.until, 0}).x());
                drawBar(QRectF(left, middle - thick / 2, right - left, thick), row.kind);
            }
            top += step;
        }
    }

    void operator()(const PaperPicture& picture) const
    {
        m_painter.setFont(paperFont(PaperRole::Small));
        const QFontMetricsF metrics(m_painter.font());
        QImage image = QImage::fromData(picture.bytes);
        const QRectF room = m_place.adjusted(0, 0, 0, -1.6 * metrics.height());
        if (image.width() > kMostPicturePixels || image.height() > kMostPicturePixels)
            image = image.scaled(kMostPicturePixels, kMostPicturePixels, Qt::KeepAspectRatio,
                                 Qt::SmoothTransformation);
        if (!image.isNull()) {
            const QSizeF size = QSizeF(image.size()).scaled(room.size(), Qt::KeepAspectRatio);
            m_painter.drawImage(QRectF(room.topLeft(), size), image);
        }
        drawWord(m_painter, picture.caption, m_place.left(), m_place.bottom() - metrics.descent(),
                 m_place.left(), m_place.right());
    }

private:
    void drawPoint(const SheetPointView& point, const QRectF& lit) const
    {
        const QFont strong = paperFont(PaperRole::Strong);
        const QFont small = paperFont(PaperRole::Small);
        QString under = point.share.isEmpty() ? point.words : point.share;
        const bool isOut = point.sign == SheetSign::Low || point.sign == SheetSign::High;
        if (isOut && !point.share.isEmpty()) // what is within stands in the table
            under = u"%1, %2"_s.arg(point.share, point.words);
        const double height = QFontMetricsF(strong).height() + QFontMetricsF(small).height();
        const double pad = 4 * kPerPoint;
        const double y = std::clamp(lit.top() + point.down * lit.height(), lit.top() + height / 2 + pad,
                                    lit.bottom() - height / 2 - pad);
        const double x = lit.left() + point.across * lit.width();
        // A third of the width belongs to each column of points.
        const double least = std::max(lit.left() + pad, x - lit.width() / 6);
        const double most = std::min(lit.right() - pad, std::max(x, least) + lit.width() / 3);
        const double room = std::min(lit.width() / 3 - pad, most - least);
        const double begin = std::min(least, lit.right() - pad - room);
        m_painter.setFont(strong);
        drawWord(m_painter, point.value.isEmpty() ? u"\u2013"_s : point.value, x,
                 y - height / 2 + QFontMetricsF(strong).ascent(), begin, begin + room);
        m_painter.setFont(small);
        drawWord(m_painter, point.value.isEmpty() ? point.name : under, x,
                 y + height / 2 - QFontMetricsF(small).descent(), begin, begin + room);
    }

    void drawMarks(const PaperTimeLine& line, const Plot& plot) const
    {
        const QFontMetricsF metrics(m_painter.font());
        for (const ChartTick& tick : line.ticks) {
            const double x = plot.at({tick.at, 0}).x();
            m_painter.setPen(QPen(kGrid, kThin));
            m_painter.drawLine(QPointF(x, plot.area.top()), QPointF(x, plot.area.bottom()));
            drawWord(m_painter, tick.text, x, m_place.top() + metrics.ascent(), m_place.left(),
                     m_place.right());
        }
        double free = plot.area.left();
        for (const PaperTimeLine::Mark& mark : line.marks) {
            const double x = plot.at({mark.at, 0}).x();
            m_painter.setPen(QPen(Qt::black, kThin, Qt::DotLine));
            m_painter.drawLine(QPointF(x, plot.area.top()), QPointF(x, plot.area.bottom()));
            const QString text = u"! %1"_s.arg(mark.text);
            const double width = metrics.horizontalAdvance(text);
            if (x - width / 2 < free || x + width / 2 > plot.area.right())
                continue; // the table of exceptions has its entry
            m_painter.setPen(Qt::black);
            m_painter.drawText(QPointF(x - width / 2, plot.area.top() - metrics.descent()), text);
            free = x + width / 2 + kLabelGap;
        }
    }

    void drawBar(const QRectF& bar, PaperTimeLine::Kind kind) const
    {
        m_painter.setPen(QPen(Qt::black, kThin));
        switch (kind) {
        case PaperTimeLine::Kind::Gate:
            m_painter.fillRect(bar, kDark);
            return;
        case PaperTimeLine::Kind::State:
            m_painter.setBrush(kPale);
            m_painter.drawRect(bar);
            return;
        case PaperTimeLine::Kind::Wait:
            m_painter.setBrush(Qt::white);
            m_painter.drawRect(bar);
            m_painter.save();
            m_painter.setClipRect(bar);
            for (double x = bar.left() - bar.height(); x < bar.right(); x += 3 * kPerPoint)
                m_painter.drawLine(QPointF(x, bar.bottom()), QPointF(x + bar.height(), bar.top()));
            m_painter.restore();
            return;
        }
    }

    QPainter& m_painter;
    QRectF m_place;
};

} // namespace

void draw(QPainter& painter, const QRectF& place, const PaperDrawing& drawing)
{
    painter.setRenderHint(QPainter::Antialiasing);
    std::visit(Drawer(painter, place), drawing);
}

void draw(QPainter& painter, const QRectF& place, const CodeModules& code)
{
    if (code.side <= 0)
        return;
    const double module = std::min(place.width(), place.height()) / (code.side + 2 * kQuietZone);
    QPainterPath path;
    for (int row = 0; row < code.side; ++row) {
        for (int column = 0; column < code.side; ++column) {
            if (code.dark[static_cast<std::size_t>(row * code.side + column)])
                path.addRect(QRectF(place.left() + (column + kQuietZone) * module,
                                    place.top() + (row + kQuietZone) * module, module, module));
        }
    }
    path.setFillRule(Qt::WindingFill);
    painter.fillPath(path, Qt::black);
}

} // namespace coldarc::ui
