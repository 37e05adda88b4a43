#include "ui/visit/bench_presenter.h"

#include "core/machine/reach.h"
#include "core/procedure/step_act.h"
#include "core/visit/evolve.h"
#include "core/visit/stop_answers.h"
#include "ui/parts/press_guard.h"
#include "ui/parts/quantities.h"
#include "ui/visit/acts_of_bench.h"
#include "ui/visit/known_answers.h"
#include "ui/visit/view_of_bench.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/view_of_steps.h"
#include "ui/visit/words_why.h"

#include <algorithm>
#include <optional>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

using machine::Effect;
using machine::Index;

BenchPresenter::BenchPresenter(VisitDesk& desk, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_upSince(desk.clock().now())
{
    connect(&desk, &VisitDesk::changed, this, &BenchPresenter::refresh);
    refresh();
}

// ---- The view ---------------------------------------------------------------------------------------------

void BenchPresenter::refresh()
{
    const BenchMoment moment(m_desk, m_swap, m_mind.looksAgain);
    bringUp(m_mind.ownOf.isEmpty() ? moment.key() : moment.ownKey(m_mind.ownOf, m_mind.own));
    callWhenOver(moment.state);
    BenchView view = viewOf(moment, m_mind);
    view.strip = m_strip;
    if (view == m_view)
        return;
    m_view = view;
    Q_EMIT viewChanged(m_view);
}

void BenchPresenter::bringUp(const QString& key)
{
    if (key == m_mind.key)
        return;
    m_mind.bringUp(key);
    if (m_stripSwap < 0)
        m_strip = {}; // it told of the step before
    m_upSince = m_desk.clock().now();
}

BenchPresenter::AwaitedClock BenchPresenter::awaitedClock(const visit::VisitState& state,
                                                          const visit::WaitClock& clock)
{
    const auto at = std::ranges::find_if(
        state.waits, [&](const visit::LamphouseWaits& waits) { return &waits.of(clock.wait) == &clock; });
    return {static_cast<machine::Index>(at - state.waits.begin()), clock.wait};
}

/// A wait that ended at a swap which is not in hand calls, once. One that goes on while something else is
/// asked for has not ended.
void BenchPresenter::callWhenOver(const visit::VisitState& state)
{
    for (int index = 0; index < state.swaps.size(); ++index) {
        const BenchTurn turn = turnOf(state, state.swaps[index], state.lead);
        const std::optional<AwaitedClock> before = m_waiting.take(index);
        if (turn.kind == BenchTurn::Kind::Hold)
            m_waiting.insert(index, awaitedClock(state, *turn.clock));
        const bool isOver = before && turn.kind != BenchTurn::Kind::Hold &&
                            !state.waits[before->lamphouse].of(before->wait).isRunning;
        if (!isOver || index == m_swap)
            continue;
        const QString place = placeOf(state, state.swaps[index].lamphouse);
        const QString next = turn.next.step ? turn.next.step->title : QString();
        m_strip = {next.isEmpty() ? tr("%1: the wait is over.").arg(place)
                                  : tr("%1: the wait is over. Next: %2").arg(place, next),
                   tr("Go to %1").arg(place), swapKey(index), StripView::Call::Sounds};
        m_stripSwap = index;
    }
}

// ---- Presses of one person --------------------------------------------------------------------------------

void BenchPresenter::personAct(const QString& id)
{
    const BenchMoment moment(m_desk, m_swap, m_mind.looksAgain);
    m_pressed = m_mind.key;
    const QString kind = id.section(u':', 0, 0);
    const PersonId person(id.section(u':', 1, 1));
    if (kind == u"answer" || kind == u"prove") {
        doStep(moment, person, m_mind.draft());
    } else if (kind == u"safe") {
        doSafeStep(moment, person, m_mind.draft());
    } else if (kind == u"countersign") {
        m_mind.countersigned = person;
        refresh();
    } else if (kind == u"owe" && moment.turn.next.step) {
        settle(m_desk.tell(visit::Owed{moment.swap().id, moment.turn.next.step->id}));
    } else if (kind == u"own") {
        const auto effect = static_cast<Effect>(id.section(u':', 2, 2).toInt());
        const Index index = moment.state.person(person);
        const Index lamphouse = moment.swap().lamphouse;
        if (effect == Effect::GearOn && !machine::has(moment.state.wholeGear[index], lamphouse)) {
            m_mind.ownOf = person; // item by item first
            m_mind.own = effect;
            return refresh();
        }
        if (effect == Effect::LockOn && ownStepOf(moment, effect)) {
            m_mind.ownOf = person; // its digits are compared at the next stop
            m_mind.own = effect;
            return refresh();
        }
        doOwn(moment, person, effect, {});
    } else if (kind == u"look-again") {
        m_mind.looksAgain = true;
        refresh();
    } else if (kind == u"gear-later") {
        m_mind.ownOf = {};
        refresh();
    } else if (kind == u"light") {
        Q_EMIT lightWanted();
    } else if (kind == u"sheet") {
        Q_EMIT sheetWanted();
    } else if (kind == u"told") {
        Q_EMIT peopleWanted(person);
    }
}

void BenchPresenter::doOwn(const BenchMoment& moment, PersonId person, Effect effect,
                           const QList<CaptureAnswer>& answers)
{
    visit::Acted acted;
    acted.answers = answersOf(answers);
    machine::Act act = ownAct(effect, moment.state.person(person), moment.swap().lamphouse);
    const procedure::Step* step = answers.isEmpty() ? nullptr : ownStepOf(moment, effect);
    if (step && effect == Effect::LockOn && isMarkedBad(*step, procedure::answersOf(acted.answers)))
        return refresh();
    if (step)
        act = procedure::withAnswers(act, *step, visit::contextOf(moment.state, moment.swap(), act.person),
                                     procedure::answersOf(acted.answers));
    acted.act = visit::toRecord(moment.state, act);
    // Gear or lock stays up until it is on.
    const PersonId wearer = std::exchange(m_mind.ownOf, {});
    const VisitDesk::Told told = m_desk.tell(person, acted);
    if (!told.isKept())
        m_mind.ownOf = wearer;
    settle(told);
}

// ---- Presses of the main action ---------------------------------------------------------------------------

void BenchPresenter::done(const QList<CaptureAnswer>& answers)
{
    const BenchMoment moment(m_desk, m_swap, m_mind.looksAgain);
    if ((m_mind.ownOf.isEmpty() ? moment.key() : moment.ownKey(m_mind.ownOf, m_mind.own)) != m_mind.key)
        return refresh(); // what was pressed for is over
    m_mind.drafts.insert(m_mind.key, answers);
    m_pressed = m_mind.key;
    const bool isAskedHere = moment.turn.kind != BenchTurn::Kind::Step || !m_mind.ownOf.isEmpty();
    if (isAskedHere && isMarkedOpen(answers))
        return refresh();
    if (!m_mind.ownOf.isEmpty())
        return doOwn(moment, m_mind.ownOf, m_mind.own, answers);
    switch (moment.turn.kind) {
    case BenchTurn::Kind::FanQuestion:
        return answerFan(moment, answers);
    case BenchTurn::Kind::LocksQuestion:
        return answerLocks(moment, answers);
    case BenchTurn::Kind::Look:
        return look(moment, answers);
    case BenchTurn::Kind::SafeStep:
        return doSafeStep(moment, m_desk.presses(), answers);
    case BenchTurn::Kind::Step: {
        const Effect effect = moment.turn.next.step->effect;
        if (effect == Effect::MatchBox || effect == Effect::BookIn)
            return Q_EMIT bookInWanted();
        if (effect == Effect::Sign)
            return sign(moment);
        if (isOnLightPage(effect))
            return Q_EMIT lightWanted();
        if (isOnSheetPage(effect))
            return Q_EMIT sheetWanted();
        return doStep(moment, m_desk.presses(), answers);
    }
    case BenchTurn::Kind::EndsHere:
        return Q_EMIT makeSafeWanted();
    case BenchTurn::Kind::Nothing:
        return sign(moment);
    case BenchTurn::Kind::Hold:
    case BenchTurn::Kind::Over:
        return;
    }
}

/// One signing for the whole visit: where another swap is not through, that one comes up.
void BenchPresenter::sign(const BenchMoment& moment)
{
    const int other = moment.swapBeforeSigning();
    if (other >= 0)
        return chooseSwap(other);
    Q_EMIT signOffWanted();
}

/// Marks the questions that are open. False where none is.
bool BenchPresenter::isMarkedOpen(const QList<CaptureAnswer>& answers)
{
    const QJsonObject given = answersOf(answers);
    m_mind.badAnswers.clear();
    for (const CaptureView& capture : m_view.card.captures) {
        if (!capture.isOptional && !given.contains(capture.id))
            m_mind.badAnswers.insert(capture.id, tr("Not answered yet."));
    }
    return !m_mind.badAnswers.isEmpty();
}

/// Marks the answers that stand in the way. False where none does.
bool BenchPresenter::isMarkedBad(const procedure::Step& step, const procedure::Answers& answers)
{
    const QStringList bad = procedure::standsAgainst(step, answers);
    for (const QString& id : bad)
        m_mind.badAnswers.insert(id, tr("Put it right, or report what went wrong."));
    return !bad.isEmpty();
}

/// A mark goes when its question is answered anew, and what was said of the marks with the last of them.
void BenchPresenter::unmark(const QList<CaptureAnswer>& answers)
{
    const QJsonObject before = answersOf(m_mind.draft());
    const QJsonObject now = answersOf(answers);
    const bool wasMarked = !m_mind.badAnswers.isEmpty();
    m_mind.badAnswers.removeIf([&](const std::pair<const QString&, QString&>& mark) {
        return before.value(mark.first) != now.value(mark.first);
    });
    if (wasMarked && m_mind.badAnswers.isEmpty())
        m_mind.said.clear();
}

void BenchPresenter::keepAnswers(const QList<CaptureAnswer>& answers)
{
    const bool isChosen = isChosenLast(m_view.card.captures, m_mind.draft(), answers);
    unmark(answers);
    m_mind.drafts.insert(m_mind.key, answers);
    if (isWritten(answers))
        return;
    refresh();
    const BenchMoment moment(m_desk, m_swap, m_mind.looksAgain);
    const bool isThisStep =
        m_mind.ownOf.isEmpty() && moment.turn.kind == BenchTurn::Kind::Step && moment.key() == m_mind.key;
    const bool isHeld = m_desk.clock().now().sinceBoot < m_upSince.sinceBoot + PressGuard::kHold;
    const bool isReady = m_view.card.action.stand == ActionView::Stand::Ready;
    if (isThisStep && !isHeld && isReady && isChosen &&
        isDoneByLastAnswer(*moment.turn.next.step, answersOf(answers)))
        done(answers);
}

/// Somebody would rather write than choose: the question comes again with a box.
bool BenchPresenter::isWritten(QList<CaptureAnswer> answers)
{
    const qsizetype before = m_mind.written.size();
    for (CaptureAnswer& answer : answers) {
        if (answer.value != QStringList{somethingElse()})
            continue;
        answer.value.clear();
        m_mind.written.insert(answer.id);
    }
    if (m_mind.written.size() == before)
        return false;
    m_mind.shown = answers;
    m_mind.drafts.insert(m_mind.key, answers);
    refresh();
    return true;
}

void BenchPresenter::doStep(const BenchMoment& moment, const PersonId& by,
                            const QList<CaptureAnswer>& answers)
{
    visit::Did did;
    did.swap = moment.swap().id;
    did.step = moment.turn.next.step->id;
    did.answers = answersOf(answers);
    did.countersignedBy = m_mind.countersigned;
    const procedure::Step& step = *moment.turn.next.step;
    m_didNotFit.clear(); // as it stands before the answers are taken
    for (const QString& id :
         step.stop ? visit::wrongAnswers(moment.state, moment.swap(), step, procedure::answersOf(did.answers))
                   : QStringList())
        m_didNotFit.append(step.capture(id)->label);
    settle(m_desk.tell(by, did));
}

void BenchPresenter::doSafeStep(const BenchMoment& moment, const PersonId& by,
                                const QList<CaptureAnswer>& answers)
{
    const BenchTurn& turn = moment.turn;
    if (turn.kind != BenchTurn::Kind::SafeStep)
        return;
    visit::Acted acted;
    if (turn.safe.kind == machine::SafeStep::Kind::Report) {
        for (const visit::IncidentState& incident : moment.state.incidents) {
            if (!incident.isAnswered && incident.kind == visit::Incident::CountDiffers)
                return settle(
                    m_desk.tell(by, visit::IncidentAnswered{incident.entry,
                                                            answersOf(answers).value(u"text"_s).toString(),
                                                            m_mind.countersigned}));
        }
        return;
    }
    const auto act = actWith(turn.safe, answers);
    if (!act) {
        for (const CaptureAnswer& answer : answers)
            m_mind.badAnswers.insert(answer.id, tr("Not done with this answer: put right what is not fit."));
        return refresh();
    }
    acted.act = visit::toRecord(moment.state, *act);
    acted.answers = answersOf(answers);
    acted.countersignedBy = m_mind.countersigned;
    settle(m_desk.tell(by, acted));
}

void BenchPresenter::look(const BenchMoment& moment, const QList<CaptureAnswer>& answers)
{
    const procedure::Step& step = *moment.turn.next.step;
    const QJsonObject given = answersOf(answers);
    const procedure::Answers texts = procedure::answersOf(given);
    if (isMarkedBad(step, texts))
        return refresh();
    const procedure::StepContext context = visit::contextOf(moment.state, moment.swap(), moment.who());
    machine::Act act = procedure::withAnswers(moment.turn.next.act, step, context, texts);
    if (act.seen.seat != machine::Seat::Empty)
        act.seen.lamp = act.lamphouse; // nothing was moved yet: the lamp that is believed to be there
    visit::Acted acted;
    acted.act = visit::toRecord(moment.state, act);
    acted.answers = given;
    settle(m_desk.tell(acted));
}

void BenchPresenter::answerFan(const BenchMoment& moment, const QList<CaptureAnswer>& answers)
{
    const QString said = answersOf(answers).value(u"fan"_s).toString();
    settle(m_desk.tell(visit::FanAnswered{moment.state.ground->lamphouses[moment.turn.lamphouse],
                                          said == u"ran", m_mind.countersigned}));
}

void BenchPresenter::answerLocks(const BenchMoment& moment, const QList<CaptureAnswer>& answers)
{
    const QString said = answersOf(answers).value(u"locks"_s).toString();
    settle(m_desk.tell(visit::LocksSeen{moment.state.ground->lamphouses[moment.turn.lamphouse],
                                        said == u"as-before", m_mind.countersigned}));
}

/// Shows what became of a press. What was kept has brought up the next turn already.
void BenchPresenter::settle(const VisitDesk::Told& told)
{
    m_mind.badAnswers.clear();
    visit::Refusal others = told.refusal;
    for (const visit::Why& why : told.refusal.whys) {
        if (why.kind == visit::Why::Kind::AnswerMissing)
            m_mind.badAnswers.insert(why.capture, tr("Not answered yet."));
        if (why.kind == visit::Why::Kind::GearPastDate)
            m_mind.badAnswers.insert(why.capture, tr("Past its date or withdrawn: not this one."));
        if (why.kind == visit::Why::Kind::AnswerBad)
            m_mind.badAnswers.insert(
                why.capture,
                why.text.isEmpty()
                    ? tr("Put it right, or report what went wrong.")
                    : tr("%1 is to stand there: key it in and read it back, or say that it differs.")
                          .arg(why.text));
        if (why.kind == visit::Why::Kind::FigureUnclear)
            m_mind.badAnswers.insert(why.capture, tr("Not plain: %1.").arg(howToWriteHours(why.text)));
    }
    // What stands beside its question is not said a second time.
    others.whys.removeIf([&](const visit::Why& why) { return m_mind.badAnswers.contains(why.capture); });
    m_mind.said = m_mind.badAnswers.isEmpty() ? told.no : wordsOf(others, m_desk.seen());
    if (!m_mind.badAnswers.isEmpty() && m_mind.said.isEmpty())
        m_mind.said = {tr("Answer what is marked first.")};
    if (told.entry) {
        m_mind.looksAgain = false;
        m_mind.drafts.remove(m_pressed);
        const auto* did = std::get_if<visit::Did>(&told.entry->body);
        if (did && !did->reopened.isEmpty())
            m_mind.said = {tr("Did not fit: %1. Steps that come again: %n.", nullptr,
                              static_cast<int>(did->reopened.size()))
                               .arg(m_didNotFit.join(u"; "_s))};
    }
    refresh();
    if (told.entry)
        openItsPage();
}

void BenchPresenter::goOn()
{
    refresh();
    openItsPage();
}

/// A step with a page of its own brings it up when its turn comes, without a press; signing waits for the
/// other swaps.
void BenchPresenter::openItsPage()
{
    const BenchMoment moment(m_desk, m_swap, m_mind.looksAgain);
    const auto effectOf = [](const BenchTurn& turn) {
        return turn.kind == BenchTurn::Kind::Step ? std::optional(turn.next.step->effect) : std::nullopt;
    };
    const auto effect = effectOf(moment.turn);
    if (effect == Effect::MatchBox || effect == Effect::BookIn)
        return Q_EMIT bookInWanted();
    if (effect && isOnLightPage(*effect))
        return Q_EMIT lightWanted();
    if (effect && isOnSheetPage(*effect))
        return Q_EMIT sheetWanted();
    if (effect == Effect::Sign && moment.swapBeforeSigning() < 0)
        Q_EMIT signOffWanted();
}

// ---- The rest ---------------------------------------------------------------------------------------------

void BenchPresenter::chooseSwap(int index)
{
    if (index < 0 || index >= m_desk.logbook().state().swaps.size())
        return;
    m_mind.ownOf = {};
    m_swap = index;
    if (index == m_stripSwap)
        dismissStrip();
    refresh();
}

void BenchPresenter::makeSafe(const QString& reason)
{
    settle(m_desk.tell(visit::SafeBegun{reason}));
}

void BenchPresenter::followStrip()
{
    chooseSwap(m_stripSwap);
}

void BenchPresenter::sayScanLeft()
{
    if (m_stripSwap >= 0)
        return; // a wait that is over is told first
    m_strip = {
        tr("A code was scanned and is left alone: nothing was answered or written. Codes are read on the "
           "lamp's own card."),
        {},
        {},
        StripView::Call::Silent};
    refresh();
}

void BenchPresenter::dismissStrip()
{
    m_strip = {};
    m_stripSwap = -1;
    refresh();
}

} // namespace coldarc::ui
