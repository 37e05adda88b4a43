#pragma once

#include "ui/people/sign_in_presenter.h"

#include <QWidget>

namespace coldarc::ui {

class ActionButton;
class Field;
class PlainButton;
class RowList;
class TextLabel;

/// Who works here: the people at the left, the passphrase and then the new PIN at the right.
class SignInPage final : public QWidget {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the page.
    explicit SignInPage(const Clock& clock, QWidget* parent = nullptr);

    void setView(const SignInView& view);

Q_SIGNALS:
    void personChosen(const QString& id);
    void goRequested(const coldarc::people::TypedSecret& secret, const coldarc::people::TypedSecret& again);
    /// Past this page, to the visit in which somebody may be inside.
    void insideRequested();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void press();

    SignInView m_view;
    TextLabel* m_workspace;
    TextLabel* m_note;
    TextLabel* m_inside;
    PlainButton* m_goInside;
    RowList* m_people;
    TextLabel* m_title;
    TextLabel* m_sub;
    Field* m_secret;
    Field* m_again;
    TextLabel* m_message;
    TextLabel* m_busy;
    ActionButton* m_action;
    QWidget* m_right;
};

} // namespace coldarc::ui
