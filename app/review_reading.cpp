#include "app/review_reading.h"

#include "core/people/jws.h"
#include "core/people/read_trust.h"
#include "core/record/record.h"
#include "core/record/review_store.h"
#include "core/store/journal.h"
#include "core/store/pictures.h"
#include "core/visit/entry.h"

#include <algorithm>

namespace coldarc::app {

using namespace Qt::StringLiterals;

namespace {

using review::HeadSigned;

QList<review::VouchedBy> vouchingOf(const people::KnownOfKey& known)
{
    QList<review::VouchedBy> all;
    for (const people::Certified& one : known.stillVouchedBy()) {
        const people::Enrolment& enrolment = one.enrolment;
        all.append({one.office, enrolment.name, enrolment.role, enrolment.from, enrolment.until});
    }
    return all;
}

/// Holds a signature against the entry that it is over, and its key against whoever says whose it is.
HeadSigned readSignature(const store::Signature& kept, const std::vector<store::Entry>& entries,
                         const people::Trust& trust)
{
    HeadSigned read{kept.seq.value(), kept.person, kept.meaning, kept.at};
    const auto key = people::PublicKey::fromBytes(kept.publicKey);
    const auto signature = people::Signature::fromBytes(kept.bytes);
    const auto meaning = people::meaningFromWord(kept.meaning.toStdString());
    if (!key || !signature || !meaning)
        return read;
    read.key = people::thumbprint(*key);
    const people::HeadStatement said{kept.visit, kept.seq.value(), kept.head, *meaning, kept.at, kept.person};
    const auto number = static_cast<std::size_t>(kept.seq.value());
    const bool verifies = entries[number].hash == kept.head && people::isSignedBy(*key, said, *signature);
    const auto jws = people::headJws(said, *key);
    const people::KnownOfKey known = trust.of(read.key, kept.person, kept.at);
    read.isFormer = verifies && !(jws && people::isSignedBy(*key, people::signingInput(*jws), *signature));
    read.isGood = verifies && !known.isOthers();
    read.vouchedBy = vouchingOf(known);
    read.isOutOfUse = !known.outOfUse.empty();
    if (read.isFormer) { // what was signed names neither
        read.person = PersonId();
        read.at = {};
        read.isOutOfUse = !trust.of(read.key, {}, {}).outOfUse.empty();
    }
    return read;
}

/// @param visit, signatures  everything of the visit, by which it is told what part the reviewer had.
ui::ReadReview readReview(const record::KeptReview& kept, const std::vector<store::Entry>& entries,
                          const QList<visit::Entry>& visit, const QList<HeadSigned>& signatures,
                          const people::Trust& trust)
{
    ui::ReadReview read{kept.review};
    read.key = people::thumbprint(kept.key);
    const people::KnownOfKey known = trust.of(read.key, kept.review.by, kept.review.at);
    const auto number = static_cast<std::size_t>(kept.review.entry);
    const bool isOfChain = number < entries.size() && entries[number].hash == kept.review.head;
    read.isGood = record::isSignedBy(kept.key, kept.paper) && !known.isOthers() && isOfChain;
    read.isOutOfUse = !known.outOfUse.empty();
    read.vouchedBy = vouchingOf(known);
    review::Reviewer reviewer{{kept.review.by, kept.review.name, {}, {}, {}, {}}, {}, read.key};
    reviewer.otherNames = known.names();
    read.part = review::partOf(reviewer, visit, signatures);
    return read;
}

Result<QList<visit::Entry>> entriesOf(const std::vector<store::Entry>& kept)
{
    QList<visit::Entry> entries;
    for (const store::Entry& one : kept) {
        const auto entry = visit::entryFrom(one.bytes);
        if (!entry)
            return tl::unexpected(entry.error());
        entries.append(*entry);
    }
    return entries;
}

/// What stands of a visit before its chain breaks, if it does.
struct Read {
    store::Chain chain;
    QList<visit::Entry> entries;
    QList<HeadSigned> signatures;
    record::KeptReviews kept;
    QList<ui::ReadReview> reviews; ///< those of `kept` that are whole
    QSet<QString> ownKeys;
    QHash<QString, QString> offices;
};

QList<HeadSigned> signaturesOf(const std::vector<store::Signature>& kept,
                               const std::vector<store::Entry>& entries, const people::Trust& trust)
{
    QList<HeadSigned> signatures;
    for (const store::Signature& one : kept) {
        if (static_cast<std::size_t>(one.seq.value()) < entries.size()) // not over what stands behind a break
            signatures.append(readSignature(one, entries, trust));
    }
    std::ranges::stable_sort(signatures, {}, &HeadSigned::entry);
    return signatures;
}

Result<Read> readVisit(store::Database& database, const VisitId& visit)
{
    const store::Journal journal(database);
    auto chain = journal.chain(visit);
    if (!chain)
        return tl::unexpected(chain.error());
    if (chain->good.empty())
        return fail(chain->fault ? Error::Kind::Malformed : Error::Kind::NotFound, u"no entry can be read"_s);
    auto entries = entriesOf(chain->good);
    if (!entries)
        return tl::unexpected(entries.error());
    const auto signatures = journal.signatures(visit);
    if (!signatures)
        return tl::unexpected(signatures.error());
    auto reviews = record::ReviewStore(database).of(visit);
    if (!reviews)
        return tl::unexpected(reviews.error());
    const people::OfficeStore offices(database);
    const auto believed = offices.believed();
    const auto trust =
        people::readTrust(offices, people::KeyStore(database), record::keysOf(*signatures, reviews->whole));
    if (!trust || !believed)
        return tl::unexpected(trust ? believed.error() : trust.error());
    Read read{std::move(*chain), std::move(*entries), {}, std::move(*reviews), {}, trust->listed(), {}};
    for (const people::Office& office : *believed)
        read.offices.insert(people::thumbprint(office.key), office.name);
    read.signatures = signaturesOf(*signatures, read.chain.good, *trust);
    for (const record::KeptReview& one : read.kept.whole)
        read.reviews.append(readReview(one, read.chain.good, read.entries, read.signatures, *trust));
    return read;
}

} // namespace

Result<std::shared_ptr<ui::VisitReading>> readForReview(store::Database& database, const VisitId& visit)
{
    auto read = readVisit(database, visit);
    if (!read)
        return tl::unexpected(read.error());
    auto report = report::reportOf(read->entries, read->chain.good.back().hash, read->signatures);
    if (!report)
        return tl::unexpected(report.error());
    auto reading = std::make_shared<ui::VisitReading>(
        ui::VisitReading{visit, std::move(*report), review::Replay(read->entries)});
    if (read->chain.fault)
        reading->breaksAt = read->entries.size();
    reading->signatures = std::move(read->signatures);
    reading->reviews = std::move(read->reviews);
    reading->alteredReviews = static_cast<qsizetype>(read->kept.altered.size());
    reading->ownKeys = std::move(read->ownKeys);
    reading->offices = std::move(read->offices);
    return reading;
}

Result<std::shared_ptr<ui::VisitReading>> readForReview(const QString& file, const VisitId& visit)
{
    auto database = store::Database::connect(file, store::Access::Read);
    if (!database)
        return tl::unexpected(database.error());
    return readForReview(*database, visit);
}

QByteArray readPicture(const QString& file, const Hash& picture)
{
    auto database = store::Database::connect(file, store::Access::Read);
    const auto kept = database ? store::Pictures(*database).read(picture) : tl::unexpected(database.error());
    return kept ? kept->bytes : QByteArray();
}

Result<void> checkReviews(store::Database& database, const VisitId& visit)
{
    return database.transaction([&]() -> Result<void> {
        record::ReviewStore store(database);
        const auto kept = store.of(visit);
        if (!kept)
            return tl::unexpected(kept.error());
        std::vector<Hash> uncounted;
        const auto read = readVisit(database, visit);
        if (!read && (read.error().kind == Error::Kind::Storage || read.error().kind == Error::Kind::Refused))
            return tl::unexpected(read.error());
        for (std::size_t place = 0; place < kept->whole.size(); ++place) {
            // Of what cannot be read nobody can tell what was accepted.
            if (!read || !read->reviews[static_cast<qsizetype>(place)].isCounted())
                uncounted.push_back(kept->whole[place].id);
        }
        return store.setUncounted(visit, kept->altered, uncounted);
    });
}

} // namespace coldarc::app
