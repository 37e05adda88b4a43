#include "core/photometry/uniformity.h"

#include "tests/core/photometry/good_sheet.h"
#include "tests/support/testing.h"

#include <algorithm>

namespace coldarc::photometry {
namespace {

using namespace Qt::StringLiterals;
using test::reading;
using test::sheetOf;

ScreenSheet nine(Convention convention)
{
    return sheetOf(convention, {{Place::TopLeft, reading(36, 0.306, 0.343)},
                                {Place::Top, reading(42, 0.314, 0.351)},
                                {Place::TopRight, reading(37, 0.314, 0.351)},
                                {Place::Left, reading(40, 0.314, 0.351)},
                                {Place::Centre, reading(48, 0.314, 0.351)},
                                {Place::Right, reading(38, 0.314, 0.351)},
                                {Place::BottomLeft, reading(38, 0.314, 0.351)},
                                {Place::Bottom, reading(44, 0.314, 0.351)},
                                {Place::BottomRight, reading(39, 0.322, 0.359)}});
}

// ICDM IDMS 8.1 equation 1 (READ): 100 (1 - 36/48) = 25.0.
TEST(UniformityTest, FindsTheNonuniformityOfNinePoints)
{
    const auto number = evennessOf(nine(Convention::TenthGrid), Evenness::NonuniformityPercent);
    ASSERT_TRUE(number);
    EXPECT_NEAR(number->value, 25.0, 0.05);
    EXPECT_EQ(number->points, 9);
    EXPECT_EQ(number->convention, Convention::TenthGrid);
}

// ICDM IDMS 8.1.3, sample data (READ): contrasts of 600 and 800 give 25 %.
TEST(UniformityTest, AgreesWithTheSampleOfContrasts)
{
    EXPECT_DOUBLE_EQ(nonuniformityPercent(600, 800), 25);
}

TEST(UniformityTest, FindsItOverCentreAndCornersToo)
{
    const ScreenSheet cross = sheetOf(Convention::TenthGrid, {{Place::TopLeft, reading(36)},
                                                              {Place::TopRight, reading(45)},
                                                              {Place::Centre, reading(48)},
                                                              {Place::BottomLeft, reading(44)},
                                                              {Place::BottomRight, reading(44)}});
    EXPECT_EQ(evennessOf(cross, Evenness::NonuniformityPercent),
              (EvennessNumber{Evenness::NonuniformityPercent, Convention::TenthGrid, 5, 25}));
}

TEST(UniformityTest, GivesItForNoOtherPoints)
{
    EXPECT_FALSE(evennessOf(nine(Convention::FiveOfWidth), Evenness::NonuniformityPercent));
    EXPECT_FALSE(evennessOf(nine(Convention::FiveOfWidth), Evenness::LargestColourDistance));
    ScreenSheet eight = nine(Convention::TenthGrid);
    eight.clear(Place::Top);
    EXPECT_FALSE(evennessOf(eight, Evenness::NonuniformityPercent));
    const ScreenSheet sides = sheetOf(Convention::TenthGrid, {{Place::Top, reading(36)},
                                                              {Place::Left, reading(45)},
                                                              {Place::Centre, reading(48)},
                                                              {Place::Right, reading(44)},
                                                              {Place::Bottom, reading(44)}});
    EXPECT_FALSE(evennessOf(sides, Evenness::NonuniformityPercent)); // five, but not those five
}

// 36/48 = 0.75 among the corners, 38/48 among the sides, by hand.
TEST(UniformityTest, FindsTheLeastCornerAndTheLeastSide)
{
    const ScreenSheet sheet = nine(Convention::FiveOfWidth);
    EXPECT_EQ(evennessOf(sheet, Evenness::LeastCornerOfCentre),
              (EvennessNumber{Evenness::LeastCornerOfCentre, Convention::FiveOfWidth, 5, 0.75}));
    EXPECT_EQ(evennessOf(sheet, Evenness::LeastSideOfCentre),
              (EvennessNumber{Evenness::LeastSideOfCentre, Convention::FiveOfWidth, 5, 38.0 / 48}));
}

// ISO 2910:1990 (READ-2): (40 - 38)/48 = 0.041667.
TEST(UniformityTest, FindsTheDifferenceOfTheSides)
{
    const auto number = evennessOf(nine(Convention::FiveOfWidth), Evenness::SideDifference);
    ASSERT_TRUE(number);
    EXPECT_NEAR(number->value, 0.0416667, 1e-6);
    EXPECT_EQ(number->points, 3);
}

TEST(UniformityTest, FindsTheLeastOfTheGreatestWhereverTheGreatestIs)
{
    const ScreenSheet sheet =
        sheetOf(Convention::TwoSides,
                {{Place::Left, reading(50)}, {Place::Centre, reading(48)}, {Place::Right, reading(40)}});
    EXPECT_NEAR(evennessOf(sheet, Evenness::LeastOfGreatest)->value, 0.8, 1e-12);
}

// ICDM IDMS 8.1 equation 2 (READ), two opposite corners of the +-0.008 box: 0.0171 (DCI CTP Table 7.5.15(b)).
TEST(UniformityTest, FindsTheLargestColourDistance)
{
    ScreenSheet sheet = nine(Convention::TenthGrid);
    const auto number = evennessOf(sheet, Evenness::LargestColourDistance);
    ASSERT_TRUE(number);
    EXPECT_EQ(number->points, 9);
    EXPECT_NEAR(number->value,
                distanceUv(*Chromaticity::fromXy(0.306, 0.343), *Chromaticity::fromXy(0.322, 0.359)), 1e-12);
    static_cast<void>(sheet.put(*Point::at(Convention::TenthGrid, Place::Top), reading(42)));
    EXPECT_FALSE(evennessOf(sheet, Evenness::LargestColourDistance)); // one point without a colour
}

TEST(UniformityTest, ListsWhatASheetGivesAndNothingOfAnEmptyOne)
{
    EXPECT_EQ(evennessOf(nine(Convention::TenthGrid)).size(), 6u);
    EXPECT_EQ(evennessOf(nine(Convention::FiveOfWidth)).size(), 4u);
    EXPECT_TRUE(evennessOf(sheetOf(Convention::TenthGrid, {})).empty());
    EXPECT_TRUE(
        evennessOf(sheetOf(Convention::TenthGrid, {{Place::Centre, reading(0)}, {Place::Left, reading(0)}}))
            .empty());
}

// A meter that shows everything brighter by one factor changes no number of this kind.
TEST(UniformityTest, DoesNotHangOnTheLevelOfLight)
{
    const ScreenSheet sheet = nine(Convention::TenthGrid);
    ScreenSheet brighter(Convention::TenthGrid);
    for (const Place place : kPlaces) {
        Reading one = *sheet.at(place);
        one.luminance = Luminance::fromCdPerM2(one.luminance.cdPerM2() * 1.7);
        static_cast<void>(brighter.put(*Point::at(Convention::TenthGrid, place), one));
    }
    const auto before = evennessOf(sheet);
    const auto after = evennessOf(brighter);
    ASSERT_EQ(before.size(), after.size());
    for (std::size_t i = 0; i < before.size(); ++i)
        EXPECT_NEAR(before[i].value, after[i].value, 1e-9);
}

TEST(UniformityTest, NamesItsDefinitions)
{
    EXPECT_EQ(wordOf(Evenness::NonuniformityPercent), u"nonuniformity-percent"_s);
    EXPECT_EQ(wordOf(Evenness::LeastSideOfCentre), u"least-side-of-centre"_s);
}

} // namespace
} // namespace coldarc::photometry
