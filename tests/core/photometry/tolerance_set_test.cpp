#include "core/photometry/tolerance_set.h"

#include "tests/support/testing.h"

#include <limits>

namespace coldarc::photometry {
namespace {

using namespace Qt::StringLiterals;

ToleranceSet smallSet()
{
    ToleranceSet set;
    set.limits = {{Quantity::CentreLuminance, 40, 60, 48, Absence::None, Standing::Read, u"page 3"_s}};
    return set;
}

TEST(ToleranceSetTest, KnowsItsLimitOnAQuantity)
{
    const ToleranceSet set = smallSet();
    EXPECT_EQ(set.limitOn(Quantity::CentreLuminance)->nominal, 48);
    EXPECT_EQ(set.limitOn(Quantity::WhiteX), nullptr);
}

TEST(ToleranceSetTest, TakesATargetOfAPersonsOwn)
{
    const ToleranceSet set = smallSet();

    const auto replaced = withOwnLimit(set, Quantity::CentreLuminance, 15.0, {});
    ASSERT_TRUE(replaced);
    EXPECT_EQ(replaced->limits.size(), 1u);
    EXPECT_EQ(replaced->limits[0],
              (Limit{Quantity::CentreLuminance, 15.0, {}, {}, Absence::None, Standing::Own, {}}));

    const auto added = withOwnLimit(set, Quantity::CornerColourOffset, {}, 0.01);
    ASSERT_TRUE(added);
    EXPECT_EQ(added->limitOn(Quantity::CornerColourOffset)->most, 0.01);
    EXPECT_EQ(added->limitOn(Quantity::CentreLuminance)->standing, Standing::Read);
}

TEST(ToleranceSetTest, RefusesATargetThatMakesNoSense)
{
    const ToleranceSet set = smallSet();
    EXPECT_FALSE(withOwnLimit(set, Quantity::CentreLuminance, {}, {}));
    EXPECT_FALSE(withOwnLimit(set, Quantity::CentreLuminance, -1.0, {}));
    EXPECT_FALSE(withOwnLimit(set, Quantity::CentreLuminance, 20.0, 10.0));
    EXPECT_FALSE(withOwnLimit(set, Quantity::SideShare, {}, 90.0));
    EXPECT_FALSE(withOwnLimit(set, Quantity::WhiteX, std::numeric_limits<double>::quiet_NaN(), {}));
}

} // namespace
} // namespace coldarc::photometry
