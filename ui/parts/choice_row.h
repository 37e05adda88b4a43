#pragma once

#include "ui/parts/painted_button.h"

#include <QList>
#include <QWidget>

class QGridLayout;

namespace coldarc::ui {

class MarkButton;
class TextLabel;

/// One answer that can be chosen.
struct ChoiceOption {
    QString id;
    QString text;

    friend bool operator==(const ChoiceOption&, const ChoiceOption&) = default;
};

/// A question that is answered by choosing, never by typing.
struct ChoiceView {
    QString label;
    QList<ChoiceOption> options; ///< at most nine: each has a number key
    QString chosen;              ///< id of an option, or empty
    QString error;               ///< what is wrong with the answer, or empty
    Reach reach = Reach::Hand;

    friend bool operator==(const ChoiceView&, const ChoiceView&) = default;
};

/// A question with its answers as large buttons, one of which is chosen. While the focus is inside, the keys
/// 1 to 9 choose. The answer stays with the row until the view brings another one.
class ChoiceRow final : public QWidget {
    Q_OBJECT

public:
    explicit ChoiceRow(QWidget* parent = nullptr);

    void setView(const ChoiceView& view);
    /// The id of the answer, or empty.
    [[nodiscard]] const QString& chosen() const { return m_chosen; }
    /// The page takes the keys 1 to 9 itself, and says when they count.
    void leaveNumbersToThePage() { m_takesNumbers = false; }
    /// Chooses by the number on the button, 1 to 9. False when there is no such answer.
    bool chooseByNumber(int number);

Q_SIGNALS:
    void choiceChanged(const QString& id);

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    class AnswerGrid;
    void rebuild();
    void choose(const QString& id);
    void showChosen();

    TextLabel* m_label;
    AnswerGrid* m_grid;
    TextLabel* m_error;
    QList<MarkButton*> m_buttons;
    ChoiceView m_view;
    QString m_chosen;
    bool m_takesNumbers = true;
};

/// Something to be ticked off.
struct TickItem {
    QString id;
    QString text;
    QString sub; ///< its marking, its date; or empty

    friend bool operator==(const TickItem&, const TickItem&) = default;
};

struct TickListView {
    QString label;
    QList<TickItem> items;
    QStringList ticked; ///< ids
    QString error;
    Reach reach = Reach::Glove;

    friend bool operator==(const TickListView&, const TickListView&) = default;
};

/// Things to be ticked off one by one, each a large button, as far apart as gloves need where gloves are
/// worn.
class TickList final : public QWidget {
    Q_OBJECT

public:
    explicit TickList(QWidget* parent = nullptr);

    void setView(const TickListView& view);
    /// Ids, in the order of the items.
    [[nodiscard]] QStringList ticked() const;

Q_SIGNALS:
    void ticksChanged(const QStringList& ids);

private:
    void rebuild();

    TextLabel* m_label;
    QGridLayout* m_grid;
    TextLabel* m_error;
    QList<MarkButton*> m_buttons;
    TickListView m_view;
};

} // namespace coldarc::ui
