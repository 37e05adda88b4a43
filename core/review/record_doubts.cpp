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

/// What speaks against a review of entries of this fold.
Why doubtOf(const visit::VisitState& state, bool areAllRead)
{
    if (!areAllRead || state.isReadOnly || !state.ground)
        return Why::NotUnderstood;
    return state.end.isEmpty() ? Why::VisitNotOver : Why::None;
}

/// What speaks against a review, by the entries that it looked at and this computer's clock.
Why reviewDoubt(const record::Reviewed& one, const Reviewer& reviewer, const CheckedRecord& checked,
                const FoldedRecord& folded, WallTime now)
{
    const record::Review& said = one.said.review;
    if (const Why why = folded.doubts.at(said.entry); why != Why::None)
        return why;
    if (isMisdated(said.at, checked.entries[said.entry].at.wall, now))
        return Why::ReviewMisdated;
    return namedOtherwise(reviewer).isEmpty() ? Why::None : Why::ReviewerNamedOtherwise;
}

/// Everything that speaks against a review by its own record.
QList<Why> doubtsOfReview(const record::Reviewed& one, const CheckedRecord& checked,
                          const FoldedRecord& folded, std::optional<WallTime> now)
{
    QList<Why> whys;
    const record::Review& said = one.said.review;
    if (const Why why = folded.doubts.at(said.entry); why != Why::None)
        whys.append(why);
    if (isMisdated(said.at, checked.entries[said.entry].at.wall, now.value_or(said.at)))
        whys.append(Why::ReviewMisdated);
    if (said.entry > checked.found.signedUpTo)
        whys.append(Why::ReviewOfUnsigned);
    const auto vouched = one.known.stillVouchedBy();
    const bool isSupervisors = std::ranges::any_of(vouched, [](const people::Certified& paper) {
        return paper.enrolment.role == people::Role::Supervisor;
    });
    if (!isSupervisors)
        whys.append(Why::ReviewerNotVouched);
    return whys;
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

/// Signing for the work, and closing; where somebody was hurt a visit is closed by whoever is there.
bool isForTheWork(const people::HeadStatement& said, const FoldedRecord& folded)
{
    return said.meaning == people::Meaning::Performed && said.sequence < folded.entries.size() &&
           (std::holds_alternative<visit::Signed>(folded.entries[said.sequence].body) ||
            folded.ledClosings.contains(said.sequence));
}

/// What speaks against one who signed.
Why doubtOfSigner(const record::Signed& one, const FoldedRecord& folded,
                  const QMultiHash<PersonId, QString>& names, const people::Trust& trust)
{
    const people::HeadStatement& said = one.statement;
    if (one.isFormer)
        return Why::None;
    if (said.sequence < folded.entries.size() &&
        isBeforeItsEntry(said.at, folded.entries[said.sequence].at.wall))
        return Why::SignatureMisdated;
    const auto vouched = trust.of(one.thumbprint, said.person, one.heldAt).stillVouchedBy();
    if (vouched.empty())
        return Why::None;
    const bool isCalledSo = std::ranges::all_of(names.values(said.person), [&](const QString& name) {
        return std::ranges::any_of(
            vouched, [&](const people::Certified& paper) { return isSameName(name, paper.enrolment.name); });
    });
    if (!isCalledSo)
        return Why::SignerNamedOtherwise;
    const bool mayLead = std::ranges::any_of(
        vouched, [](const people::Certified& paper) { return leads(paper.enrolment.role); });
    return isForTheWork(said, folded) && !mayLead ? Why::LeadNotVouched : Why::None;
}

} // namespace

Why doubtOfSigners(const FoldedRecord& folded, const record::Verification& found, const people::Trust& trust,
                   const record::Standing& standing)
{
    const QMultiHash<PersonId, QString> names = namesIn(folded.entries);
    for (const record::Signed& one : found.signatures) {
        const Why why =
            standing.signatures.contains(one.bytes) ? Why::None : doubtOfSigner(one, folded, names, trust);
        if (why != Why::None)
            return why;
    }
    return Why::None;
}

FoldedRecord foldRecord(const CheckedRecord& checked)
{
    FoldedRecord folded{signedEntriesIn(checked), {}, {}, {}};
    if (checked.found.isGood()) {
        for (const record::Reviewed& one : checked.found.reviews)
            folded.doubts.emplace(one.said.review.entry, Why::None);
    }
    const qint64 reviewed = folded.doubts.empty() ? 0 : folded.doubts.rbegin()->first + 1;
    visit::VisitState state;
    bool areAllRead = true;
    for (qint64 number = 0; number < std::max<qint64>(folded.entries.size(), reviewed); ++number) {
        const visit::Entry& entry = checked.entries[number];
        if (std::holds_alternative<visit::Closed>(entry.body) && !state.machine.hurt)
            folded.ledClosings.insert(number);
        state = visit::evolve(std::move(state), entry);
        areAllRead = areAllRead && !isUnreadable(entry);
        if (number + 1 == folded.entries.size())
            folded.state = state;
        if (const auto doubt = folded.doubts.find(number); doubt != folded.doubts.end())
            doubt->second = doubtOf(state, areAllRead);
    }
    return folded;
}

bool opensAnother(const FoldedRecord& folded, const VisitId& visit)
{
    const auto* opening =
        folded.entries.isEmpty() ? nullptr : std::get_if<visit::Opening>(&folded.entries.first().body);
    return opening && opening->visit != visit;
}

bool lacksASignature(const FoldedRecord& folded, const record::Verification& found)
{
    return !missingSignatures(folded, found).isEmpty();
}

QList<visit::WantedSignature> missingSignatures(const FoldedRecord& folded, const record::Verification& found)
{
    QList<visit::WantedSignature> wanted = visit::wantedSignatures(folded.entries, folded.state);
    wanted.removeIf([&](const visit::WantedSignature& one) {
        const visit::Body& body = folded.entries[one.entry].body;
        return !std::holds_alternative<visit::Signed>(body) && !std::holds_alternative<visit::Closed>(body) &&
               !std::holds_alternative<visit::Addendum>(body);
    });
    return unanswered(wanted, signaturesOf(found));
}

RecordDoubts doubtsOf(const CheckedRecord& checked, const FoldedRecord& folded, std::optional<WallTime> now)
{
    RecordDoubts doubts;
    const record::Verification& found = checked.found;
    if (!found.isGood())
        return doubts;
    doubts.opensAnother = opensAnother(folded, found.visit);
    doubts.missing = missingSignatures(folded, found);
    const QMultiHash<PersonId, QString> names = namesIn(folded.entries);
    for (const record::Signed& one : found.signatures)
        doubts.signatures.push_back(doubtOfSigner(one, folded, names, found.trust));
    for (const record::Reviewed& one : found.reviews)
        doubts.reviews.push_back(doubtsOfReview(one, checked, folded, now));
    return doubts;
}

bool bringsAReview(const record::Verification& found, const record::Standing& standing)
{
    return !std::ranges::all_of(found.reviews,
                                [&](const record::Reviewed& one) { return isKept(one, standing); });
}

record::EntriesTold toldOfReviews(const CheckedRecord& checked, const FoldedRecord& folded,
                                  const record::Standing& standing, const VisitHere& here,
                                  const QHash<QString, QString>& ownNames, WallTime now)
{
    record::EntriesTold told;
    if (!checked.found.isGood())
        return told;
    const QList<HeadSigned> signatures = signaturesOf(checked.found);
    for (const record::Reviewed& one : checked.found.reviews) {
        if (isKept(one, standing))
            continue;
        Reviewer reviewer = reviewerOf(one);
        if (const auto own = ownNames.constFind(one.said.thumbprint); own != ownNames.cend())
            reviewer.otherNames.append(*own);
        if (partOf(reviewer, checked.entries, signatures) || partOf(reviewer, here.entries, here.signatures))
            told.nameAReviewer = true;
        if (told.doubtsAReview == Why::None)
            told.doubtsAReview = reviewDoubt(one, reviewer, checked, folded, now);
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
