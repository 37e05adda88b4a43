#include "tests/core/machine/soundness.h"

#include "core/machine/reach.h"
#include "tests/support/testing.h"

#include <algorithm>
#include <iostream>
#include <map>

namespace coldarc::test {

using namespace machine;

namespace {

constexpr int kTooMany = 120;

bool isLookedAt(const Setting& setting, const State& state)
{
    for (Index l = 0; l < setting.plant.lamphouses; ++l) {
        if (!machine::isLookedAt(state, l))
            return false; // before everything was looked at there is nothing to make safe but by looking
    }
    return true;
}

/// One way under way: how far each world is from its end, for each engineer.
class Follower {
public:
    Follower(const Setting& setting, const Worlds& worlds)
        : m_setting(setting)
        , m_worlds(worlds)
        , m_left(worlds.size() * setting.engineers.size(), kUnknown)
    {
    }

    Soundness all()
    {
        for (std::size_t number = 0; number < m_worlds.size() && m_sound.trouble.empty(); ++number) {
            const World world = m_worlds.at(number);
            if (!isLookedAt(m_setting, world.state))
                continue;
            m_sound.ends.insert(safeEnd(m_setting.plant, world.state, 0));
            for (std::size_t engineer = 0; engineer < m_setting.engineers.size(); ++engineer)
                follow(world, number, engineer);
        }
        return m_sound;
    }

private:
    static constexpr std::uint8_t kUnknown = 0xFF;

    std::uint8_t& left(std::size_t number, std::size_t engineer)
    {
        return m_left[number * m_setting.engineers.size() + engineer];
    }

    /// Steps that a world still has before it, or `kUnknown`; the way is walked until that is known.
    void follow(World world, std::size_t number, std::size_t engineer)
    {
        std::vector<std::pair<std::size_t, std::size_t>> way;
        int rest = 0;
        while (true) {
            if (number != Worlds::kMissing && left(number, engineer) != kUnknown) {
                rest = left(number, engineer);
                break;
            }
            way.emplace_back(number, engineer);
            if (static_cast<int>(way.size()) > kTooMany) {
                m_sound.trouble = "never ends";
                return;
            }
            if (!step(world, engineer)) {
                rest = -1;
                break;
            }
            const Merged next = merged(m_setting, world);
            world = next.world;
            engineer = next.exchanged ? 1 - engineer : engineer;
            number = m_worlds.find(world);
        }
        for (auto at = way.rbegin(); at != way.rend(); ++at) {
            ++rest;
            if (at->first != Worlds::kMissing)
                left(at->first, at->second) = static_cast<std::uint8_t>(rest);
        }
        m_sound.longest = std::max(m_sound.longest, rest);
    }

    /// One step on; false at the end, or in trouble.
    bool step(World& world, std::size_t engineer)
    {
        const Plant& plant = m_setting.plant;
        State& state = world.state;
        for (Index l = 0; l < plant.lamphouses; ++l) {
            if (!machine::isLookedAt(state, l)) {
                lookAt(world, l);
                return true;
            }
        }
        const SafeStep next = nextSafeStep(plant, state, 0, m_setting.engineers[engineer]);
        switch (next.kind) {
        case SafeStep::Kind::Done:
            expectSigned(state);
            return false;
        case SafeStep::Kind::Hold:
            state = whenOver(state, next.wait, next.lamphouse);
            return true;
        case SafeStep::Kind::Report:
            state = after(plant, state, next.event);
            return true;
        case SafeStep::Kind::Do:
            break;
        }
        if (unmet(plant, state, next.act).any()) {
            m_sound.trouble =
                "refused: " + std::string(wordOf(next.act.effect)) + " by " + std::to_string(next.act.person);
            return false;
        }
        Move move;
        move.act = next.act;
        world = moved(m_setting, world, move);
        return true;
    }

    /// As it stands, out, with the fan still.
    void lookAt(World& world, Index lamphouse) const
    {
        const LamphouseState& here = world.state.lamphouse[lamphouse];
        Move move;
        move.act.effect = Effect::Find;
        move.act.lamphouse = lamphouse;
        move.act.person = m_setting.engineers.front();
        Seen& seen = move.act.seen;
        seen.drive = world.state.projector[m_setting.plant.lamphouse[lamphouse].projector].drive;
        seen.extraction = true;
        seen.housingOpen = here.housingOpen;
        seen.guardOpen = here.guardOpen;
        for (Index point = 0; point < m_setting.plant.points; ++point) {
            if (world.state.point[point].power != Power::On)
                seen.pointsOff = static_cast<Mask>(seen.pointsOff | maskOf(point));
        }
        world = moved(m_setting, world, move);
    }

    void expectSigned(const State& state)
    {
        Act sign;
        sign.effect = Effect::Sign;
        sign.lamphouse = 0;
        sign.custodyDecided = true;
        sign.answered = true;
        if (unmet(m_setting.plant, state, sign).any())
            m_sound.trouble = "cannot be signed at the end";
    }

    const Setting& m_setting;
    const Worlds& m_worlds;
    std::vector<std::uint8_t> m_left;
    Soundness m_sound;
};

std::string joined(const std::vector<std::string>& lines)
{
    std::string text;
    for (const std::string& line : lines)
        text += "\n  " + line;
    return text;
}

} // namespace

Soundness followToSafety(const Setting& setting, const Worlds& worlds)
{
    return Follower(setting, worlds).all();
}

const Report& reportOf(const Setting& setting)
{
    static std::map<std::string, Report> reports;
    const auto known = reports.find(setting.name);
    if (known != reports.end())
        return known->second;
    const Enumeration found = enumerate(setting);
    const Soundness sound = followToSafety(setting, found.worlds);
    Report report;
    report.name = setting.name;
    report.trouble = found.whole ? sound.trouble : std::string(found.broken) + joined(found.trace);
    report.states = found.worlds.size();
    report.transitions = found.transitions;
    report.plainSwaps = found.plainSwaps;
    report.effects = found.effects;
    report.happenings = found.happenings;
    report.ends = sound.ends;
    report.longest = sound.longest;
    std::cout << "  " << setting.name << ": " << report.states << " states, " << report.transitions
              << " transitions, longest way to safety " << report.longest << " steps, plain swaps signed in "
              << report.plainSwaps << " states\n";
    return reports.emplace(setting.name, report).first->second;
}

void expectSound(const Setting& setting)
{
    const Report& report = reportOf(setting);
    EXPECT_EQ(report.trouble, "") << setting.name;
    EXPECT_GT(report.plainSwaps, 0u) << setting.name;
    EXPECT_EQ(report.ends.size(), 3u) << "as it was, as it is, out of use: each is reached";
}

} // namespace coldarc::test
