#include "ui/visit/bench_presenter.h"

#include "core/machine/goal.h"
#include "core/machine/reach.h"
#include "core/procedure/step_act.h"
#include "core/visit/evolve.h"
#include "ui/parts/press_guard.h"
#include "ui/parts/quantities.h"
#include "ui/visit/known_answers.h"
#include "ui/visit/make_safe_page.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/view_of_steps.h"
#include "ui/visit/words_demand.h"
#include "ui/visit/words_effect.h"
#include "ui/visit/words_key_in.h"
#include "ui/visit/words_why.h"

#include <algorithm>
#include <array>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::Effect;
using machine::Index;
using machine::kNone;
using procedure::Phase;

constexpr int kMostWords = 4; // sentences on the card about what is held up
constexpr std::array<const char16_t*, 4> kSwapKeys{u"F1", u"F2", u"F3", u"F4"};
constexpr std::array<const char16_t*, 4> kActKeys{u"F5", u"F6", u"F7", u"F8"};

QString keyAt(const std::array<const char16_t*, 4>& keys, qsizetype index)
{
    return index < static_cast<qsizetype>(keys.size())
               ? QString::fromUtf16(keys[static_cast<std::size_t>(index)])
               : QString();
}

bool hasPage(Effect effect)
{
    return effect == Effect::MatchBox || effect == Effect::BookIn || effect == Effect::Sign;
}

int numberOf(const visit::SwapState& swap, const procedure::Step& step)
{
    const auto found = std::find_if(swap.steps.begin(), swap.steps.end(),
                                    [&](const procedure::Step& one) { return one.id == step.id; });
    return static_cast<int>(found - swap.steps.begin()) + 1;
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

const procedure::Step* gearStepOf(const visit::SwapState& swap)
{
    const auto found = std::find_if(swap.steps.begin(), swap.steps.end(), [](const procedure::Step& step) {
        return step.effect == Effect::GearOn;
    });
    return found == swap.steps.end() ? nullptr : &*found;
}

/// While it is made safe the steps ahead are those of the way there.
QList<StepRow> safeRows(const visit::VisitState& state, const visit::SwapState& swap)
{
    QList<StepRow> rows;
    for (const QString& step : makeSafeViewOf(state, swap).steps) {
        const auto stand = rows.isEmpty() ? StepRow::Stand::Now : StepRow::Stand::Ahead;
        rows.append({QCoreApplication::translate("bench", "Making safe"), step, stand, QString()});
    }
    return rows;
}

machine::Act ownAct(Effect effect, Index person, Index lamphouse)
{
    machine::Act act;
    act.effect = effect;
    act.person = person;
    act.lamphouse = lamphouse;
    return act;
}

} // namespace

struct BenchPresenter::Moment {
    visit::VisitState state;
    Stamp now;
    Index person = kNone;
    BenchTurn turn;
    int index = 0;

    Moment(const VisitDesk& desk, int swapIndex)
        : state(desk.seen())
        , now(desk.clock().now())
        , person(state.person(desk.presses()))
        , turn(turnOf(state, state.swaps[swapIndex], person != kNone ? person : state.lead))
        , index(swapIndex)
    {
    }
    Moment(const Moment&) = delete; // the turn points into the state
    Moment& operator=(const Moment&) = delete;

    [[nodiscard]] const visit::SwapState& swap() const { return state.swaps[index]; }
    [[nodiscard]] Index who() const { return person != kNone ? person : state.lead; }
    [[nodiscard]] QString key() const { return turn.keyOf(state, swap()); }
    [[nodiscard]] Phase phase() const { return turn.next.step ? turn.next.step->phase : Phase::Close; }
    /// Who answers a stop where whoever presses does not, since they did its steps; kNone: they may.
    [[nodiscard]] Index answersStop() const
    {
        const bool isStop = turn.kind == BenchTurn::Kind::Step && turn.next.step->stop;
        if (!isStop || visit::mayAnswer(state, swap(), *turn.next.step, who()))
            return kNone;
        for (Index other = 0; other < state.plant.people; ++other) {
            const bool isAble =
                state.isHere(other) && (state.people[other].mayLead || state.people[other].mayAssist);
            if (isAble && visit::mayAnswer(state, swap(), *turn.next.step, other))
                return other;
        }
        return kNone;
    }
};

BenchPresenter::BenchPresenter(VisitDesk& desk, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_upSince(desk.clock().now())
{
    connect(&desk, &VisitDesk::changed, this, &BenchPresenter::refresh);
    refresh();
}

void BenchPresenter::setBand(const QString& band)
{
    m_band = band;
    refresh();
}

// ---- The view ---------------------------------------------------------------------------------------------

void BenchPresenter::refresh()
{
    const Moment moment(m_desk, m_swap);
    bringUp(m_gearOf.isEmpty() ? moment.key() : gearKey(moment));
    callWhenOver(moment.state);
    const BenchView view = viewOf(moment);
    if (view == m_view)
        return;
    m_view = view;
    Q_EMIT viewChanged(m_view);
}

void BenchPresenter::bringUp(const QString& key)
{
    if (key == m_key)
        return;
    m_key = key;
    m_upSince = m_desk.clock().now();
    m_shownDraft = m_drafts.value(key);
    m_written.clear();
    m_countersigned = {};
    m_said.clear();
    m_badAnswers.clear();
}

/// A wait that ended at a swap which is not in hand calls, once.
void BenchPresenter::callWhenOver(const visit::VisitState& state)
{
    for (int index = 0; index < state.swaps.size(); ++index) {
        const BenchTurn turn = turnOf(state, state.swaps[index], state.lead);
        const bool isWaiting = turn.kind == BenchTurn::Kind::Hold;
        const bool isOver = m_waiting.contains(index) && !isWaiting;
        if (isWaiting)
            m_waiting.insert(index);
        else
            m_waiting.remove(index);
        if (!isOver || index == m_swap)
            continue;
        const QString place = placeOf(state, state.swaps[index].lamphouse);
        const QString next = turn.next.step ? turn.next.step->title : QString();
        m_strip = {next.isEmpty() ? tr("%1: the wait is over.").arg(place)
                                  : tr("%1: the wait is over. Next: %2").arg(place, next),
                   tr("Go to %1").arg(place), keyAt(kSwapKeys, index), StripView::Call::Sounds};
        m_stripSwap = index;
    }
}

BenchView BenchPresenter::viewOf(const Moment& moment)
{
    const visit::VisitState& state = moment.state;
    BenchView view;
    view.site = state.ground->opening.site.site.name;
    view.subtitle = state.swaps.size() == 1 ? tr("one swap") : tr("%1 swaps").arg(state.swaps.size());
    if (const auto show = site::nextShow(state.ground->opening.site, moment.now.wall)) {
        view.nextShow = tr("next show %1").arg(wallText(show->start, m_desk.zone()));
        view.gap = tr("gap %1").arg(
            spanText(std::chrono::duration_cast<std::chrono::minutes>(show->start - moment.now.wall)));
    }
    for (Index person = 0; person < state.plant.people; ++person) {
        const QString name = state.people[person].name;
        const bool isTrainee = state.people[person].role == people::Role::Trainee;
        if (person == state.lead)
            view.people.prepend(name);
        else if (state.isHere(person))
            view.people.append(isTrainee ? tr("with %1, trainee").arg(name) : tr("with %1").arg(name));
    }
    view.band = m_band;
    for (int index = 0; index < state.swaps.size(); ++index)
        view.swaps.append(rowOf(state, index));
    view.swapInHand = m_swap;
    view.steps = state.isMakingSafe && state.isOpen()
                     ? safeRows(state, moment.swap())
                     : stepRowsOf(state, moment.swap(), moment.turn.next, moment.who(), m_desk.zone());
    view.card = cardOf(moment);
    view.gates = gateViewsOf(state, moment.swap());
    view.machine = machineViewOf(state, moment.swap().lamphouse);
    const Index group = state.plant.lamphouse[moment.swap().lamphouse].group;
    view.makeSafeEnd = wordsOf(machine::safeEnd(state.plant, state.machine, group));
    view.strip = m_strip;
    return view;
}

SwapRow BenchPresenter::rowOf(const visit::VisitState& state, int index) const
{
    const visit::SwapState& swap = state.swaps[index];
    const BenchTurn turn = turnOf(state, swap, state.lead);
    SwapRow row;
    row.title = placeOf(state, swap.lamphouse);
    row.key = keyAt(kSwapKeys, index);
    switch (turn.kind) {
    case BenchTurn::Kind::Hold:
        row.state = u"%1, %2"_s.arg(shortHoldWordsOf(turn.clock->wait), leftText(*turn.clock));
        row.wait = waitViewOf(*turn.clock, state.last.wall, m_desk.zone()).share;
        break;
    case BenchTurn::Kind::FanQuestion:
        row.state = tr("waits: did the fan run on?");
        break;
    case BenchTurn::Kind::Look:
        row.state = tr("waits: first look");
        break;
    case BenchTurn::Kind::SafeStep:
        row.state = turn.isMakingSafe ? tr("being made safe") : tr("a breaker is put right");
        break;
    case BenchTurn::Kind::Step:
        row.state = tr("step %1 of %2").arg(numberOf(swap, *turn.next.step)).arg(swap.steps.size());
        break;
    case BenchTurn::Kind::EndsHere:
        row.state = tr("waits: make safe");
        break;
    case BenchTurn::Kind::Nothing:
        row.state = turn.isMakingSafe ? tr("made safe") : tr("done");
        break;
    case BenchTurn::Kind::Over:
        row.state = tr("closed");
        break;
    }
    return row;
}

StepCard BenchPresenter::cardOf(const Moment& moment) const
{
    StepCard card;
    card.stepKey = moment.key();
    card.place = placeOf(moment.state, moment.swap().lamphouse);
    card.action.stepKey = card.stepKey;
    card.action.stand = ActionView::Stand::Ready;
    card.action.text = tr("Done");
    if (moment.turn.next.step && !moment.turn.isMakingSafe) {
        card.counter = tr("%1 of %2")
                           .arg(numberOf(moment.swap(), *moment.turn.next.step))
                           .arg(moment.swap().steps.size());
        card.phase = nameOf(moment.phase());
    }
    if (!m_gearOf.isEmpty()) {
        wordGear(card, moment);
        return card;
    }
    switch (moment.turn.kind) {
    case BenchTurn::Kind::FanQuestion:
        wordFanQuestion(card, moment);
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
        wordStep(card, moment);
        break;
    case BenchTurn::Kind::EndsHere:
        card.title = tr("This swap goes no further tonight");
        card.why = tr("After what happened no step leads on. What is left is to make it safe.");
        card.action.text = tr("See how to make it safe");
        break;
    case BenchTurn::Kind::Nothing:
    case BenchTurn::Kind::Over:
        wordEnd(card, moment);
        break;
    }
    addAnswers(card);
    card.acts = actsOf(moment);
    if (!m_said.isEmpty())
        card.sub = m_said.mid(0, kMostWords).join(u'\n');
    return card;
}

void BenchPresenter::wordStep(StepCard& card, const Moment& moment) const
{
    const procedure::Step& step = *moment.turn.next.step;
    const machine::Act& act = moment.turn.next.act;
    card.title = step.title;
    card.why = step.why;
    card.danger = dangerOf(step.hazard);
    if (!step.tools.isEmpty())
        card.sub = tr("Tools: %1").arg(step.tools.join(u", "_s));
    if (step.effect == Effect::KeyController)
        card.sub = keyInWordsOf(moment.state, moment.swap()).join(u"\u2003"_s);
    if (!hasPage(step.effect)) {
        card.captures = captureViewsOf(step);
        offerKnown(card.captures, step, moment.state, moment.swap(), m_written);
    }
    if (step.effect == Effect::MatchBox || step.effect == Effect::BookIn)
        card.action.text = tr("Open the book-in card");
    if (step.effect == Effect::Sign)
        card.action.text = tr("Open the signing page");

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
        card.action.waits = tr("Waits: %1").arg(shortWordsOf(waits.first(), act, moment.state));
    }
    if (const Index other = moment.answersStop(); other != kNone) {
        card.action.stand = ActionView::Stand::Waits;
        card.action.waits = tr("Waits: %1, %2").arg(moment.state.people[other].name, keyAt(kActKeys, 0));
    }
}

void BenchPresenter::wordHold(StepCard& card, const Moment& moment) const
{
    const visit::WaitClock& clock = *moment.turn.clock;
    card.title = holdWordsOf(clock.wait);
    const procedure::Step* step = moment.turn.next.step;
    if (step && !moment.turn.isMakingSafe)
        card.why = tr("Then: %1.").arg(step->title);
    card.sub = countedWordsOf(clock.wait);
    card.wait = waitViewOf(clock, moment.now.wall, m_desk.zone());
    card.danger = step ? dangerOf(step->hazard) : std::nullopt;
    card.action.stand = ActionView::Stand::Waits;
    card.action.waits = tr("Waits: %1").arg(leftText(clock));
}

void BenchPresenter::wordSafeStep(StepCard& card, const Moment& moment) const
{
    const BenchTurn& turn = moment.turn;
    card.phase = turn.isMakingSafe ? tr("Making safe") : tr("Putting a breaker right");
    card.captures = captureViewsOf(turn.safe);
    if (turn.safe.kind == machine::SafeStep::Kind::Report) {
        card.title = tr("Answer the count that differs");
        card.why = tr("No lock comes off before it is answered.");
        return;
    }
    const machine::Act& act = turn.safe.act;
    card.title = act.point != kNone
                     ? tr("%1: %2").arg(orderOf(act.effect), pointName(moment.state, act.point))
                     : orderOf(act.effect);
    card.why = reasonOf(act.effect);
    if (isOnesOwn(act.effect) && act.person != moment.person) {
        card.action.stand = ActionView::Stand::Waits;
        card.action.waits = tr("Waits: %1").arg(moment.state.people[act.person].name);
    }
}

void BenchPresenter::wordLook(StepCard& card, const Moment& moment) const
{
    const procedure::Step& step = *moment.turn.next.step;
    card.place = placeOf(moment.state, moment.turn.lamphouse);
    card.phase = moment.turn.isMakingSafe ? tr("Making safe") : tr("Same breakers");
    card.title = step.title;
    card.why = reasonOf(Effect::Find);
    card.captures = captureViewsOf(step);
    card.danger = dangerOf(step.hazard);
}

void BenchPresenter::wordFanQuestion(StepCard& card, const Moment& moment) const
{
    card.title = tr("Did the fan run on?");
    card.why = tr("This laptop slept or was started again, so nobody watched the air over the lamp.");
    card.sub = tr("No, or not sure: the longer wait without the fan begins now.");
    card.place = placeOf(moment.state, moment.turn.lamphouse);
    CaptureView question;
    question.id = u"fan"_s;
    question.label = tr("The fan");
    question.options = {{u"ran"_s, tr("Ran all the time, air moves"), {}},
                        {u"stopped"_s, tr("Stood still"), {}},
                        {u"unknown"_s, tr("Nobody can say"), {}}};
    card.captures = {question};
}

/// The gear of one person, item by item, before they come in for the first time.
void BenchPresenter::wordGear(StepCard& card, const Moment& moment) const
{
    const Index person = moment.state.person(m_gearOf);
    const procedure::Step* step = gearStepOf(moment.swap());
    if (person == kNone || !step)
        return;
    const QString name = moment.state.people[person].name;
    card.stepKey = card.action.stepKey = gearKey(moment);
    card.title = tr("Gear of %1").arg(name);
    card.why = step->why;
    card.danger = dangerOf(step->hazard);
    card.captures = captureViewsOf(*step);
    card.action.text = tr("%1: all of it, shield down").arg(name);
    addAnswers(card);
    card.acts = {{u"gear-later"_s, tr("Not now: back to the step"), {}, u"F5"_s, PersonAct::Stand::Open}};
    if (!m_said.isEmpty())
        card.sub = m_said.mid(0, kMostWords).join(u'\n');
}

QString BenchPresenter::gearKey(const Moment& moment) const
{
    return u"%1/gear/%2/%3"_s.arg(moment.swap().id.text(), m_gearOf.text()).arg(moment.state.entries);
}

void BenchPresenter::wordEnd(StepCard& card, const Moment& moment) const
{
    const bool isOver = moment.turn.kind == BenchTurn::Kind::Over;
    card.counter.clear();
    if (isOver) {
        card.title =
            moment.state.isReadOnly ? tr("This visit can only be read here") : tr("This visit is closed");
        card.why = moment.state.isReadOnly ? tr("A newer program has written in it.")
                                           : tr("Only a remark can be added to it.");
        card.action.stand = ActionView::Stand::Waits;
        card.action.waits = tr("Nothing is left to do");
        return;
    }
    card.title = moment.state.isMakingSafe ? tr("It is made safe") : tr("Nothing is left at this swap");
    card.why = tr("Sign with the site when every swap stands so.");
    card.action.text = tr("Open the signing page");
}

void BenchPresenter::addAnswers(StepCard& card) const
{
    for (CaptureView& capture : card.captures) {
        capture.error = m_badAnswers.value(capture.id);
        const auto kept = std::find_if(m_shownDraft.begin(), m_shownDraft.end(),
                                       [&](const CaptureAnswer& one) { return one.id == capture.id; });
        if (kept != m_shownDraft.end())
            capture.value = kept->value;
    }
}

// ---- Presses of one person --------------------------------------------------------------------------------

QList<PersonAct> BenchPresenter::ownActsOf(const Moment& moment, Index person) const
{
    const visit::VisitState& state = moment.state;
    const Index lamphouse = moment.swap().lamphouse;
    QList<PersonAct> acts;
    for (const OwnAct& own : kOwnActs) {
        const bool isItsTime = (moment.phase() >= own.from && moment.phase() <= own.to) ||
                               (own.effect == Effect::LeaveZone && state.machine.person[person].at != kNone);
        const machine::Act act = ownAct(own.effect, person, lamphouse);
        if (!isItsTime || machine::isSo(state.plant, state.machine, act) ||
            machine::unmet(state.plant, state.machine, act).any())
            continue;
        const bool isSameGear = own.effect == Effect::GearOn &&
                                state.machine.person[person].gear == machine::Gear::Worn &&
                                state.machine.person[person].gearFor == lamphouse;
        const QString text = isSameGear ? tr("%1: same gear, on, undamaged, shield down")
                                        : QCoreApplication::translate("bench", own.text);
        acts.append({u"own:%1:%2"_s.arg(state.people[person].id.text()).arg(static_cast<int>(own.effect)),
                     text.arg(state.people[person].name), QString(), QString(), PersonAct::Stand::Open});
    }
    return acts;
}

QList<PersonAct> BenchPresenter::actsOf(const Moment& moment) const
{
    const visit::VisitState& state = moment.state;
    const BenchTurn& turn = moment.turn;
    QList<PersonAct> acts;
    if (const Index other = moment.answersStop(); other != kNone)
        acts.append({u"answer:"_s + state.people[other].id.text(),
                     tr("%1: these are my answers").arg(state.people[other].name),
                     tr("whoever did the steps does not answer them"),
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
    const bool isTraineesTurn = isStep && moment.person != kNone && !state.people[moment.person].mayLead;
    for (Index person = 0; person < state.plant.people && isTraineesTurn; ++person) {
        if (!state.people[person].mayLead || !state.isHere(person))
            continue;
        const bool isGiven = m_countersigned == state.people[person].id;
        acts.append({u"countersign:"_s + state.people[person].id.text(),
                     tr("%1: seen and agreed").arg(state.people[person].name),
                     tr("proved by PIN at the next stop"),
                     {},
                     isGiven ? PersonAct::Stand::Given : PersonAct::Stand::Open});
    }
    for (Index person = 0; person < state.plant.people; ++person) {
        if (state.isHere(person) && state.removalsToTell.contains(state.people[person].id))
            acts.append({u"told:"_s + state.people[person].id.text(),
                         tr("%1: your lock was taken off, read how").arg(state.people[person].name),
                         tr("and say that you were told"),
                         {},
                         PersonAct::Stand::Open});
    }
    const bool isOpen = turn.kind != BenchTurn::Kind::Over && !isOthersOwn;
    for (Index person = 0; person < state.plant.people && isOpen; ++person) {
        if (person != moment.who() && state.isHere(person))
            acts += ownActsOf(moment, person);
    }
    if (isStep && turn.next.step->mayFollow)
        acts.append({u"owe"_s,
                     tr("Leave this to a later visit"),
                     tr("shown and reported as owed"),
                     {},
                     PersonAct::Stand::Open});
    for (qsizetype index = 0; index < acts.size(); ++index)
        acts[index].key = keyAt(kActKeys, index);
    return acts;
}

void BenchPresenter::personAct(const QString& id)
{
    const Moment moment(m_desk, m_swap);
    m_pressed = m_key;
    const QString kind = id.section(u':', 0, 0);
    const PersonId person(id.section(u':', 1, 1));
    if (kind == u"answer") {
        doStep(moment, person, m_drafts.value(m_key));
    } else if (kind == u"safe") {
        doSafeStep(moment, person, m_drafts.value(m_key));
    } else if (kind == u"countersign") {
        m_countersigned = person;
        refresh();
    } else if (kind == u"owe" && moment.turn.next.step) {
        settle(m_desk.tell(visit::Owed{moment.swap().id, moment.turn.next.step->id}));
    } else if (kind == u"own") {
        const auto effect = static_cast<Effect>(id.section(u':', 2, 2).toInt());
        const Index index = moment.state.person(person);
        const Index lamphouse = moment.swap().lamphouse;
        if (effect == Effect::GearOn && !machine::has(moment.state.wholeGear[index], lamphouse)) {
            m_gearOf = person; // item by item first
            return refresh();
        }
        doOwn(moment, person, effect, {});
    } else if (kind == u"gear-later") {
        m_gearOf = {};
        refresh();
    } else if (kind == u"told") {
        Q_EMIT peopleWanted(person);
    }
}

void BenchPresenter::doOwn(const Moment& moment, const PersonId& person, Effect effect,
                           const QList<CaptureAnswer>& answers)
{
    visit::Acted acted;
    acted.act =
        visit::toRecord(moment.state, ownAct(effect, moment.state.person(person), moment.swap().lamphouse));
    acted.answers = answersOf(answers);
    settle(m_desk.tell(person, acted));
}

// ---- Presses of the main action ---------------------------------------------------------------------------

void BenchPresenter::done(const QList<CaptureAnswer>& answers)
{
    const Moment moment(m_desk, m_swap);
    if ((m_gearOf.isEmpty() ? moment.key() : gearKey(moment)) != m_key)
        return refresh(); // what was pressed for is over
    m_drafts.insert(m_key, answers);
    m_pressed = m_key;
    if (!m_gearOf.isEmpty())
        return doOwn(moment, std::exchange(m_gearOf, {}), Effect::GearOn, answers);
    switch (moment.turn.kind) {
    case BenchTurn::Kind::FanQuestion:
        return answerFan(moment, answers);
    case BenchTurn::Kind::Look:
        return look(moment, answers);
    case BenchTurn::Kind::SafeStep:
        return doSafeStep(moment, m_desk.presses(), answers);
    case BenchTurn::Kind::Step: {
        const Effect effect = moment.turn.next.step->effect;
        if (effect == Effect::MatchBox || effect == Effect::BookIn)
            return Q_EMIT bookInWanted();
        if (effect == Effect::Sign)
            return Q_EMIT signOffWanted();
        return doStep(moment, m_desk.presses(), answers);
    }
    case BenchTurn::Kind::EndsHere:
        return Q_EMIT makeSafeWanted();
    case BenchTurn::Kind::Nothing:
        return Q_EMIT signOffWanted();
    case BenchTurn::Kind::Hold:
    case BenchTurn::Kind::Over:
        return;
    }
}

void BenchPresenter::keepAnswers(const QList<CaptureAnswer>& answers)
{
    const bool isChosen = isChosenLast(m_view.card.captures, m_drafts.value(m_key), answers);
    m_drafts.insert(m_key, answers);
    if (isWritten(answers))
        return;
    const Moment moment(m_desk, m_swap);
    const bool isThisStep =
        m_gearOf.isEmpty() && moment.turn.kind == BenchTurn::Kind::Step && moment.key() == m_key;
    const bool isHeld = m_desk.clock().now().sinceBoot < m_upSince.sinceBoot + PressGuard::kHold;
    const bool isReady = m_view.card.action.stand == ActionView::Stand::Ready;
    if (isThisStep && !isHeld && isReady && isChosen &&
        isDoneByLastAnswer(*moment.turn.next.step, answersOf(answers)))
        done(answers);
}

/// Somebody would rather write than choose: the question comes again with a box.
bool BenchPresenter::isWritten(QList<CaptureAnswer> answers)
{
    const qsizetype before = m_written.size();
    for (CaptureAnswer& answer : answers) {
        if (answer.value != QStringList{somethingElse()})
            continue;
        answer.value.clear();
        m_written.insert(answer.id);
    }
    if (m_written.size() == before)
        return false;
    m_shownDraft = answers;
    m_drafts.insert(m_key, answers);
    refresh();
    return true;
}

void BenchPresenter::doStep(const Moment& moment, const PersonId& by, const QList<CaptureAnswer>& answers)
{
    visit::Did did;
    did.swap = moment.swap().id;
    did.step = moment.turn.next.step->id;
    did.answers = answersOf(answers);
    did.countersignedBy = m_countersigned;
    settle(m_desk.tell(by, did));
}

void BenchPresenter::doSafeStep(const Moment& moment, const PersonId& by, const QList<CaptureAnswer>& answers)
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
                                                            answersOf(answers).value(u"text"_s).toString()}));
        }
        return;
    }
    const auto act = actWith(turn.safe, answers);
    if (!act) {
        m_said = {tr("Not done with this answer: choose what is seen, and put right what is not fit.")};
        return refresh();
    }
    acted.act = visit::toRecord(moment.state, *act);
    acted.answers = answersOf(answers);
    settle(m_desk.tell(by, acted));
}

void BenchPresenter::look(const Moment& moment, const QList<CaptureAnswer>& answers)
{
    const procedure::Step& step = *moment.turn.next.step;
    const QJsonObject given = answersOf(answers);
    procedure::Answers texts;
    for (auto it = given.begin(); it != given.end(); ++it)
        texts.insert(it.key(), it.value().toString());
    const QStringList open = procedure::standsAgainst(step, texts);
    if (!open.isEmpty()) {
        for (const QString& id : open)
            m_badAnswers.insert(id, tr("Not answered yet."));
        return refresh();
    }
    const procedure::StepContext context = visit::contextOf(moment.state, moment.swap(), moment.who());
    machine::Act act = procedure::withAnswers(moment.turn.next.act, step, context, texts);
    if (act.seen.seat != machine::Seat::Empty)
        act.seen.lamp = act.lamphouse; // nothing was moved yet: the lamp that is believed to be there
    visit::Acted acted;
    acted.act = visit::toRecord(moment.state, act);
    acted.answers = given;
    settle(m_desk.tell(acted));
}

void BenchPresenter::answerFan(const Moment& moment, const QList<CaptureAnswer>& answers)
{
    const QString said = answersOf(answers).value(u"fan"_s).toString();
    if (said.isEmpty()) {
        m_said = {tr("Choose one of the three first.")};
        return refresh();
    }
    settle(m_desk.tell(
        visit::FanAnswered{moment.state.ground->lamphouses[moment.turn.lamphouse], said == u"ran"}));
}

/// Shows what became of a press. What was kept has brought up the next turn already.
void BenchPresenter::settle(const VisitDesk::Told& told)
{
    m_badAnswers.clear();
    visit::Refusal others = told.refusal;
    for (const visit::Why& why : told.refusal.whys) {
        if (why.kind == visit::Why::Kind::AnswerMissing)
            m_badAnswers.insert(why.capture, tr("Not answered yet."));
        if (why.kind == visit::Why::Kind::GearPastDate)
            m_badAnswers.insert(why.capture, tr("Past its date or withdrawn: not this one."));
        if (why.kind == visit::Why::Kind::AnswerBad)
            m_badAnswers.insert(why.capture, tr("Put it right, or report what went wrong."));
    }
    // What stands beside its question is not said a second time.
    others.whys.removeIf([&](const visit::Why& why) { return m_badAnswers.contains(why.capture); });
    m_said = m_badAnswers.isEmpty() ? told.no : wordsOf(others, m_desk.seen());
    if (!m_badAnswers.isEmpty() && m_said.isEmpty())
        m_said = {tr("Answer what is marked first.")};
    if (told.entry) {
        m_drafts.remove(m_pressed);
        const auto* did = std::get_if<visit::Did>(&told.entry->body);
        if (did && !did->reopened.isEmpty())
            m_said = {
                tr("An answer did not fit, so its steps come again: %1 of them.").arg(did->reopened.size())};
    }
    refresh();
    if (told.entry)
        openItsPage();
}

/// A step with a page of its own brings it up when its turn comes, without a press; signing waits for the
/// other swaps.
void BenchPresenter::openItsPage()
{
    const Moment moment(m_desk, m_swap);
    const auto effectOf = [](const BenchTurn& turn) {
        return turn.kind == BenchTurn::Kind::Step ? std::optional(turn.next.step->effect) : std::nullopt;
    };
    const auto effect = effectOf(moment.turn);
    if (effect == Effect::MatchBox || effect == Effect::BookIn)
        return Q_EMIT bookInWanted();
    const bool isEverySwap =
        std::all_of(moment.state.swaps.begin(), moment.state.swaps.end(), [&](const visit::SwapState& swap) {
            const BenchTurn turn = turnOf(moment.state, swap, moment.who());
            return turn.kind == BenchTurn::Kind::Nothing || effectOf(turn) == Effect::Sign;
        });
    if (effect == Effect::Sign && isEverySwap)
        Q_EMIT signOffWanted();
}

// ---- The rest ---------------------------------------------------------------------------------------------

void BenchPresenter::chooseSwap(int index)
{
    if (index < 0 || index >= m_desk.logbook().state().swaps.size())
        return;
    m_gearOf = {};
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

void BenchPresenter::dismissStrip()
{
    m_strip = {};
    m_stripSwap = -1;
    refresh();
}

} // namespace coldarc::ui
