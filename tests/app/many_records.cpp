#include "tests/app/many_records.h"

#include "core/people/people_store.h"
#include "core/record/record_file.h"
#include "tests/support/test_key.h"

namespace coldarc::test {

using namespace Qt::StringLiterals;
using coldarc::test::keyOf;

namespace {

const PersonId kSupervisor(u"supervisor of records"_s);
const QString kSupervisorName = u"S. Invented"_s;

/// Some 4 KiB, so that it lies on a page of its own.
record::Picture pictureOf(int number)
{
    const QByteArray bytes = "\x89PNG of record " + QByteArray::number(number) + QByteArray(4000, 'p');
    return {sha256(bytes), bytes};
}

} // namespace

ManyRecords::ManyRecords()
    : m_key(keyOf(1))
    , m_supervisor(keyOf(5))
    , m_office(keyOf(4))
    , m_toldPicture(pictureOf(-1))
{
    Night night;
    night.doAll();
    EXPECT_TRUE(night.tell(visit::PictureKept{night.swap().id, {}, u"box"_s, m_toldPicture.hash}));
    night.close();
    m_engineer = night.entries.front().by;
    m_told = night.opening().visit;
    m_now = night.clock.now();
    for (const visit::Entry& entry : night.entries)
        m_entries.append(visit::bytesOf(entry));
    m_wanted = visit::wantedSignatures(night.entries, night.state);
    const auto day = people::utcDayOf(m_now.wall);
    m_vouching.offices = {m_office.publicKey()};
    m_vouching.certificates = {*people::certify({m_key.publicKey(), m_engineer, u"A. Okoro"_s,
                                                 people::Role::Engineer, day, day, m_now.wall},
                                                m_office),
                               *people::certify({m_supervisor.publicKey(), kSupervisor, kSupervisorName,
                                                 people::Role::Supervisor, day, day, m_now.wall},
                                                m_office)};
}

void ManyRecords::believeIn(store::Database& database) const
{
    EXPECT_TRUE(
        people::PeopleStore(database).add({m_engineer, u"A. Okoro"_s, people::Role::Engineer, {}, {}, {}}));
    EXPECT_TRUE(
        people::OfficeStore(database).takeUp(m_office.publicKey(), u"Invented Lamps"_s, m_engineer, m_now));
}

VisitId ManyRecords::visitOf(int number)
{
    return VisitId(u"visit-of-record-%1"_s.arg(number));
}

record::Record ManyRecords::recordOf(int number) const
{
    const VisitId visit = visitOf(number);
    const record::Picture picture = pictureOf(number);
    std::vector<store::Entry> entries;
    Hash before;
    for (QByteArray bytes : m_entries) {
        bytes.replace('"' + m_told.text().toUtf8() + '"', '"' + visit.text().toUtf8() + '"');
        bytes.replace(m_toldPicture.hash.hex().toUtf8(), picture.hash.hex().toUtf8());
        before = chained(before, bytes);
        entries.push_back({store::Sequence(static_cast<qint64>(entries.size())), bytes, before});
    }
    std::vector<store::Signature> signatures;
    for (const visit::WantedSignature& one : m_wanted) {
        const Hash head = entries[static_cast<std::size_t>(one.entry)].hash;
        const people::HeadStatement said{visit,      one.entry,
                                         head,       *people::meaningFromWord(one.meaning.toStdString()),
                                         m_now.wall, one.person};
        signatures.push_back({visit, store::Sequence(one.entry), head, one.person, m_key.publicKey().bytes(),
                              m_key.sign(*people::signedMessage(said, m_key.publicKey())).bytes(),
                              one.meaning, m_now.wall});
    }
    const record::Review said{visit,
                              static_cast<qint64>(entries.size()) - 1,
                              entries.back().hash,
                              record::Verdict::Accepted,
                              u"looked at it"_s,
                              {},
                              kSupervisor,
                              kSupervisorName,
                              m_now.wall};
    const record::SignedReview review = *record::sign(said, m_supervisor);
    return *record::recordOf(visit, entries, signatures, {picture}, m_vouching,
                             {{record::idOf(review), said, review, m_supervisor.publicKey()}});
}

QByteArray ManyRecords::fileOf(int number) const
{
    return record::bytesOf(recordOf(number)).value();
}

} // namespace coldarc::test
