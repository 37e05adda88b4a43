#include "app/review_reading.h"

#include "core/people/read_trust.h"
#include "core/record/record.h"
#include "core/record/review_store.h"
#include "core/review/kept_papers.h"
#include "core/review/summary.h"
#include "core/store/journal.h"
#include "core/store/pictures.h"
#include "core/visit/evolve.h"

namespace coldarc::app {

using namespace Qt::StringLiterals;

namespace {

/// What stands of a visit before its chain breaks, if it does.
struct Read {
    store::Chain chain;
    QList<visit::Entry> entries;
    QList<review::HeadSigned> signatures;
    record::KeptReviews kept;
    QList<review::ReadReview> reviews; ///< those of `kept` that are whole
    QSet<QString> ownKeys;
    QHash<QString, QString> offices;
    std::optional<qint64> cutOffAt{}; ///< where nothing else is wrong with the chain
};

Result<people::Trust> trustIn(store::Database& database, const std::vector<store::Signature>& signatures,
                              const std::vector<record::KeptReview>& reviews)
{
    return people::readTrust(people::OfficeStore(database), people::KeyStore(database),
                             record::keysOf(signatures, reviews));
}

/// @param just  null: nothing was read before.
Result<Read> readVisit(store::Database& database, const VisitId& visit, const JustRead* just = nullptr)
{
    const store::Journal journal(database);
    auto chain = journal.chain(visit);
    if (!chain)
        return tl::unexpected(chain.error());
    if (chain->good.empty())
        return fail(chain->fault ? Error::Kind::Malformed : Error::Kind::NotFound, u"no entry can be read"_s);
    auto entries = just ? Result<QList<visit::Entry>>(just->entries)
                        : visit::entriesFrom(chain->good, &store::Entry::bytes);
    if (!entries)
        return tl::unexpected(entries.error());
    const auto signatures = journal.signatures(visit);
    if (!signatures)
        return tl::unexpected(signatures.error());
    auto reviews = record::ReviewStore(database).of(visit);
    if (!reviews)
        return tl::unexpected(reviews.error());
    const auto believed = people::OfficeStore(database).believed();
    const auto trust =
        just ? Result<people::Trust>(just->trust) : trustIn(database, *signatures, reviews->whole);
    if (!trust || !believed)
        return tl::unexpected(trust ? believed.error() : trust.error());
    Read read{std::move(*chain), std::move(*entries), {}, std::move(*reviews), {}, trust->listed(), {}};
    for (const people::Office& office : *believed)
        read.offices.insert(people::thumbprint(office.key), office.name);
    read.signatures =
        just ? just->signatures : review::readSignatures(*signatures, read.chain.good, read.entries, *trust);
    if (!read.chain.fault)
        read.cutOffAt =
            review::cutOffAt(*signatures, read.kept.whole, static_cast<qint64>(read.chain.good.size()));
    for (const record::KeptReview& one : read.kept.whole)
        read.reviews.append(review::readReview(one, read.chain.good, read.entries, read.signatures, *trust));
    return read;
}

Result<void> check(store::Database& database, const VisitId& visit, const JustRead* just)
{
    return database.transaction([&]() -> Result<void> {
        record::ReviewStore store(database);
        const auto kept = store.of(visit);
        if (!kept)
            return tl::unexpected(kept.error());
        if (kept->whole.empty())
            return store.setUncounted(visit, kept->altered, {});
        std::vector<Hash> uncounted;
        const auto read = readVisit(database, visit, just);
        if (!read && isOfTheDisk(read.error()))
            return tl::unexpected(read.error());
        for (std::size_t place = 0; place < kept->whole.size(); ++place) {
            // Of what cannot be read nobody can tell what was accepted.
            if (!read || !read->reviews[static_cast<qsizetype>(place)].isCounted())
                uncounted.push_back(kept->whole[place].id);
        }
        return store.setUncounted(visit, kept->altered, uncounted);
    });
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
    if (read->chain.fault || read->cutOffAt)
        reading->breaksAt = read->entries.size();
    reading->cutOffAt = read->cutOffAt;
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

Result<QByteArray> readPicture(const QString& file, const Hash& picture)
{
    auto database = store::Database::connect(file, store::Access::Read);
    if (!database)
        return tl::unexpected(database.error());
    auto kept = store::Pictures(*database).read(picture);
    if (!kept)
        return tl::unexpected(kept.error());
    return std::move(kept->bytes);
}

Result<void> checkReviews(store::Database& database, const VisitId& visit)
{
    return check(database, visit, nullptr);
}

Result<void> checkReviews(store::Database& database, const VisitId& visit, const JustRead& just)
{
    return check(database, visit, &just);
}

Result<QList<review::HeadSigned>> readSigned(store::Database& database, const VisitId& visit,
                                             const std::vector<store::Entry>& entries,
                                             const QList<visit::Entry>& said)
{
    const auto signatures = store::Journal(database).signatures(visit);
    if (!signatures)
        return tl::unexpected(signatures.error());
    const auto trust = trustIn(database, *signatures, {});
    if (!trust)
        return tl::unexpected(trust.error());
    return review::readSignatures(*signatures, entries, said, *trust);
}

Result<QList<review::HeadSigned>> readSigned(store::Database& database, const VisitId& visit,
                                             const std::vector<store::Entry>& entries,
                                             const QList<visit::Entry>& said, const people::Trust& trust)
{
    const auto signatures = store::Journal(database).signatures(visit);
    if (!signatures)
        return tl::unexpected(signatures.error());
    return review::readSignatures(*signatures, entries, said, trust);
}

Result<store::VisitSummary> summarise(store::Database& database, const VisitId& visit,
                                      const std::vector<store::Entry>& entries)
{
    const auto read = visit::entriesFrom(entries, &store::Entry::bytes);
    if (!read)
        return tl::unexpected(read.error());
    const visit::VisitState state = visit::fold(*read);
    if (!state.ground)
        return fail(Error::Kind::Malformed, u"visit %1 was never opened"_s.arg(visit.text()));
    const auto signatures = readSigned(database, visit, entries, *read);
    if (!signatures)
        return tl::unexpected(signatures.error());
    return review::signedSummaryOf(state, *read, *signatures);
}

} // namespace coldarc::app
