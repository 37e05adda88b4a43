#pragma once

#include "core/people/authority.h"
#include "core/record/review.h"
#include "core/review/exceptions.h"

namespace coldarc::review {

/// How it stands with the review of a visit that is over.
enum class Stand : std::uint8_t {
    Waiting,
    Accepted,
    SentBack,
    Answered, ///< sent back, and a remark was added since
};
/// "waiting", "accepted", "sent-back", "answered".
[[nodiscard]] QString wordOf(Stand stand);
[[nodiscard]] std::optional<Stand> standFromWord(const QString& word);

/// By the last review: the one that looked furthest, of several the latest, of equal ones the one behind.
/// What was added since answers one that was sent back, and lets one that was accepted wait again.
/// @param entries  how many the visit has now.
[[nodiscard]] Stand standOf(const QList<record::Review>& reviews, qint64 entries);

/// Whom an opening or a coming tells of, as it calls them.
[[nodiscard]] QList<visit::PersonFacts> factsIn(const visit::Entry& entry);
/// Everybody whom an entry names, whoever wrote it among them, each once.
[[nodiscard]] QList<PersonId> peopleIn(const visit::Entry& entry);

/// Why a review cannot be given.
struct ReviewRefusal {
    enum class Kind : std::uint8_t {
        NotOver,
        NotUnderstood, ///< it has entries of a later program, so nobody can tell who took part
        TookPart,      ///< the reviewer is named in the visit, or a key of theirs signed in it
        NameTookPart,  ///< somebody of the reviewer's name, with another id: as another laptop may have it;
                       ///< by an entry, or by who vouches for a key that signed
        NoAuthority,   ///< no authorisation to supervise for every model of the visit, valid on this day
        OtherVisit,
        OtherPerson,     ///< the review says somebody else's id or name than the reviewer's
        NotTheLastEntry, ///< something was added since, or the chain is another one
        ClockBehind,     ///< the review's moment is long before the visit ended, or a review that was kept
                         ///< says the same moment or a later one, so that this one would stand behind it
        TextMissing,     ///< one that sends back says why
        RemarkEmpty,
        RemarkOnNoEntry,
        TooLong, ///< more than core/record/review.h lets be signed
    };
    Kind kind = Kind::NotOver;
    qint64 entry = -1;  ///< TookPart, NameTookPart: the first one that names them; RemarkOnNoEntry: as said
    qint64 remark = -1; ///< its place in the review, from 0
    people::Authority::Verdict verdict = people::Authority::Verdict::Valid; ///< NoAuthority: the worst
    WallTime after{}; ///< ClockBehind: a review of a later moment than this one can be given

    friend bool operator==(const ReviewRefusal&, const ReviewRefusal&) = default;
};

/// Whether two names read alike: spaces, capitals and what nobody sees tell no two people apart.
[[nodiscard]] bool isSameName(const QString& one, const QString& other);

/// Who reviews.
struct Reviewer {
    people::Person person;
    std::vector<people::Authorisation> authorisations{};
    QString key{};            ///< thumbprint of the key that will sign; empty: not known yet
    QStringList otherNames{}; ///< by which offices know whoever has that key

    friend bool operator==(const Reviewer&, const Reviewer&) = default;
};
/// Those of the other names that do not read like the reviewer's own, each once.
[[nodiscard]] QStringList namedOtherwise(const Reviewer& reviewer);

/// Whether a review that was given at that moment is dated before the last entry that it is about, or after
/// now, by more than two clocks may be apart.
[[nodiscard]] constexpr bool isMisdated(WallTime given, WallTime lastEntry, WallTime now)
{
    return given < lastEntry - kMostClockDifference || given > now + kMostClockDifference;
}

/// The first sign of a part that this reviewer had in a visit, of the kind TookPart or, where there is only
/// somebody of the same name, NameTookPart; nothing: they had none. Authorisations are not looked at.
[[nodiscard]] std::optional<ReviewRefusal>
partOf(const Reviewer& reviewer, const QList<visit::Entry>& entries, const QList<HeadSigned>& signatures);

/// The worst of what this person may do on that day as a supervisor of the models of a visit.
/// @param state  of a visit that was opened.
[[nodiscard]] people::Authority::Verdict supervises(const Reviewer& reviewer, const visit::VisitState& state,
                                                    people::Day day);

/// What is reviewed.
struct VisitAtReview {
    visit::VisitState state; ///< the fold of `entries`
    QList<visit::Entry> entries;
    Hash head;                       ///< the last link of the chain
    QList<HeadSigned> signatures{};  ///< every one that was kept, good or not
    QList<record::Review> reviews{}; ///< those that were kept
};

/// Every reason why this person cannot review this visit, whatever they say of it; none: they may. Nobody
/// reviews a visit that they had any part in, be it a countersignature or a lock that was removed.
[[nodiscard]] QList<ReviewRefusal> mayTakeUp(const Reviewer& reviewer, const VisitAtReview& visit,
                                             people::Day today);
/// The same, and what is wrong with the review itself.
[[nodiscard]] QList<ReviewRefusal> mayReview(const record::Review& review, const Reviewer& reviewer,
                                             const VisitAtReview& visit, people::Day today);

} // namespace coldarc::review
