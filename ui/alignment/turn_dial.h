#pragma once

#include "ui/alignment/light_view.h"

#include <QWidget>

namespace coldarc::ui {

/// What the hand does at one knob, as an arc with an arrow: which way, and how far round. A second turn is
/// drawn inside the first. More than a whole turn is drawn as nearly a whole one: the words say how much.
class TurnDial final : public QWidget {
    Q_OBJECT

public:
    explicit TurnDial(QWidget* parent = nullptr);

    void setView(const TurnDialView& view);
    [[nodiscard]] QSize sizeHint() const override { return {148, 148}; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    TurnDialView m_view;
};

} // namespace coldarc::ui
