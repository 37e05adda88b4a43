#pragma once

#include "core/people/key_store.h"
#include "core/people/sign_in.h"
#include "ui/people/session_keeper.h"

#include <QHash>

namespace coldarc::ui {

/// Every key that can sign at this laptop now: that of whoever signed in, and those that others opened beside
/// it, each by their own passphrase and, later on, by their own PIN. Each locks by the same rule as
/// people::Session; when the key of whoever signed in locks, all others lock with it, and when they sign out,
/// all others are wiped. The slow part of every try runs behind.
class KeyRing final : public QObject {
    Q_OBJECT

public:
    /// How a person's key stands.
    enum class Stand {
        Shut, ///< not opened in this run: the passphrase opens it
        Busy, ///< a passphrase or PIN is being tried or set
        Open,
        Locked, ///< the PIN opens it
        Ended,  ///< only the passphrase opens it again
    };
    /// What came of something that a person gave.
    struct Answer {
        enum class Kind {
            Opened,
            PinSet,
            WrongPassphrase,
            MustWait, ///< nothing was tried, see `next`
            ShutForGood,
            NoKey,    ///< none is enrolled
            WrongPin, ///< see `pinsLeft`
            Ended,    ///< too many wrong PINs
            NotTried, ///< the disk or the memory refused; nothing was counted
        };
        Kind kind = Kind::NotTried;
        people::AttemptVerdict next{people::AttemptVerdict::Kind::Free, {}};
        int pinsLeft = 0;

        friend bool operator==(const Answer&, const Answer&) = default;
    };

    /// Borrows all of these, which must outlive the ring.
    /// @param pinCost  how dear one guess at a PIN is made; tests take less.
    KeyRing(people::KeyStore& keys, SessionKeeper& keeper, const Clock& clock, Behind behind,
            people::GuessCost pinCost = people::kShippedCost, QObject* parent = nullptr);
    ~KeyRing() override;

    /// As of the last look.
    [[nodiscard]] Stand standOf(const PersonId& person) const;
    /// Open, and no PIN was set: when it locks it has ended.
    [[nodiscard]] bool needsPin(const PersonId& person) const;
    /// Whose key is that of the session that the window stands under.
    [[nodiscard]] bool isKeepers(const PersonId& person) const;

    /// Tries a passphrase at a key that is shut or has ended; nothing happens at any other.
    void open(const PersonId& person, const people::TypedSecret& passphrase);
    /// Nothing happens unless it is open.
    void setPin(const PersonId& person, people::Pin pin);
    /// Nothing happens unless it is locked.
    void unlock(const PersonId& person, const people::TypedSecret& pin);

    /// Looks at the clock; whoever owns the ring calls it every second.
    void look();
    /// This person pressed something.
    void press(const PersonId& person);
    /// As for people::Session; counts for keys that are opened meanwhile as well.
    void holdOpen();
    void release();
    void lockAll();
    /// This person went away: the key is wiped. The one of whoever signed in stays with the window.
    void wipe(const PersonId& person);

    /// Error::Refused unless that person's key is open.
    [[nodiscard]] Result<people::Signature> sign(const PersonId& person,
                                                 const people::HeadStatement& statement);
    [[nodiscard]] Result<people::Signature> sign(const PersonId& person, const people::PaperJws& paper);
    /// Nothing unless it was opened in this run.
    [[nodiscard]] std::optional<people::PublicKey> publicKey(const PersonId& person) const;

Q_SIGNALS:
    /// A key opened or locked, or something is being tried.
    void changed();
    void answered(const coldarc::PersonId& person, const coldarc::ui::KeyRing::Answer& answer);

private:
    struct Slot {
        std::shared_ptr<people::Session> session; ///< nullptr: a first passphrase is being tried
        Stand stand = Stand::Busy;
        bool hasPin = false;
        bool locksWhenFree = false;
        int turn = 0; ///< of the last thing that was begun with it
    };
    [[nodiscard]] Slot* freeSlot(const PersonId& person, Stand wanted);
    [[nodiscard]] bool isStill(const PersonId& person, int turn) const;
    void opened(const people::OpenTry& started, Result<people::SigningKey> key, const Stamp& now, int turn);
    void fails(const PersonId& person, Answer answer);
    void endWork(const PersonId& person, const Answer& answer);
    void lookAt(Slot& slot);
    void followKeeper();

    people::KeyStore& m_keys;
    SessionKeeper& m_keeper;
    const Clock& m_clock;
    Behind m_behind;
    people::GuessCost m_pinCost;
    QHash<PersonId, Slot> m_slots;
    int m_turns = 0;
    bool m_held = false;
};

} // namespace coldarc::ui
