#include "ui/visit/turn_of_bench.h"

#include "core/machine/reach.h"

#include <QCoreApplication>

#include <array>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::Effect;
using machine::Index;
using machine::kNone;

QString words(const char* text)
{
    return QCoreApplication::translate("turn", text);
}

/// How a step of making safe can come out: the answers, and what the act says with each of them.
struct WayOut {
    const char* id;
    const char* text;
    machine::Outcome outcome;
    bool isPossible = true; ///< false: with this answer the step is not done
};
struct Question {
    Effect effect;
    const char* label;
    std::array<WayOut, 2> ways;
};

const std::array<Question, 6>& questions()
{
    using O = machine::Outcome;
    static const std::array<Question, 6> kQuestions{{
        {Effect::LampOff,
         "The fan",
         {{{"runs", "Runs, air moves", O::FanRuns},
           {"still", "Stands still, or nobody can say", O::FanStill}}}},
        {Effect::Count,
         "Tools and fasteners",
         {{{"same", "As many as at the opening", O::Same}, {"differs", "Not as many", O::Differs}}}},
        {Effect::LockOn,
         "Pulled by hand",
         {{{"holds", "Holds", O::Plain}, {"gives-way", "Gives way", O::WillNotLock}}}},
        {Effect::Isolate,
         "What is seen",
         {{{"off", "Handle off, nothing lit", O::Plain},
           {"still-live", "Something is still lit", O::Plain}}}},
        {Effect::ClampLamp,
         "Polarity and seating",
         {{{"right", "Large electrode at the anode mark, fully in", O::Agrees},
           {"wrong", "Not so, or not seen", O::Disagrees}}}},
        {Effect::GearOn,
         "The whole gear",
         {{{"worn", "On and undamaged, shield down", O::Plain},
           {"unfit", "Something is not fit", O::Plain, false}}}},
    }};
    return kQuestions;
}

const Question* questionOf(const machine::SafeStep& step)
{
    if (step.kind != machine::SafeStep::Kind::Do)
        return nullptr;
    for (const Question& question : questions()) {
        if (question.effect == step.act.effect)
            return &question;
    }
    return nullptr;
}

/// The first lamphouse on the same breakers, or of the same projector, of which this is so; kNone: none.
template<class IsSo>
Index concerned(const visit::VisitState& state, Index lamphouse, IsSo isSo)
{
    const machine::Plant::Lamphouse& here = state.plant.lamphouse[lamphouse];
    for (Index other = 0; other < state.plant.lamphouses; ++other) {
        const machine::Plant::Lamphouse& there = state.plant.lamphouse[other];
        if ((there.group == here.group || there.projector == here.projector) && isSo(other))
            return other;
    }
    return kNone;
}

Index notLookedAt(const visit::VisitState& state, Index lamphouse)
{
    return concerned(state, lamphouse,
                     [&](Index other) { return !machine::isLookedAt(state.machine, other); });
}

Index knownByHearsay(const visit::VisitState& state, Index lamphouse)
{
    return concerned(state, lamphouse, [&](Index other) {
        return state.machine.group[state.plant.lamphouse[other].group].isHearsay && !state.machine.hurt;
    });
}

/// The step by which this procedure looks at a lamphouse on arrival; for one of another projector on the same
/// breakers the step that looks at the swap's own.
visit::NextStep lookingAt(const visit::VisitState& state, const visit::SwapState& swap, Index lamphouse,
                          Index person)
{
    const bool isOfThisProjector =
        state.plant.lamphouse[lamphouse].projector == state.plant.lamphouse[swap.lamphouse].projector;
    const bool isOther = isOfThisProjector && lamphouse != swap.lamphouse;
    visit::NextStep next;
    for (const procedure::Step& step : swap.procedure->steps) {
        if (step.effect != Effect::Find || (step.otherLamphouse != isOther && next.step))
            continue;
        next.step = &step;
        next.act = visit::hopefulAct(state, swap, step, person);
        next.act.lamphouse = lamphouse;
        if (step.otherLamphouse == isOther)
            break;
    }
    return next;
}

BenchTurn lookTurn(const visit::VisitState& state, const visit::SwapState& swap, Index lamphouse,
                   Index person, bool isMakingSafe)
{
    BenchTurn turn;
    turn.isMakingSafe = isMakingSafe;
    turn.lamphouse = lamphouse;
    turn.next = lookingAt(state, swap, lamphouse, person);
    turn.kind = turn.next.step ? BenchTurn::Kind::Look : BenchTurn::Kind::Nothing;
    return turn;
}

BenchTurn safeTurn(const visit::VisitState& state, const visit::SwapState& swap, Index person,
                   bool isMakingSafe)
{
    const Index group = state.plant.lamphouse[swap.lamphouse].group;
    const Index unseen = notLookedAt(state, swap.lamphouse);
    if (unseen != kNone && machine::isZoneEmpty(state.plant, state.machine, unseen)) // people come out first
        return lookTurn(state, swap, unseen, person, isMakingSafe);
    BenchTurn turn;
    turn.isMakingSafe = isMakingSafe;
    turn.lamphouse = swap.lamphouse;
    turn.safe = isMakingSafe ? machine::nextSafeStep(state.plant, state.machine, group, state.lead)
                             : machine::nextPutRightStep(state.plant, state.machine, group, state.lead);
    switch (turn.safe.kind) {
    case machine::SafeStep::Kind::Done:
        turn.kind = BenchTurn::Kind::Nothing;
        break;
    case machine::SafeStep::Kind::Hold:
        turn.kind = BenchTurn::Kind::Hold;
        turn.clock = &state.waits[turn.safe.lamphouse].of(turn.safe.wait);
        break;
    default:
        turn.kind = BenchTurn::Kind::SafeStep;
    }
    return turn;
}

Index asksForFan(const visit::VisitState& state, const visit::SwapState& swap)
{
    return concerned(state, swap.lamphouse, [&](Index other) { return state.waits[other].cool.asksForFan; });
}

qint64 timesDone(const visit::VisitState& state, const SwapId& swap, const StepId& step)
{
    qint64 times = 0;
    for (const auto& [doneSwap, doneStep] : state.stepsByEntry)
        times += doneSwap == swap && doneStep == step ? 1 : 0;
    return times;
}

} // namespace

QString BenchTurn::keyOf(const visit::VisitState& state, const visit::SwapState& swap) const
{
    const QString place = swap.id.text();
    switch (kind) {
    case Kind::FanQuestion:
        return u"%1/fan/%2"_s.arg(place).arg(lamphouse);
    case Kind::LocksQuestion:
        return u"%1/locks/%2"_s.arg(place).arg(lamphouse);
    case Kind::Hold:
        return u"%1/hold/%2"_s.arg(place).arg(static_cast<int>(clock->wait));
    case Kind::Look:
        return u"%1/look/%2"_s.arg(place).arg(lamphouse);
    case Kind::SafeStep:
        return u"%1/safe/%2"_s.arg(place).arg(state.entries);
    case Kind::Step:
        return u"%1/%2/%3"_s.arg(place, next.step->id.text()).arg(timesDone(state, swap.id, next.step->id));
    case Kind::EndsHere:
        return u"%1/ends"_s.arg(place);
    case Kind::Nothing:
        return u"%1/nothing"_s.arg(place);
    case Kind::Over:
        return u"%1/over"_s.arg(place);
    }
    Q_UNREACHABLE();
}

BenchTurn turnOf(const visit::VisitState& state, const visit::SwapState& swap, Index person)
{
    BenchTurn turn;
    turn.lamphouse = swap.lamphouse;
    if (!state.isOpen()) {
        turn.kind = BenchTurn::Kind::Over;
        return turn;
    }
    const Index group = state.plant.lamphouse[swap.lamphouse].group;
    const auto isInside = [&](Index other) {
        return state.plant.lamphouse[other].group == group &&
               !machine::isZoneEmpty(state.plant, state.machine, other);
    };
    const bool isAnybodyInside = concerned(state, swap.lamphouse, isInside) != kNone;
    if (isAnybodyInside && (state.isMakingSafe || knownByHearsay(state, swap.lamphouse) != kNone)) {
        BenchTurn out = safeTurn(state, swap, person, true); // out first, asked afterwards
        out.isOutFirst = !state.isMakingSafe;
        // The adaptor comes off before its lamp goes into the box for good.
        const machine::LamphouseState& here = state.machine.lamphouse[swap.lamphouse];
        const Index inHand = machine::lampInHand(state.plant, state.machine, swap.lamphouse);
        const bool isADeed = out.kind == BenchTurn::Kind::SafeStep &&
                             out.safe.kind == machine::SafeStep::Kind::Do &&
                             (inHand == kNone || here.adaptor != inHand || inHand == swap.newLamp);
        if (state.isMakingSafe || isADeed)
            return out;
    }
    if (const Index asked = asksForFan(state, swap); asked != kNone) {
        turn.kind = BenchTurn::Kind::FanQuestion;
        turn.lamphouse = asked;
        return turn;
    }
    if (const Index asked = knownByHearsay(state, swap.lamphouse); asked != kNone) {
        turn.kind = BenchTurn::Kind::LocksQuestion;
        turn.lamphouse = asked;
        return turn;
    }
    if (state.isMakingSafe)
        return safeTurn(state, swap, person, true);
    const Index changed =
        concerned(state, swap.lamphouse, [&](Index other) { return state.machine.lamphouse[other].unseen; });
    if (changed != kNone) {
        const BenchTurn right = safeTurn(state, swap, person, false);
        if (right.kind != BenchTurn::Kind::Nothing)
            return right;
    }
    turn.next = visit::nextStep(state, swap, person);
    if (!turn.next.step)
        return turn;
    if (turn.next.endsHere) {
        turn.kind = BenchTurn::Kind::EndsHere;
        return turn;
    }
    // A lamphouse on the same breakers that no step of this procedure looks at.
    const Index unseen = notLookedAt(state, swap.lamphouse);
    const bool isMissed = turn.next.unmet.test(static_cast<std::size_t>(machine::Demand::Found)) &&
                          turn.next.step->effect != Effect::Find;
    if (isMissed && unseen != kNone)
        return lookTurn(state, swap, unseen, person, false);
    if (turn.next.isPutRight) {
        const BenchTurn right = safeTurn(state, swap, person, false);
        if (right.kind != BenchTurn::Kind::Nothing)
            return right;
    }
    turn.clock = visit::waitBehind(state, turn.next.act, turn.next.unmet);
    turn.kind = turn.clock ? BenchTurn::Kind::Hold : BenchTurn::Kind::Step;
    return turn;
}

BenchTurn lookAgainTurn(const visit::VisitState& state, const visit::SwapState& swap, Index person)
{
    BenchTurn turn = turnOf(state, swap, person);
    const Index heldAt = visit::heldAt(state, swap.lamphouse);
    const bool isHeld = turn.kind == BenchTurn::Kind::EndsHere && heldAt != kNone;
    return isHeld ? lookTurn(state, swap, heldAt, person, false) : turn;
}

QList<CaptureView> captureViewsOf(const machine::SafeStep& step)
{
    CaptureView view;
    if (step.kind == machine::SafeStep::Kind::Report) {
        view.id = u"text"_s;
        view.kind = CaptureView::Kind::Text;
        view.label = words("What was found, or where it can not be");
        return {view};
    }
    const Question* question = questionOf(step);
    if (!question)
        return {};
    view.id = u"answer"_s;
    view.label = words(question->label);
    view.reach = Reach::Glove;
    for (const WayOut& way : question->ways)
        view.options.append({QString::fromLatin1(way.id), words(way.text), {}});
    return {view};
}

std::optional<machine::Act> actWith(const machine::SafeStep& step, const QList<CaptureAnswer>& answers)
{
    machine::Act act = step.act;
    const Question* question = questionOf(step);
    if (!question)
        return act;
    const QString chosen = answers.isEmpty() ? QString() : answers.first().value.value(0);
    for (const WayOut& way : question->ways) {
        if (chosen != QLatin1String(way.id))
            continue;
        act.outcome = way.outcome;
        if (act.effect == Effect::Isolate)
            act.moved = chosen == u"off" ? act.point : kNone;
        return way.isPossible ? std::optional(act) : std::nullopt;
    }
    return std::nullopt;
}

bool isOnesOwn(Effect effect)
{
    switch (effect) {
    case Effect::LockOn:
    case Effect::LockOff:
    case Effect::JobLockOff:
    case Effect::GearOn:
    case Effect::GearOff:
    case Effect::EnterZone:
    case Effect::LeaveZone:
        return true;
    default:
        return false;
    }
}

} // namespace coldarc::ui
