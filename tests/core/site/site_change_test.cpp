#include "core/site/site_change.h"

#include "core/site/site_check.h"
#include "tests/core/site/small_site.h"
#include "tests/support/testing.h"

using namespace Qt::StringLiterals;

namespace coldarc::site {
namespace {

const PointId kA11(u"pt-a11"_s);

TEST(SiteChangeTest, ABreakerThatWasPutDownWronglyIsAnotherOneAndSoIsItsName)
{
    const auto changed = withBreakerAt(test::smallSite(), kA11, u"C"_s, u"7"_s);

    ASSERT_TRUE(changed);
    const IsolationPoint& point = changed->points.front();
    EXPECT_EQ(point.id, kA11);
    EXPECT_EQ(point.panel, u"C"_s);
    EXPECT_EQ(point.circuit, u"7"_s);
    EXPECT_EQ(point.name, u"C, 7"_s);
    EXPECT_EQ(point.feeds, test::smallSite().points.front().feeds);
    EXPECT_TRUE(problemsOf(*changed).empty());
}

TEST(SiteChangeTest, ABreakerThatIsTheSameKeepsItsName)
{
    EXPECT_EQ(withBreakerAt(test::smallSite(), kA11, u"A"_s, u"11"_s), test::smallSite());
}

TEST(SiteChangeTest, TwoBreakersThatAreTheSameBecomeOneWithAllThatEitherFeeds)
{
    const auto changed = withBreakerAt(test::smallSite(), kA11, u"B"_s, u"14"_s);

    ASSERT_TRUE(changed);
    ASSERT_EQ(changed->points.size(), 2u);
    EXPECT_EQ(changed->points.back().id, PointId(u"pt-b14"_s));
    EXPECT_EQ(changed->points.back().name, u"panel B, 14"_s);
    EXPECT_EQ(changed->points.back().feeds.size(), 3u);
    EXPECT_TRUE(problemsOf(*changed).empty());
}

TEST(SiteChangeTest, ASupplyThatBothFeedStandsThereOnce)
{
    SiteDocument document = test::smallSite();
    document.points.back().feeds.push_back(document.points.front().feeds.front());

    const auto changed = withBreakerAt(document, kA11, u"B"_s, u"14"_s);

    ASSERT_TRUE(changed);
    EXPECT_EQ(changed->points.back().feeds.size(), 3u);
}

TEST(SiteChangeTest, RefusesWhatOneBreakerCannotBe)
{
    SiteDocument document = test::smallSite();
    EXPECT_EQ(withBreakerAt(document, kA11, u"A"_s, u"12"_s).error(), BreakerFault::LockDiffers);
    document.points[1].isLockable = true;
    EXPECT_EQ(withBreakerAt(document, kA11, u"A"_s, u"12"_s).error(), BreakerFault::FeedsItAlready);
    EXPECT_EQ(withBreakerAt(document, PointId(u"none"_s), u"A"_s, u"12"_s).error(),
              BreakerFault::UnknownPoint);
}

/// The model of screen 1, whose igniter is cut by something that may take no lock.
catalogue::Catalogue modelWithIgniter(bool lockable)
{
    catalogue::IsolationRole igniter;
    igniter.id = catalogue::RoleId(u"igniter"_s);
    igniter.lockable = lockable;
    igniter.lamphouses = {u"right"_s};
    catalogue::ProjectorModel model;
    model.id = ModelId(u"double"_s);
    model.isolation = {igniter};
    catalogue::Catalogue catalogue;
    catalogue.add(model, {});
    return catalogue;
}

TEST(SiteChangeTest, WhetherABreakerTakesALockIsPutRightEitherWay)
{
    const catalogue::Catalogue catalogue = modelWithIgniter(true);

    const auto none = withLock(test::smallSite(), kA11, false, catalogue);
    const auto one = withLock(test::smallSite(), PointId(u"pt-a12"_s), true, catalogue);

    ASSERT_TRUE(none && one);
    EXPECT_FALSE(none->points[0].isLockable);
    EXPECT_TRUE(one->points[1].isLockable);
    EXPECT_EQ(withLock(*one, PointId(u"pt-a12"_s), false, catalogue), test::smallSite()) << "nothing else";
    EXPECT_EQ(withLock(test::smallSite(), PointId(u"none"_s), true, catalogue).error(),
              BreakerFault::UnknownPoint);
}

TEST(SiteChangeTest, WhatTakesNoLockByItsModelIsNotSaidToTakeOne)
{
    const catalogue::Catalogue catalogue = modelWithIgniter(false);
    const PointId igniter(u"pt-a12"_s);

    EXPECT_EQ(withLock(test::smallSite(), igniter, true, catalogue).error(), BreakerFault::PartTakesNone);
    EXPECT_TRUE(withLock(test::smallSite(), igniter, false, catalogue));
    EXPECT_TRUE(withLock(test::smallSite(), kA11, true, catalogue)) << "another part";
}

} // namespace
} // namespace coldarc::site
