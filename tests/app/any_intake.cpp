#include "tests/app/any_intake.h"

#include "core/people/certificate.h"
#include "core/record/record_file.h"
#include "core/record/record_text.h"
#include "core/record/review_store.h"
#include "core/store/journal.h"
#include "core/visit/evolve.h"
#include "core/visit/wanted_signature.h"

#include <algorithm>
#include <cstring>
#include <span>

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

// Longer inputs are slower, and find nothing that shorter ones do not.
constexpr qsizetype kMostParts = 3;
constexpr std::size_t kMostEntries = 200;
constexpr qsizetype kMostSignatures = 64;
constexpr std::size_t kMostKeys = 64;

const Stamp kNow{WallTime(std::chrono::milliseconds(1'795'100'000'000)), u"machine-1"_s, u"boot-1"_s,
                 std::chrono::hours(1), std::chrono::milliseconds(0)};
const PersonId kTaker(u"taker"_s);

const people::SigningKey& keyOf(const QByteArray& owner, InventedPapers& papers)
{
    if (const auto known = papers.keys.find(owner); known != papers.keys.end())
        return known->second;
    people::SecretBytes seed(people::SigningKey::kSeedBytes);
    std::memcpy(seed.data(), sha256(owner).bytes().constData(), seed.size());
    return papers.keys.emplace(owner, people::SigningKey::fromSeed(std::move(seed))).first->second;
}

const people::SigningKey& keyOf(const PersonId& person, InventedPapers& papers)
{
    return keyOf("key of " + person.text().toUtf8(), papers);
}

const people::SigningKey& officeKey(InventedPapers& papers)
{
    return keyOf("the office of all", papers);
}

InventedPapers papersOf(QByteArray opening)
{
    InventedPapers papers{std::move(opening), std::nullopt};
    if (auto entry = visit::entryFrom(papers.opening)) {
        papers.afterOpening = visit::evolve(visit::VisitState(), *entry);
        papers.opened = std::move(*entry);
    }
    return papers;
}

std::optional<InventedFile> fileOf(Result<record::Record> record)
{
    const auto bytes = record ? record::bytesOf(*record) : tl::unexpected(record.error());
    return bytes ? std::optional(InventedFile{*bytes, std::move(*record)}) : std::nullopt;
}

/// That an invented key is theirs on one day. Nothing for what no office certifies.
std::optional<people::Certificate> certificateOf(const PersonId& person, const QString& name,
                                                 people::Role role, people::Day day, InventedPapers& papers)
{
    const auto known = papers.certificates.find({person, name, role, day});
    if (known != papers.certificates.end())
        return known->second;
    const auto paper = people::certify(
        {keyOf(person, papers).publicKey(), person, name, role, day, day, kNow.wall}, officeKey(papers));
    if (!paper)
        return std::nullopt;
    return papers.certificates.emplace(std::tuple(person, name, role, day), *paper).first->second;
}

/// A visit whose entries are given, signed, reviewed and vouched for.
class SignedVisit {
public:
    /// Pre: not empty.
    SignedVisit(const std::vector<QByteArray>& lines, InventedPapers& papers)
        : m_papers(papers)
    {
        m_vouching.offices = {officeKey(papers).publicKey()};
        bool isUnderstood = true;
        Hash before;
        for (const QByteArray& line : lines) {
            before = chained(before, line);
            m_entries.push_back({store::Sequence(static_cast<qint64>(m_entries.size())), line, before});
            isUnderstood = isUnderstood && understand(line);
        }
        const auto* opening =
            m_understood.empty() ? nullptr : std::get_if<visit::Opening>(&m_understood.front().body);
        m_visit = opening && !opening->visit.isEmpty() ? opening->visit : VisitId(u"any"_s);
    }

    /// By everybody of whom the entries ask it, and its last entry by somebody besides.
    void sign()
    {
        const auto wanted = visit::wantedSignatures(m_understood, m_state);
        for (const visit::WantedSignature& one : wanted.first(std::min(kMostSignatures, wanted.size())))
            sign(one.entry, one.person, one.meaning);
        sign(static_cast<qint64>(m_entries.size()) - 1, PersonId(u"whoever"_s), u"witnessed"_s);
    }
    void review(const QByteArray& line)
    {
        const QList<QByteArray> said = line.split('\t');
        const qint64 entry = said.value(1).toLongLong();
        if (entry < 0 || entry >= static_cast<qint64>(m_entries.size()))
            return;
        const auto verdict = record::verdictFromWord(QString::fromUtf8(said.value(2)));
        const PersonId by(QString::fromUtf8(said.value(3)));
        const QString name = QString::fromUtf8(said.value(4));
        const WallTime at = momentOf(entry) + std::chrono::hours(said.value(5).toInt());
        const record::Review review{m_visit,
                                    entry,
                                    m_entries[static_cast<std::size_t>(entry)].hash,
                                    verdict.value_or(record::Verdict::Accepted),
                                    QString::fromUtf8(said.value(6)),
                                    {},
                                    by,
                                    name,
                                    at};
        const people::SigningKey& key = keyOf(by, m_papers);
        const auto paper = record::sign(review, key);
        if (paper && vouch(by, name, people::Role::Supervisor, at))
            m_reviews.push_back({record::idOf(*paper), review, *paper, key.publicKey()});
    }

    [[nodiscard]] std::optional<InventedFile> file() const
    {
        return fileOf(record::recordOf(m_visit, m_entries, m_signatures, pictures(), m_vouching, m_reviews));
    }

private:
    /// The one picture that entries here can name, where one does.
    [[nodiscard]] std::vector<record::Picture> pictures() const
    {
        const QByteArray picture = "a picture";
        const bool isNamed = std::ranges::any_of(m_understood, [&](const visit::Entry& entry) {
            return visit::picturesOf(entry).contains(sha256(picture));
        });
        return isNamed ? std::vector<record::Picture>{{sha256(picture), picture}}
                       : std::vector<record::Picture>();
    }
    /// False where the entry cannot be read.
    bool understand(const QByteArray& line)
    {
        if (m_understood.isEmpty() && line == m_papers.opening && m_papers.opened) {
            m_understood.append(*m_papers.opened);
            m_state = m_papers.afterOpening;
            return true;
        }
        const auto entry = visit::entryFrom(line);
        if (!entry)
            return false;
        m_understood.append(*entry);
        m_state = visit::evolve(std::move(m_state), *entry);
        return true;
    }
    /// As its entry says, where that is a day that an office can certify.
    [[nodiscard]] WallTime momentOf(qint64 entry) const
    {
        const WallTime said = entry < m_understood.size() ? m_understood[entry].at.wall : kNow.wall;
        const int year = yearOf(said);
        return year >= 1970 && year <= 9000 ? said : kNow.wall;
    }
    /// As the entries call them first.
    [[nodiscard]] QString nameOf(const PersonId& person) const
    {
        for (const visit::Entry& entry : m_understood) {
            for (const visit::PersonFacts& one : review::factsIn(entry)) {
                if (one.id == person && !one.name.trimmed().isEmpty())
                    return one.name;
            }
        }
        return u"Invented "_s + person.text();
    }
    bool vouch(const PersonId& person, const QString& name, people::Role role, WallTime at)
    {
        const auto paper = certificateOf(person, name, role, people::utcDayOf(at), m_papers);
        if (paper && std::ranges::find(m_vouching.certificates, *paper) == m_vouching.certificates.end())
            m_vouching.certificates.push_back(*paper);
        return paper.has_value();
    }
    void sign(qint64 entry, const PersonId& person, const QString& meaning)
    {
        const auto word = people::meaningFromWord(meaning.toStdString());
        const WallTime at = momentOf(entry);
        if (!word || !vouch(person, nameOf(person), people::Role::Engineer, at))
            return;
        const people::SigningKey& key = keyOf(person, m_papers);
        const Hash head = m_entries[static_cast<std::size_t>(entry)].hash;
        if (const auto message =
                people::signedMessage({m_visit, entry, head, *word, at, person}, key.publicKey()))
            m_signatures.push_back({m_visit, store::Sequence(entry), head, person, key.publicKey().bytes(),
                                    key.sign(*message).bytes(), meaning, at});
    }

    InventedPapers& m_papers;
    VisitId m_visit;
    std::vector<store::Entry> m_entries;
    QList<visit::Entry> m_understood; ///< up to the first that is not
    visit::VisitState m_state;        ///< their fold
    std::vector<store::Signature> m_signatures;
    record::Vouching m_vouching;
    std::vector<record::KeptReview> m_reviews;
};

/// Each line of a text; none of one that cannot be read as lines.
std::vector<QByteArray> linesOf(const QByteArray& text, const QByteArray& opening)
{
    auto lines = record::entriesFromLines(text).value_or(std::vector<QByteArray>());
    std::ranges::replace(lines, QByteArray("@"), opening);
    return lines;
}

std::optional<InventedFile> signedFile(std::vector<QByteArray> lines, InventedPapers& papers)
{
    const auto reviews = std::stable_partition(lines.begin(), lines.end(),
                                               [](const QByteArray& line) { return !line.startsWith('\t'); });
    const std::vector<QByteArray> entries(lines.begin(), reviews);
    if (entries.empty() || entries.size() > kMostEntries)
        return std::nullopt;
    SignedVisit visit(entries, papers);
    visit.sign();
    std::for_each(reviews, lines.end(), [&](const QByteArray& review) { visit.review(review); });
    return visit.file();
}

std::optional<InventedFile> manifestFile(const QByteArray& manifest, std::vector<QByteArray> entries)
{
    auto record = record::recordFromManifest(manifest);
    if (record)
        record->entries = std::move(entries);
    return fileOf(std::move(record));
}

char asLower(char letter)
{
    return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
}

bool comesAgain(const QByteArray& bytes)
{
    return !bytes.isEmpty() && asLower(bytes.front()) != bytes.front();
}

/// The record files that an input makes.
std::vector<InventedFile> filesOf(const QByteArray& bytes, InventedPapers& papers)
{
    std::vector<InventedFile> files;
    const QByteArray rest = bytes.mid(1);
    const QList<QByteArray> parts = rest.split('\0');
    const auto add = [&](std::optional<InventedFile> file) {
        if (file)
            files.push_back(std::move(*file));
    };
    const char form = bytes.isEmpty() ? ' ' : asLower(bytes.front());
    if (form == 'f') {
        add(InventedFile{rest});
    } else if (form == 'm') {
        add(manifestFile(parts[0], linesOf(parts.value(1), papers.opening)));
    } else {
        for (const QByteArray& part : parts.first(std::min(kMostParts, parts.size())))
            add(signedFile(linesOf(part, papers.opening), papers));
    }
    return files;
}

} // namespace

AnyIntake::AnyIntake(QByteArray opening)
    : m_papers(papersOf(std::move(opening)))
    , m_database(store::Database::inMemory())
    , m_intake(m_database)
{
    const bool isReady = people::PeopleStore(m_database)
                             .add({kTaker, u"T. Invented"_s, people::Role::Supervisor, {}, {}, {}}) &&
                         people::OfficeStore(m_database)
                             .takeUp(officeKey(m_papers).publicKey(), u"Invented Lamps"_s, kTaker, kNow);
    Q_ASSERT_X(isReady, "AnyIntake", "the workspace was not made");
}

bool AnyIntake::takesSafely(const QByteArray& bytes)
{
    m_entriesTaken = 0;
    m_reviewsTaken = 0;
    if (m_papers.keys.size() > kMostKeys)
        m_papers.keys.clear();
    if (m_papers.certificates.size() > kMostKeys)
        m_papers.certificates.clear();
    const std::vector<InventedFile> files = filesOf(bytes, m_papers);
    bool isSafe = true;
    m_heads.clear();                                             // nothing stands there
    std::ignore = m_database.transaction([&]() -> Result<void> { // nothing of it stays
        std::vector<QByteArray> taken;
        for (const InventedFile& file : files)
            isSafe = isSafe && takes(file, taken);
        if (comesAgain(bytes))
            isSafe =
                isSafe && std::ranges::all_of(taken, [&](const QByteArray& file) { return isKnown(file); });
        return fail(Error::Kind::Refused, u"it is forgotten"_s);
    });
    return isSafe;
}

bool AnyIntake::takes(const InventedFile& file, std::vector<QByteArray>& takenFiles)
{
    const store::Journal journal(m_database);
    const auto taken = m_intake.takeBytes({}, file.bytes, kTaker, kNow);
    if (!taken.unread.isEmpty() || taken.intake.verdict != record::Intake::Verdict::Take) {
        const auto heads = journal.heads();
        return heads && *heads == m_heads;
    }
    m_entriesTaken += taken.newEntries;
    takenFiles.push_back(file.bytes);
    const auto heads = journal.heads();
    if (!heads || !isThere(file, taken))
        return false;
    m_heads = *heads;
    return true;
}

bool AnyIntake::isKnown(const QByteArray& file)
{
    const auto again = m_intake.takeBytes({}, file, kTaker, kNow);
    return again.unread.isEmpty() && again.intake.verdict == record::Intake::Verdict::Nothing;
}

bool AnyIntake::isThere(const InventedFile& file, const record::TakenRecord& taken)
{
    const auto record =
        file.record ? Result<record::Record>(*file.record) : record::recordFromBytes(file.bytes);
    const auto entries = store::Journal(m_database).entries(taken.visit);
    const auto summary = store::Summaries(m_database).of(taken.visit);
    const auto reviews = record::ReviewStore(m_database).of(taken.visit);
    if (!record || !entries || entries->empty() || !summary || !reviews)
        return false;
    m_reviewsTaken += static_cast<int>(reviews->whole.size());
    const std::size_t common = std::min(entries->size(), record->entries.size());
    const bool hasItsEntries =
        static_cast<qint64>(entries->size()) == taken.intake.entries &&
        std::ranges::equal(std::span(*entries).first(common), std::span(record->entries).first(common), {},
                           &store::Entry::bytes);
    const bool hasItsReviews = std::ranges::all_of(record->reviews, [&](const record::SignedReview& one) {
        const bool isOfWhatIsThere = record::saidBy(one)->review.entry < taken.intake.entries;
        return !isOfWhatIsThere || std::ranges::find(reviews->whole, record::idOf(one),
                                                     &record::KeptReview::id) != reviews->whole.end();
    });
    return hasItsEntries && hasItsReviews && reviews->altered.empty() &&
           summary->headHash == entries->back().hash;
}

} // namespace coldarc::test
