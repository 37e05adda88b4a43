#include "core/site/site_check.h"

#include "tests/core/site/small_site.h"
#include "tests/support/testing.h"

#include <algorithm>

namespace coldarc::site {
namespace {

using namespace Qt::StringLiterals;
using Kind = Problem::Kind;
using Problems = std::vector<Problem>;

catalogue::IsolationRole role(const QString& id, const QStringList& lamphouses)
{
    catalogue::IsolationRole made;
    made.id = catalogue::RoleId(id);
    made.lamphouses = lamphouses;
    return made;
}

/// The models of the small site: both need "main" cut, the right lamphouse of the double one "igniter" too.
catalogue::Catalogue models()
{
    catalogue::ProjectorModel doubled;
    doubled.id = ModelId(u"double"_s);
    doubled.lamphouses = {u"left"_s, u"right"_s};
    doubled.isolation = {role(u"main"_s, {u"left"_s, u"right"_s}), role(u"igniter"_s, {u"right"_s})};
    catalogue::ProjectorModel single;
    single.id = ModelId(u"single"_s);
    single.lamphouses = {u"lamp"_s};
    single.isolation = {role(u"main"_s, {u"lamp"_s})};
    catalogue::Catalogue made;
    made.add(doubled, {});
    made.add(single, {});
    return made;
}

TEST(SiteCheckTest, FindsNothingWrongWithTheSmallSite)
{
    EXPECT_EQ(problemsOf(test::smallSite()), Problems{});
    EXPECT_EQ(problemsOf(test::smallSite(), models()), Problems{});
}

TEST(SiteCheckTest, DemandsAPointForEveryLamphouse)
{
    SiteDocument document = test::smallSite();
    document.points.pop_back();

    EXPECT_EQ(problemsOf(document), (Problems{{Kind::NoPoint, u"lh-single"_s, {}}}));
}

TEST(SiteCheckTest, FindsAPointThatFeedsWhatIsNotThere)
{
    SiteDocument document = test::smallSite();
    document.points[1].feeds.push_back({LamphouseId(u"lh-x"_s), catalogue::RoleId(u"main"_s)});

    EXPECT_EQ(problemsOf(document), (Problems{{Kind::UnknownLamphouse, u"pt-a12"_s, u"lh-x"_s}}));
}

TEST(SiteCheckTest, FindsAPointThatFeedsNothingOrTheSameTwice)
{
    SiteDocument document = test::smallSite();
    document.points[1].feeds.clear();
    document.points[2].feeds.push_back(document.points[2].feeds[0]);

    EXPECT_EQ(problemsOf(document), (Problems{{Kind::FeedsNothing, u"pt-a12"_s, {}},
                                              {Kind::DoubledFeed, u"pt-b14"_s, u"lh-single"_s}}));
}

TEST(SiteCheckTest, FindsPartsThatBelongNowhere)
{
    SiteDocument document = test::smallSite();
    document.projectors[0].screen = ScreenId(u"sc-x"_s);
    document.lamphouses[2].projector = ProjectorId(u"pr-x"_s);

    EXPECT_EQ(problemsOf(document), (Problems{{Kind::UnknownScreen, u"pr-1"_s, u"sc-x"_s},
                                              {Kind::NoLamphouse, u"pr-2"_s, {}},
                                              {Kind::UnknownProjector, u"lh-single"_s, u"pr-x"_s}}));
}

TEST(SiteCheckTest, FindsTwoPartsWithOneName)
{
    SiteDocument document = test::smallSite();
    document.screens[1].id = document.screens[0].id;
    document.projectors[1].screen = document.screens[0].id;
    document.points[2].id = document.points[0].id;

    EXPECT_EQ(problemsOf(document),
              (Problems{{Kind::DoubledId, u"sc-1"_s, {}}, {Kind::DoubledId, u"pt-a11"_s, {}}}));
}

TEST(SiteCheckTest, FindsOneLampInTwoLamphouses)
{
    SiteDocument document = test::smallSite();
    document.lamphouses[2].fitted = LampId(u"lamp-1"_s);

    EXPECT_EQ(problemsOf(document), (Problems{{Kind::LampFittedTwice, u"lamp-1"_s, {}}}));
}

TEST(SiteModelCheckTest, DemandsAPointForEachRoleThatTheModelNeedsCut)
{
    SiteDocument document = test::smallSite();
    document.points[0].feeds.pop_back(); // A, 11 no longer feeds the right lamphouse

    EXPECT_EQ(problemsOf(document), Problems{}); // A, 12 still does
    EXPECT_EQ(problemsOf(document, models()), (Problems{{Kind::UncoveredRole, u"lh-right"_s, u"main"_s}}));
}

TEST(SiteModelCheckTest, FindsTwoPointsForOneRole)
{
    SiteDocument document = test::smallSite();
    document.points[2].feeds.push_back(
        document.points[0].feeds.front()); // B, 14 feeds the left lamphouse, too

    EXPECT_EQ(problemsOf(document, models()), (Problems{{Kind::DoubledRole, u"lh-left"_s, u"main"_s}}));
}

TEST(SiteModelCheckTest, FindsARoleThatTheModelDoesNotHaveForThisLamphouse)
{
    SiteDocument document = test::smallSite();
    document.points[1].feeds.push_back({LamphouseId(u"lh-left"_s), catalogue::RoleId(u"igniter"_s)});

    EXPECT_EQ(problemsOf(document, models()), (Problems{{Kind::UnknownRole, u"lh-left"_s, u"igniter"_s}}));
}

TEST(SiteModelCheckTest, FindsLamphousesThatAreNotTheModels)
{
    SiteDocument document = test::smallSite();
    document.lamphouses[0].label = u"upper"_s;
    document.lamphouses[2].label = u"lamp"_s;
    document.projectors[1].model = ModelId(u"unheard-of"_s);

    EXPECT_EQ(problemsOf(document, models()), (Problems{{Kind::NotAModelLamphouse, u"lh-left"_s, u"upper"_s},
                                                        {Kind::MissingLamphouse, u"pr-1"_s, u"left"_s},
                                                        {Kind::UnknownModel, u"pr-2"_s, u"unheard-of"_s}}));
}

TEST(SiteModelCheckTest, FindsTwoLamphousesWithOneLabel)
{
    SiteDocument document = test::smallSite();
    document.lamphouses[0].label = u"right"_s;

    const Problems problems = problemsOf(document, models());

    EXPECT_NE(std::find(problems.begin(), problems.end(), Problem{Kind::DoubledLabel, u"pr-1"_s, u"right"_s}),
              problems.end());
    EXPECT_NE(
        std::find(problems.begin(), problems.end(), Problem{Kind::MissingLamphouse, u"pr-1"_s, u"left"_s}),
        problems.end());
}

TEST(IsolationGroupTest, JoinsWhatHangsOnOnePoint)
{
    const auto groups = isolationGroups(test::smallSite());

    ASSERT_EQ(groups.size(), 2u);
    EXPECT_EQ(groups[0], (IsolationGroup{{PointId(u"pt-a11"_s), PointId(u"pt-a12"_s)},
                                         {LamphouseId(u"lh-left"_s), LamphouseId(u"lh-right"_s)}}));
    EXPECT_EQ(groups[1], (IsolationGroup{{PointId(u"pt-b14"_s)}, {LamphouseId(u"lh-single"_s)}}));
}

// lh-left - A11 - lh-right - A12 - lh-single - B14: one chain, no point touches all three.
TEST(IsolationGroupTest, JoinsAChainOfPointsIntoOne)
{
    SiteDocument document = test::smallSite();
    document.points[1].feeds.push_back({LamphouseId(u"lh-single"_s), catalogue::RoleId(u"main"_s)});

    const auto groups = isolationGroups(document);

    ASSERT_EQ(groups.size(), 1u);
    EXPECT_EQ(groups[0].points.size(), 3u);
    EXPECT_EQ(groups[0].lamphouses.size(), 3u);
}

TEST(IsolationGroupTest, LeavesAloneWhatHangsOnNothing)
{
    SiteDocument document = test::smallSite();
    document.points[1].feeds = {{LamphouseId(u"lh-x"_s), catalogue::RoleId(u"main"_s)}};
    document.points[2].feeds.clear();

    const auto groups = isolationGroups(document);

    ASSERT_EQ(groups.size(), 4u);
    EXPECT_EQ(groups[0].points, std::vector<PointId>{PointId(u"pt-a11"_s)});
    EXPECT_EQ(groups[1], (IsolationGroup{{}, {LamphouseId(u"lh-single"_s)}}));
    EXPECT_EQ(groups[2], (IsolationGroup{{PointId(u"pt-a12"_s)}, {}}));
    EXPECT_EQ(groups[3], (IsolationGroup{{PointId(u"pt-b14"_s)}, {}}));
    EXPECT_TRUE(isolationGroups({}).empty());
}

// Whatever the order of the lists, the same things hang together.
TEST(IsolationGroupTest, DoNotDependOnTheOrderOfThePoints)
{
    SiteDocument document = test::smallSite();
    std::reverse(document.points.begin(), document.points.end());
    std::reverse(document.lamphouses.begin(), document.lamphouses.end());

    const auto groups = isolationGroups(document);

    ASSERT_EQ(groups.size(), 2u);
    EXPECT_EQ(groups[0], (IsolationGroup{{PointId(u"pt-b14"_s)}, {LamphouseId(u"lh-single"_s)}}));
    EXPECT_EQ(groups[1], (IsolationGroup{{PointId(u"pt-a12"_s), PointId(u"pt-a11"_s)},
                                         {LamphouseId(u"lh-right"_s), LamphouseId(u"lh-left"_s)}}));
}

} // namespace
} // namespace coldarc::site
