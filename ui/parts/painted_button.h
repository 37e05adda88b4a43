#pragma once

#include "ui/parts/reach.h"
#include "ui/parts/theme.h"

#include <QAbstractButton>

namespace coldarc::ui {

/// What every button that we draw ourselves has in common: a target size by reach, a focus ring for whoever
/// walks by keyboard, no answer to a key that repeats, and the theme's colours. Space presses it; so does
/// Enter, unless the page gives Enter a meaning of its own.
class PaintedButton : public QAbstractButton {
    Q_OBJECT

public:
    explicit PaintedButton(Reach reach, QWidget* parent = nullptr);

    /// True when all of its words are seen whole at the present size.
    [[nodiscard]] virtual bool fits() const;
    [[nodiscard]] int target() const { return targetFor(*this, m_reach); }

    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void keyReleaseEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void changeEvent(QEvent* event) override;
    void enterEvent(QEnterEvent* event) override;
    void leaveEvent(QEvent* event) override;

    [[nodiscard]] const Tokens& tokens() const { return tokensOf(*this); }
    /// Fills and outlines the body, then the ring inside it when it is due. A transparent fill without a pen
    /// leaves the body as it is.
    void paintBody(QPainter& painter, const QColor& fill, const QPen& outline, const QColor& ring) const;

    static constexpr qreal kRadius = 10;

private:
    Reach m_reach;
    bool m_ringDue = false;
};

} // namespace coldarc::ui
