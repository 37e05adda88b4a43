#pragma once

#include "ui/alignment/light_view.h"

#include <QWidget>

namespace coldarc::ui {

/// The knobs under one another: name, how each stands, what was read of it. The one in hand is raised.
class AxisRows final : public QWidget {
    Q_OBJECT

public:
    explicit AxisRows(QWidget* parent = nullptr);

    void setRows(const QList<LightAxisRow>& rows);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QList<LightAxisRow> m_rows;
};

} // namespace coldarc::ui
