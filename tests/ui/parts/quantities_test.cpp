#include "ui/parts/quantities.h"

#include "tests/support/testing.h"

namespace coldarc::ui {
namespace {

using namespace std::chrono_literals;

TEST(QuantitiesTest, ARunningWaitCountsMinutesAndSeconds)
{
    EXPECT_EQ(clockText(401s), u"6:41");
    EXPECT_EQ(clockText(9s), u"0:09");
    EXPECT_EQ(clockText(3599s), u"59:59");
    EXPECT_EQ(clockText(3600s + 6min + 41s), u"1:06:41");
}

TEST(QuantitiesTest, AWaitThatIsOverReadsNought)
{
    EXPECT_EQ(clockText(0s), u"0:00");
    EXPECT_EQ(clockText(-5s), u"0:00");
}

TEST(QuantitiesTest, ASpanToPlanWithNamesHoursAndMinutes)
{
    EXPECT_EQ(spanText(45min), u"45 min");
    EXPECT_EQ(spanText(153min), u"2 h 33");
    EXPECT_EQ(spanText(125min), u"2 h 05");
    EXPECT_EQ(spanText(180min), u"3 h");
    EXPECT_EQ(spanText(-1min), u"0 min");
}

TEST(QuantitiesTest, AMomentIsShownInTheZoneOfTheSite)
{
    // 2026-11-25 12:02:19 UTC: 20 782 days after 1970-01-01, and 43 339 s.
    const WallTime moment(std::chrono::seconds(20'782LL * 86'400 + 43'339));

    EXPECT_EQ(wallText(moment, QTimeZone(3600)), u"13:02");
    EXPECT_EQ(wallTextWithOffset(moment, QTimeZone(3600)), u"2026-11-25 13:02:19 +01:00");
    EXPECT_EQ(wallTextWithOffset(moment, QTimeZone::utc()), u"2026-11-25 12:02:19 +00:00");
    EXPECT_EQ(wallTextWithOffset(moment, QTimeZone(-(3 * 3600 + 1800))), u"2026-11-25 08:32:19 -03:30");
}

TEST(QuantitiesTest, HoursBurntAreWholeAndGrouped)
{
    EXPECT_EQ(hoursText(1234.4, QLocale(QLocale::English)), u"1234 h");
    EXPECT_EQ(hoursText(999.5, QLocale(QLocale::English)), u"1000 h");
}

TEST(QuantitiesTest, AFigureThatIsNotTakenIsToldHowToWrite)
{
    EXPECT_EQ(howToWriteHours(u"1980"_s), QString());
    EXPECT_EQ(howToWriteHours(u"1,980"_s), u"write 1980, with nothing between the thousands"_s);
    EXPECT_EQ(howToWriteHours(u"1980,5"_s), u"write 1980.5, with a point and nothing else"_s);
    EXPECT_EQ(howToWriteHours(u"12O4"_s), u"write it in plain figures, like 1980 or 1980.5"_s);
    EXPECT_TRUE(howToWriteHours(u"-4"_s).contains(u"below 0"_s));
    EXPECT_TRUE(howToWriteHours(u"5000000"_s).contains(u"six figures"_s));
}

} // namespace
} // namespace coldarc::ui
