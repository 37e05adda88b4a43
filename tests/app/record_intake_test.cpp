#include "app/record_intake.h"

#include "app/record_out.h"
#include "core/people/key_store.h"
#include "core/people/office_store.h"
#include "core/people/people_store.h"
#include "core/record/record_file.h"
#include "core/record/review_store.h"
#include "core/review/summary.h"
#include "tests/core/visit/night.h"
#include "tests/support/test_key.h"
#include "tests/support/testing.h"

#include <QFile>
#include <QTemporaryDir>

// Every person and office here is invented.

namespace coldarc::app {
namespace {

using namespace Qt::StringLiterals;
using coldarc::test::Night;
using record::TakenRecord;
using Becomes = record::Intake::Verdict;
using Why = record::Intake::Why;
using coldarc::test::keyOf;

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
    /// The last entry, with the engineer's key.
    void sign(const PersonId& person, people::Meaning meaning = people::Meaning::Performed)
    {
        sign(person, meaning, engineerKey);
    }
    void sign(const PersonId& person, people::Meaning meaning, const people::SigningKey& key)
    {
        store::Journal journal(theirs);
        const auto head = journal.head(visit);
        const people::HeadStatement said{visit,   head->seq.value(),      head->hash,
                                         meaning, night.clock.now().wall, person};
        const QByteArray message = *people::signedMessage(said, key.publicKey());
        const std::string_view word = people::wordOf(meaning);
        ASSERT_TRUE(journal.keep({visit, head->seq, head->hash, person, key.publicKey().bytes(),
                                  key.sign(message).bytes(),
                                  QString::fromUtf8(word.data(), qsizetype(word.size())), said.at}));
    }
    /// Ends the visit: entries that say that the engineer signed and closed.
    void close()
    {
        const qsizetype before = night.entries.size();
        night.close();
        store::Journal journal(theirs);
        for (qsizetype number = before; number < night.entries.size(); ++number)
            ASSERT_TRUE(
                journal.append(visit, store::Sequence(number), visit::bytesOf(night.entries[number])));
    }
    /// Signs every entry of signing and closing behind `from`, which sign() cannot.
    void signAllFrom(qsizetype from, people::Meaning meaning, const PersonId& person)
    {
        store::Journal journal(theirs);
        const auto entries = journal.entries(visit);
        for (qsizetype number = from; number < night.entries.size(); ++number) {
            const store::Entry& entry = (*entries)[static_cast<std::size_t>(number)];
            const people::HeadStatement said{visit,   entry.seq.value(),      entry.hash,
                                             meaning, night.clock.now().wall, person};
            const QByteArray message = *people::signedMessage(said, engineerKey.publicKey());
            const std::string_view word = people::wordOf(meaning);
            ASSERT_TRUE(journal.keep({visit, entry.seq, entry.hash, person, engineerKey.publicKey().bytes(),
                                      engineerKey.sign(message).bytes(),
                                      QString::fromUtf8(word.data(), qsizetype(word.size())), said.at}));
        }
    }
    [[nodiscard]] record::SignedReview review(store::Database& where, const PersonId& by, const QString& name,
                                              std::chrono::hours later = {})
    {
        const auto head = store::Journal(where).head(visit);
        return *record::sign({visit,
                              head->seq.value(),
                              head->hash,
                              record::Verdict::SentBack,
                              u"the counter?"_s,
                              {},
                              by,
                              name,
                              night.clock.now().wall + later},
                             supervisorKey);
    }
    /// Keeps a review in the engineer's workspace, as if it had come there.
    void keepTheirs(const record::SignedReview& paper)
    {
        ASSERT_TRUE(record::ReviewStore(theirs).keep(paper, supervisorKey.publicKey(), night.clock.now()));
    }
    /// For three days on either side of now.
    void vouchForSupervisor(store::Database& where, people::Role role, const QString& name = u"S. Marlow"_s)
    {
        constexpr std::chrono::days kThree{3};
        const WallTime now = night.clock.now().wall;
        ASSERT_TRUE(people::OfficeStore(where).keep(
            *people::certify({supervisorKey.publicKey(), PersonId(u"sue"_s), name, role,
                              people::utcDayOf(now - kThree), people::utcDayOf(now + kThree), now},
                             office),
            night.clock.now()));
    }
    /// A record with a review that the engineer's workspace would not send.
    [[nodiscard]] QByteArray fileWith(const record::SignedReview& paper)
    {
        record::Record record = *record::recordFromBytes(file());
        record.reviews.push_back(paper);
        record.keys.push_back(supervisorKey.publicKey());
        const auto known = people::OfficeStore(theirs).certificatesOf(supervisorKey.publicKey());
        for (const people::Certificate& one : *known)
            record.vouching.certificates.push_back(one);
        return record::bytesOf(record).value();
    }
    [[nodiscard]] QByteArray file() { return *recordFileOf(visit, theirs); }
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
    people::SigningKey supervisorKey = keyOf(5);
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
    EXPECT_EQ(taken.intake.verdict, Becomes::Take);
    EXPECT_EQ(taken.newEntries, static_cast<int>(night.entries.size()));
    const auto summary = store::Summaries(ours).of(visit);
    ASSERT_TRUE(summary);
    EXPECT_EQ(summary->headHash, store::Journal(theirs).head(visit)->hash);
    EXPECT_TRUE(summary->siteText.startsWith(night.state.ground->opening.site.site.name));
    EXPECT_EQ(take(file()).intake.verdict, Becomes::Nothing);
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
    EXPECT_EQ(taken.intake.verdict, Becomes::Take);
    EXPECT_TRUE(record::IntakeStore(ours).waiting()->empty());
}

TEST_F(RecordIntakeTest, WhatWasAlteredIsRefusedAndNothingOfItIsKept)
{
    believe();
    record::Record record = *record::recordFromBytes(file());
    record.entries[3].replace("\"by\"", "\"bY\"");
    const TakenRecord taken = take(*record::bytesOf(record));

    EXPECT_EQ(taken.intake.verdict, Becomes::Refuse);
    ASSERT_FALSE(taken.faults.empty());
    EXPECT_EQ(taken.faults.front().entry, 3);
    EXPECT_EQ(store::Journal(ours).head(visit).error().kind, Error::Kind::NotFound);
    EXPECT_TRUE(record::IntakeStore(ours).waiting()->empty());
}

class VisitToldTwiceTest : public RecordIntakeTest {
protected:
    VisitToldTwiceTest() { visit = VisitId(u"visit-again"_s); } // the night opened visit-1
};

TEST_F(VisitToldTwiceTest, TheEntriesOfOneVisitThatAreSignedAsAnotherAreRefused)
{
    believe();

    EXPECT_EQ(take(file()).intake, (record::Intake{Becomes::Refuse, Why::OpensAnother}));
    EXPECT_EQ(store::Journal(ours).head(visit).error().kind, Error::Kind::NotFound);
    EXPECT_TRUE(record::IntakeStore(ours).waiting()->empty());
}

TEST_F(RecordIntakeTest, APictureThatNoSignedEntryNamesIsToldAndNotKept)
{
    believe();
    record::Record record = *record::recordFromBytes(file());
    const Hash strange = sha256("somebody's holiday");
    record.pictures.push_back({strange, "somebody's holiday"});
    EXPECT_EQ(take(*record::bytesOf(record)).intake, (record::Intake{Becomes::Refuse, Why::PictureUnnamed}));

    const visit::Entry entry{night.clock.now(), night.ada(),
                             visit::PictureKept{night.swap().id, {}, u"box"_s, strange}};
    record.entries.push_back(visit::bytesOf(entry)); // behind the last signature
    record.chain.push_back(chained(record.chain.back(), record.entries.back()));
    EXPECT_EQ(take(*record::bytesOf(record)).intake.verdict, Becomes::Take);
    EXPECT_FALSE(store::Pictures(ours).read(strange));
}

TEST_F(RecordIntakeTest, WhatIsNoRecordSaysWhy)
{
    EXPECT_TRUE(take("hello").unread.contains(u"ZIP"_s));
    EXPECT_EQ(take("hello").trouble, TakenRecord::Trouble::NoRecord);
    const TakenRecord gone = intake.takeFile(u"/nowhere/visit.zip"_s, {}, night.clock.now());
    EXPECT_FALSE(gone.unread.isEmpty());
    EXPECT_EQ(gone.trouble, TakenRecord::Trouble::NotOpened);
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
    EXPECT_EQ(taken.intake, (record::Intake{Becomes::Wait, Why::NotUnderstood}));
    EXPECT_EQ(store::Journal(ours).head(strange).error().kind, Error::Kind::NotFound);
    EXPECT_EQ(record::IntakeStore(ours).waiting()->size(), 1U);
}

TEST_F(RecordIntakeTest, AnOlderRecordWithOneMoreSignatureLeavesTheSummaryOfWhatStandsHere)
{
    believe();
    const PersonId engineer = night.entries.front().by;
    const qsizetype before = night.entries.size();
    sign(engineer, people::Meaning::Witnessed);
    const QByteArray older = file();
    close();
    signAllFrom(before, people::Meaning::Performed, engineer);
    record::Record later = *record::recordFromBytes(file());
    std::erase_if(later.signatures, [](const record::HeadSignature& one) {
        return people::headSaidBy(one.jws)->statement.meaning == people::Meaning::Witnessed;
    });
    ASSERT_EQ(take(*record::bytesOf(later)).intake.verdict, Becomes::Take);

    const TakenRecord taken = take(older);
    ASSERT_EQ(taken.intake.verdict, Becomes::Take);
    EXPECT_EQ(taken.newEntries, 0);
    const auto summary = store::Summaries(ours).of(visit);
    ASSERT_TRUE(summary);
    EXPECT_EQ(summary->state, u"done"_s);
    EXPECT_EQ(summary->headHash, store::Journal(theirs).head(visit)->hash);
}

// ---- What signing says, and who signed ------------------------------------------------------------------

TEST_F(RecordIntakeTest, AVisitThatIsSaidToBeSignedIsSignedByThatVeryPersonOrWaits)
{
    believe();
    const PersonId engineer = night.entries.front().by;
    const qsizetype before = night.entries.size();
    close();
    sign(engineer, people::Meaning::Witnessed); // the last entry is covered, and nobody performed anything
    EXPECT_EQ(take(file()).intake, (record::Intake{Becomes::Wait, Why::SignatureMissing}));
    EXPECT_EQ(store::Journal(ours).head(visit).error().kind, Error::Kind::NotFound);

    signAllFrom(before, people::Meaning::Performed, engineer);
    EXPECT_EQ(take(file()).intake.verdict, Becomes::Take);
    EXPECT_TRUE(store::Summaries(ours).of(visit)->isSigned);
}

// Tom, a trainee, calls himself A. Okoro in a workspace of his own, and signs alone.
TEST_F(RecordIntakeTest, ARecordWhoseLeadIsVouchedForAsATraineeOfAnotherNameWaits)
{
    believe();
    const PersonId tom = night.entries.front().by;
    const WallTime now = night.clock.now().wall;
    const auto vouch = [&](const QString& name, people::Role role) {
        ASSERT_TRUE(people::OfficeStore(theirs).keep(
            *people::certify({supervisorKey.publicKey(), tom, name, role, people::utcDayOf(now),
                              people::utcDayOf(now), now},
                             office),
            night.clock.now()));
    };
    vouch(u"T. Wren"_s, people::Role::Trainee);
    engineerKey = keyOf(5); // the other one signed at the stops before
    const qsizetype before = night.entries.size();
    close();
    signAllFrom(before, people::Meaning::Performed, tom);
    EXPECT_EQ(take(file()).intake, (record::Intake{Becomes::Wait, Why::SignerNamedOtherwise}));

    vouch(u"A. Okoro"_s, people::Role::Trainee); // his office gives in to the name
    EXPECT_EQ(take(file()).intake, (record::Intake{Becomes::Wait, Why::LeadNotVouched}));
}

TEST_F(RecordIntakeTest, ASignatureByAnotherKeyOfTheSamePersonIsTakenBesideTheOneThatIsHere)
{
    believe();
    ASSERT_EQ(take(file()).intake.verdict, Becomes::Take);
    const qsizetype before = store::Journal(ours).signatures(visit)->size();
    const PersonId engineer = night.entries.front().by;
    const WallTime now = night.clock.now().wall;
    ASSERT_TRUE(people::OfficeStore(theirs).keep(
        *people::certify({keyOf(6).publicKey(), engineer, u"A. Okoro"_s, people::Role::Engineer,
                          people::utcDayOf(now), people::utcDayOf(now), now},
                         office),
        night.clock.now()));
    sign(engineer, people::Meaning::Performed, keyOf(6));

    EXPECT_EQ(take(file()).intake.verdict, Becomes::Take);

    EXPECT_EQ(store::Journal(ours).signatures(visit)->size(), before + 1);
    EXPECT_EQ(take(file()).intake.verdict, Becomes::Nothing);
}

TEST_F(RecordIntakeTest, AnAddendumThatItsWriterDidNotSignWaits)
{
    believe();
    const PersonId engineer = night.entries.front().by;
    const qsizetype before = night.entries.size();
    close();
    signAllFrom(before, people::Meaning::Performed, engineer);
    ASSERT_TRUE(night.tell(visit::Addendum{u"the counter was read twice"_s}));
    ASSERT_TRUE(store::Journal(theirs).append(visit, store::Sequence(night.entries.size() - 1),
                                              visit::bytesOf(night.entries.last())));
    sign(engineer, people::Meaning::Witnessed);
    EXPECT_EQ(take(file()).intake.why, Why::SignatureMissing);

    sign(engineer, people::Meaning::Addendum);
    EXPECT_EQ(take(file()).intake.verdict, Becomes::Take);
}

// ---- Reviews --------------------------------------------------------------------------------------------

TEST_F(RecordIntakeTest, AReviewComesWithItsVisitAndItsStandIsShown)
{
    believe();
    const PersonId engineer = night.entries.front().by;
    const qsizetype before = night.entries.size();
    close();
    signAllFrom(before, people::Meaning::Performed, engineer);
    vouchForSupervisor(theirs, people::Role::Supervisor);
    keepTheirs(review(theirs, PersonId(u"sue"_s), u"S. Marlow"_s));

    EXPECT_EQ(take(file()).intake.verdict, Becomes::Take);
    EXPECT_EQ(record::ReviewStore(ours).of(visit)->whole.size(), 1U);
    EXPECT_EQ(store::Summaries(ours).of(visit)->review, u"sent-back"_s);
    EXPECT_EQ(take(file()).intake.verdict, Becomes::Nothing);
}

TEST_F(RecordIntakeTest, AReviewThatNobodyVouchesForAsASupervisorsWaits)
{
    believe();
    vouchForSupervisor(theirs, people::Role::Engineer);
    keepTheirs(review(theirs, PersonId(u"sue"_s), u"S. Marlow"_s));

    EXPECT_EQ(take(file()).intake, (record::Intake{Becomes::Wait, Why::ReviewerNotVouched}));
}

TEST_F(RecordIntakeTest, AReviewByWhoeverDidTheWorkIsRefused)
{
    believe();
    const auto paper = review(theirs, PersonId(u"okoro-elsewhere"_s), night.state.people.front().name);

    EXPECT_EQ(take(fileWith(paper)).intake, (record::Intake{Becomes::Refuse, Why::ReviewerTookPart}));
    EXPECT_EQ(store::Journal(ours).head(visit).error().kind, Error::Kind::NotFound);
}

TEST_F(RecordIntakeTest, AReviewOfAVisitThatWasNotOverWaits)
{
    believe();
    vouchForSupervisor(theirs, people::Role::Supervisor);
    keepTheirs(review(theirs, PersonId(u"sue"_s), u"S. Marlow"_s));

    EXPECT_EQ(take(file()).intake, (record::Intake{Becomes::Wait, Why::VisitNotOver}));
    EXPECT_TRUE(record::ReviewStore(ours).of(visit)->whole.empty());
}

/// A visit that is over, signed, and not reviewed yet.
class ClosedVisitTest : public RecordIntakeTest {
protected:
    void SetUp() override
    {
        RecordIntakeTest::SetUp();
        believe();
        const qsizetype before = night.entries.size();
        close();
        signAllFrom(before, people::Meaning::Performed, night.entries.front().by);
    }
};

// Of its stops nobody's key signed: only of what closing says it is asked for.
TEST_F(ClosedVisitTest, WorkThatNobodySignedStandsInItsLineFromTheFirst)
{
    ASSERT_EQ(take(file()).intake.verdict, Becomes::Take);

    EXPECT_TRUE(store::Summaries(ours).of(visit)->kinds.contains(
        review::wordOf(review::Exception::Kind::WorkUnsigned)));
    EXPECT_TRUE(ours.run(u"SELECT visit_id FROM summary_to_make"_s)->rows.empty()) << "it is whole";
}

TEST_F(ClosedVisitTest, AReviewUnderAnotherNameThanItsKeyIsVouchedForWaits)
{
    vouchForSupervisor(theirs, people::Role::Supervisor);
    keepTheirs(review(theirs, PersonId(u"sue"_s), u"T. Tern"_s));

    EXPECT_EQ(take(file()).intake, (record::Intake{Becomes::Wait, Why::ReviewerNamedOtherwise}));
}

TEST_F(ClosedVisitTest, WhoeverIsCertifiedByTheNameOfOneWhoTookPartReviewsUnderNoName)
{
    vouchForSupervisor(theirs, people::Role::Supervisor, night.state.people.front().name);
    const record::SignedReview paper = review(theirs, PersonId(u"sue"_s), u"T. Tern"_s);
    keepTheirs(paper);
    EXPECT_TRUE(record::recordFromBytes(file())->reviews.empty()) << "it is not sent on";

    EXPECT_EQ(take(fileWith(paper)).intake, (record::Intake{Becomes::Refuse, Why::ReviewerTookPart}));
}

TEST_F(ClosedVisitTest, AReviewFromLongBeforeTheVisitWaits)
{
    vouchForSupervisor(theirs, people::Role::Supervisor);
    keepTheirs(review(theirs, PersonId(u"sue"_s), u"S. Marlow"_s, std::chrono::hours(-25)));

    EXPECT_EQ(take(file()).intake, (record::Intake{Becomes::Wait, Why::ReviewMisdated}));
}

TEST_F(ClosedVisitTest, AReviewFromTheDayAfterTomorrowWaits)
{
    vouchForSupervisor(theirs, people::Role::Supervisor);
    keepTheirs(review(theirs, PersonId(u"sue"_s), u"S. Marlow"_s, std::chrono::hours(25)));
    EXPECT_EQ(take(file()).intake, (record::Intake{Becomes::Wait, Why::ReviewMisdated}));

    night.clock.advance(std::chrono::hours(1));
    EXPECT_EQ(take(file()).intake.verdict, Becomes::Take) << "24 hours ahead";
}

class OwnSupervisorTest : public ClosedVisitTest {
protected:
    void SetUp() override
    {
        ClosedVisitTest::SetUp();
        ASSERT_TRUE(people::PeopleStore(ours).add(
            {PersonId(u"sue"_s), u"S. Marlow"_s, people::Role::Supervisor, {}, {}, {}}));
        const auto sealed =
            people::sealKey(supervisorKey, PersonId(u"sue"_s),
                            *people::Passphrase::accept(u"nine herons over Pier Street"_s), {1, 8});
        ASSERT_TRUE(people::KeyStore(ours).enrol(PersonId(u"sue"_s), *sealed, night.clock.now()));
        keepTheirs(review(theirs, PersonId(u"sue"_s), u"S. Marlow"_s));
    }
    void authorise(int fromDays, int untilDays)
    {
        const auto day = [&](int later) {
            return people::utcDayOf(night.clock.now().wall + std::chrono::days(later));
        };
        ASSERT_TRUE(people::PeopleStore(ours).give({people::AuthorisationId(u"a-1"_s),
                                                    PersonId(u"sue"_s),
                                                    people::Duty::Supervise,
                                                    {},
                                                    day(fromDays),
                                                    day(untilDays),
                                                    PersonId(u"sue"_s),
                                                    {}}));
    }
};

TEST_F(OwnSupervisorTest, AReviewByASupervisorOfThisWorkspaceNeedsNoOffice)
{
    EXPECT_EQ(take(file()).intake.why, Why::ReviewerNotVouched) << "nothing authorises her yet";
    authorise(-1, 1);

    EXPECT_EQ(take(file()).intake.verdict, Becomes::Take);
}

TEST_F(OwnSupervisorTest, HerAuthorityHasToHoldOnTheDayOfTheReview)
{
    authorise(1, 30);

    EXPECT_EQ(take(file()).intake.why, Why::ReviewerNotVouched);
}

// Far enough east it is the next day already, the one on which she may supervise.
TEST_F(OwnSupervisorTest, TheDayOfHerReviewIsThatOnTheWallOfThisWorkspace)
{
    constexpr std::chrono::hours kDay{24};
    authorise(1, 1);
    const WallTime now = night.clock.now().wall;
    const auto sinceMidnight = now - std::chrono::floor<std::chrono::days>(now);
    const int hours = static_cast<int>((kDay - sinceMidnight) / std::chrono::hours(1)) + 1;
    ASSERT_LE(hours, 14) << "there is no such place";
    const auto takenIn = [&](int east) {
        return RecordIntake(ours, QTimeZone(east * 3600))
            .takeBytes(u"visit.zip"_s, file(), night.entries.front().by, night.clock.now())
            .intake;
    };
    EXPECT_EQ(takenIn(0).why, Why::ReviewerNotVouched);

    EXPECT_EQ(takenIn(hours).verdict, Becomes::Take);
}

TEST_F(OwnSupervisorTest, AKeyThatWasTakenOutOfUseBeforeReviewsNothing)
{
    authorise(-1, 1);
    Stamp before = night.clock.now();
    before.wall -= std::chrono::minutes(5);
    ASSERT_TRUE(people::KeyStore(ours).retireKey(PersonId(u"sue"_s), before));

    EXPECT_EQ(take(file()).intake.why, Why::ReviewerNotVouched);
}

TEST_F(OwnSupervisorTest, NoCertificateHelpsAKeyThatThisWorkspaceTookOutOfUse)
{
    authorise(-1, 1);
    vouchForSupervisor(theirs, people::Role::Supervisor);
    Stamp before = night.clock.now();
    before.wall -= std::chrono::minutes(5);
    ASSERT_TRUE(people::KeyStore(ours).retireKey(PersonId(u"sue"_s), before));

    EXPECT_EQ(take(file()).intake, (record::Intake{Becomes::Wait, Why::ReviewerNotVouched}));
}

TEST_F(OwnSupervisorTest, NoCertificateHelpsAPersonOfThisWorkspaceWhomNothingAuthorises)
{
    vouchForSupervisor(theirs, people::Role::Supervisor);

    EXPECT_EQ(take(file()).intake, (record::Intake{Becomes::Wait, Why::ReviewerNotVouched}));
}

// ---- Keys out of use ------------------------------------------------------------------------------------

TEST_F(RecordIntakeTest, ARecordSignedByAKeyThatTheOfficeTookOutOfUseWaits)
{
    believe();
    const Stamp now = night.clock.now();
    const auto paper =
        people::retire({engineerKey.publicKey(), people::utcDayOf(now.wall), now.wall}, office);
    ASSERT_TRUE(people::OfficeStore(ours).keep(*paper, now));

    EXPECT_EQ(take(file()).intake.why, Why::KeyOutOfUse) << "the record itself does not know of it";
}

TEST_F(RecordIntakeTest, ThatAKeyIsOutOfUseGoesAlongWithTheRecord)
{
    const Stamp now = night.clock.now();
    const auto paper = people::retire(
        {engineerKey.publicKey(), people::utcDayOf(now.wall + std::chrono::days(1)), now.wall}, office);
    ASSERT_TRUE(people::OfficeStore(theirs).keep(*paper, now));
    believe();

    ASSERT_EQ(take(file()).intake.verdict, Becomes::Take) << "it signed before";
    EXPECT_EQ(people::OfficeStore(ours).retirementsOf(engineerKey.publicKey()).value(), std::vector{*paper});
}

// A stolen key: what the office says of it has to be known before the thief's next record comes.
TEST_F(ClosedVisitTest, WhatAnOfficeSaysOfAKeyIsKeptThoughTheRecordThatBringsItIsNotNewOrWaits)
{
    ASSERT_EQ(take(file()).intake.verdict, Becomes::Take);
    const QByteArray stolen = file();
    const WallTime at = night.clock.now().wall;
    const auto outOfUse = [&](int inDays) {
        const auto day = people::utcDayOf(at + std::chrono::days(inDays));
        return *people::retire({engineerKey.publicKey(), day, at}, office);
    };
    const auto kept = [&] { return *people::OfficeStore(ours).retirementsOf(engineerKey.publicKey()); };

    ASSERT_TRUE(people::OfficeStore(theirs).keep(outOfUse(8), night.clock.now()));
    ASSERT_EQ(take(file()).intake.verdict, Becomes::Nothing) << "the visit is here already";
    EXPECT_EQ(kept(), std::vector{outOfUse(8)});

    ASSERT_TRUE(people::OfficeStore(theirs).keep(outOfUse(0), night.clock.now()));
    ASSERT_EQ(take(file()).intake, (record::Intake{Becomes::Wait, Why::KeyOutOfUse}));
    EXPECT_EQ(kept(), (std::vector{outOfUse(8), outOfUse(0)}));
    EXPECT_EQ(take(stolen).intake, (record::Intake{Becomes::Wait, Why::KeyOutOfUse}))
        << "it does not bring the paper itself";
}

TEST_F(RecordIntakeTest, WhatAnOfficeSaysOfAKeyIsKeptThoughNoRecordMoreCanWait)
{
    believe();
    const WallTime at = night.clock.now().wall;
    const auto paper = *people::retire({engineerKey.publicKey(), people::utcDayOf(at), at}, office);
    ASSERT_TRUE(people::OfficeStore(theirs).keep(paper, night.clock.now()));
    const QByteArray much(record::IntakeStore::kMostWaitingBytes, 'x');
    record::IntakeStore waiting(ours);
    for (char each = '1'; each <= '4'; ++each) {
        QByteArray one = much;
        one[0] = each;
        ASSERT_TRUE(waiting.wait(one, VisitId(u"another"_s), Why::UnknownOffice, night.entries.front().by,
                                 night.clock.now()));
    }

    EXPECT_EQ(take(file()).trouble, TakenRecord::Trouble::CannotWait);
    EXPECT_EQ(people::OfficeStore(ours).retirementsOf(engineerKey.publicKey()).value(), std::vector{paper});
}

// ---- There and back -------------------------------------------------------------------------------------

/// Two laptops and nothing between them but files.
class ThereAndBackTest : public RecordIntakeTest {
protected:
    void SetUp() override
    {
        RecordIntakeTest::SetUp();
        believe();
        vouchForSupervisor(ours, people::Role::Supervisor);
        const qsizetype before = night.entries.size();
        close();
        signAllFrom(before, people::Meaning::Performed, night.entries.front().by);
    }
    Becomes carry(store::Database& from, store::Database& to)
    {
        const auto bytes = recordFileOf(visit, from);
        EXPECT_TRUE(bytes);
        const TakenRecord taken =
            RecordIntake(to).takeBytes(u"visit.zip"_s, *bytes, night.entries.front().by, night.clock.now());
        EXPECT_EQ(taken.unread, QString());
        EXPECT_EQ(taken.intake.why, Why::None) << record::wordOf(taken.intake.why).toStdString();
        return taken.intake.verdict;
    }
    /// Sue looks at what her workspace has.
    void look(record::Verdict verdict)
    {
        night.clock.advance(std::chrono::minutes(1));
        const auto head = store::Journal(ours).head(visit);
        const auto paper = record::sign({visit,
                                         head->seq.value(),
                                         head->hash,
                                         verdict,
                                         u"the counter?"_s,
                                         {},
                                         PersonId(u"sue"_s),
                                         u"S. Marlow"_s,
                                         night.clock.now().wall},
                                        supervisorKey);
        ASSERT_TRUE(record::ReviewStore(ours).keep(*paper, supervisorKey.publicKey(), night.clock.now()));
    }
    void answer()
    {
        night.clock.advance(std::chrono::minutes(1));
        ASSERT_TRUE(night.tell(visit::Addendum{u"it was read twice"_s}));
        store::Journal journal(theirs);
        ASSERT_TRUE(journal.append(visit, store::Sequence(night.entries.size() - 1),
                                   visit::bytesOf(night.entries.last())));
        sign(night.entries.front().by, people::Meaning::Addendum);
        auto summary = *review::summarise(visit, *journal.entries(visit));
        summary.visit = visit;
        summary.headSeq = journal.head(visit)->seq;
        ASSERT_TRUE(store::Summaries(theirs).put(summary));
    }
    [[nodiscard]] static QString standIn(store::Database& database, const VisitId& visit)
    {
        return store::Summaries(database).of(visit)->review;
    }
};

TEST_F(ThereAndBackTest, AVisitIsSentBackAnsweredAndAcceptedOverTwoLaptops)
{
    ASSERT_EQ(carry(theirs, ours), Becomes::Take);
    EXPECT_EQ(standIn(ours, visit), u"waiting"_s);
    look(record::Verdict::SentBack);
    EXPECT_EQ(standIn(ours, visit), u"sent-back"_s);

    const auto before = *store::Journal(theirs).entries(visit);
    ASSERT_EQ(carry(ours, theirs), Becomes::Take);
    EXPECT_EQ(standIn(theirs, visit), u"sent-back"_s);
    EXPECT_EQ(*store::Journal(theirs).entries(visit), before) << "nobody adds to an own visit";

    answer();
    EXPECT_EQ(standIn(theirs, visit), u"answered"_s);
    ASSERT_EQ(carry(theirs, ours), Becomes::Take);
    EXPECT_EQ(standIn(ours, visit), u"answered"_s);

    look(record::Verdict::Accepted);
    ASSERT_EQ(carry(ours, theirs), Becomes::Take);
    EXPECT_EQ(standIn(ours, visit), u"accepted"_s);
    EXPECT_EQ(standIn(theirs, visit), u"accepted"_s);
    EXPECT_EQ(*record::ReviewStore(theirs).of(visit), *record::ReviewStore(ours).of(visit));
    EXPECT_EQ(carry(ours, theirs), Becomes::Nothing);
    EXPECT_EQ(carry(theirs, ours), Becomes::Nothing);
}

/// Sue, who accepted the visit as it stood in her workspace, writes an entry of it behind that.
class CutOffTest : public ThereAndBackTest {
protected:
    void SetUp() override
    {
        ThereAndBackTest::SetUp();
        ASSERT_EQ(carry(theirs, ours), Becomes::Take);
        look(record::Verdict::Accepted);
        cutOff = *recordFileOf(visit, ours);
    }
    void takePart()
    {
        const visit::Entry entry{night.clock.now(), PersonId(u"sue"_s),
                                 visit::Addendum{u"I held the lamp"_s}};
        const auto count = night.entries.size();
        ASSERT_TRUE(store::Journal(theirs).append(visit, store::Sequence(count), visit::bytesOf(entry)));
    }
    TakenRecord takeTheirs()
    {
        return RecordIntake(theirs).takeBytes(u"visit.zip"_s, cutOff, night.entries.front().by,
                                              night.clock.now());
    }
    QByteArray cutOff;
};

TEST_F(CutOffTest, ARecordThatEndsBeforeTheReviewersPartIsHeldAgainstWhatStandsHere)
{
    takePart();

    EXPECT_EQ(takeTheirs().intake, (record::Intake{Becomes::Refuse, Why::ReviewerTookPart}));
    EXPECT_TRUE(record::ReviewStore(theirs).of(visit)->whole.empty());
}

TEST_F(CutOffTest, AReviewWhosePartComesToLightLaterSpoilsNoRecord)
{
    ASSERT_EQ(takeTheirs().intake.verdict, Becomes::Take);
    ASSERT_EQ(record::recordFromBytes(file())->reviews.size(), 1U);
    takePart();

    const auto sent = record::recordFromBytes(file());
    ASSERT_TRUE(sent);
    EXPECT_TRUE(sent->reviews.empty());
    EXPECT_EQ(record::ReviewStore(theirs).of(visit)->whole.size(), 1U) << "what was kept is never removed";
}

TEST_F(CutOffTest, AnAcceptanceByWhoeverTurnsOutToHaveTakenPartLetsTheVisitWait)
{
    takePart();
    vouchForSupervisor(theirs, people::Role::Supervisor);
    sign(PersonId(u"sue"_s), people::Meaning::Addendum, supervisorKey);
    ASSERT_EQ(standIn(ours, visit), u"accepted"_s);

    ASSERT_EQ(carry(theirs, ours), Becomes::Take);
    EXPECT_EQ(store::Summaries(ours).of(visit)->headSeq.value(), night.entries.size());
    EXPECT_EQ(standIn(ours, visit), u"waiting"_s);
    EXPECT_FALSE(record::ReviewStore(ours).of(visit)->whole.front().isCounted) << "by the take-in itself";
}

// The supervisor accepts while the engineer adds a remark: neither is lost, and it waits again.
TEST_F(ThereAndBackTest, AnAcceptanceThatCrossesARemarkLetsTheVisitWaitAgain)
{
    ASSERT_EQ(carry(theirs, ours), Becomes::Take);
    look(record::Verdict::Accepted);
    answer();
    ASSERT_EQ(carry(theirs, ours), Becomes::Take);
    ASSERT_EQ(carry(ours, theirs), Becomes::Take);

    EXPECT_EQ(standIn(ours, visit), u"waiting"_s);
    EXPECT_EQ(standIn(theirs, visit), u"waiting"_s);
}

} // namespace
} // namespace coldarc::app
