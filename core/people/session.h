#pragma once

#include "core/base/clock.h"
#include "core/people/sealed_key.h"

#include <memory>

namespace coldarc::people {

struct PaperJws;

/// The running session of one person who gave their passphrase: the open key, and when it locks.
///
/// The key locks after kIdle without a press, unless held open because somebody is in the zone; and whenever
/// the computer slept, was restarted, or its boot clock cannot be told from an earlier one, held open or not.
/// Locking wipes it; what stays is a copy put away under the PIN, if one was set, which opens it again. The
/// tenth wrong PIN in a row wipes that too: then only the passphrase helps, in a new session.
///
/// Nothing here runs by itself: every call looks at the stamp first, so whoever owns the session calls
/// `state` now and then, so that an idle key goes from memory when its time has come. One thread at a time.
class Session {
public:
    static constexpr std::chrono::milliseconds kIdle = std::chrono::minutes(10);
    /// NIST SP 800-63B-4 (second public draft): at most ten wrong activation secrets in a row.
    static constexpr int kMostWrongPins = 10;

    enum class State : std::uint8_t {
        Open,   ///< signs
        Locked, ///< opens again by PIN
        Ended,  ///< opens again by a new session only
    };
    enum class PinOutcome : std::uint8_t {
        Opened,
        Wrong,  ///< see wrongPinsLeft
        Ended,  ///< the key is gone; the right PIN is refused as well
        NoNeed, ///< it is open already; nothing was tried
    };

    /// @param pinCost  how dear one guess at the PIN is, if the memory of the program falls into wrong hands.
    Session(PersonId person, SigningKey key, const Stamp& now, GuessCost pinCost = kShippedCost);
    ~Session();
    Session(Session&&) noexcept;
    Session& operator=(Session&&) noexcept;

    [[nodiscard]] const PersonId& person() const { return m_person; }
    [[nodiscard]] const PublicKey& publicKey() const { return m_publicKey; }
    [[nodiscard]] State state(const Stamp& now);
    /// How many more wrong PINs the session bears.
    [[nodiscard]] int wrongPinsLeft() const { return kMostWrongPins - m_wrongPins; }

    /// Sets or replaces the PIN. Error::Refused unless open; Error::Storage if there is not enough memory for
    /// the cost, the earlier PIN then stays.
    [[nodiscard]] Result<void> setPin(const Pin& pin, const Stamp& now);
    /// A press of a key or of the mouse by this person. A locked key stays locked.
    void press(const Stamp& now);
    /// From here on being idle does not lock: the first gear goes on. A locked key stays locked.
    void holdOpen(const Stamp& now);
    /// From here on it does, the time counting from `now`: the housing is shut.
    void release(const Stamp& now);
    /// At once, held open or not. Without a PIN the session ends.
    void lock();
    /// Tries a PIN. A wrong one counts, the right one sets the count back. Error::Storage if there is not
    /// enough memory to try; nothing was counted.
    [[nodiscard]] Result<PinOutcome> unlock(const TypedSecret& pin, const Stamp& now);

    /// Signs the head of a visit. Error::Refused unless open, Error::Malformed as for signedMessage. Signing
    /// is no press.
    [[nodiscard]] Result<Signature> sign(const HeadStatement& statement, const Stamp& now);
    /// Signs another paper. Error::Refused unless open, Error::Malformed for one whose header has no `typ`.
    [[nodiscard]] Result<Signature> sign(const PaperJws& paper, const Stamp& now);

private:
    struct PutAway; ///< the seed under the PIN

    void lookAt(const Stamp& now);
    [[nodiscard]] bool mustLock(const Stamp& now) const;
    [[nodiscard]] PinOutcome countWrongPin();

    PersonId m_person;
    PublicKey m_publicKey;
    std::optional<SigningKey> m_key;
    std::unique_ptr<PutAway> m_putAway;
    GuessCost m_pinCost;
    Stamp m_lastPress;
    Stamp m_lastSeen;
    std::chrono::milliseconds m_asleepAtOpening{0};
    int m_wrongPins = 0;
    bool m_held = false;
};

} // namespace coldarc::people
