#pragma once

#include "ui/visit/done_view.h"

#include <QWidget>

#include <functional>

class QMimeData;
class QPlainTextEdit;

namespace coldarc::ui {

class ActionButton;
class DoneList;
class PlainButton;
class TextLabel;

/// What was done: to the left every entry of the logbook, to the right the one in hand, what is written or
/// corrected, and its one main action.
///
/// Keys: up and down go through the entries, Ctrl+C copies those that are selected, Ctrl+V gives a picture,
/// Ctrl+Enter is the main action; Escape leaves what is being written, then the page.
class DonePage final : public QWidget {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the page.
    explicit DonePage(const Clock& clock, QWidget* parent = nullptr);

    void setView(const DoneView& view);
    /// The bytes of a picture by its hash.
    void setPictures(std::function<QByteArray(const QString&)> pictures);
    /// Entries as text, for the clipboard; all of them where none are named.
    void setTexts(std::function<QString(const QList<qint64>&)> texts) { m_texts = std::move(texts); }
    /// How a picture file is chosen; empty: none was. The file dialog, unless told otherwise.
    void setChooser(std::function<QString()> chooser) { m_chooser = std::move(chooser); }
    void takeFocus();

Q_SIGNALS:
    void entryChosen(qint64 entry);
    void withdrawRequested();
    void writeRequested();
    void signRequested();
    void pictureRequested();
    void formLeft();
    void draftChanged(const QString& text);
    void doneRequested();
    void pictureGiven(const QByteArray& bytes);
    void pictureFileGiven(const QString& path);
    void printRequested();
    void recordRequested();
    void reportRequested();
    void readingsRequested();
    void leaveRequested();

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

private:
    QWidget* makeSide();
    QWidget* makeReading();
    QWidget* makeForm();
    void bindKeys();
    void bind(const QKeySequence& keys, const std::function<void()>& deed);
    void showForm(const std::optional<DoneForm>& form);
    void press();
    void leave();
    void copy(const QList<qint64>& entries);
    void takePictureFrom(const QMimeData* given);

    DoneView m_view;
    std::function<QString(const QList<qint64>&)> m_texts;
    std::function<QString()> m_chooser;
    TextLabel* m_site;
    TextLabel* m_sub;
    TextLabel* m_review;
    DoneList* m_list;
    TextLabel* m_empty;
    TextLabel* m_chosenName;
    TextLabel* m_noWithdraw;
    PlainButton* m_withdraw;
    TextLabel* m_waits;
    PlainButton* m_sign;
    PlainButton* m_write;
    PlainButton* m_picture;
    QWidget* m_reading;
    QWidget* m_form;
    TextLabel* m_formTitle;
    TextLabel* m_follows;
    TextLabel* m_label;
    QPlainTextEdit* m_box;
    TextLabel* m_hint;
    PlainButton* m_leaveForm;
    TextLabel* m_said;
    PlainButton* m_leave;
    ActionButton* m_action;
    QWidget* m_side;
};

} // namespace coldarc::ui
