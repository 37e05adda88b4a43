#include "core/site/site.h"

#include "tests/core/site/small_site.h"
#include "tests/support/testing.h"

namespace coldarc::site {
namespace {

using namespace Qt::StringLiterals;

WallTime at(qint64 hours)
{
    return WallTime(std::chrono::hours(hours));
}

TEST(NextShowTest, IsTheEarliestThatIsNotOver)
{
    const SiteDocument document = test::smallSite();
    const Screen& first = document.screens.front(); // 20, 26 and 30 h, in no order

    EXPECT_EQ(nextShow(first, at(0)), (NextShow{first.id, at(20)}));
    EXPECT_EQ(nextShow(first, at(20)), (NextShow{first.id, at(20)}));
    EXPECT_EQ(nextShow(first, at(21)), (NextShow{first.id, at(26)}));
    EXPECT_EQ(nextShow(first, at(31)), std::nullopt);
}

TEST(NextShowTest, OfTheSiteIsTheEarliestOfAllScreens)
{
    const SiteDocument document = test::smallSite();

    EXPECT_EQ(nextShow(document, at(21)), (NextShow{ScreenId(u"sc-2"_s), at(23)}));
    EXPECT_EQ(nextShow(document, at(24)), (NextShow{ScreenId(u"sc-1"_s), at(26)}));
    EXPECT_EQ(nextShow(document, at(20)),
              (NextShow{ScreenId(u"sc-1"_s), at(20)})); // both start: the first stands
    EXPECT_EQ(nextShow(document, at(31)), std::nullopt);
}

TEST(SiteDocumentTest, FindsItsPartsByName)
{
    const SiteDocument document = test::smallSite();

    EXPECT_EQ(document.screen(ScreenId(u"sc-2"_s)), &document.screens[1]);
    EXPECT_EQ(document.projector(ProjectorId(u"pr-2"_s)), &document.projectors[1]);
    EXPECT_EQ(document.lamphouse(LamphouseId(u"lh-right"_s)), &document.lamphouses[1]);
    EXPECT_EQ(document.point(PointId(u"pt-b14"_s)), &document.points[2]);
    EXPECT_EQ(document.point(PointId(u"pt-x"_s)), nullptr);
}

TEST(SiteDocumentTest, NamesEverythingThatCanEnergiseALamphouse)
{
    const SiteDocument document = test::smallSite();

    EXPECT_EQ(document.pointsFeeding(LamphouseId(u"lh-right"_s)),
              (std::vector<PointId>{PointId(u"pt-a11"_s), PointId(u"pt-a12"_s)}));
    EXPECT_EQ(document.pointsFeeding(LamphouseId(u"lh-left"_s)), std::vector<PointId>{PointId(u"pt-a11"_s)});
}

TEST(SiteDocumentTest, SaysWhereALamphouseIsWithNoMoreNamesThanItTakes)
{
    SiteDocument document = test::smallSite();

    EXPECT_EQ(placeOf(document, LamphouseId(u"lh-single"_s)), u"Screen 2"_s);
    EXPECT_EQ(placeOf(document, LamphouseId(u"lh-right"_s)), u"Screen 1, right"_s);
    EXPECT_EQ(placeOf(document, LamphouseId(u"lh-none"_s)), u""_s);
    document.projectors[1].screen = ScreenId(u"sc-1"_s); // two projectors stand there now
    EXPECT_EQ(placeOf(document, LamphouseId(u"lh-right"_s)), u"Screen 1, front, right"_s);
    EXPECT_EQ(placeOf(document, LamphouseId(u"lh-single"_s)), u"Screen 1"_s); // its label is empty
}

} // namespace
} // namespace coldarc::site
