#include "core/review/checked_record.h"

#include "core/base/words.h"
#include "core/review/kept_papers.h"

#include <algorithm>
#include <iterator>
#include <span>

namespace coldarc::review {
namespace {

/// The entries that its good signatures cover.
std::span<const visit::Entry> signedPartOf(const CheckedRecord& checked)
{
    const qsizetype covered = checked.found.signedUpTo + 1;
    return std::span(checked.entries)
        .first(static_cast<std::size_t>(std::min(covered, checked.entries.size())));
}

/// Whether it was read at all: one of a later program has a kind.
bool isRead(const visit::Entry& entry)
{
    const auto* unknown = std::get_if<visit::Unknown>(&entry.body);
    return !unknown || !unknown->kind.isEmpty();
}

/// What part each reviewer had in the visit, by everything that stands in it.
void addReviewerParts(CheckedRecord& checked)
{
    if (checked.found.reviews.empty())
        return;
    const QList<visit::Entry>& entries = checked.entries;
    const QList<HeadSigned> signatures = signaturesOf(checked.found);
    for (const record::Reviewed& one : checked.found.reviews) {
        checked.reviewerParts.push_back(partOf(reviewerOf(one), entries, signatures));
        const auto seen = std::min<qsizetype>(one.said.review.entry + 1, entries.size());
        checked.untoldParts.push_back(std::ranges::any_of(entries.first(seen), isUnreadable));
    }
}

/// What the signed entries say of people and pictures.
void addSaidBySigned(CheckedRecord& checked)
{
    for (const visit::Entry& entry : signedPartOf(checked)) {
        const auto name = [&](const visit::PersonFacts& person) {
            if (!checked.names.contains(person.id))
                checked.names.insert(person.id, person.name);
        };
        if (const auto* opening = std::get_if<visit::Opening>(&entry.body))
            std::ranges::for_each(opening->people, name);
        else if (const auto* joined = std::get_if<visit::Joined>(&entry.body))
            name(joined->person);
        checked.isOver = checked.isOver || std::holds_alternative<visit::Closed>(entry.body);
        for (const Hash& picture : visit::picturesOf(entry)) {
            if (!checked.named.contains(picture))
                checked.named.append(picture);
        }
    }
}

/// Holds the pictures that are there against those that entries name. What entries of a later program name,
/// nobody can tell; of those that nobody signed that is nobody's word either.
void addPictures(const record::Record& record, CheckedRecord& checked)
{
    QList<Hash> there;
    std::ranges::transform(record.pictures, std::back_inserter(there), &record::Picture::hash);
    std::ranges::copy_if(checked.named, std::back_inserter(checked.missing),
                         [&](const Hash& picture) { return !there.contains(picture); });
    there.removeIf([&](const Hash& picture) { return checked.named.contains(picture); });
    if (there.isEmpty())
        return;
    if (std::ranges::any_of(signedPartOf(checked), isUnreadable))
        return;
    QList<Hash> named;
    for (const visit::Entry& entry : std::as_const(checked.entries))
        named += visit::picturesOf(entry);
    const bool mayBeNamed = std::ranges::any_of(checked.entries, isUnreadable);
    for (const Hash& picture : std::as_const(there))
        (mayBeNamed || named.contains(picture) ? checked.namedUnsigned : checked.unnamed).append(picture);
}

/// Nobody signs what is not written yet: the days of whoever vouches, and of keys that were called out of
/// use, are held against the later of both moments.
void holdAgainstEntries(CheckedRecord& checked)
{
    const auto hold = [&](auto& one, qint64 entry, const QString& key, const PersonId& person) {
        if (entry >= checked.entries.size() || checked.entries[entry].at.wall <= one.heldAt)
            return;
        one.heldAt = checked.entries[entry].at.wall;
        one.known = checked.found.trust.of(key, person, one.heldAt);
    };
    for (record::Signed& one : checked.found.signatures) {
        if (!one.isFormer) // one of that form is held against every day
            hold(one, one.statement.sequence, one.thumbprint, one.statement.person);
    }
    for (record::Reviewed& one : checked.found.reviews)
        hold(one, one.said.review.entry, one.said.thumbprint, one.said.review.by);
}

void addUnvouched(const QString& office, CheckedRecord& checked)
{
    checked.office = office;
    if (office.isEmpty())
        return;
    const auto isUnvouched = [&](const auto& one) { return !record::isVouchedFor(one, {office}); };
    std::ranges::copy_if(checked.found.signatures, std::back_inserter(checked.unvouched), isUnvouched);
    std::ranges::copy_if(checked.found.reviews, std::back_inserter(checked.unvouchedReviews), isUnvouched);
}

} // namespace

QList<visit::Entry> entriesIn(const record::Record& record)
{
    QList<visit::Entry> entries;
    for (const QByteArray& bytes : record.entries)
        entries.append(visit::entryFrom(bytes).value_or(visit::Entry{{}, {}, visit::Unknown{}}));
    return entries;
}

bool isUnreadable(const visit::Entry& entry)
{
    return std::holds_alternative<visit::Unknown>(entry.body);
}

QList<HeadSigned> signaturesOf(const record::Verification& found)
{
    QList<HeadSigned> all;
    for (const record::Signed& one : found.signatures) {
        const people::HeadStatement& said = one.statement;
        all.append({said.sequence, said.person, wordText(people::wordOf(said.meaning)), said.at, true,
                    one.thumbprint, vouchedBy(one.known), one.isFormer, !one.known.outOfUse.empty()});
    }
    std::ranges::stable_sort(all, {}, &HeadSigned::entry);
    return all;
}

Reviewer reviewerOf(const record::Reviewed& one)
{
    Reviewer reviewer;
    reviewer.person.id = one.said.review.by;
    reviewer.person.name = one.said.review.name;
    reviewer.key = one.said.thumbprint;
    reviewer.otherNames = one.known.names();
    return reviewer;
}

bool RecordDoubts::isGood() const
{
    return !opensAnother && missing.isEmpty() && std::ranges::none_of(signatures, [](Why why) {
        return why == Why::LeadNotVouched || why == Why::SignatureMisdated;
    });
}

bool CheckedRecord::isReviewedByOwn() const
{
    return std::ranges::any_of(reviewerParts, [](const auto& part) { return part.has_value(); });
}

QList<visit::Entry> signedEntriesIn(const CheckedRecord& checked)
{
    const auto covered = signedPartOf(checked);
    return checked.entries.first(std::ranges::find_if_not(covered, isRead) - covered.begin());
}

CheckedRecord checkRecord(const QString& file, const record::Record& record, const QString& office)
{
    CheckedRecord checked{file, {}, record::verify(record), entriesIn(record)};
    holdAgainstEntries(checked);
    addSaidBySigned(checked);
    addPictures(record, checked);
    addReviewerParts(checked);
    addUnvouched(office, checked);
    return checked;
}

} // namespace coldarc::review
