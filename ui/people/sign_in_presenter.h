#pragma once

#include "core/people/key_store.h"
#include "core/people/people_store.h"
#include "core/people/sign_in.h"
#include "ui/parts/action_button.h"
#include "ui/parts/field.h"
#include "ui/parts/row_list.h"
#include "ui/people/session_keeper.h"

namespace coldarc::ui {

/// Everything that the sign-in page shows.
struct SignInView {
    enum class Ask {
        Who,
        Passphrase,
        Pin, ///< a new one, twice
    };
    QString workspace;
    QString inside;   ///< somebody may be inside a lamphouse: the way past this page; or empty
    QStringList note; ///< what the demo says of its invented people; or empty
    QList<RowView> people;
    QString chosen; ///< id
    Ask ask = Ask::Who;
    QString title;
    QString sub;
    FieldView secret;
    FieldView again; ///< for a new PIN only
    QString message; ///< why it went no further; or empty
    QString busy;    ///< what is under way; or empty
    int emptied = 0; ///< a change empties the boxes
    ActionView action;

    friend bool operator==(const SignInView&, const SignInView&) = default;
};

/// Who, then the passphrase, then a PIN for the day. Never a hint: a wrong passphrase says only that, and
/// how long the next try waits.
class SignInPresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows all of these, which must outlive the presenter.
    SignInPresenter(people::PeopleStore& people, people::KeyStore& keys, SessionKeeper& keeper,
                    const Clock& clock, Behind behind, QObject* parent = nullptr);

    [[nodiscard]] const SignInView& view() const { return m_view; }
    void setWorkspace(const QString& name, const QStringList& note);
    /// Somebody was inside when the program ended: nobody in gloves is kept from the way out by a passphrase.
    void setInside(const QString& why);
    /// How dear one guess at the PIN is made; tests take less.
    void setPinCost(people::GuessCost cost) { m_pinCost = cost; }

    /// Reads the people anew and begins at the first question.
    void begin();
    void choose(const QString& person);
    /// The main action: tries the passphrase, or sets the PIN.
    void go(const people::TypedSecret& secret, const people::TypedSecret& again);
    /// Looks whether a wait is over; whoever shows the page calls it every second.
    void refresh();

Q_SIGNALS:
    void viewChanged(const coldarc::ui::SignInView& view);
    /// The key is open and a PIN is set.
    void signedIn();

private:
    void show(SignInView view);
    void askPassphrase();
    void askPin();
    void tryPassphrase(const people::TypedSecret& secret);
    void ended(const people::OpenTry& started, Result<people::SigningKey> opened, const Stamp& now);
    void turnedAway(const people::TurnedAway& away);
    void setPin(const people::TypedSecret& pin, const people::TypedSecret& again);
    [[nodiscard]] static QString shutForGood();
    void worldFailed(const Error& error);
    [[nodiscard]] QList<RowView> rows() const;
    [[nodiscard]] ActionView actionFor(const SignInView& view) const;

    people::PeopleStore& m_people;
    people::KeyStore& m_keys;
    SessionKeeper& m_keeper;
    const Clock& m_clock;
    Behind m_behind;
    people::GuessCost m_pinCost = people::kShippedCost;
    std::vector<people::Person> m_persons;
    std::optional<people::PublicKey> m_publicKey; ///< of whoever was chosen
    people::AttemptVerdict m_wait{people::AttemptVerdict::Kind::Free, {}};
    SignInView m_view;
};

} // namespace coldarc::ui
