#include "core/record/intake.h"

#include "core/people/people_store.h"
#include "core/record/intake_store.h"
#include "core/store/pictures.h"
#include "tests/core/record/signed_visit.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

#include <numeric>

namespace coldarc::record {
namespace {

using namespace Qt::StringLiterals;
using test::SignedVisit;
using Verdict = Intake::Verdict;
using Why = Intake::Why;

const PersonId kBoss(u"boss"_s);

SignedVisit vouchedVisit(int entries = 12)
{
    SignedVisit visit(entries);
    visit.vouch(visit.engineer, u"person-1"_s, u"2027-10-31"_s);
    visit.vouch(visit.trainee, u"person-2"_s, u"2027-10-31"_s);
    visit.vouch(visit.supervisor, u"person-3"_s, u"2027-10-31"_s);
    return visit;
}

QSet<QString> officeOf(const SignedVisit& visit)
{
    return {people::thumbprint(visit.office.publicKey())};
}

Intake intakeFor(const SignedVisit& visit, const QSet<QString>& believed, const Standing& standing = {})
{
    const Record record = visit.record();
    return intakeOf(record, verify(record), false, believed, standing);
}

TEST(IntakeTest, TakesAVisitForWhomABelievedOfficeVouches)
{
    const SignedVisit visit = vouchedVisit();

    EXPECT_EQ(intakeFor(visit, officeOf(visit)), (Intake{Verdict::Take, Why::None, 0, 12}));
}

TEST(IntakeTest, LetsARecordWaitWhoseKeysNobodyKnows)
{
    const SignedVisit visit = vouchedVisit();
    SignedVisit half = vouchedVisit();
    half.vouching.certificates.pop_back();

    EXPECT_EQ(intakeFor(visit, {u"another"_s}), (Intake{Verdict::Wait, Why::UnknownOffice}));
    EXPECT_EQ(intakeFor(half, officeOf(half)), (Intake{Verdict::Wait, Why::NobodyVouches}))
        << "one of three is enough";
}

TEST(IntakeTest, RefusesWhatIsNotAsItWasSigned)
{
    const SignedVisit visit = vouchedVisit();
    Record record = visit.record();
    record.entries[4].replace("remark", "Remark");
    EXPECT_EQ(intakeOf(record, verify(record), false, officeOf(visit), {}),
              (Intake{Verdict::Refuse, Why::NotAsSigned}));

    const Record whole = visit.record();
    EXPECT_EQ(intakeOf(whole, verify(whole), true, officeOf(visit), {}),
              (Intake{Verdict::Refuse, Why::PictureMissing}));
}

TEST(IntakeTest, LeavesOutWhatComesAfterTheLastSignature)
{
    SignedVisit visit = vouchedVisit();
    visit.signatures.resize(2); // up to entry 6

    EXPECT_EQ(intakeFor(visit, officeOf(visit)), (Intake{Verdict::Take, Why::None, 0, 7}));
}

TEST(IntakeTest, LetsAVisitWaitThatHasGoneOnInTwoWays)
{
    const SignedVisit visit = vouchedVisit();
    Standing standing;
    for (const store::Entry& entry : vouchedVisit(5).entries)
        standing.chain.push_back(entry.hash);
    EXPECT_EQ(intakeFor(visit, officeOf(visit), standing), (Intake{Verdict::Take, Why::None, 5, 12}));

    standing.chain.back() = sha256("another entry");
    EXPECT_EQ(intakeFor(visit, officeOf(visit), standing), (Intake{Verdict::Wait, Why::GoneTwoWays}));
}

// Entries of elsewhere are folded, not decided: a gate would count as proved by what nobody proved here.
TEST(IntakeTest, AddsNoEntryToAVisitOfThisWorkspace)
{
    const SignedVisit visit = vouchedVisit();
    Standing own;
    own.isOwn = true;
    for (const store::Entry& entry : vouchedVisit(5).entries)
        own.chain.push_back(entry.hash);
    EXPECT_EQ(intakeFor(visit, officeOf(visit), own), (Intake{Verdict::Wait, Why::OwnVisit}));

    own.chain.clear();
    for (const store::Entry& entry : visit.entries)
        own.chain.push_back(entry.hash);
    EXPECT_EQ(intakeFor(visit, officeOf(visit), own), (Intake{Verdict::Take, Why::None, 12, 12}))
        << "a signature that somebody gave elsewhere is welcome";
}

TEST(IntakeTest, LetsASignatureWaitForWhoseDayNobodyVouches)
{
    SignedVisit visit = vouchedVisit(); // signed on 2026-11-25
    visit.vouching.certificates.pop_back();
    visit.vouch(visit.supervisor, u"person-3"_s, u"2026-11-24"_s);

    EXPECT_EQ(intakeFor(visit, officeOf(visit)), (Intake{Verdict::Wait, Why::NobodyVouches}));
}

TEST(IntakeTest, EachReasonIsReadAgainFromItsWord)
{
    for (int why = 0; why <= static_cast<int>(Why::NotUnderstood); ++why)
        EXPECT_EQ(intakeWhyFromWord(wordOf(static_cast<Why>(why))), static_cast<Why>(why));
    EXPECT_EQ(intakeWhyFromWord(u"whim"_s), std::nullopt);
}

class IntakeStoreTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        ASSERT_TRUE(people::PeopleStore(database).add(
            {kBoss, u"Bo Invented"_s, people::Role::Supervisor, {}, {}, {}}));
        ASSERT_TRUE(offices.takeUp(visit.office.publicKey(), u"Invented Lamps"_s, kBoss, clock.now()));
    }
    /// The record of the first entries, with the signatures that lie in them.
    [[nodiscard]] Record upTo(int entries) const
    {
        SignedVisit part = vouchedVisit();
        part.entries.resize(static_cast<std::size_t>(entries));
        std::erase_if(part.signatures,
                      [&](const store::Signature& one) { return one.seq.value() >= entries; });
        return part.record();
    }
    Verdict take(const Record& record)
    {
        const Intake intake =
            intakeOf(record, verify(record), false, officeOf(visit), *intakes.standing(record.visit));
        if (intake.verdict == Verdict::Take) {
            EXPECT_TRUE(intakes.take(record, intake, kBoss, clock.now()));
        }
        return intake.verdict;
    }

    SignedVisit visit = vouchedVisit();
    coldarc::test::FakeClock clock;
    store::Database database = store::Database::inMemory();
    people::OfficeStore offices{database};
    IntakeStore intakes{database};
    store::Journal journal{database};
};

TEST_F(IntakeStoreTest, TheVisitStandsHereAsItWasSigned)
{
    ASSERT_EQ(take(visit.record()), Verdict::Take);

    EXPECT_EQ(*journal.entries(visit.visit), visit.entries);
    EXPECT_EQ(journal.signatures(visit.visit)->size(), visit.signatures.size());
    EXPECT_EQ(store::Pictures(database).read(sha256("a picture"))->bytes, "a picture");
    EXPECT_EQ(offices.certificatesOf(visit.engineer.publicKey())->size(), 1U);
    EXPECT_EQ(*intakes.received(), QSet<VisitId>{visit.visit});
    const Record again = *recordOf(visit.visit, *journal.entries(visit.visit),
                                   *journal.signatures(visit.visit), visit.pictures);
    EXPECT_TRUE(verify(again).isGood());
}

// Signed up to entries 0, 6 and 11.
TEST_F(IntakeStoreTest, TheOrderInWhichRecordsComeAndHowOftenChangesNothing)
{
    std::vector<int> parts{3, 8, 12, 8};
    std::ranges::sort(parts);
    do {
        database = store::Database::inMemory();
        SetUp();
        for (const int part : parts)
            take(upTo(part));
        EXPECT_EQ(take(visit.record()), Verdict::Nothing);
        EXPECT_EQ(*journal.entries(visit.visit), visit.entries);
        EXPECT_EQ(journal.signatures(visit.visit)->size(), visit.signatures.size());
    } while (std::ranges::next_permutation(parts).found);
}

TEST_F(IntakeStoreTest, ASignatureThatIsAddedLaterIsTakenAlone)
{
    SignedVisit before = vouchedVisit();
    before.signatures.pop_back(); // not reviewed yet
    ASSERT_EQ(take(before.record()), Verdict::Take);

    EXPECT_EQ(take(visit.record()), Verdict::Take);
    EXPECT_EQ(journal.signatures(visit.visit)->size(), visit.signatures.size());
    EXPECT_EQ(journal.entries(visit.visit)->size(), visit.entries.size());
}

TEST_F(IntakeStoreTest, AWaitingRecordIsKeptAsItCameUntilItIsReleased)
{
    const QByteArray file = "the bytes of a file";
    ASSERT_TRUE(intakes.wait(file, visit.visit, Why::UnknownOffice, kBoss, clock.now()));
    ASSERT_TRUE(intakes.wait(file, visit.visit, Why::GoneTwoWays, kBoss, clock.now()));

    ASSERT_EQ(intakes.waiting()->size(), 1U);
    EXPECT_EQ(intakes.waiting()->front().why, Why::GoneTwoWays);
    EXPECT_EQ(intakes.fileOf(sha256(file)).value(), file);
    EXPECT_FALSE(database.run(u"UPDATE waiting_record SET bytes = x'00'"_s));
    ASSERT_TRUE(intakes.release(sha256(file)));
    EXPECT_TRUE(intakes.waiting()->empty());
    EXPECT_EQ(intakes.fileOf(sha256(file)).error().kind, Error::Kind::NotFound);
}

TEST_F(IntakeStoreTest, TellsAVisitOfThisWorkspaceFromOneThatWasReceived)
{
    ASSERT_EQ(take(upTo(8)), Verdict::Take);
    EXPECT_FALSE(intakes.standing(visit.visit)->isOwn);
    EXPECT_EQ(take(visit.record()), Verdict::Take) << "a received one goes on";

    const VisitId own(u"visit-own"_s);
    EXPECT_FALSE(intakes.standing(own)->isOwn) << "there is none yet";
    ASSERT_TRUE(journal.append(own, store::Sequence(0), "{\"kind\":\"opening\"}"));
    EXPECT_TRUE(intakes.standing(own)->isOwn);
}

TEST_F(IntakeStoreTest, WhereAVisitComesFromIsNeverChanged)
{
    ASSERT_EQ(take(visit.record()), Verdict::Take);

    EXPECT_FALSE(database.run(u"DELETE FROM received_visit"_s));
    EXPECT_FALSE(database.run(u"UPDATE received_visit SET received_at_ms = 0"_s));
}

} // namespace
} // namespace coldarc::record
