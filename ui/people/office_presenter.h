#pragma once

#include "core/base/clock.h"
#include "core/people/granting.h"
#include "core/people/key_files.h"
#include "core/people/key_store.h"
#include "core/people/office_store.h"
#include "core/people/people_store.h"
#include "core/people/sign_in.h"
#include "ui/parts/behind.h"
#include "ui/parts/card_lines.h"
#include "ui/parts/field.h"

#include <QObject>

#include <optional>

namespace coldarc::ui {

/// What is filled in on the page of the office.
enum class OfficeForm {
    None,
    Found,  ///< makes the office of this workspace
    Vouch,  ///< for one key
    TakeUp, ///< another workspace's office as known
    Reseal, ///< the own office's key under another passphrase
    Retire, ///< says of a key that it is out of use
};

struct OfficeView {
    QString name;       ///< of the own office; empty: there is none
    QString thumbprint; ///< of its key
    QString note;       ///< what an office is for, or who may use it
    bool canFound = false;
    bool canVouch = false; ///< for a key from a file
    bool canTakeUp = false;
    bool canReseal = false;
    QList<CardLine> keys; ///< of people of this workspace, and those that the office vouched for
    QString noKeys;
    QList<CardLine> offices; ///< of other workspaces that are believed
    QString noOffices;

    OfficeForm form = OfficeForm::None;
    QString formTitle;
    QString formNote;
    QString formThumbprint; ///< to be held against what its owner says
    FieldView officeName;
    FieldView old; ///< the passphrase as it was
    FieldView passphrase;
    FieldView again;
    FieldView from;
    FieldView until;
    QString formAct;
    QString message; ///< what came of the last deed
    QString busy;
    int emptied = 0; ///< a change empties the boxes

    friend bool operator==(const OfficeView&, const OfficeView&) = default;
};

/// The answers of whichever form is up.
struct OfficeAnswers {
    QString officeName;
    people::TypedSecret passphrase;
    people::TypedSecret again;
    QString from;
    QString until;
    people::TypedSecret old{};
};

/// Whose the keys are: the office of this workspace, which vouches for them under a passphrase of its own,
/// and the offices of others that are believed. Who may do so is the rule of core/people/granting.h.
class OfficePresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows all of these, which must outlive the presenter.
    OfficePresenter(people::PeopleStore& people, people::KeyStore& keys, people::OfficeStore& offices,
                    const Clock& clock, Behind behind, QObject* parent = nullptr);

    [[nodiscard]] const OfficeView& view() const { return m_view; }
    /// Who vouches.
    void setBy(const PersonId& by) { m_by = by; }
    void setSealCost(people::GuessCost cost) { m_cost = cost; }

    /// Reads everything anew.
    void refresh();
    void openForm(coldarc::ui::OfficeForm form);
    void keepForm(const coldarc::ui::OfficeAnswers& answers);
    /// What the button of a key says: vouch for it, put it into a file for another office, or say that it is
    /// out of use.
    void act(const QString& key);
    /// No longer believes the office.
    void drop(const QString& office);
    /// The bytes of a file that somebody brought: a key that asks to be vouched for, or a certificate.
    void take(const QByteArray& file);

Q_SIGNALS:
    void viewChanged(const coldarc::ui::OfficeView& view);
    /// A file to be saved where the user says.
    void saveRequested(const QString& name, const QByteArray& bytes);

private:
    /// The key that the form is about.
    struct Subject {
        people::KeyRequest request;
        bool isForeign = false; ///< its certificate goes into a file
        people::Day from;       ///< proposed: since when it is that person's
    };
    /// What somebody said is to be vouched for, as it was in sight at their press: whatever is pressed while
    /// the office's key is opened changes none of it.
    struct Vouching {
        Subject subject;
        people::Day from;
        people::Day until; ///< not used where the key is said to be out of use
        PersonId by;
        QString office;
        bool isRetired = false; ///< from `from` on
    };

    void show(OfficeView view);
    void say(const QString& message);
    void fill(OfficeView& view) const;
    void fillKeys(OfficeView& view) const;
    void fillOffices(OfficeView& view) const;
    void fillForm(OfficeView& view) const;
    [[nodiscard]] QString standingOf(const people::PublicKey& key) const;
    [[nodiscard]] std::optional<people::Office> own() const;
    [[nodiscard]] std::optional<people::KeyRequest> requestFor(const QString& key) const;
    [[nodiscard]] people::Day today() const;
    [[nodiscard]] bool mayVouch() const;
    [[nodiscard]] bool isRefused();
    void found(const OfficeAnswers& answers);
    void vouch(const OfficeAnswers& answers);
    void retire(const OfficeAnswers& answers);
    void openOffice(const people::TypedSecret& passphrase, const Vouching& vouching);
    void addCertifiedKeys(OfficeView& view) const;
    [[nodiscard]] std::optional<Subject> certifiedSubject(const QString& key) const;
    [[nodiscard]] std::optional<people::Day> outOfUseSince(const people::PublicKey& key) const;
    void opened(const people::OpenTry& started, Result<people::SigningKey> key, const Stamp& now,
                const Vouching& vouching);
    void certify(const people::SigningKey& office, const Vouching& vouching);
    void sayOutOfUse(const people::SigningKey& office, const Vouching& vouching);
    void takeUp();
    void reseal(const OfficeAnswers& answers);
    [[nodiscard]] std::optional<people::OpenTry> tryBegun(const Stamp& now);
    [[nodiscard]] bool isTurnedAway(const Result<std::variant<people::SignedIn, people::TurnedAway>>& outcome,
                                    const QString& nothing);
    void settle(const Result<void>& outcome, const QString& done);

    people::PeopleStore& m_people;
    people::KeyStore& m_keys;
    people::OfficeStore& m_offices;
    const Clock& m_clock;
    Behind m_behind;
    people::GuessCost m_cost = people::kShippedCost;
    PersonId m_by;
    std::optional<Subject> m_subject;
    std::optional<people::CertificateFile> m_brought; ///< of an office that is not known yet
    OfficeView m_view;
};

} // namespace coldarc::ui
