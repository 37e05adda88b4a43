#include "core/lamps/alert_threshold.h"

#include "tests/support/testing.h"

#include <array>
#include <cmath>
#include <limits>

namespace coldarc::lamps {
namespace {

using namespace Qt::StringLiterals;

// "Worked": COMPUTED apart from this program, by hand and with R 4.2.2 and Python 3.11; no publication
// gives them. The sources of the rule are named in alert_threshold.h.

Usage known(double hoursPerWeek, double spread)
{
    return declaredUsage(hoursPerWeek, spread, 0);
}

Usage ofTheWorkedReadings()
{
    const std::array<CounterPoint, 7> points{
        {{0, 112}, {9.0 / 7, 201}, {3, 318}, {6, 540}, {7, 601}, {11, 870}, {14, 1079}}};
    return *usageFromReadings(points, 99);
}

struct WorkedCase {
    const char* name;
    Usage usage;
    Exposure exposure;
    Promise promise;
    double used;
    double exact;
    double hours;

    friend void PrintTo(const WorkedCase& c, std::ostream* out) { *out << c.name; }
};

class WorkedThresholdTest : public ::testing::TestWithParam<WorkedCase> {};

TEST_P(WorkedThresholdTest, AgreesWithTheWorkedExamples)
{
    const auto answer = alertThreshold(GetParam().usage, GetParam().exposure, GetParam().promise);

    ASSERT_TRUE(std::holds_alternative<AlertThreshold>(answer));
    const auto& threshold = std::get<AlertThreshold>(answer);
    EXPECT_NEAR(threshold.usedUntilReplaced, GetParam().used, 1e-7);
    EXPECT_NEAR(threshold.exactHours, GetParam().exact, 1e-7);
    EXPECT_EQ(threshold.hours, GetParam().hours);
}

INSTANTIATE_TEST_SUITE_P(
    Worked, WorkedThresholdTest,
    ::testing::Values(
        WorkedCase{"NoSpread", known(60, 0), {0, 2, 0, 0}, {1500, 0.95}, 120, 1380, 1380},
        WorkedCase{
            "WeeklyLook", known(70, 12), {1, 2, 0, 0}, {1500, 0.95}, 244.1876406347, 1255.8123593653, 1250},
        WorkedCase{
            "HigherLevel", known(70, 12), {1, 2, 0, 0}, {1500, 0.99}, 258.3522325670, 1241.6477674330, 1240},
        WorkedCase{
            "RandomLead", known(70, 12), {1, 2, 0.5, 0}, {1500, 0.95}, 276.9558474178, 1223.0441525822, 1220},
        WorkedCase{
            "VisitsOnly", known(55, 15), {0, 0, 0, 4}, {2000, 0.95}, 269.3456088085, 1730.6543911915, 1730},
        WorkedCase{"FromReadings",
                   ofTheWorkedReadings(),
                   {1, 2, 0, 0},
                   {1500, 0.95},
                   228.52666142,
                   1271.47333858,
                   1270}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(AlertThresholdTest, TellsWhatTheRuleGivesAwayOnAverage)
{
    // Worked, before rounding; after rounding down by 5.8123593653 h that much more.
    EXPECT_NEAR(meanUnusedHours(1500, 1255.8123593653, known(70, 12), {1, 2, 0, 0}), 69.1876406347, 5e-10);
    const auto answer = alertThreshold(known(70, 12), {1, 2, 0, 0}, {1500, 0.95});
    EXPECT_EQ(std::get<AlertThreshold>(answer).meanUnusedHours, 75);
}

TEST(AlertThresholdTest, SaysWhenNoThresholdKeepsThePromise)
{
    const auto answer = alertThreshold(known(90, 20), {0, 6, 0, 0}, {500, 0.95});

    ASSERT_TRUE(std::holds_alternative<NoThreshold>(answer));
    const auto& none = std::get<NoThreshold>(answer);
    EXPECT_NEAR(none.usedUntilReplaced, 620.5810417519, 5e-10);
    EXPECT_NEAR(none.exactHours, -120.5810417519, 5e-10);
    EXPECT_EQ(none.exposureWeeks, 6);
    EXPECT_NEAR(none.longestExposureWeeks, 4.7582269944, 5e-10);
}

TEST(AlertThresholdTest, SaysSoToOfAThresholdThatANewLampPassesBeforeItsFirstLook)
{
    // 50 h a week, looked at every 8 weeks, replaced 2 later: 500 used, 890 - 500 = 390, but 400 at the first
    // look.
    EXPECT_TRUE(std::holds_alternative<NoThreshold>(alertThreshold(known(50, 0), {8, 2, 0, 0}, {890, 0.95})));
    EXPECT_TRUE(
        std::holds_alternative<AlertThreshold>(alertThreshold(known(50, 0), {8, 2, 0, 0}, {900, 0.95})));
    // Rounded down to nothing.
    EXPECT_TRUE(std::holds_alternative<NoThreshold>(alertThreshold(known(50, 0), {0, 2, 0, 0}, {109, 0.95})));
}

TEST(AlertThresholdTest, TheLongestExposureUsesTheHoursUpExactly)
{
    const Usage usages[] = {known(90, 20), ofTheWorkedReadings(), declaredUsage(65, 12, 15),
                            declaredUsage(30, 12, 29)};
    for (const Usage& usage : usages) {
        const double weeks = longestExposureWeeks(usage, 500, 0.95, 0);
        EXPECT_NEAR(usageBound(usage, weeks, 0.95), 500, 1e-9) << usage.hoursPerWeek;
    }
    const double withLead = longestExposureWeeks(known(70, 12), 276.9558474178, 0.95, 0.5);
    EXPECT_NEAR(withLead, 3, 1e-9) << "worked example 4 turned round";
    EXPECT_EQ(longestExposureWeeks(known(70, 12), 50, 0.95, 0.5), 0) << "1.645 * 70 * 0.5 is more than 50";
    EXPECT_EQ(longestExposureWeeks(known(160, 90), 168, 0.99, 0), 1) << "24 h a day is the most";
    const double heavy = longestExposureWeeks(known(160, 10), 168, 0.95, 0.5);
    EXPECT_NEAR(usageBound(known(160, 10), heavy, 0.95, 0.5), 168, 1e-9) << "a random time may last longer";
}

// Source: carpet shop exercise, mean 30 and deviation 5 a day, lead 10 days, z 1.65,
// flylib.com/books/en/3.287.1.225/1: 300 + 1.65 * 5 * sqrt(10) = 326.0887906964. The rule knows no unit of
// time.
TEST(AlertThresholdTest, AgreesWithAPublishedReorderPoint)
{
    const double level = 0.5 * std::erfc(-1.65 / std::sqrt(2.0));

    EXPECT_NEAR(usageBound(known(30, 5), 10, level), 326.0887906964, 5e-10);
}

// Source: periodic review, karlknapp.com/topics/periodicreviewsystem.html: the safety stock is for review and
// lead time together. A form that takes the spread over the lead time only is in print
// (homeworksource.com/p/1118484) and must not be followed. By hand, mu 60, sigma 10, look every 4 weeks, lead
// 1: 300 + 1.6448536270 * 10 * sqrt(5) = 336.78004524; the other form would give 300 + 16.44853627 and 1180.
TEST(AlertThresholdTest, CountsTheSpreadOverLookAndLeadTogether)
{
    const auto answer = alertThreshold(known(60, 10), {4, 1, 0, 0}, {1500, 0.95});

    const auto& threshold = std::get<AlertThreshold>(answer);
    EXPECT_NEAR(threshold.usedUntilReplaced, 336.78004524, 1e-7);
    EXPECT_EQ(threshold.hours, 1160);
}

TEST(AlertThresholdTest, OnAVisitTheLampComesOutWhenItWouldNotLastToTheNext)
{
    // Worked example 5 read from the visit: 2000 - 269.3456088085 = 1730.65.
    const Promise promise{2000, 0.95};

    EXPECT_FALSE(mustComeOutNow(known(55, 15), 1730, 4, promise));
    EXPECT_TRUE(mustComeOutNow(known(55, 15), 1731, 4, promise));
}

// ---- What somebody wants to set ----

TEST(ThresholdVerdictTest, BelowWarrantyNeedsNothing)
{
    const ThresholdVerdict verdict = thresholdVerdict(1499, 1500, u""_s, Countersign::Missing);

    EXPECT_TRUE(verdict.isTaken());
    EXPECT_FALSE(verdict.isException());
}

TEST(ThresholdVerdictTest, AtOrAboveWarrantyNeedsAReasonAndACountersign)
{
    for (const double hours : {1500.0, 1501.0}) {
        const ThresholdVerdict bare = thresholdVerdict(hours, 1500, u"  "_s, Countersign::Missing);
        EXPECT_EQ(bare, (ThresholdVerdict{false, true, true, true})) << "all that is missing is told";
        EXPECT_FALSE(bare.isTaken());
        EXPECT_FALSE(thresholdVerdict(hours, 1500, u"maker agreed"_s, Countersign::Missing).isTaken());
        EXPECT_FALSE(thresholdVerdict(hours, 1500, u""_s, Countersign::Given).isTaken());

        const ThresholdVerdict both = thresholdVerdict(hours, 1500, u"maker agreed"_s, Countersign::Given);
        EXPECT_TRUE(both.isTaken());
        EXPECT_TRUE(both.isException());
    }
}

TEST(ThresholdVerdictTest, UnknownWarrantyCountsAsPassed)
{
    const double none = std::numeric_limits<double>::quiet_NaN();

    EXPECT_FALSE(thresholdVerdict(100, 0, u""_s, Countersign::Missing).isTaken());
    EXPECT_FALSE(thresholdVerdict(100, none, u""_s, Countersign::Missing).isTaken());
}

TEST(ThresholdVerdictTest, WhatIsNoNumberIsNeverTaken)
{
    for (const double hours :
         {0.0, -10.0, std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
        const ThresholdVerdict verdict = thresholdVerdict(hours, 1500, u"a reason"_s, Countersign::Given);
        EXPECT_FALSE(verdict.isTaken()) << hours;
        EXPECT_FALSE(verdict.isException()) << hours;
    }
}

} // namespace
} // namespace coldarc::lamps
