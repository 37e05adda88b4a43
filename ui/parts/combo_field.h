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

    /// Of a list where a slip leaves a sister: what is typed is shown, however slowly it comes, and chooses
    /// once it is the whole text of an answer; otherwise nothing is chosen, and that is said.
    void takeWholeTextsOnly();

    /// A new view replaces what was chosen only when its choice differs from that of the view before, or the
    /// options are others.
    void setView(const ChoiceView& view);
    /// The id of the answer, or empty.
    [[nodiscard]] QString chosen() const;
    [[nodiscard]] QComboBox* box() const;

Q_SIGNALS:
    void choiceChanged(const QString& id);

private:
    class Box;
    void chooseTyped(const QString& typed);
    void showError();

    TextLabel* m_label;
    Box* m_box;
    TextLabel* m_error;
    ChoiceView m_view;
    QString m_unknown; ///< what was typed and is none of the answers
};

} // namespace coldarc::ui
