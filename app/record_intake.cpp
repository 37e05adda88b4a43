#include "app/record_intake.h"

#include "app/review_reading.h"
#include "core/people/read_trust.h"
#include "core/record/record_file.h"
#include "core/review/summary.h"
#include "ui/parts/quantities.h"

#include <QFile>

#include <algorithm>
#include <span>

using namespace Qt::StringLiterals;

namespace coldarc::app {

using record::Intake;
using record::TakenRecord;
using review::CheckedRecord;
using review::FoldedRecord;

namespace {

using Trouble = TakenRecord::Trouble;

TakenRecord notTaken(const QString& file, Trouble trouble, const QString& detail)
{
    TakenRecord record{file, detail};
    record.trouble = trouble;
    return record;
}

/// Why the workspace did not take what could be read.
Trouble troubleOf(const Error& error)
{
    return error.kind == Error::Kind::Busy        ? Trouble::Busy
           : error.kind == Error::Kind::Malformed ? Trouble::AlteredHere
                                                  : Trouble::NotWritten;
}

Result<review::VisitHere> hereOf(const VisitId& visit, store::Database& database)
{
    const store::Journal journal(database);
    const auto entries = journal.entries(visit);
    const auto signatures = journal.signatures(visit);
    if (!entries || !signatures)
        return tl::unexpected(entries ? signatures.error() : entries.error());
    if (entries->empty())
        return review::VisitHere{};
    const auto record = record::recordOf(visit, *entries, *signatures, {});
    if (!record)
        return tl::unexpected(record.error());
    return review::VisitHere{review::entriesIn(*record), review::signaturesOf(record::verify(*record))};
}

/// Whether the entries that stand here are those of the record, read and folded already. Most often they are.
bool isAsFolded(const std::vector<store::Entry>& here, const record::Record& record,
                const FoldedRecord& folded)
{
    const std::span read = std::span(record.entries).first(static_cast<std::size_t>(folded.entries.size()));
    return std::ranges::equal(here, read, {}, &store::Entry::bytes);
}

/// Whether somebody signed for what nobody can read here, or for what opens no visit.
bool isBeyondUs(const CheckedRecord& checked, const FoldedRecord& folded)
{
    return folded.entries.size() <= checked.found.signedUpTo || !folded.state.ground;
}

} // namespace

/// Whom the workspace's own list gives the keys of these reviews to.
Result<QHash<QString, QString>> RecordIntake::ownNames(const CheckedRecord& checked,
                                                       const people::Trust& trust) const
{
    QHash<QString, QString> names;
    for (const record::Reviewed& one : checked.found.reviews) {
        const auto owner = trust.ownerOf(one.said.thumbprint);
        if (!owner)
            continue;
        const auto person = m_people.person(*owner);
        if (!person)
            return tl::unexpected(person.error());
        names.insert(one.said.thumbprint, person->name);
    }
    return names;
}

/// What the record and this workspace say of the reviewers of what is not kept here.
Result<record::EntriesTold> RecordIntake::told(const CheckedRecord& checked, const FoldedRecord& folded,
                                               const people::Trust& trust, const record::Standing& standing,
                                               const Stamp& now) const
{
    if (!checked.found.isGood() || !review::bringsAReview(checked.found, standing))
        return record::EntriesTold{};
    const auto here = hereOf(checked.found.visit, *m_database);
    if (!here)
        return tl::unexpected(here.error());
    const auto names = ownNames(checked, trust);
    if (!names)
        return tl::unexpected(names.error());
    return review::toldOfReviews(checked, folded, standing, *here, *names, now.wall);
}

/// As the workspace has them.
Result<review::Reviewer> RecordIntake::ownReviewer(const PersonId& id) const
{
    const auto person = m_people.person(id);
    const auto authorisations = m_people.authorisationsOf(id);
    if (!person || !authorisations)
        return tl::unexpected(person ? authorisations.error() : person.error());
    return review::Reviewer{*person, *authorisations};
}

Result<record::Believed> RecordIntake::believed(const record::Record& record, const CheckedRecord& checked,
                                                const visit::VisitState& state,
                                                const record::Standing& standing) const
{
    std::set<people::PublicKey> keys = standing.keys;
    keys.insert(record.keys.begin(), record.keys.end());
    auto trust = people::readTrust(m_offices, m_keys, keys, checked.found.trust);
    if (!trust)
        return tl::unexpected(trust.error());
    record::Believed believed{std::move(*trust)};
    for (const record::Reviewed& one : checked.found.reviews) {
        const record::Review& said = one.said.review;
        const auto known = believed.trust.of(one.said.thumbprint, said.by, one.heldAt);
        if (!known.isListedAsTheirs())
            continue;
        const auto reviewer = ownReviewer(said.by);
        if (!reviewer)
            return tl::unexpected(reviewer.error());
        if (review::isByOwnSupervisor(known, *reviewer, state, ui::dayOf(one.heldAt, m_zone)))
            believed.reviews.insert(one.id.bytes());
    }
    return believed;
}

TakenRecord RecordIntake::takeFile(const QString& file, const PersonId& by, const Stamp& now)
{
    QFile in(file);
    if (!in.open(QIODevice::ReadOnly))
        return notTaken(file, Trouble::NotOpened, in.errorString());
    if (in.size() > record::kMostFileBytes)
        return notTaken(file, Trouble::NoRecord, u"it is larger than a record can be"_s);
    return takeBytes(file, in.readAll(), by, now);
}

TakenRecord RecordIntake::tryAgain(const Hash& file, const PersonId& by, const Stamp& now)
{
    const auto bytes = m_store.fileOf(file);
    return bytes ? takeBytes({}, *bytes, by, now) : notTaken({}, Trouble::NotOpened, bytes.error().detail);
}

TakenRecord RecordIntake::takeBytes(const QString& name, const QByteArray& bytes, const PersonId& by,
                                    const Stamp& now)
{
    const auto read = record::recordFromBytes(bytes);
    if (!read)
        return notTaken(name, Trouble::NoRecord, read.error().detail);
    TakenRecord taken{name, {}, read->visit};
    const CheckedRecord checked = review::checkRecord(name, *read);
    const FoldedRecord folded = review::foldRecord(checked);
    const bool isUnsigned = review::lacksASignature(folded, checked.found);
    taken.faults = checked.found.faults;
    // Somebody may change at the same time what is believed here: what is judged by is what stands at the
    // write.
    QString tooMuch; // why it cannot wait; what its offices say stays all the same
    const auto written = m_database->transaction([&]() -> Result<void> {
        if (checked.found.isGood()) {
            // Whatever becomes of the record: that a key is out of use is to be known before the next comes.
            if (auto kept = m_offices.keep(checked.found.trust, now); !kept)
                return kept;
        }
        const auto standing = m_store.standing(read->visit);
        if (!standing)
            return tl::unexpected(standing.error());
        const auto trust = believed(*read, checked, folded.state, *standing);
        if (!trust)
            return tl::unexpected(trust.error());
        auto said = told(checked, folded, trust->trust, *standing, now);
        if (!said)
            return tl::unexpected(said.error());
        said->openAnother = review::opensAnother(folded, read->visit);
        said->lackAPicture = !checked.missing.isEmpty();
        said->lackAName = !checked.unnamed.isEmpty();
        said->lackASignature = isUnsigned;
        said->doubtsASigner = review::doubtOfSigners(folded, checked.found, trust->trust, *standing);
        taken.intake = record::intakeOf(*read, checked.found, *said, *trust, *standing);
        const auto done = write({*read, checked, folded, trust->trust}, taken, bytes, by, now);
        if (!done && taken.intake.verdict == Intake::Verdict::Wait &&
            done.error().kind == Error::Kind::Malformed) {
            tooMuch = done.error().detail;
            return {};
        }
        return done;
    });
    if (!written)
        return notTaken(name, troubleOf(written.error()), written.error().detail);
    return tooMuch.isEmpty() ? taken : notTaken(name, Trouble::CannotWait, tooMuch);
}

Result<void> RecordIntake::write(const Coming& coming, TakenRecord& taken, const QByteArray& bytes,
                                 const PersonId& by, const Stamp& now)
{
    if (taken.intake.verdict == Intake::Verdict::Take) {
        bool isUnderstood = true;
        const auto added = add(coming, taken.intake, by, now, isUnderstood);
        if (!added && isUnderstood)
            return added;
        if (added)
            taken.newEntries = static_cast<int>(taken.intake.entries - taken.intake.first);
        else
            taken.intake = {Intake::Verdict::Wait, Intake::Why::NotUnderstood};
    }
    if (taken.intake.verdict == Intake::Verdict::Wait)
        return m_store.wait(bytes, coming.record.visit, taken.intake.why, by, now);
    return m_store.release(sha256(bytes));
}

/// Undone as a whole where the visit's entries make no summary: they are of a later program.
Result<void> RecordIntake::add(const Coming& coming, const Intake& intake, const PersonId& by,
                               const Stamp& now, bool& isUnderstood)
{
    const record::Record& record = coming.record;
    isUnderstood = !isBeyondUs(coming.checked, coming.folded);
    if (!isUnderstood)
        return fail(Error::Kind::Malformed, u"visit %1 cannot be read"_s.arg(record.visit.text()));
    return m_database->transaction([&]() -> Result<void> {
        if (auto stored = m_store.take(record, intake, coming.checked.named, by, now); !stored)
            return stored;
        const auto entries = store::Journal(*m_database).entries(record.visit);
        if (!entries)
            return tl::unexpected(entries.error());
        if (!isAsFolded(*entries, record, coming.folded)) {
            const auto summary = summarise(*m_database, record.visit, *entries);
            isUnderstood = summary || isOfTheDisk(summary.error());
            if (auto put = putSummary(summary, record.visit, *entries); !put)
                return put;
            return checkReviews(*m_database, record.visit);
        }
        const FoldedRecord& folded = coming.folded;
        const auto signatures = readSigned(*m_database, record.visit, *entries, folded.entries, coming.trust);
        if (!signatures)
            return tl::unexpected(signatures.error());
        auto put = putSummary(review::signedSummaryOf(folded.state, folded.entries, *signatures),
                              record.visit, *entries);
        if (!put)
            return put;
        return checkReviews(*m_database, record.visit, {coming.trust, folded.entries, *signatures});
    });
}

Result<void> RecordIntake::putSummary(Result<store::VisitSummary> summary, const VisitId& visit,
                                      const std::vector<store::Entry>& entries)
{
    if (!summary)
        return tl::unexpected(summary.error());
    summary->visit = visit;
    summary->headSeq = entries.back().seq;
    summary->headHash = entries.back().hash;
    return m_summaries.putWhole(*summary);
}

} // namespace coldarc::app
