#pragma once

#include <QString>
#include <QStringList>
#include <QWidget>

class QPlainTextEdit;

namespace coldarc::ui {

class PlainButton;
class TextLabel;

/// A table that is pasted, and the lines of it that were not taken.
struct PasteView {
    QString title;
    QString explains; ///< which columns, parted by what
    QString hint;     ///< shown in the empty box
    QString act;      ///< on the button: "Add these lamps"
    QString outcome;  ///< what became of the last table; or empty
    QStringList bad;  ///< each names a line and what is wrong with it
    int taken = 0;    ///< how often a table was taken: a change empties the box

    friend bool operator==(const PasteView&, const PasteView&) = default;
};

/// A box for a table from a sheet: all of it is taken, or nothing and every bad line is named.
class PastePanel final : public QWidget {
    Q_OBJECT

public:
    explicit PastePanel(QWidget* parent = nullptr);

    void setView(const PasteView& view);
    [[nodiscard]] QPlainTextEdit* box() const { return m_box; }

Q_SIGNALS:
    void pasted(const QString& text);

private:
    TextLabel* m_title;
    TextLabel* m_explains;
    QPlainTextEdit* m_box;
    PlainButton* m_act;
    TextLabel* m_outcome;
    TextLabel* m_bad;
    PasteView m_view;
};

} // namespace coldarc::ui
