#include "core/photometry/point.h"

#include "tests/support/testing.h"

#include <algorithm>

namespace coldarc::photometry {
namespace {

using namespace Qt::StringLiterals;

Position placed(Convention convention, Place place, double aspect)
{
    return Point::at(convention, place)->position(aspect);
}

// ICDM IDMS 8.1 (READ): on a screen of 100 by 80 cm the points stand 10 and 8 cm from the edges.
TEST(PointTest, StandsATenthFromEachEdgeOnTheTenthGrid)
{
    const Position topLeft = placed(Convention::TenthGrid, Place::TopLeft, 100.0 / 80);
    EXPECT_NEAR(topLeft.across * 100, 10, 1e-9);
    EXPECT_NEAR(topLeft.down * 80, 8, 1e-9);
    const Position bottomRight = placed(Convention::TenthGrid, Place::BottomRight, 100.0 / 80);
    EXPECT_NEAR(bottomRight.across * 100, 90, 1e-9);
    EXPECT_NEAR(bottomRight.down * 80, 72, 1e-9);
}

// SMPTE ST 196M (READ-2): 5 % of the width on both; 11.95 % of the height at 2.39 to 1 (DERIVED).
TEST(PointTest, StandsFivePercentOfTheWidthFromEveryEdge)
{
    const Position corner = placed(Convention::FiveOfWidth, Place::TopLeft, 2.39);
    EXPECT_NEAR(corner.across, 0.05, 1e-12);
    EXPECT_NEAR(corner.down, 0.1195, 1e-12);
    EXPECT_EQ(placed(Convention::FiveOfWidth, Place::Top, 2.39).across, 0.5);
}

// ISO 2910:1990 (READ-2): 10 % of the width in, on the horizontal centre line.
TEST(PointTest, StandsOnTheCentreLineForFilm)
{
    EXPECT_EQ(placed(Convention::TwoSides, Place::Left, 1.85), (Position{0.1, 0.5}));
    EXPECT_EQ(placed(Convention::TwoSides, Place::Right, 1.85), (Position{0.9, 0.5}));
}

TEST(PointTest, StandsInTheMiddleInEveryConvention)
{
    for (const Convention convention : kConventions)
        EXPECT_EQ(placed(convention, Place::Centre, 1.85), (Position{0.5, 0.5}));
}

// The rule as an identity: a tenth of the way from a corner to the centre is 5 % of each side (DERIVED). It
// is not where SMPTE ST 196M's corner stands.
TEST(PointTest, IsNotTheCornerATenthOfTheWayToTheCentre)
{
    const double tenthOfTheWay = 0.0 + 0.1 * (0.5 - 0.0);
    EXPECT_DOUBLE_EQ(tenthOfTheWay, 0.05);
    EXPECT_NE(placed(Convention::FiveOfWidth, Place::TopLeft, 2.39).down, tenthOfTheWay);
}

TEST(PointTest, CannotBeMadeWhereItsConventionHasNone)
{
    for (const Place place : kPlaces) {
        const bool isOnTheLine = place == Place::Left || place == Place::Centre || place == Place::Right;
        EXPECT_EQ(Point::at(Convention::TwoSides, place).has_value(), isOnTheLine);
        EXPECT_TRUE(Point::at(Convention::FiveOfWidth, place));
        EXPECT_TRUE(Point::at(Convention::TenthGrid, place));
    }
}

TEST(PointTest, IsNeverThePointOfAnotherConvention)
{
    EXPECT_NE(*Point::at(Convention::FiveOfWidth, Place::Left),
              *Point::at(Convention::TenthGrid, Place::Left));
}

TEST(PointTest, TellsCornersAndSidesApart)
{
    EXPECT_EQ(std::ranges::count_if(kPlaces, isCorner), 4);
    EXPECT_EQ(std::ranges::count_if(kPlaces, isSide), 4);
    EXPECT_TRUE(isCorner(Place::BottomLeft));
    EXPECT_TRUE(isSide(Place::Top));
    EXPECT_TRUE(isSide(Place::Right));
    EXPECT_FALSE(isSide(Place::Centre) || isCorner(Place::Centre));
}

TEST(PointTest, IsKnownByWord)
{
    for (const Place place : kPlaces)
        EXPECT_EQ(placeFromWord(wordOf(place)), place);
    for (const Convention convention : kConventions)
        EXPECT_EQ(conventionFromWord(wordOf(convention)), convention);
    EXPECT_EQ(wordOf(Place::BottomRight), u"bottom-right"_s);
    EXPECT_FALSE(placeFromWord(u"middle"_s));
}

} // namespace
} // namespace coldarc::photometry
