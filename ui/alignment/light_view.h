#pragma once

#include "ui/parts/action_button.h"
#include "ui/parts/wait_ring.h"

#include <QList>
#include <QPointF>
#include <QString>

#include <optional>

namespace coldarc::ui {

/// One knob, in the list at the left.
struct LightAxisRow {
    enum class Stand {
        Done,
        Now,
        Ahead,
    };
    QString name;  ///< "Across"
    QString state; ///< "at its peak"
    QString sub;   ///< "5 of 5 readings"
    Stand stand = Stand::Ahead;

    friend bool operator==(const LightAxisRow&, const LightAxisRow&) = default;
};

/// A word at a place of a chart.
struct ChartTick {
    double at = 0;
    QString text;

    friend bool operator==(const ChartTick&, const ChartTick&) = default;
};

/// Light against the knob of one axis. Places in eighths of a turn, lights as the meter shows them.
struct ScanChartView {
    struct Peak {
        double at = 0;
        double low = 0;
        double high = 0;
        QString text; ///< "peak at +0.31 turns, between 0.26 and 0.38"

        friend bool operator==(const Peak&, const Peak&) = default;
    };
    QString title;     ///< empty: there is no such chart
    QString axisTitle; ///< under the chart: whose knob, from where
    QList<QPointF> readings;
    QList<QPointF> leftOut;
    QList<QPointF> fitted;
    std::optional<Peak> peak;
    QList<ChartTick> ticks;
    double from = 0;
    double to = 0;
    double least = 0;
    double most = 0;
    QString empty; ///< said in place of a chart while there is nothing to draw

    friend bool operator==(const ScanChartView&, const ScanChartView&) = default;
};

/// Light against time, in minutes since the first reading.
struct TraceChartView {
    QList<QPointF> readings;
    QList<ChartTick> marks; ///< where each pass began
    double least = 0;       ///< lights that are drawn
    double most = 0;
    double minutes = 1; ///< that are drawn
    QString from;       ///< "first reading"
    QString to;         ///< "9 min"

    friend bool operator==(const TraceChartView&, const TraceChartView&) = default;
};

/// What the hand does, drawn: each turn in order, in turns, clockwise positive. None: the knob stays.
struct TurnDialView {
    QString axis;
    QList<double> turns;

    friend bool operator==(const TurnDialView&, const TurnDialView&) = default;
};

/// Everything that the light page shows.
struct LightView {
    QString place; ///< "Screen 4 · 29 of 34 · Find the peak sideways"
    QString axesTitle;
    QList<LightAxisRow> axes;
    QString light; ///< the last reading, large; "-" before the first
    QString lightSub;
    QString leftTitle;
    QString left; ///< "at most 1.4 %"
    QString leftSub;
    QString won; ///< "+ 21.4 %"
    QString wonSub;
    ScanChartView scan;
    TraceChartView trace;
    QString first; ///< knobs that are set before the one in hand; or empty
    QString what;  ///< what to do, in one sentence, large
    QString how;
    QString then;
    std::optional<TurnDialView> dial;
    std::optional<WaitView> wait;
    QString fieldName; ///< over the box
    QString said;      ///< a question, a refusal, or what the last press brought; or empty
    int boxTurn = 0;   ///< a change of it puts `boxText` into the box
    QString boxText;
    ActionView action;
    bool isFinishing = false; ///< an empty box and Enter press the main action: the step is done by it
    QString finish;           ///< the button that ends the step before the plan does; empty: none
    QString form;             ///< the button that changes between plan and turning by eye; empty: none
    QString putRight;         ///< the button that puts the last reading right, or leaves it; empty: none
    bool canTakeBack = false;
    bool canOwe = false;
    QString makeSafeEnd;

    friend bool operator==(const LightView&, const LightView&) = default;
};

} // namespace coldarc::ui
