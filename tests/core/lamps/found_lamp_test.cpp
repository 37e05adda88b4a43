#include "core/lamps/found_lamp.h"

#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

namespace coldarc::lamps {
namespace {

using namespace Qt::StringLiterals;

// All lamps and places are invented.

class FoundLampTest : public ::testing::Test {
protected:
    store::Database database = store::Database::inMemory();
    LampStore store{database};
    test::FakeClock clock;
    test::CountingIds ids;
    InHand inHand;

    const LampTypeId type{u"hollin-30b"_s};
    const Look look{SiteId(u"pier-street"_s), LamphouseId(u"screen-2-lamphouse"_s), clock.now().wall};

    [[nodiscard]] Lamp lamp(const QString& id, const QString& serial) const
    {
        return {LampId(id), type, serial, LampHours()};
    }
    void addInStock(const QString& id, const QString& serial)
    {
        ASSERT_EQ(
            store.add(lamp(id, serial), {MoveId(ids.next()), LampId(id), Custody::InStock, {}, {}, look.at}),
            MoveAnswer(Moved{}));
    }
};

TEST_F(FoundLampTest, IsTheOneThatTheWorkspaceHasOfThisTypeAndSerial)
{
    addInStock(u"lamp-1"_s, u"SN-001"_s);

    const auto found = sayFound(store, ids, look, lamp(u"typed"_s, u"sn 001"_s), {}, inHand);

    ASSERT_TRUE(found);
    EXPECT_EQ(*found, LampId(u"lamp-1"_s));
    EXPECT_EQ(store.lamp(*found)->custody, Custody::Fitted);
}

TEST_F(FoundLampTest, SaysNothingOfALamphouseThatAnUnfinishedVisitHasInHand)
{
    ASSERT_TRUE(sayFound(store, ids, look, lamp(u"lamp-1"_s, u"SN-001"_s), {}, inHand));
    inHand.lamphouses.insert(look.lamphouse, look.at);

    const auto other = sayFound(store, ids, look, lamp(u"lamp-2"_s, u"SN-002"_s), {}, inHand);
    const auto same = sayFound(store, ids, look, lamp(u"lamp-1"_s, u"SN-001"_s), {}, inHand);
    const auto unknown = sayUnknown(store, ids, look, inHand);

    ASSERT_FALSE(other);
    EXPECT_EQ(other.error().kind, Error::Kind::Conflict);
    EXPECT_FALSE(same);
    ASSERT_FALSE(unknown);
    EXPECT_EQ(unknown.error().kind, Error::Kind::Conflict);
    EXPECT_EQ(store.lamp(LampId(u"lamp-1"_s))->custody, Custody::Fitted);
}

TEST_F(FoundLampTest, IsNoneThatAnUnfinishedVisitBrings)
{
    addInStock(u"lamp-1"_s, u"SN-001"_s);
    inHand.lamps.insert(LampId(u"lamp-1"_s));

    EXPECT_EQ(faultOfFound(store, look.lamphouse, type, u"SN-001"_s, inHand), FoundFault::InHand);
    const auto found = sayFound(store, ids, look, lamp(u"typed"_s, u"SN-001"_s), {}, inHand);

    ASSERT_FALSE(found);
    EXPECT_EQ(found.error().kind, Error::Kind::Conflict);
    EXPECT_EQ(store.lamp(LampId(u"lamp-1"_s))->custody, Custody::InStock);
}

} // namespace
} // namespace coldarc::lamps
