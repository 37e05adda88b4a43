#include "ui/visit/card_of_bench.h"

#include "core/machine/reach.h"
#include "core/visit/decide.h"
#include "ui/parts/quantities.h"
#include "ui/visit/acts_of_bench.h"
#include "ui/visit/known_answers.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/view_of_steps.h"
#include "ui/visit/words_demand.h"
#include "ui/visit/words_effect.h"
#include "ui/visit/words_key_in.h"
#include "ui/visit/words_why.h"

#include <QCoreApplication>

#include <algorithm>
#include <functional>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::Effect;
using machine::Index;
using machine::kNone;

constexpr int kMostWords = 4; // sentences on the card about what is held up

QString words(const char* text)
{
    return QCoreApplication::translate("bench", text);
}

void wordSigning(StepCard& card, const BenchMoment& moment)
{
    const int other = moment.swapBeforeSigning();
    if (other < 0) {
        card.action.text = words("Open the signing page");
        return;
    }
    const QString place = placeOf(moment.state, moment.state.swaps[other].lamphouse);
    card.action.text = words("Go on at %1").arg(place);
    card.sub = words("%1 comes first: the whole visit is signed at once.").arg(place);
}

QString toolsOf(const procedure::Step& step)
{
    return step.tools.isEmpty() ? QString() : words("Tools: %1").arg(step.tools.join(u", "_s));
}

void wordStep(StepCard& card, const BenchMoment& moment, const BenchMind& mind)
{
    const procedure::Step& step = *moment.turn.next.step;
    const machine::Act& act = moment.turn.next.act;
    card.title =
        act.point != kNone ? words("%1: %2").arg(step.title, pointName(moment.state, act.point)) : step.title;
    card.why = step.why;
    card.danger = dangerOf(step.hazard);
    card.sub = toolsOf(step);
    if (step.effect == Effect::KeyController) {
        const QStringList keyIn = keyInWordsOf(moment.state, moment.swap());
        card.keyIn = keyIn.first() + u'\n' + keyIn.mid(1).join(u"\u2003"_s);
    }
    if (!hasPage(step.effect)) {
        card.captures = captureViewsOf(step);
        offerKnown(card.captures, step, moment.state, moment.swap(), mind.written);
    }
    if (step.effect == Effect::MatchBox || step.effect == Effect::BookIn)
        card.action.text = words("Open the book-in card");
    if (step.effect == Effect::Sign)
        wordSigning(card, moment);
    if (isOnLightPage(step.effect))
        card.action.text = words("Open the light page");
    if (isOnSheetPage(step.effect))
        card.action.text = words("Open the screen sheet");

    // What the answers of this very step bring about is not waited for, and the book-in card says the rest.
    machine::Unmet unmet = moment.turn.next.unmet;
    if (hasPage(step.effect))
        unmet.reset();
    const QList<machine::Demand> waits = inOrder(unmet);
    if (!waits.isEmpty()) {
        QStringList sentences;
        for (const machine::Demand demand : waits)
            sentences.append(wordsOf(demand, act, moment.state));
        sentences.removeDuplicates();
        card.sub = sentences.mid(0, kMostWords).join(u'\n');
        card.action.stand = ActionView::Stand::Waits;
        card.action.waits = words("Waits: %1").arg(shortWordsOf(waits.first(), act, moment.state));
    }
    if (const Index other = moment.answersStop(); other != kNone) {
        const QString name = moment.state.people[other].name;
        card.sub = words("%1 answers this stop, of what they see themselves.").arg(name);
        card.action.stand = ActionView::Stand::Waits;
        card.action.waits = words("Waits: %1, %2").arg(name, actKey(0));
    }
}

void wordHold(StepCard& card, const BenchMoment& moment)
{
    const visit::WaitClock& clock = *moment.turn.clock;
    card.title = holdWordsOf(clock.wait);
    const procedure::Step* step = moment.turn.next.step;
    if (step && !moment.turn.isMakingSafe)
        card.why = words("Then: %1.").arg(step->title);
    card.sub = countedWordsOf(clock.wait);
    card.wait = waitViewOf(clock, moment.now.wall, moment.desk.zone());
    card.danger = step ? dangerOf(step->hazard) : std::nullopt;
    card.action.stand = ActionView::Stand::Waits;
    card.action.waits = words("Waits: %1").arg(leftText(clock));
}

void wordSafeStep(StepCard& card, const BenchMoment& moment)
{
    const BenchTurn& turn = moment.turn;
    card.phase = turn.isOutFirst     ? words("Out first")
                 : turn.isMakingSafe ? words("Making safe")
                                     : words("Putting a breaker right");
    if (turn.isOutFirst)
        card.sub =
            words("Nobody watched for a while. Whoever is inside shuts and comes out; then the locks are "
                  "looked at, and the swap goes on.");
    card.captures = captureViewsOf(turn.safe);
    if (turn.safe.kind == machine::SafeStep::Kind::Report) {
        card.title = words("Answer the count that differs");
        card.why = words("No lock comes off before it is answered.");
        return;
    }
    const machine::Act& act = turn.safe.act;
    card.title = act.point != kNone
                     ? words("%1: %2").arg(orderOf(act.effect), pointName(moment.state, act.point))
                     : orderOf(act.effect);
    card.why = reasonOf(act.effect);
    if (isOnesOwn(act.effect) && act.person != moment.person) {
        card.action.stand = ActionView::Stand::Waits;
        card.action.waits = words("Waits: %1").arg(moment.state.people[act.person].name);
    }
}

void wordLook(StepCard& card, const BenchMoment& moment)
{
    const procedure::Step& step = *moment.turn.next.step;
    card.place = placeOf(moment.state, moment.turn.lamphouse);
    card.phase = moment.turn.isMakingSafe ? words("Making safe") : words("Same breakers");
    card.title = step.title;
    card.why = reasonOf(Effect::Find);
    card.captures = captureViewsOf(step);
    card.danger = dangerOf(step.hazard);
}

void wordFanQuestion(StepCard& card, const BenchMoment& moment)
{
    card.title = words("Did the fan run on?");
    card.why = words("The lamp went out by itself, burst or did not light, this laptop slept or was started "
                     "again, or a breaker was moved that may feed this fan: nobody watched the air over the "
                     "lamp.");
    card.sub = words("No, or not sure: the longer wait without the fan begins now.");
    card.place = placeOf(moment.state, moment.turn.lamphouse);
    CaptureView question;
    question.id = u"fan"_s;
    question.label = words("The fan");
    question.options = {{u"ran"_s, words("Ran all the time, air moves"), {}},
                        {u"stopped"_s, words("Stood still"), {}},
                        {u"unknown"_s, words("Nobody can say"), {}}};
    card.captures = {question};
}

bool isAnythingOff(const visit::VisitState& state, machine::Index group)
{
    return !machine::everyPoint(
        state.plant, machine::pointsOfGroup(state.plant, group),
        [&](machine::Index point) { return state.machine.point[point].power == machine::Power::On; });
}

void wordLocksQuestion(StepCard& card, const BenchMoment& moment)
{
    const machine::Index lamphouse = moment.turn.lamphouse;
    card.place = placeOf(moment.state, lamphouse);
    card.why = words("The laptop was off or asleep, or another one goes on here: nobody has looked since.");
    CaptureView question;
    question.id = u"locks"_s;
    if (isAnythingOff(moment.state, moment.state.plant.lamphouse[lamphouse].group)) {
        card.title = words("Do your locks still hang?");
        card.sub = words("Go and look at every breaker. No, or not sure: all of it is isolated anew.");
        question.label = words("Locks and breakers");
        question.options = {
            {u"as-before"_s, words("Every lock hangs, every breaker stands as it was left"), {}},
            {u"not-so"_s, words("A lock is gone, or a breaker was moved"), {}}};
    } else {
        card.title = words("Has the lamp been out all the time?");
        card.sub = words("No, or not sure: it is looked at again, and cools anew.");
        question.label = words("Lamp and breakers");
        question.options = {{u"as-before"_s, words("Out all the time, nothing was switched"), {}},
                            {u"not-so"_s, words("It was lit, or something was switched"), {}}};
    }
    question.options.append({u"unknown"_s, words("Nobody can say"), {}});
    card.captures = {question};
}

void wordEnd(StepCard& card, const BenchMoment& moment)
{
    const bool isOver = moment.turn.kind == BenchTurn::Kind::Over;
    card.counter.clear();
    if (isOver) {
        card.title = moment.state.isReadOnly ? words("This visit can only be read here")
                                             : words("This visit is closed");
        card.why = moment.state.isReadOnly ? words("A newer program has written in it.")
                                           : words("Only a remark can be added to it.");
        card.action.stand = ActionView::Stand::Waits;
        card.action.waits = words("Nothing is left to do");
        return;
    }
    card.title = moment.state.isMakingSafe ? words("It is made safe") : words("Nothing is left at this swap");
    card.why = words("Sign with the site when every swap stands so.");
    wordSigning(card, moment);
}

void addAnswers(StepCard& card, const BenchMind& mind)
{
    for (CaptureView& capture : card.captures) {
        capture.error = mind.badAnswers.value(capture.id);
        const auto kept = std::find_if(mind.shown.begin(), mind.shown.end(),
                                       [&](const CaptureAnswer& one) { return one.id == capture.id; });
        if (kept != mind.shown.end())
            capture.value = kept->value;
    }
}

/// The gear of one person, item by item, before they come in for the first time; or their lock.
void wordOwn(StepCard& card, const BenchMoment& moment, const BenchMind& mind)
{
    const Index person = moment.state.person(mind.ownOf);
    const procedure::Step* step = ownStepOf(moment, mind.own);
    if (person == kNone || !step)
        return;
    const bool isLock = mind.own == Effect::LockOn;
    const QString name = moment.state.people[person].name;
    card.stepKey = card.action.stepKey = moment.ownKey(mind.ownOf, mind.own);
    card.title = (isLock ? words("Own lock of %1") : words("Gear of %1")).arg(name);
    card.why = step->why;
    card.danger = dangerOf(step->hazard);
    card.captures = captureViewsOf(*step);
    card.action.text =
        (isLock ? words("%1: it hangs, tag filled in") : words("%1: all of it, shield down")).arg(name);
    addAnswers(card, mind);
    card.acts = {{u"gear-later"_s, words("Not now: back to the step"), {}, u"F5"_s, PersonAct::Stand::Open}};
    if (!mind.said.isEmpty())
        card.sub = mind.said.mid(0, kMostWords).join(u'\n');
}

QString unansweredWords(const visit::VisitState& state)
{
    const auto open = std::ranges::count_if(state.incidents, std::not_fn(&visit::IncidentState::isAnswered));
    if (open == 0 || !state.isOpen())
        return {};
    return open == 1 ? words("one waits for an answer") : words("%1 wait for an answer").arg(open);
}

/// How many answers are missing before a press would be taken. Some steps are taken down without: whoever
/// makes something safe, or tells of danger, is not held up by a question.
qsizetype openAnswers(const StepCard& card, const BenchMoment& moment, const BenchMind& mind)
{
    const QJsonObject given = answersOf(mind.draft());
    const auto open =
        std::count_if(card.captures.begin(), card.captures.end(), [&](const CaptureView& capture) {
            return !capture.isOptional && !given.contains(capture.id);
        });
    if (open == 0 || moment.turn.kind != BenchTurn::Kind::Step || !mind.ownOf.isEmpty())
        return open;
    visit::Did did;
    did.swap = moment.swap().id;
    did.step = moment.turn.next.step->id;
    did.answers = given;
    did.countersignedBy = mind.countersigned;
    const visit::Decision decision = visit::decide(moment.state, moment.desk.presses(), did, moment.now);
    if (decision)
        return 0;
    return std::count_if(decision.error().whys.begin(), decision.error().whys.end(),
                         [](const visit::Why& why) { return why.kind == visit::Why::Kind::AnswerMissing; });
}

void askForAnswers(StepCard& card, const BenchMoment& moment, const BenchMind& mind)
{
    if (card.action.stand != ActionView::Stand::Ready)
        return;
    const qsizetype open = openAnswers(card, moment, mind);
    if (open == 0)
        return;
    card.action.stand = ActionView::Stand::Asks;
    card.action.waits = waitsForAnswers(open);
}

} // namespace

StepCard cardOf(const BenchMoment& moment, const BenchMind& mind)
{
    StepCard card;
    card.stepKey = moment.key();
    card.place = placeOf(moment.state, moment.swap().lamphouse);
    card.action.stepKey = card.stepKey;
    card.action.stand = ActionView::Stand::Ready;
    card.action.text = words("Done");
    if (moment.turn.next.step && !moment.turn.isMakingSafe) {
        card.counter = words("%1 of %2")
                           .arg(numberOf(moment.swap(), *moment.turn.next.step))
                           .arg(moment.swap().steps.size());
        card.phase = nameOf(moment.phase());
    }
    card.unanswered = unansweredWords(moment.state);
    if (!mind.ownOf.isEmpty()) {
        wordOwn(card, moment, mind);
        askForAnswers(card, moment, mind);
        return card;
    }
    switch (moment.turn.kind) {
    case BenchTurn::Kind::FanQuestion:
        wordFanQuestion(card, moment);
        break;
    case BenchTurn::Kind::LocksQuestion:
        wordLocksQuestion(card, moment);
        break;
    case BenchTurn::Kind::Hold:
        wordHold(card, moment);
        break;
    case BenchTurn::Kind::Look:
        wordLook(card, moment);
        break;
    case BenchTurn::Kind::SafeStep:
        wordSafeStep(card, moment);
        break;
    case BenchTurn::Kind::Step:
        wordStep(card, moment, mind);
        break;
    case BenchTurn::Kind::EndsHere:
        card.title = words("This swap goes no further tonight");
        card.why =
            visit::isHeldBySomebody(moment.state, moment.swap().lamphouse)
                ? words("Somebody who is not of this visit holds it by their lock or tag. Nothing is opened "
                        "and no power put back under it: find out whose it is, and why.")
                : words("After what happened no step leads on. What is left is to make it safe.");
        card.action.text = words("See how to make it safe");
        break;
    case BenchTurn::Kind::Nothing:
    case BenchTurn::Kind::Over:
        wordEnd(card, moment);
        break;
    }
    addAnswers(card, mind);
    card.acts = actsOf(moment, mind.countersigned);
    if (!mind.said.isEmpty()) {
        QStringList lines = mind.said.mid(0, kMostWords);
        if (moment.turn.next.step && !card.sub.isEmpty() && card.sub == toolsOf(*moment.turn.next.step))
            lines.append(card.sub); // they are still to be brought
        card.sub = lines.join(u'\n');
    }
    askForAnswers(card, moment, mind);
    return card;
}

} // namespace coldarc::ui
