#pragma once

#include "core/people/attempts.h"
#include "core/people/sealed_key.h"

namespace coldarc::people {

/// Where sealed keys are kept and the wrong tries at them counted, so that a restart forgives none.
class SealedKeys {
public:
    virtual ~SealedKeys() = default;

    /// The key in use of this holder. NotFound if there is none.
    [[nodiscard]] virtual Result<SealedKey> sealedKey(const PersonId& holder) const = 0;
    [[nodiscard]] virtual Result<Attempts> attempts(const PublicKey& key) const = 0;
    /// With no wrong ones: forgets them.
    virtual Result<void> setAttempts(const PublicKey& key, const Attempts& attempts) = 0;

protected:
    SealedKeys() = default;
    SealedKeys(const SealedKeys&) = default;
    SealedKeys& operator=(const SealedKeys&) = default;
};

} // namespace coldarc::people
