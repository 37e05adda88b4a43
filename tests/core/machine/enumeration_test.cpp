#include "tests/core/machine/soundness.h"
#include "tests/support/testing.h"

#include <algorithm>
#include <functional>
#include <iostream>

namespace coldarc::test {

using namespace machine;

// Printed in the names of the cases instead of the bytes of the struct.
void PrintTo(const Setting& setting, std::ostream* out)
{
    *out << setting.name;
}

namespace {

std::vector<Setting> nightsOfEveryRun()
{
    std::vector<Setting> chosen;
    for (const Setting& setting : nights()) {
        if (setting.size == Size::Small || (setting.size == Size::Large && !kUnderSanitizers))
            chosen.push_back(setting);
    }
    return chosen;
}

class EveryNight : public ::testing::TestWithParam<Setting> {};

TEST_P(EveryNight, StaysSafeInEveryStateAndCanBeMadeSafeFromEach)
{
    expectSound(GetParam());
}

INSTANTIATE_TEST_SUITE_P(Nights, EveryNight, ::testing::ValuesIn(nightsOfEveryRun()),
                         [](const auto& instance) { return instance.param.name; });

TEST(TheNightsTogether, DoEveryEffectAndMeetEveryHappening)
{
    if (kUnderSanitizers)
        GTEST_SKIP() << "the large nights are left out under the sanitizers";
    Report all;
    for (const Setting& setting : nightsOfEveryRun()) {
        const Report& one = reportOf(setting);
        all.states += one.states;
        all.transitions += one.transitions;
        std::ranges::transform(all.effects, one.effects, all.effects.begin(), std::plus{});
        std::ranges::transform(all.happenings, one.happenings, all.happenings.begin(), std::plus{});
    }

    for (int index = 0; index < kEffects; ++index) {
        const std::size_t times = all.effects[static_cast<std::size_t>(index)];
        std::cout << "  " << wordOf(static_cast<Effect>(index)) << " " << times << "\n";
        EXPECT_GT(times, 0u) << wordOf(static_cast<Effect>(index));
    }
    for (int index = 0; index < kHappenings; ++index) {
        const std::size_t times = all.happenings[static_cast<std::size_t>(index)];
        std::cout << "  happening " << index << " " << times << "\n";
        EXPECT_GT(times, 0u) << "happening " << index;
    }
    std::cout << "  together " << all.states << " states, " << all.transitions << " transitions\n";
}

class Merging : public ::testing::TestWithParam<const char*> {};

TEST_P(Merging, WhatNoRuleTellsApartLosesNothing)
{
    const Setting& setting = night(GetParam());
    if (setting.size != Size::Small && kUnderSanitizers)
        GTEST_SKIP() << "too large under the sanitizers";

    const Enumeration whole = enumerate(setting, {}, 40'000'000, Merge::Nothing);
    const Enumeration some = enumerate(setting);

    ASSERT_TRUE(whole.whole && some.whole);
    std::vector<bool> met(some.worlds.size());
    for (std::size_t number = 0; number < whole.worlds.size(); ++number) {
        const std::size_t kept = some.worlds.find(merged(setting, whole.worlds.at(number)).world);
        ASSERT_NE(kept, Worlds::kMissing) << "a world that merging lost";
        met[kept] = true;
    }
    EXPECT_EQ(std::ranges::count(met, true), static_cast<std::ptrdiff_t>(some.worlds.size()));
    EXPECT_LT(some.worlds.size(), whole.worlds.size());
}

// The second has two engineers who change places.
INSTANTIATE_TEST_SUITE_P(Nights, Merging, ::testing::Values("Plain", "PassedOnOrLockRemoved"),
                         [](const auto& instance) { return std::string(instance.param); });

} // namespace
} // namespace coldarc::test
