#include "core/procedure/step_act.h"

#include "core/procedure/capture_rule.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::procedure {
namespace {

using machine::Act;
using machine::Effect;
using machine::Index;
using machine::kNone;
using machine::Outcome;
using M = Means;

/// The lamp that a step handles, whether it names one or its effect has just one to speak of.
Index lampOf(const Step& step, const StepContext& context)
{
    if (step.lamp)
        return *step.lamp == Lamp::Old ? context.oldLamp : context.newLamp;
    switch (step.effect) {
    case Effect::BookIn:
        return context.newLamp;
    case Effect::KeyController:
        return step.otherLamphouse ? context.otherLamp : context.newLamp;
    default:
        return kNone;
    }
}

/// The answers of one step, by what they mean.
class Answered {
public:
    Answered(const Step& step, const Answers& answers)
        : m_step(step)
        , m_answers(answers)
    {
    }
    /// Nothing for a capture that is not there, not chosen, or whose value is none of the choices.
    [[nodiscard]] std::optional<Means> of(const QString& id) const
    {
        const Capture* capture = m_step.capture(id);
        return capture ? capture->meansOf(m_answers.value(id)) : std::nullopt;
    }
    [[nodiscard]] bool is(const QString& id, Means means) const { return of(id) == means; }
    /// One of the captures says so.
    [[nodiscard]] bool any(Means means) const
    {
        return std::ranges::any_of(m_step.captures,
                                   [&](const Capture& capture) { return is(capture.id, means); });
    }
    /// There are captures that the machine reads here, and every one says so.
    [[nodiscard]] bool allRead(Means means) const
    {
        bool some = false;
        for (const Capture& capture : m_step.captures) {
            if (capture.choices.isEmpty() || !ruleOf(m_step.effect, capture.id))
                continue;
            if (!is(capture.id, means))
                return false;
            some = true;
        }
        return some;
    }

private:
    const Step& m_step;
    const Answers& m_answers;
};

machine::Drive driveOf(const Answered& answered)
{
    if (answered.is(u"projector"_s, M::Off))
        return machine::Drive::Off;
    return answered.is(u"projector"_s, M::Standby) ? machine::Drive::Standby : machine::Drive::On;
}

/// What is not said counts as the worse case: open, on, nothing runs.
machine::Seen seenBy(const Step& step, const StepContext& context, const Answered& answered)
{
    machine::Seen seen;
    seen.lit = answered.is(u"lamp"_s, M::Lit);
    seen.fanRuns = answered.is(u"fan"_s, M::Runs);
    seen.drive = driveOf(answered);
    seen.extraction = answered.is(u"extraction"_s, M::Runs);
    for (auto point = context.points.begin(); point != context.points.end(); ++point) {
        const auto stands = answered.of(pointCapture(point.key()));
        if (stands == M::Off || stands == M::Locked)
            seen.pointsOff = static_cast<machine::Mask>(seen.pointsOff | machine::maskOf(point.value()));
        // A tag does not say of which point: of each.
        if (stands == M::Locked || answered.is(u"tag"_s, M::ForeignLock) ||
            answered.is(u"tag"_s, M::OutOfUse))
            seen.held = static_cast<machine::Mask>(seen.held | machine::maskOf(point.value()));
    }
    seen.housingOpen = step.capture(u"housing"_s) && !answered.is(u"housing"_s, M::Shut);
    seen.guardOpen = !answered.is(u"guard"_s, M::Shut);
    seen.dowserOpen = step.capture(u"dowser"_s) && !answered.is(u"dowser"_s, M::Shut);
    if (answered.is(u"seat"_s, M::Entered) && !seen.lit) {
        seen.seat = machine::Seat::Entered;
        seen.guardOpen = true;                                  // nobody sees a loose lamp through a guard
    } else if (answered.is(u"seat"_s, M::Empty) && !seen.lit) { // what burns is in a seat
        seen.seat = machine::Seat::Empty;
    }
    if (seen.seat != machine::Seat::Empty)
        seen.lamp = step.otherLamphouse ? context.otherLamp : context.oldLamp;
    seen.adaptorOn = !step.otherLamphouse && context.oldAdaptorOn;
    return seen;
}

Outcome startOutcome(const Answered& answered)
{
    if (answered.is(u"response"_s, M::Started))
        return Outcome::Started;
    const bool proved = answered.is(u"response"_s, M::NoResponse) && answered.is(u"controls"_s, M::AtOff) &&
                        answered.is(u"supply"_s, M::Present);
    return proved ? Outcome::NoResponse : Outcome::Plain;
}

Outcome absenceOutcome(const Act& act, const Answered& answered)
{
    if (answered.is(u"reading"_s, M::Voltage))
        return Outcome::Voltage;
    const bool proved = answered.is(u"reading"_s, M::Absent) && act.testerProved && act.supplySeen;
    return proved ? Outcome::Absent : Outcome::Plain;
}

Outcome strikeOutcome(const Answered& answered)
{
    if (answered.is(u"result"_s, M::Lit))
        return Outcome::Lit;
    if (answered.is(u"result"_s, M::Burst))
        return Outcome::Burst;
    return answered.is(u"result"_s, M::NoLight) ? Outcome::NoLight : Outcome::Plain;
}

/// All say yes, one says no, or nobody can tell.
Outcome verdict(bool all, bool one, Outcome yes, Outcome no)
{
    if (one)
        return no;
    return all ? yes : Outcome::Plain;
}

} // namespace

Answers answersOf(const QJsonObject& object)
{
    Answers answers;
    for (auto it = object.begin(); it != object.end(); ++it)
        answers.insert(it.key(), it.value().toString());
    return answers;
}

Act actOf(const Step& step, const StepContext& context)
{
    Act act;
    act.effect = step.effect;
    act.person = context.person;
    act.lamphouse = step.otherLamphouse ? context.otherLamphouse : context.lamphouse;
    act.lamp = lampOf(step, context);
    if (step.point) {
        Q_ASSERT_X(context.points.contains(*step.point), "actOf", "every point of the model has its index");
        act.point = context.points.value(*step.point);
    }
    act.behindGuard = step.testPoint && context.testPointsBehindGuard.contains(*step.testPoint);
    return act;
}

Act withAnswers(Act act, const Step& step, const StepContext& context, const Answers& answers)
{
    const Answered answered(step, answers);
    switch (step.effect) {
    case Effect::Find:
        act.seen = seenBy(step, context, answered);
        break;
    case Effect::Isolate:
        if (answered.is(u"which"_s, M::Named) && answered.is(u"state"_s, M::Off))
            act.moved = act.point;
        else if (answered.is(u"which"_s, M::OtherPoint))
            act.moved = context.otherMoved;
        break;
    case Effect::LockOn:
        if (answered.is(u"holds"_s, M::GivesWay)) // not where nobody said: that is asked for
            act.outcome = Outcome::WillNotLock;
        break;
    case Effect::TryStart:
        act.supplySeen = answered.is(u"supply"_s, M::Present);
        act.outcome = startOutcome(answered);
        break;
    case Effect::ProveAbsence:
        act.supplySeen = answered.is(u"supply"_s, M::Present);
        act.testerProved = answered.is(u"before"_s, M::Proved) && answered.is(u"after"_s, M::Proved);
        act.outcome = absenceOutcome(act, answered);
        break;
    case Effect::Unbox:
        act.outcome = verdict(answered.is(u"marking"_s, M::Agrees), answered.is(u"marking"_s, M::TypeDiffers),
                              Outcome::Agrees, Outcome::Disagrees);
        break;
    case Effect::ClampLamp:
        act.outcome =
            verdict(answered.allRead(M::Right), answered.any(M::Wrong), Outcome::Agrees, Outcome::Disagrees);
        break;
    case Effect::Count:
        act.outcome =
            verdict(answered.allRead(M::Same), answered.any(M::Differs), Outcome::Same, Outcome::Differs);
        break;
    case Effect::KeyController:
        act.outcome = verdict(answered.is(u"agrees"_s, M::Agrees), answered.is(u"agrees"_s, M::Differs),
                              Outcome::Agrees, Outcome::Disagrees);
        break;
    case Effect::Strike:
        act.outcome = strikeOutcome(answered);
        break;
    case Effect::ShutGuard:
    case Effect::ShutHousing:
    case Effect::BoxLamp:
    case Effect::AdaptorOff:
    case Effect::AdaptorOn:
        if (answered.any(M::Bad))
            act.outcome = Outcome::Disagrees;
        break;
    case Effect::Look:
        if (act.lamp != machine::kNone && answered.is(u"bulb"_s, M::Empty))
            act.outcome = Outcome::Disagrees;
        break;
    default:
        break;
    }
    return act;
}

QStringList standsAgainst(const Step& step, const Answers& answers)
{
    QStringList ids;
    for (const Capture& capture : step.captures) {
        const QString value = answers.value(capture.id);
        const auto means = capture.meansOf(value);
        const bool isAnswered = capture.choices.isEmpty() ? !value.isEmpty() : means.has_value();
        if ((!isAnswered && !capture.optional) || means == M::Bad)
            ids.append(capture.id);
    }
    return ids;
}

std::optional<machine::Event> happenedBy(const Act& act, const Step& step, const Answers& answers)
{
    const Answered answered(step, answers);
    machine::Event event;
    event.person = act.person;
    event.lamphouse = act.lamphouse;
    event.lamp = act.lamp;
    if (step.effect == Effect::LampOff && !answered.is(u"fan"_s, M::Runs))
        event.what = machine::Happening::FanStopped;
    else if ((step.effect == Effect::Unbox || step.effect == Effect::Look) && act.lamp != machine::kNone &&
             answered.is(u"bulb"_s, M::Marked))
        event.what = machine::Happening::LampUnfit;
    else if (step.effect == Effect::Unbox && answered.is(u"marking"_s, M::TypeDiffers))
        event.what = machine::Happening::WrongLamp;
    else
        return std::nullopt;
    return event;
}

} // namespace coldarc::procedure
