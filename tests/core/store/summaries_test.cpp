#include "core/store/summaries.h"

#include "tests/support/testing.h"

using namespace Qt::StringLiterals;

namespace coldarc::store {
namespace {

/// A summary from entries such as "site Hall North", "swap", "signed"; the first names the site. All
/// invented.
Result<VisitSummary> summarise(const VisitId&, const std::vector<Entry>& entries)
{
    VisitSummary summary;
    const QString first = QString::fromUtf8(entries.front().bytes);
    if (!first.startsWith(u"site "_s))
        return fail(Error::Kind::Malformed, u"the first entry names the site"_s);
    summary.site = SiteId(u"site-1"_s);
    summary.siteText = first.mid(5);
    summary.openedAt = WallTime(std::chrono::milliseconds(1'795'000'000'000));
    summary.state = u"open"_s;
    summary.engineerText = u"A. Invented"_s;
    for (const Entry& entry : entries) {
        summary.swaps += entry.bytes == "swap" ? 1 : 0;
        summary.isSigned = summary.isSigned || entry.bytes == "signed";
    }
    return summary;
}

class SummariesTest : public ::testing::Test {
protected:
    void write(const VisitId& visit, const std::vector<QByteArray>& entries)
    {
        for (std::size_t seq = 0; seq < entries.size(); ++seq)
            ASSERT_TRUE(journal.append(visit, Sequence(static_cast<qint64>(seq)), entries[seq]));
    }

    Database database = Database::inMemory();
    Journal journal{database};
    Summaries summaries{database};
    const VisitId north{u"visit-north"_s};
    const VisitId south{u"visit-south"_s};
};

TEST_F(SummariesTest, RebuildsFromTheLogbooksWhatWasThrownAway)
{
    write(north, {"site Hall North", "swap", "note", "swap", "signed"});
    write(south, {"site Hall South"});
    ASSERT_TRUE(summaries.rebuild(summarise));
    const auto before = summaries.all();
    ASSERT_TRUE(database.run(u"DELETE FROM visit_summary"_s));
    ASSERT_TRUE(summaries.all()->empty());

    const auto rebuilt = summaries.rebuild(summarise);

    ASSERT_TRUE(rebuilt);
    EXPECT_EQ(rebuilt->made, 2);
    EXPECT_TRUE(rebuilt->faults.empty());
    EXPECT_EQ(summaries.all().value(), before.value());
    const VisitSummary one = summaries.of(north).value();
    EXPECT_EQ(one.siteText, u"Hall North"_s);
    EXPECT_EQ(one.swaps, 2);
    EXPECT_TRUE(one.isSigned);
    EXPECT_EQ(one.headSeq, Sequence(4));
    EXPECT_EQ(one.headHash, journal.head(north)->hash);
    EXPECT_FALSE(summaries.of(south)->isSigned);
}

TEST_F(SummariesTest, MakesThoseAnewOfWhichSomethingCameOneByOneAndLeavesWhatItCannotMake)
{
    write(north, {"site Hall North, Screen 2"});
    write(south, {"nothing that names a site"});
    for (const VisitId& visit : {north, south}) {
        VisitSummary old;
        old.visit = visit;
        old.siteText = u"as an earlier program had it"_s;
        ASSERT_TRUE(summaries.put(old));
    }

    EXPECT_EQ(summaries.makeNext(summarise), true);
    EXPECT_EQ(summaries.makeNext(summarise), true);
    EXPECT_EQ(summaries.makeNext(summarise), false) << "each once";

    EXPECT_EQ(summaries.of(north)->siteText, u"Hall North, Screen 2"_s);
    EXPECT_EQ(summaries.of(north)->headHash, journal.head(north)->hash);
    EXPECT_EQ(summaries.of(south)->siteText, u"as an earlier program had it"_s);
}

TEST_F(SummariesTest, OneThatIsWholeIsNotMadeAnewUntilAnEntryComes)
{
    write(north, {"site Hall North"});
    VisitSummary whole;
    whole.visit = north;
    whole.siteText = u"as its room made it"_s;
    ASSERT_TRUE(summaries.putWhole(whole));
    EXPECT_EQ(summaries.makeNext(summarise), false);

    ASSERT_TRUE(journal.append(north, Sequence(1), "screen"));
    EXPECT_EQ(summaries.makeNext(summarise), true);
    EXPECT_EQ(summaries.of(north)->siteText, u"Hall North"_s);
}

TEST_F(SummariesTest, ADiskThatRefusesLeavesItToBeMadeLater)
{
    write(north, {"site Hall North"});
    const auto refused = summaries.makeNext([](const VisitId&, const std::vector<Entry>&) {
        return Result<VisitSummary>(fail(Error::Kind::Storage, u"disk"_s));
    });
    EXPECT_FALSE(refused);

    EXPECT_EQ(summaries.makeNext(summarise), true);
}

TEST_F(SummariesTest, ReplacesASummaryThatIsOutOfDate)
{
    VisitSummary summary;
    summary.visit = north;
    summary.siteText = u"Hall North"_s;
    ASSERT_TRUE(summaries.put(summary));
    summary.state = u"signed"_s;
    summary.isSigned = true;

    ASSERT_TRUE(summaries.put(summary));

    EXPECT_EQ(summaries.all().value(), std::vector<VisitSummary>{summary});
}

TEST_F(SummariesTest, ListsTheNewestVisitFirst)
{
    VisitSummary older;
    older.visit = north;
    older.openedAt = WallTime(std::chrono::milliseconds(1000));
    VisitSummary newer;
    newer.visit = south;
    newer.openedAt = WallTime(std::chrono::milliseconds(2000));
    ASSERT_TRUE(summaries.put(older));
    ASSERT_TRUE(summaries.put(newer));

    EXPECT_EQ(summaries.all().value(), (std::vector<VisitSummary>{newer, older}));
}

TEST_F(SummariesTest, NamesTheVisitsThatItCannotSummarise)
{
    write(north, {"site Hall North"});
    write(south, {"no site"});
    const VisitId broken(u"visit-broken"_s);
    write(broken, {"site Hall East", "swap"});
    ASSERT_TRUE(database.run(u"DROP TRIGGER entry_is_never_changed"_s));
    ASSERT_TRUE(
        database.run(u"UPDATE entry SET bytes = x'00' WHERE visit_id = 'visit-broken' AND seq = 1"_s));

    const auto rebuilt = summaries.rebuild(summarise);

    ASSERT_TRUE(rebuilt);
    EXPECT_EQ(rebuilt->made, 1);
    ASSERT_EQ(rebuilt->faults.size(), 2u);
    EXPECT_EQ(rebuilt->faults[0].visit, south);
    EXPECT_EQ(rebuilt->faults[1].visit, broken);
    EXPECT_EQ(summaries.of(broken).error().kind, Error::Kind::NotFound);
}

} // namespace
} // namespace coldarc::store
