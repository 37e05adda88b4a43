#pragma once

#include "core/base/clock.h"
#include "core/base/id_source.h"
#include "ui/parts/action_button.h"
#include "ui/parts/behind.h"
#include "ui/parts/choice_row.h"
#include "ui/parts/field.h"
#include "ui/people/enrolment.h"

#include <QObject>

namespace coldarc::ui {

/// What was filled in on the first page.
struct StartForm {
    QString workspace;
    QString name;
    QString role; ///< a word of people::Role
    people::TypedSecret passphrase;
    people::TypedSecret again;
    QStringList duties; ///< words of people::Duty
    QString from;       ///< ISO days
    QString until;
};

/// The one page of an empty workspace.
struct StartView {
    FieldView workspace;
    FieldView name;
    ChoiceView role;
    FieldView passphrase;
    FieldView again;
    QString passphraseNote;
    TickListView duties;
    FieldView from;
    FieldView until;
    QString dutiesNote;
    QString message;
    QString busy;
    ActionView action;

    friend bool operator==(const StartView&, const StartView&) = default;
};

/// Makes the first person of a workspace: a key sealed under their passphrase, and what they are authorised
/// for, which they give themselves, since nobody else is here; the record says so.
class StartPresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows clock and ids, which must outlive the presenter.
    /// @param name  keeps the workspace's name.
    StartPresenter(const Clock& clock, IdSource& ids, Enrol enrol, std::function<void(const QString&)> name,
                   Behind behind, QObject* parent = nullptr);

    [[nodiscard]] const StartView& view() const { return m_view; }
    /// How dear one guess at the passphrase is made; tests take less.
    void setSealCost(people::GuessCost cost) { m_cost = cost; }
    void create(const StartForm& form);

Q_SIGNALS:
    void viewChanged(const coldarc::ui::StartView& view);
    void created();

private:
    void show(StartView view);
    [[nodiscard]] StartView judged(const StartForm& form) const;
    void seal(const StartForm& form, people::Passphrase passphrase);
    void keep(const StartForm& form, const PersonId& id, Result<people::SealedKey> sealed);

    const Clock& m_clock;
    IdSource& m_ids;
    Enrol m_enrol;
    std::function<void(const QString&)> m_name;
    Behind m_behind;
    people::GuessCost m_cost = people::kShippedCost;
    StartView m_view;
};

} // namespace coldarc::ui
