#pragma once

#include <QString>
#include <QWidget>

namespace coldarc::ui {

/// A wait that runs, or that is over.
struct WaitView {
    double share = 0; ///< how much of the wait has passed, 0 to 1
    QString number;   ///< what is left, "6:41"
    QString sub;      ///< "of 12:00, cold at 13:14"

    friend bool operator==(const WaitView&, const WaitView&) = default;
};

/// A ring that fills clockwise from the top as the wait passes, with what is left in the middle: shape,
/// number, word.
class WaitRing final : public QWidget {
    Q_OBJECT

public:
    explicit WaitRing(QWidget* parent = nullptr);

    void setView(const WaitView& view);
    [[nodiscard]] const WaitView& view() const { return m_view; }
    /// True when number and second line are seen whole.
    [[nodiscard]] bool fits() const;
    [[nodiscard]] QSize sizeHint() const override { return {226, 226}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {200, 200}; }

protected:
    void paintEvent(QPaintEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    struct Layout {
        QRectF ring;
        QRectF number;
        QRectF sub;
        QFont numberFont;
        QStringList subLines;
    };
    [[nodiscard]] Layout arranged() const;

    WaitView m_view;
};

} // namespace coldarc::ui
