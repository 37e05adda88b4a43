#include "core/record/review_store.h"

#include "core/people/key_store.h"
#include "core/people/office_store.h"
#include "core/people/people_store.h"
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
    /// As somebody does who knows how, past the guards of the file.
    void alter(const SignedReview& one, const QString& how)
    {
        ASSERT_TRUE(database.run(u"DROP TRIGGER IF EXISTS review_is_never_changed"_s));
        ASSERT_TRUE(database.run(u"UPDATE review SET "_s + how + u" WHERE review_id = :id"_s,
                                 {{u":id"_s, idOf(one).bytes()}}))
            << how.toStdString();
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
    ASSERT_EQ(kept->whole.size(), 1U);
    EXPECT_EQ(kept->whole.front(), (KeptReview{idOf(one), saidBy(one)->review, one, key.publicKey()}));
    EXPECT_TRUE(reviews.of(VisitId(u"visit-8"_s))->whole.empty());
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
        const auto kept = reviews.of(visit.visit)->whole;
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
    EXPECT_TRUE(reviews.of(visit.visit)->whole.empty());
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

    ASSERT_TRUE(reviews.setUncounted(visit.visit, {}, {idOf(paper(11, 0min))}));
    EXPECT_FALSE(database.run(u"DELETE FROM review"_s)) << "it counts for nobody, and is as it was kept";
}

TEST_F(ReviewStoreTest, OneThatWasAlteredByHandIsToldAndTheOthersAreAsTheyWere)
{
    const SignedReview good = paper(11, 2min, Verdict::SentBack);
    const SignedReview bad = paper(11, 0min, Verdict::SentBack);
    for (const QString& altered :
         {u"payload = CAST(replace(CAST(payload AS TEXT), 'sent-back', 'accepted') AS BLOB)"_s,
          u"signature = zeroblob(64)"_s, u"verdict = 'accepted'"_s, u"seq = 3"_s,
          u"head_hash = zeroblob(32)"_s, u"reviewed_at_ms = reviewed_at_ms + 1"_s}) {
        database = store::Database::inMemory();
        SetUp();
        ASSERT_TRUE(keep(bad));
        ASSERT_TRUE(keep(good));
        ASSERT_EQ(reviews.of(visit.visit)->whole.size(), 2U);
        alter(bad, altered);

        const auto read = reviews.of(visit.visit);
        ASSERT_TRUE(read) << altered.toStdString();
        EXPECT_EQ(*read, (KeptReviews{{KeptReview{idOf(good), saidBy(good)->review, good, key.publicKey()}},
                                      {idOf(bad)}}))
            << altered.toStdString();
    }
}

TEST_F(ReviewStoreTest, ThePaperItselfTakesThePlaceOfARowThatWasAltered)
{
    const SignedReview one = paper(11, 0min, Verdict::SentBack);
    const KeptReviews whole{{KeptReview{idOf(one), saidBy(one)->review, one, key.publicKey()}}, {}};
    for (const QString& altered : {u"verdict = 'accepted'"_s, u"signature = zeroblob(64)"_s,
                                   u"visit_id = 'visit-8'"_s, u"reviewed_at_ms = 0"_s}) {
        database = store::Database::inMemory();
        SetUp();
        for (const store::Entry& entry : visit.entries)
            ASSERT_TRUE(journal.append(VisitId(u"visit-8"_s), entry.seq, entry.bytes));
        ASSERT_TRUE(keep(one));
        alter(one, altered);
        ASSERT_NE(*reviews.of(visit.visit), whole) << altered.toStdString();
        ASSERT_TRUE(reviews.setUncounted(visit.visit, {idOf(one)}, {}));

        ASSERT_TRUE(keep(one));

        EXPECT_EQ(*reviews.of(visit.visit), whole) << altered.toStdString();
        EXPECT_EQ(*reviews.of(VisitId(u"visit-8"_s)), KeptReviews()) << altered.toStdString();
        EXPECT_TRUE(reviews.altered()->isEmpty());
        EXPECT_TRUE(reviews.toCheck(5)->contains(visit.visit)) << "whether it counts is looked at anew";
    }
}

TEST_F(ReviewStoreTest, ARowThatIsAsItWasKeptIsNotWrittenAgain)
{
    const auto keptAt = [&] {
        const auto rows = database.run(u"SELECT kept_at_ms FROM review"_s);
        return rows->rows.front().whole(u"kept_at_ms");
    };
    ASSERT_TRUE(keep(paper(11, 0min)));
    const qint64 first = keptAt();
    clock.advance(1h);

    ASSERT_TRUE(keep(paper(11, 0min)));

    EXPECT_EQ(keptAt(), first);
}

TEST_F(ReviewStoreTest, ARowThatWasAlteredStaysWhereThePaperItselfCannotBeKept)
{
    const SignedReview one = paper(11, 0min);
    ASSERT_TRUE(keep(one));
    alter(one, u"verdict = 'sent-back'"_s);
    ASSERT_TRUE(database.run(u"DROP TRIGGER entry_is_never_changed"_s));
    ASSERT_TRUE(database.run(u"UPDATE entry SET hash = zeroblob(32) WHERE seq = 11"_s));

    EXPECT_EQ(keep(one).error().kind, Error::Kind::Conflict);
    EXPECT_EQ(reviews.of(visit.visit)->altered, std::vector{idOf(one)});
}

TEST_F(ReviewStoreTest, AReviewThatWasPutToAnotherVisitByHandSaysNothingOfThat)
{
    const VisitId other(u"visit-8"_s);
    for (const store::Entry& entry : visit.entries)
        ASSERT_TRUE(journal.append(other, entry.seq, entry.bytes));
    const SignedReview one = paper(11, 0min);
    ASSERT_TRUE(keep(one));
    alter(one, u"visit_id = 'visit-8'"_s);

    EXPECT_EQ(*reviews.of(other), (KeptReviews{{}, {idOf(one)}}));
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

TEST_F(ReviewStoreTest, AReviewThatCountsForNobodyGivesNoStandUntilItCountsAgain)
{
    store::Summaries summaries(database);
    store::VisitSummary summary;
    summary.visit = visit.visit;
    summary.state = u"done"_s;
    summary.headSeq = store::Sequence(11);
    summary.review = u"waiting"_s;
    ASSERT_TRUE(summaries.put(summary));
    const auto stand = [&] { return summaries.of(visit.visit)->review; };
    const SignedReview back = paper(11, 0min, Verdict::SentBack);
    const SignedReview accepted = paper(11, 1min);
    ASSERT_TRUE(keep(back));
    ASSERT_TRUE(keep(accepted));
    ASSERT_EQ(stand(), u"accepted"_s);

    ASSERT_TRUE(reviews.setUncounted(visit.visit, {}, {idOf(accepted)}));
    EXPECT_EQ(stand(), u"sent-back"_s) << "the one before it counts";
    EXPECT_TRUE(reviews.of(visit.visit)->whole.front().isCounted);
    EXPECT_FALSE(reviews.of(visit.visit)->whole.back().isCounted);
    EXPECT_TRUE(reviews.altered()->isEmpty());

    ASSERT_TRUE(reviews.setUncounted(visit.visit, {idOf(back)}, {idOf(accepted)}));
    EXPECT_EQ(stand(), u"waiting"_s);
    EXPECT_EQ(reviews.altered()->value(visit.visit), 1);
    ASSERT_TRUE(summaries.put(summary));
    EXPECT_EQ(stand(), u"waiting"_s) << "however the summary is written";

    ASSERT_TRUE(reviews.setUncounted(visit.visit, {}, {}));
    EXPECT_EQ(stand(), u"accepted"_s);
}

TEST_F(ReviewStoreTest, AReviewThatWasPutToAnotherVisitByHandHoldsUpNoCheck)
{
    const SignedReview one = paper(11, 0min);
    ASSERT_TRUE(keep(one));
    ASSERT_TRUE(reviews.setUncounted(visit.visit, {idOf(one)}, {}));

    EXPECT_TRUE(reviews.setUncounted(VisitId(u"another"_s), {idOf(one)}, {}));

    EXPECT_EQ(reviews.altered()->value(VisitId(u"another"_s)), 1);
    EXPECT_EQ(reviews.altered()->size(), 1);
}

/// What may change which reviews count: of a part that the reviewer had, or of whose the key is.
TEST_F(ReviewStoreTest, WhatTellsMoreOfAReviewerLetsTheReviewsBeChecked)
{
    people::OfficeStore offices(database);
    const people::SigningKey office = test::keyOf(4);
    const PersonId ada(u"person-1"_s);
    const people::Day today = people::utcDayOf(visit.moment);
    const auto isToCheck = [&] {
        const bool is = reviews.toCheck(5)->contains(visit.visit);
        EXPECT_TRUE(reviews.setUncounted(visit.visit, {}, {}));
        return is;
    };
    const auto certify = [&](const people::SigningKey& whose) {
        const auto paper = people::certify(
            {whose.publicKey(), ada, u"A. Invented"_s, people::Role::Engineer, today, today, visit.moment},
            office);
        ASSERT_TRUE(offices.keep(*paper, clock.now()));
    };
    const auto sign = [&](const people::SigningKey& whose) {
        ASSERT_TRUE(journal.keep({visit.visit, store::Sequence(11), visit.entries[11].hash, ada,
                                  whose.publicKey().bytes(), QByteArray(64, 'x'), u"step"_s, visit.moment}));
    };
    ASSERT_TRUE(
        people::PeopleStore(database).add({ada, u"A. Invented"_s, people::Role::Engineer, {}, {}, {}}));
    EXPECT_FALSE(isToCheck()) << "there is no review";
    ASSERT_TRUE(keep(paper(11, 0min)));
    EXPECT_TRUE(isToCheck()) << "a review";

    ASSERT_TRUE(offices.takeUp(office.publicKey(), u"Invented Office"_s, ada, clock.now()));
    EXPECT_TRUE(isToCheck()) << "an office is believed";
    certify(test::keyOf(8));
    EXPECT_FALSE(isToCheck()) << "a key that has nothing to do with it";
    certify(key);
    EXPECT_TRUE(isToCheck()) << "whose the reviewer's key is";
    sign(test::keyOf(7));
    EXPECT_TRUE(isToCheck()) << "a signature of the visit";
    certify(test::keyOf(7));
    EXPECT_TRUE(isToCheck()) << "whose a key is that signed it";
    ASSERT_TRUE(offices.keep(*people::retire({key.publicKey(), today, visit.moment}, office), clock.now()));
    EXPECT_TRUE(isToCheck()) << "the reviewer's key is out of use";
    ASSERT_TRUE(offices.keep(*people::retire({test::keyOf(7).publicKey(), today, visit.moment}, office),
                             clock.now()));
    EXPECT_TRUE(isToCheck()) << "a key that signed it is out of use";
    ASSERT_TRUE(offices.drop(office.publicKey(), clock.now()));
    EXPECT_TRUE(isToCheck()) << "an office is believed no longer";
    ASSERT_TRUE(journal.append(visit.visit, store::Sequence(12), "{}"));
    EXPECT_TRUE(isToCheck()) << "an entry";
    ASSERT_TRUE(people::KeyStore(database).enrol(
        ada,
        *people::sealKey(key, ada, *people::Passphrase::accept(u"nine herons over Pier Street"_s), {1, 8}),
        clock.now()));
    EXPECT_TRUE(isToCheck()) << "the reviewer's key is known here as somebody's";
    EXPECT_FALSE(isToCheck()) << "nothing came since";
}

} // namespace
} // namespace coldarc::record
