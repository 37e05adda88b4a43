#pragma once

#include "core/people/sealed_keys.h"

#include <optional>
#include <variant>

namespace coldarc::people {

/// The passphrase opened the key.
struct SignedIn {
    SigningKey key;
};

/// It did not, or was not tried.
struct TurnedAway {
    enum class Why : std::uint8_t {
        WrongPassphrase,
        MustWait, ///< nothing was tried
        KeyShut,  ///< wrong too often: nothing was tried, and nothing will be
    };
    Why why = Why::WrongPassphrase;
    AttemptVerdict next; ///< when the next try is free

    friend bool operator==(const TurnedAway&, const TurnedAway&) = default;
};

/// Tries a passphrase at a person's key. The try is written down as a wrong one before it is made, and taken
/// back when it was right: pulling the plug in between gains nothing.
///
/// NotFound if the person has no key in use; Malformed if the stored seal is no seal; Storage if the disk or
/// the memory refused.
[[nodiscard]] Result<std::variant<SignedIn, TurnedAway>>
signIn(SealedKeys& keys, const PersonId& person, const TypedSecret& passphrase, const Stamp& now);

/// A try at a passphrase that was written down and is under way: the two halves of `signIn`, for whoever
/// opens the key on another thread in between.
struct OpenTry {
    PersonId person;
    SealedKey sealed;
    Attempts before;  ///< before this try
    Attempts counted; ///< with this try as a wrong one, as it is written down now
};

/// The first half: writes the try down as a wrong one. Then `openKey(sealed, person, passphrase)` is due,
/// wherever that runs, and `endTry`; a try that is never ended stays a wrong one. Errors as for signIn.
[[nodiscard]] Result<std::variant<OpenTry, TurnedAway>> beginTry(SealedKeys& keys, const PersonId& person,
                                                                 const Stamp& now);
/// The second half, with what openKey gave. @param now  the same as at beginTry. Errors as for signIn.
[[nodiscard]] Result<std::variant<SignedIn, TurnedAway>> endTry(SealedKeys& keys, const OpenTry& started,
                                                                Result<SigningKey> opened, const Stamp& now);
/// The same where the key is not needed: nothing for the right passphrase.
/// @param opened  that it opened, or why not, as openKey says it.
[[nodiscard]] Result<std::optional<TurnedAway>> countTry(SealedKeys& keys, const OpenTry& started,
                                                         const Result<void>& opened, const Stamp& now);

} // namespace coldarc::people
