#include "core/visit/evolve.h"

#include "core/lamps/custody.h"
#include "core/machine/reach.h"
#include "core/machine/whole.h"
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

bool isSomethingOpen(const VisitState& state)
{
    for (Index lamphouse = 0; lamphouse < state.plant.lamphouses; ++lamphouse) {
        if (!machine::isShut(state.machine, lamphouse))
            return true;
    }
    return false;
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
    }
    if (isGap(state.last, now) && isSomethingOpen(state)) {
        machine::Event event;
        event.what = Happening::Resumed;
        state.machine = machine::after(state.plant, state.machine, event);
    }
}

class Folding {
public:
    Folding(VisitState state, const Entry& entry)
        : m_state(std::move(state))
        , m_entry(entry)
        , m_number(m_state.entries)
    {
    }

    VisitState done()
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

    void operator()(const Opening& opening)
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
            m_state.machine.projector[m_state.plant.lamphouse[lamphouse].projector].drive =
                machine::Drive::On;
        for (const SwapPlan& plan : opening.swaps) {
            SwapState swap;
            swap.id = plan.id;
            swap.procedure = (*ground)->procedure(plan.procedure);
            swap.lamphouse = (*ground)->lamphouse(plan.lamphouse);
            swap.oldLamp = swap.lamphouse; // the fitted ones come first, by lamphouse
            swap.newLamp = (*ground)->lamp(plan.newLamp.id);
            swap.steps = procedure::stepsFor(*swap.procedure, factsOf(m_state, swap));
            m_state.swaps.append(swap);
        }
    }

    void operator()(const Joined& joined)
    {
        const Index known = m_state.person(joined.person.id);
        if (known != kNone && !m_state.isHere(known))
            return comeBack(known, joined.person);
        if (known != kNone || m_state.people.size() >= machine::kMostPeople)
            return giveUp();
        add(joined.person);
    }

    void operator()(const Did& did)
    {
        SwapState* swap = find(did.swap);
        const procedure::Step* step = swap ? swap->step(did.step) : nullptr;
        if (!step)
            return giveUp();
        passOver(*swap, did.step);
        if (did.act)
            act(*did.act, did.gatesWaiting);
        if (m_state.isReadOnly)
            return;
        m_state.stepsByEntry.insert(m_number, {did.swap, did.step});
        for (const QString& reopened : did.reopened)
            reopen(*swap, StepId(reopened));
        const bool isClampedWrong = step->effect == machine::Effect::ClampLamp && did.act &&
                                    did.act->outcome != machine::Outcome::Agrees; // comes again at once
        if (did.reopened.isEmpty() && !isClampedWrong)
            swap->records.insert(did.step,
                                 {StepRecord::Status::Done, m_number, m_entry.at, m_entry.by, did.answers});
        else if (!did.reopened.isEmpty())
            except(Exception::Kind::WrongAnswerAtAStop);
        for (const Incident told : toldAtStop(*step, answersOf(did.answers)))
            happen(told, did.swap, swap->lamphouse);
        closeAgain(*swap, *step);
        if (step->effect == machine::Effect::BookIn)
            bookIn(*swap, did);
        noteCustody(*swap, *step, did.answers);
        if (!did.act)
            return;
        const machine::Act made = toAct(m_state, *did.act);
        if (step->effect == machine::Effect::GearOn)
            m_state.wholeGear[made.person] =
                static_cast<machine::Mask>(m_state.wholeGear[made.person] | machine::maskOf(made.lamphouse));
        if (const auto event = procedure::happenedBy(made, *step, answersOf(did.answers)))
            happen(*event, incidentOf(event->what), did.swap);
        met(*did.act, did.swap);
        if (made.effect == machine::Effect::Find)
            choosePath(made.lamphouse);
    }

    void operator()(const Acted& acted)
    {
        act(acted.act, acted.gatesWaiting);
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

    void operator()(const Happened& happened)
    {
        const Ground& ground = *m_state.ground;
        machine::Event event;
        event.lamphouse = ground.lamphouse(happened.lamphouse);
        event.point = ground.point(happened.point);
        event.lamp = ground.lamp(happened.lamp);
        event.person = m_state.person(happened.person);
        const auto tell = [&](Happening what) {
            event.what = what;
            happen(event, happened.incident, happened.swap);
        };
        switch (happened.incident) {
        case Incident::FanOrPower:
            return tell(event.point != kNone ? Happening::PowerFailed : Happening::FanStopped);
        case Incident::Burst:
            return tell(Happening::LampBurst);
        case Incident::WrongLamp:
            return tell(Happening::WrongLamp);
        case Incident::LampUnfit:
            return tell(event.lamp != kNone ? Happening::LampUnfit : Happening::AdaptorLost);
        case Incident::GearDamaged:
            if (event.person != kNone)
                m_state.wholeGear[event.person] = 0;
            return tell(Happening::GearDamaged);
        case Incident::PointWillNotLock:
            return tell(Happening::PointWillNotLock);
        case Incident::SomeoneHurt:
            m_state.isMakingSafe = true;
            return tell(Happening::SomeoneHurt);
        case Incident::ItStarted:
        case Incident::VoltageFound:
        case Incident::LeftExposed:
            return happen(happened.incident, happened.swap, event.lamphouse);
        case Incident::WillNotLight:
            if (event.lamphouse != kNone) // one that burnt and went out by itself
                return tell(Happening::WentOut);
            return open(happened.incident, happened.swap);
        default:
            open(happened.incident, happened.swap);
        }
    }

    void operator()(const IncidentAnswered& answered)
    {
        for (IncidentState& incident : m_state.incidents) {
            if (incident.entry != answered.incident)
                continue;
            incident.isAnswered = true;
            incident.answer = answered.text;
            if (incident.kind == Incident::CountDiffers)
                answerCounts(incident.swap);
        }
    }

    void operator()(const LampRead& read)
    {
        const Index lamp = m_state.ground->lamp(read.lamp);
        if (lamp == kNone)
            return giveUp();
        LampPaper& paper = m_state.papers[read.lamp];
        paper.readings.removeIf(
            [&](const label::Reading& before) { return before.source == read.reading.source; });
        paper.readings.append(read.reading);
        const label::Agreement agreement = agreementOf(m_state, lamp);
        for (const label::Wait& wait : agreement.waits) {
            if (wait.cause == label::Wait::Cause::TypeDiffers ||
                wait.cause == label::Wait::Cause::TypeDiffersBySuffix ||
                wait.cause == label::Wait::Cause::SerialDiffers) {
                except(Exception::Kind::LabelsDisagreed);
                break;
            }
        }
        const bool stands =
            m_state.machine.lamp[lamp].match == machine::Match::No || agreement.closedBoxProved;
        if (!stands || contradictsMarking(read, agreement)) {
            if (!paper.spoilt)
                paper.spoilt = m_state.machine.lamp[lamp].match;
            m_state.machine = machine::after(m_state.plant, m_state.machine, wrongLamp(lamp));
        }
        weigh(lamp, agreement);
    }

    void operator()(const SerialPassed& passed)
    {
        const Index lamp = m_state.ground->lamp(passed.lamp);
        if (lamp == kNone)
            return giveUp();
        m_state.papers[passed.lamp].passes.append(passed.pass);
        except(Exception::Kind::SerialPassed);
        weigh(lamp, agreementOf(m_state, lamp));
    }

    void operator()(const LightRead& read) { m_state.light.append({read, m_entry.at, m_number}); }

    void operator()(const LightSet& set) { m_state.lightSets.append({set, m_entry.at, m_number}); }

    void operator()(const ScreenRead& read)
    {
        m_state.sheets.append({read, m_entry.at, m_number});
        reopenUnreadScreens();
    }
    void operator()(const ScreenConditions& said) { m_state.sheets.append({said, m_entry.at, m_number}); }
    void operator()(const ScreenLimits& limits)
    {
        m_state.sheets.append({limits, m_entry.at, m_number});
        reopenUnreadScreens();
    }

    void operator()(const FanAnswered& answered)
    {
        const Index lamphouse = m_state.ground->lamphouse(answered.lamphouse);
        if (lamphouse == kNone)
            return giveUp();
        WaitClock& clock = m_state.waits[lamphouse].cool;
        if (answered.ranOn)
            clock.asksForFan = false;
        else
            clock = started(machine::Wait::CoolUnforced, m_state.ground->waits[lamphouse].coolUnforced,
                            m_entry.at);
        witness(m_state, m_entry.at);
    }

    void operator()(const Owed& owed)
    {
        SwapState* swap = find(owed.swap);
        if (!swap)
            return giveUp();
        swap->records.insert(owed.step, {StepRecord::Status::Owed, m_number, m_entry.at, m_entry.by, {}});
        m_state.stepsByEntry.insert(m_number, {owed.swap, owed.step});
        except(Exception::Kind::StepOwed);
    }

    void operator()(const Withdrawn& withdrawn)
    {
        m_state.withdrawn.insert(withdrawn.entry);
        except(Exception::Kind::EntryWithdrawn);
        if (m_state.acts.contains(withdrawn.entry))
            takeBack(m_state.acts.value(withdrawn.entry));
        if (m_state.stepsByEntry.contains(withdrawn.entry)) {
            const auto [swapId, step] = m_state.stepsByEntry.value(withdrawn.entry);
            SwapState* swap = find(swapId);
            if (swap && swap->record(step).entry == withdrawn.entry)
                swap->records.remove(step);
        }
        m_state.light.removeIf([&](const LightReading& light) { return light.entry == withdrawn.entry; });
        m_state.lightSets.removeIf([&](const LightSetting& set) { return set.entry == withdrawn.entry; });
        if (m_state.sheets.removeIf([&](const SheetLine& line) { return line.entry == withdrawn.entry; }) > 0)
            reopenUnreadScreens();
    }

    void operator()(const Noted&) {}
    void operator()(const PictureKept&) {}

    void operator()(const Resumed&)
    {
        machine::Event event;
        event.what = Happening::Resumed;
        m_state.machine = machine::after(m_state.plant, m_state.machine, event);
    }

    void operator()(const SafeBegun&) { m_state.isMakingSafe = true; }

    void operator()(const PassedOn& passed)
    {
        machine::Event event;
        event.what = Happening::PassedOn;
        event.person = m_state.person(passed.from);
        event.to = m_state.person(passed.to);
        if (event.person == kNone || event.to == kNone)
            return giveUp();
        m_state.machine = machine::after(m_state.plant, m_state.machine, event);
        m_state.wholeGear = {};
        m_state.lead = event.to;
        for (SwapState& swap : m_state.swaps)
            askAgain(swap);
        m_state.passedOn = static_cast<machine::Mask>((m_state.passedOn | machine::maskOf(event.person)) &
                                                      ~machine::maskOf(event.to));
    }

    void operator()(const LockRemoved& removed)
    {
        machine::Event event;
        event.what = Happening::LockRemoved;
        event.person = m_state.person(removed.owner);
        event.lamphouse = m_state.ground->lamphouse(removed.lamphouse);
        if (event.person == kNone || event.lamphouse == kNone)
            return giveUp();
        m_state.machine = machine::after(m_state.plant, m_state.machine, event);
        m_state.removalsToTell.insert(removed.owner);
        except(Exception::Kind::LockRemoved);
    }

    void operator()(const RemovalTold&) { m_state.removalsToTell.remove(m_entry.by); }

    void operator()(const Left& left)
    {
        const Index person = m_state.person(left.person);
        if (person == kNone)
            return giveUp();
        m_state.gone = static_cast<machine::Mask>(m_state.gone | machine::maskOf(person));
        m_state.wholeGear[person] = 0;
        m_state.plant.person[person].authorised = false;
        m_state.plant.person[person].mayProve = false;
    }

    void operator()(const CustodyDecided& decided) { m_state.custody.insert(decided.lamp, decided.custody); }

    void operator()(const Signed& signature)
    {
        const Index index = m_state.person(m_entry.by);
        if (index == kNone)
            return giveUp();
        const auto role = people::wordOf(m_state.people[index].role);
        m_state.signatures.append({m_entry.by, m_state.people[index].name,
                                   QString::fromLatin1(role.data(), static_cast<qsizetype>(role.size())),
                                   signature.meaning, m_entry.at, m_number});
    }

    void operator()(const SiteSigned& signature)
    {
        m_state.signatures.append({{}, signature.name, signature.role, u"witnessed"_s, m_entry.at, m_number});
    }

    void operator()(const Closed& closed) { m_state.end = closed.end; }
    void operator()(const Addendum&) { except(Exception::Kind::Addendum); }
    void operator()(const Unknown&) { giveUp(); }

private:
    static procedure::Answers answersOf(const QJsonObject& object)
    {
        procedure::Answers answers;
        for (auto it = object.begin(); it != object.end(); ++it)
            answers.insert(it.key(), it.value().toString());
        return answers;
    }

    VisitState finish()
    {
        m_state.last = m_entry.at;
        ++m_state.entries;
        return std::move(m_state);
    }

    void giveUp() { m_state.isReadOnly = true; }
    void except(Exception::Kind kind) { m_state.exceptions.append({kind, m_number}); }

    void noteClocks()
    {
        if (m_entry.at.wall < m_state.last.wall)
            except(Exception::Kind::ClockWentBack);
        if (isGap(m_state.last, m_entry.at))
            except(Exception::Kind::GapNobodyWitnessed);
    }

    SwapState* find(const SwapId& id)
    {
        for (SwapState& swap : m_state.swaps) {
            if (swap.id == id)
                return &swap;
        }
        return nullptr;
    }

    void add(const PersonFacts& person)
    {
        machine::Plant::Person& plan = m_state.plant.person[m_state.plant.people++];
        plan.authorised = person.mayLead;
        plan.mayProve = person.mayProve;
        m_state.people.append(person);
        if (person.hasRemovalToTell)
            m_state.removalsToTell.insert(person.id);
    }

    /// Authority is judged anew; the place in the lists stays.
    void comeBack(Index index, const PersonFacts& person)
    {
        m_state.gone = static_cast<machine::Mask>(m_state.gone & ~machine::maskOf(index));
        m_state.passedOn = static_cast<machine::Mask>(m_state.passedOn & ~machine::maskOf(index));
        m_state.people[index] = person;
        m_state.plant.person[index].authorised = person.mayLead;
        m_state.plant.person[index].mayProve = person.mayProve;
        if (person.hasRemovalToTell)
            m_state.removalsToTell.insert(person.id);
    }

    /// The steps that apply to what was found in this lamphouse.
    void choosePath(Index lamphouse)
    {
        for (SwapState& swap : m_state.swaps) {
            if (swap.lamphouse == lamphouse)
                swap.steps = procedure::stepsFor(*swap.procedure, factsOf(m_state, swap));
        }
    }

    /// What was so already when its turn came stays behind, whatever another swap does to it later.
    void passOver(SwapState& swap, const StepId& done)
    {
        const Index person = m_state.person(m_entry.by);
        for (const procedure::Step& step : swap.steps) {
            if (step.id == done)
                return;
            if (swap.record(step.id).status != StepRecord::Status::Waiting)
                continue;
            if (person == kNone || !isPassedOver(m_state, swap, step, person))
                return;
            swap.records.insert(step.id,
                                {StepRecord::Status::AlreadySo, m_number, m_entry.at, m_entry.by, {}});
        }
    }

    /// Whoever takes over says for themselves that it is cold and dead, where the lamp has still to be got
    /// at.
    void askAgain(SwapState& swap)
    {
        const bool isLocked = m_state.machine.group[m_state.plant.lamphouse[swap.lamphouse].group].locks != 0;
        for (const procedure::Step& step : swap.steps) {
            const bool isClamped = step.effect == machine::Effect::ClampLamp &&
                                   swap.record(step.id).status == StepRecord::Status::Done;
            if (!isLocked || isClamped)
                return;
        }
        for (const procedure::Step& step : swap.steps) {
            if (step.stop)
                swap.records.remove(step.id);
        }
    }

    /// Whoever goes in again, shuts, counts and leaves again, and answers the stops behind again.
    void closeAgain(SwapState& swap, const procedure::Step& done)
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
                                step.effect == Effect::GearOff ||
                                step.stop == procedure::Stop::ReadyToStrike ||
                                (step.stop == procedure::Stop::ReadyToOpen && isGuardShut);
            if (isBehind && closes)
                swap.records.remove(step.id);
            isBehind = isBehind || step.id == done.id;
        }
    }

    /// Told outside the step that would meet it.
    void happen(Incident incident, const SwapId& swap, Index lamphouse)
    {
        if (incident == Incident::LeftExposed && lamphouse != kNone) {
            machine::Event event;
            event.what = Happening::FoundOpen;
            event.lamphouse = lamphouse;
            return happen(event, incident, swap);
        }
        if (incident != Incident::LeftExposed)
            notIsolated(incident, lamphouse);
        open(incident, swap);
    }

    /// Of a lamphouse that nobody looked at nothing was proved.
    void notIsolated(Incident incident, Index lamphouse)
    {
        if (lamphouse == kNone || m_state.machine.lamphouse[lamphouse].heat == machine::Heat::Unknown)
            return;
        const bool started = incident == Incident::ItStarted;
        machine::Act act;
        act.effect = started ? machine::Effect::TryStart : machine::Effect::ProveAbsence;
        act.outcome = started ? machine::Outcome::Started : machine::Outcome::Voltage;
        act.lamphouse = lamphouse;
        machine::WaitStarts starts;
        m_state.machine = machine::after(m_state.plant, m_state.machine, act, &starts);
        begin(starts);
    }

    /// What the readings of a lamp prove that its steps could not: a reading that contradicted was put right,
    /// or the own marking was read later, from a picture.
    void weigh(Index lamp, const label::Agreement& agreement)
    {
        machine::LampState& there = m_state.machine.lamp[lamp];
        LampPaper& paper = m_state.papers[m_state.ground->lamps[lamp].id];
        const bool isUnboxed = there.place != machine::Place::SealedBox;
        if (paper.spoilt && agreement.proved() >= (*paper.spoilt == machine::Match::Both ? 2 : 1)) {
            there.match = *paper.spoilt;
            paper.spoilt.reset();
        }
        if (there.match == machine::Match::Box && isUnboxed && agreement.proved() == 2)
            there.match = machine::Match::Both;
    }

    /// An entry that had proved something does not count any more.
    void takeBack(const machine::Act& act)
    {
        const bool isPaper = act.effect == machine::Effect::MatchBox || act.effect == machine::Effect::Unbox;
        if (isPaper && act.outcome == machine::Outcome::Agrees &&
            m_state.machine.lamp[act.lamp].place != machine::Place::SealedBox)
            m_state.papers[m_state.ground->lamps[act.lamp].id].spoilt = machine::Match::Both;
        if (act.effect == machine::Effect::GearOn)
            m_state.wholeGear[act.person] = 0;
        m_state.machine = machine::withdrawn(m_state.plant, m_state.machine, act);
    }

    void begin(const machine::WaitStarts& starts)
    {
        for (int index = 0; index < starts.count; ++index) {
            const auto& start = starts.start[static_cast<std::size_t>(index)];
            WaitClock& clock = m_state.waits[start.lamphouse].of(start.wait);
            if (clock.isRunning && start.wait == machine::Wait::CoolUnforced)
                except(Exception::Kind::WaitCutByIncident);
            clock = started(start.wait, m_state.ground->waits[start.lamphouse].of(start.wait), m_entry.at);
        }
    }

    void act(const ActRecord& record, const QStringList& gatesWaiting)
    {
        const machine::Act made = toAct(m_state, record);
        if (!isKnown(made, record) || !machine::isWhole(m_state.plant, made))
            return giveUp();
        machine::WaitStarts starts;
        m_state.machine = machine::after(m_state.plant, m_state.machine, made, &starts);
        begin(starts);
        m_state.acts.insert(m_number, made);
        if (!gatesWaiting.isEmpty())
            except(Exception::Kind::SafeWardWithGateWaiting);
    }

    /// Every name in the record is one that this visit knows.
    static bool isKnown(const machine::Act& made, const ActRecord& record)
    {
        const auto known = [](Index index, bool isEmpty) { return isEmpty || index != kNone; };
        return known(made.person, record.person.isEmpty()) &&
               known(made.lamphouse, record.lamphouse.isEmpty()) &&
               known(made.point, record.point.isEmpty()) && known(made.lamp, record.lamp.isEmpty()) &&
               known(made.moved, record.moved.isEmpty());
    }

    void happen(const machine::Event& event, Incident kind, const SwapId& swap)
    {
        if (!machine::isWhole(m_state.plant, event))
            return giveUp();
        if (event.what == Happening::WrongLamp) // somebody says so: readings do not take it back
            m_state.papers[m_state.ground->lamps[event.lamp].id].spoilt.reset();
        if (machine::canHappen(m_state.plant, m_state.machine, event)) {
            machine::WaitStarts starts;
            m_state.machine = machine::after(m_state.plant, m_state.machine, event, &starts);
            begin(starts);
        }
        open(kind, swap);
    }

    void open(Incident kind, const SwapId& swap)
    {
        m_state.incidents.append({m_number, kind, swap, m_entry.at, false, {}});
        except(Exception::Kind::IncidentMet);
    }

    static Incident incidentOf(Happening what)
    {
        switch (what) {
        case Happening::FanStopped:
        case Happening::PowerFailed:
            return Incident::FanOrPower;
        case Happening::WrongLamp:
            return Incident::WrongLamp;
        case Happening::GearDamaged:
            return Incident::GearDamaged;
        default:
            return Incident::LampUnfit;
        }
    }

    /// An incident that a step itself meets by how it came out.
    void met(const ActRecord& record, const SwapId& swap)
    {
        using machine::Outcome;
        switch (record.outcome) {
        case Outcome::Started:
            return open(Incident::ItStarted, swap);
        case Outcome::Voltage:
            return open(Incident::VoltageFound, swap);
        case Outcome::NoLight:
            return open(Incident::WillNotLight, swap);
        case Outcome::Burst:
            return open(Incident::Burst, swap);
        case Outcome::Differs:
            return open(Incident::CountDiffers, swap);
        case Outcome::WillNotLock:
            return open(Incident::PointWillNotLock, swap);
        default:
            break;
        }
        if (record.effect == machine::Effect::Find && record.seen &&
            (record.seen->guardOpen || record.seen->housingOpen))
            open(Incident::LeftExposed, swap);
        if (record.effect == machine::Effect::Isolate && record.moved != record.point)
            open(Incident::FanOrPower, swap);
    }

    void reopen(SwapState& swap, const StepId& step)
    {
        const StepRecord record = swap.record(step);
        if (m_state.acts.contains(record.entry) &&
            machine::canWithdraw(m_state.acts.value(record.entry).effect))
            takeBack(m_state.acts.value(record.entry));
        swap.records.remove(step);
    }

    /// A screen that is no longer read, or was read at the points of another convention, is to be measured
    /// again.
    void reopenUnreadScreens()
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

    void answerCounts(const SwapId& swapId)
    {
        for (const SwapState& swap : m_state.swaps) {
            if (!swapId.isEmpty() && swap.id != swapId)
                continue;
            machine::Event event;
            event.what = Happening::CountAnswered;
            event.lamphouse = swap.lamphouse;
            if (machine::canHappen(m_state.plant, m_state.machine, event))
                m_state.machine = machine::after(m_state.plant, m_state.machine, event);
        }
    }

    static bool contradictsMarking(const LampRead& read, const label::Agreement& agreement)
    {
        return read.reading.source == label::Source::OwnMarking && !agreement.ownMarkingProved;
    }

    static machine::Event wrongLamp(Index lamp)
    {
        machine::Event event;
        event.what = Happening::WrongLamp;
        event.lamp = lamp;
        return event;
    }

    void bookIn(SwapState& swap, const Did& did)
    {
        swap.thresholdHours = did.answers.value(u"threshold"_s).toString().toDouble();
        if (!did.reason.isEmpty())
            except(Exception::Kind::ThresholdAtOrAboveWarranty);
    }

    /// The step that decides where the old lamp goes names the custody by what its choice means.
    void noteCustody(const SwapState& swap, const procedure::Step& step, const QJsonObject& answers)
    {
        const procedure::Capture* capture = step.capture(u"custody"_s);
        if (!capture)
            return;
        const auto means = capture->meansOf(answers.value(u"custody"_s).toString());
        const LampId lamp = m_state.ground->lamps[swap.oldLamp].id;
        if (means && lamps::custodyFromWord(procedure::wordOf(*means)))
            m_state.custody.insert(lamp, procedure::wordOf(*means));
    }

    VisitState m_state;
    const Entry& m_entry;
    qint64 m_number;
};

} // namespace

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
