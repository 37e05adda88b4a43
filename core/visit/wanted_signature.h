#pragma once

#include "core/visit/state.h"

namespace coldarc::visit {

/// A signature that an entry asks for: sign-in, stop, incident, signing and closing; a second person's for
/// their press beside somebody's, that of whoever came only to prove absence for each proof, and both for the
/// removal of a lock.
struct WantedSignature {
    qint64 entry = 0;
    PersonId person;
    QString meaning; ///< a word of people::Meaning

    friend bool operator==(const WantedSignature&, const WantedSignature&) = default;
};

/// Every signature that these entries ask for, in their order.
[[nodiscard]] QList<WantedSignature> wantedSignatures(const QList<Entry>& entries, const VisitState& state);

} // namespace coldarc::visit
