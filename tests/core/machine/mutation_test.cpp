#include "tests/core/machine/mutation.h"

#include "core/machine/demand.h"
#include "tests/support/testing.h"

namespace coldarc::test {

using namespace machine;

// Printed in the names of the cases instead of the bytes of the struct.
void PrintTo(const Needed& needed, std::ostream* out)
{
    *out << needed.name << " dropped on " << needed.night;
}

namespace {

Unmet only(Demand demand)
{
    Unmet one;
    one.set(static_cast<std::size_t>(demand));
    return one;
}

class EachDemand : public ::testing::TestWithParam<Needed> {};

TEST_P(EachDemand, IsNeeded)
{
    const Needed& needed = GetParam();

    EXPECT_EQ(enumerate(night(needed.night), only(needed.demand)).broken, needed.breaks);
}

INSTANTIATE_TEST_SUITE_P(Dropped, EachDemand, ::testing::ValuesIn(needs().begin(), needs().end()),
                         [](const auto& instance) { return std::string(instance.param.name); });

TEST(TheTableOfEffects, HasNoDemandThatIsNeitherNeededNorRedundantOnPurpose)
{
    Unmet listed;
    for (const Needed& needed : needs()) {
        EXPECT_FALSE(listed.test(static_cast<std::size_t>(needed.demand))) << "listed twice";
        listed |= only(needed.demand);
    }
    for (const Redundant& redundant : redundancies()) {
        EXPECT_FALSE(listed.test(static_cast<std::size_t>(redundant.demand))) << "listed twice";
        EXPECT_NE(std::string_view(redundant.reason), "");
        listed |= only(redundant.demand);
    }

    Unmet demanded;
    for (int index = 0; index < kEffects; ++index) {
        for (const Demand demand : demandsOf(static_cast<Effect>(index)))
            demanded |= only(demand);
    }

    EXPECT_EQ(listed, demanded);
}

} // namespace
} // namespace coldarc::test
