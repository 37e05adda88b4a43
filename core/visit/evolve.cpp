#include "core/visit/evolve.h"

#include "core/machine/reach.h"
#include "core/machine/whole.h"
#include "core/procedure/follow_up.h"
#include "core/visit/folding.h"
#include "core/visit/gates_waiting.h"
#include "core/visit/next_step.h"
#include "core/visit/sheet_of_visit.h"
#include "core/visit/stop_answers.h"

using namespace Qt::StringLiterals;

namespace coldarc::visit {
namespace {

using machine::Happening;
using machine::Index;
using machine::kNone;

procedure::Facts factsOf(const VisitState& state, const SwapState& swap)
{
    const Ground& ground = *state.ground;
    const catalogue::ProjectorModel& model = ground.model(swap.lamphouse);
    const auto ofLamp = [&](Index lamp) {
        const catalogue::LampType* type =
            ground.lamps[lamp].type ? ground.catalogue.lampType(*ground.lamps[lamp].type) : nullptr;
        return type ? procedure::factsOf(*type, model) : procedure::LampFacts();
    };
    procedure::Facts facts;
    facts.newLamp = ofLamp(swap.newLamp);
    const bool wasLookedAt = state.machine.lamphouse[swap.lamphouse].heat != machine::Heat::Unknown;
    const bool wasNotThere = state.machine.lamp[swap.oldLamp].place == machine::Place::SealedBox;
    if (!wasLookedAt || !wasNotThere)
        facts.oldLamp = ofLamp(swap.oldLamp);
    return facts;
}

QList<procedure::Step> stepsOf(const VisitState& state, const SwapState& swap)
{
    const procedure::Facts facts = factsOf(state, swap);
    if (!swap.followsUp)
        return procedure::stepsFor(*swap.procedure, facts);
    return procedure::followUpSteps(*swap.procedure, facts.newLamp, owedSteps(state, swap.id));
}

/// `seenAt`, in place.
void witness(VisitState& state, const Stamp& now)
{
    if (!state.ground)
        return;
    for (Index lamphouse = 0; lamphouse < state.plant.lamphouses; ++lamphouse) {
        LamphouseWaits& waits = state.waits[lamphouse];
        for (WaitClock* clock : {&waits.cool, &waits.bleed, &waits.strikePause, &waits.settle}) {
            *clock = witnessed(*clock, now);
            if (!clock->isOver())
                continue;
            state.machine = machine::whenOver(state.machine, clock->wait, lamphouse);
            clock->isRunning = false;
        }
        if (state.machine.lamphouse[lamphouse].heat == machine::Heat::Lit)
            waits.cool.asksForFan = false; // asked anew when it goes out
    }
    if (isLeftAlone(state.last, now, machine::isSomethingOpen(state.plant, state.machine))) {
        machine::Event event;
        event.what = Happening::LeftAlone;
        state.machine = machine::after(state.plant, state.machine, event);
    }
    if (isGap(state.last, now) && machine::isSomethingOpen(state.plant, state.machine)) {
        machine::Event event;
        event.what = Happening::Resumed;
        state.machine = machine::after(state.plant, state.machine, event);
    }
}

} // namespace

VisitState Folding::done()
{
    if (!std::holds_alternative<Opening>(m_entry.body) && !m_state.ground) {
        m_state.isReadOnly = true;
        return finish();
    }
    if (m_number > 0) {
        noteClocks();
        witness(m_state, m_entry.at);
    }
    std::visit(*this, m_entry.body);
    return finish();
}

void Folding::operator()(const Opening& opening)
{
    const auto ground = m_number == 0 ? groundOf(opening) : fail(Error::Kind::Malformed, {});
    if (!ground)
        return giveUp();
    m_state.ground = *ground;
    m_state.plant = (*ground)->plant;
    for (const PersonFacts& person : opening.people)
        add(person);
    m_state.lead = 0;
    for (Index lamphouse = 0; lamphouse < m_state.plant.lamphouses; ++lamphouse)
        m_state.machine.projector[m_state.plant.lamphouse[lamphouse].projector].drive = machine::Drive::On;
    for (const SwapPlan& plan : opening.swaps) {
        SwapState swap;
        swap.id = plan.id;
        swap.procedure = (*ground)->procedure(plan.procedure);
        swap.lamphouse = (*ground)->lamphouse(plan.lamphouse);
        swap.oldLamp = swap.lamphouse; // the fitted ones come first, by lamphouse
        swap.followsUp = plan.followsUp();
        swap.newLamp = swap.followsUp ? swap.oldLamp : (*ground)->lamp(plan.newLamp.id);
        swap.steps = stepsOf(m_state, swap);
        m_state.swaps.append(swap);
    }
}

/// At once: a lamp that is clamped wrong, a cover or a box that is said not to hold, an adaptor not to sit.
bool Folding::comesAgain(const Did& did)
{
    using machine::Effect;
    if (!did.act)
        return false;
    switch (did.act->effect) {
    case Effect::ClampLamp:
        return did.act->outcome != machine::Outcome::Agrees;
    case Effect::ShutGuard:
    case Effect::ShutHousing:
    case Effect::BoxLamp:
    case Effect::AdaptorOff:
    case Effect::AdaptorOn:
        return did.act->outcome == machine::Outcome::Disagrees;
    default:
        return false;
    }
}

void Folding::operator()(const Did& did)
{
    SwapState* swap = find(did.swap);
    const procedure::Step* step = swap ? swap->step(did.step) : nullptr;
    if (!step)
        return giveUp();
    passOver(*swap, did.step);
    noteUntold(*swap, *step, did);
    if (did.act)
        act(*did.act, did.answers, did.gatesWaiting);
    if (m_state.isReadOnly)
        return;
    m_state.stepsByEntry.insert(m_number, {did.swap, did.step});
    for (const QString& reopened : did.reopened)
        reopen(*swap, StepId(reopened));
    if (did.reopened.isEmpty() && !comesAgain(did))
        swap->records.insert(did.step,
                             {StepRecord::Status::Done, m_number, m_entry.at, m_entry.by, did.answers});
    else if (!did.reopened.isEmpty())
        except(Exception::Kind::WrongAnswerAtAStop);
    if (readsCounter(*swap, *step))
        judgeLife(placeOf(m_state, *swap, *step));
    for (const Incident told : toldAtStop(*step, procedure::answersOf(did.answers)))
        happen(told, did.swap, swap->lamphouse);
    closeAgain(*swap, *step);
    noteLamp(*swap, *step, did);
    noteCustody(*swap, *step, did.answers);
    if (!did.act)
        return;
    const machine::Act made = toAct(m_state, *did.act);
    if (step->effect == machine::Effect::GearOn)
        m_state.wholeGear[made.person] =
            static_cast<machine::Mask>(m_state.wholeGear[made.person] | machine::maskOf(made.lamphouse));
    if (const auto event = procedure::happenedBy(made, *step, procedure::answersOf(did.answers)))
        happen(*event, incidentOf(event->what), did.swap);
    met(*did.act, did.swap);
    if (made.effect == machine::Effect::Find ||
        (made.effect == machine::Effect::Look && made.outcome == machine::Outcome::Disagrees))
        choosePath(made.lamphouse);
}

void Folding::operator()(const Acted& acted)
{
    ActRecord record = acted.act;
    if (record.effect == machine::Effect::LampOff && record.outcome == machine::Outcome::Plain)
        record.outcome = machine::Outcome::FanStill; // written before the fan was asked for
    act(record, acted.answers, acted.gatesWaiting);
    if (m_state.isReadOnly)
        return;
    met(acted.act, {});
    const machine::Act made = toAct(m_state, acted.act);
    if (made.effect == machine::Effect::Find)
        choosePath(made.lamphouse);
    if (made.effect == machine::Effect::GearOn && !acted.answers.isEmpty())
        m_state.wholeGear[made.person] =
            static_cast<machine::Mask>(m_state.wholeGear[made.person] | machine::maskOf(made.lamphouse));
}

void Folding::operator()(const ScreenRead& read)
{
    m_state.sheets.append({read, m_entry.at, m_number});
    reopenUnreadScreens();
}

void Folding::operator()(const ScreenLimits& limits)
{
    m_state.sheets.append({limits, m_entry.at, m_number});
    reopenUnreadScreens();
}

void Folding::operator()(const FanAnswered& answered)
{
    const Index lamphouse = m_state.ground->lamphouse(answered.lamphouse);
    if (lamphouse == kNone)
        return giveUp();
    WaitClock& clock = m_state.waits[lamphouse].cool;
    if (answered.ranOn) {
        clock.asksForFan = false;
    } else {
        if (clock.isRunning)
            except(Exception::Kind::WaitCutByIncident);
        clock =
            started(machine::Wait::CoolUnforced, m_state.ground->waits[lamphouse].coolUnforced, m_entry.at);
    }
    witness(m_state, m_entry.at);
}

void Folding::operator()(const LocksSeen& seen)
{
    machine::Event event;
    event.what = seen.asBefore ? Happening::LocksSeen : Happening::LocksMissed;
    event.lamphouse = m_state.ground->lamphouse(seen.lamphouse);
    if (!machine::isWhole(m_state.plant, event))
        return giveUp();
    if (!machine::canHappen(m_state.plant, m_state.machine, event))
        return;
    if (!seen.asBefore)
        except(Exception::Kind::NotAsLeft);
    machine::WaitStarts starts;
    m_state.machine = machine::after(m_state.plant, m_state.machine, event, &starts);
    begin(starts);
}

void Folding::operator()(const Owed& owed)
{
    SwapState* swap = find(owed.swap);
    if (!swap)
        return giveUp();
    swap->records.insert(owed.step, {StepRecord::Status::Owed, m_number, m_entry.at, m_entry.by, {}});
    m_state.stepsByEntry.insert(m_number, {owed.swap, owed.step});
    except(Exception::Kind::StepOwed);
}

void Folding::operator()(const Withdrawn& withdrawn)
{
    m_state.withdrawn.insert(withdrawn.entry);
    m_state.givesWay.remove(withdrawn.entry);
    for (LampPaper& paper : m_state.papers)
        paper.answered.remove(withdrawn.entry);
    except(Exception::Kind::EntryWithdrawn);
    if (m_state.acts.contains(withdrawn.entry)) {
        const machine::Act act = m_state.acts.value(withdrawn.entry);
        takeBack(act);
        if (act.effect == machine::Effect::Look && act.outcome == machine::Outcome::Disagrees)
            choosePath(act.lamphouse);
        if (act.effect == machine::Effect::Unbox) // what was read of the marking since stands by itself
            weigh(act.lamp, agreementOf(m_state, act.lamp));
    }
    if (m_state.stepsByEntry.contains(withdrawn.entry)) {
        const auto [swapId, step] = m_state.stepsByEntry.value(withdrawn.entry);
        SwapState* swap = find(swapId);
        if (swap && swap->record(step).entry == withdrawn.entry)
            swap->records.remove(step);
        const procedure::Step* done = swap ? swap->step(step) : nullptr;
        if (done && readsCounter(*swap, *done))
            judgeLife(placeOf(m_state, *swap, *done));
    }
    m_state.light.removeIf([&](const LightReading& light) { return light.entry == withdrawn.entry; });
    m_state.lightSets.removeIf([&](const LightSetting& set) { return set.entry == withdrawn.entry; });
    if (m_state.sheets.removeIf([&](const SheetLine& line) { return line.entry == withdrawn.entry; }) > 0)
        reopenUnreadScreens();
}

void Folding::operator()(const Signed& signature)
{
    const Index index = m_state.person(m_entry.by);
    if (index == kNone)
        return giveUp();
    const auto role = people::wordOf(m_state.people[index].role);
    m_state.signatures.append({m_entry.by, m_state.people[index].name,
                               QString::fromLatin1(role.data(), static_cast<qsizetype>(role.size())),
                               signature.meaning, m_entry.at, m_number});
}

void Folding::operator()(const SiteSigned& signature)
{
    m_state.signatures.append({{}, signature.name, signature.role, u"witnessed"_s, m_entry.at, m_number});
}

VisitState Folding::finish()
{
    m_state.hungBy.removeIf([&](const std::pair<const qint64&, QString&>& hung) {
        return !hangs(m_state.acts.value(hung.first));
    });
    m_state.last = m_entry.at;
    ++m_state.entries;
    return std::move(m_state);
}

bool Folding::hangs(const machine::Act& lockOn) const
{
    const machine::Plant& plant = m_state.plant;
    const bool isJob = lockOn.point != kNone && plant.pointsInGroup(plant.point[lockOn.point].group) > 1;
    return isJob ? m_state.machine.point[lockOn.point].jobLock == lockOn.person
                 : machine::has(m_state.machine.group[plant.lamphouse[lockOn.lamphouse].group].locks,
                                lockOn.person);
}

void Folding::noteGivesWay(machine::Mask points)
{
    machine::Mask& here = m_state.givesWay[m_number];
    for (Index point = 0; point < m_state.plant.points; ++point) {
        if (machine::has(points, point) && m_state.machine.point[point].willNotLock)
            here = static_cast<machine::Mask>(here | machine::maskOf(point));
    }
}

/// Within one boot its clock proves by how much the one on the wall should have gone ahead.
bool Folding::isSetBack() const
{
    const Stamp& before = m_state.last;
    const Stamp& now = m_entry.at;
    if (now.machine != before.machine)
        return false;
    const auto ahead = now.wall - before.wall;
    const bool isOneBoot = now.boot == before.boot;
    return ahead.count() < 0 || (isOneBoot && now.sinceBoot - before.sinceBoot - ahead > kMostClockTrim);
}

void Folding::noteClocks()
{
    if (isSetBack())
        except(Exception::Kind::ClockWentBack);
    else if (m_entry.at.wall < m_state.last.wall)
        except(Exception::Kind::OtherClockBehind);
    // Of a visit that is over nobody watches anything.
    if (m_state.end.isEmpty() && isGap(m_state.last, m_entry.at))
        except(Exception::Kind::GapNobodyWitnessed);
}

SwapState* Folding::find(const SwapId& id)
{
    for (SwapState& swap : m_state.swaps) {
        if (swap.id == id)
            return &swap;
    }
    return nullptr;
}

void Folding::choosePath(Index lamphouse)
{
    for (SwapState& swap : m_state.swaps) {
        if (swap.lamphouse == lamphouse)
            swap.steps = stepsOf(m_state, swap);
    }
}

void Folding::passOver(SwapState& swap, const StepId& done)
{
    const Index person = m_state.person(m_entry.by);
    for (const procedure::Step& step : swap.steps) {
        if (step.id == done)
            return;
        if (swap.record(step.id).status != StepRecord::Status::Waiting)
            continue;
        if (person == kNone || !isPassedOver(m_state, swap, step, person))
            return;
        if (step.effect == machine::Effect::Strike &&
            isLeftDark(m_state, step, hopefulAct(m_state, swap, step, person)))
            except(Exception::Kind::NeighbourLeftDark);
        swap.records.insert(step.id, {StepRecord::Status::AlreadySo, m_number, m_entry.at, m_entry.by, {}});
    }
}

void Folding::closeAgain(SwapState& swap, const procedure::Step& done)
{
    using machine::Effect;
    const bool goesIn = done.effect == Effect::GearOn || done.effect == Effect::EnterZone ||
                        done.effect == Effect::OpenHousing || done.effect == Effect::ExposeLamp;
    if (!goesIn)
        return;
    const bool isGuardShut = !m_state.machine.lamphouse[swap.lamphouse].guardOpen;
    bool isBehind = false;
    for (const procedure::Step& step : swap.steps) {
        const bool closes = step.effect == Effect::Count || step.effect == Effect::ShutGuard ||
                            step.effect == Effect::ShutHousing || step.effect == Effect::LeaveZone ||
                            step.effect == Effect::GearOff || step.stop == procedure::Stop::ReadyToStrike ||
                            (step.stop == procedure::Stop::ReadyToOpen && isGuardShut);
        if (isBehind && closes)
            swap.records.remove(step.id);
        isBehind = isBehind || step.id == done.id;
    }
}

/// What was booked in was a match that counts no more.
void Folding::bookInAgain(Index lamp)
{
    for (SwapState& swap : m_state.swaps) {
        for (const procedure::Step& step : std::as_const(swap.steps)) {
            if (swap.newLamp == lamp && step.effect == machine::Effect::BookIn)
                swap.records.remove(step.id);
        }
    }
}

void Folding::takeBack(const machine::Act& act)
{
    const bool isPaper = act.effect == machine::Effect::MatchBox || act.effect == machine::Effect::Unbox;
    if (isPaper && act.outcome == machine::Outcome::Agrees &&
        m_state.machine.lamp[act.lamp].place != machine::Place::SealedBox)
        m_state.papers[m_state.ground->lamps[act.lamp].id].spoilt = machine::Match::Both;
    if (isPaper)
        bookInAgain(act.lamp);
    if (act.effect == machine::Effect::GearOn)
        m_state.wholeGear[act.person] = 0;
    m_state.machine = machine::withdrawn(m_state.plant, m_state.machine, act);
    for (const machine::Mask points : std::as_const(m_state.givesWay)) { // what others said stays said
        for (Index point = 0; point < m_state.plant.points; ++point) {
            if (machine::has(points, point))
                m_state.machine.point[point].willNotLock = true;
        }
    }
}

void Folding::begin(const machine::WaitStarts& starts)
{
    for (int index = 0; index < starts.count; ++index) {
        const auto& start = starts.start[static_cast<std::size_t>(index)];
        WaitClock& clock = m_state.waits[start.lamphouse].of(start.wait);
        // Where the air is known to stand still it does so until somebody has seen it move.
        const bool isStill = clock.isRunning && clock.wait == machine::Wait::CoolUnforced;
        const machine::Wait wait = start.isFanUnseen && isStill ? clock.wait : start.wait;
        if (clock.isRunning && wait == machine::Wait::CoolUnforced)
            except(Exception::Kind::WaitCutByIncident);
        clock = started(wait, m_state.ground->waits[start.lamphouse].of(wait), m_entry.at);
        clock.asksForFan = start.isFanUnseen && wait == machine::Wait::Cool;
    }
}

void Folding::askForFans()
{
    for (LamphouseWaits& waits : m_state.waits) {
        if (waits.cool.isRunning && waits.cool.wait == machine::Wait::Cool)
            waits.cool.asksForFan = true;
    }
}

void Folding::noteSkipped(const QStringList& gates)
{
    if (!gates.isEmpty())
        except(Exception::Kind::GateSkipped, gates);
}

void Folding::noteUntold(const SwapState& swap, const procedure::Step& step, const Did& did)
{
    if (step.effect != machine::Effect::Look && (!did.act || did.act->effect != step.effect))
        noteSkipped(skippedGates(m_state, swap, step, m_state.person(m_entry.by)));
}

void Folding::act(const ActRecord& record, const QJsonObject& answers, const QStringList& gatesWaiting)
{
    const machine::Act made = toAct(m_state, record);
    if (!isKnown(made, record) || !machine::isWhole(m_state.plant, made))
        return giveUp();
    noteSkipped(skippedGates(m_state, made));
    QStringList waiting = gatesWaiting + waitingGates(m_state, made); // whatever the entry leaves out
    waiting.removeDuplicates();
    const bool isLock = made.effect == machine::Effect::LockOn;
    const bool hungBefore = isLock && hangs(made);
    machine::WaitStarts starts;
    m_state.machine = machine::after(m_state.plant, m_state.machine, made, &starts);
    begin(starts);
    if (made.effect == machine::Effect::Isolate && made.moved == kNone)
        askForFans();
    m_state.acts.insert(m_number, made);
    if (isLock && !hungBefore && hangs(made))
        m_state.hungBy.insert(m_number, answers.value(u"lock"_s).toString().trimmed());
    if (isLock && made.outcome == machine::Outcome::WillNotLock)
        noteGivesWay(made.point != kNone ? machine::maskOf(made.point)
                                         : machine::pointsOfGroup(
                                               m_state.plant, m_state.plant.lamphouse[made.lamphouse].group));
    if (!waiting.isEmpty())
        except(Exception::Kind::SafeWardWithGateWaiting, waiting);
    if (isLitOfUnknownHours(made))
        except(Exception::Kind::LitOfUnknownHours);
}

bool Folding::isLitOfUnknownHours(const machine::Act& made) const
{
    if (made.effect != machine::Effect::Strike || made.outcome != machine::Outcome::Lit)
        return false;
    const Index lamp = m_state.machine.lamphouse[made.lamphouse].lamp;
    if (lamp == kNone || lamp >= m_state.plant.lamphouses) // the fitted ones come first
        return false;
    const LampFacts& facts = m_state.ground->lamps[lamp];
    const auto burnt = burntHours(facts, counterRead(m_state, made.lamphouse), m_entry.at.wall);
    return lifeOf(*m_state.ground, facts, burnt, false) != machine::Life::Below;
}

bool Folding::isKnown(const machine::Act& made, const ActRecord& record)
{
    const auto known = [](Index index, bool isEmpty) { return isEmpty || index != kNone; };
    return known(made.person, record.person.isEmpty()) && known(made.lamphouse, record.lamphouse.isEmpty()) &&
           known(made.point, record.point.isEmpty()) && known(made.lamp, record.lamp.isEmpty()) &&
           known(made.moved, record.moved.isEmpty());
}

/// Whether an answer at a stop takes this lock off the record, to be hung again: only its owner's, with
/// nobody behind it. Whatever anybody else says of it, it is tried and proved again.
bool Folding::isOffByAnswer(const machine::Act& lock) const
{
    const Index group = m_state.plant.lamphouse[lock.lamphouse].group;
    for (Index lamphouse = 0; lamphouse < m_state.plant.lamphouses; ++lamphouse) {
        if (m_state.plant.lamphouse[lamphouse].group == group &&
            !machine::isZoneEmpty(m_state.plant, m_state.machine, lamphouse))
            return false;
    }
    return !m_state.machine.hurt && m_state.person(m_entry.by) == lock.person;
}

void Folding::reopen(SwapState& swap, const StepId& step)
{
    const StepRecord record = swap.record(step);
    swap.records.remove(step);
    if (!m_state.acts.contains(record.entry))
        return;
    const machine::Act act = m_state.acts.value(record.entry);
    if (act.effect == machine::Effect::LockOn && act.outcome != machine::Outcome::WillNotLock &&
        !isOffByAnswer(act))
        return tryAgain(m_state.plant.lamphouse[act.lamphouse].group);
    m_state.givesWay.remove(record.entry);
    if (machine::canWithdraw(act.effect))
        takeBack(act);
}

const machine::Act* Folding::lastLook(Index lamphouse) const
{
    const machine::Act* look = nullptr;
    qint64 last = -1;
    for (auto act = m_state.acts.constBegin(); act != m_state.acts.constEnd(); ++act) {
        if (act->effect == machine::Effect::Find && act->lamphouse == lamphouse && act.key() > last &&
            !m_state.withdrawn.contains(act.key())) {
            look = &act.value();
            last = act.key();
        }
    }
    return look;
}

void Folding::judgeLife(Index lamphouse)
{
    const machine::Act* look = lamphouse != kNone ? lastLook(lamphouse) : nullptr;
    const Index lamp = look ? look->seen.lamp : kNone;
    if (lamp == kNone || m_state.machine.lamp[lamp].life == machine::Life::New)
        return;
    const LampFacts& facts = m_state.ground->lamps[lamp];
    if (facts.hours && !facts.counter)
        return; // an older opening: its hours stand as they were judged at the look
    m_state.machine.lamp[lamp].life =
        lifeOf(*m_state.ground, facts, burntHours(facts, counterRead(m_state, lamphouse), m_entry.at.wall),
               look->seen.lit);
}

/// Whether its points are off is tried, and absence proved, anew.
void Folding::tryAgain(Index group)
{
    for (Index lamphouse = 0; lamphouse < m_state.plant.lamphouses; ++lamphouse) {
        machine::Act tried;
        tried.effect = machine::Effect::TryStart;
        tried.lamphouse = lamphouse;
        if (m_state.plant.lamphouse[lamphouse].group == group)
            m_state.machine = machine::withdrawn(m_state.plant, m_state.machine, tried);
    }
}

void Folding::reopenUnreadScreens()
{
    for (SwapState& swap : m_state.swaps) {
        if (isCentreRead(m_state, swap))
            continue;
        for (const procedure::Step& step : std::as_const(swap.steps)) {
            if (step.effect == machine::Effect::MeasureScreen &&
                swap.record(step.id).status == StepRecord::Status::Done)
                reopen(swap, step.id);
        }
    }
}

VisitState evolve(const VisitState& state, const Entry& entry)
{
    return Folding(state, entry).done();
}

VisitState evolve(VisitState&& state, const Entry& entry)
{
    return Folding(std::move(state), entry).done();
}

VisitState seenAt(const VisitState& state, const Stamp& now)
{
    VisitState seen = state;
    witness(seen, now);
    return seen;
}

VisitState fold(const QList<Entry>& entries)
{
    VisitState state;
    for (const Entry& entry : entries)
        state = evolve(std::move(state), entry);
    return state;
}

} // namespace coldarc::visit
