#include "core/review/record_doubts.h"

#include "core/visit/evolve.h"

#include <algorithm>

namespace coldarc::review {
namespace {

using Why = record::Intake::Why;

bool isKept(const record::Reviewed& one, const record::Standing& standing)
{
    return standing.reviews.contains(one.id.bytes());
}

/// What speaks against a review, by the entries that it looked at and this computer's clock.
Why reviewDoubt(const record::Reviewed& one, const Reviewer& reviewer, const QList<visit::Entry>& entries,
                WallTime now)
{
    const record::Review& said = one.said.review;
    const QList<visit::Entry> seen = entries.first(said.entry + 1);
    const visit::VisitState state = visit::fold(seen);
    if (std::ranges::any_of(seen, isUnreadable) || state.isReadOnly || !state.ground)
        return Why::NotUnderstood;
    if (state.end.isEmpty())
        return Why::VisitNotOver;
    if (isMisdated(said.at, seen.last().at.wall, now))
        return Why::ReviewMisdated;
    return namedOtherwise(reviewer).isEmpty() ? Why::None : Why::ReviewerNamedOtherwise;
}

} // namespace

bool lacksASignature(const QList<visit::Entry>& entries, const visit::VisitState& state,
                     const record::Verification& found)
{
    QList<visit::WantedSignature> wanted = visit::wantedSignatures(entries, state);
    wanted.removeIf([&](const visit::WantedSignature& one) {
        const visit::Body& body = entries[one.entry].body;
        return !std::holds_alternative<visit::Signed>(body) && !std::holds_alternative<visit::Closed>(body) &&
               !std::holds_alternative<visit::Addendum>(body);
    });
    return !unanswered(wanted, signaturesOf(found)).isEmpty();
}

bool bringsAReview(const record::Verification& found, const record::Standing& standing)
{
    return !std::ranges::all_of(found.reviews,
                                [&](const record::Reviewed& one) { return isKept(one, standing); });
}

record::EntriesTold toldOfReviews(const record::Record& record, const CheckedRecord& checked,
                                  const record::Standing& standing, const VisitHere& here,
                                  const QHash<QString, QString>& ownNames, WallTime now)
{
    record::EntriesTold told;
    if (!checked.found.isGood())
        return told;
    const QList<visit::Entry> entries = entriesIn(record);
    const QList<HeadSigned> signatures = signaturesOf(checked.found);
    for (const record::Reviewed& one : checked.found.reviews) {
        if (isKept(one, standing))
            continue;
        Reviewer reviewer = reviewerOf(one);
        if (const auto own = ownNames.constFind(one.said.thumbprint); own != ownNames.cend())
            reviewer.otherNames.append(*own);
        if (partOf(reviewer, entries, signatures) || partOf(reviewer, here.entries, here.signatures))
            told.nameAReviewer = true;
        if (told.doubtsAReview == Why::None)
            told.doubtsAReview = reviewDoubt(one, reviewer, entries, now);
    }
    return told;
}

bool isByOwnSupervisor(const record::Review& review, const people::KnownOfKey& known,
                       const Reviewer& reviewer, const visit::VisitState& state)
{
    return known.listed == people::KnownOfKey::Listed::Theirs && state.ground &&
           supervises(reviewer, state, people::utcDayOf(review.at)) == people::Authority::Verdict::Valid;
}

} // namespace coldarc::review
