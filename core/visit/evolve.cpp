#include "core/visit/evolve.h"

#include "core/lamps/custody.h"
#include "core/machine/reach.h"
#include "core/machine/whole.h"

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
            m_state = seenAt(m_state, m_entry.at);
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
        if (m_state.people.size() >= machine::kMostPeople)
            return giveUp();
        add(joined.person);
    }

    void operator()(const Did& did)
    {
        SwapState* swap = find(did.swap);
        const procedure::Step* step = swap ? swap->step(did.step) : nullptr;
        if (!step)
            return giveUp();
        if (did.act)
            act(*did.act, did.gatesWaiting);
        if (m_state.isReadOnly)
            return;
        m_state.stepsByEntry.insert(m_number, {did.swap, did.step});
        for (const QString& reopened : did.reopened)
            reopen(*swap, StepId(reopened));
        if (did.reopened.isEmpty())
            swap->records.insert(did.step,
                                 {StepRecord::Status::Done, m_number, m_entry.at, m_entry.by, did.answers});
        else
            except(Exception::Kind::WrongAnswerAtAStop);
        if (did.act && did.act->effect == machine::Effect::Find)
            swap->steps = procedure::stepsFor(*swap->procedure, factsOf(m_state, *swap));
        if (step->effect == machine::Effect::BookIn)
            bookIn(*swap, did);
        noteCustody(*swap, *step, did.answers);
        if (did.act) {
            if (const auto event =
                    procedure::happenedBy(toAct(m_state, *did.act), *step, answersOf(did.answers)))
                happen(*event, incidentOf(event->what), did.swap);
            met(*did.act, did.swap);
        }
    }

    void operator()(const Acted& acted)
    {
        act(acted.act, acted.gatesWaiting);
        met(acted.act, {});
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
            return tell(Happening::GearDamaged);
        case Incident::PointWillNotLock:
            return tell(Happening::PointWillNotLock);
        case Incident::SomeoneHurt:
            return tell(Happening::SomeoneHurt);
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
        m_state.papers[read.lamp].readings.append(read.reading);
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
        if (!stands || contradictsMarking(read, agreement))
            m_state.machine = machine::after(m_state.plant, m_state.machine, wrongLamp(lamp));
    }

    void operator()(const SerialPassed& passed)
    {
        m_state.papers[passed.lamp].passes.append(passed.pass);
        except(Exception::Kind::SerialPassed);
    }

    void operator()(const LightRead& read) { m_state.light.append({read, m_entry.at, m_number}); }

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
        m_state = seenAt(m_state, m_entry.at);
    }

    void operator()(const Owed& owed)
    {
        SwapState* swap = find(owed.swap);
        if (!swap)
            return giveUp();
        swap->records.insert(owed.step, {StepRecord::Status::Owed, m_number, m_entry.at, m_entry.by, {}});
        except(Exception::Kind::StepOwed);
    }

    void operator()(const Withdrawn& withdrawn)
    {
        m_state.withdrawn.insert(withdrawn.entry);
        except(Exception::Kind::EntryWithdrawn);
        if (m_state.acts.contains(withdrawn.entry)) {
            m_state.machine =
                machine::withdrawn(m_state.plant, m_state.machine, m_state.acts.value(withdrawn.entry));
        }
        if (m_state.stepsByEntry.contains(withdrawn.entry)) {
            const auto [swapId, step] = m_state.stepsByEntry.value(withdrawn.entry);
            SwapState* swap = find(swapId);
            if (swap && swap->record(step).entry == withdrawn.entry)
                swap->records.remove(step);
        }
        m_state.light.removeIf([&](const LightReading& light) { return light.entry == withdrawn.entry; });
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
        m_state.lead = event.to;
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
        except(Exception::Kind::LockRemoved);
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
            machine::canWithdraw(m_state.acts.value(record.entry).effect)) {
            m_state.machine =
                machine::withdrawn(m_state.plant, m_state.machine, m_state.acts.value(record.entry));
        }
        swap.records.remove(step);
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

VisitState seenAt(const VisitState& state, const Stamp& now)
{
    if (!state.ground)
        return state;
    VisitState seen = state;
    for (Index lamphouse = 0; lamphouse < state.plant.lamphouses; ++lamphouse) {
        LamphouseWaits& waits = seen.waits[lamphouse];
        for (WaitClock* clock : {&waits.cool, &waits.bleed, &waits.strikePause, &waits.settle}) {
            *clock = witnessed(*clock, now);
            if (!clock->isOver())
                continue;
            seen.machine = machine::whenOver(seen.machine, clock->wait, lamphouse);
            clock->isRunning = false;
        }
    }
    const bool isOpen = [&] {
        for (Index lamphouse = 0; lamphouse < state.plant.lamphouses; ++lamphouse) {
            if (!machine::isShut(state.machine, lamphouse))
                return true;
        }
        return false;
    }();
    if (isOpen && isGap(state.last, now)) {
        machine::Event event;
        event.what = Happening::Resumed;
        seen.machine = machine::after(seen.plant, seen.machine, event);
    }
    return seen;
}

VisitState fold(const QList<Entry>& entries)
{
    VisitState state;
    for (const Entry& entry : entries)
        state = evolve(state, entry);
    return state;
}

} // namespace coldarc::visit
