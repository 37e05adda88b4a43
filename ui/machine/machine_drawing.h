#pragma once

#include "ui/machine/machine_view.h"

#include <QWidget>

namespace coldarc::ui {

/// The machine as a drawing that uses light for energy: what is live or moves is drawn in the text colour,
/// what is dead in the edge colour. Under each thing stands its state in words, and the accessible
/// description says all of them. The shapes are our own and stand for no maker's machine. Drawn from 290 px
/// of width upwards; where the height is short it shrinks, whole, down to its least size.
class MachineDrawing final : public QWidget {
    Q_OBJECT

public:
    explicit MachineDrawing(QWidget* parent = nullptr);

    void setView(const MachineView& view);
    /// All states in words, one sentence per thing.
    [[nodiscard]] QStringList sentences() const;
    /// True when the drawing and its words lie within the widget.
    [[nodiscard]] bool fits() const;

    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    /// At which nothing of it has to shrink.
    [[nodiscard]] int heightForWidth(int width) const override;
    [[nodiscard]] QSize sizeHint() const override { return {kLeastWidth, heightForWidth(kLeastWidth)}; }
    [[nodiscard]] QSize minimumSizeHint() const override;

    static constexpr int kLeastWidth = 290;

protected:
    void paintEvent(QPaintEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    MachineView m_view;
};

} // namespace coldarc::ui
