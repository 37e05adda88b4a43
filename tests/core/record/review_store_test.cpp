#include "core/record/review_store.h"

#include "core/store/journal.h"
#include "core/store/summaries.h"
#include "tests/core/record/signed_visit.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

// Every person and visit here is invented.

namespace coldarc::record {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::SignedVisit;

class ReviewStoreTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        for (const store::Entry& entry : visit.entries)
            ASSERT_TRUE(journal.append(visit.visit, entry.seq, entry.bytes));
    }
    [[nodiscard]] SignedReview paper(qint64 entry, std::chrono::minutes later,
                                     Verdict verdict = Verdict::Accepted) const
    {
        return *sign({visit.visit,
                      entry,
                      visit.entries[static_cast<std::size_t>(entry)].hash,
                      verdict,
                      u"looked at it"_s,
                      {},
                      PersonId(u"person-9"_s),
                      u"B. Invented"_s,
                      visit.moment + later},
                     key);
    }
    Result<void> keep(const SignedReview& one) { return reviews.keep(one, key.publicKey(), clock.now()); }

    SignedVisit visit{12};
    people::SigningKey key = test::keyOf(9);
    coldarc::test::FakeClock clock;
    store::Database database = store::Database::inMemory();
    store::Journal journal{database};
    ReviewStore reviews{database};
};

TEST_F(ReviewStoreTest, AReviewIsReadAgainAsItWasSigned)
{
    const SignedReview one = paper(11, 0min, Verdict::SentBack);
    ASSERT_TRUE(keep(one));

    const auto kept = reviews.of(visit.visit);

    ASSERT_TRUE(kept);
    ASSERT_EQ(kept->size(), 1U);
    EXPECT_EQ(kept->front(), (KeptReview{idOf(one), saidBy(one)->review, one, key.publicKey()}));
    EXPECT_TRUE(reviews.of(VisitId(u"visit-8"_s))->empty());
}

TEST_F(ReviewStoreTest, NeitherTheOrderInWhichTheyComeNorHowOftenChangesAnything)
{
    std::vector<int> order{0, 1, 2, 3};
    const std::vector<SignedReview> papers{paper(8, 5min, Verdict::SentBack), paper(11, 1min),
                                           paper(11, 3min, Verdict::SentBack), paper(11, 3min)};
    std::vector<KeptReview> first;
    do {
        database = store::Database::inMemory();
        SetUp();
        for (const int place : order) {
            ASSERT_TRUE(keep(papers[static_cast<std::size_t>(place)]));
            ASSERT_TRUE(keep(papers[static_cast<std::size_t>(place)])) << "once more";
        }
        const auto kept = *reviews.of(visit.visit);
        ASSERT_EQ(kept.size(), 4U);
        EXPECT_EQ(kept[0].paper, papers[0]) << "the one that looked least far";
        EXPECT_EQ(kept[1].paper, papers[1]);
        if (first.empty())
            first = kept;
        EXPECT_EQ(kept, first);
    } while (std::ranges::next_permutation(order).found);
}

TEST_F(ReviewStoreTest, KeepsNothingThatThisKeyDidNotSign)
{
    SignedReview one = paper(11, 0min);
    EXPECT_EQ(reviews.keep(one, test::keyOf(8).publicKey(), clock.now()).error().kind,
              Error::Kind::Malformed);
    one.jws.payload.replace("looked", "Looked");
    EXPECT_EQ(keep(one).error().kind, Error::Kind::Malformed);
    EXPECT_TRUE(reviews.of(visit.visit)->empty());
}

TEST_F(ReviewStoreTest, KeepsNothingOfAnEntryThatIsNotThereOrIsAnotherOne)
{
    Review review = saidBy(paper(11, 0min))->review;
    review.head = sha256("another entry");
    EXPECT_EQ(keep(*sign(review, key)).error().kind, Error::Kind::Conflict);
    review.entry = 12;
    EXPECT_EQ(keep(*sign(review, key)).error().kind, Error::Kind::Conflict);
    review.visit = VisitId(u"visit-8"_s);
    EXPECT_EQ(keep(*sign(review, key)).error().kind, Error::Kind::Conflict);
}

TEST_F(ReviewStoreTest, IsNeverChangedRemovedOrReplaced)
{
    ASSERT_TRUE(keep(paper(11, 0min)));

    EXPECT_FALSE(database.run(u"UPDATE review SET verdict = 'sent-back'"_s));
    EXPECT_FALSE(database.run(u"DELETE FROM review"_s));
    EXPECT_FALSE(database.run(u"INSERT OR REPLACE INTO review SELECT * FROM review"_s));
}

TEST_F(ReviewStoreTest, OneThatWasAlteredByHandIsToldAndNotUsed)
{
    for (const QString& altered :
         {u"payload = CAST(replace(CAST(payload AS TEXT), 'sent-back', 'accepted') AS BLOB)"_s,
          u"signature = zeroblob(64)"_s, u"verdict = 'accepted'"_s, u"seq = 3"_s,
          u"reviewed_at_ms = reviewed_at_ms + 1"_s}) {
        database = store::Database::inMemory();
        SetUp();
        ASSERT_TRUE(keep(paper(11, 0min, Verdict::SentBack)));
        ASSERT_TRUE(reviews.of(visit.visit));
        ASSERT_TRUE(database.run(u"DROP TRIGGER review_is_never_changed"_s));
        ASSERT_TRUE(database.run(u"UPDATE review SET "_s + altered)) << altered.toStdString();

        const auto read = reviews.of(visit.visit);
        ASSERT_FALSE(read) << altered.toStdString();
        EXPECT_EQ(read.error().kind, Error::Kind::Malformed);
    }
}

// A summary is written anew with each entry, and knows nothing of reviews.
TEST_F(ReviewStoreTest, AListOfVisitsShowsTheStandHoweverTheSummaryIsWritten)
{
    store::Summaries summaries(database);
    store::VisitSummary summary;
    summary.visit = visit.visit;
    summary.state = u"done"_s;
    summary.headSeq = store::Sequence(10);
    summary.review = u"waiting"_s;
    const auto stand = [&] { return summaries.of(visit.visit)->review; };
    ASSERT_TRUE(keep(paper(10, 0min, Verdict::SentBack)));
    ASSERT_TRUE(summaries.put(summary));
    EXPECT_EQ(stand(), u"sent-back"_s);

    summary.headSeq = store::Sequence(11);
    ASSERT_TRUE(summaries.put(summary));
    EXPECT_EQ(stand(), u"answered"_s);

    ASSERT_TRUE(keep(paper(11, 0min)));
    EXPECT_EQ(stand(), u"accepted"_s);
    ASSERT_TRUE(summaries.put(summary));
    EXPECT_EQ(stand(), u"accepted"_s);

    summary.headSeq = store::Sequence(12);
    ASSERT_TRUE(summaries.put(summary));
    EXPECT_EQ(stand(), u"waiting"_s) << "something was added since";

    summary.review.clear();
    ASSERT_TRUE(summaries.put(summary));
    EXPECT_EQ(stand(), QString()) << "it is open";
}

} // namespace
} // namespace coldarc::record
