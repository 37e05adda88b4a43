#pragma once

#include "core/base/clock.h"
#include "core/base/id_source.h"
#include "core/people/gear_store.h"
#include "core/people/granting.h"
#include "core/people/key_store.h"
#include "core/people/people_store.h"
#include "core/people/sign_in.h"
#include "ui/parts/behind.h"
#include "ui/parts/card_lines.h"
#include "ui/parts/choice_row.h"
#include "ui/parts/field.h"
#include "ui/parts/row_list.h"
#include "ui/people/enrolment.h"

#include <QObject>

namespace coldarc::ui {

/// What is filled in beneath a person's card.
enum class PeopleForm {
    None,
    NewPerson,
    Authorisation,
    Gear,
    Key,        ///< a passphrase for a person without a key
    Passphrase, ///< another one for the key of whoever works here
};

struct PeopleView {
    QList<RowView> people;
    QString chosen; ///< id of a person, or empty
    QString title;
    QString sub; ///< role, since when away
    QString keyText;
    bool canAddKey = false;
    bool canChangePassphrase = false;
    bool canRetireKey = false;
    bool canRetire = false;
    QList<CardLine> authorisations;
    QString noAuthorisations;
    bool canGive = false;
    QString giving; ///< who gives authorisations to this person, where that is not plain
    QList<CardLine> gear;
    QString noGear;

    PeopleForm form = PeopleForm::None;
    QString formTitle;
    QString formNote;
    FieldView name;
    ChoiceView role;
    FieldView phone;
    FieldView old; ///< the passphrase as it is
    FieldView passphrase;
    FieldView again;
    ChoiceView duty;
    ChoiceView model; ///< first option: every model
    FieldView from;
    FieldView until;
    ChoiceView kind; ///< of gear
    FieldView marking;
    FieldView identifier;
    FieldView made;
    FieldView expires;
    QString formAct; ///< on the button
    QString message; ///< what came of the last deed
    QString busy;
    int emptied = 0; ///< a change empties the boxes

    friend bool operator==(const PeopleView&, const PeopleView&) = default;
};

/// The answers of whichever form is up.
struct PeopleAnswers {
    QString name;
    QString role;
    QString phone;
    people::TypedSecret passphrase;
    people::TypedSecret again;
    people::TypedSecret old;
    QString duty;
    QString model;
    QString from;
    QString until;
    QString kind;
    QString marking;
    QString identifier;
    QString made;
    QString expires;
};

/// The people of a workspace: who they are, what they may do until when, which gear is theirs. Nothing is
/// removed: an authorisation is withdrawn, a person retired. Who may do so is the rule of
/// core/people/granting.h.
class PeoplePresenter final : public QObject {
    Q_OBJECT

public:
    /// What can be chosen from, as the catalogue has it.
    struct Choices {
        QList<ChoiceOption> models;
        QList<ChoiceOption> gearKinds;
    };

    /// Borrows all of these, which must outlive the presenter.
    PeoplePresenter(people::PeopleStore& people, people::KeyStore& keys, people::GearStore& gear,
                    const Clock& clock, IdSource& ids, Choices choices, Enrol enrol, Behind behind,
                    QObject* parent = nullptr);

    [[nodiscard]] const PeopleView& view() const { return m_view; }
    /// Who gives, withdraws and inspects.
    void setBy(const PersonId& by) { m_by = by; }
    void setSealCost(people::GuessCost cost) { m_cost = cost; }

    /// Reads everything anew.
    void refresh();
    void choose(const QString& person);
    void openForm(coldarc::ui::PeopleForm form);
    void keepForm(const coldarc::ui::PeopleAnswers& answers);
    void withdraw(const QString& authorisation);
    /// The piece of gear is no longer worn.
    void withdrawGear(const QString& gear);
    void retire();
    void retireKey();

Q_SIGNALS:
    void viewChanged(const coldarc::ui::PeopleView& view);
    /// Somebody was added, changed or retired.
    void peopleChanged();

private:
    void show(PeopleView view);
    void say(const QString& message);
    void fill(PeopleView& view) const;
    void fillCard(PeopleView& view, const people::Person& person) const;
    void fillGear(PeopleView& view, const people::Person& person) const;
    void fillForm(PeopleView& view) const;
    [[nodiscard]] QString modelsText(const people::Authorisation& one) const;
    [[nodiscard]] QString nameOf(const PersonId& id) const;
    [[nodiscard]] QString textOf(const QList<ChoiceOption>& options, const QString& id) const;
    [[nodiscard]] people::Day today() const;
    /// What the rule says of the person in sight; nothing where their authorisations cannot be read.
    [[nodiscard]] std::optional<people::GrantVerdict> verdictOn(people::Grant grant,
                                                                const PersonId& whom) const;
    [[nodiscard]] QString givingText(people::Grant grant, const people::Person& person) const;
    [[nodiscard]] QStringList namesOf(const std::function<bool(const people::Holder&)>& isMeant) const;
    [[nodiscard]] QStringList supervisors() const;
    [[nodiscard]] bool isRefused(people::Grant grant);
    void keepPerson(const PeopleAnswers& answers);
    void keepKey(const PeopleAnswers& answers);
    void changePassphrase(const PeopleAnswers& answers);
    [[nodiscard]] std::optional<people::OpenTry> tryBegun(const Stamp& now);
    void sealFor(const PersonId& id, people::Passphrase passphrase,
                 std::function<Result<void>(people::SealedKey)> keep);
    void keepAuthorisation(const PeopleAnswers& answers);
    void keepGear(const PeopleAnswers& answers);
    void settle(const Result<void>& outcome, const QString& done);

    people::PeopleStore& m_people;
    people::KeyStore& m_keys;
    people::GearStore& m_gear;
    const Clock& m_clock;
    IdSource& m_ids;
    Choices m_choices;
    Enrol m_enrol;
    Behind m_behind;
    people::GuessCost m_cost = people::kShippedCost;
    PersonId m_by;
    std::vector<people::Person> m_persons;
    PeopleView m_view;
};

} // namespace coldarc::ui
