#include "core/base/typed_hours.h"

#include "tests/support/testing.h"

using namespace Qt::StringLiterals;

namespace coldarc {
namespace {

std::optional<HoursFault> faultOf(const QString& text)
{
    const auto hours = hoursFrom(text);
    return hours ? std::nullopt : std::optional(hours.error());
}

TEST(TypedHoursTest, TakesPlainFiguresAndOneOrTwoDecimals)
{
    EXPECT_EQ(hoursFrom(u"1980"_s), 1980.0);
    EXPECT_EQ(hoursFrom(u"0"_s), 0.0);
    EXPECT_EQ(hoursFrom(u"1980.5"_s), 1980.5);
    EXPECT_EQ(hoursFrom(u"1980.25"_s), 1980.25);
    EXPECT_EQ(hoursFrom(u" 1980 "_s), 1980.0);
    EXPECT_EQ(hoursFrom(u"999999"_s), kMostHours);
}

TEST(TypedHoursTest, RefusesThousandsThatAreSetApartAndWhatMayBeEither)
{
    for (const QString& text : {u"1,980"_s, u"1.980"_s, u"1 980"_s, u"1'980"_s, u"1\u00a0980"_s, u"1,250"_s,
                                u"12,345.5"_s, u"1980,5"_s, u"1980.125"_s})
        EXPECT_EQ(faultOf(text), HoursFault::Grouped) << text.toStdString();
}

TEST(TypedHoursTest, RefusesWhatIsNoFigureAndWhatNoCounterShows)
{
    for (const QString& text : {u""_s, u"  "_s, u"12O4"_s, u"1e3"_s, u"inf"_s, u"nan"_s, u"47 h"_s, u"."_s,
                                u".5"_s, u"1980."_s, u"+5"_s})
        EXPECT_EQ(faultOf(text), HoursFault::NotANumber) << text.toStdString();
    EXPECT_EQ(faultOf(u"-5"_s), HoursFault::Negative);
    EXPECT_EQ(faultOf(u"\u22125"_s), HoursFault::Negative);
    EXPECT_EQ(faultOf(u"1000000"_s), HoursFault::TooMany);
}

TEST(TypedHoursTest, TellsHowARefusedFigureIsWritten)
{
    EXPECT_EQ(plainHours(u"1,980"_s), u"1980"_s);
    EXPECT_EQ(plainHours(u"1.980"_s), u"1980"_s);
    EXPECT_EQ(plainHours(u" 1 980 "_s), u"1980"_s);
    EXPECT_EQ(plainHours(u"1980,5"_s), u"1980.5"_s);
    EXPECT_EQ(plainHours(u"12.345,25"_s), u"12345.25"_s);
    EXPECT_EQ(plainHours(u"1,2,3"_s), QString()) << "these are no thousands";
    EXPECT_EQ(plainHours(u"0.123"_s), QString()) << "nor are these";
    EXPECT_EQ(plainHours(u"12O4"_s), QString());
    EXPECT_EQ(plainHours(u"1,000,000"_s), QString()) << "more than is taken";
}

TEST(TypedHoursTest, ReadsAnOlderEntryAsItWasReadThen)
{
    EXPECT_EQ(keptHours(u"1980"_s), 1980.0);
    EXPECT_EQ(keptHours(u"1.980"_s), 1.98);
    EXPECT_EQ(keptHours(u"1e3"_s), 1000.0);
    EXPECT_EQ(keptHours(u"1,980"_s), std::nullopt);
    EXPECT_EQ(keptHours(u"-5"_s), std::nullopt);
    EXPECT_EQ(keptHours(u"inf"_s), std::nullopt);
    EXPECT_EQ(keptHours(u""_s), std::nullopt);
}

TEST(TypedHoursTest, LosesNothingThatWasTaken)
{
    for (const QString& text :
         {u"1980"_s, u" 1980 "_s, u"1980.25"_s, u"\t7\n"_s, u"\u00a07\u2009"_s, u"0"_s}) {
        ASSERT_TRUE(hoursFrom(text)) << text.toStdString();
        EXPECT_EQ(keptHours(text), *hoursFrom(text)) << text.toStdString();
    }
}

TEST(TypedHoursTest, HoldsTwoFiguresForOneWhereACounterShowsThemAlike)
{
    EXPECT_TRUE(isSameOnACounter(312, 312.6));
    EXPECT_TRUE(isSameOnACounter(312.6, 312));
    EXPECT_FALSE(isSameOnACounter(1850, 1851));
    EXPECT_FALSE(isSameOnACounter(1851, 1850));
}

} // namespace
} // namespace coldarc
