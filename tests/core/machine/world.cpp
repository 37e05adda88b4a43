#include "tests/core/machine/world.h"

#include "core/machine/reach.h"

#include <algorithm>

namespace coldarc::test {

using namespace machine;

bool isTrulyLive(const Setting& setting, const World& world, Index lamphouse)
{
    return world.truth.mains && (world.truth.live & setting.plant.lamphouse[lamphouse].points) != 0;
}

namespace {

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

    Index foundLamp(Index lamphouse) const
    {
        return lamphouse == 0 ? Index{0} : static_cast<Index>(m_plant.lamps - 1);
    }

    void finds(Index lamphouse)
    {
        const bool first = here(lamphouse).heat == Heat::Unknown;
        if (!first && !m_setting.rare.findAgain && !here(lamphouse).unseen)
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
            // Somebody lit it meanwhile.
            seen.lit = seen.fanRuns =
                isTrulyLive(m_setting, m_world, lamphouse) && here(lamphouse).seat == Seat::Clamped &&
                isShut(m_world.state, lamphouse) && isZoneEmpty(m_plant, m_world.state, lamphouse);
            seen.drive = Drive::On;
            seen.pointsOff = 0;
            if (seen.lit && here(lamphouse).unseen)
                act(move);
            return;
        }
        const Index lamp = foundLamp(lamphouse);
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
                seen.extraction = false;
                if (m_setting.rare.extractionOff)
                    act(move);
                seen.extraction = true;
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
            if (m_setting.rare.held) {
                seen.held = m_plant.lamphouse[lamphouse].points;
                act(move);
                seen.held = 0;
            }
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
              Effect::ShutHousing, Effect::PowerUp, Effect::Settle, Effect::Peak, Effect::PeakAgain,
              Effect::MeasureScreen})
            act(ofAct(effect, engineer, lamphouse));
        if (m_setting.tags)
            act(ofAct(Effect::TagOut, engineer, lamphouse));
        if (here(lamphouse).heat == Heat::Unknown) {
            act(ofAct(Effect::Look, engineer, lamphouse));
            act(ofAct(Effect::CountOpening, engineer, lamphouse));
        }
        signs(lamphouse, engineer);

        Move count = ofAct(Effect::Count, engineer, lamphouse);
        count.act.outcome = Outcome::Same;
        if (here(lamphouse).count == Counting::Due || here(lamphouse).count == Counting::Differs)
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
            if (m_plant.lamp[lamp].lamphouse != lamphouse || !m_setting.rare.paper ||
                lamp == foundLamp(lamphouse))
                continue;
            Move move = ofAct(Effect::MatchBox, engineer, lamphouse);
            move.act.lamp = lamp;
            move.act.outcome = Outcome::Agrees;
            if (m_world.state.lamp[lamp].match == Match::No)
                act(move);
            move.act.effect = Effect::BookIn;
            if (!m_world.state.lamp[lamp].booked)
                act(move);
            move.act.effect = Effect::KeyController;
            act(move);
        }
        strikes(lamphouse, engineer);
    }

    void signs(Index lamphouse, Index engineer)
    {
        for (const bool custodyDecided : {true, false}) {
            for (const bool answered : {true, false}) {
                Move move = ofAct(Effect::Sign, engineer, lamphouse);
                move.act.custodyDecided = custodyDecided;
                move.act.answered = answered;
                if (lamphouse == 0)
                    act(move);
            }
        }
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
                 {Effect::GearOn, Effect::EnterZone, Effect::ExposeLamp, Effect::WorkInside,
                  Effect::ShutGuard, Effect::LeaveZone, Effect::LockOn, Effect::LockOff})
                act(ofAct(effect, person, lamphouse));
            if (here(lamphouse).lamp != kNone) // from an empty seat nothing comes
                act(ofAct(Effect::LampOut, person, lamphouse));
            if (lamphouse == 0)
                act(ofAct(Effect::GearOff, person, lamphouse));

            Move clamp = ofAct(Effect::ClampLamp, person, lamphouse);
            clamp.act.outcome = Outcome::Agrees;
            if (here(lamphouse).lamp != kNone)
                act(clamp);
            clamp.act.outcome = Outcome::Disagrees;
            if (here(lamphouse).lamp != kNone && m_setting.rare.seatingWrong)
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
            // A dead tester shows nothing wherever it is put.
            test.act.behindGuard = false;
            test.act.testerProved = false;
            test.act.outcome = Outcome::Absent;
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
            if (m_world.state.point[point].power != Power::Off)
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
            move.act.effect = Effect::LockOn;
            for (Index person : m_setting.engineers) {
                move.act.person = person;
                if (m_world.state.point[point].jobLock == kNone)
                    act(move);
            }
            move.act.effect = Effect::JobLockOff;
            for (Index person = 0; person < m_plant.people; ++person) {
                move.act.person = person;
                if (m_world.state.point[point].jobLock != kNone)
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
            for (const Happening what :
                 {Happening::FanStopped, Happening::WentOut, Happening::AdaptorLost, Happening::CountAnswered,
                  Happening::LockRemoved, Happening::FoundOpen}) {
                if ((what == Happening::FanStopped || what == Happening::WentOut) && !rare.fan)
                    continue;
                if ((what == Happening::FoundOpen && !rare.foundOpen) ||
                    (what == Happening::AdaptorLost && !rare.adaptorLost) ||
                    (what == Happening::LockRemoved && !rare.lockRemoved))
                    continue;
                Move move = ofEvent(what);
                move.event.lamphouse = lamphouse;
                for (Index person = 0; person < m_plant.people; ++person) {
                    move.event.person = person;
                    if (person == 0 || what == Happening::LockRemoved)
                        event(move);
                }
            }
        }
        for (Index point = 0; rare.willNotLock && point < m_plant.points; ++point) {
            Move move = ofEvent(Happening::PointWillNotLock);
            move.event.point = point;
            event(move);
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
        if (rare.leftAlone)
            leftAlone();
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

    /// Whoever looks sees how it is.
    void leftAlone()
    {
        Move alone = ofEvent(Happening::LeftAlone);
        event(alone);
        bool isSafe = true;
        for (Index lamphouse = 0; lamphouse < m_plant.lamphouses; ++lamphouse)
            isSafe =
                isSafe && isShut(m_world.state, lamphouse) && isZoneEmpty(m_plant, m_world.state, lamphouse);
        for (Index point = 0; isSafe && point < m_plant.points; ++point) {
            alone.event.point = point; // switched on by somebody
            if (m_world.state.point[point].power == Power::Off)
                event(alone);
        }
        for (Index lamphouse = 0; lamphouse < m_plant.lamphouses; ++lamphouse) {
            const bool isSo = everyPoint(m_plant, m_plant.lamphouse[lamphouse].points, [&](Index point) {
                return m_world.state.point[point].power != Power::Off || !has(m_world.truth.live, point);
            });
            Move look = ofEvent(isSo ? Happening::LocksSeen : Happening::LocksMissed);
            look.event.lamphouse = lamphouse;
            event(look);
            look.event.what = Happening::LocksMissed; // or cannot say
            if (isSo)
                event(look);
        }
    }

    const Setting& m_setting;
    const Plant& m_plant;
    const World& m_world;
    Unmet m_forgiven;
    const std::function<void(const Move&)>& m_take;
};

} // namespace

namespace {

void takeOn(Setting& setting, Crew crew)
{
    Plant& plant = setting.plant;
    plant.people = crew == Crew::OneEngineer ? 1 : 2;
    plant.person[0] = {true, true};
    setting.engineers = {0};
    if (crew != Crew::TwoEngineers)
        return;
    plant.person[1] = {true, true};
    setting.engineers.push_back(1);
}

} // namespace

Setting oneLamphouse(Crew crew)
{
    Setting setting;
    Plant& plant = setting.plant;
    plant.points = 2;
    plant.lamphouses = 1;
    plant.lamps = 2;
    plant.point[0] = {true, 1, 0};
    plant.point[1] = {true, 1, 0};
    plant.lamphouse[0].points = 3;
    plant.lamphouse[0].hasAdaptor = true;
    plant.lamphouse[0].testNeedsHousingOpen = true;
    plant.lamphouse[0].testBehindGuard = true;
    plant.lamphouse[0].strikeLimit = 2;
    plant.lamp[0] = {1, false, true, 0};
    plant.lamp[1] = {2, true, true, 0};
    takeOn(setting, crew);
    return setting;
}

Setting twoLamphouses(Covers covers, Crew crew)
{
    Setting setting;
    Plant& plant = setting.plant;
    plant.points = 1;
    plant.lamphouses = 2;
    plant.lamps = 3;
    plant.point[0] = {true, 3, 0};
    for (Index lamphouse = 0; lamphouse < 2; ++lamphouse) {
        plant.lamphouse[lamphouse].projector = 0;
        plant.lamphouse[lamphouse].points = 1;
        plant.lamphouse[lamphouse].hasHousing = covers == Covers::Two;
        plant.lamphouse[lamphouse].hasDowser = false;
        plant.lamphouse[lamphouse].strikeLimit = 1;
    }
    plant.lamp[0] = {1, false, true, 0}; // found in the first
    plant.lamp[1] = {1, false, true, 0}; // spare
    plant.lamp[2] = {1, false, true, 1}; // found in the second
    takeOn(setting, crew);
    return setting;
}

namespace {

Setting named(Setting setting, const char* name, Size size, void (*choose)(Rare&))
{
    setting.name = name;
    setting.size = size;
    choose(setting.rare);
    return setting;
}

Setting withoutTags(Setting setting)
{
    setting.tags = false;
    return setting;
}

std::vector<Setting> everyNight()
{
    const Setting one = oneLamphouse();
    const Setting pair = twoLamphouses(Covers::Two, Crew::OneEngineer);
    const Setting doors = twoLamphouses(Covers::SingleDoor, Crew::OneEngineer);
    const auto nothing = [](Rare&) {};
    return {
        named(one, "Plain", Size::Small, nothing),
        named(one, "WithItsPaperAndALampPastItsEnd", Size::Large,
              [](Rare& r) { r.paper = r.pastEnd = true; }),
        named(one, "WrongBreakerAndDeadControl", Size::Small, [](Rare& r) { r.wrongBreaker = true; }),
        named(one, "WrongBreakerAndMainsOut", Size::Large, [](Rare& r) { r.wrongBreaker = r.mains = true; }),
        named(one, "SomeoneHurtOrFoundOpen", Size::Large, [](Rare& r) { r.hurt = r.foundOpen = true; }),
        named(one, "Burst", Size::Large, [](Rare& r) { r.burst = true; }),
        named(one, "Unfit", Size::Large, [](Rare& r) { r.unfit = true; }),
        named(one, "FanStoppedOrGearDamaged", Size::Small, [](Rare& r) { r.fan = r.gearDamaged = true; }),
        named(one, "OtherBreakerOrNoLock", Size::Small,
              [](Rare& r) { r.otherBreaker = r.willNotLock = true; }),
        named(one, "HeldBySomebodyElse", Size::Small, [](Rare& r) { r.held = r.findAgain = true; }),
        named(oneLamphouse(Crew::TwoEngineers), "PassedOnOrLockRemoved", Size::Large,
              [](Rare& r) { r.passOn = r.lockRemoved = true; }),
        named(one, "ResumedAndSeenAgain", Size::Small, [](Rare& r) { r.resumed = r.findAgain = true; }),
        named(one, "LeftAlone", Size::Large, [](Rare& r) { r.leftAlone = true; }),
        named(one, "FailedStrikeCountAndAdaptor", Size::Large,
              [](Rare& r) { r.failedStrike = r.countDiffers = r.adaptorLost = true; }),
        named(one, "SeatedWronglyAndExtractionOff", Size::Small,
              [](Rare& r) { r.seatingWrong = r.extractionOff = true; }),
        named(one, "WrongLampPastEnd", Size::Small, [](Rare& r) { r.wrongLamp = r.pastEnd = true; }),
        named(pair, "PairPlain", Size::Large, nothing),
        named(doors, "PairSingleDoor", Size::Large, nothing),
        named(doors, "PairFoundOpen", Size::Huge, [](Rare& r) { r.foundOpen = true; }),
        named(withoutTags(twoLamphouses(Covers::Two, Crew::WithTrainee)), "PairWithTrainee", Size::Huge,
              nothing),
        named(withoutTags(twoLamphouses(Covers::Two, Crew::TwoEngineers)), "PairTwoEngineers", Size::Large,
              nothing),
        named(withoutTags(twoLamphouses(Covers::SingleDoor, Crew::TwoEngineers)),
              "PairTwoEngineersSingleDoor", Size::Large, nothing),
        named(twoLamphouses(Covers::Two, Crew::TwoEngineers), "PairTwoEngineersAndTags", Size::Huge, nothing),
    };
}

} // namespace

const std::vector<Setting>& nights()
{
    static const std::vector<Setting> all = everyNight();
    return all;
}

const Setting& night(std::string_view name)
{
    return *std::ranges::find(nights(), name, &Setting::name);
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
        if (move.event.what == Happening::LeftAlone && move.event.point != kNone)
            next.truth.live = static_cast<Mask>(next.truth.live | maskOf(move.event.point));
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

} // namespace coldarc::test
