#pragma once

#include "ui/parts/painted_button.h"

#include <QList>
#include <QString>
#include <QWidget>

class QVBoxLayout;

namespace coldarc::ui {

/// One row of a list that is chosen from.
struct RowView {
    QString id;
    QString title;
    QString sub;   ///< a second line; or empty
    QString aside; ///< at the right end of the first line; or empty

    friend bool operator==(const RowView&, const RowView&) = default;
};

/// One row as a button: a name, a quiet line beneath, something short at its right end. The chosen one lies
/// on a raised surface with a bar of the text colour.
class RowButton final : public PaintedButton {
    Q_OBJECT

public:
    explicit RowButton(const RowView& row, QWidget* parent = nullptr);

    [[nodiscard]] const QString& id() const { return m_row.id; }
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] int heightForWidth(int width) const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] qreal asideWidth() const;

    RowView m_row;
};

/// Rows beneath each other, one of them chosen, or a sentence where there are none.
class RowList final : public QWidget {
    Q_OBJECT

public:
    /// @param name  what a screen reader says of the list.
    explicit RowList(const QString& name, QWidget* parent = nullptr);

    /// @param chosen  id of a row, or empty.
    /// @param empty   what is said where there are no rows.
    void setRows(const QList<RowView>& rows, const QString& chosen, const QString& empty = {});

Q_SIGNALS:
    void rowChosen(const QString& id);

private:
    void rebuild(const QString& empty);
    void showChosen();

    QVBoxLayout* m_layout;
    QList<RowView> m_rows;
    QString m_empty;
    QString m_chosen;
    QList<RowButton*> m_buttons;
    bool m_built = false;
};

} // namespace coldarc::ui
