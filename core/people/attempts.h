#pragma once

#include "core/base/clock.h"

#include <chrono>
#include <optional>

namespace coldarc::people {

/// Wrong passphrases of one person, one after the other. Stored, so that a restart forgives nothing.
struct Attempts {
    int wrong = 0;
    std::optional<Stamp> lastWrong; ///< nothing if there was none

    friend bool operator==(const Attempts&, const Attempts&) = default;
};

/// So many wrong ones in a row and the key stays shut for good; its owner enrols a new one. NIST SP 800-63B-4
/// (second public draft) allows no more than 100.
inline constexpr int kMostWrongPassphrases = 100;

/// How long the next try waits after `wrong` wrong ones: nothing up to 3, then 30 s, doubled with each
/// further one up to an hour. SP 800-63B-4 (second public draft) allows waits of 30 s to 1 h that grow; where
/// they begin is ours.
[[nodiscard]] std::chrono::milliseconds delayAfter(int wrong);

/// Whether a passphrase may be tried.
struct AttemptVerdict {
    enum class Kind {
        Free,
        Waits,    ///< for `left`
        Exhausted ///< never again with this key
    };
    Kind kind = Kind::Exhausted;
    std::chrono::milliseconds left{0};

    friend bool operator==(const AttemptVerdict&, const AttemptVerdict&) = default;
};

/// The wait runs on the boot clock. After a restart of the same computer only the time since that restart
/// counts, so that setting the wall clock shortens nothing. On another computer the wall time counts, never
/// for more than the whole wait: no boot clock there has seen the try.
[[nodiscard]] AttemptVerdict attemptVerdict(const Attempts& attempts, const Stamp& now);

/// One more wrong one, at `now`.
[[nodiscard]] Attempts afterWrong(const Attempts& attempts, const Stamp& now);

} // namespace coldarc::people
