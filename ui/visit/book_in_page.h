#pragma once

#include "ui/label/picture_presenter.h"
#include "ui/visit/book_in_view.h"

#include <QWidget>

class QGridLayout;
class QHBoxLayout;
class QLineEdit;
class QMimeData;
class QScrollArea;
class QVBoxLayout;

namespace coldarc::ui {

class CapturePanel;
class DateLine;
class Field;
class PicturePanel;
class PlainButton;
class TextLabel;

/// The book-in card: box, paper and entry beside each other, each typed on its own, with what agrees and what
/// differs; at book-in the lamp's own marking, the alert and its dates, and what must be keyed into the
/// projector.
///
/// Keys: Enter goes to the next empty box that is needed, then presses the main action; Escape goes back; F4
/// brings up a picture of the label, F6 to F8 choose a lamp at hand. A picture is taken wherever it is
/// dropped or pasted; words never are.
class BookInPage final : public QWidget {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the page.
    explicit BookInPage(const Clock& clock, QWidget* parent = nullptr);

    void setView(const BookInView& view);
    [[nodiscard]] const BookInView& view() const { return m_view; }
    void setPicture(const PictureView& view);
    /// The first empty box takes the focus, and no picture is shown.
    void begin();

Q_SIGNALS:
    void typeTyped(const QString& column, const QString& text);
    void serialTyped(const QString& column, const QString& text);
    void restChanged(const QList<coldarc::ui::CaptureAnswer>& answers);
    void passChanged(const QList<coldarc::ui::CaptureAnswer>& answers);
    void passRequested();
    void codesWanted(const QString& column);
    void lampChosen(const QString& id);
    void pictureGiven(const coldarc::ui::PictureSource& source);
    void codePicked(int code);
    void keepPictureRequested();
    void pictureClosed();
    void scannerCheckRequested();
    void pictureOffRequested(const QString& column);
    void withoutPictureRequested();
    void personActRequested(const QString& id);
    void doneRequested();
    void leaveRequested();

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

private:
    struct Column {
        QWidget* head;
        TextLabel* title;
        TextLabel* how;
        PlainButton* codes;
        PlainButton* pictureOff;
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
    void showAtHand();
    void showPicture(bool isShown);
    void showKeeping();
    void bringIntoView(QWidget* part);
    void takeOver(const QMimeData& brought);
    void press();
    void goToOpenBox();
    [[nodiscard]] QLineEdit* differing() const;
    void goTo(QLineEdit& box);
    void goToWhatWaits(const QWidget* holder);
    [[nodiscard]] QList<QLineEdit*> boxes() const;

    BookInView m_view;
    QScrollArea* m_scroll = nullptr;
    TextLabel* m_place;
    TextLabel* m_title;
    TextLabel* m_matched;
    QGridLayout* m_columnGrid;
    QList<Column> m_columns;
    PlainButton* m_pictureButton;
    TextLabel* m_atHandSays;
    QHBoxLayout* m_atHandLayout;
    QList<PlainButton*> m_atHand;
    TextLabel* m_scanSays;
    PlainButton* m_checkScanner;
    PlainButton* m_withoutPicture;
    QWidget* m_pictureBox;
    PicturePanel* m_picture;
    PlainButton* m_keepPicture;
    bool m_isPictureThere = false;
    TextLabel* m_doubts;
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
