#include "core/people/sign_in.h"

namespace coldarc::people {

Result<std::variant<SignedIn, TurnedAway>> signIn(KeyStore& keys, const PersonId& person,
                                                  const QString& passphrase, const Stamp& now)
{
    const auto sealed = keys.sealedKey(person);
    if (!sealed)
        return tl::unexpected(sealed.error());
    const auto before = keys.attempts(sealed->publicKey);
    if (!before)
        return tl::unexpected(before.error());
    const AttemptVerdict verdict = attemptVerdict(*before, now);
    if (verdict.kind == AttemptVerdict::Kind::Exhausted)
        return TurnedAway{TurnedAway::Why::KeyShut, verdict};
    if (verdict.kind == AttemptVerdict::Kind::Waits)
        return TurnedAway{TurnedAway::Why::MustWait, verdict};

    const Attempts counted = afterWrong(*before, now);
    if (const auto written = keys.setAttempts(sealed->publicKey, counted); !written)
        return tl::unexpected(written.error());
    auto key = openKey(*sealed, person, passphrase);
    if (!key && key.error().kind == Error::Kind::Refused)
        return TurnedAway{TurnedAway::Why::WrongPassphrase, attemptVerdict(counted, now)};

    const auto restored = keys.setAttempts(sealed->publicKey, key ? Attempts{} : *before);
    if (!key)
        return tl::unexpected(key.error()); // the computer could not try
    if (!restored)
        return tl::unexpected(restored.error());
    return SignedIn{std::move(*key), isBelowFloor(sealed->cost)};
}

} // namespace coldarc::people
