#pragma once

#include "ui/alignment/light_view.h"

#include <QWidget>

namespace coldarc::ui {

/// Light against the knob of the axis in hand: readings as dots, those left out as crosses, the fitted curve
/// in the accent, the peak and its interval as a line in a band. An interval that is wider than the scan is
/// cut at its ends.
class ScanChart final : public QWidget {
    Q_OBJECT

public:
    explicit ScanChart(QWidget* parent = nullptr);
    ~ScanChart() override;

    void setView(const ScanChartView& view);
    [[nodiscard]] QSize minimumSizeHint() const override { return {300, 150}; }

protected:
    void changeEvent(QEvent* event) override;

private:
    class Canvas;
    Canvas* m_canvas;
};

/// Light against time, with a line and a word where each pass began.
class TraceChart final : public QWidget {
    Q_OBJECT

public:
    explicit TraceChart(QWidget* parent = nullptr);
    ~TraceChart() override;

    void setView(const TraceChartView& view);
    [[nodiscard]] QSize minimumSizeHint() const override { return {300, 90}; }

protected:
    void changeEvent(QEvent* event) override;

private:
    class Canvas;
    Canvas* m_canvas;
};

} // namespace coldarc::ui
