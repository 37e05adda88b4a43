#pragma once

#include "ui/parts/side_page.h"
#include "ui/people/people_presenter.h"

namespace coldarc::ui {

class ChoiceRow;
class ComboField;
class CardLines;
class PlainButton;
class TextLabel;

/// The people at the left; at the right who one of them is, what they may do, what they wear, and a form for
/// whatever is added.
class PeoplePage final : public SidePage {
    Q_OBJECT

public:
    explicit PeoplePage(QWidget* parent = nullptr);

    void setView(const PeopleView& view);

Q_SIGNALS:
    void personChosen(const QString& id);
    void formRequested(coldarc::ui::PeopleForm form);
    void formKept(const coldarc::ui::PeopleAnswers& answers);
    void withdrawRequested(const QString& authorisation);
    void gearWithdrawRequested(const QString& gear);
    void retireRequested();
    void keyRetireRequested();
    /// The page that says whose the keys are.
    void officeRequested();

private:
    void makeCard();
    QWidget* makeForm();
    PlainButton* formButton(const QString& text, PeopleForm form);
    /// Not while something is filled in; says so then.
    [[nodiscard]] bool mayLeaveForm();
    void showForm(const PeopleView& view);
    [[nodiscard]] PeopleAnswers answers() const;

    PeopleView m_view;
    QStringList m_asOpened; ///< the form in sight, before anything was filled in
    RowList* m_people;
    TextLabel* m_title;
    TextLabel* m_sub;
    TextLabel* m_key;
    TextLabel* m_message;
    CardLines* m_authorisations;
    CardLines* m_gear;
    PlainButton* m_give;
    PlainButton* m_addKey;
    PlainButton* m_changePassphrase;
    PlainButton* m_retireKey;
    PlainButton* m_retire;
    TextLabel* m_giving;
    QWidget* m_card;
    QWidget* m_form;
    TextLabel* m_formTitle;
    TextLabel* m_formNote;
    Field* m_name;
    ChoiceRow* m_role;
    Field* m_phone;
    Field* m_old;
    Field* m_passphrase;
    Field* m_again;
    ChoiceRow* m_duty;
    ComboField* m_model;
    Field* m_from;
    Field* m_until;
    ComboField* m_kind;
    Field* m_marking;
    Field* m_identifier;
    Field* m_made;
    Field* m_expires;
    TextLabel* m_busy;
    PlainButton* m_keep;
    PlainButton* m_leave;
};

} // namespace coldarc::ui
