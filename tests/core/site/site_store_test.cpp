#include "core/site/site_store.h"

#include "tests/core/site/small_site.h"
#include "tests/support/testing.h"

namespace coldarc::site {
namespace {

using namespace Qt::StringLiterals;

class SiteStoreTest : public ::testing::Test {
protected:
    Result<SiteDocument> loaded() { return sites.load(document.site.id); }

    store::Database database = store::Database::inMemory();
    SiteStore sites{database};
    SiteDocument document = test::smallSite();
};

/// A site without parts whose id and name differ from the small one's.
SiteDocument otherSite()
{
    SiteDocument other;
    other.site = {SiteId(u"site-2"_s), u"Mill Lane"_s, {}, {}, {}};
    return other;
}

TEST_F(SiteStoreTest, GivesBackTheWholeSite)
{
    ASSERT_TRUE(sites.save(document));

    EXPECT_EQ(loaded(), document);
    EXPECT_EQ(sites.load(SiteId(u"site-9"_s)).error().kind, Error::Kind::NotFound);
}

TEST_F(SiteStoreTest, KnowsAtWhichSiteALamphouseIs)
{
    ASSERT_TRUE(sites.save(otherSite()));
    ASSERT_TRUE(sites.save(document));

    EXPECT_EQ(sites.siteOf(LamphouseId(u"lh-right"_s)), document.site.id);
    EXPECT_EQ(sites.siteOf(LamphouseId(u"lh-none"_s)).error().kind, Error::Kind::NotFound);
}

TEST_F(SiteStoreTest, ListsTheSitesByName)
{
    ASSERT_TRUE(sites.save(document));
    ASSERT_TRUE(sites.save(otherSite()));

    const auto all = sites.all();

    ASSERT_TRUE(all);
    ASSERT_EQ(all->size(), 2u);
    EXPECT_EQ((*all)[0], otherSite().site);
    EXPECT_EQ((*all)[1].name, u"Pier Street"_s);
}

TEST_F(SiteStoreTest, WritesAChangedSiteOverTheOneBefore)
{
    ASSERT_TRUE(sites.save(document));
    document.site.name = u"Pier Street Picture House"_s;
    document.site.contacts.erase(document.site.contacts.begin());
    document.site.profile.mayProveAbsence = AbsenceProver::Engineer;
    document.screens[0].weeklyHours.reset();
    document.screens[0].showStarts.pop_back();
    std::swap(document.screens[0], document.screens[1]);
    document.points[1].isLockable = true;
    document.points[0].feeds.pop_back();

    ASSERT_TRUE(sites.save(document));

    EXPECT_EQ(loaded(), document);
}

TEST_F(SiteStoreTest, LetsPartsGoThatTheSiteNoLongerHas)
{
    ASSERT_TRUE(sites.save(document));
    document.projectors[0].screen = ScreenId(u"sc-2"_s); // moved away from the screen that goes
    document.screens.erase(document.screens.begin());
    document.projectors.pop_back();
    document.lamphouses.pop_back();
    document.points.pop_back();

    ASSERT_TRUE(sites.save(document));

    EXPECT_EQ(loaded(), document);
}

TEST_F(SiteStoreTest, LetsTwoLampsChangePlaces)
{
    document.lamphouses[1].fitted = LampId(u"lamp-2"_s);
    ASSERT_TRUE(sites.save(document));
    std::swap(document.lamphouses[0].fitted, document.lamphouses[1].fitted);

    ASSERT_TRUE(sites.save(document));

    EXPECT_EQ(loaded(), document);
}

TEST_F(SiteStoreTest, SavesAllOrNothing)
{
    ASSERT_TRUE(sites.save(document));
    SiteDocument bad = document;
    bad.site.name = u"Renamed"_s;
    bad.points[0].feeds.push_back({LamphouseId(u"lh-x"_s), catalogue::RoleId(u"main"_s)});

    EXPECT_EQ(sites.save(bad).error().kind, Error::Kind::Conflict);

    EXPECT_EQ(loaded(), document);
}

TEST_F(SiteStoreTest, RefusesTwoPartsWithOneId)
{
    document.points[1].id = document.points[0].id;

    EXPECT_EQ(sites.save(document).error().kind, Error::Kind::Conflict);
    EXPECT_EQ(loaded().error().kind, Error::Kind::NotFound);
}

TEST_F(SiteStoreTest, RefusesAPartOfAnotherSite)
{
    ASSERT_TRUE(sites.save(document));
    SiteDocument thief = otherSite();
    thief.screens = {document.screens[0]};

    EXPECT_EQ(sites.save(thief).error().kind, Error::Kind::Conflict);

    EXPECT_EQ(loaded(), document);
    EXPECT_EQ(sites.load(thief.site.id).error().kind, Error::Kind::NotFound);
}

TEST_F(SiteStoreTest, NotesWhatIsFitted)
{
    ASSERT_TRUE(sites.save(document));

    ASSERT_TRUE(sites.setFitted(LamphouseId(u"lh-right"_s), LampId(u"lamp-9"_s)));
    ASSERT_TRUE(sites.setFitted(LamphouseId(u"lh-left"_s), std::nullopt));

    EXPECT_EQ(loaded()->lamphouses[1].fitted, LampId(u"lamp-9"_s));
    EXPECT_EQ(loaded()->lamphouses[0].fitted, std::nullopt);
    EXPECT_EQ(sites.setFitted(LamphouseId(u"lh-left"_s), LampId(u"lamp-9"_s)).error().kind,
              Error::Kind::Conflict);
    EXPECT_EQ(sites.setFitted(LamphouseId(u"lh-x"_s), std::nullopt).error().kind, Error::Kind::NotFound);
}

TEST_F(SiteStoreTest, WritesTheShowsOfAScreenOverThoseBefore)
{
    ASSERT_TRUE(sites.save(document));
    document.screens[1].showStarts = {WallTime(std::chrono::hours(50))};

    ASSERT_TRUE(sites.save(document));

    EXPECT_EQ(loaded(), document);
}

TEST_F(SiteStoreTest, RefusesHoursThatNoWeekHas)
{
    document.screens[0].weeklyHours = 168.5;

    EXPECT_EQ(sites.save(document).error().kind, Error::Kind::Malformed);
}

} // namespace
} // namespace coldarc::site
