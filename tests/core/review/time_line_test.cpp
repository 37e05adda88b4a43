#include "core/review/time_line.h"

#include "core/review/replay.h"
#include "core/review/shown_time.h"
#include "tests/core/visit/night.h"

#include <algorithm>

namespace coldarc::review {
namespace {

using namespace Qt::StringLiterals;
using test::Night;
using Row = Span::Row;

QList<Span> rowOf(const QList<Span>& spans, Row row)
{
    QList<Span> of;
    std::ranges::copy_if(spans, std::back_inserter(of), [&](const Span& one) { return one.row == row; });
    return of;
}

class TimeLineTest : public ::testing::Test {
protected:
    [[nodiscard]] qint64 entryOf(const QString& step) const
    {
        return night.swap().record(StepId(step)).entry;
    }
    Night night;
};

TEST_F(TimeLineTest, APlainSwapShowsEachGateOnceAndInOrder)
{
    night.doAll();

    const QList<Span> spans = timeLineOf(night.entries);

    const QList<Span> lit = rowOf(spans, Row::LampLit);
    ASSERT_EQ(lit.size(), 2);
    EXPECT_EQ(lit[0].from, entryOf(u"find"_s));
    EXPECT_EQ(lit[0].until, entryOf(u"lamp-off"_s));
    EXPECT_EQ(lit[0].endedAt, night.entries[lit[0].until].at.wall);
    EXPECT_EQ(lit[1].from, entryOf(u"strike"_s));
    EXPECT_EQ(lit[1].until, -1);
    EXPECT_EQ(lit[1].endedAt, night.entries.last().at.wall);
    ASSERT_EQ(rowOf(spans, Row::Cold).size(), 1);
    EXPECT_EQ(rowOf(spans, Row::Cold)[0].until, entryOf(u"strike"_s));
    EXPECT_EQ(rowOf(spans, Row::LocksOn)[0].from, entryOf(u"own-lock"_s));
    EXPECT_EQ(rowOf(spans, Row::LocksOn)[0].until, entryOf(u"own-lock-off"_s));
    EXPECT_EQ(rowOf(spans, Row::GuardOpen)[0].from, entryOf(u"expose-lamp"_s));
    EXPECT_EQ(rowOf(spans, Row::GuardOpen)[0].until, entryOf(u"shut-guard"_s));
    EXPECT_EQ(rowOf(spans, Row::Matched)[0].from, entryOf(u"unbox-new"_s));
    EXPECT_EQ(rowOf(spans, Row::Settled).size(), 1);
}

TEST_F(TimeLineTest, AGateThatWaitsAgainEndsItsSpan)
{
    night.doUntil(u"gear-on"_s);
    const qint64 tried = entryOf(u"try-start"_s);
    night.doUntil(u"stop-ready-to-open"_s);
    ASSERT_EQ(rowOf(timeLineOf(night.entries), Row::Dead).size(), 1);
    ASSERT_TRUE(night.tell(visit::Withdrawn{tried, u"nobody looked"_s}));

    const QList<Span> dead = rowOf(timeLineOf(night.entries), Row::Dead);

    ASSERT_EQ(dead.size(), 1);
    EXPECT_EQ(dead[0].until, night.entries.size() - 1);
}

// A remark of weeks later proves no gate, and nothing stood for weeks.
TEST_F(TimeLineTest, ARemarkAfterClosingIsNoPartOfTheTimeOfAVisit)
{
    night.doAll();
    night.close();
    const QList<Span> before = timeLineOf(night.entries);
    const auto minutes = ShownTime(night.entries).minutes();
    night.clock.advance(std::chrono::days(36));
    ASSERT_TRUE(night.tell(visit::Addendum{u"the site called: the fan rattles"_s}));

    EXPECT_EQ(timeLineOf(night.entries), before);
    EXPECT_EQ(ShownTime(night.entries).minutes(), minutes);
    EXPECT_EQ(endOfWork(night.entries), night.entries.size() - 2);
}

TEST_F(TimeLineTest, ASpanNeverEndsBeforeItBeginsAndKnowsItsLamphouse)
{
    Night pair(u"quillhaven-pair"_s);
    pair.doAll();

    const QList<Span> spans = timeLineOf(pair.entries);

    EXPECT_TRUE(std::ranges::any_of(
        spans, [&](const Span& one) { return one.lamphouse == pair.state.ground->lamphouses[1]; }));
    for (const Span& one : spans) {
        EXPECT_LE(one.beganAt, one.endedAt);
        EXPECT_TRUE(one.until == -1 || one.until > one.from);
    }
    EXPECT_TRUE(timeLineOf({}).isEmpty());
}

TEST(TimeLineRowTest, ShowsAGateAWaitOrHowTheMachineStood)
{
    for (const Row row : {Row::Cold, Row::Dead, Row::Geared, Row::Matched, Row::Settled})
        EXPECT_EQ(kindOf(row), SpanKind::Gate);
    for (const Row row : {Row::CoolingDown, Row::LettingDown, Row::Settling})
        EXPECT_EQ(kindOf(row), SpanKind::Wait);
    for (const Row row : {Row::LampLit, Row::LocksOn, Row::HousingOpen, Row::GuardOpen})
        EXPECT_EQ(kindOf(row), SpanKind::State);
}

} // namespace
} // namespace coldarc::review
