#include "core/machine/reach.h"
#include "tests/core/machine/world.h"

#include <algorithm>
#include <cstring>

namespace coldarc::test {

using namespace machine;

namespace {

constexpr std::uint32_t kBeginning = 0xFFFFFFFFu;

/// What of a person no rule tells apart from another of the same rights: place, gear, lock.
std::array<int, 4> traitsOf(const State& state, Index person)
{
    const PersonState& p = state.person[person];
    return {p.at, static_cast<int>(p.gear), p.gearFor, has(state.group[0].locks, person) ? 1 : 0};
}

void swapFirstTwo(Mask& mask)
{
    mask = static_cast<Mask>((mask & ~3u) | ((mask & 1u) << 1) | ((mask & 2u) >> 1));
}

void swapFirstTwo(const Plant& plant, State& state)
{
    std::swap(state.person[0], state.person[1]);
    for (Index point = 0; point < plant.points; ++point) {
        swapFirstTwo(state.group[point].locks);
        Index& holder = state.point[point].jobLock;
        holder = holder == kNone ? kNone : static_cast<Index>(1 - holder);
    }
}

bool areAlike(const Plant& plant)
{
    return plant.people == 2 && plant.person[0].authorised == plant.person[1].authorised &&
           plant.person[0].mayProve == plant.person[1].mayProve;
}

int holderRank(const Plant& plant, const State& state)
{
    int rank = 0; // which points the first of the two holds, against the second
    for (Index point = 0; point < plant.points; ++point) {
        const Index holder = state.point[point].jobLock;
        rank = rank * 3 + (holder == kNone ? 0 : holder == 0 ? 1 : -1);
    }
    return rank;
}

} // namespace

Merged merged(const Setting& setting, const World& world)
{
    const Plant& plant = setting.plant;
    Merged result{world};
    World& one = result.world;
    for (Index person = 0; person < plant.people; ++person) {
        if (one.state.person[person].gear != Gear::Signed)
            one.state.person[person].gearFor = kNone;
    }
    for (Index l = 0; l < plant.lamphouses; ++l) {
        LamphouseState& here = one.state.lamphouse[l];
        if (here.pause == Waiting::Over)
            here.pause = Waiting::None;
        if (here.count == Counting::Same || here.count == Counting::Answered)
            here.count = Counting::NotOpened;
        if (here.seat == Seat::Empty)
            here.seatingSeen = true;
    }
    if (!areAlike(plant))
        return result;
    const auto first = traitsOf(one.state, 0);
    const auto second = traitsOf(one.state, 1);
    if (first > second || (first == second && holderRank(plant, one.state) < 0)) {
        swapFirstTwo(plant, one.state);
        result.exchanged = true;
    }
    return result;
}

Worlds::Worlds(const Plant& plant)
    : m_plant(plant)
{
    World world;
    eachPart(world, [&](void*, std::size_t bytes) { m_width += bytes; });
    grow();
}

template<class Copy>
void Worlds::eachPart(World& world, Copy copy) const
{
    const auto parts = [&](auto& array, std::size_t used) { copy(array.data(), used * sizeof(array[0])); };
    State& state = world.state;
    parts(state.point, m_plant.points);
    parts(state.group, m_plant.points);
    parts(state.projector, m_plant.lamphouses);
    parts(state.lamphouse, m_plant.lamphouses);
    parts(state.person, m_plant.people);
    parts(state.lamp, m_plant.lamps);
    copy(&state.hurt, sizeof state.hurt);
    copy(&world.truth, sizeof world.truth);
}

void Worlds::pack(World world, unsigned char* to) const
{
    eachPart(world, [&](const void* part, std::size_t bytes) {
        std::memcpy(to, part, bytes);
        to += bytes;
    });
}

World Worlds::at(std::size_t number) const
{
    World world;
    const unsigned char* from = m_bytes.data() + number * m_width;
    eachPart(world, [&](void* part, std::size_t bytes) {
        std::memcpy(part, from, bytes);
        from += bytes;
    });
    return world;
}

std::size_t Worlds::hashAt(const unsigned char* bytes) const
{
    std::uint64_t hash = 0x9E3779B97F4A7C15ull;
    for (std::size_t index = 0; index < m_width; index += 8) {
        std::uint64_t part = 0;
        std::memcpy(&part, bytes + index, std::min<std::size_t>(8, m_width - index));
        hash = (hash ^ part) * 0xFF51AFD7ED558CCDull;
        hash ^= hash >> 32;
    }
    return hash ^ (hash >> 29);
}

std::size_t Worlds::slotOf(const unsigned char* packed) const
{
    const std::size_t mask = m_slots.size() - 1;
    std::size_t slot = hashAt(packed) & mask;
    while (m_slots[slot] != 0 &&
           std::memcmp(m_bytes.data() + (m_slots[slot] - 1) * m_width, packed, m_width) != 0)
        slot = (slot + 1) & mask;
    return slot;
}

std::size_t Worlds::find(const World& world) const
{
    std::array<unsigned char, sizeof(World)> packed;
    pack(world, packed.data());
    const std::uint32_t held = m_slots[slotOf(packed.data())];
    return held == 0 ? kMissing : held - 1;
}

bool Worlds::add(const World& world)
{
    std::array<unsigned char, sizeof(World)> packed;
    pack(world, packed.data());
    const std::size_t slot = slotOf(packed.data());
    if (m_slots[slot] != 0)
        return false;
    m_bytes.insert(m_bytes.end(), packed.begin(), packed.begin() + static_cast<std::ptrdiff_t>(m_width));
    m_slots[slot] = static_cast<std::uint32_t>(size());
    if (size() * 2 > m_slots.size())
        grow();
    return true;
}

void Worlds::grow()
{
    m_slots.assign(std::max<std::size_t>(1024, m_slots.size() * 2), 0);
    for (std::size_t number = 0; number < size(); ++number) {
        std::size_t slot = hashAt(m_bytes.data() + number * m_width) & (m_slots.size() - 1);
        while (m_slots[slot] != 0)
            slot = (slot + 1) & (m_slots.size() - 1);
        m_slots[slot] = static_cast<std::uint32_t>(number + 1);
    }
}

namespace {

bool isPlainSwapSigned(const Setting& setting, const World& world)
{
    const LamphouseState& first = world.state.lamphouse[0];
    if (first.heat != Heat::Lit || first.lamp != 1 || !world.state.lamp[1].booked ||
        world.state.lamp[0].place != Place::Boxed)
        return false;
    Act sign;
    sign.effect = Effect::Sign;
    sign.lamphouse = 0;
    sign.custodyDecided = true;
    sign.answered = true;
    return unmet(setting.plant, world.state, sign).none();
}

/// One enumeration under way.
struct Walk {
    const Setting& setting;
    Unmet forgiven;
    Merge merge;
    Enumeration result{setting.plant};
    std::vector<std::uint32_t> origins{};

    World asKept(const World& world) const
    {
        return merge == Merge::Alike ? merged(setting, world).world : world;
    }

    void add(const World& raw, std::uint32_t from)
    {
        if (!result.worlds.add(asKept(raw)))
            return;
        origins.push_back(from);
        result.broken = brokenState(setting, raw);
    }

    void count(const Move& move)
    {
        ++result.transitions;
        if (move.kind == Move::Kind::Act)
            ++result.effects[static_cast<std::size_t>(move.act.effect)];
        else if (move.kind == Move::Kind::Event)
            ++result.happenings[static_cast<std::size_t>(move.event.what)];
    }

    void expand(std::uint32_t number)
    {
        const World world = result.worlds.at(number);
        forEachMove(setting, world, forgiven, [&](const Move& move) {
            if (!result.broken.empty())
                return;
            count(move);
            const World next = moved(setting, world, move);
            result.broken = brokenMove(setting, world, move, next);
            if (result.broken.empty() && next != world)
                add(next, number);
            if (!result.broken.empty())
                trace(number, move);
        });
        if (isPlainSwapSigned(setting, world))
            ++result.plainSwaps;
    }

    void trace(std::uint32_t number, const Move& last)
    {
        std::vector<std::uint32_t> way;
        for (std::uint32_t index = number; index != kBeginning; index = origins[index])
            way.push_back(index);
        std::reverse(way.begin(), way.end());
        for (std::size_t step = 0; step + 1 < way.size(); ++step) {
            const World from = result.worlds.at(way[step]);
            const World to = result.worlds.at(way[step + 1]);
            bool told = false;
            forEachMove(setting, from, forgiven, [&](const Move& move) {
                if (told || asKept(moved(setting, from, move)) != to)
                    return;
                result.trace.push_back(describe(move));
                told = true;
            });
        }
        result.trace.push_back(describe(last));
    }
};

} // namespace

Enumeration enumerate(const Setting& setting, Unmet forgiven, std::size_t most, Merge merge)
{
    Walk walk{setting, forgiven, merge};
    for (const World& world : beginnings(setting))
        walk.add(world, kBeginning);

    std::uint32_t number = 0;
    while (number < walk.result.worlds.size() && walk.result.broken.empty() &&
           walk.result.worlds.size() < most)
        walk.expand(number++);
    walk.result.whole = walk.result.broken.empty() && number == walk.result.worlds.size();
    return std::move(walk.result);
}

} // namespace coldarc::test
