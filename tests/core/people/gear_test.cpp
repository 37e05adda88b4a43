#include "core/people/gear.h"

#include "tests/support/testing.h"

// Every item here is invented.

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono;
using Refusals = std::vector<GearRefusal>;

const Day kToday = 2026y / November / 25d;

GearItem shield()
{
    GearItem item;
    item.id = GearId(u"g-1"_s);
    item.kind = u"face-shield"_s;
    item.marking = u"EN 166 1 A 8 9"_s;
    item.identifier = u"SH-07"_s;
    item.made = 2024y / January;
    item.expires = 2026y / November;
    return item;
}

Refusals refusalsOf(const GearItem& item, Day today = kToday,
                    GearCondition condition = GearCondition::NoDamageSeen)
{
    return gearVerdict(item, today, condition).refusals;
}

TEST(GearTest, HoldsToTheLastDayOfItsMonth)
{
    EXPECT_TRUE(gearVerdict(shield(), 2026y / November / 30d, GearCondition::NoDamageSeen).isFit());
}

TEST(GearTest, IsRefusedFromTheFirstDayOfTheNextMonth)
{
    EXPECT_EQ(refusalsOf(shield(), 2026y / December / 1d), Refusals{GearRefusal::PastItsMonth});
    EXPECT_EQ(refusalsOf(shield(), 2027y / January / 1d), Refusals{GearRefusal::PastItsMonth});
}

TEST(GearTest, WithoutADateHasNoMonthToPass)
{
    GearItem undated = shield();
    undated.made.reset();
    undated.expires.reset();

    EXPECT_EQ(refusalsOf(undated, 2036y / January / 1d), Refusals{});
}

TEST(GearTest, DamagedIsRefusedWhateverItsDateSays)
{
    EXPECT_EQ(refusalsOf(shield(), kToday, GearCondition::Damaged), Refusals{GearRefusal::Damaged});
    EXPECT_FALSE(gearVerdict(shield(), kToday, GearCondition::Damaged).isFit());
}

TEST(GearTest, StaysWithdrawnUntilAnInspectionPassesIt)
{
    GearItem item = shield();
    item.lastInspection =
        GearInspection{2026y / October / 1d, PersonId(u"p-1"_s), GearInspection::Outcome::Withdrawn};
    EXPECT_EQ(refusalsOf(item), Refusals{GearRefusal::WithdrawnAtInspection});

    item.lastInspection->outcome = GearInspection::Outcome::Passed;
    EXPECT_EQ(refusalsOf(item), Refusals{});
}

TEST(GearTest, WithDatesThatCannotBeIsRefused)
{
    GearItem fromTheFuture = shield();
    fromTheFuture.made = 2026y / December;
    fromTheFuture.expires.reset();
    GearItem backwards = shield();
    backwards.made = 2026y / October;
    backwards.expires = 2026y / September;

    EXPECT_EQ(refusalsOf(fromTheFuture), Refusals{GearRefusal::DatesContradict});
    EXPECT_EQ(refusalsOf(backwards), (Refusals{GearRefusal::PastItsMonth, GearRefusal::DatesContradict}));
}

TEST(GearTest, TellsAllThatSpeaksAgainstIt)
{
    EXPECT_EQ(refusalsOf(shield(), 2027y / May / 1d, GearCondition::Damaged),
              (Refusals{GearRefusal::Damaged, GearRefusal::PastItsMonth}));
}

} // namespace
} // namespace coldarc::people
