#pragma once

#include "core/base/clock.h"
#include "core/people/person.h"
#include "core/people/session.h"
#include "ui/parts/behind.h"

#include <QObject>

#include <memory>
#include <optional>

namespace coldarc::ui {

/// Who works here now, and their key. The slow part of setting and trying a PIN runs behind; until it is
/// done the key counts as locked.
class SessionKeeper final : public QObject {
    Q_OBJECT

public:
    enum class State {
        Nobody, ///< nobody has signed in
        Open,
        Busy, ///< a PIN is being tried or set
        Locked,
        Ended, ///< only the passphrase helps, in a new session
    };
    Q_ENUM(State)

    /// Borrows the clock, which must outlive the keeper.
    SessionKeeper(const Clock& clock, Behind behind, QObject* parent = nullptr);
    ~SessionKeeper() override;

    /// Somebody gave their passphrase. Whoever was here is signed out.
    void begin(const people::Person& who, people::Session session);
    void signOut();

    /// Nobody: no value.
    [[nodiscard]] const std::optional<people::Person>& who() const { return m_who; }
    /// Nobody: empty.
    [[nodiscard]] PersonId whoId() const { return m_who ? m_who->id : PersonId(); }
    /// As of the last look.
    [[nodiscard]] State state() const { return m_state; }
    /// How many more wrong PINs the session bears.
    [[nodiscard]] int wrongPinsLeft() const { return m_wrongPinsLeft; }

    /// Looks at the clock; whoever shows the window calls it every second.
    void look();
    /// A press of a key or the mouse by this person.
    void press();
    /// The first gear goes on: being idle locks no more. Until `release`.
    void holdOpen();
    void release();
    void lock();

    void setPin(people::Pin pin);
    void unlock(const people::TypedSecret& pin);

    /// Error::Refused unless open.
    [[nodiscard]] Result<people::Signature> sign(const people::HeadStatement& statement);
    [[nodiscard]] Result<people::Signature> sign(const people::PaperJws& paper);
    /// Nothing unless somebody is here.
    [[nodiscard]] std::optional<people::PublicKey> publicKey() const;

Q_SIGNALS:
    void stateChanged(coldarc::ui::SessionKeeper::State state);
    void whoChanged();
    void pinSet();
    /// The computer could not keep the PIN: too little memory.
    void pinNotSet();
    void pinAnswered(coldarc::people::Session::PinOutcome outcome);
    /// Too little memory to try; nothing was counted.
    void pinNotTried();

private:
    [[nodiscard]] bool isFree() const { return m_session && m_state != State::Busy; }
    void become(State state);

    const Clock& m_clock;
    Behind m_behind;
    std::optional<people::Person> m_who;
    std::shared_ptr<people::Session> m_session;
    State m_state = State::Nobody;
    int m_wrongPinsLeft = people::Session::kMostWrongPins;
};

} // namespace coldarc::ui
