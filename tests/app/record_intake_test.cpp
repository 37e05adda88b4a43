#include "app/record_intake.h"

#include "app/record_out.h"
#include "core/people/people_store.h"
#include "core/record/record_file.h"
#include "tests/core/visit/night.h"
#include "tests/support/testing.h"

#include <QFile>
#include <QTemporaryDir>

#include <cstring>

// Every person and office here is invented.

namespace coldarc::app {
namespace {

using namespace Qt::StringLiterals;
using coldarc::test::Night;
using record::TakenRecord;
using Verdict = record::Intake::Verdict;
using Why = record::Intake::Why;

people::SigningKey keyOf(unsigned char byte)
{
    people::SecretBytes seed(people::SigningKey::kSeedBytes);
    std::memset(seed.data(), byte, seed.size());
    return people::SigningKey::fromSeed(std::move(seed));
}

/// A visit of an engineer's workspace, and the workspace of a supervisor.
class RecordIntakeTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        night.doAll();
        const PersonId engineer = night.entries.front().by;
        for (store::Database* each : {&theirs, &ours})
            ASSERT_TRUE(people::PeopleStore(*each).add(
                {engineer, u"A. Okoro"_s, people::Role::Engineer, {}, {}, {}}));
        const Stamp now = night.clock.now();
        people::OfficeStore offices(theirs);
        ASSERT_TRUE(offices.takeUp(office.publicKey(), u"Invented Lamps"_s, engineer, now));
        ASSERT_TRUE(offices.keep(
            *people::certify({engineerKey.publicKey(), engineer, u"A. Okoro"_s, people::Role::Engineer,
                              people::utcDayOf(now.wall), people::utcDayOf(now.wall), now.wall},
                             office),
            now));
        store::Journal journal(theirs);
        qint64 next = 0;
        for (const visit::Entry& entry : night.entries)
            ASSERT_TRUE(journal.append(visit, store::Sequence(next++), visit::bytesOf(entry)));
        sign(engineer);
    }
    void sign(const PersonId& person)
    {
        store::Journal journal(theirs);
        const auto head = journal.head(visit);
        const people::HeadStatement said{
            visit, head->seq.value(), head->hash, people::Meaning::Performed, night.clock.now().wall, person};
        const QByteArray message = *people::signedMessage(said, engineerKey.publicKey());
        ASSERT_TRUE(journal.keep({visit, head->seq, head->hash, person, engineerKey.publicKey().bytes(),
                                  engineerKey.sign(message).bytes(), u"performed"_s, said.at}));
    }
    [[nodiscard]] QByteArray file()
    {
        return *recordFileOf(visit, store::Journal(theirs), store::Pictures(theirs),
                             people::OfficeStore(theirs));
    }
    TakenRecord take(const QByteArray& bytes)
    {
        return intake.takeBytes(u"visit.zip"_s, bytes, night.entries.front().by, night.clock.now());
    }
    void believe()
    {
        ASSERT_TRUE(people::OfficeStore(ours).takeUp(office.publicKey(), u"Invented Lamps"_s,
                                                     night.entries.front().by, night.clock.now()));
    }

    people::SigningKey office = keyOf(4);
    people::SigningKey engineerKey = keyOf(1);
    Night night;
    VisitId visit{u"visit-1"_s};
    store::Database theirs = store::Database::inMemory();
    store::Database ours = store::Database::inMemory();
    RecordIntake intake{ours};
};

TEST_F(RecordIntakeTest, ARecordIsTakenWithItsSummary)
{
    believe();
    const TakenRecord taken = take(file());

    ASSERT_EQ(taken.unread, QString());
    EXPECT_EQ(taken.intake.verdict, Verdict::Take);
    EXPECT_EQ(taken.newEntries, static_cast<int>(night.entries.size()));
    const auto summary = store::Summaries(ours).of(visit);
    ASSERT_TRUE(summary);
    EXPECT_EQ(summary->headHash, store::Journal(theirs).head(visit)->hash);
    EXPECT_EQ(summary->siteText, night.state.ground->opening.site.site.name);
    EXPECT_EQ(take(file()).intake.verdict, Verdict::Nothing);
}

TEST_F(RecordIntakeTest, ARecordWaitsUntilItsOfficeIsBelieved)
{
    EXPECT_EQ(take(file()).intake.why, Why::UnknownOffice);
    EXPECT_EQ(store::Journal(ours).head(visit).error().kind, Error::Kind::NotFound)
        << "nothing of it is used";
    const auto waiting = record::IntakeStore(ours).waiting();
    ASSERT_EQ(waiting->size(), 1U);

    believe();
    const TakenRecord taken =
        intake.tryAgain(waiting->front().file, night.entries.front().by, night.clock.now());
    EXPECT_EQ(taken.intake.verdict, Verdict::Take);
    EXPECT_TRUE(record::IntakeStore(ours).waiting()->empty());
}

TEST_F(RecordIntakeTest, WhatWasAlteredIsRefusedAndNothingOfItIsKept)
{
    believe();
    record::Record record = *record::recordFromBytes(file());
    record.entries[3].replace("\"by\"", "\"bY\"");
    const TakenRecord taken = take(*record::bytesOf(record));

    EXPECT_EQ(taken.intake.verdict, Verdict::Refuse);
    ASSERT_FALSE(taken.faults.empty());
    EXPECT_EQ(taken.faults.front().entry, 3);
    EXPECT_EQ(store::Journal(ours).head(visit).error().kind, Error::Kind::NotFound);
    EXPECT_TRUE(record::IntakeStore(ours).waiting()->empty());
}

TEST_F(RecordIntakeTest, WhatIsNoRecordSaysWhy)
{
    EXPECT_TRUE(take("hello").unread.contains(u"ZIP"_s));
    EXPECT_FALSE(intake.takeFile(u"/nowhere/visit.zip"_s, {}, night.clock.now()).unread.isEmpty());
}

// Entries that say nothing to this program make no visit: they wait for one that knows them.
TEST_F(RecordIntakeTest, EntriesOfALaterProgramWait)
{
    believe();
    store::Journal journal(theirs);
    const VisitId strange(u"visit-2"_s);
    ASSERT_TRUE(journal.append(strange, store::Sequence(0), "{\"kind\":\"not-known-yet\"}"));
    visit = strange;
    sign(night.entries.front().by);

    const TakenRecord taken = take(file());
    EXPECT_EQ(taken.intake, (record::Intake{Verdict::Wait, Why::NotUnderstood}));
    EXPECT_EQ(store::Journal(ours).head(strange).error().kind, Error::Kind::NotFound);
    EXPECT_EQ(record::IntakeStore(ours).waiting()->size(), 1U);
}

} // namespace
} // namespace coldarc::app
