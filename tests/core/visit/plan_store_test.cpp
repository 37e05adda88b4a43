#include "core/visit/plan_store.h"

#include "core/lamps/lamp_store.h"
#include "core/site/site_store.h"
#include "tests/support/testing.h"

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::visit {
namespace {

/// An invented site and two invented lamps.
class PlanStoreTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        site::SiteDocument document;
        document.site.id = SiteId(u"pier-street"_s);
        document.site.name = u"Pier Street"_s;
        ASSERT_TRUE(site::SiteStore(database).save(document));
        lamps::LampStore lampStore(database);
        for (const QString& lamp : {u"lamp-a"_s, u"lamp-b"_s}) {
            lamps::CustodyMove first;
            first.id = lamps::MoveId(u"move of "_s + lamp);
            first.lamp = LampId(lamp);
            ASSERT_TRUE(lampStore.add({LampId(lamp), LampTypeId(u"hollin-30b"_s), lamp, {}}, first));
        }
    }

    static PlannedVisit planned(const QString& visit, people::Day day)
    {
        return {VisitId(visit), SiteId(u"pier-street"_s), day, u"lamps due"_s, {}};
    }

    store::Database database = store::Database::inMemory();
    PlanStore plans{database};
};

TEST_F(PlanStoreTest, GivesAPlanBackAsItWasSaved)
{
    PlannedVisit plan = planned(u"v1"_s, 2026y / 11 / 25);
    plan.swaps = {{LamphouseId(u"two"_s), LampId(u"lamp-b"_s)}, {LamphouseId(u"four"_s), std::nullopt}};

    ASSERT_TRUE(plans.save(plan));

    EXPECT_EQ(plans.plan(VisitId(u"v1"_s)), plan);
}

TEST_F(PlanStoreTest, WritesAPlanOverTheOneBefore)
{
    PlannedVisit plan = planned(u"v1"_s, 2026y / 11 / 25);
    plan.swaps = {{LamphouseId(u"two"_s), LampId(u"lamp-a"_s)}, {LamphouseId(u"four"_s), std::nullopt}};
    ASSERT_TRUE(plans.save(plan));

    plan.day = 2026y / 11 / 28;
    plan.swaps = {{LamphouseId(u"four"_s), LampId(u"lamp-a"_s)}};
    ASSERT_TRUE(plans.save(plan));

    EXPECT_EQ(plans.all(), std::vector{plan});
}

TEST_F(PlanStoreTest, NamesTheEarliestDayFirst)
{
    ASSERT_TRUE(plans.save(planned(u"a"_s, 2027y / 1 / 4)));
    ASSERT_TRUE(plans.save(planned(u"b"_s, 2026y / 12 / 30)));

    const auto all = plans.all();

    ASSERT_TRUE(all);
    ASSERT_EQ(all->size(), 2u);
    EXPECT_EQ(all->front().visit, VisitId(u"b"_s));
}

TEST_F(PlanStoreTest, RefusesToPutOneLampAsideForTwoSwapsAndKeepsWhatWas)
{
    PlannedVisit first = planned(u"v1"_s, 2026y / 11 / 25);
    first.swaps = {{LamphouseId(u"two"_s), LampId(u"lamp-a"_s)}};
    ASSERT_TRUE(plans.save(first));
    ASSERT_TRUE(plans.save(planned(u"v2"_s, 2026y / 11 / 26)));

    PlannedVisit second = planned(u"v2"_s, 2026y / 11 / 27);
    second.swaps = {{LamphouseId(u"four"_s), LampId(u"lamp-a"_s)}};
    const auto refused = plans.save(second);

    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, Error::Kind::Conflict);
    EXPECT_EQ(plans.plan(VisitId(u"v2"_s)), planned(u"v2"_s, 2026y / 11 / 26));
}

TEST_F(PlanStoreTest, RefusesASiteOrALampThatIsNotThereAndALamphouseTwice)
{
    PlannedVisit elsewhere = planned(u"v1"_s, 2026y / 11 / 25);
    elsewhere.site = SiteId(u"nowhere"_s);
    PlannedVisit noLamp = planned(u"v1"_s, 2026y / 11 / 25);
    noLamp.swaps = {{LamphouseId(u"two"_s), LampId(u"lamp-z"_s)}};
    PlannedVisit twice = planned(u"v1"_s, 2026y / 11 / 25);
    twice.swaps = {{LamphouseId(u"two"_s), std::nullopt}, {LamphouseId(u"two"_s), std::nullopt}};

    for (const PlannedVisit& plan : {elsewhere, noLamp, twice}) {
        const auto refused = plans.save(plan);
        ASSERT_FALSE(refused);
        EXPECT_EQ(refused.error().kind, Error::Kind::Conflict);
    }
    EXPECT_TRUE(plans.all()->empty());
}

TEST_F(PlanStoreTest, DropsAPlanWithItsSwapsAndSaysWhenThereIsNone)
{
    PlannedVisit plan = planned(u"v1"_s, 2026y / 11 / 25);
    plan.swaps = {{LamphouseId(u"two"_s), LampId(u"lamp-a"_s)}};
    ASSERT_TRUE(plans.save(plan));

    ASSERT_TRUE(plans.drop(VisitId(u"v1"_s)));

    EXPECT_TRUE(plans.all()->empty());
    plan.visit = VisitId(u"v2"_s);
    EXPECT_TRUE(plans.save(plan)) << "the lamp is free again";
    EXPECT_EQ(plans.drop(VisitId(u"v1"_s)).error().kind, Error::Kind::NotFound);
    EXPECT_EQ(plans.plan(VisitId(u"v1"_s)).error().kind, Error::Kind::NotFound);
}

} // namespace
} // namespace coldarc::visit
