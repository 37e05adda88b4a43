#pragma once

#include "core/review/exception.h"
#include "core/visit/state.h"

#include <QList>

namespace coldarc::review {

/// A signature that was kept over one entry.
struct HeadSigned {
    qint64 entry = 0;
    PersonId person;
    QString meaning;     ///< a word of people::Meaning
    WallTime at{};       ///< as the signature says; of one in the former form, as the workspace says
    bool isGood = false; ///< it verifies, over this entry, by this person's key

    friend bool operator==(const HeadSigned&, const HeadSigned&) = default;
};

// House figures, common practice, no source.

/// A visit that takes this many times as long as its procedures foresee is told.
inline constexpr double kTookLong = 2;
/// So is one that takes less than this part of it.
inline constexpr double kTookLittle = 0.5;
/// Minutes between the last work and the signature for it.
inline constexpr double kLateSignOff = 60;

/// Everything out of the ordinary, those that weigh most first, of equal ones the earlier first.
///
/// What the machine itself noticed stands in the state; corrected readings, the light, the time that it took,
/// the counter and the signatures are looked at here.
/// @param state       the fold of `entries`; nothing is out of the ordinary where the visit was never opened.
/// @param signatures  those that were kept; nullptr: not known, so nothing is said of them.
[[nodiscard]] QList<Exception> exceptionsOf(const visit::VisitState& state,
                                            const QList<visit::Entry>& entries,
                                            const QList<HeadSigned>* signatures = nullptr);

} // namespace coldarc::review
