#pragma once

#include "core/review/exceptions.h"
#include "core/visit/wanted_signature.h"
#include "tests/core/visit/night.h"

namespace coldarc::test {

/// Every signature that is wanted, made when its entry was, by a key that an invented office vouches for.
inline QList<review::HeadSigned> signedAsWanted(const Night& night)
{
    const review::VouchedBy office{QStringLiteral("invented-office"), QStringLiteral("A. Okoro"),
                                   people::Role::Engineer, *people::dayFromIso(QStringLiteral("2025-11-01")),
                                   *people::dayFromIso(QStringLiteral("2026-10-31"))};
    QList<review::HeadSigned> all;
    for (const visit::WantedSignature& one : visit::wantedSignatures(night.entries, night.state))
        all.append({one.entry,
                    one.person,
                    one.meaning,
                    night.entries[one.entry].at.wall,
                    true,
                    QStringLiteral("invented-key"),
                    {office}});
    return all;
}

} // namespace coldarc::test
