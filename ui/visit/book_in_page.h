#pragma once

#include "ui/visit/book_in_view.h"

#include <QWidget>

class QGridLayout;
class QLineEdit;
class QVBoxLayout;

namespace coldarc::ui {

class CapturePanel;
class DateLine;
class Field;
class PlainButton;
class TextLabel;

/// The book-in card: box, paper and entry beside each other, each typed on its own, with what agrees and what
/// differs; at book-in the lamp's own marking, the alert and its dates, and what must be keyed into the
/// projector.
///
/// Keys: Enter goes to the next empty box, then presses the main action; Escape goes back.
class BookInPage final : public QWidget {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the page.
    explicit BookInPage(const Clock& clock, QWidget* parent = nullptr);

    void setView(const BookInView& view);
    [[nodiscard]] const BookInView& view() const { return m_view; }
    /// The first empty box takes the focus.
    void begin();

Q_SIGNALS:
    void typeTyped(const QString& column, const QString& text);
    void serialTyped(const QString& column, const QString& text);
    void restChanged(const QList<coldarc::ui::CaptureAnswer>& answers);
    void passChanged(const QList<coldarc::ui::CaptureAnswer>& answers);
    void passRequested();
    void personActRequested(const QString& id);
    void doneRequested();
    void leaveRequested();

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    struct Column {
        TextLabel* title;
        QWidget* typeCell;
        QWidget* serialCell;
        Field* type;
        TextLabel* typeWords;
        Field* serial;
        TextLabel* serialWords;
        QString id;
    };
    Column makeColumn();
    void showColumns();
    void showActs();
    void press();
    [[nodiscard]] QList<QLineEdit*> boxes() const;

    BookInView m_view;
    TextLabel* m_place;
    TextLabel* m_title;
    TextLabel* m_matched;
    QGridLayout* m_columnGrid;
    QList<Column> m_columns;
    TextLabel* m_waits;
    SignalPanel* m_wrongType;
    CapturePanel* m_rest;
    CapturePanel* m_pass;
    PlainButton* m_passButton;
    TextLabel* m_suggested;
    TextLabel* m_how;
    DateLine* m_line;
    QWidget* m_keyBox;
    TextLabel* m_keyIn;
    QVBoxLayout* m_actLayout;
    QList<PlainButton*> m_acts;
    ActionButton* m_action;
};

} // namespace coldarc::ui
