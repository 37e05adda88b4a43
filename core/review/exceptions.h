#pragma once

#include "core/people/calendar.h"
#include "core/people/person.h"
#include "core/review/exception.h"
#include "core/visit/state.h"
#include "core/visit/wanted_signature.h"

#include <QList>

namespace coldarc::review {

/// An office says whose a key is, in its own words and for these days.
struct VouchedBy {
    QString office; ///< thumbprint of its key
    QString name;
    people::Role role = people::Role::Engineer;
    people::Day from{};
    people::Day until{}; ///< the last one

    friend bool operator==(const VouchedBy&, const VouchedBy&) = default;
};

/// A signature that was kept over one entry.
struct HeadSigned {
    qint64 entry = 0;
    PersonId person;     ///< as the signature says; one in the former form says none
    QString meaning;     ///< a word of people::Meaning
    WallTime at{};       ///< as the signature says; one in the former form says none
    bool isGood = false; ///< it verifies over this entry; whose the key is, those say who vouch for it
    QString key{};       ///< its thumbprint
    QList<VouchedBy> vouchedBy{}; ///< none: nobody does
    bool isFormer = false;        ///< of the form that names neither person nor moment
    /// An office says that the key was out of use on that day, or the workspace's own list does; of one in
    /// the former form an office, on whichever.
    bool isOutOfUse = false;

    [[nodiscard]] bool counts() const { return isGood && !isOutOfUse; }

    friend bool operator==(const HeadSigned&, const HeadSigned&) = default;
};

/// Those of `wanted` that none of these signatures answers: one of that person, with that meaning, over that
/// entry. One in the former form, which names nobody, answers a single one of its meaning and entry.
[[nodiscard]] QList<visit::WantedSignature> unanswered(QList<visit::WantedSignature> wanted,
                                                       const QList<HeadSigned>& signatures);

// House figures, common practice, no source.

/// A visit that takes this many times as long as its procedures foresee is told.
inline constexpr double kTookLong = 2;
/// So is one that takes less than this part of it.
inline constexpr double kTookLittle = 0.5;
/// Minutes between the last work and signing for it, and between an entry and a key's signature over it.
inline constexpr double kLateSignOff = 60;

/// How far the clocks of two computers may be apart: a review may be dated that much before the last entry, a
/// signature that much before its own.
inline constexpr std::chrono::hours kMostClockDifference{24};

/// Whether a signature says to be older than the entry that it is over, by more than two clocks may be apart.
[[nodiscard]] constexpr bool isBeforeItsEntry(WallTime given, WallTime entry)
{
    return given < entry - kMostClockDifference;
}

/// Everything out of the ordinary, those that weigh most first, of equal ones the earlier first.
///
/// What the machine itself noticed stands in the state; corrected readings, the light, the time that it took,
/// the counter and the signatures are looked at here.
/// @param state       the fold of `entries`; nothing is out of the ordinary where the visit was never opened.
/// @param signatures  those that were kept; nullptr: not known, so nothing is said of them.
[[nodiscard]] QList<Exception> exceptionsOf(const visit::VisitState& state,
                                            const QList<visit::Entry>& entries,
                                            const QList<HeadSigned>* signatures = nullptr);

/// The same as if whoever leads signed and closed the visit at `now`: what only its end shows stands behind
/// the last entry. Of one that is closed nothing changes.
[[nodiscard]] QList<Exception> exceptionsIfClosed(const visit::VisitState& state,
                                                  const QList<visit::Entry>& entries, const Stamp& now,
                                                  const QList<HeadSigned>* signatures = nullptr);

} // namespace coldarc::review
