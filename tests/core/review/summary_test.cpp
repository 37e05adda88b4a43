#include "core/review/summary.h"

#include "core/review/exceptions.h"
#include "core/visit/logbook.h"
#include "tests/core/review/signed_as_wanted.h"
#include "tests/core/visit/night.h"

namespace coldarc::review {
namespace {

using namespace Qt::StringLiterals;
using test::Night;

class ReviewSummaryTest : public ::testing::Test {
protected:
    Night night; // its counter reads less than the 1200 h on record, and it is pressed through
    store::Database database = store::Database::inMemory(store::Schema::shipped());
    store::Journal journal{database};
    store::Summaries summaries{database};
};

TEST_F(ReviewSummaryTest, CountsWhatTheFoldOfAVisitDoesNotNotice)
{
    night.doAll();
    night.close();

    const store::VisitSummary plain = visit::summaryOf(night.state, night.entries);
    const store::VisitSummary reviewed = review::summaryOf(night.state, night.entries);

    EXPECT_TRUE(plain.kinds.isEmpty());
    EXPECT_EQ(reviewed.kinds.size(), 2); // the counter, and the time
    EXPECT_EQ(reviewed.siteText, plain.siteText);
}

TEST_F(ReviewSummaryTest, CountsWhatItsSignaturesTell)
{
    night.doAll();
    night.close();
    const QStringList plain = review::summaryOf(night.state, night.entries).kinds;
    const auto kinds = [&](const QList<HeadSigned>& signatures) {
        return signedSummaryOf(night.state, night.entries, signatures).kinds;
    };
    QList<HeadSigned> all = test::signedAsWanted(night);
    EXPECT_EQ(kinds(all), plain);
    EXPECT_TRUE(kinds({}).contains(wordOf(Exception::Kind::WorkUnsigned)));

    all.last().isGood = false;
    EXPECT_TRUE(kinds(all).contains(wordOf(Exception::Kind::SignatureBad)));
    EXPECT_EQ(signedSummaryOf(night.state, night.entries, all).weight,
              weightOf(Exception::Kind::SignatureBad));
}

TEST_F(ReviewSummaryTest, ALogbookThatIsToldSoWritesItForTheListsAndARebuildComesToTheSame)
{
    auto logbook = visit::Logbook::begin(journal, summaries, night.ada(), night.opening(), night.clock.now(),
                                         review::summaryOf);
    ASSERT_TRUE(logbook);
    night.doAll();
    night.close();
    ASSERT_TRUE(night.tell(visit::Addendum{u"sent on Friday"_s}));
    for (const visit::Entry& entry : night.entries.mid(1)) {
        const auto told = logbook->tell(entry.by, entry.body, entry.at);
        ASSERT_TRUE(told);
        ASSERT_TRUE(std::holds_alternative<visit::Entry>(*told));
    }

    const store::VisitSummary written = summaries.of(night.opening().visit).value();
    EXPECT_EQ(written.kinds.size(), 3);
    ASSERT_TRUE(summaries.rebuild(summarise));
    EXPECT_EQ(summaries.of(night.opening().visit).value(), written);
}

} // namespace
} // namespace coldarc::review
