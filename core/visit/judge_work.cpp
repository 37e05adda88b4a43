#include "core/base/typed_hours.h"
#include "core/label/source_read.h"
#include "core/machine/goal.h"
#include "core/machine/whole.h"
#include "core/visit/gates_waiting.h"
#include "core/visit/judge.h"
#include "core/visit/sheet_of_visit.h"
#include "core/visit/stop_answers.h"

namespace coldarc::visit {
namespace {

using machine::Effect;
using machine::Index;
using machine::kNone;
using machine::Outcome;

/// A trainee does these under a countersign. The safe-ward ones are not among them: nobody waits with a lamp
/// in hand.
bool isDangerous(Effect effect)
{
    switch (effect) {
    case Effect::Isolate:
    case Effect::TryStart:
    case Effect::ProveAbsence:
    case Effect::OpenHousing:
    case Effect::ExposeLamp:
    case Effect::WorkInside:
    case Effect::LampOut:
    case Effect::Unbox:
    case Effect::AdaptorOff:
    case Effect::AdaptorOn:
    case Effect::Restore:
    case Effect::PowerUp:
    case Effect::KeyController:
    case Effect::Strike:
        return true;
    default:
        return false;
    }
}

/// Effects of a person's own body and lock: anybody who is here does them for themselves, at any time.
bool isPersonal(Effect effect)
{
    switch (effect) {
    case Effect::LockOn:
    case Effect::LockOff:
    case Effect::JobLockOff: // whoever holds it
    case Effect::GearOn:
    case Effect::GearOff:
    case Effect::EnterZone:
    case Effect::LeaveZone:
        return true;
    default:
        return false;
    }
}

} // namespace

void Judge::operator()(const Did& asked)
{
    const SwapState* swap = m_state.swap(asked.swap);
    const procedure::Step* step = swap ? swap->step(asked.step) : nullptr;
    if (!step)
        return no(Why::Kind::UnknownName);
    if (m_state.isMakingSafe && step->effect != Effect::Sign)
        return no(Why::Kind::MakingSafe);
    judgeAuthority(step->effect, asked.countersignedBy);
    const NextStep next = nextStep(m_state, *swap, m_person);
    if (!m_state.isMakingSafe && next.step != step)
        return notYourTurn(next);

    Did did = asked;
    did.answers = withReadings(*swap, *step, asked.answers);
    const procedure::Answers answers = procedure::answersOf(did.answers);
    const procedure::StepContext context = contextOf(m_state, *swap, m_person);
    machine::Act act = procedure::withAnswers(procedure::actOf(*step, context), *step, context, answers);
    takeTheWorse(act);
    judgeMatch(*swap, *step, act);
    did.onOneTyping =
        step->effect == Effect::MatchBox &&
        label::restsOnOneTyping(m_state.papers.value(m_state.ground->lamps[swap->newLamp].id).readings);
    if (!did.doubts.isEmpty() && did.doubtsAnswer.trimmed().isEmpty())
        no(Why::Kind::TextMissing);
    if (step->effect == Effect::Sign) {
        act.custodyDecided = isCustodyDecided(m_state);
        act.answered = !m_state.hasOpenIncident();
    }
    if (step->effect == Effect::MatchBox || step->effect == Effect::BookIn)
        judgeSerials(*swap, did);
    if (step->effect == Effect::BookIn)
        judgeBookIn(*swap, did);
    if (step->effect == Effect::KeyController)
        judgeReadBack(*swap, *step, act, answers);
    if (step->effect == Effect::MeasureScreen && !isCentreRead(m_state, *swap))
        no(Why::Kind::ScreenNotRead);
    judgeAnswers(*swap, *step, act, did, answers);
    judgeFigures(*step, act, answers);
    judgeGearDates(act);
    if (!machine::isWhole(m_state.plant, act))
        return no(Why::Kind::UnknownName);
    judgeDemands(act, act);
    did.gatesWaiting = waitingGates(m_state, act);
    did.act.reset();
    const bool tellsOfItsLamp =
        act.outcome != machine::Outcome::Plain || procedure::happenedBy(act, *step, answers);
    if (step->effect != Effect::Look || tellsOfItsLamp)
        did.act = toRecord(m_state, act);
    m_body = did;
}

void Judge::operator()(const Acted& asked)
{
    Acted acted = asked;
    machine::Act act = toAct(m_state, asked.act);
    if (!machine::isWhole(m_state.plant, act) || !isOfOnePlace(act) ||
        !machine::canComeOut(act.effect, act.outcome))
        return no(Why::Kind::UnknownName);
    if (isPersonal(act.effect)) {
        if (act.person != m_person)
            return no(Why::Kind::NotAuthorised);
        judgeGear(act, asked.answers);
    } else {
        judgeAuthority(act.effect, asked.countersignedBy);
        if (!isOpenTo(act))
            return no(Why::Kind::NotYourTurn);
    }
    takeTheWorse(act);
    if (act.effect == Effect::LampOff && act.outcome != Outcome::FanRuns)
        act.outcome = Outcome::FanStill; // nobody said that air moves
    if (act.effect == Effect::ClampLamp && !isOnTheWay(act))
        act.outcome = Outcome::Plain; // nobody asked for polarity and seating
    acted.act = toRecord(m_state, act);
    judgeDemands(act, act);
    acted.gatesWaiting = waitingGates(m_state, act);
    m_body = acted;
}

void Judge::judgeAuthority(Effect effect, const PersonId& countersigner)
{
    const PersonFacts& person = m_state.people[m_person];
    if (person.mayLead || machine::isSafeWard(effect))
        return;
    if (effect == Effect::ProveAbsence && person.mayProve) {
        if (!isLeaderHere())
            no(Why::Kind::NeedsSupervision);
        return;
    }
    if (!person.mayAssist)
        return no(Why::Kind::NotAuthorised);
    if (!isLeaderHere())
        return no(Why::Kind::NeedsSupervision);
    if (isDangerous(effect))
        judgeSecond(countersigner);
}

void Judge::judgeSecond(const PersonId& countersigner)
{
    if (m_state.people[m_person].mayLead)
        return;
    const Index other = m_state.person(countersigner);
    if (other == kNone || other == m_person || !m_state.people[other].mayLead || !m_state.isHere(other))
        no(Why::Kind::NeedsCountersign);
}

void Judge::takeTheWorse(machine::Act& act) const
{
    if (act.effect != Effect::Find)
        return;
    const Index lamp = act.seen.lamp;
    if (lamp != kNone) { // what nobody sees through a housing is known of the lamp, or counts as worse
        const LampFacts& facts = m_state.ground->lamps[lamp];
        act.seen.life =
            lifeOf(*m_state.ground, facts, burntHours(facts, counterRead(m_state, act.lamphouse), m_now.wall),
                   act.seen.lit);
        act.seen.adaptorOn =
            m_state.plant.lamp[lamp].needsAdaptor && !m_state.machine.lamphouse[act.lamphouse].adaptorLost;
    }
    for (Index point = 0; point < m_state.plant.points; ++point) {
        for (Index lamphouse = 0; lamphouse < m_state.plant.lamphouses; ++lamphouse) {
            const bool isLit = lamphouse == act.lamphouse
                                   ? act.seen.lit
                                   : m_state.machine.lamphouse[lamphouse].heat == machine::Heat::Lit;
            if (isLit && machine::has(m_state.plant.point[point].feeds, lamphouse))
                act.seen.pointsOff = static_cast<machine::Mask>(act.seen.pointsOff & ~machine::maskOf(point));
        }
    }
}

bool Judge::isOfOnePlace(const machine::Act& act) const
{
    const bool isOnPoint = act.effect == Effect::Isolate || act.effect == Effect::LockOn ||
                           act.effect == Effect::JobLockOff || act.effect == Effect::Restore;
    if (act.lamphouse == kNone)
        return act.point == kNone && act.lamp == kNone;
    if (act.point != kNone &&
        (!isOnPoint || m_state.plant.point[act.point].group != m_state.plant.lamphouse[act.lamphouse].group))
        return false;
    return act.lamp == kNone || m_state.plant.lamp[act.lamp].lamphouse == act.lamphouse;
}

bool Judge::isOpenTo(const machine::Act& act) const
{
    return machine::isSafeWard(act.effect) || act.effect == Effect::Find || act.effect == Effect::LampOff ||
           isOnTheWay(act);
}

bool Judge::isOnTheWay(const machine::Act& act) const
{
    if (act.lamphouse == kNone)
        return false;
    const Index group = act.point != kNone ? m_state.plant.point[act.point].group
                                           : m_state.plant.lamphouse[act.lamphouse].group;
    const machine::SafeStep putRight =
        machine::nextPutRightStep(m_state.plant, m_state.machine, group, m_state.lead);
    const machine::SafeStep safe = machine::nextSafeStep(m_state.plant, m_state.machine, group, m_state.lead);
    return isTheSame(putRight, act) || (m_state.isMakingSafe && isTheSame(safe, act));
}

bool Judge::isTheSame(const machine::SafeStep& step, const machine::Act& act)
{
    return step.kind == machine::SafeStep::Kind::Do && step.act.effect == act.effect &&
           step.act.lamphouse == act.lamphouse && step.act.point == act.point && step.act.lamp == act.lamp;
}

void Judge::judgeDemands(const machine::Act& act, const machine::Act& answered)
{
    if (tellsOfDanger(answered))
        return;
    const machine::Unmet unmet = machine::unmet(m_state.plant, m_state.machine, act);
    if (unmet.none())
        return;
    m_refusal.act = act;
    m_refusal.unmet |= unmet;
    for (int demand = 0; demand < machine::kDemands; ++demand) {
        if (!unmet.test(static_cast<std::size_t>(demand)))
            continue;
        Why why;
        why.kind = Why::Kind::Demand;
        why.demand = static_cast<machine::Demand>(demand);
        why.lamphouse = act.lamphouse;
        m_refusal.whys.append(why);
    }
    for (Index lamphouse = 0; lamphouse < m_state.plant.lamphouses; ++lamphouse) {
        if (!m_state.waits[lamphouse].cool.asksForFan)
            continue;
        Why why;
        why.kind = Why::Kind::FanQuestion;
        why.lamphouse = lamphouse;
        m_refusal.whys.append(why);
    }
}

void Judge::judgeAnswers(const SwapState& swap, const procedure::Step& step, const machine::Act& act,
                         Did& did, const procedure::Answers& answers)
{
    if (step.stop) {
        if (!mayAnswer(m_state, swap, step, m_person))
            no(Why::Kind::NotOthers);
        did.reopened = reopenedBy(m_state, swap, step, answers);
    }
    for (const QString& id : procedure::standsAgainst(step, answers)) {
        const procedure::Capture* capture = step.capture(id);
        const bool isMissing = answers.value(id).isEmpty();
        if (isMissing && capture && capture->kind == procedure::CaptureKind::Picture)
            continue; // a picture that could not be taken is not a reason to stop
        if (isMissing && capture && sourceOf(step, *capture))
            continue; // one label of the closed box is enough: what was read is judged by its agreement
        if (step.stop && !isMissing)
            continue; // a wrong answer is taken down and opens its step again
        const bool isProof = provesSomething(step.effect) && act.outcome == Outcome::Plain;
        if (tellsOfDanger(act) || (machine::isSafeWard(step.effect) && !isProof))
            continue;
        Why why;
        why.kind = isMissing ? Why::Kind::AnswerMissing : Why::Kind::AnswerBad;
        why.capture = id;
        if (isMissing || provesSomething(step.effect))
            m_refusal.whys.append(why);
    }
}

void Judge::judgeFigures(const procedure::Step& step, const machine::Act& act,
                         const procedure::Answers& answers)
{
    const bool isProof = provesSomething(step.effect) && act.outcome == Outcome::Plain;
    if (tellsOfDanger(act) || (machine::isSafeWard(step.effect) && !isProof))
        return;
    for (const procedure::Capture& capture : step.captures) {
        const QString typed = answers.value(capture.id);
        const bool isFigure =
            capture.kind == procedure::CaptureKind::Counter || capture.kind == procedure::CaptureKind::Number;
        if (isFigure && !typed.isEmpty() && !hoursFrom(typed))
            unclear(capture.id, typed);
    }
}

void Judge::unclear(const QString& capture, const QString& typed)
{
    Why why;
    why.kind = Why::Kind::FigureUnclear;
    why.capture = capture;
    why.text = typed;
    if (!m_refusal.whys.contains(why))
        m_refusal.whys.append(why);
}

void Judge::judgeGearDates(const machine::Act& act)
{
    if (act.effect != Effect::GearOn || m_state.isMakingSafe)
        return;
    for (const QString& kind : m_state.people[m_person].unfitGear) {
        Why why;
        why.kind = Why::Kind::GearPastDate;
        why.capture = kind;
        m_refusal.whys.append(why);
    }
}

void Judge::judgeGear(const machine::Act& act, const QJsonObject& answers)
{
    judgeGearDates(act);
    if (act.effect != Effect::GearOn || m_state.isMakingSafe ||
        machine::has(m_state.wholeGear[act.person], act.lamphouse))
        return;
    for (const SwapState& swap : m_state.swaps) {
        for (const procedure::Step& step : swap.steps) {
            if (step.effect != Effect::GearOn ||
                m_state.ground->models[swap.lamphouse] != m_state.ground->models[act.lamphouse])
                continue;
            const procedure::Answers given = procedure::answersOf(answers);
            for (const QString& id : procedure::standsAgainst(step, given)) {
                Why why;
                why.kind = given.value(id).isEmpty() ? Why::Kind::AnswerMissing : Why::Kind::AnswerBad;
                why.capture = id;
                m_refusal.whys.append(why);
            }
            return;
        }
    }
    no(Why::Kind::AnswerMissing);
}

bool Judge::provesSomething(Effect effect)
{
    return effect == Effect::GearOn || effect == Effect::LockOn || effect == Effect::Relieve;
}

} // namespace coldarc::visit
