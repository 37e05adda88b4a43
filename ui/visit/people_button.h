#pragma once

#include "ui/parts/painted_button.h"

namespace coldarc::ui {

/// Who works here, in the bar over the bench, and the way to the page of who is here. It is as wide as its
/// names where there is room, and cuts them where there is not; the whole of them is told to whoever points
/// at it or cannot see it.
class PeopleButton final : public PaintedButton {
    Q_OBJECT

public:
    /// @param key  the key cap; shown only, the page binds it.
    explicit PeopleButton(const QString& key, QWidget* parent = nullptr);

    void setPeople(const QStringList& people);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] qreal capWidth() const;

    QString m_key;
};

} // namespace coldarc::ui
