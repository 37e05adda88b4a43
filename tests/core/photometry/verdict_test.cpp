#include "core/photometry/verdict.h"

#include "core/photometry/tolerance_file.h"
#include "tests/core/photometry/good_sheet.h"
#include "tests/support/testing.h"

#include <algorithm>

namespace coldarc::photometry {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::goodConditions;
using test::reading;
using test::Readings;
using test::sheetOf;
using Obstacles = std::vector<Obstacle>;
using Marks = std::vector<Mark>;

const ToleranceSet& setNamed(const QString& id)
{
    static const auto loading = loadToleranceSets(coldarc::test::sourceFile("resources/photometry"));
    const auto found = std::ranges::find(loading.sets, ToleranceSetId(id), &ToleranceSet::id);
    EXPECT_NE(found, loading.sets.end()) << id.toStdString();
    return *found;
}

const ToleranceSet& theatre()
{
    return setNamed(u"digital-theatre"_s);
}
const ToleranceSet& reviewRoom()
{
    return setNamed(u"digital-review-room"_s);
}

Verdict verdictOn(const SheetVerdict& sheet, Quantity quantity, std::optional<Place> place)
{
    for (const Verdict& verdict : sheet.verdicts) {
        if (verdict.quantity == quantity && verdict.place == place)
            return verdict;
    }
    ADD_FAILURE() << "no verdict on " << wordOf(quantity).toStdString();
    return {};
}

Outcome outcomeOf(const ScreenSheet& sheet, const ToleranceSet& set, Quantity quantity,
                  std::optional<Place> place)
{
    return verdictOn(judge(sheet, set), quantity, place).outcome;
}

/// A screen that keeps the theatre's limits, with the readings given put in.
ScreenSheet screenWith(Readings readings, const Conditions& conditions = goodConditions())
{
    ScreenSheet sheet = sheetOf(Convention::FiveOfWidth,
                                {{Place::Left, reading(40, 0.314, 0.351)},
                                 {Place::Centre, reading(48, 0.314, 0.351)},
                                 {Place::Right, reading(41, 0.314, 0.351)}},
                                conditions);
    for (const auto& [place, one] : readings)
        static_cast<void>(sheet.put(*Point::at(Convention::FiveOfWidth, place), one));
    return sheet;
}

Outcome centreOutcome(double cdPerM2, const ToleranceSet& set)
{
    return outcomeOf(screenWith({{Place::Centre, reading(cdPerM2)}}), set, Quantity::CentreLuminance,
                     Place::Centre);
}

// ISO 26431-1:2008 (READ-2): 48 +- 10.2 cd/m2, both ends in.
TEST(VerdictTest, KeepsTheTheatresLimitsOfLight)
{
    EXPECT_EQ(centreOutcome(37.79, theatre()), Outcome::Below);
    EXPECT_EQ(centreOutcome(37.8, theatre()), Outcome::Within);
    EXPECT_EQ(centreOutcome(58.2, theatre()), Outcome::Within);
    EXPECT_EQ(centreOutcome(58.21, theatre()), Outcome::Above);
}

// DCI CTP 7.5.8 (READ), ISO 26431-1:2008: 48 +- 3.5 cd/m2.
TEST(VerdictTest, KeepsTheReviewRoomsLimitsOfLight)
{
    EXPECT_EQ(centreOutcome(44.49, reviewRoom()), Outcome::Below);
    EXPECT_EQ(centreOutcome(44.5, reviewRoom()), Outcome::Within);
    EXPECT_EQ(centreOutcome(51.5, reviewRoom()), Outcome::Within);
    EXPECT_EQ(centreOutcome(51.51, reviewRoom()), Outcome::Above);
}

// 11.0 fL are 37.6889 cd/m2 (DERIVED): "14 +- 3" in foot-lamberts would let it pass.
TEST(VerdictTest, DecidesInCandelasAndRoundsNothing)
{
    const double elevenFl = Luminance::fromFootLamberts(11).cdPerM2();
    EXPECT_NEAR(elevenFl, 37.6889, 1e-4);
    EXPECT_EQ(centreOutcome(elevenFl, theatre()), Outcome::Below);
    EXPECT_EQ(centreOutcome(37.7999999, theatre()), Outcome::Below); // shows as 37.8
    EXPECT_EQ(centreOutcome(58.2000001, theatre()), Outcome::Above);
}

// ISO 26431-1:2008 (READ-2): a side that is too bright is out as well. 43.2 / 48 is 0.9 as a decimal.
TEST(VerdictTest, KeepsTheTheatresLimitsOfASideOnBothEnds)
{
    const auto side = [](double cdPerM2) {
        return outcomeOf(screenWith({{Place::Left, reading(cdPerM2)}}), theatre(), Quantity::SideShare,
                         Place::Left);
    };
    EXPECT_EQ(side(35.99), Outcome::Below);
    EXPECT_EQ(side(36), Outcome::Within);
    EXPECT_EQ(side(43.2), Outcome::Within);
    EXPECT_EQ(side(43.21), Outcome::Above);
}

TEST(VerdictTest, KeepsTheReviewRoomsLimitsOfSidesAndCorners)
{
    for (const auto& [place, quantity] : {std::pair(Place::Right, Quantity::SideShare),
                                          std::pair(Place::BottomLeft, Quantity::CornerShare)}) {
        const auto outcome = [&, where = place, what = quantity](double cdPerM2) {
            return outcomeOf(screenWith({{where, reading(cdPerM2)}}), reviewRoom(), what, where);
        };
        EXPECT_EQ(outcome(38.39), Outcome::Below); // 0.80 * 48 = 38.4
        EXPECT_EQ(outcome(38.4), Outcome::Within);
        EXPECT_EQ(outcome(43.2), Outcome::Within);
        EXPECT_EQ(outcome(43.21), Outcome::Above);
    }
}

TEST(VerdictTest, DoesNotTripOverDecimalsThatADoubleCannotHold)
{
    for (int tenths = 378; tenths <= 582; ++tenths) { // every centre of the theatre, to a tenth
        const double centre = tenths / 10.0;
        const ScreenSheet sheet = screenWith({{Place::Centre, reading(centre)},
                                              {Place::Left, reading(tenths * 9 / 100.0)},
                                              {Place::Right, reading(tenths * 75 / 1000.0)}});
        EXPECT_EQ(outcomeOf(sheet, theatre(), Quantity::SideShare, Place::Left), Outcome::Within) << centre;
        EXPECT_EQ(outcomeOf(sheet, theatre(), Quantity::SideShare, Place::Right), Outcome::Within) << centre;
    }
}

TEST(VerdictTest, HasNoneOnTheTheatresCorners)
{
    EXPECT_EQ(outcomeOf(screenWith({{Place::TopLeft, reading(5)}}), theatre(), Quantity::CornerShare,
                        Place::TopLeft),
              Outcome::NotSpecified);
}

TEST(VerdictTest, HasNoneOnTheTheatresColourUniformityUntilALimitIsSet)
{
    const ScreenSheet sheet = screenWith({{Place::TopLeft, reading(36, 0.324, 0.351)}});
    EXPECT_EQ(outcomeOf(sheet, theatre(), Quantity::CornerColourOffset, Place::TopLeft), Outcome::Unset);

    const auto own = withOwnLimit(theatre(), Quantity::CornerColourOffset, {}, 0.008);
    const SheetVerdict judged = judge(sheet, *own);
    const Verdict verdict = verdictOn(judged, Quantity::CornerColourOffset, Place::TopLeft);
    EXPECT_EQ(verdict.outcome, Outcome::Above);
    EXPECT_EQ(verdict.marks, Marks{Mark::OwnTarget});
}

struct WhiteCase {
    const char* name;
    double x;
    double y;
    Outcome reviewX;
    Outcome reviewY;
    Outcome theatreX;
    Outcome theatreY;

    friend void PrintTo(const WhiteCase& one, std::ostream* out) { *out << one.name; }
};

class WhiteBoxTest : public ::testing::TestWithParam<WhiteCase> {};

TEST_P(WhiteBoxTest, JudgesEachCoordinateByItself)
{
    const ScreenSheet sheet = screenWith({{Place::Centre, reading(48, GetParam().x, GetParam().y)}});

    EXPECT_EQ(outcomeOf(sheet, reviewRoom(), Quantity::WhiteX, Place::Centre), GetParam().reviewX);
    EXPECT_EQ(outcomeOf(sheet, reviewRoom(), Quantity::WhiteY, Place::Centre), GetParam().reviewY);
    EXPECT_EQ(outcomeOf(sheet, theatre(), Quantity::WhiteX, Place::Centre), GetParam().theatreX);
    EXPECT_EQ(outcomeOf(sheet, theatre(), Quantity::WhiteY, Place::Centre), GetParam().theatreY);
}

// ISO 26431-1:2008 (READ-2), DCI CTP Table 7.5.15(a) (READ): 0.314, 0.351, each +- 0.002 or +- 0.006.
constexpr auto kIn = Outcome::Within;
INSTANTIATE_TEST_SUITE_P(
    AroundTheEdges, WhiteBoxTest,
    ::testing::Values(
        WhiteCase{"CornerOfTheReviewBox", 0.316, 0.353, kIn, kIn, kIn, kIn},
        WhiteCase{"ATenthousandthOut", 0.3161, 0.351, Outcome::Above, kIn, kIn, kIn},
        WhiteCase{"OutAtTheFifthPlace", 0.31604, 0.351, Outcome::Above, kIn, kIn, kIn},
        WhiteCase{"CornerOfTheTheatreBox", 0.308, 0.345, Outcome::Below, Outcome::Below, kIn, kIn},
        WhiteCase{"OutOfTheTheatreBox", 0.3201, 0.351, Outcome::Above, kIn, Outcome::Above, kIn},
        WhiteCase{"TooBlue", 0.314, 0.3449, kIn, Outcome::Below, kIn, Outcome::Below}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(VerdictTest, TakesTheCornersColourAgainstTheCentreInABox)
{
    const auto outcome = [](double x, double y) {
        return outcomeOf(screenWith({{Place::TopRight, reading(40, x, y)}}), reviewRoom(),
                         Quantity::CornerColourOffset, Place::TopRight);
    };
    EXPECT_EQ(outcome(0.322, 0.343), Outcome::Within); // 0.0113 away, yet in the box
    EXPECT_EQ(outcome(0.3221, 0.351), Outcome::Above);
    EXPECT_EQ(outcome(0.314, 0.3429), Outcome::Above);
}

// DCI CTP Table 7.5.15(b) (READ): N at most 20 %, u'v' at most 0.0171.
TEST(VerdictTest, KeepsTheLaboratorysLimitsOfEvenness)
{
    const auto lab = [](double least) {
        return judge(sheetOf(Convention::TenthGrid, {{Place::TopLeft, reading(least, 0.306, 0.359)},
                                                     {Place::TopRight, reading(40, 0.314, 0.351)},
                                                     {Place::Centre, reading(48, 0.314, 0.351)},
                                                     {Place::BottomLeft, reading(40, 0.314, 0.351)},
                                                     {Place::BottomRight, reading(40, 0.323, 0.343)}}),
                     setNamed(u"digital-laboratory"_s));
    };
    EXPECT_EQ(verdictOn(lab(38.4), Quantity::Nonuniformity, {}).outcome, Outcome::Within); // 100 (1 - 0.8)
    EXPECT_EQ(verdictOn(lab(38.3), Quantity::Nonuniformity, {}).outcome, Outcome::Above);
    const Verdict colour = verdictOn(lab(40), Quantity::LargestColourDistance, {});
    EXPECT_EQ(colour.outcome, Outcome::Above); // a corner just outside the box that 0.0171 comes from
    EXPECT_EQ(colour.marks, Marks{Mark::LaboratoryLimit});
}

Conditions filmConditions()
{
    Conditions conditions = goodConditions();
    conditions.picture = Picture::Film;
    conditions.position = MeterPosition::MainSeating;
    return conditions;
}

// GB/T 4645-1994 and 2006 (READ-2).
TEST(VerdictTest, KeepsTheLimitsOfFilm)
{
    const ScreenSheet sheet = sheetOf(Convention::TwoSides,
                                      {{Place::Left, reading(40, 0.33, 0.34)},
                                       {Place::Centre, reading(50, 0.33, 0.34)},
                                       {Place::Right, reading(34.9, 0.33, 0.34)}},
                                      filmConditions());
    const auto& old = setNamed(u"film-1990-theatre"_s);
    EXPECT_EQ(outcomeOf(sheet, old, Quantity::CentreLuminance, Place::Centre), Outcome::Within);
    EXPECT_EQ(outcomeOf(sheet, old, Quantity::SideShare, Place::Right), Outcome::Within);
    EXPECT_EQ(outcomeOf(sheet, old, Quantity::SideDifference, {}), Outcome::Above); // 10.2 %
    const Verdict warm =
        verdictOn(judge(sheet, setNamed(u"film-2006-theatre"_s)), Quantity::ColourTemperature, Place::Centre);
    EXPECT_EQ(warm.outcome, Outcome::Within); // McCamy by hand: n = 0.012970, 5609.4 K
    EXPECT_EQ(warm.marks, (Marks{Mark::SecondHandFigure, Mark::FormulaFromMemory}));
}

TEST(VerdictTest, HoldsA3dTargetOfAPersonsOwn)
{
    Conditions conditions = goodConditions();
    conditions.picture = Picture::Stereo;
    const ScreenSheet sheet = screenWith({{Place::Centre, reading(16)}}, conditions);
    const ToleranceSet& set = setNamed(u"stereo-own-target"_s);
    EXPECT_EQ(outcomeOf(sheet, set, Quantity::CentreLuminance, Place::Centre), Outcome::Unset);

    // 4.5 fL are 15.418 cd/m2, 5 fL 17.131 (DERIVED).
    const double target = Luminance::fromFootLamberts(5).cdPerM2();
    EXPECT_EQ(outcomeOf(sheet, *withOwnLimit(set, Quantity::CentreLuminance, target, {}),
                        Quantity::CentreLuminance, Place::Centre),
              Outcome::Below);
}

// ---- Conditions
// ---------------------------------------------------------------------------------------------------

Verdict centreUnder(const Conditions& conditions)
{
    return verdictOn(judge(screenWith({}, conditions), theatre()), Quantity::CentreLuminance, Place::Centre);
}

// DCI CTP 7.1.2 (READ).
TEST(VerdictTest, IsWithheldBeforeTwentyMinutes)
{
    Conditions conditions = goodConditions();
    conditions.lit = 19min + 59s;
    EXPECT_EQ(centreUnder(conditions).outcome, Outcome::Withheld);
    EXPECT_EQ(centreUnder(conditions).obstacles, Obstacles{Obstacle::WarmUpTooShort});
    EXPECT_EQ(centreUnder(conditions).value, 48);
    conditions.lit = 20min;
    EXPECT_EQ(centreUnder(conditions).outcome, Outcome::Within);
    conditions.lit.reset();
    EXPECT_EQ(centreUnder(conditions).obstacles, Obstacles{Obstacle::WarmUpUnknown});
}

TEST(VerdictTest, IsWithheldFromAMeterOutOfCalibration)
{
    Conditions conditions = goodConditions();
    conditions.day = Day(2027y, std::chrono::March, 3d);
    EXPECT_EQ(centreUnder(conditions).outcome, Outcome::Withheld);
    EXPECT_EQ(centreUnder(conditions).obstacles, Obstacles{Obstacle::CalibrationOver});
    conditions.day = Day(2026y, std::chrono::March, 1d);
    EXPECT_EQ(centreUnder(conditions).obstacles, Obstacles{Obstacle::CalibratedLater});
    conditions.day.reset();
    EXPECT_EQ(centreUnder(conditions).obstacles, Obstacles{Obstacle::CalibrationUnknown});
}

TEST(VerdictTest, NamesEveryObstacleAtOnce)
{
    Conditions conditions;
    conditions.picture = Picture::Film;
    EXPECT_EQ(centreUnder(conditions).obstacles,
              (Obstacles{Obstacle::WarmUpUnknown, Obstacle::CalibrationUnknown, Obstacle::OtherPicture}));
}

TEST(VerdictTest, IsWithheldWhereTheSetIsForAnotherPicture)
{
    Conditions conditions = goodConditions();
    conditions.picture = Picture::Stereo;
    EXPECT_EQ(centreUnder(conditions).obstacles, Obstacles{Obstacle::OtherPicture});
    EXPECT_EQ(centreUnder(conditions).outcome, Outcome::Withheld);
}

TEST(VerdictTest, IsWithheldOnSharesTakenAtOtherPoints)
{
    const ScreenSheet sheet = sheetOf(Convention::TenthGrid, {{Place::Left, reading(40, 0.314, 0.351)},
                                                              {Place::Centre, reading(48, 0.314, 0.351)},
                                                              {Place::Right, reading(40, 0.314, 0.351)}});
    const SheetVerdict judged = judge(sheet, theatre());
    const Verdict side = verdictOn(judged, Quantity::SideShare, Place::Left);
    EXPECT_EQ(side.outcome, Outcome::Withheld);
    EXPECT_EQ(side.obstacles, Obstacles{Obstacle::OtherConvention});
    EXPECT_EQ(verdictOn(judged, Quantity::CentreLuminance, Place::Centre).outcome, Outcome::Within);
    EXPECT_EQ(verdictOn(judged, Quantity::WhiteX, Place::Centre).outcome, Outcome::Within);
}

TEST(VerdictTest, SaysThatTheCentreIsMissing)
{
    ScreenSheet sheet = screenWith({});
    sheet.clear(Place::Centre);
    const SheetVerdict judged = judge(sheet, theatre());

    EXPECT_EQ(verdictOn(judged, Quantity::CentreLuminance, Place::Centre).outcome, Outcome::NotMeasured);
    const Verdict side = verdictOn(judged, Quantity::SideShare, Place::Left);
    EXPECT_EQ(side.outcome, Outcome::NotMeasured);
    EXPECT_EQ(side.obstacles, Obstacles{Obstacle::CentreMissing});
    EXPECT_EQ(wholeOf(judged), Whole::Open);
}

TEST(VerdictTest, TakesADarkCentreForAMissingOne)
{
    const Verdict side = verdictOn(judge(screenWith({{Place::Centre, reading(0)}}), theatre()),
                                   Quantity::SideShare, Place::Left);
    EXPECT_EQ(side.outcome, Outcome::NotMeasured);
    EXPECT_EQ(side.obstacles, Obstacles{Obstacle::CentreMissing});
}

TEST(VerdictTest, SaysWhichNeededPointIsMissingAndAsksForNoOther)
{
    ScreenSheet sheet = screenWith({});
    sheet.clear(Place::Right);
    const SheetVerdict judged = judge(sheet, theatre());

    EXPECT_EQ(verdictOn(judged, Quantity::SideShare, Place::Right).outcome, Outcome::NotMeasured);
    EXPECT_FALSE(
        std::ranges::any_of(judged.verdicts, [](const Verdict& one) { return one.place == Place::Top; }));
}

// DCI HDR addendum, Annex A (READ): limits hold the room's light.
TEST(VerdictTest, TakesNoDarkReadingOffTheLight)
{
    Conditions conditions = goodConditions();
    conditions.darkReading = Luminance::fromCdPerM2(0.03);
    const ScreenSheet sheet = screenWith({{Place::Centre, reading(37.8)}}, conditions);
    EXPECT_EQ(outcomeOf(sheet, theatre(), Quantity::CentreLuminance, Place::Centre), Outcome::Within);
}

TEST(VerdictTest, JudgesTheDarkScreenWhateverTheLampDid)
{
    Conditions conditions = goodConditions();
    conditions.lit = 5min;
    conditions.darkReading = Luminance::fromCdPerM2(0.031);
    const Verdict dark = verdictOn(judge(screenWith({}, conditions), theatre()), Quantity::DarkLuminance, {});
    EXPECT_EQ(dark.outcome, Outcome::Above);
    EXPECT_EQ(dark.marks, Marks{Mark::FigureFromMemory});
}

// ---- Marks and claims
// ---------------------------------------------------------------------------------------------

Marks marksUnder(const Conditions& conditions)
{
    return judge(screenWith({}, conditions), theatre()).marks;
}

TEST(VerdictTest, HasNoMarksWhenEverythingWasWrittenDownAndRight)
{
    EXPECT_EQ(marksUnder(goodConditions()), Marks{});
}

TEST(VerdictTest, MarksWhatWasNotWrittenDown)
{
    Conditions conditions;
    EXPECT_EQ(marksUnder(conditions),
              (Marks{Mark::PositionUnknown, Mark::AcceptanceUnknown, Mark::FormatUnknown,
                     Mark::DarkReadingMissing, Mark::PowerUnknown}));
    conditions = goodConditions();
    conditions.lampWatts.reset();
    conditions.lampAmperes = 85;
    EXPECT_EQ(marksUnder(conditions), Marks{});
}

TEST(VerdictTest, MarksAMeterThatStoodElsewhereOrSeesTooMuch)
{
    Conditions conditions = goodConditions();
    conditions.position = MeterPosition::Laboratory;
    conditions.meter.acceptanceDegrees = 2.1;
    conditions.distanceM = 40;
    EXPECT_EQ(marksUnder(conditions),
              (Marks{Mark::OtherPosition, Mark::AcceptanceTooWide, Mark::SpotTooWide}));
    conditions.meter.acceptanceDegrees = 2; // ISO 26431-1:2008 (READ-2): at most 2 degrees
    conditions.distanceM = 14;
    EXPECT_EQ(marksUnder(conditions), Marks{Mark::OtherPosition});
}

TEST(VerdictTest, ClaimsConformityOnlyForAFigureThatWasRead)
{
    const SheetVerdict review = judge(screenWith({}), reviewRoom());
    const Verdict light = verdictOn(review, Quantity::CentreLuminance, Place::Centre);
    EXPECT_EQ(light.marks, Marks{});
    EXPECT_TRUE(isConformityClaim(review, light));
    const Verdict side = verdictOn(review, Quantity::SideShare, Place::Left);
    EXPECT_EQ(side.marks, Marks{Mark::SecondHandFigure});
    EXPECT_FALSE(isConformityClaim(review, side));
}

TEST(VerdictTest, ClaimsNothingInATheatre)
{
    const SheetVerdict judged = judge(screenWith({{Place::TopLeft, reading(36, 0.314, 0.351)}}), theatre());
    for (const Verdict& verdict : judged.verdicts)
        EXPECT_FALSE(isConformityClaim(judged, verdict)) << wordOf(verdict.quantity).toStdString();
}

TEST(VerdictTest, ClaimsNothingWithAMarkOnTheSheetOrNoVerdict)
{
    Conditions conditions = goodConditions();
    conditions.format.clear();
    const SheetVerdict marked = judge(screenWith({}, conditions), reviewRoom());
    EXPECT_FALSE(isConformityClaim(marked, verdictOn(marked, Quantity::CentreLuminance, Place::Centre)));

    conditions = goodConditions();
    conditions.lit = 1min;
    const SheetVerdict withheld = judge(screenWith({}, conditions), reviewRoom());
    EXPECT_FALSE(isConformityClaim(withheld, verdictOn(withheld, Quantity::CentreLuminance, Place::Centre)));
}

TEST(VerdictTest, KeepsTheEditionThatItWasFoundBy)
{
    const SheetVerdict judged = judge(screenWith({}), theatre());
    EXPECT_EQ(judged.set, ToleranceSetId(u"digital-theatre"_s));
    EXPECT_EQ(judged.edition, u"2008"_s);
    EXPECT_EQ(judged.source, theatre().source);
    EXPECT_EQ(judged.document, theatre().document);
    EXPECT_NE(judged.document, Hash());
}

TEST(VerdictTest, SumsUpTheSheet)
{
    EXPECT_EQ(wholeOf(judge(screenWith({}), theatre())), Whole::Within);
    EXPECT_EQ(wholeOf(judge(screenWith({{Place::Left, reading(30)}}), theatre())), Whole::Outside);
    ScreenSheet missing = screenWith({{Place::Left, reading(30)}});
    missing.clear(Place::Right);
    EXPECT_EQ(wholeOf(judge(missing, theatre())), Whole::Outside); // what is out stays out
    Conditions cold = goodConditions();
    cold.lit = 1min;
    EXPECT_EQ(wholeOf(judge(screenWith({}, cold), theatre())), Whole::Open);
    Conditions stereo = goodConditions();
    stereo.picture = Picture::Stereo;
    EXPECT_EQ(wholeOf(judge(screenWith({}, stereo), setNamed(u"stereo-own-target"_s))), Whole::Open);
}

} // namespace
} // namespace coldarc::photometry
