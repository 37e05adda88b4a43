#pragma once

#include "ui/parts/choice_row.h"

#include <QWidget>

class QComboBox;

namespace coldarc::ui {

class TextLabel;

/// A question whose answers are too many for buttons: a box that opens to a list. The view is the same.
class ComboField final : public QWidget {
    Q_OBJECT

public:
    explicit ComboField(QWidget* parent = nullptr);

    /// A new view replaces what was chosen only when its choice differs from that of the view before, or the
    /// options are others.
    void setView(const ChoiceView& view);
    /// The id of the answer, or empty.
    [[nodiscard]] QString chosen() const;
    [[nodiscard]] QComboBox* box() const { return m_box; }

Q_SIGNALS:
    void choiceChanged(const QString& id);

private:
    TextLabel* m_label;
    QComboBox* m_box;
    TextLabel* m_error;
    ChoiceView m_view;
};

} // namespace coldarc::ui
