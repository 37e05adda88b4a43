#include "app/file_arguments.h"
#include "app/record_out.h"
#include "app/record_verify.h"
#include "core/people/office_store.h"
#include "core/people/people_store.h"
#include "core/record/record_file.h"
#include "core/record/review_store.h"
#include "core/store/journal.h"
#include "core/store/pictures.h"
#include "core/store/workspace_file.h"
#include "tests/core/visit/night.h"
#include "tests/support/test_key.h"
#include "tests/support/testing.h"

#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>

namespace coldarc::app {
namespace {

using namespace Qt::StringLiterals;
using coldarc::test::Night;

people::SigningKey key(unsigned char byte = 7)
{
    return coldarc::test::keyOf(byte);
}

/// A whole visit in a workspace, closed and signed by its engineer.
class RecordCommandTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        const auto kept = pictures.keep({u"image/png"_s, "the label of the box"});
        ASSERT_TRUE(kept);
        ASSERT_TRUE(pictures.keep({u"image/png"_s, "of another visit"}));
        ASSERT_TRUE(night.tell(visit::PictureKept{night.swap().id, {}, u"box"_s, *kept}));
        night.doAll();
        for (const visit::Entry& entry : night.entries)
            ASSERT_TRUE(journal.append(visit, store::Sequence(next++), visit::bytesOf(entry)));
        const auto head = journal.head(visit);
        ASSERT_TRUE(head);
        const people::HeadStatement said{
            visit, head->seq.value(), head->hash, people::Meaning::Performed, at, night.entries.front().by};
        const QByteArray message = *people::signedMessage(said, key().publicKey());
        ASSERT_TRUE(journal.keep({visit, head->seq, head->hash, said.person, key().publicKey().bytes(),
                                  key().sign(message).bytes(), u"performed"_s, at}));
    }

    /// The office of the workspace vouches for the engineer's key.
    void vouch()
    {
        const people::SigningKey office = key(8);
        const PersonId engineer = night.entries.front().by;
        ASSERT_TRUE(
            people::PeopleStore(database).add({engineer, u"A. Okoro"_s, people::Role::Engineer, {}, {}, {}}));
        const auto sealed =
            people::sealKey(office, people::officeHolder(),
                            *people::Passphrase::accept(u"nine herons over Pier Street"_s), {1, 8});
        ASSERT_TRUE(offices.found(u"Invented Lamps"_s, *sealed, engineer, night.clock.now()));
        const auto certificate =
            people::certify({key().publicKey(), engineer, u"A. Okoro"_s, people::Role::Engineer,
                             *people::dayFromIso(u"2026-11-01"_s), *people::dayFromIso(u"2027-10-31"_s), at},
                            office);
        ASSERT_TRUE(offices.keep(*certificate, night.clock.now()));
    }

    /// Somebody reviews the visit as it is, with key 5.
    void review(const PersonId& by, const QString& name)
    {
        ASSERT_TRUE(
            record::ReviewStore(database).keep(paperOf(by, name), key(5).publicKey(), night.clock.now()));
    }
    /// A record with a review that this workspace would not send.
    [[nodiscard]] QByteArray recordFileWith(const record::SignedReview& paper)
    {
        record::Record record = *record::recordFromBytes(recordFile());
        record.reviews.push_back(paper);
        record.keys.push_back(key(5).publicKey());
        return record::bytesOf(record).value();
    }
    [[nodiscard]] record::SignedReview paperOf(const PersonId& by, const QString& name)
    {
        const auto head = journal.head(visit);
        return record::sign({visit,
                             head->seq.value(),
                             head->hash,
                             record::Verdict::SentBack,
                             u"the counter?\x1b[2J"_s,
                             {{3, u"this one"_s}},
                             by,
                             name,
                             at},
                            key(5))
            .value();
    }

    [[nodiscard]] QString write(const QByteArray& bytes, const QString& name) const
    {
        QFile file(folder.filePath(name));
        EXPECT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(bytes);
        return file.fileName();
    }
    [[nodiscard]] QByteArray recordFile() { return recordFileOf(visit, database).value(); }

    QTemporaryDir folder;
    store::Database database = store::Database::inMemory(store::Schema::shipped());
    store::Journal journal{database};
    store::Pictures pictures{database};
    people::OfficeStore offices{database};
    Night night;
    VisitId visit{u"visit-1"_s};
    qint64 next = 0;
    WallTime at{std::chrono::milliseconds(1'795'036'000'000)};
};

TEST_F(RecordCommandTest, AVisitGoesOutWithThePicturesThatItsEntriesName)
{
    const auto record = record::recordFromBytes(recordFile());

    ASSERT_TRUE(record);
    EXPECT_EQ(record->entries.size(), static_cast<std::size_t>(night.entries.size()));
    ASSERT_EQ(record->pictures.size(), 1U);
    EXPECT_EQ(record->pictures.front().bytes, "the label of the box");
}

TEST_F(RecordCommandTest, TellsWhoSignedWhatAndWhen)
{
    const QString file = write(recordFile(), u"visit.zip"_s);
    const VerifyReport report = verifyReport(checkRecords({file}), false);

    EXPECT_EQ(report.status, 0) << report.text.toStdString();
    EXPECT_TRUE(report.text.contains("as it was signed"));
    EXPECT_TRUE(report.text.contains("A. Okoro"));
    EXPECT_TRUE(report.text.contains("performed"));
    EXPECT_TRUE(report.text.contains("2026-11-18T21:06:40.000Z"));
    EXPECT_TRUE(report.text.contains(people::thumbprint(key().publicKey()).toLatin1()));
}

TEST_F(RecordCommandTest, TellsAProgramTheSame)
{
    const QString file = write(recordFile(), u"visit.zip"_s);
    const VerifyReport report = verifyReport(checkRecords({file}), true);
    const QJsonObject told =
        QJsonDocument::fromJson(report.text).object().value(u"records"_s).toArray().first().toObject();

    EXPECT_EQ(told.value(u"state"_s).toString(), u"as-signed"_s);
    EXPECT_EQ(told.value(u"entries"_s).toInt(), static_cast<int>(night.entries.size()));
    EXPECT_EQ(told.value(u"signed_up_to"_s).toInt(), told.value(u"entries"_s).toInt() - 1)
        << "counted from 0";
    EXPECT_EQ(told.value(u"signatures"_s).toArray().size(), 1);
    EXPECT_TRUE(told.value(u"faults"_s).toArray().isEmpty());
}

// Cut at an earlier signature it is as good as the whole.
TEST_F(RecordCommandTest, SaysThatTheVisitWasNotOverWhereTheRecordEnds)
{
    const auto verified = [&](bool asJson) {
        return verifyReport(checkRecords({write(recordFile(), u"visit.zip"_s)}), asJson).text;
    };
    const QByteArray notOver = "the visit was not over at entry " + QByteArray::number(next - 1);
    EXPECT_TRUE(verified(false).contains(notOver));
    EXPECT_TRUE(verified(true).contains("\"over\": false"));
    EXPECT_TRUE(verified(false).contains("What was cut off behind the last entry"));

    const qsizetype before = night.entries.size();
    night.close();
    for (const visit::Entry& entry : night.entries.mid(before))
        ASSERT_TRUE(journal.append(visit, store::Sequence(next++), visit::bytesOf(entry)));
    EXPECT_TRUE(verified(false).contains(notOver)) << "its end is nobody's word yet";
    const auto head = journal.head(visit);
    const people::HeadStatement said{visit, head->seq.value(),       head->hash, people::Meaning::Performed,
                                     at,    night.entries.front().by};
    ASSERT_TRUE(journal.keep({visit, head->seq, head->hash, said.person, key().publicKey().bytes(),
                              key().sign(*people::signedMessage(said, key().publicKey())).bytes(),
                              u"performed"_s, at}));
    EXPECT_FALSE(verified(false).contains("not over"));
    EXPECT_TRUE(verified(true).contains("\"over\": true"));
}

TEST_F(RecordCommandTest, NamesTheEntryThatWasAltered)
{
    record::Record record = *record::recordFromBytes(recordFile());
    record.entries[4].replace("\"by\"", "\"bY\"");
    const QString file = write(*record::bytesOf(record), u"visit.zip"_s);
    const VerifyReport report = verifyReport(checkRecords({file}), false);

    EXPECT_EQ(report.status, 1);
    EXPECT_TRUE(report.text.contains("NOT as it was signed"));
    EXPECT_TRUE(report.text.contains("entry 4 is not as it was written"));
    EXPECT_TRUE(report.text.contains("given over what was altered since"));
}

TEST_F(RecordCommandTest, MissesAPictureThatASignedEntryNames)
{
    record::Record record = *record::recordFromBytes(recordFile());
    const QString name = record.pictures.front().hash.hex();
    record.pictures.clear();
    const QString file = write(*record::bytesOf(record), u"visit.zip"_s);
    const VerifyReport report = verifyReport(checkRecords({file}), false);
    const VerifyReport told = verifyReport(checkRecords({file}), true);

    EXPECT_EQ(report.status, 1);
    EXPECT_TRUE(report.text.contains("picture " + name.toLatin1() + " is named by an entry and not there"));
    EXPECT_TRUE(told.text.contains("missing_pictures"));
    EXPECT_TRUE(told.text.contains(name.toLatin1()));
}

TEST_F(RecordCommandTest, APictureThatNoEntryNamesIsTold)
{
    record::Record record = *record::recordFromBytes(recordFile());
    record.pictures.push_back({sha256("somebody's holiday"), "somebody's holiday"});
    const QString file = write(*record::bytesOf(record), u"visit.zip"_s);
    const VerifyReport report = verifyReport(checkRecords({file}), false);

    EXPECT_EQ(report.status, 1);
    EXPECT_TRUE(report.text.contains("NOT as it was signed"));
    EXPECT_TRUE(
        report.text.contains(sha256("somebody's holiday").hex().toLatin1() + " is named by no entry"));
    EXPECT_TRUE(verifyReport(checkRecords({file}), true).text.contains("unnamed_pictures"));
}

TEST_F(RecordCommandTest, TakesNoNameFromAnEntryThatNobodySigned)
{
    visit::Entry added = night.entries.front();
    std::get<visit::Opening>(added.body).people.front().name = u"Somebody Else"_s;
    ASSERT_TRUE(journal.append(visit, store::Sequence(next++), visit::bytesOf(added)));
    const QString file = write(recordFile(), u"visit.zip"_s);
    const VerifyReport report = verifyReport(checkRecords({file}), false);

    EXPECT_TRUE(report.text.contains("A. Okoro"));
    EXPECT_FALSE(report.text.contains("Somebody Else"));
}

TEST_F(RecordCommandTest, IsNotMadeWithoutAPictureThatAnEntryNames)
{
    const Hash lost = Hash::fromBytes(QByteArray(32, 'x')).value();
    const visit::Entry& last = night.entries.back();
    visit::Entry more{last.at, last.by, visit::PictureKept{night.swap().id, {}, u"box"_s, lost}};
    ASSERT_TRUE(journal.append(visit, store::Sequence(next++), visit::bytesOf(more)));

    const auto made = recordFileOf(visit, database);

    ASSERT_FALSE(made);
    EXPECT_EQ(made.error().kind, Error::Kind::NotFound);
}

TEST_F(RecordCommandTest, TellsWhichOfficeVouchesForAKey)
{
    const QString unvouched = write(recordFile(), u"unvouched.zip"_s);
    vouch();
    const QString file = write(recordFile(), u"visit.zip"_s);
    const QString office = people::thumbprint(key(8).publicKey());
    const VerifyReport report = verifyReport(checkRecords({file}, office), false);
    const VerifyReport none = verifyReport(checkRecords({unvouched}), false);

    EXPECT_EQ(report.status, 0) << report.text.toStdString();
    EXPECT_TRUE(report.text.contains("key of A. Okoro, engineer, says office " + office.toLatin1() +
                                     " (2026-11-01 to 2027-10-31)"))
        << report.text.toStdString();
    EXPECT_EQ(none.status, 0);
    EXPECT_TRUE(none.text.contains("nobody vouches for this key"));
    EXPECT_TRUE(none.text.contains("--office THUMBPRINT"));
    EXPECT_FALSE(report.text.contains("--office")) << "it was held against one";
    const QString grouped = office.left(6) + u' ' + office.mid(6);
    EXPECT_EQ(verifyCommand({u"--office"_s, grouped, file}), 0) << "as the program shows it";
    EXPECT_EQ(verifyCommand({u"--office"_s, u"XX"_s, file}), 2) << "no thumbprint";
}

TEST_F(RecordCommandTest, SaysThatAKeyWasOutOfUse)
{
    vouch();
    const auto paper = people::retire({key().publicKey(), *people::dayFromIso(u"2026-11-18"_s), at}, key(8));
    ASSERT_TRUE(offices.keep(*paper, night.clock.now()));
    const QString file = write(recordFile(), u"visit.zip"_s); // signed on 2026-11-18
    const QString office = people::thumbprint(key(8).publicKey());
    const VerifyReport report = verifyReport(checkRecords({file}), false);

    EXPECT_EQ(report.status, 0) << "as it was signed";
    const auto found = record::verify(*record::recordFromBytes(recordFile()));
    EXPECT_TRUE(review::signaturesOf(found).first().vouchedBy.isEmpty()) << "nor does a report say so";
    EXPECT_TRUE(
        report.text.contains("key taken out of use from 2026-11-18, says office " + office.toLatin1()))
        << report.text.toStdString();
    EXPECT_EQ(verifyReport(checkRecords({file}, office), false).status, 1) << "not as that office has it";
    EXPECT_TRUE(verifyReport(checkRecords({file}), true).text.contains("\"since\": \"2026-11-18\""));
}

TEST_F(RecordCommandTest, AsksForTheOfficeThatIsNamed)
{
    vouch();
    const QString file = write(recordFile(), u"visit.zip"_s);
    const QString other = people::thumbprint(key(9).publicKey());
    const VerifyReport report = verifyReport(checkRecords({file}, other), false);

    EXPECT_EQ(report.status, 1);
    EXPECT_TRUE(report.text.contains("office " + other.toLatin1() + " does not vouch for key"));
    EXPECT_TRUE(report.text.contains("NOT as it was signed") == false) << "nothing was altered";
}

TEST_F(RecordCommandTest, TellsWhoReviewedAndWhatTheySaid)
{
    review(PersonId(u"sue"_s), u"S. Marlow"_s);
    const QString file = write(recordFile(), u"visit.zip"_s);
    const VerifyReport report = verifyReport(checkRecords({file}), false);

    EXPECT_EQ(report.status, 0) << report.text.toStdString();
    const QByteArray last = QByteArray::number(next - 1);
    EXPECT_TRUE(report.text.contains("review by S. Marlow (sue): sent back, looked at up to entry " + last +
                                     ", 2026-11-18T21:06:40.000Z, key " +
                                     people::thumbprint(key(5).publicKey()).toLatin1()))
        << report.text.toStdString();
    EXPECT_TRUE(report.text.contains("says: the counter?"));
    EXPECT_TRUE(report.text.contains("says of entry 3: this one"));
    EXPECT_FALSE(report.text.contains('\x1b')) << "nobody else's words steer the terminal";
}

TEST_F(RecordCommandTest, TellsAProgramWhoReviewed)
{
    review(PersonId(u"sue"_s), u"S. Marlow"_s);
    const QString file = write(recordFile(), u"visit.zip"_s);
    const QJsonObject told = QJsonDocument::fromJson(verifyReport(checkRecords({file}), true).text)
                                 .object()
                                 .value(u"records"_s)
                                 .toArray()
                                 .first()
                                 .toObject();
    const QJsonObject review = told.value(u"reviews"_s).toArray().first().toObject();

    EXPECT_EQ(told.value(u"state"_s).toString(), u"as-signed"_s);
    EXPECT_EQ(review.value(u"verdict"_s).toString(), u"sent-back"_s);
    EXPECT_EQ(review.value(u"by"_s).toString(), u"sue"_s);
    EXPECT_EQ(review.value(u"kid"_s).toString(), people::thumbprint(key(5).publicKey()));
    EXPECT_EQ(review.value(u"remarks"_s).toArray().first().toObject().value(u"entry"_s).toInt(), 3);
    EXPECT_FALSE(review.value(u"reviewer_took_part"_s).toBool());
}

TEST_F(RecordCommandTest, AReviewByWhoeverDidTheWorkIsNone)
{
    const QString file =
        write(recordFileWith(paperOf(night.entries.front().by, u"A. Okoro"_s)), u"visit.zip"_s);
    const VerifyReport report = verifyReport(checkRecords({file}), false);

    EXPECT_EQ(report.status, 1);
    EXPECT_TRUE(report.text.contains("NO REVIEW: the reviewer had a part in the visit, see entry 0"))
        << report.text.toStdString();
    EXPECT_TRUE(report.text.contains("REVIEWED BY SOMEBODY WHO HAD A PART"));
    EXPECT_TRUE(verifyReport(checkRecords({file}), true).text.contains("\"state\": \"reviewed-by-own\""));
}

TEST_F(RecordCommandTest, AReviewByTheNameOfWhoeverDidTheWorkIsNone)
{
    const auto paper = paperOf(PersonId(u"okoro-elsewhere"_s), night.state.people.front().name);
    const QString file = write(recordFileWith(paper), u"visit.zip"_s);
    const VerifyReport report = verifyReport(checkRecords({file}), false);

    EXPECT_EQ(report.status, 1);
    EXPECT_TRUE(report.text.contains("NO REVIEW: somebody of the reviewer's name"))
        << report.text.toStdString();
}

TEST_F(RecordCommandTest, AsksTheOfficeThatIsNamedForASupervisor)
{
    vouch();
    review(PersonId(u"sue"_s), u"S. Marlow"_s);
    const QString file = write(recordFile(), u"visit.zip"_s);
    const QString office = people::thumbprint(key(8).publicKey());
    const VerifyReport report = verifyReport(checkRecords({file}, office), false);

    EXPECT_EQ(report.status, 1);
    EXPECT_TRUE(report.text.contains("does not vouch for key " +
                                     people::thumbprint(key(5).publicKey()).toLatin1() +
                                     " as that of a supervisor"));
    ASSERT_TRUE(offices.keep(
        *people::certify({key(5).publicKey(), PersonId(u"sue"_s), u"S. Marlow"_s, people::Role::Supervisor,
                          *people::dayFromIso(u"2026-11-01"_s), *people::dayFromIso(u"2027-10-31"_s), at},
                         key(8)),
        night.clock.now()));
    const QString vouched = write(recordFile(), u"vouched.zip"_s);
    EXPECT_EQ(verifyReport(checkRecords({vouched}, office), false).status, 0) << "the certificate goes along";
}

// Entries 71 and 72: a kind of a later program, and the reviewer's part.
TEST_F(RecordCommandTest, CountsEntriesThatItCannotReadAndSaysWhatTheyHide)
{
    ASSERT_TRUE(journal.append(visit, store::Sequence(next++), "{\"kind\":\"not-known-yet\"}"));
    const QString hidden = write(recordFileWith(paperOf(PersonId(u"sue"_s), u"S. Marlow"_s)), u"1.zip"_s);
    EXPECT_TRUE(verifyReport(checkRecords({hidden}), false)
                    .text.contains("whether the reviewer had a part cannot be told"));
    EXPECT_TRUE(verifyReport(checkRecords({hidden}), true).text.contains("\"part_cannot_be_told\": true"));

    const visit::Entry part{night.clock.now(), PersonId(u"sue"_s), visit::Addendum{u"I held the lamp"_s}};
    ASSERT_TRUE(journal.append(visit, store::Sequence(next++), visit::bytesOf(part)));
    const QString file = write(recordFileWith(paperOf(PersonId(u"sue"_s), u"S. Marlow"_s)), u"2.zip"_s);
    const QByteArray text = verifyReport(checkRecords({file}), false).text;
    EXPECT_TRUE(text.contains("see entry " + QByteArray::number(next - 1))) << text.toStdString();
}

TEST_F(RecordCommandTest, TellsThatTheReviewersKeyIsCertifiedForAnotherName)
{
    vouch();
    ASSERT_TRUE(offices.keep(
        *people::certify({key(5).publicKey(), PersonId(u"sue"_s), u"S. Marlow"_s, people::Role::Supervisor,
                          *people::dayFromIso(u"2026-11-01"_s), *people::dayFromIso(u"2027-10-31"_s), at},
                         key(8)),
        night.clock.now()));
    review(PersonId(u"sue"_s), u"T. Tern"_s);
    const QString file = write(recordFile(), u"visit.zip"_s);
    const QByteArray text = verifyReport(checkRecords({file}), false).text;

    EXPECT_TRUE(text.contains("the reviewer's key is certified for another name: S. Marlow"))
        << text.toStdString();
}

/// A record of the visit, with one signature more by this key over its last entry.
TEST_F(RecordCommandTest, ARecordThatAWorkspaceWouldLetWaitIsToldAsInDoubt)
{
    record::Record record = *record::recordFromBytes(recordFile());
    const auto add = [&](const people::SigningKey& by, const PersonId& person, WallTime when) {
        const people::HeadStatement said{
            visit, qint64(record.entries.size()) - 1, record.chain.back(), people::Meaning::TookPart, when,
            person};
        const auto jws = *people::headJws(said, by.publicKey());
        record.keys.push_back(by.publicKey());
        record.signatures.push_back({jws, by.sign(people::signingInput(jws))});
    };
    const visit::Entry signs{night.clock.now(), night.ada(), visit::Signed{u"performed"_s}};
    record.entries.push_back(visit::bytesOf(signs));
    record.chain.push_back(chained(record.chain.back(), record.entries.back()));
    add(key(9), PersonId(u"lind"_s), at);
    const QString file = write(*record::bytesOf(record), u"visit.zip"_s);
    const VerifyReport report = verifyReport(checkRecords({file}), false);

    EXPECT_EQ(report.status, 1);
    EXPECT_TRUE(report.text.contains("as it was signed, and IN DOUBT"));
    EXPECT_TRUE(report.text.contains("NO KEY OF A. Okoro (ada) signed entry " +
                                     QByteArray::number(qint64(record.entries.size()) - 1) + ", performed"))
        << report.text.toStdString();
    EXPECT_FALSE(report.text.contains("DATED LONG BEFORE"));
    const VerifyReport told = verifyReport(checkRecords({file}), true);
    EXPECT_TRUE(told.text.contains("\"state\": \"in-doubt\""));
    EXPECT_TRUE(told.text.contains("\"person\": \"ada\"")) << told.text.toStdString();

    record = *record::recordFromBytes(recordFile());
    add(key(9), PersonId(u"lind"_s), at - std::chrono::hours(48));
    const QString backdated = write(*record::bytesOf(record), u"backdated.zip"_s);
    const VerifyReport dated = verifyReport(checkRecords({backdated}), false);
    EXPECT_EQ(dated.status, 1);
    EXPECT_TRUE(dated.text.contains("DATED LONG BEFORE the entry"));
    EXPECT_TRUE(
        verifyReport(checkRecords({backdated}), true).text.contains("\"doubt\": \"signature-misdated\""));

    record = *record::recordFromBytes(recordFile());
    record.visit = VisitId(u"visit-elsewhere"_s);
    record.signatures.clear();
    visit = record.visit;
    add(key(), night.ada(), at);
    const VerifyReport other =
        verifyReport(checkRecords({write(*record::bytesOf(record), u"other.zip"_s)}), false);
    EXPECT_EQ(other.status, 1);
    EXPECT_TRUE(other.text.contains("THOSE OF ANOTHER VISIT")) << other.text.toStdString();
}

TEST_F(RecordCommandTest, TellsOfAReviewThatNobodyMakesASupervisors)
{
    review(PersonId(u"sue"_s), u"S. Marlow"_s);
    const QString file = write(recordFile(), u"visit.zip"_s);
    const auto told = [&](std::optional<WallTime> now) {
        return verifyReport(checkRecords({file}, {}, now), false).text;
    };

    EXPECT_TRUE(told({}).contains("NO REVIEW unless you know the key as a supervisor's"));
    EXPECT_TRUE(told({}).contains("NO REVIEW: the visit was not over there"));
    EXPECT_FALSE(told(at).contains("after today"));
    EXPECT_TRUE(told(at - std::chrono::hours(48)).contains("after today"));
}

TEST_F(RecordCommandTest, NobodyElsesWordsMakeALineOfTheirOwnOrSteerTheTerminal)
{
    const QString forged = u"x\nvisit.zip: FORGED\x1b[2J"_s;
    CheckedRecord record{u"visit.zip"_s, {}};
    record.found.visit = VisitId(forged);
    record::Signed one;
    one.statement.person = PersonId(forged);
    const people::Certified certified{
        {key().publicKey(), PersonId(forged), forged, people::Role::Engineer, {}, {}, at}, u"office"_s};
    one.known.vouchedBy = {certified};
    record.found.signatures = {one};
    record.names.insert(PersonId(forged), forged);
    record::Reviewed reviewed;
    reviewed.said.review.by = PersonId(forged);
    reviewed.said.review.name = forged;
    reviewed.said.review.text = forged;
    reviewed.said.review.remarks = {{0, forged}};
    reviewed.known.vouchedOtherDays = {certified};
    record.found.reviews = {reviewed};
    record.reviewerParts = {std::nullopt};
    record.untoldParts = {false};
    CheckedRecord unread{u"other.zip"_s, forged};
    const QByteArray text = verifyReport({record, unread}, false).text;

    EXPECT_FALSE(text.contains('\x1b'));
    EXPECT_FALSE(text.contains("\nvisit.zip: FORGED")) << text.toStdString();
    EXPECT_GE(text.count("FORGED"), 9);
}

TEST_F(RecordCommandTest, NamesTheReviewThatWasAltered)
{
    review(PersonId(u"sue"_s), u"S. Marlow"_s);
    record::Record record = *record::recordFromBytes(recordFile());
    record.reviews.front().jws.payload.replace("sent-back", "accepted");
    const QString file = write(*record::bytesOf(record), u"visit.zip"_s);
    const VerifyReport report = verifyReport(checkRecords({file}), false);

    EXPECT_EQ(report.status, 1);
    EXPECT_TRUE(report.text.contains("review 1 does not verify")) << report.text.toStdString();
}

TEST_F(RecordCommandTest, SaysWhichFileIsNoRecordAndStillReadsTheOthers)
{
    const QString good = write(recordFile(), u"visit.zip"_s);
    const QString text = write("hello", u"notes.txt"_s);
    const QString none = folder.filePath(u"none.zip"_s);
    const VerifyReport report = verifyReport(checkRecords({text, good, none}), false);

    EXPECT_EQ(report.status, 2);
    EXPECT_TRUE(report.text.contains("notes.txt: no record: no ZIP archive"));
    EXPECT_TRUE(report.text.contains("none.zip: no record: no such file"));
    EXPECT_TRUE(report.text.contains("visit.zip: visit visit-1"));
}

TEST(FileArgumentsTest, TakesAnOptionThatThereIsNotForNoFile)
{
    const auto asked = fileArguments({u"a.zip"_s, u"--json"_s, u"--"_s, u"--b.zip"_s});

    ASSERT_TRUE(asked);
    EXPECT_TRUE(asked->asJson);
    EXPECT_EQ(asked->files, (QStringList{u"a.zip"_s, u"--b.zip"_s}));
    EXPECT_EQ(fileArguments({u"--office"_s, u"abc"_s, u"a.zip"_s}, u"--office"_s)->value, u"abc"_s);
    EXPECT_FALSE(fileArguments({u"a.zip"_s, u"--office"_s}, u"--office"_s));
    EXPECT_FALSE(fileArguments({u"--office"_s, u"abc"_s, u"a.zip"_s}));
    for (const QStringList& bad : {QStringList{}, QStringList{u"--json"_s}, QStringList{u"--help"_s},
                                   QStringList{u"a.zip"_s, u"--jsn"_s}})
        EXPECT_FALSE(fileArguments(bad)) << bad.join(u' ').toStdString();
}

} // namespace
} // namespace coldarc::app
