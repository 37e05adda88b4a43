#include "core/record/record.h"

#include "tests/core/record/signed_visit.h"
#include "tests/support/testing.h"

namespace coldarc::record {
namespace {

using namespace Qt::StringLiterals;
using test::SignedVisit;

TEST(RecordTest, CarriesEntriesLinksKeysAndSignatures)
{
    const SignedVisit visit;
    const Record record = visit.record();

    EXPECT_EQ(record.entries.size(), 12U);
    EXPECT_EQ(record.entries.front(), visit.entries.front().bytes);
    EXPECT_EQ(record.chain.back(), visit.entries.back().hash);
    EXPECT_EQ(record.keys.size(), 3U) << "each key once";
    EXPECT_EQ(record.signatures.size(), 5U);
    EXPECT_TRUE(record.former.empty());
}

TEST(RecordTest, KeepsASignatureOfTheFormerFormApart)
{
    SignedVisit visit;
    visit.sign(visit.engineer, u"person-1"_s, 3, people::Meaning::Incident, true);
    const Record record = visit.record();

    EXPECT_EQ(record.signatures.size(), 5U);
    ASSERT_EQ(record.former.size(), 1U);
    EXPECT_EQ(record.former.front().statement.sequence, 3);
}

TEST(RecordTest, CarriesReviewsAndTheirKeys)
{
    SignedVisit visit;
    visit.review(visit.reviewer, u"person-9"_s, 11);
    const Record record = visit.record();

    ASSERT_EQ(record.reviews.size(), 1U);
    EXPECT_EQ(record.reviews.front(), visit.reviews.front().paper);
    EXPECT_EQ(record.keys.back(), visit.reviewer.publicKey());
}

TEST(RecordTest, IsNotMadeOfAReviewThatDoesNotVerifyOrIsOfAnotherVisit)
{
    SignedVisit visit;
    visit.review(visit.reviewer, u"person-9"_s, 11);
    const auto made = [&](const KeptReview& review) {
        return recordOf(visit.visit, visit.entries, visit.signatures, {}, {}, {review}).has_value();
    };
    KeptReview altered = visit.reviews.front();
    altered.paper.jws.payload.replace("looked", "gazed");
    KeptReview others = visit.reviews.front();
    others.key = visit.engineer.publicKey();
    SignedVisit elsewhere(12, u"visit-8"_s);
    elsewhere.review(visit.reviewer, u"person-9"_s, 11);

    EXPECT_TRUE(made(visit.reviews.front()));
    EXPECT_FALSE(made(altered));
    EXPECT_FALSE(made(others));
    EXPECT_FALSE(made(elsewhere.reviews.front()));
}

TEST(RecordTest, IsNotMadeOfWhatIsNotWhole)
{
    SignedVisit altered;
    altered.signatures[1].meaning = u"reviewed"_s;
    SignedVisit moved;
    moved.signatures[1].visit = VisitId(u"visit-8"_s);
    SignedVisit broken;
    broken.entries[4].bytes = "{\n}";

    for (const SignedVisit* visit : {&altered, &moved, &broken}) {
        const auto record = recordOf(visit->visit, visit->entries, visit->signatures, {});
        ASSERT_FALSE(record);
        EXPECT_EQ(record.error().kind, Error::Kind::Malformed);
    }
    EXPECT_FALSE(recordOf(altered.visit, {}, {}, {})) << "a visit without entries";
}

} // namespace
} // namespace coldarc::record
