#include "core/procedure/proof_case.h"

#include "core/machine/demand.h"
#include "core/machine/evolve.h"
#include "core/machine/reach.h"
#include "core/procedure/follow_up.h"
#include "core/procedure/plant.h"

#include <algorithm>
#include <array>
#include <set>
#include <tuple>

using namespace Qt::StringLiterals;

namespace coldarc::procedure {
namespace {

using machine::Act;
using machine::Effect;
using machine::Event;
using machine::Gate;
using machine::Happening;
using machine::Index;
using machine::kNone;
using machine::Mask;
using machine::Outcome;
using machine::Plant;
using machine::Seen;
using machine::State;

constexpr int kCrew = 2;
constexpr Index kEngineer = 0;
constexpr Index kColleague = 1;

LampFacts factsIn(const LampTypeId& id, const catalogue::ProjectorModel& model,
                  const catalogue::Catalogue& catalogue)
{
    const catalogue::LampType* type = catalogue.lampType(id);
    return type ? factsOf(*type, model) : LampFacts{id, model.needsAdaptor(id), std::nullopt};
}

/// The lamps of one pairing, put into the plant.
ProofCase caseOf(const Procedure& procedure, const catalogue::ProjectorModel& model, const Plant& plant,
                 const Facts& facts, bool oldAdaptorOn)
{
    ProofCase made{facts, stepsFor(procedure, facts), plant, contextOf(model, 0)};
    made.context.person = kEngineer;
    made.context.newLamp = addLamp(made.plant, model, 0, facts.newLamp.type);
    if (facts.oldLamp) {
        made.context.oldLamp = addLamp(made.plant, model, 0, facts.oldLamp->type);
        made.plant.lamp[made.context.oldLamp].needsAdaptor = oldAdaptorOn;
        made.context.oldAdaptorOn = oldAdaptorOn;
    }
    if (made.context.otherLamphouse != kNone)
        made.context.otherLamp =
            addLamp(made.plant, model, made.context.otherLamphouse, model.lampTypes.first());
    return made;
}

/// What makes one pairing walk differently from another.
auto keyOf(const ProofCase& one)
{
    QStringList ids;
    for (const Step& step : one.steps)
        ids.append(step.id.text());
    const Plant::Lamp& fresh = one.plant.lamp[one.context.newLamp];
    const bool hasOld = one.context.oldLamp != kNone;
    const bool same = hasOld && one.plant.lamp[one.context.oldLamp].type == fresh.type;
    return std::tuple(ids.join(u' '), fresh.needsAdaptor, hasOld, same, one.context.oldAdaptorOn);
}

Mask pointsOff(const Plant& plant, const State& state, Index lamphouse)
{
    Mask off = 0;
    for (Index point = 0; point < plant.points; ++point) {
        if (machine::has(plant.lamphouse[lamphouse].points, point) &&
            state.point[point].power != machine::Power::On)
            off = static_cast<Mask>(off | machine::maskOf(point));
    }
    return off;
}

/// Ways in which a lamphouse is found that the procedure goes on from.
std::vector<Seen> goodFindings(const ProofCase& walked, Index lamphouse, const State& state)
{
    const bool own = lamphouse == walked.context.lamphouse;
    const Index lamp = own ? walked.context.oldLamp : walked.context.otherLamp;
    Seen lit;
    lit.lit = true;
    lit.extraction = true;
    lit.dowserOpen = true;
    lit.lamp = lamp;
    lit.adaptorOn = own && walked.context.oldAdaptorOn;
    Seen behindDowser = lit;
    behindDowser.dowserOpen = false;
    behindDowser.extraction = false;
    Seen off = lit;
    off.lit = false;
    off.fanRuns = true;
    off.drive = machine::Drive::Standby;
    Seen still = off;
    still.fanRuns = false;
    still.drive = machine::Drive::On;
    still.extraction = false;
    Seen dark = still;
    dark.drive = machine::Drive::Off;
    dark.pointsOff = walked.plant.lamphouse[lamphouse].points;

    std::vector<Seen> ways;
    const bool isDark = pointsOff(walked.plant, state, lamphouse) != 0;
    for (Seen seen : {lit, behindDowser, off, still, dark}) {
        if ((seen.lit && lamp == kNone) || (isDark && seen.pointsOff == 0))
            continue;
        if (lamp == kNone)
            seen.seat = machine::Seat::Empty;
        ways.push_back(seen);
        if (!own || lamp == kNone || (walked.followsUp && !seen.lit))
            continue;
        seen.life = machine::Life::PastEnd;
        ways.push_back(seen);
    }
    return ways;
}

std::vector<Seen> badFindings(const ProofCase& walked, Index lamphouse)
{
    const bool own = lamphouse == walked.context.lamphouse;
    std::vector<Seen> ways;
    for (const machine::Seat seat : {machine::Seat::Clamped, machine::Seat::Entered, machine::Seat::Empty}) {
        Seen seen;
        seen.drive = machine::Drive::Off;
        seen.guardOpen = true;
        seen.housingOpen = walked.plant.lamphouse[lamphouse].hasHousing;
        seen.seat = seat;
        seen.lamp = own ? walked.context.oldLamp : walked.context.otherLamp;
        seen.adaptorOn = own && walked.context.oldAdaptorOn;
        if (seen.lamp != kNone || seat == machine::Seat::Empty)
            ways.push_back(seen);
    }
    if (own && walked.followsUp) { // out, and too old to be lit again: nothing of what is owed can be done
        Seen spent;
        spent.lamp = walked.context.oldLamp;
        spent.adaptorOn = walked.context.oldAdaptorOn;
        spent.life = machine::Life::PastEnd;
        ways.push_back(spent);
    }
    return ways;
}

std::vector<Variant> findings(const ProofCase& walked, const Act& act, const State& state)
{
    std::vector<Variant> variants;
    for (const Seen& seen : goodFindings(walked, act.lamphouse, state)) {
        // What was left is done whether it burns or not: either may go wrong later.
        const bool isPlain = variants.empty() || walked.followsUp;
        Variant variant{act, isPlain ? Variant::Kind::Plain : Variant::Kind::OtherWay};
        variant.act.seen = seen;
        variants.push_back(variant);
    }
    for (const Seen& seen : badFindings(walked, act.lamphouse)) {
        Variant variant{act, Variant::Kind::Bad};
        variant.act.seen = seen;
        variants.push_back(variant);
    }
    return variants;
}

struct Outcomes {
    Effect effect;
    Outcome plain;
    std::initializer_list<Outcome> bad;
};
const Outcomes kOutcomes[] = {
    {Effect::TryStart, Outcome::NoResponse, {Outcome::Started, Outcome::Plain}},
    {Effect::ProveAbsence, Outcome::Absent, {Outcome::Voltage, Outcome::Plain}},
    {Effect::Strike, Outcome::Lit, {Outcome::NoLight, Outcome::Burst, Outcome::Plain}},
    {Effect::Count, Outcome::Same, {Outcome::Differs}},
    {Effect::MatchBox, Outcome::Agrees, {Outcome::Disagrees}},
    {Effect::Unbox, Outcome::Agrees, {Outcome::Disagrees, Outcome::Plain}},
    {Effect::ClampLamp, Outcome::Agrees, {Outcome::Disagrees}},
    {Effect::KeyController, Outcome::Agrees, {Outcome::Disagrees}},
    {Effect::LockOn, Outcome::Plain, {Outcome::WillNotLock}},
};

std::vector<Variant> isolations(const ProofCase& walked, const Act& act)
{
    std::vector<Variant> variants{{act, Variant::Kind::Plain}};
    variants.front().act.moved = act.point;
    variants.push_back({act, Variant::Kind::Bad}); // one that feeds nothing here
    for (Index other = 0; other < walked.plant.points; ++other) {
        Variant variant{act, Variant::Kind::Bad};
        variant.act.moved = other;
        if (other != act.point)
            variants.push_back(variant);
    }
    return variants;
}

bool isBaring(Effect effect)
{
    return effect == Effect::ExposeLamp || effect == Effect::WorkInside || effect == Effect::LampOut ||
           effect == Effect::Unbox;
}

bool isDead(const Plant& plant, const State& state, Index lamphouse)
{
    const machine::LamphouseState& here = state.lamphouse[lamphouse];
    return here.charge == machine::Charge::Relieved && here.startTried && here.absent &&
           everyPoint(plant, plant.lamphouse[lamphouse].points, [&](Index point) {
               return state.point[point].power == machine::Power::Off && isLocked(plant, state, point);
           });
}

std::optional<Breach> breachOfBaring(const ProofCase& walked, const State& before, const Act& act)
{
    const machine::LamphouseState& here = before.lamphouse[act.lamphouse];
    const bool lampMoves = act.effect == Effect::LampOut || act.effect == Effect::Unbox;
    if (here.heat != machine::Heat::Cold)
        return Breach{Flaw::Exposed, Gate::Cold, {}};
    if (!isDead(walked.plant, before, act.lamphouse))
        return Breach{Flaw::Exposed, Gate::Dead, {}};
    if (lampMoves && walked.plant.lamphouse[act.lamphouse].testBehindGuard && !here.absentBehind)
        return Breach{Flaw::Exposed, Gate::Dead, u"not proved again behind the guard"_s};
    if (!isGeared(walked.plant, before, act.lamphouse))
        return Breach{Flaw::Exposed, Gate::Geared, {}};
    return std::nullopt;
}

std::optional<Breach> breachOfStrike(const ProofCase& walked, const State& before, const Act& act)
{
    const machine::LamphouseState& here = before.lamphouse[act.lamphouse];
    const auto unsafe = [](const QString& detail) { return Breach{Flaw::Unsafe, Gate::None, detail}; };
    if (here.lamp == kNone || here.seat != machine::Seat::Clamped)
        return unsafe(u"struck without a clamped lamp"_s);
    const machine::LampState& lamp = before.lamp[here.lamp];
    if (!lamp.booked && lamp.life != machine::Life::Below)
        return Breach{Flaw::StruckUnbooked, Gate::Matched, u"not booked in"_s};
    if (here.controllerType != walked.plant.lamp[here.lamp].type)
        return Breach{Flaw::StruckUnbooked, Gate::Matched, u"type not read back"_s};
    if (lamp.unfit)
        return unsafe(u"struck an unfit lamp"_s);
    if (before.group[walked.plant.lamphouse[act.lamphouse].group].told != machine::Told::Again)
        return unsafe(u"struck before people were told again"_s);
    return std::nullopt;
}

/// Invariants A1 to A7 for one lamphouse that was found and shut once.
QString broken(const Plant& plant, const State& state, Index lamphouse)
{
    const machine::LamphouseState& here = state.lamphouse[lamphouse];
    const Mask points = plant.lamphouse[lamphouse].points;
    const Mask locks = state.group[plant.lamphouse[lamphouse].group].locks;
    const bool exposed = isExposed(plant, state, lamphouse);
    const bool doubted = !everyPoint(
        plant, points, [&](Index point) { return state.point[point].power != machine::Power::Doubted; });
    // What a burst or a failure changes under open covers is met by stepping back, not by a state before it.
    if (exposed && isZoneEmpty(plant, state, lamphouse) && !state.hurt)
        return u"a bare lamp with nobody there"_s;
    if ((here.housingOpen || here.guardOpen) &&
        !everyPoint(plant, points, [&](Index point) { return isLocked(plant, state, point); }))
        return u"open without a lock on every point"_s;
    for (Index person = 0; person < plant.people; ++person) {
        if (state.person[person].at == lamphouse && (exposed || here.housingOpen) &&
            (state.person[person].gear == machine::Gear::Off || !machine::has(locks, person)))
            return u"somebody in the zone without gear or own lock"_s;
    }
    if (lampInHand(plant, state, lamphouse) != kNone && !here.guardOpen)
        return u"a lamp in hand with the guard shut"_s;
    if (here.seat == machine::Seat::Entered && (!here.guardOpen || locks == 0))
        return u"a loose lamp under a shut guard or without a lock"_s;
    if (here.heat != machine::Heat::Lit)
        return {};
    if (!isShut(state, lamphouse) || here.seat != machine::Seat::Clamped)
        return u"lit but not shut and clamped"_s;
    if (locks != 0 && !doubted)
        return u"lit under a lock"_s;
    return {};
}

} // namespace

std::vector<ProofCase> proofCases(const Procedure& procedure, const catalogue::ProjectorModel& model,
                                  const catalogue::Catalogue& catalogue)
{
    auto plant = plantOf(model, kCrew);
    if (!plant)
        return {};
    for (Index person = 0; person < kCrew; ++person)
        plant->person[person] = {true, true};
    std::vector<ProofCase> cases;
    std::set<decltype(keyOf(std::declval<ProofCase>()))> keys;
    const auto add = [&](const Facts& facts, bool oldAdaptorOn) {
        ProofCase made = caseOf(procedure, model, *plant, facts, oldAdaptorOn);
        if (keys.insert(keyOf(made)).second)
            cases.push_back(std::move(made));
    };
    for (const LampTypeId& fresh : model.lampTypes) {
        const LampFacts newLamp = factsIn(fresh, model, catalogue);
        for (const LampTypeId& old : model.lampTypes)
            add({factsIn(old, model, catalogue), newLamp}, model.needsAdaptor(old));
        add({LampFacts{}, newLamp}, false);
        if (model.adaptor)
            add({LampFacts{}, newLamp}, true);
        add({std::nullopt, newLamp}, false);
    }
    return cases;
}

std::vector<ProofCase> followUpCases(const Procedure& procedure, const catalogue::ProjectorModel& model,
                                     const catalogue::Catalogue& catalogue, const QList<StepId>& owed)
{
    auto plant = plantOf(model, kCrew);
    if (!plant)
        return {};
    for (Index person = 0; person < kCrew; ++person)
        plant->person[person] = {true, true};
    plant->lamphouse[0].settlesFromFind = true;
    std::vector<ProofCase> cases;
    for (const LampTypeId& type : model.lampTypes) {
        const LampFacts lamp = factsIn(type, model, catalogue);
        ProofCase made{{lamp, lamp}, followUpSteps(procedure, lamp, owed), *plant, contextOf(model, 0), true};
        made.context.person = kEngineer;
        made.context.oldLamp = addLamp(made.plant, model, 0, type);
        made.context.newLamp = made.context.oldLamp;
        made.context.oldAdaptorOn = model.needsAdaptor(type);
        if (made.context.otherLamphouse != kNone)
            made.context.otherLamp =
                addLamp(made.plant, model, made.context.otherLamphouse, model.lampTypes.first());
        cases.push_back(std::move(made));
    }
    return cases;
}

std::vector<Variant> variantsOf(const ProofCase& walked, const Step& step, const State& state)
{
    Act act = actOf(step, walked.context);
    act.supplySeen = true;
    act.testerProved = true;
    act.custodyDecided = true;
    act.answered = true;
    if (act.effect == Effect::Find)
        return findings(walked, act, state);
    if (act.effect == Effect::Isolate)
        return isolations(walked, act);
    std::vector<Variant> variants{{act, Variant::Kind::Plain}};
    const auto row = std::ranges::find(kOutcomes, act.effect, &Outcomes::effect);
    if (row == std::end(kOutcomes))
        return variants;
    variants.front().act.outcome = row->plain;
    for (const Outcome outcome : row->bad) {
        Variant bad{act, Variant::Kind::Bad};
        bad.act.outcome = outcome;
        variants.push_back(bad);
    }
    return variants;
}

std::vector<Event> eventsAt(const ProofCase& walked, const State& state)
{
    const Plant& plant = walked.plant;
    std::vector<Event> tries;
    const auto add = [&](Happening what, Index Event::*where, Index index) {
        Event event;
        event.what = what;
        event.*where = index;
        tries.push_back(event);
        return &tries.back();
    };
    for (Index lamphouse = 0; lamphouse < plant.lamphouses; ++lamphouse) {
        for (const Happening what : {Happening::FanStopped, Happening::WentOut, Happening::AdaptorLost})
            add(what, &Event::lamphouse, lamphouse);
        add(Happening::LockRemoved, &Event::lamphouse, lamphouse)->person = kEngineer;
    }
    for (Index point = 0; point < plant.points; ++point) {
        for (const Happening what : {Happening::PowerFailed, Happening::PointWillNotLock})
            add(what, &Event::point, point);
    }
    for (Index lamp = 0; lamp < plant.lamps; ++lamp) {
        for (const Happening what : {Happening::LampBurst, Happening::LampUnfit, Happening::WrongLamp})
            add(what, &Event::lamp, lamp);
    }
    add(Happening::GearDamaged, &Event::person, kEngineer);
    add(Happening::PassedOn, &Event::person, kEngineer)->to = kColleague;
    add(Happening::SomeoneHurt, &Event::person, kNone);
    add(Happening::Resumed, &Event::person, kNone);
    std::erase_if(tries, [&](const Event& event) {
        return !canHappen(plant, state, event) || after(plant, state, event) == state;
    });
    return tries;
}

std::optional<Breach> breachBy(const ProofCase& walked, const State& before, const Act* act,
                               const State& after)
{
    if (act && isBaring(act->effect)) {
        if (const auto breach = breachOfBaring(walked, before, *act))
            return breach;
    }
    if (act && act->effect == Effect::Strike) {
        if (const auto breach = breachOfStrike(walked, before, *act))
            return breach;
    }
    for (Index lamphouse = 0; lamphouse < walked.plant.lamphouses; ++lamphouse) {
        const machine::LamphouseState& here = after.lamphouse[lamphouse];
        if (here.leftExposed || here.heat == machine::Heat::Unknown)
            continue; // the invariants hold from the first time it is shut
        const QString detail = broken(walked.plant, after, lamphouse);
        if (!detail.isEmpty())
            return Breach{Flaw::Unsafe, Gate::None, detail};
    }
    return std::nullopt;
}

std::optional<Breach> leftBehind(const ProofCase& walked, const State& state)
{
    const Plant& plant = walked.plant;
    const auto left = [](Flaw flaw) { return Breach{flaw, Gate::None, {}}; };
    for (Index lamphouse = 0; lamphouse < plant.lamphouses; ++lamphouse) {
        const machine::LamphouseState& here = state.lamphouse[lamphouse];
        if (hasLooseLamp(plant, state, lamphouse) || !isShut(state, lamphouse) ||
            !isZoneEmpty(plant, state, lamphouse))
            return left(Flaw::LampLeft);
        if (here.count == machine::Counting::Due || here.count == machine::Counting::Differs)
            return left(Flaw::CountLeft);
        if (here.adaptor != kNone && here.adaptor != here.lamp)
            return left(Flaw::AdaptorLeft);
    }
    for (Index point = 0; point < plant.points; ++point) {
        if (state.group[plant.point[point].group].locks != 0 || state.point[point].jobLock != kNone)
            return left(Flaw::LockLeft);
    }
    for (Index point = 0; point < plant.points; ++point) {
        if (state.point[point].power != machine::Power::On)
            return left(Flaw::PowerLeft);
    }
    for (Index lamphouse = 0; lamphouse < plant.lamphouses; ++lamphouse) {
        const Index lamp = state.lamphouse[lamphouse].lamp;
        if (lamp != kNone && state.lamp[lamp].life == machine::Life::New && !state.lamp[lamp].booked)
            return left(Flaw::LampLeft);
    }
    return std::nullopt;
}

} // namespace coldarc::procedure
