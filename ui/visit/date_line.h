#pragma once

#include "ui/visit/book_in_view.h"

#include <QWidget>

namespace coldarc::ui {

/// Dates on one scale, a row each: name and date, below them a tick on the line, with its interval as a bar.
class DateLine final : public QWidget {
    Q_OBJECT

public:
    explicit DateLine(QWidget* parent = nullptr);

    void setMarks(const QList<DateMark>& marks);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return {240, sizeHint().height()}; }

protected:
    void paintEvent(QPaintEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    QList<DateMark> m_marks;
};

} // namespace coldarc::ui
