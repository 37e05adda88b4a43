#pragma once

#include "core/people/secret_bytes.h"
#include "ui/parts/side_page.h"
#include "ui/visit/people_here_view.h"

class QGridLayout;

namespace coldarc::ui {

class CapturePanel;
class Field;
class PlainButton;
class TextLabel;

/// Who is here: everybody of the visit at the left, what is known of one of them and what can be done at the
/// right, one main action where something was begun.
///
/// Keys: Tab goes from one to the next, Enter presses the button that was walked to or, in a box, goes on to
/// the next open question and then presses the main action; number keys answer; Escape goes back.
class PeopleHerePage final : public SidePage {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the page.
    explicit PeopleHerePage(const Clock& clock, QWidget* parent = nullptr);

    void setView(const PeopleHereView& view);
    [[nodiscard]] const PeopleHereView& view() const { return m_view; }

Q_SIGNALS:
    void personChosen(const QString& id);
    void deedRequested(const QString& id);
    void joinRequested();
    void newcomerChosen(const QString& id);
    void doneRequested(const QList<coldarc::ui::CaptureAnswer>& answers,
                       const coldarc::people::TypedSecret& secret, const coldarc::people::TypedSecret& again);
    void leaveRequested();

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    void makeSide();
    void makeBody();
    void bindKeys();
    void press();
    void tellDone();
    void showFacts();
    void showDeeds();
    void takeFocus();

    PeopleHereView m_view;
    RowList* m_people;
    PlainButton* m_join;
    PlainButton* m_leave;
    TextLabel* m_title;
    TextLabel* m_sub;
    QGridLayout* m_factGrid;
    QList<QWidget*> m_facts;
    QGridLayout* m_deedGrid;
    QList<PlainButton*> m_deeds;
    TextLabel* m_begun;
    TextLabel* m_words;
    RowList* m_newcomers;
    CapturePanel* m_asks;
    Field* m_secret;
    Field* m_again;
    TextLabel* m_said;
    TextLabel* m_busy;
    PlainButton* m_notNow;
    ActionButton* m_action;
};

} // namespace coldarc::ui
