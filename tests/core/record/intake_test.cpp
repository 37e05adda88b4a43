#include "core/record/intake.h"

#include "core/people/people_store.h"
#include "core/record/intake_store.h"
#include "core/record/review_store.h"
#include "core/store/pictures.h"
#include "tests/core/record/signed_visit.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

#include <numeric>

namespace coldarc::record {
namespace {

using namespace Qt::StringLiterals;
using test::SignedVisit;
using Becomes = Intake::Verdict;
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

Believed officeOf(const SignedVisit& visit)
{
    return {people::Trust({visit.office.publicKey()})};
}

Intake intakeFor(const SignedVisit& visit, const Believed& believed, const Standing& standing = {})
{
    const Record record = visit.record();
    return intakeOf(record, verify(record), {}, believed, standing);
}

/// The links of the first entries, as they stand somewhere.
Standing standingOf(int entries)
{
    Standing standing;
    for (const store::Entry& entry : vouchedVisit(entries).entries)
        standing.chain.push_back(entry.hash);
    return standing;
}

TEST(IntakeTest, TakesAVisitForWhomABelievedOfficeVouches)
{
    const SignedVisit visit = vouchedVisit();

    EXPECT_EQ(intakeFor(visit, officeOf(visit)), (Intake{Becomes::Take, Why::None, 0, 12}));
}

TEST(IntakeTest, LetsARecordWaitWhoseKeysNobodyKnows)
{
    const SignedVisit visit = vouchedVisit();
    SignedVisit half = vouchedVisit();
    half.vouching.certificates.pop_back();

    EXPECT_EQ(intakeFor(visit, {people::Trust({visit.reviewer.publicKey()})}),
              (Intake{Becomes::Wait, Why::UnknownOffice}));
    EXPECT_EQ(intakeFor(half, officeOf(half)), (Intake{Becomes::Wait, Why::NobodyVouches}))
        << "one of three is enough";
}

TEST(IntakeTest, RefusesWhatIsNotAsItWasSigned)
{
    const SignedVisit visit = vouchedVisit();
    Record record = visit.record();
    record.entries[4].replace("remark", "Remark");
    EXPECT_EQ(intakeOf(record, verify(record), {}, officeOf(visit), {}),
              (Intake{Becomes::Refuse, Why::NotAsSigned}));

    const Record whole = visit.record();
    EXPECT_EQ(intakeOf(whole, verify(whole), {.lackAPicture = true}, officeOf(visit), {}),
              (Intake{Becomes::Refuse, Why::PictureMissing}));
    EXPECT_EQ(intakeOf(whole, verify(whole), {.lackAName = true}, officeOf(visit), {}),
              (Intake{Becomes::Refuse, Why::PictureUnnamed}));
}

TEST(IntakeTest, LeavesOutWhatComesAfterTheLastSignature)
{
    SignedVisit visit = vouchedVisit();
    visit.signatures.resize(2); // up to entry 6

    EXPECT_EQ(intakeFor(visit, officeOf(visit)), (Intake{Becomes::Take, Why::None, 0, 7}));
}

TEST(IntakeTest, LetsAVisitWaitThatHasGoneOnInTwoWays)
{
    const SignedVisit visit = vouchedVisit();
    Standing standing;
    for (const store::Entry& entry : vouchedVisit(5).entries)
        standing.chain.push_back(entry.hash);
    EXPECT_EQ(intakeFor(visit, officeOf(visit), standing), (Intake{Becomes::Take, Why::None, 5, 12}));

    standing.chain.back() = sha256("another entry");
    EXPECT_EQ(intakeFor(visit, officeOf(visit), standing), (Intake{Becomes::Wait, Why::GoneTwoWays}));
}

// Entries of elsewhere are folded, not decided: a gate would count as proved by what nobody proved here.
TEST(IntakeTest, AddsNoEntryToAVisitOfThisWorkspace)
{
    const SignedVisit visit = vouchedVisit();
    Standing own;
    own.isOwn = true;
    for (const store::Entry& entry : vouchedVisit(5).entries)
        own.chain.push_back(entry.hash);
    EXPECT_EQ(intakeFor(visit, officeOf(visit), own), (Intake{Becomes::Wait, Why::OwnVisit}));

    own.chain.clear();
    for (const store::Entry& entry : visit.entries)
        own.chain.push_back(entry.hash);
    EXPECT_EQ(intakeFor(visit, officeOf(visit), own), (Intake{Becomes::Take, Why::None, 12, 12}))
        << "a signature that somebody gave elsewhere is welcome";
}

TEST(IntakeTest, LetsASignatureWaitForWhoseDayNobodyVouches)
{
    SignedVisit visit = vouchedVisit(); // signed on 2026-11-25
    visit.vouching.certificates.pop_back();
    visit.vouch(visit.supervisor, u"person-3"_s, u"2026-11-24"_s);

    EXPECT_EQ(intakeFor(visit, officeOf(visit)), (Intake{Becomes::Wait, Why::NobodyVouches}));
}

// The entries say that somebody signed, and no key does.
TEST(IntakeTest, LetsAVisitWaitThatLacksASignatureItAsksFor)
{
    const SignedVisit visit = vouchedVisit();
    const Record record = visit.record();
    const EntriesTold told{.lackASignature = true};
    EXPECT_EQ(intakeOf(record, verify(record), told, officeOf(visit), {}),
              (Intake{Becomes::Wait, Why::SignatureMissing}));

    Standing own = standingOf(12);
    own.isOwn = true;
    EXPECT_EQ(intakeOf(record, verify(record), told, officeOf(visit), own).verdict, Becomes::Take)
        << "of an own visit it is known here";
}

TEST(IntakeTest, LetsAVisitOfElsewhereWaitWhoseSignerIsDoubted)
{
    const SignedVisit visit = vouchedVisit();
    const Record record = visit.record();
    const EntriesTold told{.doubtsASigner = Why::LeadNotVouched};
    EXPECT_EQ(intakeOf(record, verify(record), told, officeOf(visit), {}),
              (Intake{Becomes::Wait, Why::LeadNotVouched}));

    Standing own = standingOf(12);
    own.isOwn = true;
    EXPECT_EQ(intakeOf(record, verify(record), told, officeOf(visit), own).verdict, Becomes::Take)
        << "of an own visit it is known here who leads";
    EXPECT_EQ(
        intakeOf(record, verify(record), {.doubtsASigner = Why::SignerNamedOtherwise}, officeOf(visit), own),
        (Intake{Becomes::Wait, Why::SignerNamedOtherwise}))
        << "who somebody is that signed it elsewhere, is not";
}

// ---- Keys out of use ------------------------------------------------------------------------------------

TEST(IntakeTest, WhatAKeySignedThatIsOutOfUseWaitsWhetherTheRecordSaysSoOrNot)
{
    SignedVisit visit = vouchedVisit(); // signed on 2026-11-25
    const auto believedFrom = [&](const QString& day) {
        Believed believed = officeOf(visit);
        believed.trust.add(
            *people::retire({visit.trainee.publicKey(), *people::dayFromIso(day), {}}, visit.office));
        return believed;
    };
    EXPECT_EQ(intakeFor(visit, believedFrom(u"2026-11-25"_s)), (Intake{Becomes::Wait, Why::KeyOutOfUse}));
    EXPECT_EQ(intakeFor(visit, believedFrom(u"2026-11-26"_s)).verdict, Becomes::Take) << "it signed before";

    visit.retire(visit.engineer, u"2026-11-25"_s);
    EXPECT_EQ(intakeFor(visit, officeOf(visit)), (Intake{Becomes::Wait, Why::KeyOutOfUse}));
}

TEST(IntakeTest, WhatAKeySignedThatThisWorkspaceTookOutOfUseWaitsWhateverAnOfficeSays)
{
    const SignedVisit visit = vouchedVisit(); // signed on 2026-11-25
    const auto believedFrom = [&](const QString& moment) {
        Believed believed = officeOf(visit);
        believed.trust.add({visit.trainee.publicKey(), PersonId(u"person-2"_s), {}, *wallFromIso(moment)});
        return believed;
    };

    EXPECT_EQ(intakeFor(visit, believedFrom(u"2026-11-25T00:00:00.000Z"_s)),
              (Intake{Becomes::Wait, Why::KeyOutOfUse}));
    EXPECT_EQ(intakeFor(visit, believedFrom(u"2026-11-26T00:00:00.000Z"_s)).verdict, Becomes::Take)
        << "it signed before";
}

TEST(IntakeTest, NoOfficeGivesSomebodyAKeyThatThisWorkspaceKnowsAsAnothers)
{
    const SignedVisit visit = vouchedVisit();
    Believed believed = officeOf(visit);
    believed.trust.add({visit.trainee.publicKey(), PersonId(u"person-7"_s), {}, {}});

    EXPECT_EQ(intakeFor(visit, believed), (Intake{Becomes::Wait, Why::NobodyVouches}));
}

TEST(IntakeTest, AReviewByAKeyThatIsOutOfUseWaits)
{
    SignedVisit visit = vouchedVisit();
    visit.review(visit.reviewer, u"person-9"_s, 11);
    visit.vouch(visit.reviewer, u"person-9"_s, u"2027-10-31"_s, people::Role::Supervisor);
    visit.retire(visit.reviewer, u"2026-11-01"_s);

    EXPECT_EQ(intakeFor(visit, officeOf(visit)), (Intake{Becomes::Wait, Why::KeyOutOfUse}));
}

// ---- Reviews --------------------------------------------------------------------------------------------

SignedVisit reviewedVisit(people::Role role = people::Role::Supervisor, int entry = 11)
{
    SignedVisit visit = vouchedVisit();
    visit.review(visit.reviewer, u"person-9"_s, entry);
    visit.vouch(visit.reviewer, u"person-9"_s, u"2027-10-31"_s, role);
    return visit;
}

TEST(IntakeTest, AReviewIsTakenThatIsVouchedForAsASupervisors)
{
    const SignedVisit visit = reviewedVisit();
    EXPECT_EQ(intakeFor(visit, officeOf(visit)).verdict, Becomes::Take);

    const SignedVisit engineers = reviewedVisit(people::Role::Engineer);
    EXPECT_EQ(intakeFor(engineers, officeOf(engineers)), (Intake{Becomes::Wait, Why::ReviewerNotVouched}));
    Believed believed = officeOf(engineers);
    believed.reviews.insert(engineers.reviews.front().id.bytes());
    EXPECT_EQ(intakeFor(engineers, believed).verdict, Becomes::Take) << "somebody of this workspace";
}

TEST(IntakeTest, NoOfficeVouchesForAKeyThatThisWorkspaceKnowsAndDoesNotBelieve)
{
    const SignedVisit visit = reviewedVisit();
    Believed believed = officeOf(visit);
    believed.trust.add({visit.reviewer.publicKey(), PersonId(u"person-9"_s), visit.moment, {}});

    EXPECT_EQ(intakeFor(visit, believed), (Intake{Becomes::Wait, Why::ReviewerNotVouched}));
    believed.reviews.insert(visit.reviews.front().id.bytes());
    EXPECT_EQ(intakeFor(visit, believed).verdict, Becomes::Take);
}

TEST(IntakeTest, AReviewThatIsKeptIsNotAskedForAgain)
{
    SignedVisit visit = reviewedVisit(people::Role::Engineer);
    Standing standing = standingOf(12);
    standing.reviews.insert(visit.reviews.front().id.bytes());
    EXPECT_EQ(intakeFor(visit, officeOf(visit), standing).verdict, Becomes::Take) << "of the signatures";

    visit.retire(visit.reviewer, u"2026-11-01"_s);
    EXPECT_EQ(intakeFor(visit, officeOf(visit), standing).verdict, Becomes::Take);
}

TEST(IntakeTest, AReviewThatIsDoubtedWaitsForWhatItIsDoubtedFor)
{
    const SignedVisit visit = reviewedVisit();
    const Record record = visit.record();

    EXPECT_EQ(intakeOf(record, verify(record), {.doubtsAReview = Why::VisitNotOver}, officeOf(visit), {}),
              (Intake{Becomes::Wait, Why::VisitNotOver}));
}

TEST(IntakeTest, AReviewBySomebodyWhoHadAPartIsRefused)
{
    const SignedVisit visit = reviewedVisit();
    const Record record = visit.record();

    EXPECT_EQ(intakeOf(record, verify(record), {.nameAReviewer = true}, officeOf(visit), {}),
              (Intake{Becomes::Refuse, Why::ReviewerTookPart}));
}

TEST(IntakeTest, AReviewIsAllThatIsNewOfAVisitThatStandsHere)
{
    const SignedVisit visit = reviewedVisit();
    Standing standing = standingOf(12);
    standing.isOwn = true;
    for (const store::Signature& one : visit.signatures)
        standing.signatures.insert(one.bytes);
    EXPECT_EQ(intakeFor(visit, officeOf(visit), standing), (Intake{Becomes::Take, Why::None, 12, 12}));

    standing.reviews.insert(visit.reviews.front().id.bytes());
    EXPECT_EQ(intakeFor(visit, officeOf(visit), standing), (Intake{Becomes::Nothing, Why::None, 12, 12}));
}

TEST(IntakeTest, AReviewOfEntriesThatNobodySignedWaitsForTheirSignature)
{
    SignedVisit visit = reviewedVisit();
    visit.signatures.resize(2); // up to entry 6
    Standing standing = standingOf(7);
    for (const store::Signature& one : visit.signatures)
        standing.signatures.insert(one.bytes);

    EXPECT_EQ(intakeFor(visit, officeOf(visit)), (Intake{Becomes::Wait, Why::ReviewOfUnsigned}));
    EXPECT_EQ(intakeFor(visit, officeOf(visit), standing), (Intake{Becomes::Wait, Why::ReviewOfUnsigned}));
}

TEST(IntakeTest, AReviewOfOtherEntriesThanStandHereIsOfAVisitThatWentTwoWays)
{
    SignedVisit visit = reviewedVisit();
    visit.signatures.resize(2); // up to entry 6; the review is of entry 11
    Standing standing = standingOf(12);
    EXPECT_EQ(intakeFor(visit, officeOf(visit), standing).verdict, Becomes::Take);

    standing.chain.back() = sha256("another entry");
    EXPECT_EQ(intakeFor(visit, officeOf(visit), standing), (Intake{Becomes::Wait, Why::GoneTwoWays}));
}

TEST(IntakeTest, EachReasonIsReadAgainFromItsWord)
{
    for (int why = 0; why <= static_cast<int>(Why::OpensAnother); ++why)
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
    Becomes take(const Record& record)
    {
        const Intake intake =
            intakeOf(record, verify(record), {}, officeOf(visit), *intakes.standing(record.visit));
        EXPECT_TRUE(offices.keep(verify(record).trust, clock.now()));
        if (intake.verdict == Becomes::Take) {
            EXPECT_TRUE(intakes.take(record, intake, {sha256("a picture")}, kBoss, clock.now()));
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
    ASSERT_EQ(take(visit.record()), Becomes::Take);

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
        EXPECT_EQ(take(visit.record()), Becomes::Nothing);
        EXPECT_EQ(*journal.entries(visit.visit), visit.entries);
        EXPECT_EQ(journal.signatures(visit.visit)->size(), visit.signatures.size());
    } while (std::ranges::next_permutation(parts).found);
}

TEST_F(IntakeStoreTest, ASignatureThatIsAddedLaterIsTakenAlone)
{
    SignedVisit before = vouchedVisit();
    before.signatures.pop_back(); // not reviewed yet
    ASSERT_EQ(take(before.record()), Becomes::Take);

    EXPECT_EQ(take(visit.record()), Becomes::Take);
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
    EXPECT_EQ(intakes.waiting()->front().bytes, 19);
    EXPECT_EQ(intakes.fileOf(sha256(file)).value(), file);
    EXPECT_FALSE(database.run(u"UPDATE waiting_record SET bytes = x'00'"_s));
    ASSERT_TRUE(intakes.release(sha256(file)));
    EXPECT_TRUE(intakes.waiting()->empty());
    EXPECT_EQ(intakes.fileOf(sha256(file)).error().kind, Error::Kind::NotFound);
}

TEST_F(IntakeStoreTest, APictureThatNobodySignedForIsNotKept)
{
    visit.pictures.push_back({sha256("another picture"), "another picture"});
    ASSERT_EQ(take(visit.record()), Becomes::Take);

    EXPECT_TRUE(store::Pictures(database).read(sha256("a picture")));
    EXPECT_FALSE(store::Pictures(database).read(sha256("another picture")));
}

TEST_F(IntakeStoreTest, TellsAVisitOfThisWorkspaceFromOneThatWasReceived)
{
    ASSERT_EQ(take(upTo(8)), Becomes::Take);
    EXPECT_FALSE(intakes.standing(visit.visit)->isOwn);
    EXPECT_EQ(take(visit.record()), Becomes::Take) << "a received one goes on";

    const VisitId own(u"visit-own"_s);
    EXPECT_FALSE(intakes.standing(own)->isOwn) << "there is none yet";
    ASSERT_TRUE(journal.append(own, store::Sequence(0), "{\"kind\":\"opening\"}"));
    EXPECT_TRUE(intakes.standing(own)->isOwn);
}

TEST_F(IntakeStoreTest, WhatAnOfficeSaysOfAKeyStaysHere)
{
    visit.retire(visit.engineer, u"2026-12-01"_s);
    ASSERT_EQ(take(visit.record()), Becomes::Take);

    EXPECT_EQ(offices.retirementsOf(visit.engineer.publicKey()).value(), visit.vouching.retirements);
}

// Signed up to entries 0, 6 and 11; reviewed at entries 6 and 11.
TEST_F(IntakeStoreTest, ReviewsStandInTheEndInWhateverOrderTheyCame)
{
    visit.vouch(visit.reviewer, u"person-9"_s, u"2027-10-31"_s, people::Role::Supervisor);
    visit.review(visit.reviewer, u"person-9"_s, 6, record::Verdict::SentBack);
    visit.review(visit.reviewer, u"person-9"_s, 11);
    const std::vector<KeptReview> both = visit.reviews;
    std::vector<Record> records{upTo(8), visit.record()};
    visit.reviews = {both.front()};
    records.push_back(visit.record());
    std::vector<std::size_t> order{0, 1, 2};
    do {
        database = store::Database::inMemory();
        SetUp();
        for (const std::size_t place : order)
            take(records[place]);
        EXPECT_EQ(take(records[1]), Becomes::Nothing);
        const auto kept = ReviewStore(database).of(visit.visit)->whole;
        ASSERT_EQ(kept.size(), 2U);
        EXPECT_EQ(kept, both);
    } while (std::ranges::next_permutation(order).found);
}

TEST_F(IntakeStoreTest, AReviewOfEntriesThatNobodySignedIsNotKept)
{
    visit.vouch(visit.reviewer, u"person-9"_s, u"2027-10-31"_s, people::Role::Supervisor);
    visit.review(visit.reviewer, u"person-9"_s, 11);
    visit.signatures.resize(2); // up to entry 6

    EXPECT_EQ(take(visit.record()), Becomes::Wait);
    EXPECT_TRUE(journal.entries(visit.visit)->empty());
    EXPECT_TRUE(ReviewStore(database).of(visit.visit)->whole.empty());
}

TEST_F(IntakeStoreTest, AReviewOfAnOwnVisitIsTakenAndNoEntry)
{
    for (const store::Entry& entry : visit.entries)
        ASSERT_TRUE(journal.append(visit.visit, entry.seq, entry.bytes));
    visit.vouch(visit.reviewer, u"person-9"_s, u"2027-10-31"_s, people::Role::Supervisor);
    visit.review(visit.reviewer, u"person-9"_s, 11, record::Verdict::SentBack);
    ASSERT_TRUE(intakes.standing(visit.visit)->isOwn);

    EXPECT_EQ(take(visit.record()), Becomes::Take);
    EXPECT_EQ(ReviewStore(database).of(visit.visit)->whole, visit.reviews);
    EXPECT_EQ(*journal.entries(visit.visit), visit.entries);
    EXPECT_TRUE(intakes.received()->empty());
}

TEST_F(IntakeStoreTest, WhereAVisitComesFromIsNeverChanged)
{
    ASSERT_EQ(take(visit.record()), Becomes::Take);

    EXPECT_FALSE(database.run(u"DELETE FROM received_visit"_s));
    EXPECT_FALSE(database.run(u"UPDATE received_visit SET received_at_ms = 0"_s));
}

} // namespace
} // namespace coldarc::record
