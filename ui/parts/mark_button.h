#pragma once

#include "ui/parts/painted_button.h"

namespace coldarc::ui {

/// A button that stays marked: one answer of several (round mark), or a thing ticked off (square mark).
class MarkButton final : public PaintedButton {
    Q_OBJECT

public:
    enum class Mark {
        Round,
        Square,
    };

    MarkButton(Mark mark, Reach reach, QWidget* parent = nullptr);

    void setSub(const QString& sub);
    /// A figure in the mark: the key that chooses it. Empty for none.
    void setKeyCap(const QString& key);

    /// The width below which a word would have to be broken.
    [[nodiscard]] qreal leastWidth() const;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] int heightForWidth(int width) const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] qreal roomIn(int width) const;
    void paintMark(QPainter& painter, const QRectF& mark) const;

    Mark m_mark;
    QString m_sub;
    QString m_keyCap;
};

} // namespace coldarc::ui
