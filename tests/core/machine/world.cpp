#include "tests/core/machine/world.h"

#include "core/machine/make_safe.h"
#include "core/machine/reach.h"

#include <algorithm>
#include <cstring>

namespace coldarc::test {

using namespace machine;

namespace {

std::size_t hashOf(const World& world)
{
    std::uint64_t hash = 0x9E3779B97F4A7C15ull;
    const auto* bytes = reinterpret_cast<const unsigned char*>(&world);
    std::size_t index = 0;
    for (; index + 8 <= sizeof(World); index += 8) {
        std::uint64_t part = 0;
        std::memcpy(&part, bytes + index, 8);
        hash = (hash ^ part) * 0xFF51AFD7ED558CCDull;
        hash ^= hash >> 32;
    }
    for (; index < sizeof(World); ++index)
        hash = (hash ^ bytes[index]) * 0x100000001B3ull;
    return hash ^ (hash >> 29);
}

/// Worlds found so far, each with where it came from: an open-addressing table of positions in a list.
class Found {
public:
    struct Origin {
        std::uint32_t from;
        Move move;
    };
    /// Whether it is new.
    bool add(const World& world, std::uint32_t from)
    {
        if ((worlds.size() + 1) * 2 > m_slots.size())
            grow();
        std::size_t slot = hashOf(world) & (m_slots.size() - 1);
        while (m_slots[slot] != 0) {
            if (worlds[m_slots[slot] - 1] == world)
                return false;
            slot = (slot + 1) & (m_slots.size() - 1);
        }
        worlds.push_back(world);
        origins.push_back(from);
        m_slots[slot] = static_cast<std::uint32_t>(worlds.size());
        return true;
    }
    std::vector<World> worlds;
    std::vector<std::uint32_t> origins;

private:
    void grow()
    {
        m_slots.assign(std::max<std::size_t>(1024, m_slots.size() * 2), 0);
        for (std::size_t index = 0; index < worlds.size(); ++index) {
            std::size_t slot = hashOf(worlds[index]) & (m_slots.size() - 1);
            while (m_slots[slot] != 0)
                slot = (slot + 1) & (m_slots.size() - 1);
            m_slots[slot] = static_cast<std::uint32_t>(index + 1);
        }
    }
    std::vector<std::uint32_t> m_slots;
};

bool isTrulyLive(const Setting& setting, const World& world, Index lamphouse)
{
    return world.truth.mains && (world.truth.live & setting.plant.lamphouse[lamphouse].points) != 0;
}

Move ofAct(Effect effect, Index person, Index lamphouse)
{
    Move move;
    move.act.effect = effect;
    move.act.person = person;
    move.act.lamphouse = lamphouse;
    return move;
}

Move ofEvent(Happening what)
{
    Move move;
    move.kind = Move::Kind::Event;
    move.event.what = what;
    return move;
}

/// Everything that somebody could try, before the rules are asked.
class Tries {
public:
    Tries(const Setting& setting, const World& world, Unmet forgiven,
          const std::function<void(const Move&)>& take)
        : m_setting(setting)
        , m_plant(setting.plant)
        , m_world(world)
        , m_forgiven(forgiven)
        , m_take(take)
    {
    }

    void all()
    {
        for (Index lamphouse = 0; lamphouse < m_plant.lamphouses; ++lamphouse) {
            finds(lamphouse);
            byEngineer(lamphouse);
            byAnybody(lamphouse);
            waits(lamphouse);
        }
        points();
        events();
    }

private:
    void act(const Move& move)
    {
        if ((unmet(m_plant, m_world.state, move.act) & ~m_forgiven).none())
            m_take(move);
    }
    void event(const Move& move)
    {
        if (canHappen(m_plant, m_world.state, move.event))
            m_take(move);
    }
    const LamphouseState& here(Index lamphouse) const { return m_world.state.lamphouse[lamphouse]; }

    void finds(Index lamphouse)
    {
        const bool first = here(lamphouse).heat == Heat::Unknown;
        if (!first && !m_setting.rare.findAgain)
            return;
        Move move = ofAct(Effect::Find, 0, lamphouse);
        Seen& seen = move.act.seen;
        if (!first) {
            // Seen again after a gap: as it is, lamp off seen without the fan.
            seen.lit = here(lamphouse).heat == Heat::Lit;
            seen.fanRuns = false;
            seen.drive = m_world.state.projector[m_plant.lamphouse[lamphouse].projector].drive;
            seen.extraction = m_world.state.projector[m_plant.lamphouse[lamphouse].projector].extraction;
            for (Index point = 0; point < m_plant.points; ++point)
                seen.pointsOff = static_cast<Mask>(
                    seen.pointsOff | (m_world.state.point[point].power != Power::On ? maskOf(point) : 0));
            seen.housingOpen = here(lamphouse).housingOpen;
            seen.guardOpen = here(lamphouse).guardOpen;
            seen.dowserOpen = here(lamphouse).dowserOpen;
            act(move);
            return;
        }
        const Index lamp = lamphouse == 0 ? 0 : static_cast<Index>(m_plant.lamps - 1);
        seen.lamp = lamp;
        seen.adaptorOn = m_plant.lamphouse[lamphouse].hasAdaptor && m_plant.lamp[lamp].needsAdaptor;
        seen.extraction = true;
        const auto isOff = [&](const LamphouseState& l) { return l.heat != Heat::Lit; };
        const Mask fed = lamphousesOnPoints(m_plant, move.act);
        bool nobodyLit = true;
        bool nobodyOpen = true;
        for (Index other = 0; other < m_plant.lamphouses; ++other) {
            nobodyLit = nobodyLit && (!has(fed, other) || isOff(here(other)));
            nobodyOpen = nobodyOpen && (!has(fed, other) || isShut(m_world.state, other));
        }
        for (const Life life : {Life::Below, Life::PastEnd}) {
            if (life == Life::PastEnd && !m_setting.rare.pastEnd)
                continue;
            seen.life = life;
            seen.lit = nobodyOpen &&
                       everyPoint(m_plant, m_plant.lamphouse[lamphouse].points,
                                  [&](Index point) { return m_world.state.point[point].power == Power::On; });
            if (seen.lit) {
                seen.dowserOpen = true;
                act(move);
                seen.dowserOpen = false;
            }
            seen.lit = false;
            seen.fanRuns = true;
            act(move);
            seen.fanRuns = false;
            seen.drive = m_world.state.projector[m_plant.lamphouse[lamphouse].projector].drive;
            for (Index point = 0; point < m_plant.points; ++point)
                seen.pointsOff = static_cast<Mask>(
                    seen.pointsOff | (m_world.state.point[point].power == Power::Off ? maskOf(point) : 0));
            act(move);
            seen.pointsOff = 0;
        }
        if (!m_setting.rare.foundOpen || !nobodyLit)
            return;
        seen.guardOpen = true;
        seen.housingOpen = m_plant.lamphouse[lamphouse].hasHousing;
        seen.drive = Drive::Off;
        for (const Seat seat : {Seat::Clamped, Seat::Entered, Seat::Empty}) {
            seen.seat = seat;
            act(move);
        }
    }

    void byEngineer(Index lamphouse)
    {
        const Index engineer = m_setting.engineers.front();
        for (const Effect effect :
             {Effect::ExtractionOn, Effect::DowserShut, Effect::DowserOpen, Effect::TellBefore,
              Effect::TellAgain, Effect::LampOff, Effect::Standby, Effect::Relieve, Effect::OpenHousing,
              Effect::ShutHousing, Effect::PowerUp, Effect::TagOut})
            act(ofAct(effect, engineer, lamphouse));

        Move count = ofAct(Effect::Count, engineer, lamphouse);
        count.act.outcome = Outcome::Same;
        act(count);
        if (m_setting.rare.countDiffers && here(lamphouse).count == Counting::Due) {
            count.act.outcome = Outcome::Differs;
            act(count);
        }

        Move attempt = ofAct(Effect::TryStart, engineer, lamphouse);
        attempt.act.supplySeen = m_world.truth.mains;
        attempt.act.outcome = isTrulyLive(m_setting, m_world, lamphouse) && !m_world.truth.deadControl
                                  ? Outcome::Started
                                  : Outcome::NoResponse;
        act(attempt);

        for (Index lamp = 0; lamp < m_plant.lamps; ++lamp) {
            if (m_plant.lamp[lamp].lamphouse != lamphouse || !m_setting.rare.paper)
                continue;
            Move move = ofAct(Effect::MatchBox, engineer, lamphouse);
            move.act.lamp = lamp;
            move.act.outcome = Outcome::Agrees;
            if (m_world.state.lamp[lamp].match == Match::No)
                act(move);
            move.act.effect = Effect::BookIn;
            act(move);
            move.act.effect = Effect::KeyController;
            act(move);
        }
        strikes(lamphouse, engineer);
    }

    void strikes(Index lamphouse, Index engineer)
    {
        Move move = ofAct(Effect::Strike, engineer, lamphouse);
        if (isTrulyLive(m_setting, m_world, lamphouse)) {
            move.act.outcome = Outcome::Lit;
            act(move);
        }
        if (m_setting.rare.failedStrike) {
            move.act.outcome = Outcome::NoLight;
            act(move);
        }
        if (m_setting.rare.burst) {
            move.act.outcome = Outcome::Burst;
            act(move);
        }
    }

    void byAnybody(Index lamphouse)
    {
        for (Index person = 0; person < m_plant.people; ++person) {
            for (const Effect effect :
                 {Effect::GearOn, Effect::EnterZone, Effect::ExposeLamp, Effect::WorkInside, Effect::LampOut,
                  Effect::ShutGuard, Effect::LeaveZone, Effect::LockOn, Effect::LockOff})
                act(ofAct(effect, person, lamphouse));
            if (lamphouse == 0)
                act(ofAct(Effect::GearOff, person, lamphouse));

            Move clamp = ofAct(Effect::ClampLamp, person, lamphouse);
            clamp.act.outcome = Outcome::Agrees;
            act(clamp);

            Move test = ofAct(Effect::ProveAbsence, person, lamphouse);
            test.act.supplySeen = m_world.truth.mains;
            test.act.testerProved = true;
            test.act.outcome =
                isTrulyLive(m_setting, m_world, lamphouse) ? Outcome::Voltage : Outcome::Absent;
            act(test);
            test.act.behindGuard = true;
            if (m_plant.lamphouse[lamphouse].testBehindGuard)
                act(test);

            for (Index lamp = 0; lamp < m_plant.lamps; ++lamp) {
                if (m_plant.lamp[lamp].lamphouse != lamphouse)
                    continue;
                for (const Effect effect : {Effect::Unbox, Effect::AdaptorOff, Effect::AdaptorOn,
                                            Effect::LampIn, Effect::BoxLamp}) {
                    Move move = ofAct(effect, person, lamphouse);
                    move.act.lamp = lamp;
                    move.act.outcome = Outcome::Agrees;
                    act(move);
                }
            }
        }
    }

    void points()
    {
        const Index engineer = m_setting.engineers.front();
        for (Index point = 0; point < m_plant.points; ++point) {
            const Index lamphouse = firstFed(point);
            Move move = ofAct(Effect::Isolate, engineer, lamphouse);
            move.act.point = point;
            move.act.moved = point;
            if (m_world.state.point[point].power == Power::On)
                act(move);
            if (m_setting.rare.otherBreaker && m_world.state.point[point].power == Power::On) {
                for (Index other = 0; other < m_plant.points; ++other) {
                    move.act.moved = other;
                    if (other != point)
                        act(move);
                }
            }
            move.act.moved = kNone;
            move.act.effect = Effect::Restore;
            if (m_world.state.point[point].power != Power::On)
                act(move);
            if (m_setting.rare.willNotLock) {
                move.act.effect = Effect::LockOn;
                move.act.outcome = Outcome::WillNotLock;
                act(move);
                move.act.outcome = Outcome::Plain;
            }
            if (m_plant.pointsInGroup(m_plant.point[point].group) == 1)
                continue;
            for (Index person : m_setting.engineers) {
                move.act.person = person;
                move.act.effect = Effect::LockOn;
                if (m_world.state.point[point].jobLock == kNone)
                    act(move);
                move.act.effect = Effect::JobLockOff;
                act(move);
            }
        }
    }

    Index firstFed(Index point) const
    {
        Index lamphouse = 0;
        while (!has(m_plant.point[point].feeds, lamphouse))
            ++lamphouse;
        return lamphouse;
    }

    void waits(Index lamphouse)
    {
        for (const Wait wait : {Wait::Cool, Wait::Bleed, Wait::StrikePause, Wait::Settle}) {
            Move move;
            move.kind = Move::Kind::WaitOver;
            move.wait = wait;
            move.lamphouse = lamphouse;
            if (whenOver(m_world.state, wait, lamphouse) != m_world.state)
                m_take(move);
        }
    }

    void events()
    {
        const Rare& rare = m_setting.rare;
        for (Index lamphouse = 0; lamphouse < m_plant.lamphouses; ++lamphouse) {
            for (const Happening what : {Happening::FanStopped, Happening::WentOut, Happening::AdaptorLost,
                                         Happening::CountAnswered, Happening::LockRemoved}) {
                if ((what == Happening::FanStopped || what == Happening::WentOut) && !rare.fan)
                    continue;
                if ((what == Happening::AdaptorLost && !rare.adaptorLost) ||
                    (what == Happening::LockRemoved && !rare.lockRemoved))
                    continue;
                Move move = ofEvent(what);
                move.event.lamphouse = lamphouse;
                move.event.person = m_setting.engineers.front();
                event(move);
            }
        }
        for (Index lamp = 0; lamp < m_plant.lamps; ++lamp) {
            for (const Happening what : {Happening::LampBurst, Happening::LampUnfit, Happening::WrongLamp}) {
                if ((what == Happening::LampBurst && !rare.burst) ||
                    (what == Happening::LampUnfit && !rare.unfit) ||
                    (what == Happening::WrongLamp && !rare.wrongLamp))
                    continue;
                if (what == Happening::LampBurst && m_world.state.lamp[lamp].place == Place::SealedBox)
                    continue;
                Move move = ofEvent(what);
                move.event.lamp = lamp;
                event(move);
            }
        }
        for (Index person = 0; person < m_plant.people; ++person) {
            Move damaged = ofEvent(Happening::GearDamaged);
            damaged.event.person = person;
            if (rare.gearDamaged)
                event(damaged);
            for (Index to = 0; rare.passOn && to < m_plant.people; ++to) {
                Move pass = ofEvent(Happening::PassedOn);
                pass.event.person = person;
                pass.event.to = to;
                event(pass);
            }
        }
        if (rare.hurt && !m_world.state.hurt)
            event(ofEvent(Happening::SomeoneHurt));
        if (rare.resumed)
            event(ofEvent(Happening::Resumed));
        if (rare.mains) {
            Move move = ofEvent(Happening::PowerFailed);
            move.event.point = 0;
            if (m_world.truth.mains)
                m_take(move); // not everybody notices: what is lit goes out, the rest is hidden
            Move back;
            back.kind = Move::Kind::MainsBack;
            if (!m_world.truth.mains)
                m_take(back);
        }
    }

    const Setting& m_setting;
    const Plant& m_plant;
    const World& m_world;
    Unmet m_forgiven;
    const std::function<void(const Move&)>& m_take;
};

} // namespace

Setting oneLamphouse()
{
    Setting setting;
    setting.name = "one lamphouse, two points, engineer and trainee";
    Plant& plant = setting.plant;
    plant.points = 2;
    plant.lamphouses = 1;
    plant.people = 2;
    plant.lamps = 2;
    plant.point[0] = {true, 1, 0};
    plant.point[1] = {true, 1, 0};
    plant.lamphouse[0].points = 3;
    plant.lamphouse[0].hasAdaptor = true;
    plant.lamphouse[0].testNeedsHousingOpen = true;
    plant.lamphouse[0].testBehindGuard = true;
    plant.lamphouse[0].strikeLimit = 2;
    plant.person[0] = {true, true};
    plant.person[1] = {false, false};
    plant.lamp[0] = {1, false, true, 0};
    plant.lamp[1] = {2, true, true, 0};
    setting.engineers = {0};
    return setting;
}

Setting twoLamphouses(Covers covers, Crew crew)
{
    Setting setting;
    setting.name = "two lamphouses on one point";
    Plant& plant = setting.plant;
    plant.points = 1;
    plant.lamphouses = 2;
    plant.people = crew == Crew::TwoEngineers ? 2 : 1;
    plant.lamps = 3;
    plant.point[0] = {true, 3, 0};
    for (Index lamphouse = 0; lamphouse < 2; ++lamphouse) {
        plant.lamphouse[lamphouse].projector = 0;
        plant.lamphouse[lamphouse].points = 1;
        plant.lamphouse[lamphouse].hasHousing = covers == Covers::Two;
        plant.lamphouse[lamphouse].hasDowser = false;
        plant.lamphouse[lamphouse].strikeLimit = 1;
    }
    for (Index person = 0; person < plant.people; ++person)
        plant.person[person] = {true, true};
    plant.lamp[0] = {1, false, true, 0}; // found in the first
    plant.lamp[1] = {1, false, true, 0}; // spare
    plant.lamp[2] = {1, false, true, 1}; // found in the second
    setting.engineers = {0};
    if (crew == Crew::TwoEngineers)
        setting.engineers.push_back(1);
    return setting;
}

std::vector<World> beginnings(const Setting& setting)
{
    World world;
    world.truth.live = static_cast<Mask>((1u << setting.plant.points) - 1);
    if (!setting.rare.paper) {
        world.state.lamp[1].match = Match::Both;
        world.state.lamp[1].booked = true;
        for (Index lamphouse = 0; lamphouse < setting.plant.lamphouses; ++lamphouse)
            world.state.lamphouse[lamphouse].controllerType = setting.plant.lamp[1].type;
    }
    std::vector<World> worlds{world};
    if (setting.rare.wrongBreaker) {
        world.truth.wrongBreaker = true;
        worlds.push_back(world);
        world.truth.deadControl = true;
        worlds.push_back(world);
    }
    return worlds;
}

void forEachMove(const Setting& setting, const World& world, Unmet forgiven,
                 const std::function<void(const Move&)>& take)
{
    Tries(setting, world, forgiven, take).all();
}

World moved(const Setting& setting, const World& world, const Move& move)
{
    World next = world;
    switch (move.kind) {
    case Move::Kind::WaitOver:
        next.state = whenOver(world.state, move.wait, move.lamphouse);
        return next;
    case Move::Kind::MainsBack:
        next.truth.mains = true;
        return next;
    case Move::Kind::Event:
        if (move.event.what == Happening::PowerFailed) {
            next.truth.mains = false;
            for (Index point = 0; point < setting.plant.points; ++point) {
                Event failed = move.event;
                failed.point = point;
                if (canHappen(setting.plant, next.state, failed))
                    next.state = after(setting.plant, next.state, failed);
            }
            return next;
        }
        next.state = after(setting.plant, world.state, move.event);
        return next;
    case Move::Kind::Act:
        break;
    }
    next.state = after(setting.plant, world.state, move.act);
    if (move.act.effect == Effect::Isolate && move.act.moved != kNone &&
        !(world.truth.wrongBreaker && move.act.moved == 0))
        next.truth.live = static_cast<Mask>(next.truth.live & ~maskOf(move.act.moved));
    if (move.act.effect == Effect::Restore) {
        next.truth.live = static_cast<Mask>(next.truth.live | maskOf(move.act.point));
        if (world.state.point[move.act.point].power == Power::Doubted)
            next.truth.wrongBreaker = false; // looked for, and found, the right one
    }
    if (move.act.effect == Effect::Find && world.state.lamphouse[move.act.lamphouse].heat == Heat::Unknown)
        next.truth.live = static_cast<Mask>(next.truth.live & ~move.act.seen.pointsOff);
    return next;
}

std::string brokenInvariant(const Setting& setting, const World& before, const Move& move, const World& after)
{
    const Plant& plant = setting.plant;
    const State& state = after.state;
    for (Index l = 0; l < plant.lamphouses; ++l) {
        const LamphouseState& here = state.lamphouse[l];
        if (here.leftExposed || here.heat == Heat::Unknown)
            continue; // the invariants hold from the first time it is shut
        const Mask locks = state.group[plant.lamphouse[l].group].locks;
        const bool doubted = !everyPoint(plant, plant.lamphouse[l].points, [&](Index point) {
            return state.point[point].power != Power::Doubted;
        });
        const bool exposed = isExposed(plant, state, l);
        if (exposed && !doubted) {
            if (here.heat != Heat::Cold)
                return "A1 a bare lamp that is not cold";
            if (isTrulyLive(setting, after, l))
                return "A1 a bare lamp under a live supply";
            if (here.charge != Charge::Relieved)
                return "A1 a bare lamp with stored charge";
        }
        for (Index person = 0; person < plant.people; ++person) {
            if (state.person[person].at != l)
                continue;
            if ((exposed || here.housingOpen) && state.person[person].gear == Gear::Off)
                return "A2 somebody in the zone without gear";
            if (exposed && !has(locks, person))
                return "A2 somebody in the zone without an own lock";
        }
        if (exposed && isZoneEmpty(plant, state, l) && !state.hurt)
            return "A2 a bare lamp with nobody there";
        if (here.housingOpen || here.guardOpen) {
            for (Index point = 0; point < plant.points; ++point) {
                if (has(plant.lamphouse[l].points, point) && !isLocked(plant, state, point))
                    return "A3 open without a lock on every point";
            }
        }
        if (lampInHand(plant, state, l) != kNone && !here.guardOpen)
            return "A4 a lamp in hand with the guard shut";
        if (here.heat == Heat::Lit) {
            if (!isShut(state, l) || here.seat != Seat::Clamped)
                return "A5 lit but not shut and clamped";
            if (locks != 0 && !doubted)
                return "A5 lit under a lock";
            const bool seenNow = move.kind == Move::Kind::Act && move.act.effect == Effect::Find;
            if (before.state.lamphouse[l].heat != Heat::Lit && before.state.hurt && !seenNow)
                return "D9 lit after someone was hurt";
        }
        if (locks == 0 && (here.housingOpen || here.seat == Seat::Entered))
            return "A6 open or loose without a lock";
        if (here.seat == Seat::Entered && !here.guardOpen)
            return "A7 a loose lamp under a shut guard";
        for (Index m = 0; m < plant.lamphouses; ++m) {
            if (m != l && (plant.lamphouse[m].points & plant.lamphouse[l].points) != 0 && !isShut(state, m) &&
                !state.lamphouse[m].leftExposed && here.heat == Heat::Lit && !doubted)
                return "lit while another lamphouse on the same point is open";
        }
        int bare = 0;
        for (Index lamp = 0; lamp < plant.lamps; ++lamp) {
            if (plant.lamp[lamp].lamphouse == l && state.lamp[lamp].place == Place::InHand)
                ++bare;
        }
        if (bare + (here.guardOpen && here.seat != Seat::Empty ? 1 : 0) > 1)
            return "B5 two bare lamps";
    }
    int open = 0;
    int authorised = 0;
    for (Index l = 0; l < plant.lamphouses; ++l)
        open += state.lamphouse[l].guardOpen && !state.lamphouse[l].leftExposed ? 1 : 0;
    for (Index person = 0; person < plant.people; ++person)
        authorised += plant.person[person].authorised ? 1 : 0;
    if (open > authorised)
        return "more lamphouses bare than authorised engineers";
    if (move.kind != Move::Kind::Act)
        return {};

    const Act& act = move.act;
    if (act.effect == Effect::Isolate) {
        for (Index l = 0; l < plant.lamphouses; ++l) {
            if (has(plant.point[act.point].feeds, l) && before.state.lamphouse[l].heat != Heat::Cold)
                return "A8 isolated while hot";
        }
        if (before.state.group[plant.point[act.point].group].told != Told::Before)
            return "B1 isolated before people were told";
    }
    if (act.effect == Effect::TryStart && !isZoneEmpty(plant, before.state, act.lamphouse))
        return "B4 start tried with somebody in the zone";
    if (act.effect == Effect::TryStart && (!isShut(before.state, act.lamphouse) ||
                                           before.state.lamphouse[act.lamphouse].charge != Charge::Relieved))
        return "B4 start tried open or charged";
    if (act.effect == Effect::OpenHousing && !before.state.lamphouse[act.lamphouse].startTried)
        return "B2 opened before a start was tried";
    if (act.effect == Effect::ExposeLamp && !holds(plant, before.state, act, Demand::Geared))
        return "B3 exposed before everybody there was geared";
    if (act.effect == Effect::ExposeLamp || act.effect == Effect::WorkInside ||
        act.effect == Effect::LampOut || act.effect == Effect::Unbox) {
        const LamphouseState& here = before.state.lamphouse[act.lamphouse];
        if (!here.startTried || !here.absent)
            return "B2 bared before it was proved dead";
    }
    if ((act.effect == Effect::LampOut || act.effect == Effect::Unbox) &&
        plant.lamphouse[act.lamphouse].testBehindGuard && !before.state.lamphouse[act.lamphouse].absentBehind)
        return "B2 lamp moved before voltage was proved absent behind the guard";
    const bool lastLock = (act.effect == Effect::LockOff || act.effect == Effect::JobLockOff) &&
                          after.state
                                  .group[act.point != kNone ? plant.point[act.point].group
                                                            : plant.lamphouse[act.lamphouse].group]
                                  .locks == 0;
    if (lastLock) {
        for (Index l = 0; l < plant.lamphouses; ++l) {
            const LamphouseState& here = before.state.lamphouse[l];
            if (here.count == Counting::Due || here.count == Counting::Differs)
                return "B6 last lock off before the count was answered";
            if (!isZoneEmpty(plant, before.state, l))
                return "B7 last lock off with somebody in the zone";
        }
        if (before.state.hurt)
            return "D9 a lock came off after someone was hurt";
    }
    if (act.effect == Effect::LockOff && !lastLock) {
        const Mask staying = after.state.group[plant.lamphouse[act.lamphouse].group].locks;
        bool authorisedStays = false;
        for (Index person = 0; person < plant.people; ++person)
            authorisedStays = authorisedStays || (has(staying, person) && plant.person[person].authorised);
        if (!authorisedStays)
            return "a trainee's lock was left the last";
    }
    if (act.effect == Effect::Strike) {
        const LamphouseState& here = before.state.lamphouse[act.lamphouse];
        if (before.state.group[plant.lamphouse[act.lamphouse].group].told != Told::Again)
            return "B8 struck before people were told again";
        if (here.seat != Seat::Clamped || here.dowserOpen || !here.seatingSeen)
            return "B9 struck unclamped, unseen or with the dowser open";
        if (here.lamp != kNone && here.controllerType != plant.lamp[here.lamp].type)
            return "B9 struck with another type set in the controller";
        if (here.lamp != kNone && (here.adaptor == here.lamp) != plant.lamp[here.lamp].needsAdaptor)
            return "B9 struck with the adaptor wrong";
        if (here.lamp != kNone && !before.state.lamp[here.lamp].booked &&
            before.state.lamp[here.lamp].life == Life::New)
            return "B9 struck before it was booked in";
        if (here.lamp != kNone && state.lamp[here.lamp].unfit)
            return "struck an unfit lamp";
        if (here.lamp != kNone && state.lamp[here.lamp].life == Life::PastEnd &&
            !state.lamp[here.lamp].booked)
            return "struck a lamp past its end";
        if (!before.state.projector[plant.lamphouse[act.lamphouse].projector].extraction)
            return "struck without extraction";
        if (here.pause == Waiting::Running ||
            here.failedStrikes >= plant.lamphouse[act.lamphouse].strikeLimit)
            return "D6 struck in the pause or past the limit";
    }
    if ((act.effect == Effect::PeakAgain || act.effect == Effect::MeasureScreen) &&
        before.state.lamphouse[act.lamphouse].settle != Waiting::Over)
        return "B10 the peak that counts before the light settled";
    if (act.effect == Effect::BookIn && before.state.lamp[act.lamp].match != Match::Both)
        return "booked in before it matched";
    if (act.effect == Effect::Unbox && before.state.lamp[act.lamp].life == Life::PastEnd)
        return "D8 a lamp past its end taken for refitting";
    return {};
}

std::string describe(const Move& move)
{
    const auto number = [](Index index) { return index == kNone ? std::string("-") : std::to_string(index); };
    switch (move.kind) {
    case Move::Kind::WaitOver:
        return "wait " + std::to_string(static_cast<int>(move.wait)) + " over at " + number(move.lamphouse);
    case Move::Kind::MainsBack:
        return "mains back";
    case Move::Kind::Event:
        return "event " + std::to_string(static_cast<int>(move.event.what)) + " person " +
               number(move.event.person) + " lamphouse " + number(move.event.lamphouse) + " lamp " +
               number(move.event.lamp);
    case Move::Kind::Act:
        break;
    }
    return std::string(wordOf(move.act.effect)) + " person " + number(move.act.person) + " lamphouse " +
           number(move.act.lamphouse) + " point " + number(move.act.point) + " moved " +
           number(move.act.moved) + " lamp " + number(move.act.lamp) + " outcome " +
           std::to_string(static_cast<int>(move.act.outcome));
}

Enumeration enumerate(const Setting& setting, Unmet forgiven, std::size_t most)
{
    Enumeration result;
    Found found;
    for (const World& world : beginnings(setting))
        found.add(world, 0xFFFFFFFFu);

    const auto traceTo = [&](std::uint32_t at, const Move& last) {
        std::vector<std::uint32_t> way;
        for (std::uint32_t index = at; index != 0xFFFFFFFFu; index = found.origins[index])
            way.push_back(index);
        std::reverse(way.begin(), way.end());
        for (std::size_t step = 0; step + 1 < way.size(); ++step) {
            const World from = found.worlds[way[step]];
            bool told = false;
            forEachMove(setting, from, forgiven, [&](const Move& move) {
                if (!told && moved(setting, from, move) == found.worlds[way[step + 1]]) {
                    result.trace.push_back(describe(move));
                    told = true;
                }
            });
        }
        result.trace.push_back(describe(last));
    };

    for (std::uint32_t at = 0;
         at < found.worlds.size() && result.broken.empty() && found.worlds.size() < most; ++at) {
        const World world = found.worlds[at];
        forEachMove(setting, world, forgiven, [&](const Move& move) {
            if (!result.broken.empty())
                return;
            ++result.transitions;
            if (move.kind == Move::Kind::Act)
                ++result.effects[static_cast<std::size_t>(move.act.effect)];
            else if (move.kind == Move::Kind::Event)
                ++result.happenings[static_cast<std::size_t>(move.event.what)];
            const World next = moved(setting, world, move);
            result.broken = brokenInvariant(setting, world, move, next);
            if (!result.broken.empty()) {
                traceTo(at, move);
                return;
            }
            found.add(next, at);
        });
        Act sign;
        sign.effect = Effect::Sign;
        sign.lamphouse = 0;
        sign.custodyDecided = true;
        sign.answered = true;
        const LamphouseState& first = world.state.lamphouse[0];
        if (first.heat == Heat::Lit && first.lamp == 1 && world.state.lamp[1].booked &&
            world.state.lamp[0].place == Place::Boxed && unmet(setting.plant, world.state, sign).none())
            ++result.plainSwaps;
    }
    result.states = found.worlds.size();
    result.worlds = std::move(found.worlds);
    return result;
}

} // namespace coldarc::test
