#include "tests/core/visit/random_nights.h"

#include "core/machine/reach.h"
#include "core/visit/sheet_of_visit.h"
#include "tests/core/machine/world.h"
#include "tests/core/visit/night.h"
#include "tests/core/visit/random_opening.h"

#include <algorithm>
#include <random>

using namespace Qt::StringLiterals;

namespace coldarc::test {

using namespace visit;
using machine::Effect;
using machine::Index;
using machine::kNone;
using machine::Mask;
using machine::Outcome;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

bool isSame(const VisitState& one, const VisitState& other)
{
    if (one.swaps.size() != other.swaps.size())
        return false;
    for (qsizetype index = 0; index < one.swaps.size(); ++index) {
        if (one.swaps[index].records != other.swaps[index].records ||
            one.swaps[index].steps != other.swaps[index].steps)
            return false;
    }
    return one.machine == other.machine && one.waits == other.waits && one.people == other.people &&
           one.lead == other.lead && one.passedOn == other.passedOn && one.wholeGear == other.wholeGear &&
           one.removalsToTell == other.removalsToTell && one.incidents == other.incidents &&
           one.papers == other.papers && one.custody == other.custody && one.light == other.light &&
           one.lightSets == other.lightSets && one.sheets == other.sheets &&
           one.signatures == other.signatures && one.exceptions == other.exceptions &&
           one.isMakingSafe == other.isMakingSafe && one.end == other.end && one.last == other.last &&
           one.entries == other.entries && one.acts == other.acts && one.withdrawn == other.withdrawn &&
           one.hungBy == other.hungBy && one.givesWay == other.givesWay && one.isReadOnly == other.isReadOnly;
}

/// One night and whoever drives it.
class Evening {
public:
    Evening(std::mt19937& random, RandomNights& run, const RandomProcedures& made)
        : m_random(random)
        , m_run(run)
        , m_made(made)
        , m_night(randomNight())
        , m_isCalm(!oneIn(3))
        , m_turnsAt(m_isCalm && oneIn(2) ? below(120) : -1)
        , m_mischief(below(4))
    {
    }

    /// Pre: at least one. Gives how many were asked.
    std::size_t drive(std::size_t most)
    {
        std::size_t asked = 0;
        while (asked < most && m_run.broken.empty() && m_night.state.isOpen()) {
            ++asked;
            letTimePass();
            say();
            if (asked % 200 == 0)
                compare();
        }
        compare();
        ++m_run.nights;
        m_run.done += m_night.state.end == u"done" ? 1u : 0u;
        if (m_night.state.isOpen() && m_run.broken.empty())
            makeSafe();
        return asked;
    }

private:
    int below(int count) { return static_cast<int>(m_random() % static_cast<unsigned>(count)); }
    bool oneIn(int count) { return below(count) == 0; }
    template<class List>
    auto any(const List& list)
    {
        return list[below(static_cast<int>(list.size()))];
    }

    Night randomNight() { return oneIn(8) ? shippedNight() : Night(randomOpening(m_made, m_random)); }

    Night shippedNight()
    {
        static const QStringList kModels{u"larkmoor-teal"_s, u"quillhaven-pair"_s, u"sedgebrook-nook"_s};
        const QString model = any(kModels);
        const QList<LampTypeId> types = shippedCatalogue().model(ModelId(model))->lampTypes;
        const auto crew = static_cast<Night::Crew>(below(3));
        const QString oldType = any(types).text();
        return Night(model, crew, oldType, any(types).text(), model == u"quillhaven-pair" ? 1 : 1 + below(2));
    }

    const VisitState& state() const { return m_night.state; }
    PersonId somebody() { return any(state().people).id; }
    PersonId lead() { return state().people[state().lead].id; }
    int someSwap() { return below(static_cast<int>(state().swaps.size())); }
    Index someLamphouse() { return static_cast<Index>(below(state().plant.lamphouses)); }

    void letTimePass()
    {
        FakeClock& clock = m_night.clock;
        if (m_isCalm && !oneIn(20))
            clock.advance(seconds(below(60)));
        else if (oneIn(400))
            clock.sleep(seconds(below(3000)));
        else if (oneIn(600))
            clock.reboot(seconds(below(3000)), seconds(1 + below(300)));
        else if (oneIn(1500))
            clock.otherMachine(seconds(1 + below(3000)));
        else if (oneIn(100))
            clock.setWall(clock.now().wall + minutes(below(2000) - 1000));
        else
            clock.advance(seconds(below(60)));
    }

    /// One command, told and looked at.
    void say()
    {
        const VisitState now = m_night.seen();
        const bool isDoubted =
            std::any_of(now.machine.point.begin(), now.machine.point.end(),
                        [](const auto& point) { return point.power == machine::Power::Doubted; });
        const int since = m_told++ - m_turnsAt;
        if (m_turnsAt >= 0 && since == 0)
            return happen(static_cast<Incident>(below(kIncidents)));
        if (m_turnsAt >= 0 && since == 1)
            return tell(lead(), SafeBegun{u"it cannot go on"_s});
        if (now.isMakingSafe && !oneIn(m_isCalm ? 20 : 3))
            return safeStep(now, false);
        if (isDoubted && !oneIn(3))
            return safeStep(now, true);
        const int what = below(1000);
        if (m_isCalm && !oneIn(15))
            return nextRight();
        if (what < 620)
            return nextRight();
        if (what < 700)
            return anyStep();
        if (what < 800)
            return anyAct();
        if (what < 830)
            return answerIncident();
        if (what < 860)
            return answerFan(now);
        if (what < 900)
            return readLamp();
        if (what < 900 + 6 * m_mischief)
            return happen();
        if (what < 930)
            return withdraw();
        return rest(what - 930);
    }

    void tell(const PersonId& by, const Body& asked)
    {
        const VisitState stored = state();
        const VisitState before = m_night.seen();
        ++m_run.asked;
        const Decision decision = m_night.tell(by, asked);
        if (!decision) {
            if (m_night.entries.size() != stored.entries || !isSame(stored, state()))
                breakWith("a refusal changed something");
            return;
        }
        ++m_run.accepted;
        count(decision->body, before);
        look(*decision, before);
    }

    void count(const Body& body, const VisitState& before)
    {
        const ActRecord* act = nullptr;
        if (const auto* did = std::get_if<Did>(&body)) {
            act = did->act ? &*did->act : nullptr;
            if (!act)
                ++m_run.effects[static_cast<std::size_t>(Effect::Look)];
        } else if (const auto* acted = std::get_if<Acted>(&body)) {
            act = &acted->act;
        }
        if (act)
            ++m_run.effects[static_cast<std::size_t>(act->effect)];
        for (qsizetype index = before.incidents.size(); index < state().incidents.size(); ++index)
            ++m_run.incidents[static_cast<std::size_t>(state().incidents[index].kind)];
        m_run.withdrawn += std::holds_alternative<Withdrawn>(body) ? 1u : 0u;
        m_run.passedOn += std::holds_alternative<PassedOn>(body) ? 1u : 0u;
        m_run.removed += std::holds_alternative<LockRemoved>(body) ? 1u : 0u;
    }

    void breakWith(const std::string& rule)
    {
        if (m_run.broken.empty())
            m_run.broken = rule + ", night " + std::to_string(m_run.nights) + ", entry " +
                           std::to_string(state().entries) + " " +
                           kindOf(m_night.entries.last().body).toStdString() + ": " +
                           bytesOf(m_night.entries.last()).right(400).toStdString();
    }

    /// The invariants of the machine. The supply is live where the record says on. What stood open when an
    /// entry was withdrawn, or when it was reported that the machine is not dead, is on its way back: it is
    /// asked again from the first time that it is shut.
    void look(const Entry& entry, const VisitState& before)
    {
        if (state().isReadOnly)
            return breakWith("an entry that was taken cannot be folded");
        const auto* happened = std::get_if<Happened>(&entry.body);
        const bool takesBack = std::holds_alternative<Withdrawn>(entry.body) ||
                               (happened && (happened->incident == Incident::ItStarted ||
                                             happened->incident == Incident::VoltageFound)) ||
                               hasReopened(entry.body);
        for (Index lamphouse = 0; lamphouse < state().plant.lamphouses; ++lamphouse) {
            if (machine::isShut(state().machine, lamphouse))
                m_onTheWayBack = static_cast<Mask>(m_onTheWayBack & ~machine::maskOf(lamphouse));
            else if (takesBack)
                m_onTheWayBack = static_cast<Mask>(m_onTheWayBack | machine::maskOf(lamphouse));
        }
        if (m_night.hasException(Exception::Kind::GateSkipped))
            return breakWith("what was let be done skipped a gate");
        Setting setting;
        setting.plant = state().plant;
        const World world = worldOf(state());
        const std::string_view broken = brokenState(setting, world);
        if (!broken.empty())
            return breakWith(std::string(broken));
        lookAtMove(setting, entry, before, world);
    }

    static bool hasReopened(const Body& body)
    {
        const auto* did = std::get_if<Did>(&body);
        return did && !did->reopened.isEmpty();
    }

    void lookAtMove(const Setting& setting, const Entry& entry, const VisitState& before, const World& after)
    {
        const auto* did = std::get_if<Did>(&entry.body);
        const auto* acted = std::get_if<Acted>(&entry.body);
        if (!(did && did->act) && !acted)
            return;
        Move move;
        move.act = toAct(before, did ? *did->act : acted->act);
        const Outcome outcome = move.act.outcome;
        if (outcome == Outcome::Started || outcome == Outcome::Voltage || outcome == Outcome::Burst)
            return; // told of danger, whatever stood open to be done
        const std::string_view broken = brokenMove(setting, worldOf(before), move, after);
        if (!broken.empty())
            breakWith(std::string(broken));
    }

    World worldOf(const VisitState& of) const
    {
        World world;
        world.state = of.machine;
        for (Index point = 0; point < of.plant.points; ++point) {
            if (of.machine.point[point].power == machine::Power::On)
                world.truth.live = static_cast<Mask>(world.truth.live | machine::maskOf(point));
        }
        if (&of != &m_night.state)
            return world;
        for (Index lamphouse = 0; lamphouse < of.plant.lamphouses; ++lamphouse) {
            if (machine::has(m_onTheWayBack, lamphouse))
                world.state.lamphouse[lamphouse].leftExposed = true;
        }
        return world;
    }

    void compare()
    {
        ++m_run.compared;
        if (m_run.broken.empty() && !isSame(m_night.readBack(), state()))
            breakWith("the entries read back do not fold to the live state");
    }

    void makeSafe()
    {
        for (Index lamphouse = 0; lamphouse < state().plant.lamphouses; ++lamphouse) {
            look(lamphouse);
        }
        if (state().removalsToTell.contains(lead()))
            tell(lead(), RemovalTold{});
        m_night.makeSafe();
        m_night.close();
        if (state().isOpen())
            return breakWith("the way to safety does not lead to an end");
        ++m_run.madeSafe;
        compare();
    }

    void look(Index lamphouse)
    {
        if (state().machine.lamphouse[lamphouse].heat == machine::Heat::Unknown)
            findOff(lamphouse);
        else if (!machine::isLookedAt(state().machine, lamphouse))
            tellAct(lead(), Effect::Find, lamphouse, [&](machine::Act& act) { seeAsItStands(state(), act); });
    }

    void findOff(Index lamphouse)
    {
        tellAct(lead(), Effect::Find, lamphouse, [&](machine::Act& act) {
            act.seen.lamp = lamphouse;
            act.lamp = lamphouse;
            act.seen.drive = machine::Drive::On;
        });
    }

    void tellAct(const PersonId& by, Effect effect, Index lamphouse,
                 const std::function<void(machine::Act&)>& change)
    {
        machine::Act act;
        act.effect = effect;
        act.person = state().person(by);
        act.lamphouse = lamphouse;
        change(act);
        Acted acted;
        acted.act = toRecord(state(), act);
        tell(by, acted);
    }

    // ---- What people say ----------------------------------------------------------------------------

    void safeStep(const VisitState& now, bool putRight)
    {
        using Kind = machine::SafeStep::Kind;
        const Index group = static_cast<Index>(below(now.plant.lamphouses));
        for (Index lamphouse = 0; lamphouse < now.plant.lamphouses; ++lamphouse) {
            if (!machine::isLookedAt(now.machine, lamphouse))
                return look(lamphouse);
        }
        const auto step = putRight ? machine::nextPutRightStep(now.plant, now.machine, group, now.lead)
                                   : machine::nextSafeStep(now.plant, now.machine, group, now.lead);
        if (step.kind == Kind::Hold) {
            if (now.waits[step.lamphouse].cool.asksForFan)
                return answerFan(now);
            m_night.clock.advance(now.waits[step.lamphouse].cool.left());
            return tell(lead(), Noted{{}, u"held"_s});
        }
        if (step.kind == Kind::Report && step.event.what == machine::Happening::LocksMissed)
            return tell(lead(), LocksSeen{state().ground->lamphouses[step.lamphouse], oneIn(2)});
        if (step.kind == Kind::Report)
            return answerIncident();
        if (step.kind == Kind::Done)
            return putRight ? nextRight() : closeUp();
        Acted acted;
        acted.act = toRecord(now, step.act);
        if (step.act.effect == Effect::LampOff)
            acted.act.outcome = oneIn(3) ? Outcome::FanStill : Outcome::FanRuns;
        const Index person = step.act.person == kNone ? now.lead : step.act.person;
        tell(now.people[person].id, acted);
    }

    void closeUp()
    {
        for (const IncidentState& incident : QList<IncidentState>(state().incidents)) {
            if (!incident.isAnswered)
                return tell(lead(), IncidentAnswered{incident.entry, u"dealt with"_s});
        }
        if (!state().isMakingSafe && oneIn(12))
            return tell(lead(), SafeBegun{u"no step leads on"_s});
        switch (below(4)) {
        case 0:
            return tell(lead(), Signed{u"performed"_s});
        case 1:
            return custody();
        case 2:
            return tell(lead(), SiteSigned{u"C. Moor"_s, u"duty manager"_s, {}});
        default:
            return tell(lead(), Closed{});
        }
    }

    /// A lamphouse is found in one way or another from which the work goes on.
    void lookClosely(const procedure::Step& step, QJsonObject& given)
    {
        for (const procedure::Capture& capture : step.captures) {
            const bool isPlain = capture.id == u"lamp" || capture.id == u"fan" ||
                                 capture.id == u"extraction" || capture.id == u"dowser" ||
                                 capture.id == u"projector";
            if (isPlain && oneIn(3))
                given.insert(capture.id, any(capture.choices).text);
        }
    }

    QJsonObject answers(const SwapState& swap, const procedure::Step& step, int spoilOneIn)
    {
        QJsonObject given = m_night.answersFor(swap, step);
        if (step.effect == Effect::Find)
            lookClosely(step, given);
        if (step.captures.isEmpty() || !oneIn(spoilOneIn))
            return given;
        const procedure::Capture capture = any(step.captures);
        if (oneIn(6) || capture.choices.isEmpty())
            given.remove(capture.id);
        else
            given.insert(capture.id, any(capture.choices).text);
        return given;
    }

    void nextRight()
    {
        const int swap = someSwap();
        if (m_isCalm || !oneIn(4))
            m_night.holdWaits(swap);
        const SwapState current = state().swaps[swap];
        const VisitState now = m_night.seen();
        const NextStep next = nextStep(now, current, state().lead);
        if (!next.step)
            return closeUp();
        if (m_isCalm && asksForFan(now))
            return answerFan(now);
        if (now.machine.group[now.plant.lamphouse[current.lamphouse].group].isHearsay)
            return tell(oneIn(4) ? somebody() : lead(),
                        LocksSeen{state().ground->lamphouses[current.lamphouse], !oneIn(4)});
        if (next.step->effect == Effect::MatchBox || next.step->effect == Effect::BookIn) {
            const auto source = unread(current, *next.step);
            if (m_isCalm && source)
                return readLamp(swap, *source);
            if (!m_isCalm && !oneIn(3))
                return readLamp(swap);
        }
        if (next.step->effect == Effect::MeasureScreen && next.unmet.none() &&
            sheetOf(state(), current.id, SheetTime::After).points.empty() && (m_isCalm || oneIn(2)))
            return readCentre(current.id, next.step->id);
        Did did;
        did.swap = current.id;
        did.step = next.step->id;
        did.answers = answers(current, *next.step, m_isCalm ? 100 : 8);
        PersonId by = lead();
        if (oneIn(m_isCalm ? 100 : 8) ||
            (next.step->stop && !mayAnswer(state(), current, *next.step, state().lead)))
            by = somebody();
        if (oneIn(2))
            did.countersignedBy = somebody();
        tell(by, did);
    }

    void anyStep()
    {
        const SwapState current = state().swaps[someSwap()];
        const procedure::Step step = any(current.steps);
        Did did;
        did.swap = current.id;
        did.step = step.id;
        did.answers = answers(current, step, 2);
        tell(somebody(), did);
    }

    void anyAct()
    {
        static const QList<Effect> kPersonal{Effect::GearOn,       Effect::EnterZone,  Effect::LeaveZone,
                                             Effect::LockOn,       Effect::LockOff,    Effect::GearOff,
                                             Effect::ShutGuard,    Effect::LampIn,     Effect::ClampLamp,
                                             Effect::BoxLamp,      Effect::DowserShut, Effect::ShutHousing,
                                             Effect::ExtractionOn, Effect::DowserShut, Effect::ExtractionOn};
        const PersonId by = somebody();
        if (oneIn(6)) {
            tell(by, gearOf(by));
            return;
        }
        const Effect effect = oneIn(3) ? static_cast<Effect>(below(machine::kEffects)) : any(kPersonal);
        const Index lamphouse = someLamphouse();
        tellAct(by, effect, lamphouse, [&](machine::Act& act) {
            if (oneIn(3))
                act.point = static_cast<Index>(below(state().plant.points));
            act.moved = act.point;
            act.lamp = static_cast<Index>(below(state().plant.lamps));
            const Index inHand = machine::lampInHand(state().plant, state().machine, lamphouse);
            if (inHand != kNone && !oneIn(4))
                act.lamp = inHand;
            act.outcome = oneIn(2) ? Outcome::Plain
                          : oneIn(2)
                              ? Outcome::Agrees
                              : static_cast<Outcome>(below(static_cast<int>(Outcome::WillNotLock) + 1));
            if (effect == Effect::Find)
                seeAsItStands(state(), act);
        });
    }

    Acted gearOf(const PersonId& by)
    {
        const SwapState current = state().swaps[someSwap()];
        Acted acted;
        for (const procedure::Step& step : current.steps) {
            if (step.effect != Effect::GearOn)
                continue;
            acted.act.effect = Effect::GearOn;
            acted.act.person = by;
            acted.act.lamphouse = state().ground->lamphouses[current.lamphouse];
            acted.answers = answers(current, step, 4);
        }
        return acted;
    }

    void answerIncident()
    {
        for (const IncidentState& incident : QList<IncidentState>(state().incidents)) {
            if (!incident.isAnswered)
                return tell(somebody(),
                            IncidentAnswered{incident.entry, oneIn(8) ? QString() : u"dealt with"_s});
        }
        tell(somebody(), Noted{{}, u"nothing is open"_s});
    }

    void answerFan(const VisitState& now)
    {
        for (Index lamphouse = 0; lamphouse < now.plant.lamphouses; ++lamphouse) {
            if (now.waits[lamphouse].cool.asksForFan)
                return tell(somebody(), FanAnswered{now.ground->lamphouses[lamphouse], oneIn(2)});
        }
        nextRight();
    }

    static bool asksForFan(const VisitState& now)
    {
        return std::any_of(now.waits.begin(), now.waits.end(),
                           [](const auto& waits) { return waits.cool.asksForFan; });
    }

    /// A source that this step needs and that nobody has read.
    std::optional<label::Source> unread(const SwapState& swap, const procedure::Step& step) const
    {
        const QList<label::Source> needed =
            step.effect == Effect::BookIn
                ? QList{label::Source::OwnMarking}
                : QList{label::Source::Box, label::Source::Paper, label::Source::Entry};
        const LampPaper paper = state().papers.value(state().ground->lamps[swap.newLamp].id);
        for (const label::Source source : needed) {
            if (std::none_of(paper.readings.begin(), paper.readings.end(),
                             [&](const label::Reading& reading) { return reading.source == source; }))
                return source;
        }
        return std::nullopt;
    }

    void readLamp() { readLamp(someSwap()); }
    void readLamp(int swap) { readLamp(swap, static_cast<label::Source>(below(4))); }

    void readLamp(int swap, label::Source source)
    {
        const SwapPlan& plan = state().ground->opening.swaps[swap];
        LampRead read;
        read.lamp = plan.newLamp.id;
        read.reading.source = source;
        read.reading.type = m_night.newType(swap).code;
        read.reading.serial = plan.newLamp.serial;
        if (oneIn(20))
            read.reading.serial = u"NEW99"_s;
        if (oneIn(40))
            read.reading.type = u"HVQ30-40B"_s;
        tell(lead(), read);
    }

    void happen()
    {
        const auto incident = static_cast<Incident>(below(kIncidents));
        if (incident != Incident::SomeoneHurt || oneIn(3)) // nothing goes on after it
            happen(incident);
    }

    void happen(Incident incident)
    {
        Happened happened;
        happened.incident = incident;
        if (!oneIn(8))
            happened.lamphouse = state().ground->lamphouses[someLamphouse()];
        if (oneIn(3) || happened.incident == Incident::PointWillNotLock)
            happened.point = any(state().ground->points);
        if (oneIn(2))
            happened.lamp = any(state().ground->lamps).id;
        if (oneIn(2))
            happened.person = somebody();
        if (oneIn(2))
            happened.swap = state().swaps[someSwap()].id;
        tell(somebody(), happened);
    }

    void withdraw()
    {
        const qint64 back = 1 + below(oneIn(3) ? static_cast<int>(state().entries) : 6);
        tell(somebody(),
             Withdrawn{std::max<qint64>(0, state().entries - back), oneIn(9) ? QString() : u"wrong"_s});
    }

    void custody()
    {
        static const QStringList kWords{u"returned"_s, u"recycled"_s, u"kept-by-site"_s, u"unused"_s,
                                        u"in-van"_s};
        tell(somebody(), CustodyDecided{any(state().ground->lamps).id, any(kWords)});
    }

    void light(const SwapId& swap, const StepId& step)
    {
        static const QStringList kAxes{u"along"_s, u"across"_s, u"up"_s, QString()};
        if (oneIn(5))
            return tell(somebody(), LightSet{swap, step, {{any(kAxes), 0.125 * below(20)}}});
        LightRead read{swap, step, any(kAxes), std::nullopt, 1.0 * below(60)};
        if (!oneIn(4))
            read.turns = 0.125 * (below(40) - 20);
        if (oneIn(3))
            read.others.insert(any(kAxes), 0.125 * below(20));
        if (oneIn(4) && !state().light.isEmpty())
            read.replaces = any(state().light).entry;
        tell(somebody(), read);
    }

    void readCentre(const SwapId& swap, const StepId& step)
    {
        ScreenRead read{swap, step};
        read.points = {{photometry::Place::Centre, 0.1 * (300 + below(300)), std::nullopt}};
        tell(lead(), read);
    }

    void sheet(const SwapId& swap, const StepId& step)
    {
        if (oneIn(6)) {
            ScreenConditions said{swap, step};
            said.conditions.lit = seconds(60 * below(90));
            said.conditions.lampWatts = oneIn(3) ? std::nullopt : std::optional(100.0 * below(60));
            return tell(somebody(), said);
        }
        if (oneIn(8)) {
            ScreenLimits limits{swap, step, {}};
            limits.set.id = photometry::ToleranceSetId(oneIn(4) ? QString() : u"own"_s);
            limits.set.name = limits.set.source = limits.set.edition = u"own"_s;
            limits.set.convention = photometry::kConventions[static_cast<std::size_t>(below(3))];
            limits.set.needs = {photometry::Place::Centre};
            photometry::Limit limit;
            limit.least = 10.0 + below(40);
            limit.source = u"own"_s;
            limits.set.limits = {limit};
            return tell(somebody(), limits);
        }
        ScreenRead read{swap, step};
        read.convention = photometry::kConventions[static_cast<std::size_t>(below(3))];
        read.unit = oneIn(2) ? photometry::LuminanceUnit::CdPerM2 : photometry::LuminanceUnit::FootLamberts;
        for (int count = below(4); count >= 0; --count)
            read.points.append({photometry::kPlaces[static_cast<std::size_t>(below(9))], 0.1 * below(700),
                                oneIn(2) ? std::nullopt : photometry::Chromaticity::fromXy(0.314, 0.351)});
        tell(somebody(), read);
    }

    void rest(int what)
    {
        const SwapState current = state().swaps[someSwap()];
        const procedure::Step step = any(current.steps);
        if (what < 10)
            return tell(somebody(), Noted{current.id, oneIn(5) ? QString() : u"seen"_s});
        if (what < 13)
            return light(current.id, step.id);
        if (what < 16)
            return sheet(current.id, step.id);
        if (what < 20)
            return tell(somebody(), Resumed{});
        if (what < 26)
            return custody();
        if (what < 34)
            return tell(somebody(), Owed{current.id, step.id});
        if (what < 38)
            return tell(somebody(), PictureKept{current.id, step.id, u"picture"_s, sha256("x")});
        if (what < 44)
            return tell(somebody(), Signed{oneIn(2) ? u"performed"_s : u"verified"_s});
        if (what < 50) {
            const PersonId by = somebody();
            return tell(by, PassedOn{lead(), oneIn(4) ? somebody() : by});
        }
        if (what < 56)
            return join();
        if (what < 62)
            return removeLock();
        if (what < 64)
            return tell(somebody(), RemovalTold{});
        if (what < 65 && oneIn(2))
            return tell(somebody(), Left{somebody()});
        if (what < 65)
            return oneIn(3) ? tell(somebody(), SafeBegun{u"doors open"_s}) : nextRight();
        pass();
    }

    void join()
    {
        PersonFacts facts;
        facts.id = PersonId(u"person-%1"_s.arg(state().people.size()));
        for (machine::Index person = 0; person < state().people.size(); ++person) {
            if (!state().isHere(person)) // somebody who left comes back, judged anew
                facts.id = state().people[person].id;
        }
        facts.name = facts.id.text();
        facts.role = people::Role::Engineer;
        facts.mayLead = oneIn(2);
        facts.mayProve = facts.mayLead;
        facts.mayAssist = oneIn(2);
        facts.maySupervise = oneIn(2);
        facts.hasRemovalToTell = oneIn(6);
        tell(oneIn(4) ? facts.id : somebody(), Joined{facts});
    }

    void removeLock()
    {
        LockRemoved removed;
        removed.owner = somebody();
        removed.supervisor = somebody();
        for (const PersonFacts& person : state().people) {
            if (person.maySupervise && !oneIn(3))
                removed.supervisor = person.id;
        }
        removed.lamphouse = state().ground->lamphouses[someLamphouse()];
        removed.absence = u"car gone"_s;
        removed.attempts = oneIn(6) ? QString() : u"three calls"_s;
        tell(somebody(), removed);
    }

    void pass()
    {
        label::SerialPass serial;
        serial.source = label::Source::Box;
        serial.read = u"NEW99"_s;
        serial.entry = u"NEW000001"_s;
        serial.reason = u"smudged"_s;
        tell(somebody(), SerialPassed{any(state().ground->lamps).id, serial});
    }

    std::mt19937& m_random;
    RandomNights& m_run;
    const RandomProcedures& m_made;
    Night m_night;
    bool m_isCalm; ///< almost everything is done as it should be
    int m_turnsAt; ///< until then: at this command something goes wrong, and the machine is made safe; -1:
                   ///< never
    int m_told = 0;
    int m_mischief; ///< how often something goes wrong tonight
    Mask m_onTheWayBack = 0;
};

template<class Counts>
std::size_t least(const Counts& counts)
{
    return *std::min_element(counts.begin(), counts.end());
}

} // namespace

std::size_t RandomNights::rarestEffect() const
{
    return least(effects);
}

std::size_t RandomNights::rarestIncident() const
{
    return least(incidents);
}

RandomNights runRandomNights(std::size_t commands, std::uint32_t seed, const RandomProcedures& made)
{
    std::mt19937 random(seed);
    RandomNights run;
    while (run.asked < commands && run.broken.empty()) {
        Evening evening(random, run, made);
        static_cast<void>(evening.drive(std::min<std::size_t>(300, commands - run.asked)));
    }
    return run;
}

} // namespace coldarc::test
