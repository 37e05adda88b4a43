#include "ui/visit/acts_of_bench.h"

#include "core/machine/goal.h"
#include "core/machine/reach.h"
#include "ui/visit/words_effect.h"

#include <QCoreApplication>

#include <array>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::Effect;
using machine::Index;
using machine::kNone;
using procedure::Phase;

QString words(const char* text)
{
    return QCoreApplication::translate("bench", text);
}

/// What somebody's own body and lock can do next, and in which parts of the swap it is offered.
struct OwnAct {
    Effect effect;
    Phase from;
    Phase to;
    const char* text;
};
constexpr std::array<OwnAct, 6> kOwnActs{{
    {Effect::LockOn, Phase::ColdAndDead, Phase::Swap,
     QT_TRANSLATE_NOOP("bench", "%1: own lock on, tag filled in")},
    {Effect::GearOn, Phase::ColdAndDead, Phase::Swap,
     QT_TRANSLATE_NOOP("bench", "%1: gear on, undamaged, shield down")},
    {Effect::EnterZone, Phase::Open, Phase::Close, QT_TRANSLATE_NOOP("bench", "%1: steps into the zone")},
    {Effect::LeaveZone, Phase::Open, Phase::Sign, QT_TRANSLATE_NOOP("bench", "%1: steps out of the zone")},
    {Effect::GearOff, Phase::Close, Phase::Sign, QT_TRANSLATE_NOOP("bench", "%1: gear off")},
    {Effect::LockOff, Phase::Close, Phase::Sign, QT_TRANSLATE_NOOP("bench", "%1: own lock off")},
}};

/// Only locks hang there that may not come off as the last: an engineer's is missing, whatever the part of
/// the swap.
bool lacksEngineersLock(const visit::VisitState& state, Index lamphouse)
{
    const machine::Mask locks = state.machine.group[state.plant.lamphouse[lamphouse].group].locks;
    return locks != 0 &&
           !machine::holds(state.plant, state.machine, ownAct(Effect::OpenHousing, kNone, lamphouse),
                           machine::Demand::AuthorisedLock);
}

QList<PersonAct> ownActsOf(const BenchMoment& moment, Index person)
{
    const visit::VisitState& state = moment.state;
    const Index lamphouse = moment.swap().lamphouse;
    QList<PersonAct> acts;
    for (const OwnAct& own : kOwnActs) {
        const bool isMissedLock = own.effect == Effect::LockOn && lacksEngineersLock(state, lamphouse) &&
                                  state.plant.person[person].authorised;
        if (person == moment.who() && !isMissedLock)
            continue; // theirs is the step that is up
        const bool isItsTime = isMissedLock || (moment.phase() >= own.from && moment.phase() <= own.to) ||
                               (own.effect == Effect::LeaveZone && state.machine.person[person].at != kNone);
        const machine::Act act = ownAct(own.effect, person, lamphouse);
        if (!isItsTime || machine::isSo(state.plant, state.machine, act) ||
            machine::unmet(state.plant, state.machine, act).any())
            continue;
        const bool isSameGear = own.effect == Effect::GearOn &&
                                state.machine.person[person].gear == machine::Gear::Worn &&
                                state.machine.person[person].gearFor == lamphouse;
        const QString text =
            isSameGear ? words("%1: same gear, on, undamaged, shield down") : words(own.text);
        acts.append({u"own:%1:%2"_s.arg(state.people[person].id.text()).arg(static_cast<int>(own.effect)),
                     text.arg(state.people[person].name), QString(), QString(), PersonAct::Stand::Open});
    }
    return acts;
}

/// Whoever may prove the absence of voltage where whoever presses may not, as soon as nothing else holds them
/// up.
QList<PersonAct> proofsOf(const BenchMoment& moment)
{
    const visit::VisitState& state = moment.state;
    const procedure::Step* step = moment.turn.kind == BenchTurn::Kind::Step ? moment.turn.next.step : nullptr;
    QList<PersonAct> acts;
    if (!step || step->effect != Effect::ProveAbsence || state.people[moment.who()].mayProve)
        return acts;
    for (Index person = 0; person < state.plant.people; ++person) {
        if (!state.people[person].mayProve || !state.isHere(person))
            continue;
        const visit::NextStep next = visit::nextStep(state, moment.swap(), person);
        if (next.step == step && next.unmet.none())
            acts.append({u"prove:"_s + state.people[person].id.text(),
                         words("%1: proved, these are my readings").arg(state.people[person].name),
                         words("signed by their own key"),
                         {},
                         PersonAct::Stand::Open});
    }
    return acts;
}

} // namespace

machine::Act ownAct(Effect effect, Index person, Index lamphouse)
{
    machine::Act act;
    act.effect = effect;
    act.person = person;
    act.lamphouse = lamphouse;
    return act;
}

const procedure::Step* ownStepOf(const BenchMoment& moment, Effect effect)
{
    if (effect == Effect::LockOn && machine::isSomebodyInside(moment.state.machine))
        return nullptr;
    for (const procedure::Step& step : moment.swap().steps) {
        if (step.effect == effect && !step.point)
            return &step;
    }
    return nullptr;
}

QList<PersonAct> actsOf(const BenchMoment& moment, const PersonId& countersigned)
{
    const visit::VisitState& state = moment.state;
    const BenchTurn& turn = moment.turn;
    QList<PersonAct> acts;
    if (const Index other = moment.answersStop(); other != kNone)
        acts.append({u"answer:"_s + state.people[other].id.text(),
                     words("%1: these are my answers").arg(state.people[other].name),
                     words("whoever did the steps does not answer them"),
                     {},
                     PersonAct::Stand::Open});
    acts += proofsOf(moment);
    if (turn.kind == BenchTurn::Kind::EndsHere && visit::isHeldBySomebody(state, moment.swap().lamphouse))
        acts.append({u"look-again"_s,
                     words("Their lock and tag are off: look again"),
                     words("only whoever hung them takes them off"),
                     {},
                     PersonAct::Stand::Open});
    const bool isOthersOwn = turn.kind == BenchTurn::Kind::SafeStep &&
                             turn.safe.kind == machine::SafeStep::Kind::Do &&
                             isOnesOwn(turn.safe.act.effect) && turn.safe.act.person != moment.person;
    if (isOthersOwn)
        acts.append({u"safe:"_s + state.people[turn.safe.act.person].id.text(),
                     u"%1: %2"_s.arg(state.people[turn.safe.act.person].name, orderOf(turn.safe.act.effect)),
                     {},
                     {},
                     PersonAct::Stand::Open});
    const bool isStep = turn.kind == BenchTurn::Kind::Step;
    const bool isSeconded = isStep || turn.kind == BenchTurn::Kind::FanQuestion ||
                            turn.kind == BenchTurn::Kind::LocksQuestion ||
                            (turn.kind == BenchTurn::Kind::SafeStep && !isOthersOwn);
    const bool isTraineesTurn = isSeconded && moment.person != kNone && !state.people[moment.person].mayLead;
    for (Index person = 0; person < state.plant.people && isTraineesTurn; ++person) {
        if (!state.people[person].mayLead || !state.isHere(person))
            continue;
        const bool isGiven = countersigned == state.people[person].id;
        acts.append({u"countersign:"_s + state.people[person].id.text(),
                     words("%1: seen and agreed").arg(state.people[person].name),
                     words("proved by PIN at the next stop"),
                     {},
                     isGiven ? PersonAct::Stand::Given : PersonAct::Stand::Open});
    }
    for (Index person = 0; person < state.plant.people; ++person) {
        if (state.isHere(person) && state.removalsToTell.contains(state.people[person].id))
            acts.append({u"told:"_s + state.people[person].id.text(),
                         words("%1: your lock was taken off, read how").arg(state.people[person].name),
                         words("and say that you were told"),
                         {},
                         PersonAct::Stand::Open});
    }
    const bool isOpen = turn.kind != BenchTurn::Kind::Over && !isOthersOwn;
    for (Index person = 0; person < state.plant.people && isOpen; ++person) {
        if (state.isHere(person))
            acts += ownActsOf(moment, person);
    }
    if (isStep && turn.next.step->mayFollow)
        acts.append({u"owe"_s,
                     words("Leave this to a later visit"),
                     words("shown and reported as owed"),
                     {},
                     PersonAct::Stand::Open});
    if (isStep && offersSheet(*turn.next.step))
        acts.append({u"sheet"_s,
                     words("Open the screen sheet"),
                     words("sides, corners and colour too, to compare with the new lamp"),
                     {},
                     PersonAct::Stand::Open});
    const procedure::Step* next = turn.isMakingSafe ? nullptr : turn.next.step;
    const bool isBeforeLight = turn.kind == BenchTurn::Kind::Hold || isStep;
    if (isBeforeLight && next && next->effect == Effect::Settle)
        acts.append({u"light"_s,
                     words("Open the light page"),
                     words("looks at the light while it settles"),
                     {},
                     PersonAct::Stand::Open});
    for (qsizetype index = 0; index < acts.size(); ++index)
        acts[index].key = actKey(index);
    return acts;
}

} // namespace coldarc::ui
