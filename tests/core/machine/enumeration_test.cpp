#include "core/machine/make_safe.h"
#include "core/machine/reach.h"
#include "tests/core/machine/world.h"
#include "tests/support/testing.h"

#include <iostream>
#include <set>

namespace coldarc::test {
namespace {

using namespace machine;

std::string joined(const std::vector<std::string>& lines)
{
    std::string text;
    for (const std::string& line : lines)
        text += "\n  " + line;
    return text;
}

struct Ending {
    bool reached = false;
    SafeEnd end = SafeEnd::OutOfUse;
    int steps = 0;
    std::string trouble;
};

/// Follows the make-safe list from here to its end, asking the shipping rules at each step.
Ending makeSafe(const Setting& setting, const State& from)
{
    constexpr int kTooMany = 80;
    Ending ending;
    State state = from;
    for (Index group = 0; group < setting.plant.points; ++group) {
        if (lamphousesOfGroup(setting.plant, group) == 0)
            continue;
        ending.end = safeEnd(setting.plant, state, group);
        for (;; ++ending.steps) {
            if (ending.steps > kTooMany) {
                ending.trouble = "never ends";
                return ending;
            }
            const SafeStep step = nextSafeStep(setting.plant, state, group, setting.engineers.front());
            if (step.kind == SafeStep::Kind::Done)
                break;
            if (step.kind == SafeStep::Kind::Hold) {
                state = whenOver(state, step.wait, step.lamphouse);
            } else if (step.kind == SafeStep::Kind::Report) {
                state = after(setting.plant, state, step.event);
            } else if (unmet(setting.plant, state, step.act).any()) {
                ending.trouble = "refused: " + std::string(wordOf(step.act.effect)) + " by " +
                                 std::to_string(step.act.person) + " " +
                                 unmet(setting.plant, state, step.act).to_string();
                return ending;
            } else {
                state = after(setting.plant, state, step.act);
            }
        }
    }
    Act sign;
    sign.effect = Effect::Sign;
    sign.lamphouse = 0;
    sign.custodyDecided = true;
    sign.answered = true;
    ending.reached = unmet(setting.plant, state, sign).none();
    if (!ending.reached)
        ending.trouble = "cannot be signed at the end";
    return ending;
}

void expectSound(const Setting& setting, const Enumeration& found)
{
    ASSERT_EQ(found.broken, "") << setting.name << joined(found.trace);
    std::set<SafeEnd> ends;
    int longest = 0;
    for (const World& world : found.worlds) {
        bool looked = true;
        for (Index l = 0; l < setting.plant.lamphouses; ++l)
            looked = looked && world.state.lamphouse[l].heat != Heat::Unknown;
        if (!looked)
            continue; // before everything was looked at there is nothing to make safe but by looking
        const Ending ending = makeSafe(setting, world.state);
        ASSERT_TRUE(ending.reached) << setting.name << ": " << ending.trouble;
        ends.insert(ending.end);
        longest = std::max(longest, ending.steps);
    }
    EXPECT_EQ(ends.size(), 3u) << "as it was, as it is, out of use: each is reached";
    std::cout << "  " << setting.name << ": " << found.states << " states, " << found.transitions
              << " transitions, longest way to safety " << longest << " steps, plain swaps signed in "
              << found.plainSwaps << " states\n";
}

#if defined(__SANITIZE_ADDRESS__)
constexpr bool kSlow =
    true; // under the sanitizers the small settings run whole, the large ones are left to tests/run
#else
constexpr bool kSlow = false;
#endif

using Choose = void (*)(Rare&);

struct Night {
    const char* name;
    bool large;
    Choose choose;
    friend void PrintTo(const Night& night, std::ostream* out) { *out << night.name; }
};

class OneLamphouse : public ::testing::TestWithParam<Night> {};
class TwoLamphouses : public ::testing::TestWithParam<Night> {};

TEST_P(OneLamphouse, StaysSafeInEveryStateAndCanBeMadeSafeFromEach)
{
    if (GetParam().large && kSlow)
        GTEST_SKIP() << "too large under the sanitizers";
    Setting setting = oneLamphouse();
    setting.name += std::string(", ") + GetParam().name;
    GetParam().choose(setting.rare);

    const Enumeration found = enumerate(setting);

    expectSound(setting, found);
    EXPECT_GT(found.plainSwaps, 0u);
}

TEST_P(TwoLamphouses, OnOnePointStaySafeInEveryState)
{
    if (GetParam().large && kSlow)
        GTEST_SKIP() << "too large under the sanitizers";
    Setting setting = twoLamphouses(Covers::Two, Crew::OneEngineer);
    if (std::string(GetParam().name).find("SingleDoor") != std::string::npos)
        setting = twoLamphouses(Covers::SingleDoor, Crew::OneEngineer);
    setting.name += std::string(", ") + GetParam().name;
    GetParam().choose(setting.rare);

    const Enumeration found = enumerate(setting);

    expectSound(setting, found);
    EXPECT_GT(found.plainSwaps, 0u);
}

const auto kNameOf = [](const auto& instance) { return std::string(instance.param.name); };

INSTANTIATE_TEST_SUITE_P(
    Nights, OneLamphouse,
    ::testing::Values(
        Night{"Plain", false, [](Rare&) {}},
        Night{"WithItsPaperAndALampPastItsEnd", true, [](Rare& r) { r.paper = r.pastEnd = true; }},
        Night{"WrongBreakerAndDeadControl", false, [](Rare& r) { r.wrongBreaker = true; }},
        Night{"MainsOut", false, [](Rare& r) { r.mains = true; }},
        Night{"SomeoneHurtOrFoundOpen", true, [](Rare& r) { r.hurt = r.foundOpen = true; }},
        Night{"BurstOrUnfit", true, [](Rare& r) { r.burst = r.unfit = true; }},
        Night{"FanStoppedOrGearDamaged", false, [](Rare& r) { r.fan = r.gearDamaged = true; }},
        Night{"OtherBreakerOrNoLock", false, [](Rare& r) { r.otherBreaker = r.willNotLock = true; }},
        Night{"PassedOnOrLockRemoved", true, [](Rare& r) { r.passOn = r.lockRemoved = true; }},
        Night{"ResumedAndSeenAgain", false, [](Rare& r) { r.resumed = r.findAgain = true; }},
        Night{"FailedStrikeCountAndAdaptor", true,
              [](Rare& r) { r.failedStrike = r.countDiffers = r.adaptorLost = true; }},
        Night{"WrongLampPastEnd", false, [](Rare& r) { r.wrongLamp = r.pastEnd = true; }}),
    kNameOf);

INSTANTIATE_TEST_SUITE_P(Nights, TwoLamphouses,
                         ::testing::Values(Night{"Plain", true, [](Rare&) {}},
                                           Night{"SingleDoor", true, [](Rare&) {}}),
                         kNameOf);

} // namespace
} // namespace coldarc::test
