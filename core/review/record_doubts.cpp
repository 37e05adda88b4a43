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

/// By which names the entries call each person.
QMultiHash<PersonId, QString> namesIn(const QList<visit::Entry>& entries)
{
    QMultiHash<PersonId, QString> names;
    for (const visit::Entry& entry : entries) {
        for (const visit::PersonFacts& one : factsIn(entry))
            names.insert(one.id, one.name);
    }
    return names;
}

/// Whether a role leads work on lamps.
bool leads(people::Role role)
{
    return role == people::Role::Engineer || role == people::Role::Supervisor;
}

/// Signing for the work; a visit is closed by whoever is there, where the lead was hurt.
bool isForTheWork(const people::HeadStatement& said, const QList<visit::Entry>& entries)
{
    return said.meaning == people::Meaning::Performed && said.sequence < entries.size() &&
           std::holds_alternative<visit::Signed>(entries[said.sequence].body);
}

} // namespace

Why doubtOfSigners(const QList<visit::Entry>& entries, const record::Verification& found,
                   const people::Trust& trust)
{
    const QMultiHash<PersonId, QString> names = namesIn(entries);
    for (const record::Signed& one : found.signatures) {
        const people::HeadStatement& said = one.statement;
        const auto vouched = trust.of(one.thumbprint, said.person, said.at).stillVouchedBy();
        if (one.isFormer || vouched.empty())
            continue;
        const QStringList called = names.values(said.person);
        const bool isCalledSo = std::ranges::all_of(called, [&](const QString& name) {
            return std::ranges::any_of(vouched, [&](const people::Certified& paper) {
                return isSameName(name, paper.enrolment.name);
            });
        });
        if (!isCalledSo)
            return Why::SignerNamedOtherwise;
        if (isForTheWork(said, entries) && std::ranges::none_of(vouched, [](const people::Certified& paper) {
                return leads(paper.enrolment.role);
            }))
            return Why::LeadNotVouched;
    }
    return Why::None;
}

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

bool isByOwnSupervisor(const people::KnownOfKey& known, const Reviewer& reviewer,
                       const visit::VisitState& state, people::Day day)
{
    return known.listed == people::KnownOfKey::Listed::Theirs && state.ground &&
           supervises(reviewer, state, day) == people::Authority::Verdict::Valid;
}

} // namespace coldarc::review
