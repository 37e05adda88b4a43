#include "ui/alignment/light_chart.h"

#include "ui/parts/figures.h"
#include "ui/parts/theme.h"

#include <QCategoryAxis>
#include <QChart>
#include <QChartView>
#include <QEvent>
#include <QGraphicsLayout>
#include <QLineSeries>
#include <QScatterSeries>
#include <QVBoxLayout>
#include <QValueAxis>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr qreal kDot = 10;
constexpr qreal kCross = 5;
constexpr int kLightTicks = 4;
constexpr int kLeftMargin = 62; // both charts, so that their lights stand under one another
constexpr int kTextGap = 6;

void fillWidget(QWidget* around, QWidget* inside)
{
    auto* layout = new QVBoxLayout(around);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(inside);
}

/// A chart without anything of its own: no legend, no ground, no motion, nothing to click.
class BareChart : public QChartView {
public:
    explicit BareChart(QWidget* parent)
        : QChartView(new QChart, parent)
    {
        setFrameShape(QFrame::NoFrame);
        setRenderHint(QPainter::Antialiasing);
        setBackgroundBrush(Qt::NoBrush);
        setStyleSheet(u"background: transparent"_s);
        setFocusPolicy(Qt::NoFocus);
        setInteractive(false);
        setAttribute(Qt::WA_TransparentForMouseEvents);
        setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
        setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
        chart()->legend()->hide();
        chart()->setBackgroundVisible(false);
        chart()->setAnimationOptions(QChart::NoAnimation);
        chart()->setMargins({});
        chart()->layout()->setContentsMargins(0, 0, 0, 0);
        chart()->setLocalizeNumbers(true);
    }

protected:
    [[nodiscard]] const Tokens& tokens() const { return tokensOf(*this); }

    void dress(QAbstractAxis& axis) const
    {
        axis.setLabelsFont(fontFor(TextRole::Caption));
        axis.setLabelsColor(tokens().quiet);
        axis.setGridLinePen(QPen(tokens().line, 1));
        axis.setLinePen(QPen(tokens().line, 1));
    }

    /// A chart that comes back has to be laid out anew, or its axes stay unseen.
    void setShown(bool isShown)
    {
        if (isShown == chart()->isVisible())
            return;
        chart()->setVisible(isShown);
        if (isShown)
            setPlot(m_around);
    }

    void setPlot(const QMarginsF& around)
    {
        m_around = around;
        chart()->setPlotArea(QRectF(rect()).marginsRemoved(around));
        chart()->layout()->invalidate(); // else the axes stay where they were
        chart()->layout()->activate();
    }

    [[nodiscard]] QRectF plot() const { return chart()->plotArea(); }

    /// A word beside a place of the chart, kept within it.
    void drawWord(QPainter& painter, const QString& text, QPointF middle, TextRole role,
                  const QColor& ink) const
    {
        painter.setFont(fontFor(role));
        painter.setPen(ink);
        const QFontMetricsF metrics(painter.font());
        const qreal width = figureAdvance(metrics, text);
        const qreal left = std::clamp(middle.x() - width / 2, plot().left(),
                                      std::max(plot().left(), plot().right() - width));
        drawFigures(painter, {left, middle.y()}, text);
    }

private:
    QMarginsF m_around;
};

} // namespace

// ---- Against the knob ----------------------------------------------------------------------------------

class ScanChart::Canvas final : public BareChart {
public:
    explicit Canvas(QWidget* parent)
        : BareChart(parent)
        , m_fitted(new QLineSeries(this))
        , m_readings(new QScatterSeries(this))
        , m_places(new QCategoryAxis(this))
        , m_lights(new QValueAxis(this))
    {
        m_places->setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
        m_lights->setTickCount(kLightTicks);
        m_readings->setMarkerSize(kDot);
        chart()->addAxis(m_places, Qt::AlignBottom);
        chart()->addAxis(m_lights, Qt::AlignLeft);
        for (QXYSeries* series : {static_cast<QXYSeries*>(m_fitted), static_cast<QXYSeries*>(m_readings)}) {
            chart()->addSeries(series);
            series->attachAxis(m_places);
            series->attachAxis(m_lights);
        }
        dressAll();
    }

    void dressAll()
    {
        dress(*m_places);
        dress(*m_lights);
        m_places->setGridLineVisible(false);
        m_lights->setLineVisible(false);
        m_fitted->setPen(QPen(tokens().accent, 2.5));
        m_readings->setColor(tokens().text);
        m_readings->setBorderColor(tokens().ground);
        update();
    }

    void show(const ScanChartView& view)
    {
        const bool isOtherRange = view.from != m_view.from || view.to != m_view.to ||
                                  view.least != m_view.least || view.most != m_view.most ||
                                  view.ticks != m_view.ticks;
        m_view = view;
        setShown(view.empty.isEmpty());
        if (view.empty.isEmpty() && isOtherRange)
            setRanges();
        m_fitted->replace(view.fitted);
        m_readings->replace(view.readings);
        viewport()->update();
    }

protected:
    void resizeEvent(QResizeEvent* event) override
    {
        QChartView::resizeEvent(event);
        const QFontMetricsF small(fontFor(TextRole::Caption));
        setPlot({kLeftMargin, small.height() + 8, 14, 2 * small.height() + 16});
    }

    void drawForeground(QPainter* painter, const QRectF& /*rect*/) override
    {
        if (!m_view.empty.isEmpty()) {
            painter->setFont(fontFor(TextRole::Small));
            painter->setPen(tokens().quiet);
            const QFontMetricsF metrics(painter->font());
            drawFigureLines(*painter, plot(), Qt::AlignCenter,
                            figureLines(metrics, m_view.empty, plot().width()));
            return;
        }
        drawPeak(*painter);
        painter->setPen(QPen(tokens().quiet, 1.5));
        for (const QPointF& point : m_view.leftOut) {
            const QPointF at = chart()->mapToPosition(point);
            painter->drawLine(at + QPointF(-kCross, -kCross), at + QPointF(kCross, kCross));
            painter->drawLine(at + QPointF(-kCross, kCross), at + QPointF(kCross, -kCross));
        }
        const QFontMetricsF small(fontFor(TextRole::Caption));
        drawWord(*painter, m_view.axisTitle, {plot().right(), height() - small.descent() - 2},
                 TextRole::Caption, tokens().quiet);
    }

private:
    void setRanges()
    {
        for (const QString& label : m_places->categoriesLabels())
            m_places->remove(label);
        m_places->setRange(m_view.from, m_view.to);
        m_places->setStartValue(m_view.from);
        for (const ChartTick& tick : m_view.ticks)
            m_places->append(tick.text, tick.at);
        m_lights->setRange(m_view.least, m_view.most);
        m_lights->setLabelFormat(m_view.most - m_view.least < 3 ? u"%.2f"_s : u"%.1f"_s);
    }

    void drawPeak(QPainter& painter)
    {
        if (!m_view.peak)
            return;
        const auto across = [&](double place) {
            return chart()->mapToPosition({std::clamp(place, m_view.from, m_view.to), m_view.least}).x();
        };
        QColor band = tokens().text;
        band.setAlphaF(0.12F);
        const qreal low = across(m_view.peak->low);
        const qreal high = across(m_view.peak->high);
        painter.fillRect(QRectF(low, plot().top(), std::max(2.0, high - low), plot().height()), band);
        painter.setPen(QPen(tokens().text, 1, Qt::DashLine));
        const qreal at = across(m_view.peak->at);
        painter.drawLine(QPointF(at, plot().top()), QPointF(at, plot().bottom()));
        drawWord(painter, m_view.peak->text, {at, plot().top() - kTextGap}, TextRole::Caption, tokens().text);
    }

    ScanChartView m_view;
    QLineSeries* m_fitted;
    QScatterSeries* m_readings;
    QCategoryAxis* m_places;
    QValueAxis* m_lights;
};

ScanChart::ScanChart(QWidget* parent)
    : QWidget(parent)
    , m_canvas(new Canvas(this))
{
    fillWidget(this, m_canvas);
}

ScanChart::~ScanChart() = default;

void ScanChart::setView(const ScanChartView& view)
{
    setAccessibleName(view.title);
    setAccessibleDescription(view.peak ? view.peak->text : view.empty);
    m_canvas->show(view);
}

void ScanChart::changeEvent(QEvent* event)
{
    if (event->type() == QEvent::PaletteChange)
        m_canvas->dressAll();
    QWidget::changeEvent(event);
}

// ---- Against time --------------------------------------------------------------------------------------

class TraceChart::Canvas final : public BareChart {
public:
    explicit Canvas(QWidget* parent)
        : BareChart(parent)
        , m_line(new QLineSeries(this))
        , m_minutes(new QValueAxis(this))
        , m_lights(new QValueAxis(this))
    {
        m_lights->setTickCount(2);
        m_lights->setLabelFormat(u"%.1f"_s);
        m_minutes->setLabelsVisible(false);
        m_minutes->setGridLineVisible(false);
        chart()->addAxis(m_minutes, Qt::AlignBottom);
        chart()->addAxis(m_lights, Qt::AlignLeft);
        chart()->addSeries(m_line);
        m_line->attachAxis(m_minutes);
        m_line->attachAxis(m_lights);
        dressAll();
    }

    void dressAll()
    {
        dress(*m_minutes);
        dress(*m_lights);
        m_lights->setLineVisible(false);
        m_line->setPen(QPen(tokens().text, 1.6));
        update();
    }

    void show(const TraceChartView& view)
    {
        m_view = view;
        setShown(!view.readings.isEmpty());
        if (view.readings.isEmpty())
            return viewport()->update();
        m_lights->setRange(view.least, view.most);
        m_minutes->setRange(0, view.minutes);
        m_line->replace(view.readings);
        viewport()->update();
    }

protected:
    void resizeEvent(QResizeEvent* event) override
    {
        QChartView::resizeEvent(event);
        const QFontMetricsF small(fontFor(TextRole::Caption));
        setPlot({kLeftMargin, small.height() + 4, 14, small.height() + 8});
    }

    void drawForeground(QPainter* painter, const QRectF& /*rect*/) override
    {
        if (m_view.readings.isEmpty())
            return;
        drawMarks(*painter);
        const QFontMetricsF small(fontFor(TextRole::Caption));
        const qreal bottom = height() - small.descent() - 1;
        drawWord(*painter, m_view.from, {plot().left(), bottom}, TextRole::Caption, tokens().quiet);
        drawWord(*painter, m_view.to, {plot().right(), bottom}, TextRole::Caption, tokens().quiet);
    }

private:
    /// A word is left out where it would run into the next line; its line is drawn all the same.
    void drawMarks(QPainter& painter)
    {
        painter.setFont(fontFor(TextRole::Caption));
        const QFontMetricsF metrics(painter.font());
        for (qsizetype i = 0; i < m_view.marks.size(); ++i) {
            const ChartTick& mark = m_view.marks.at(i);
            const qreal at = across(mark.at);
            const qreal next =
                i + 1 < m_view.marks.size() ? across(m_view.marks.at(i + 1).at) : plot().right();
            painter.setPen(QPen(tokens().edge, 1));
            painter.drawLine(QPointF(at, plot().top() - metrics.height()), QPointF(at, plot().bottom()));
            if (at + figureAdvance(metrics, mark.text) + 2 * kTextGap > next)
                continue;
            painter.setPen(tokens().quiet);
            drawFigures(painter, {at + kTextGap, plot().top() - metrics.descent()}, mark.text);
        }
    }

    qreal across(double minutes) { return chart()->mapToPosition({minutes, m_lights->min()}).x(); }

    TraceChartView m_view;
    QLineSeries* m_line;
    QValueAxis* m_minutes;
    QValueAxis* m_lights;
};

TraceChart::TraceChart(QWidget* parent)
    : QWidget(parent)
    , m_canvas(new Canvas(this))
{
    setAccessibleName(tr("Reading against time"));
    fillWidget(this, m_canvas);
}

TraceChart::~TraceChart() = default;

void TraceChart::setView(const TraceChartView& view)
{
    m_canvas->show(view);
}

void TraceChart::changeEvent(QEvent* event)
{
    if (event->type() == QEvent::PaletteChange)
        m_canvas->dressAll();
    QWidget::changeEvent(event);
}

} // namespace coldarc::ui
