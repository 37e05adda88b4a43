#include "core/photometry/conditions.h"

#include "tests/core/photometry/good_sheet.h"
#include "tests/support/testing.h"

#include <limits>

namespace coldarc::photometry {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono;
using test::goodConditions;

// DCI CTP v1.4.3, 7.1.2 (READ): 20 to 30 minutes.
TEST(ConditionsTest, WantTheLampLitForTwentyMinutes)
{
    Conditions conditions = goodConditions();
    conditions.lit = 19min + 59s;
    EXPECT_EQ(warmUpOf(conditions), WarmUp::TooShort);
    conditions.lit = 20min;
    EXPECT_EQ(warmUpOf(conditions), WarmUp::Enough);
    conditions.lit.reset();
    EXPECT_EQ(warmUpOf(conditions), WarmUp::Unknown);
}

Calibration calibrationWith(std::optional<Day> calibrated, std::optional<Day> due,
                            std::optional<Day> measured)
{
    Conditions conditions = goodConditions();
    conditions.meter.calibratedOn = calibrated;
    conditions.meter.dueOn = due;
    conditions.day = measured;
    return calibrationOf(conditions);
}

TEST(ConditionsTest, TrustAMeterToTheEndOfItsLastDay)
{
    const Day calibrated(2026y, May, 1d);
    const Day due(2026y, November, 25d);
    EXPECT_EQ(calibrationWith(calibrated, due, due), Calibration::Valid);
    EXPECT_EQ(calibrationWith(calibrated, due, Day(2026y, November, 26d)), Calibration::Over);
}

// A year: common practice, no source.
TEST(ConditionsTest, TrustAMeterForAYearWhereItsCertificateNamesNoDay)
{
    const Day calibrated(2025y, November, 25d);
    EXPECT_EQ(calibrationWith(calibrated, {}, Day(2026y, November, 25d)), Calibration::Valid);
    EXPECT_EQ(calibrationWith(calibrated, {}, Day(2026y, November, 26d)), Calibration::Over);
}

TEST(ConditionsTest, TrustAMeterOfALeapDayToTheFirstOfMarch)
{
    const Day calibrated(2028y, February, 29d);
    EXPECT_EQ(calibrationWith(calibrated, {}, Day(2029y, March, 1d)), Calibration::Valid);
    EXPECT_EQ(calibrationWith(calibrated, {}, Day(2029y, March, 2d)), Calibration::Over);
}

TEST(ConditionsTest, DoNotTrustAMeterThatWasCalibratedLater)
{
    EXPECT_EQ(calibrationWith(Day(2026y, November, 26d), {}, Day(2026y, November, 25d)), Calibration::Later);
    EXPECT_EQ(calibrationWith(Day(2026y, November, 25d), {}, Day(2026y, November, 25d)), Calibration::Valid);
}

TEST(ConditionsTest, AssumeNoDate)
{
    EXPECT_EQ(calibrationWith({}, Day(2027y, May, 1d), Day(2026y, May, 1d)), Calibration::Unknown);
    EXPECT_EQ(calibrationWith(Day(2026y, May, 1d), {}, {}), Calibration::Unknown);
}

// SMPTE RP 12 3.3 (READ-2): a tenth of the width. Two degrees see 0.1 W at 2.864 W (DERIVED): 34.37 m of 12
// m.
TEST(ConditionsTest, FindTheSpotTooWideFromFarBack)
{
    Conditions conditions = goodConditions();
    conditions.meter.acceptanceDegrees = 2;
    conditions.distanceM = 34.3;
    EXPECT_EQ(isSpotTooWide(conditions), false);
    conditions.distanceM = 34.4;
    EXPECT_EQ(isSpotTooWide(conditions), true);
    conditions.distanceM.reset();
    EXPECT_EQ(isSpotTooWide(conditions), std::nullopt);
}

using Fields = std::vector<ConditionField>;

TEST(ConditionsTest, HoldNothingImpossibleWhenTheyAreGoodOrEmpty)
{
    EXPECT_EQ(impossibleIn(goodConditions()), Fields{});
    EXPECT_EQ(impossibleIn(Conditions{}), Fields{});
}

struct ImpossibleCase {
    const char* name;
    void (*spoil)(Conditions&);
    ConditionField expected;

    friend void PrintTo(const ImpossibleCase& one, std::ostream* out) { *out << one.name; }
};

class ImpossibleTest : public ::testing::TestWithParam<ImpossibleCase> {};

TEST_P(ImpossibleTest, NamesTheField)
{
    Conditions conditions = goodConditions();
    GetParam().spoil(conditions);
    EXPECT_EQ(impossibleIn(conditions), Fields{GetParam().expected});
}

using C = Conditions;
using F = ConditionField;
constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
INSTANTIATE_TEST_SUITE_P(
    FieldByField, ImpossibleTest,
    ::testing::Values(
        ImpossibleCase{"LitLater", [](C& c) { c.lit = -1s; }, F::Lit},
        ImpossibleCase{"LitForYears", [](C& c) { c.lit = days(400) + 1s; }, F::Lit},
        ImpossibleCase{"NoSuchDay", [](C& c) { c.day = Day(2026y, February, 30d); }, F::MeasuredOn},
        ImpossibleCase{"SeesNothing", [](C& c) { c.meter.acceptanceDegrees = 0; }, F::Acceptance},
        ImpossibleCase{"SeesTheHouse", [](C& c) { c.meter.acceptanceDegrees = 90.1; }, F::Acceptance},
        ImpossibleCase{"CalibratedNever", [](C& c) { c.meter.calibratedOn = Day(2026y, June, 31d); },
                       F::CalibratedOn},
        ImpossibleCase{"DueNever", [](C& c) { c.meter.dueOn = Day(2027y, February, 29d); }, F::DueOn},
        ImpossibleCase{"DueBefore", [](C& c) { c.meter.dueOn = Day(2026y, March, 1d); }, F::DueOn},
        ImpossibleCase{"InTheScreen", [](C& c) { c.distanceM = 0; }, F::Distance},
        ImpossibleCase{"NextStreet", [](C& c) { c.distanceM = 201; }, F::Distance},
        ImpossibleCase{"NoWatts", [](C& c) { c.lampWatts = -2000; }, F::LampWatts},
        ImpossibleCase{"NoNumberOfWatts", [](C& c) { c.lampWatts = kNan; }, F::LampWatts},
        ImpossibleCase{"WattsOfATown", [](C& c) { c.lampWatts = 30'001; }, F::LampWatts},
        ImpossibleCase{"NoAmperes", [](C& c) { c.lampAmperes = 0; }, F::LampAmperes},
        ImpossibleCase{"AmperesOfATram", [](C& c) { c.lampAmperes = 1'001; }, F::LampAmperes}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(ConditionsTest, AreKnownByWord)
{
    for (const auto position :
         {MeterPosition::MiddleRow, MeterPosition::ReferenceView, MeterPosition::MainSeating,
          MeterPosition::Laboratory, MeterPosition::Elsewhere})
        EXPECT_EQ(meterPositionFromWord(wordOf(position)), position);
    for (const auto picture : {Picture::Digital, Picture::Film, Picture::Stereo})
        EXPECT_EQ(pictureFromWord(wordOf(picture)), picture);
    EXPECT_FALSE(pictureFromWord(u"slides"_s));
}

} // namespace
} // namespace coldarc::photometry
