#pragma once

#include "ui/photometry/sheet_view.h"

#include <QWidget>

class QPainter;

namespace coldarc::ui {

/// Draws the sign of a sheet into a rectangle. Each stands beside its word.
void drawSheetSign(QPainter& painter, const QRectF& inside, SheetSign sign, const QColor& colour);

/// The screen in its shape, with the points on it: what was read, its share of the centre, how it stands. A
/// tap or the arrow keys choose a point.
class ScreenDrawing final : public QWidget {
    Q_OBJECT

public:
    explicit ScreenDrawing(QWidget* parent = nullptr);

    void setView(const SheetView& view);
    /// Where a point is drawn; for tests and the walk.
    [[nodiscard]] QPointF placeOf(const QString& point) const;
    /// True when no word of a point runs into another or out of the screen.
    [[nodiscard]] bool fits() const;

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

Q_SIGNALS:
    void pointChosen(const QString& point);
    void moved(Qt::Key arrow);
    /// A figure was typed on the drawing: it belongs into the box.
    void typed(const QString& text);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    [[nodiscard]] QRectF screen() const;
    [[nodiscard]] QPointF at(const SheetPointView& point) const;
    [[nodiscard]] QRectF wordsOf(const SheetPointView& point) const;
    [[nodiscard]] static QStringList linesOf(const SheetPointView& point);
    void paintPoint(QPainter& painter, const SheetPointView& point) const;

    double m_aspect = 2.39;
    QList<SheetPointView> m_points;
};

} // namespace coldarc::ui
