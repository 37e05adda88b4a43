// What a command leaves alone: everything but its own lamphouse, projector, person and lamps, and the points
// and groups that it names.

#include "core/machine/reach.h"
#include "tests/core/machine/world.h"
#include "tests/support/testing.h"

#include <algorithm>
#include <random>

namespace coldarc::test {
namespace {

using namespace machine;

constexpr std::uint32_t kSeed = 20261125;
constexpr Unmet kNothing{};

// ---- Two swaps at points of their own -------------------------------------------------------------------

constexpr Index kPoints = 2; // of `oneLamphouse`, which stands twice here, the second behind the first
constexpr Index kPeople = 2;
constexpr Index kLamps = 2;

Index shifted(Index index, Index by)
{
    return index == kNone ? kNone : static_cast<Index>(index + by);
}

Plant twice(const Plant& one)
{
    Plant both = one;
    both.points = 2 * kPoints;
    both.lamphouses = 2;
    both.people = 2 * kPeople;
    both.lamps = 2 * kLamps;
    for (Index point = 0; point < kPoints; ++point)
        both.point[point + kPoints] = {one.point[point].lockable, 2, kPoints};
    both.lamphouse[1] = one.lamphouse[0];
    both.lamphouse[1].projector = 1;
    both.lamphouse[1].points = static_cast<Mask>(one.lamphouse[0].points << kPoints);
    both.lamphouse[1].group = kPoints;
    for (Index person = 0; person < kPeople; ++person)
        both.person[person + kPeople] = one.person[person];
    for (Index lamp = 0; lamp < kLamps; ++lamp) {
        both.lamp[lamp + kLamps] = one.lamp[lamp];
        both.lamp[lamp + kLamps].lamphouse = 1;
    }
    return both;
}

State sideBySide(const State& first, const State& second)
{
    State both = first;
    for (Index point = 0; point < kPoints; ++point) {
        both.point[point + kPoints] = second.point[point];
        both.point[point + kPoints].jobLock = shifted(second.point[point].jobLock, kPeople);
    }
    both.group[kPoints] = second.group[0];
    both.group[kPoints].locks = static_cast<Mask>(second.group[0].locks << kPeople);
    both.projector[1] = second.projector[0];
    both.lamphouse[1] = second.lamphouse[0];
    both.lamphouse[1].lamp = shifted(second.lamphouse[0].lamp, kLamps);
    both.lamphouse[1].adaptor = shifted(second.lamphouse[0].adaptor, kLamps);
    for (Index person = 0; person < kPeople; ++person) {
        both.person[person + kPeople] = second.person[person];
        both.person[person + kPeople].at = shifted(second.person[person].at, 1);
        both.person[person + kPeople].gearFor = shifted(second.person[person].gearFor, 1);
    }
    for (Index lamp = 0; lamp < kLamps; ++lamp)
        both.lamp[lamp + kLamps] = second.lamp[lamp];
    return both;
}

Act atTheSecond(Act act)
{
    act.person = shifted(act.person, kPeople);
    act.lamphouse = shifted(act.lamphouse, 1);
    act.point = shifted(act.point, kPoints);
    act.moved = shifted(act.moved, kPoints);
    act.lamp = shifted(act.lamp, kLamps);
    act.seen.lamp = shifted(act.seen.lamp, kLamps);
    act.seen.pointsOff = static_cast<Mask>(act.seen.pointsOff << kPoints);
    return act;
}

// Counted over the whole visit, against everybody authorised there.
const Unmet kOneBare = Unmet{}.set(static_cast<std::size_t>(Demand::OneBare));

TEST(TwoSwapsAtPointsOfTheirOwn, AreJudgedAndDoneAsIfEachWereAlone)
{
    const Setting& setting = night("FanStoppedOrGearDamaged");
    const Plant both = twice(setting.plant);
    const Enumeration found = enumerate(setting);
    std::mt19937 random(kSeed);
    std::uniform_int_distribution<std::size_t> any(0, found.worlds.size() - 1);
    std::size_t judged = 0;
    std::size_t done = 0;

    for (int pair = 0; pair < 3000; ++pair) {
        const World mine = found.worlds.at(any(random));
        const State other = found.worlds.at(any(random)).state;
        forEachMove(setting, mine, ~kNothing, [&](const Move& move) {
            if (move.kind != Move::Kind::Act || move.act.effect == Effect::Sign || // signs the whole visit
                ::testing::Test::HasFatalFailure())
                return;
            ++judged;
            const Unmet alone = unmet(setting.plant, mine.state, move.act);
            const State first = sideBySide(mine.state, other);
            const State second = sideBySide(other, mine.state);
            const Act there = atTheSecond(move.act);
            for (const Unmet& asked : {unmet(both, first, move.act), unmet(both, second, there)}) {
                ASSERT_EQ(asked & ~kOneBare, alone & ~kOneBare) << describe(move);
                ASSERT_EQ(asked.any(), alone.any()) << describe(move);
            }
            if (alone.any())
                return;
            ++done;
            const State next = after(setting.plant, mine.state, move.act);
            ASSERT_EQ(after(both, first, move.act), sideBySide(next, other)) << describe(move);
            ASSERT_EQ(after(both, second, there), sideBySide(other, next)) << describe(move);
        });
    }
    EXPECT_GT(judged, 100'000u);
    EXPECT_GT(done, 20'000u);
}

// ---- Two swaps on one point -----------------------------------------------------------------------------

/// Acts that change what current does at everything on their points.
bool reachesThePoints(const Act& act)
{
    switch (act.effect) {
    case Effect::Find: // a point seen on
    case Effect::Isolate:
    case Effect::LockOff:
    case Effect::JobLockOff:
    case Effect::Restore:
        return true;
    case Effect::TryStart:
        return act.outcome == Outcome::Started;
    case Effect::ProveAbsence:
        return act.outcome == Outcome::Voltage;
    default:
        return false;
    }
}

/// The same lamphouse with what current does to it made alike.
LamphouseState withoutCurrent(LamphouseState lamphouse, const LamphouseState& like)
{
    lamphouse.heat = like.heat;
    lamphouse.settle = like.settle;
    lamphouse.charge = like.charge;
    lamphouse.startTried = like.startTried;
    lamphouse.absent = like.absent;
    lamphouse.absentBehind = like.absentBehind;
    return lamphouse;
}

void expectOthersLeftAlone(const Plant& plant, const State& before, const Act& act, const State& now)
{
    for (Index l = 0; l < plant.lamphouses; ++l) {
        if (l == act.lamphouse)
            continue;
        const LamphouseState other =
            reachesThePoints(act) ? withoutCurrent(now.lamphouse[l], before.lamphouse[l]) : now.lamphouse[l];
        ASSERT_EQ(other, before.lamphouse[l]);
    }
    for (Index person = 0; person < plant.people; ++person) {
        // Whoever stands there when the last cover is shut, or the lamphouse is looked at anew, signs again.
        const bool stands = before.person[person].at == act.lamphouse;
        ASSERT_TRUE(person == act.person || stands || now.person[person] == before.person[person]);
        ASSERT_TRUE(person == act.person || now.person[person].at == before.person[person].at);
    }
    for (Index lamp = 0; lamp < plant.lamps; ++lamp) {
        ASSERT_TRUE(plant.lamp[lamp].lamphouse == act.lamphouse || now.lamp[lamp] == before.lamp[lamp]);
    }
    const bool locks = act.effect == Effect::LockOn || act.effect == Effect::LockOff;
    const Mask own = act.person == kNone ? Mask{0} : maskOf(act.person);
    ASSERT_EQ(now.group[0].locks & ~(locks ? own : 0), before.group[0].locks & ~(locks ? own : 0))
        << "nobody else's lock";
    ASSERT_EQ(now.hurt, before.hurt);
}

TEST(TwoSwapsOnOnePoint, LeaveEachOtherAloneButForWhatCurrentDoes)
{
    constexpr std::size_t kEnough = 150'000; // deep enough for both guards to stand open
    std::size_t done = 0;
    std::size_t bothOpen = 0;
    for (const char* name : {"PairWithTrainee", "PairTwoEngineersSingleDoor"}) {
        const Setting& setting = night(name);
        const Enumeration found = enumerate(setting, {}, kEnough);
        std::mt19937 random(kSeed);
        // The later half: the earlier worlds are those of the arrival.
        std::uniform_int_distribution<std::size_t> any(found.worlds.size() / 2, found.worlds.size() - 1);
        for (int count = 0; count < 5000; ++count) {
            const World world = found.worlds.at(any(random));
            bothOpen += world.state.lamphouse[0].guardOpen && world.state.lamphouse[1].guardOpen ? 1 : 0;
            forEachMove(setting, world, kNothing, [&](const Move& move) {
                if (move.kind != Move::Kind::Act)
                    return;
                ++done;
                const State now = after(setting.plant, world.state, move.act);
                expectOthersLeftAlone(setting.plant, world.state, move.act, now);
                ASSERT_FALSE(::testing::Test::HasFatalFailure()) << describe(move);
            });
        }
    }
    EXPECT_GT(done, 100'000u);
    EXPECT_GT(bothOpen, 0u);
}

} // namespace
} // namespace coldarc::test
