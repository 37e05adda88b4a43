#include "app/record_intake.h"

#include "app/review_reading.h"
#include "core/people/jws.h"
#include "core/people/read_trust.h"
#include "core/record/record_file.h"
#include "core/review/summary.h"
#include "core/visit/evolve.h"

#include <QFile>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::app {

using record::Intake;
using record::TakenRecord;

namespace {

/// The entries that signatures cover, as far as this program understands them.
QList<visit::Entry> signedEntriesOf(const record::Record& record, const record::Verification& found)
{
    QList<visit::Entry> entries;
    for (const QByteArray& bytes : signedPartOf(record, found)) {
        const auto entry = visit::entryFrom(bytes);
        if (!entry)
            break;
        entries.append(*entry);
    }
    return entries;
}

/// Signing and closing say that somebody signed: their keys have to say so too, each for the very person that
/// the entry asks for.
bool lacksASignature(const QList<visit::Entry>& entries, const visit::VisitState& state,
                     const record::Verification& found)
{
    QList<visit::WantedSignature> wanted = visit::wantedSignatures(entries, state);
    wanted.removeIf([&](const visit::WantedSignature& one) {
        const visit::Body& body = entries[one.entry].body;
        return !std::holds_alternative<visit::Signed>(body) && !std::holds_alternative<visit::Closed>(body) &&
               !std::holds_alternative<visit::Addendum>(body);
    });
    return !review::unanswered(wanted, signaturesOf(found)).isEmpty();
}

/// What speaks against a review, by the entries that it looked at and this computer's clock.
Intake::Why doubtOf(const record::Reviewed& one, const review::Reviewer& reviewer,
                    const QList<visit::Entry>& entries, WallTime now)
{
    const record::Review& said = one.said.review;
    const QList<visit::Entry> seen = entries.first(said.entry + 1);
    const visit::VisitState state = visit::fold(seen);
    if (std::ranges::any_of(seen, isUnreadable) || state.isReadOnly || !state.ground)
        return Intake::Why::NotUnderstood;
    if (state.end.isEmpty())
        return Intake::Why::VisitNotOver;
    if (review::isMisdated(said.at, seen.last().at.wall, now))
        return Intake::Why::ReviewMisdated;
    const bool isNamedSo = std::ranges::all_of(reviewer.otherNames, [&](const QString& name) {
        return review::isSameName(name, reviewer.person.name);
    });
    return isNamedSo ? Intake::Why::None : Intake::Why::ReviewerNamedOtherwise;
}

/// What this workspace has of a visit.
struct Here {
    QList<visit::Entry> entries;
    QList<review::HeadSigned> signatures;
};

Result<Here> hereOf(const VisitId& visit, store::Database& database)
{
    const store::Journal journal(database);
    const auto entries = journal.entries(visit);
    const auto signatures = journal.signatures(visit);
    if (!entries || !signatures)
        return tl::unexpected(entries ? signatures.error() : entries.error());
    if (entries->empty())
        return Here{};
    const auto record = record::recordOf(visit, *entries, *signatures, {});
    if (!record)
        return tl::unexpected(record.error());
    return Here{entriesIn(*record), signaturesOf(record::verify(*record))};
}

} // namespace

Result<review::Reviewer> RecordIntake::knownReviewer(const record::Reviewed& one,
                                                     const record::Record& record) const
{
    review::Reviewer reviewer = reviewerOf(one);
    const auto key = std::ranges::find(record.keys, one.said.thumbprint, people::thumbprint);
    const auto owner = m_keys.ownerOf(*key);
    if (!owner && owner.error().kind == Error::Kind::NotFound)
        return reviewer;
    if (!owner)
        return tl::unexpected(owner.error());
    const auto person = m_people.person(owner->person);
    if (!person)
        return tl::unexpected(person.error());
    reviewer.otherNames.append(person->name);
    return reviewer;
}

/// What the record and this workspace say of the reviewers of what is not kept here.
Result<record::EntriesTold> RecordIntake::told(const record::Record& record, const CheckedRecord& checked,
                                               const record::Standing& standing, const Stamp& now) const
{
    record::EntriesTold told;
    const auto isKept = [&](const record::Reviewed& one) {
        return standing.reviews.contains(one.id.bytes());
    };
    // One with a fault is refused, and its reviews may be of entries that are not in it.
    if (!checked.found.isGood() || std::ranges::all_of(checked.found.reviews, isKept))
        return told;
    const auto here = hereOf(record.visit, *m_database);
    if (!here)
        return tl::unexpected(here.error());
    const QList<visit::Entry> entries = entriesIn(record);
    const QList<review::HeadSigned> signatures = signaturesOf(checked.found);
    for (const record::Reviewed& one : checked.found.reviews) {
        if (isKept(one))
            continue;
        const auto reviewer = knownReviewer(one, record);
        if (!reviewer)
            return tl::unexpected(reviewer.error());
        if (review::partOf(*reviewer, entries, signatures) ||
            review::partOf(*reviewer, here->entries, here->signatures))
            told.nameAReviewer = true;
        if (told.doubtsAReview == Intake::Why::None)
            told.doubtsAReview = doubtOf(one, *reviewer, entries, now.wall);
    }
    return told;
}

/// Whether somebody of this workspace reviewed, with the key that was theirs then, who could supervise the
/// visit on that day.
Result<bool> RecordIntake::isBySupervisorOfOurs(const record::Reviewed& one, const people::Trust& trust,
                                                const visit::VisitState& state) const
{
    const record::Review& said = one.said.review;
    const people::KnownOfKey known = trust.of(one.said.thumbprint, said.by, said.at);
    if (known.listed != people::KnownOfKey::Listed::Theirs || !state.ground)
        return false;
    const auto person = m_people.person(said.by);
    const auto authorisations = m_people.authorisationsOf(said.by);
    if (!person || !authorisations)
        return tl::unexpected(person ? authorisations.error() : person.error());
    return review::supervises({*person, *authorisations}, state, people::utcDayOf(said.at)) ==
           people::Authority::Verdict::Valid;
}

Result<record::Believed> RecordIntake::believed(const record::Record& record, const CheckedRecord& checked,
                                                const visit::VisitState& state) const
{
    auto trust = people::readTrust(m_offices, m_keys, {record.keys.begin(), record.keys.end()});
    if (!trust)
        return tl::unexpected(trust.error());
    record::Believed believed{std::move(*trust)};
    for (const record::Reviewed& one : checked.found.reviews) {
        const auto isOurs = isBySupervisorOfOurs(one, believed.trust, state);
        if (!isOurs)
            return tl::unexpected(isOurs.error());
        if (*isOurs)
            believed.reviews.insert(one.id.bytes());
    }
    return believed;
}

TakenRecord RecordIntake::takeFile(const QString& file, const PersonId& by, const Stamp& now)
{
    QFile in(file);
    if (!in.open(QIODevice::ReadOnly))
        return {file, in.errorString()};
    if (in.size() > record::kMostFileBytes)
        return {file, u"it is larger than a record can be"_s};
    return takeBytes(file, in.readAll(), by, now);
}

TakenRecord RecordIntake::tryAgain(const Hash& file, const PersonId& by, const Stamp& now)
{
    const auto bytes = m_store.fileOf(file);
    return bytes ? takeBytes({}, *bytes, by, now) : TakenRecord{{}, bytes.error().detail};
}

TakenRecord RecordIntake::takeBytes(const QString& name, const QByteArray& bytes, const PersonId& by,
                                    const Stamp& now)
{
    const auto read = record::recordFromBytes(bytes);
    if (!read)
        return {name, read.error().detail};
    TakenRecord taken{name, {}, read->visit};
    const CheckedRecord checked = checkRecord(name, *read);
    const QList<visit::Entry> entries = signedEntriesOf(*read, checked.found);
    const visit::VisitState state = visit::fold(entries);
    const bool isUnsigned = lacksASignature(entries, state, checked.found);
    taken.faults = checked.found.faults;
    // Somebody may change at the same time what is believed here: what is judged by is what stands at the
    // write.
    const auto written = m_database->transaction([&]() -> Result<void> {
        const auto trust = believed(*read, checked, state);
        const auto standing = m_store.standing(read->visit);
        if (!trust || !standing)
            return tl::unexpected(trust ? standing.error() : trust.error());
        auto said = told(*read, checked, *standing, now);
        if (!said)
            return tl::unexpected(said.error());
        said->lackAPicture = !checked.missing.isEmpty();
        said->lackASignature = isUnsigned;
        taken.intake = record::intakeOf(*read, checked.found, *said, *trust, *standing);
        return write(*read, taken, bytes, by, now);
    });
    return written ? taken : TakenRecord{name, written.error().detail};
}

Result<void> RecordIntake::write(const record::Record& record, TakenRecord& taken, const QByteArray& bytes,
                                 const PersonId& by, const Stamp& now)
{
    if (taken.intake.verdict == Intake::Verdict::Take) {
        bool isUnderstood = true;
        const auto added = add(record, taken.intake, by, now, isUnderstood);
        if (!added && isUnderstood)
            return added;
        if (added)
            taken.newEntries = static_cast<int>(taken.intake.entries - taken.intake.first);
        else
            taken.intake = {Intake::Verdict::Wait, Intake::Why::NotUnderstood};
    }
    if (taken.intake.verdict == Intake::Verdict::Wait)
        return m_store.wait(bytes, record.visit, taken.intake.why, by, now);
    return m_store.release(sha256(bytes));
}

/// Undone as a whole where the visit's entries make no summary: they are of a later program.
Result<void> RecordIntake::add(const record::Record& record, const Intake& intake, const PersonId& by,
                               const Stamp& now, bool& isUnderstood)
{
    return m_database->transaction([&]() -> Result<void> {
        if (auto stored = m_store.take(record, intake, by, now); !stored)
            return stored;
        const auto entries = store::Journal(*m_database).entries(record.visit);
        if (!entries)
            return tl::unexpected(entries.error());
        auto summary = review::summarise(record.visit, *entries);
        isUnderstood = summary.has_value();
        if (!summary)
            return tl::unexpected(summary.error());
        summary->visit = record.visit;
        summary->headSeq = entries->back().seq;
        summary->headHash = entries->back().hash;
        if (auto put = m_summaries.put(*summary); !put)
            return put;
        return checkReviews(*m_database, record.visit);
    });
}

} // namespace coldarc::app
