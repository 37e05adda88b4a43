#include "tests/core/visit/night.h"

#include "core/machine/reach.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {

using namespace visit;

const catalogue::Catalogue& shippedCatalogue()
{
    static const catalogue::CatalogueLoading kLoading =
        catalogue::loadCatalogue(sourceFile("resources/catalogue"));
    return kLoading.catalogue;
}

const procedure::ProcedureLoading& shippedProcedures()
{
    static const procedure::ProcedureLoading kLoading =
        procedure::loadProcedures(sourceFile("resources/procedures"), shippedCatalogue());
    return kLoading;
}

std::string wordsOf(const Refusal& refusal)
{
    std::string text;
    for (const Why& why : refusal.whys) {
        text += " why " + std::to_string(static_cast<int>(why.kind));
        if (why.kind == Why::Kind::Demand)
            text += " demand " + std::to_string(static_cast<int>(why.demand));
        if (!why.step.isEmpty())
            text += " step " + why.step.text().toStdString();
        if (!why.capture.isEmpty())
            text += " capture " + why.capture.toStdString();
        if (why.label)
            text += " label " + std::to_string(static_cast<int>(why.label->cause));
    }
    return text;
}

namespace {

site::SiteDocument siteWith(const catalogue::ProjectorModel& model, int screens)
{
    site::SiteDocument site;
    site.site.id = SiteId(u"pier-street"_s);
    site.site.name = u"Pier Street"_s;
    site.site.profile.mayProveAbsence = site::AbsenceProver::Engineer;
    for (int index = 1; index <= screens; ++index) {
        const QString number = QString::number(index);
        site.screens.push_back({ScreenId(u"screen-"_s + number), u"Screen "_s + number, 70.0, {}});
        site.projectors.push_back(
            {ProjectorId(u"projector-"_s + number), model.id, ScreenId(u"screen-"_s + number), {}});
        for (const QString& label : model.lamphouses) {
            site.lamphouses.push_back({LamphouseId(u"lamphouse-"_s + number + u'-' + label),
                                       ProjectorId(u"projector-"_s + number), label,
                                       LampId(u"old-"_s + number + u'-' + label)});
        }
        for (const catalogue::IsolationRole& role : model.isolation) {
            site::IsolationPoint point;
            point.id = PointId(u"point-"_s + number + u'-' + role.id.text());
            point.panel = u"B"_s;
            point.circuit = number;
            point.name = u"panel B, "_s + number + u' ' + role.id.text();
            point.isLockable = true;
            for (const QString& label : role.lamphouses)
                point.feeds.push_back({LamphouseId(u"lamphouse-"_s + number + u'-' + label), role.id});
            site.points.push_back(point);
        }
    }
    return site;
}

LampTypeId typeOr(const QString& wanted, const catalogue::ProjectorModel& model)
{
    return wanted.isEmpty() ? model.lampTypes.first() : LampTypeId(wanted);
}

} // namespace

PersonFacts Night::electrician()
{
    PersonFacts eva;
    eva.id = PersonId(u"eva"_s);
    eva.name = u"E. Brandt"_s;
    eva.role = people::Role::Electrician;
    eva.mayProve = true;
    return eva;
}

Night::Night(const QString& modelId, Crew crew, const QString& oldType, const QString& newType, int screens)
{
    const catalogue::Catalogue& catalogue = shippedCatalogue();
    const catalogue::ProjectorModel& model = *catalogue.model(ModelId(modelId));
    const procedure::Procedure& procedure = *shippedProcedures().procedureFor(model.id);
    m_opening.visit = VisitId(u"visit-1"_s);
    m_opening.reason = u"lamps due"_s;
    m_opening.site = siteWith(model, screens);
    m_opening.people.append({ada(), u"A. Okoro"_s, people::Role::Engineer, true, false, true, false});
    if (crew == Crew::WithTrainee)
        m_opening.people.append({ben(), u"B. Lind"_s, people::Role::Trainee, false, true, false, false});
    if (crew == Crew::WithRelief)
        m_opening.people.append({ben(), u"B. Lind"_s, people::Role::Engineer, true, false, true, true});
    if (crew == Crew::AtElectriciansSite || crew == Crew::WithElectrician) {
        m_opening.site.site.profile.mayProveAbsence = site::AbsenceProver::Electrician;
        m_opening.people.first().mayProve = false;
    }
    if (crew == Crew::WithElectrician)
        m_opening.people.append(electrician());
    for (const site::Lamphouse& lamphouse : m_opening.site.lamphouses) {
        m_opening.fittedIn.append(lamphouse.id);
        // The swap's own lamp is due by its hours; one beside it may be lit again.
        const bool isDue = lamphouse.id.text().endsWith(u'-' + model.lamphouses.first());
        const double hours = isDue ? 1200 : 900; // of every counter 900 h are typed
        m_opening.fitted.append({*lamphouse.fitted, typeOr(oldType, model), u"OLD000001"_s, hours, hours,
                                 clock.now().wall - std::chrono::hours(1)});
    }
    for (int index = 1; index <= screens; ++index) {
        const QString number = QString::number(index);
        m_opening.swaps.append(
            {SwapId(u"swap-"_s + number),
             LamphouseId(u"lamphouse-"_s + number + u'-' + model.lamphouses.first()),
             procedure.id,
             {LampId(u"new-"_s + number), typeOr(newType, model), u"NEW00000"_s + number, 0.0}});
    }
    m_opening.texts.append({Text::Kind::Model, catalogue.document(model.id).text});
    for (const LampTypeId& type : model.lampTypes)
        m_opening.texts.append({Text::Kind::LampType, catalogue.document(type).text});
    m_opening.texts.append({Text::Kind::Procedure, shippedProcedures().documents.value(procedure.id).text});
    m_opening.texts.append({Text::Kind::Gear, catalogue.gearDocument().text});
    m_opening.weeklyHours = 70;
    const Decision opened = tell(m_opening);
    EXPECT_TRUE(opened) << (opened ? "" : wordsOf(opened.error()));
}

Night::Night(const Opening& opening)
    : m_opening(opening)
{
    const Decision opened = tell(m_opening.people.first().id, m_opening);
    EXPECT_TRUE(opened) << (opened ? "" : wordsOf(opened.error()));
}

Opening twoFeeds()
{
    Opening opening = Night(u"quillhaven-pair"_s).opening();
    std::vector<site::IsolationPoint>& points = opening.site.points;
    site::IsolationPoint second = points.front();
    second.id = PointId(u"point-second"_s);
    second.name = u"Second feed"_s;
    second.circuit = u"9"_s;
    second.feeds = {points.front().feeds[1]};
    points.front().feeds = {points.front().feeds[0]};
    points.push_back(second);
    return opening;
}

Decision Night::doAct(const PersonId& by, machine::Effect effect, machine::Index lamphouse,
                      const std::function<void(machine::Act&)>& change)
{
    machine::Act act;
    act.effect = effect;
    act.person = state.person(by);
    act.lamphouse = lamphouse;
    if (change)
        change(act);
    Acted acted;
    acted.act = toRecord(state, act);
    return tell(by, acted);
}

Decision Night::putOnGear(const PersonId& by, int swap)
{
    const SwapState current = state.swaps[swap];
    for (const procedure::Step& step : current.steps) {
        if (step.effect != machine::Effect::GearOn)
            continue;
        Acted acted;
        acted.act.effect = step.effect;
        acted.act.person = by;
        acted.act.lamphouse = state.ground->lamphouses[current.lamphouse];
        acted.answers = answersFor(current, step);
        return tell(by, acted);
    }
    return tl::unexpected(Refusal());
}

void seeAsItStands(const VisitState& state, machine::Act& act)
{
    const machine::LamphouseState& here = state.machine.lamphouse[act.lamphouse];
    const machine::ProjectorState& projector =
        state.machine.projector[state.plant.lamphouse[act.lamphouse].projector];
    act.seen.lit = here.heat == machine::Heat::Lit;
    act.seen.drive = projector.drive;
    act.seen.extraction = projector.extraction;
    act.seen.housingOpen = here.housingOpen;
    act.seen.guardOpen = here.guardOpen;
    act.seen.dowserOpen = here.dowserOpen;
    act.seen.lamp = here.heat == machine::Heat::Unknown ? act.lamphouse : here.lamp;
    act.seen.seat = act.seen.lamp == machine::kNone       ? machine::Seat::Empty
                    : here.seat == machine::Seat::Entered ? machine::Seat::Entered
                                                          : machine::Seat::Clamped;
    act.lamp = act.seen.lamp;
    for (machine::Index point = 0; point < state.plant.points; ++point) {
        if (state.machine.point[point].power != machine::Power::On)
            act.seen.pointsOff = static_cast<machine::Mask>(act.seen.pointsOff | machine::maskOf(point));
    }
}

void Night::lookAgain()
{
    for (machine::Index lamphouse = 0; lamphouse < state.plant.lamphouses; ++lamphouse) {
        if (state.machine.lamphouse[lamphouse].unseen) {
            ASSERT_TRUE(doAct(state.people[state.lead].id, machine::Effect::Find, lamphouse,
                              [&](machine::Act& act) { seeAsItStands(state, act); }));
        }
    }
}

void Night::doSafeStep(const machine::SafeStep& step)
{
    using Kind = machine::SafeStep::Kind;
    const PersonId lead = state.people[state.lead].id; // whoever began may have gone home
    if (state.removalsToTell.contains(lead)) {
        ASSERT_TRUE(tell(lead, RemovalTold{}));
    }
    if (step.kind == Kind::Hold) {
        const WaitClock cool = seen().waits[step.lamphouse].cool;
        if (cool.asksForFan) {
            ASSERT_TRUE(tell(lead, FanAnswered{state.ground->lamphouses[step.lamphouse], false}));
        } else {
            clock.advance(std::max(cool.left(), std::chrono::milliseconds(1000)));
        }
        return;
    }
    if (step.kind == Kind::Report && step.event.what == machine::Happening::LocksMissed) {
        ASSERT_TRUE(tell(lead, LocksSeen{state.ground->lamphouses[step.lamphouse], true}));
        return;
    }
    if (step.kind == Kind::Report) {
        for (const IncidentState& incident : state.incidents) {
            if (incident.kind == Incident::CountDiffers && !incident.isAnswered) {
                ASSERT_TRUE(tell(lead, IncidentAnswered{incident.entry, u"found under the bench"_s}));
                return;
            }
        }
        FAIL() << "a count differs and no incident says so";
    }
    clock.advance(std::chrono::seconds(10));
    const machine::Index person = step.act.person == machine::kNone ? state.lead : step.act.person;
    const PersonId by = state.people[person].id;
    if (state.removalsToTell.contains(by)) {
        ASSERT_TRUE(tell(by, RemovalTold{}));
    }
    Acted acted;
    acted.act = toRecord(state, step.act);
    if (step.act.effect == machine::Effect::LampOff)
        acted.act.outcome = machine::Outcome::FanRuns;
    const Decision done = tell(by, acted);
    ASSERT_TRUE(done) << "effect " << static_cast<int>(step.act.effect) << wordsOf(done.error());
}

void Night::makeSafe()
{
    if (!state.isMakingSafe) {
        ASSERT_TRUE(tell(state.people[state.lead].id, SafeBegun{u"no time left"_s}));
    }
    // A few steps of each isolation group in turn: whoever stands in another group's zone has to come out
    // there first, and lock, gear and going in belong together.
    constexpr int kTogether = 3;
    for (int round = 0; round < 200; ++round) {
        bool isDone = true;
        for (int turn = 0; turn < kTogether * state.plant.lamphouses; ++turn) {
            const auto& lamphouse = state.plant.lamphouse[static_cast<std::size_t>(turn / kTogether)];
            lookAgain();
            const VisitState now = seen();
            const auto step = machine::nextSafeStep(now.plant, now.machine, lamphouse.group, now.lead);
            if (step.kind == machine::SafeStep::Kind::Done)
                continue;
            isDone = false;
            doSafeStep(step);
            if (::testing::Test::HasFatalFailure())
                return;
        }
        if (isDone)
            return;
    }
    FAIL() << "never safe";
}

void Night::putRight()
{
    for (int count = 0; count < 200; ++count) {
        lookAgain();
        const VisitState now = seen();
        const auto step = machine::nextPutRightStep(now.plant, now.machine, 0, now.lead);
        if (step.kind == machine::SafeStep::Kind::Done)
            return;
        doSafeStep(step);
        if (::testing::Test::HasFatalFailure())
            return;
    }
    FAIL() << "never put right";
}

void Night::answerIncidents()
{
    for (const IncidentState& incident : QList<IncidentState>(state.incidents)) {
        if (!incident.isAnswered) {
            EXPECT_TRUE(tell(state.people[state.lead].id,
                             IncidentAnswered{incident.entry, u"dealt with, see the report"_s}));
        }
    }
}

void Night::close()
{
    const PersonId lead = state.people[state.lead].id;
    answerIncidents();
    for (machine::Index lamp = 0; lamp < state.plant.lamps; ++lamp) {
        const LampId id = state.ground->lamps[lamp].id;
        const machine::Place place = state.machine.lamp[lamp].place;
        if (state.custody.contains(id) || place == machine::Place::Clamped)
            continue;
        const bool wasBrought = lamp >= state.plant.lamphouses;
        if (place == machine::Place::Boxed || place == machine::Place::Burst ||
            (place == machine::Place::SealedBox && wasBrought)) {
            ASSERT_TRUE(tell(lead, CustodyDecided{id, u"returned"_s}));
        }
    }
    const Decision sign = tell(lead, Signed{u"performed"_s});
    ASSERT_TRUE(sign) << wordsOf(sign.error());
    ASSERT_TRUE(tell(lead, SiteSigned{u"C. Moor"_s, u"duty manager"_s, {}}));
    const Decision closed = tell(lead, Closed{});
    ASSERT_TRUE(closed) << wordsOf(closed.error());
}

VisitState Night::readBack() const
{
    QList<Entry> read;
    for (const Entry& entry : entries) {
        const auto again = entryFrom(bytesOf(entry));
        EXPECT_TRUE(again) << (again ? "" : again.error().detail.toStdString());
        if (again)
            read.append(*again);
    }
    return fold(read);
}

bool Night::isDone(const QString& step, int swap) const
{
    return state.swaps[swap].record(StepId(step)).status == StepRecord::Status::Done;
}

bool Night::hasException(Exception::Kind kind) const
{
    return std::any_of(state.exceptions.begin(), state.exceptions.end(),
                       [&](const Exception& one) { return one.kind == kind; });
}

bool Night::hasIncident(Incident kind) const
{
    return std::any_of(state.incidents.begin(), state.incidents.end(),
                       [&](const IncidentState& one) { return one.kind == kind; });
}

void expectSame(const VisitState& one, const VisitState& other)
{
    EXPECT_EQ(one.machine, other.machine);
    EXPECT_EQ(one.waits, other.waits);
    EXPECT_EQ(one.people, other.people);
    EXPECT_EQ(one.lead, other.lead);
    EXPECT_EQ(one.passedOn, other.passedOn);
    EXPECT_EQ(one.gone, other.gone);
    EXPECT_EQ(one.wholeGear, other.wholeGear);
    EXPECT_EQ(one.removalsToTell, other.removalsToTell);
    EXPECT_EQ(one.incidents, other.incidents);
    EXPECT_EQ(one.papers, other.papers);
    EXPECT_EQ(one.custody, other.custody);
    EXPECT_EQ(one.light, other.light);
    EXPECT_EQ(one.lightSets, other.lightSets);
    EXPECT_EQ(one.sheets, other.sheets);
    EXPECT_EQ(one.signatures, other.signatures);
    EXPECT_EQ(one.exceptions, other.exceptions);
    EXPECT_EQ(one.isMakingSafe, other.isMakingSafe);
    EXPECT_EQ(one.end, other.end);
    EXPECT_EQ(one.isReadOnly, other.isReadOnly);
    EXPECT_EQ(one.last, other.last);
    EXPECT_EQ(one.entries, other.entries);
    EXPECT_EQ(one.acts, other.acts);
    EXPECT_EQ(one.stepsByEntry, other.stepsByEntry);
    EXPECT_EQ(one.withdrawn, other.withdrawn);
    EXPECT_EQ(one.hungBy, other.hungBy);
    EXPECT_EQ(one.givesWay, other.givesWay);
    ASSERT_EQ(one.swaps.size(), other.swaps.size());
    for (qsizetype index = 0; index < one.swaps.size(); ++index) {
        EXPECT_EQ(one.swaps[index].records, other.swaps[index].records);
        EXPECT_EQ(one.swaps[index].followsUp, other.swaps[index].followsUp);
        EXPECT_EQ(one.swaps[index].steps, other.swaps[index].steps);
        EXPECT_EQ(one.swaps[index].thresholdHours, other.swaps[index].thresholdHours);
    }
}

QList<machine::Demand> demandsOf(const Decision& decision)
{
    QList<machine::Demand> demands;
    if (decision)
        return demands;
    for (const Why& why : decision.error().whys) {
        if (why.kind == Why::Kind::Demand)
            demands.append(why.demand);
    }
    return demands;
}

bool isRefused(const Decision& decision, Why::Kind kind)
{
    return !decision && decision.error().has(kind);
}

QString turnOf(const Decision& decision)
{
    if (decision)
        return {};
    for (const Why& why : decision.error().whys) {
        if (why.kind == Why::Kind::NotYourTurn)
            return why.step.text();
    }
    return {};
}

Decision Night::tell(const PersonId& by, const Body& asked)
{
    const Decision decision = decide(state, by, asked, clock.now());
    if (decision) {
        state = evolve(state, *decision);
        entries.append(*decision);
        EXPECT_FALSE(hasException(visit::Exception::Kind::GateSkipped))
            << "what is let be done is no such thing";
    }
    return decision;
}

NextStep Night::next(int swap) const
{
    // The step lives in the shared list of the swap, so it outlives the state seen here.
    return nextStep(seen(), state.swaps[swap], state.lead);
}

QString Night::nextId(int swap) const
{
    const NextStep step = next(swap);
    return step.step ? step.step->id.text() : QString();
}

const catalogue::LampType& Night::newType(int index) const
{
    const SwapPlan& plan = m_opening.swaps[index];
    const LampFacts& lamp =
        plan.followsUp() ? m_opening.fitted[m_opening.fittedIn.indexOf(plan.lamphouse)] : plan.newLamp;
    return *shippedCatalogue().lampType(*lamp.type);
}

Opening followUpOf(const Night& night, const QStringList& owed)
{
    Opening opening = night.opening();
    opening.visit = VisitId(u"visit-2"_s);
    opening.reason = u"what is owed"_s;
    SwapPlan plan = opening.swaps.first();
    for (qsizetype index = 0; index < opening.swaps.size(); ++index) {
        const SwapPlan& swap = opening.swaps[index];
        LampFacts& fitted = opening.fitted[opening.fittedIn.indexOf(swap.lamphouse)];
        fitted = swap.newLamp;
        fitted.counter = 0; // as it was keyed in
        fitted.hoursAt = night.clock.now().wall;
        for (site::Lamphouse& lamphouse : opening.site.lamphouses) {
            if (lamphouse.id == swap.lamphouse)
                lamphouse.fitted = swap.newLamp.id;
        }
    }
    plan.id = SwapId(u"follow-up-1"_s);
    const LampId lamp = std::exchange(plan.newLamp, LampFacts()).id;
    for (const QString& step : owed)
        plan.owed.append({StepId(step), night.opening().visit, night.clock.now().wall, lamp});
    opening.swaps = {plan};
    return opening;
}

QString Night::serialAtHand(int swap) const
{
    return takenFromTheVan.value(swap, m_opening.swaps[swap].newLamp.serial);
}

void Night::readLabels(int swap)
{
    const SwapPlan& plan = m_opening.swaps[swap];
    for (const label::Source source : {label::Source::Box, label::Source::Paper, label::Source::Entry})
        EXPECT_TRUE(tell(LampRead{plan.newLamp.id,
                                  {source, label::Means::Typed, newType(swap).code, serialAtHand(swap)}}));
}

void Night::readMarking(int swap)
{
    const SwapPlan& plan = m_opening.swaps[swap];
    EXPECT_TRUE(tell(
        LampRead{plan.newLamp.id,
                 {label::Source::OwnMarking, label::Means::Typed, newType(swap).code, serialAtHand(swap)}}));
}

QJsonObject Night::answersFor(const SwapState& swap, const procedure::Step& step) const
{
    QJsonObject answers;
    for (const procedure::Capture& capture : step.captures) {
        if (!capture.choices.isEmpty()) {
            answers.insert(capture.id, capture.choices.first().text);
            continue;
        }
        const auto plan = std::find_if(m_opening.swaps.begin(), m_opening.swaps.end(),
                                       [&](const SwapPlan& one) { return one.id == swap.id; });
        const QString code = newType(static_cast<int>(plan - m_opening.swaps.begin())).code;
        if (step.stop && (capture.id == u"count" || capture.id == u"type")) {
            answers.insert(capture.id, capture.id == u"count" ? u"900 and 900"_s : code);
            continue;
        }
        if (step.stop && capture.id == u"point") {
            const LamphouseId& lamphouse = state.ground->lamphouses[swap.lamphouse];
            answers.insert(capture.id,
                           std::ranges::find_if(m_opening.site.points, [&](const site::IsolationPoint& one) {
                               return one.doesFeed(lamphouse);
                           })->name);
            continue;
        }
        if (step.effect == machine::Effect::KeyController && capture.id == u"hours" && !step.otherLamphouse &&
            !swap.followsUp) { // as it was keyed in
            answers.insert(capture.id,
                           QString::number(state.ground->lamps[swap.newLamp].hours.value_or(900), 'f', 0));
            continue;
        }
        switch (capture.kind) {
        case procedure::CaptureKind::Counter:
        case procedure::CaptureKind::Number:
        case procedure::CaptureKind::Reading:
            answers.insert(capture.id, u"900"_s);
            break;
        case procedure::CaptureKind::Type:
            answers.insert(capture.id, code);
            break;
        case procedure::CaptureKind::Picture:
            break;
        default:
            answers.insert(capture.id, u"47"_s);
        }
    }
    return answers;
}

void Night::holdWaits(int swap)
{
    const VisitState now = seen();
    const NextStep step = nextStep(now, state.swaps[swap], state.lead);
    if (const WaitClock* clockBehind = waitBehind(now, step.act, step.unmet))
        clock.advance(clockBehind->left());
}

Decision Night::doStep(const QString& id, const std::function<void(QJsonObject&)>& change, int swap,
                       const PersonId& by)
{
    const SwapState current = state.swaps[swap];
    const procedure::Step* step = current.step(StepId(id));
    EXPECT_TRUE(step) << id.toStdString();
    Did did;
    did.swap = current.id;
    did.step = StepId(id);
    did.answers = answersFor(current, *step);
    change(did.answers);
    PersonId who = by.isEmpty() ? state.people[state.lead].id : by;
    for (machine::Index other = 0; by.isEmpty() && step->stop && other < state.people.size(); ++other) {
        if (mayAnswer(state, current, *step, other) && (other != state.lead || state.people.size() == 1 ||
                                                        !mayAnswer(state, current, *step, state.lead)))
            who = state.people[other].id;
    }
    return tell(who, did);
}

void Night::readCentre(int index, double cdPerM2)
{
    ScreenRead read;
    read.swap = swap(index).id;
    read.step = next(index).step->id;
    read.points = {{photometry::Place::Centre, cdPerM2, std::nullopt}};
    const Decision told = tell(read);
    EXPECT_TRUE(told) << wordsOf(told.error());
}

Decision Night::doNext(int swap, const PersonId& by)
{
    holdWaits(swap);
    const NextStep step = next(swap);
    EXPECT_TRUE(step.step);
    const StepId id = step.step->id;
    if (step.step->effect == machine::Effect::MatchBox)
        readLabels(swap);
    if (step.step->effect == machine::Effect::BookIn)
        readMarking(swap);
    if (step.step->effect == machine::Effect::Sign)
        answerIncidents();
    if (step.step->effect == machine::Effect::MeasureScreen)
        readCentre(swap);
    clock.advance(std::chrono::seconds(20));
    return doStep(
        id.text(), [](QJsonObject&) {}, swap, by);
}

void Night::doUntil(const QString& step, int swap)
{
    for (int count = 0; count < 120; ++count) {
        const QString at = nextId(swap);
        if (at == step)
            return holdWaits(swap);
        ASSERT_FALSE(at.isEmpty()) << "never came to " << step.toStdString();
        const Decision decision = doNext(swap);
        ASSERT_TRUE(decision) << at.toStdString() << wordsOf(decision.error());
    }
    FAIL() << "never came to " << step.toStdString();
}

void Night::doAll(int swap)
{
    for (int count = 0; count < 120; ++count) {
        const QString at = nextId(swap);
        if (at.isEmpty())
            return;
        const Decision decision = doNext(swap);
        ASSERT_TRUE(decision) << at.toStdString() << wordsOf(decision.error());
    }
    FAIL() << "never ends, at " << nextId(swap).toStdString();
}

} // namespace coldarc::test
