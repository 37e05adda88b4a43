#include "core/people/sign_in.h"

namespace coldarc::people {

Result<std::variant<OpenTry, TurnedAway>> beginTry(SealedKeys& keys, const PersonId& person, const Stamp& now)
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
    return OpenTry{person, *sealed, *before, counted};
}

Result<std::optional<TurnedAway>> countTry(SealedKeys& keys, const OpenTry& started,
                                           const Result<void>& opened, const Stamp& now)
{
    if (!opened && opened.error().kind == Error::Kind::Refused)
        return TurnedAway{TurnedAway::Why::WrongPassphrase, attemptVerdict(started.counted, now)};

    const auto restored = keys.setAttempts(started.sealed.publicKey, opened ? Attempts{} : started.before);
    if (!opened)
        return tl::unexpected(opened.error()); // the computer could not try
    if (!restored)
        return tl::unexpected(restored.error());
    return std::nullopt;
}

Result<std::variant<SignedIn, TurnedAway>> endTry(SealedKeys& keys, const OpenTry& started,
                                                  Result<SigningKey> opened, const Stamp& now)
{
    const auto away = countTry(keys, started, opened ? Result<void>() : tl::unexpected(opened.error()), now);
    if (!away)
        return tl::unexpected(away.error());
    if (*away)
        return **away;
    return SignedIn{std::move(*opened)};
}

Result<std::variant<SignedIn, TurnedAway>> signIn(SealedKeys& keys, const PersonId& person,
                                                  const TypedSecret& passphrase, const Stamp& now)
{
    const auto begun = beginTry(keys, person, now);
    if (!begun)
        return tl::unexpected(begun.error());
    if (const auto* away = std::get_if<TurnedAway>(&*begun))
        return *away;
    const OpenTry& started = std::get<OpenTry>(*begun);
    return endTry(keys, started, openKey(started.sealed, person, passphrase), now);
}

} // namespace coldarc::people
