#include "app/review_reading.h"

#include "core/people/jws.h"
#include "core/people/key_store.h"
#include "core/people/office_store.h"
#include "core/people/people_store.h"
#include "core/record/review_store.h"
#include "core/store/journal.h"
#include "core/store/pictures.h"
#include "core/visit/entry.h"

#include <algorithm>
#include <map>

namespace coldarc::app {

using namespace Qt::StringLiterals;

namespace {

using review::HeadSigned;

/// Holds signatures against the entries of a visit, and keys against whoever says whose they are.
class SignatureReader {
public:
    SignatureReader(store::Database& database, const std::vector<store::Entry>& entries)
        : m_keys(database)
        , m_offices(database)
        , m_people(database)
        , m_entries(entries)
    {
    }

    [[nodiscard]] Result<void> begin()
    {
        const auto known = m_offices.offices();
        if (!known)
            return tl::unexpected(known.error());
        for (const people::Office& office : *known) {
            if (!office.droppedAt)
                m_believed.emplace(people::thumbprint(office.key), office);
        }
        return {};
    }
    [[nodiscard]] QHash<QString, QString> offices() const
    {
        QHash<QString, QString> names;
        for (const auto& [thumbprint, office] : m_believed)
            names.insert(thumbprint, office.name);
        return names;
    }
    [[nodiscard]] const QHash<QString, QString>& owners() const { return m_owners; }

    [[nodiscard]] Result<HeadSigned> read(const store::Signature& kept)
    {
        HeadSigned read{kept.seq.value(), kept.person, kept.meaning, kept.at};
        const auto key = people::PublicKey::fromBytes(kept.publicKey);
        const auto signature = people::Signature::fromBytes(kept.bytes);
        const auto meaning = people::meaningFromWord(kept.meaning.toStdString());
        if (!key || !signature || !meaning)
            return read;
        read.key = people::thumbprint(*key);
        const people::HeadStatement said{kept.visit, kept.seq.value(), kept.head,
                                         *meaning,   kept.at,          kept.person};
        const auto number = static_cast<std::size_t>(kept.seq.value());
        read.isGood = m_entries[number].hash == kept.head && people::isSignedBy(*key, said, *signature);
        const auto jws = people::headJws(said, *key);
        read.isFormer =
            read.isGood && !(jws && people::isSignedBy(*key, people::signingInput(*jws), *signature));
        const auto held = hold(*key, kept.person, kept.at);
        if (!held)
            return tl::unexpected(held.error());
        read.isGood = read.isGood && held->mayBeTheirs;
        read.vouchedBy = held->vouchedBy;
        read.isOutOfUse = read.isFormer ? m_outOfUse.contains(read.key) : held->isOutOfUse;
        if (read.isFormer) { // what was signed names neither
            read.person = PersonId();
            read.at = {};
        }
        return read;
    }

    /// @param visit, signatures  everything of the visit, by which it is told what part the reviewer had.
    [[nodiscard]] Result<ui::ReadReview> read(const record::KeptReview& kept,
                                              const QList<visit::Entry>& visit,
                                              const QList<HeadSigned>& signatures)
    {
        ui::ReadReview read{kept.review, record::isSignedBy(kept.key, kept.paper), false,
                            people::thumbprint(kept.key)};
        const auto held = hold(kept.key, kept.review.by, kept.review.at);
        if (!held)
            return tl::unexpected(held.error());
        const auto number = static_cast<std::size_t>(kept.review.entry);
        const bool isOfChain = number < m_entries.size() && m_entries[number].hash == kept.review.head;
        read.isGood = read.isGood && held->mayBeTheirs && isOfChain;
        read.isOutOfUse = held->isOutOfUse;
        read.vouchedBy = held->vouchedBy;
        review::Reviewer reviewer{{kept.review.by, kept.review.name, {}, {}, {}, {}}, {}, read.key};
        reviewer.otherNames = held->names;
        read.part = review::partOf(reviewer, visit, signatures);
        return read;
    }

private:
    /// What is known of a key.
    struct Held {
        bool mayBeTheirs = true; ///< it is not known as somebody else's alone
        bool isOutOfUse = false; ///< at that moment
        QList<review::VouchedBy> vouchedBy{};
        QStringList names{}; ///< by which offices that are believed know whoever has it
    };

    /// Whether that office says that the key was out of use by then.
    [[nodiscard]] static bool isTakenBack(const people::PublicKey& office,
                                          const std::vector<people::SignedRetirement>& retirements,
                                          WallTime at)
    {
        return std::ranges::any_of(retirements, [&](const people::SignedRetirement& one) {
            const auto said = people::saidBy(one);
            return said && people::isOutOfUseAt(said->retirement, at) && people::isRetiredBy(office, one);
        });
    }

    /// A key that this workspace knows as somebody else's, or that is vouched for as another person's alone,
    /// signs for nobody.
    [[nodiscard]] Result<Held> hold(const people::PublicKey& key, const PersonId& person, WallTime at)
    {
        Held held;
        const auto owner = m_keys.ownerOf(key);
        if (!owner && owner.error().kind != Error::Kind::NotFound)
            return tl::unexpected(owner.error());
        if (owner && owner->person != person)
            held.mayBeTheirs = false;
        else if (const auto known = m_people.person(person); owner && known)
            m_owners.insert(people::thumbprint(key), known->name);
        const auto certificates = m_offices.certificatesOf(key);
        if (!certificates)
            return tl::unexpected(certificates.error());
        const auto retirements = m_offices.retirementsOf(key);
        if (!retirements)
            return tl::unexpected(retirements.error());
        bool isOthers = false;
        bool isTheirs = false;
        for (const people::Certificate& one : *certificates) {
            const auto said = people::saidBy(one);
            const auto office = said ? m_believed.find(said->office) : m_believed.end();
            if (office == m_believed.end() || !people::isCertifiedBy(office->second.key, one))
                continue;
            const people::Enrolment& enrolment = said->enrolment;
            (enrolment.person == person ? isTheirs : isOthers) = true;
            held.names.append(enrolment.name);
            if (enrolment.person == person && people::holdsAt(enrolment, at) &&
                !isTakenBack(office->second.key, *retirements, at))
                held.vouchedBy.append(
                    {said->office, enrolment.name, enrolment.role, enrolment.from, enrolment.until});
        }
        if (isOthers && !isTheirs)
            held.mayBeTheirs = false;
        lookForRetirement(key, *retirements);
        const auto retired = m_outOfUse.constFind(people::thumbprint(key));
        held.isOutOfUse = retired != m_outOfUse.constEnd() && people::isOutOfUseAt(*retired, at);
        return held;
    }

    /// The earliest day from which on an office that is believed calls the key out of use.
    void lookForRetirement(const people::PublicKey& key, const std::vector<people::SignedRetirement>& papers)
    {
        const QString thumbprint = people::thumbprint(key);
        for (const people::SignedRetirement& one : papers) {
            const auto said = people::saidBy(one);
            const auto office = said ? m_believed.find(said->office) : m_believed.end();
            if (office == m_believed.end() || !people::isRetiredBy(office->second.key, one))
                continue;
            const auto known = m_outOfUse.constFind(thumbprint);
            if (known == m_outOfUse.constEnd() || said->retirement.since < known->since)
                m_outOfUse.insert(thumbprint, said->retirement);
        }
    }

    people::KeyStore m_keys;
    people::OfficeStore m_offices;
    people::PeopleStore m_people;
    const std::vector<store::Entry>& m_entries;
    std::map<QString, people::Office> m_believed; ///< by thumbprint
    QHash<QString, QString> m_owners;
    QHash<QString, people::Retirement> m_outOfUse;
};

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
    QHash<QString, QString> owners;
    QHash<QString, QString> offices;
};

Result<QList<HeadSigned>> signaturesOf(SignatureReader& reader, const std::vector<store::Signature>& kept,
                                       qsizetype entries)
{
    QList<HeadSigned> signatures;
    for (const store::Signature& one : kept) {
        if (one.seq.value() >= entries)
            continue; // over what stands behind a break
        auto read = reader.read(one);
        if (!read)
            return tl::unexpected(read.error());
        signatures.append(std::move(*read));
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
    Read read{std::move(*chain), std::move(*entries), {}, std::move(*reviews), {}, {}, {}};
    SignatureReader reader(database, read.chain.good);
    if (auto begun = reader.begin(); !begun)
        return tl::unexpected(begun.error());
    auto signed_ = signaturesOf(reader, *signatures, read.entries.size());
    if (!signed_)
        return tl::unexpected(signed_.error());
    read.signatures = std::move(*signed_);
    for (const record::KeptReview& one : read.kept.whole) {
        auto held = reader.read(one, read.entries, read.signatures);
        if (!held)
            return tl::unexpected(held.error());
        read.reviews.append(std::move(*held));
    }
    read.owners = reader.owners();
    read.offices = reader.offices();
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
    reading->owners = std::move(read->owners);
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
