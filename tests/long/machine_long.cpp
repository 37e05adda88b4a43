// The enumerations of core/machine that take too long for every change.

#include "tests/core/machine/mutation.h"
#include "tests/core/machine/soundness.h"
#include "tests/support/testing.h"

namespace coldarc::test {

using namespace machine;

// Printed in the names of the cases instead of the bytes of the struct.
void PrintTo(const Setting& setting, std::ostream* out)
{
    *out << setting.name;
}

namespace {

std::vector<Setting> nightsOf(std::initializer_list<Size> sizes)
{
    std::vector<Setting> chosen;
    for (const Setting& setting : nights()) {
        if (std::ranges::find(sizes, setting.size) != sizes.end())
            chosen.push_back(setting);
    }
    return chosen;
}

class HugeNight : public ::testing::TestWithParam<Setting> {};

TEST_P(HugeNight, StaysSafeInEveryStateAndCanBeMadeSafeFromEach)
{
    expectSound(GetParam());
}

INSTANTIATE_TEST_SUITE_P(Nights, HugeNight, ::testing::ValuesIn(nightsOf({Size::Huge})),
                         [](const auto& instance) { return instance.param.name; });

TEST(Redundancies, BreakNothingWhenDroppedAlone)
{
    for (const Redundant& redundant : redundancies()) {
        Unmet dropped;
        dropped.set(static_cast<std::size_t>(redundant.demand));
        for (const Setting& setting : nightsOf({Size::Small, Size::Large})) {
            EXPECT_EQ(enumerate(setting, dropped).broken, "")
                << redundant.name << " in " << setting.name << " is not redundant: " << redundant.reason;
        }
    }
}

} // namespace
} // namespace coldarc::test
