#pragma once

#include "ui/parts/painted_button.h"

namespace coldarc::ui {

/// Any other button: a name, perhaps a second line, perhaps the key that presses it.
class PlainButton final : public PaintedButton {
    Q_OBJECT

public:
    enum class Weight {
        Quiet,  ///< raised surface, hairline
        Strong, ///< heavy outline in text colour: the way out, one per page
    };

    explicit PlainButton(const QString& text, Reach reach = Reach::Hand, Weight weight = Weight::Quiet,
                         QWidget* parent = nullptr);

    /// A second, smaller line; empty for none.
    void setSub(const QString& sub);
    /// A key cap at the right end; empty for none. Shown only: the page binds the key.
    void setKeyCap(const QString& key);

    [[nodiscard]] QSize sizeHint() const override;
    /// No word is broken: the last character of one may be what parts it from another.
    [[nodiscard]] QSize minimumSizeHint() const override;
    [[nodiscard]] int heightForWidth(int width) const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] QFont nameFont() const;
    [[nodiscard]] qreal roomIn(int width) const;

    Weight m_weight;
    QString m_sub;
    QString m_keyCap;
};

/// A quiet one for a bare hand, with the name that it is found by.
[[nodiscard]] PlainButton* quietButton(const QString& text, const QString& name, QWidget* parent);

} // namespace coldarc::ui
