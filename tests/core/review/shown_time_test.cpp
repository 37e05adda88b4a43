#include "core/review/shown_time.h"

#include "tests/support/testing.h"

namespace coldarc::review {
namespace {

using namespace std::chrono_literals;

constexpr WallTime kBegin{20'780 * 24h + 22h};

QList<visit::Entry> entriesAt(const QList<std::chrono::minutes>& minutes)
{
    QList<visit::Entry> entries;
    for (const std::chrono::minutes one : minutes) {
        visit::Entry entry;
        entry.at.wall = kBegin + one;
        entries.append(entry);
    }
    return entries;
}

TEST(ShownTimeTest, WorkWithoutALongPauseIsShownAsItWas)
{
    const ShownTime time(entriesAt({0min, 30min, 150min}));

    EXPECT_DOUBLE_EQ(time.minutes(), 150);
    EXPECT_DOUBLE_EQ(time.at(kBegin + 45min), 45);
    EXPECT_EQ(time.momentAt(45), kBegin + 45min);
    EXPECT_EQ(time.stretches().size(), 1U);
}

// 90 min of work, more of it 30 days later: 43,200 min of pause are shown as 6.
TEST(ShownTimeTest, APauseOfAMonthDoesNotSqueezeTheWork)
{
    const ShownTime time(entriesAt({0min, 90min, 90min + 43'200min, 95min + 43'200min}));

    EXPECT_DOUBLE_EQ(time.minutes(), 101);
    EXPECT_DOUBLE_EQ(time.at(kBegin + 60min), 60);
    EXPECT_DOUBLE_EQ(time.at(kBegin + 90min + 21'600min), 93) << "half of the pause";
    EXPECT_DOUBLE_EQ(time.at(kBegin + 90min + 43'200min), 96);
    EXPECT_EQ(time.momentAt(93), kBegin + 90min + 21'600min);
    EXPECT_EQ(time.momentAt(98), kBegin + 92min + 43'200min);
    ASSERT_EQ(time.stretches().size(), 3U);
    EXPECT_TRUE(time.stretches()[1].isCut);
}

TEST(ShownTimeTest, APauseOfJustThreeHoursIsShownWhole)
{
    EXPECT_DOUBLE_EQ(ShownTime(entriesAt({0min, 180min})).minutes(), 180);
    EXPECT_DOUBLE_EQ(ShownTime(entriesAt({0min, 181min})).minutes(), ShownTime::kShownPause);
}

TEST(ShownTimeTest, WhereTheClockWasSetBackTimeStandsStill)
{
    const ShownTime time(entriesAt({0min, 60min, 20min, 70min}));

    EXPECT_DOUBLE_EQ(time.minutes(), 70);
    EXPECT_DOUBLE_EQ(time.at(kBegin + 20min), 20);
}

TEST(ShownTimeTest, WhatLiesOutsideIsAtTheEnds)
{
    const ShownTime time(entriesAt({0min, 60min}));

    EXPECT_DOUBLE_EQ(time.at(kBegin - 5h), 0);
    EXPECT_DOUBLE_EQ(time.at(kBegin + 5h), 60);
    EXPECT_EQ(time.momentAt(-3), kBegin);
    EXPECT_EQ(time.momentAt(500), kBegin + 60min);
    EXPECT_DOUBLE_EQ(ShownTime(entriesAt({0min})).minutes(), 1) << "there is always something to draw";
}

} // namespace
} // namespace coldarc::review
