#include "core/visit/logbook.h"

#include "tests/core/visit/night.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace visit;

class LogbookTest : public ::testing::Test {
protected:
    store::Database database = store::Database::inMemory();
    store::Journal journal{database};
    store::Summaries summaries{database};
    Night night;

    void copyNight()
    {
        for (qsizetype index = 0; index < night.entries.size(); ++index)
            ASSERT_TRUE(
                journal.append(VisitId(u"visit-1"_s), store::Sequence(index), bytesOf(night.entries[index])));
    }
};

TEST_F(LogbookTest, ReadsAVisitBackToWhereItStood)
{
    night.doUntil(u"gear-on"_s);
    copyNight();

    const auto read = Logbook::read(journal, summaries, VisitId(u"visit-1"_s));

    ASSERT_TRUE(read) << read.error().detail.toStdString();
    EXPECT_EQ(read->state().machine, night.state.machine);
    EXPECT_EQ(read->state().waits, night.state.waits);
    EXPECT_EQ(read->head(), journal.head(VisitId(u"visit-1"_s))->hash);
}

TEST_F(LogbookTest, ARefusalNeverAddsAnEntry)
{
    auto logbook = Logbook::begin(journal, summaries, night.ada(), night.opening(), night.clock.now());
    ASSERT_TRUE(logbook) << logbook.error().detail.toStdString();

    Did tooEarly;
    tooEarly.swap = SwapId(u"swap-1"_s);
    tooEarly.step = StepId(u"lamp-out"_s);
    const auto answer = logbook->tell(night.ada(), tooEarly, night.clock.now());

    ASSERT_TRUE(answer);
    EXPECT_TRUE(std::holds_alternative<Refusal>(*answer));
    EXPECT_EQ(journal.entries(VisitId(u"visit-1"_s))->size(), 1u);
    EXPECT_EQ(logbook->entries().size(), 1);
}

TEST_F(LogbookTest, AnEntryOfAKindThatIsNotKnownMakesTheVisitReadOnly)
{
    copyNight();
    const QByteArray strange = R"({"format":1,"kind":"teleported","at":{"wall":"2026-11-25T13:00:00.000Z",)"
                               R"("machine":"m","boot":"b","since_boot_ms":1},"by":"ada"})";
    ASSERT_TRUE(journal.append(VisitId(u"visit-1"_s), store::Sequence(night.entries.size()), strange));

    auto read = Logbook::read(journal, summaries, VisitId(u"visit-1"_s));

    ASSERT_TRUE(read);
    EXPECT_TRUE(read->state().isReadOnly);
    const auto answer = read->tell(night.ada(), Noted{{}, u"anything"_s}, night.clock.now());
    ASSERT_TRUE(answer);
    EXPECT_TRUE(std::get<Refusal>(*answer).has(Why::Kind::ReadOnly));
}

TEST_F(LogbookTest, SummariesAreMadeAnewFromTheLogbooks)
{
    night.doAll();
    ASSERT_TRUE(night.tell(Signed{u"performed"_s}));
    ASSERT_TRUE(night.tell(Closed{}));
    copyNight();

    const auto rebuilt = summaries.rebuild(summarise);

    ASSERT_TRUE(rebuilt);
    EXPECT_EQ(rebuilt->made, 1);
    const auto summary = summaries.of(VisitId(u"visit-1"_s));
    ASSERT_TRUE(summary);
    EXPECT_EQ(summary->state, u"done"_s);
    EXPECT_EQ(summary->siteText, u"Pier Street, Screen 1"_s) << "a site has many screens";
    EXPECT_TRUE(summary->isSigned);
}

} // namespace
} // namespace coldarc::test
