#pragma once

#include "ui/review/review_view.h"

#include <QWidget>

namespace coldarc::ui {

/// The time line of a visit: a row for whatever stood or waited, ticks with the time by the clock, marks for
/// what is out of the ordinary, and the moment in hand as a line across. Pressing or dragging goes to a
/// moment; Left and Right to the entry beside, Page Up and Page Down to the mark beside, Home and End to the
/// first and last entry.
class TimeLineDrawing final : public QWidget {
    Q_OBJECT

public:
    enum class Step {
        First,
        Before,
        Next,
        Last,
        MarkBefore,
        MarkNext,
    };

    explicit TimeLineDrawing(QWidget* parent = nullptr);

    void setView(const TimeLineView& view);
    void setMoment(double minutes, const QString& text);
    /// Where a moment is drawn, and the other way round; for tests too.
    [[nodiscard]] double placeOf(double minutes) const;
    [[nodiscard]] double minutesAt(double place) const;
    /// True when every name and every tick lies within the widget.
    [[nodiscard]] bool fits() const;

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

Q_SIGNALS:
    void momentWanted(double minutes);
    void stepWanted(coldarc::ui::TimeLineDrawing::Step step);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    [[nodiscard]] bool hasDays() const;
    [[nodiscard]] bool hasPlaces() const { return m_view.groups.size() > 1; }
    [[nodiscard]] double top() const;
    [[nodiscard]] double bottom() const;
    [[nodiscard]] double namesWidth() const;
    void paintTicks(QPainter& painter) const;
    void paintRows(QPainter& painter) const;
    void paintCuts(QPainter& painter) const;
    void paintBar(QPainter& painter, const QRectF& bar, TimeLineView::Kind kind) const;
    void paintMarks(QPainter& painter) const;
    void paintMoment(QPainter& painter) const;

    TimeLineView m_view;
    double m_names = 0; ///< width of the longest name
    double m_at = 0;
    QString m_text;
};

} // namespace coldarc::ui
