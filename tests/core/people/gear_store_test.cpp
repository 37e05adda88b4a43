#include "core/people/gear_store.h"

#include "core/people/people_store.h"
#include "tests/support/testing.h"

// Every person and item here is invented.

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono;

class GearStoreTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        ASSERT_TRUE(
            PeopleStore(database).add({PersonId(u"p-1"_s), u"Ada Invented"_s, Role::Engineer, {}, {}, {}}));
    }

    store::Database database = store::Database::inMemory();
    GearStore gear{database};
    GearItem shield{GearId(u"g-1"_s), u"face-shield"_s, u"EN 166 1 A 8 9"_s, u"SH-07"_s,
                    2024y / January,  2026y / November, std::nullopt,        PersonId(u"p-1"_s)};
    GearItem bib{GearId(u"g-2"_s), u"bib"_s,     {},           u"B-1"_s,
                 std::nullopt,     std::nullopt, std::nullopt, std::nullopt};
};

TEST_F(GearStoreTest, GivesBackTheItemsAsTheyWereAdded)
{
    ASSERT_TRUE(gear.add(shield));
    ASSERT_TRUE(gear.add(bib));

    EXPECT_EQ(gear.all(), (std::vector<GearItem>{bib, shield}));
    EXPECT_EQ(gear.assignedTo(PersonId(u"p-1"_s)), std::vector<GearItem>{shield});
    EXPECT_EQ(gear.add(bib).error().kind, Error::Kind::Conflict);
}

TEST_F(GearStoreTest, GivesAnItemToSomebodyElse)
{
    ASSERT_TRUE(gear.add(shield));
    shield.assignedTo.reset();
    shield.expires = 2027y / January;

    ASSERT_TRUE(gear.change(shield));

    EXPECT_EQ(gear.all(), std::vector<GearItem>{shield});
    EXPECT_EQ(gear.change(bib).error().kind, Error::Kind::NotFound);
}

TEST_F(GearStoreTest, TellsTheLatestInspectionOfEachItem)
{
    const GearInspection withdrawn{2026y / June / 2d, PersonId(u"p-1"_s), GearInspection::Outcome::Withdrawn};
    const GearInspection passed{2026y / June / 2d, PersonId(u"p-1"_s), GearInspection::Outcome::Passed};
    ASSERT_TRUE(gear.add(shield));
    ASSERT_TRUE(gear.add(bib));

    ASSERT_TRUE(gear.inspect(shield.id, passed));
    ASSERT_TRUE(gear.inspect(shield.id, withdrawn));

    EXPECT_EQ(gear.assignedTo(PersonId(u"p-1"_s))->front().lastInspection, withdrawn);
    EXPECT_EQ(gear.all()->front().lastInspection, std::nullopt); // the bib
    ASSERT_TRUE(gear.inspect(shield.id, passed));
    EXPECT_EQ(gear.all()->back().lastInspection, passed);
}

TEST_F(GearStoreTest, RefusesAnInspectionOfNothingOrByNobody)
{
    const GearInspection inspection{2026y / June / 2d, PersonId(u"p-1"_s), GearInspection::Outcome::Passed};
    EXPECT_EQ(gear.inspect(shield.id, inspection).error().kind, Error::Kind::Conflict);

    ASSERT_TRUE(gear.add(shield));
    EXPECT_EQ(
        gear.inspect(shield.id, {2026y / June / 2d, PersonId(u"p-9"_s), GearInspection::Outcome::Passed})
            .error()
            .kind,
        Error::Kind::Conflict);
}

TEST_F(GearStoreTest, NeverTakesAnUnreadableDateForNoneGiven)
{
    ASSERT_TRUE(gear.add(shield));
    ASSERT_TRUE(database.run(u"UPDATE gear_item SET expires_month = '2026-13'"_s));

    EXPECT_EQ(gear.all().error().kind, Error::Kind::Malformed);
}

TEST_F(GearStoreTest, RemovesNoItemAndNoInspection)
{
    ASSERT_TRUE(gear.add(shield));
    ASSERT_TRUE(
        gear.inspect(shield.id, {2026y / June / 2d, PersonId(u"p-1"_s), GearInspection::Outcome::Withdrawn}));

    EXPECT_EQ(database.run(u"DELETE FROM gear_inspection"_s).error().kind, Error::Kind::Conflict);
    EXPECT_EQ(database.run(u"UPDATE gear_inspection SET is_passed = 1"_s).error().kind,
              Error::Kind::Conflict);
    EXPECT_EQ(database.run(u"DELETE FROM gear_item"_s).error().kind, Error::Kind::Conflict);
}

} // namespace
} // namespace coldarc::people
