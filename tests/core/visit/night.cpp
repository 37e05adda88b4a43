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
    for (const site::Lamphouse& lamphouse : m_opening.site.lamphouses) {
        m_opening.fittedIn.append(lamphouse.id);
        m_opening.fitted.append({*lamphouse.fitted, typeOr(oldType, model), u"OLD000001"_s, 1200.0});
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

Decision Night::tell(const PersonId& by, const Body& asked)
{
    const Decision decision = decide(state, by, asked, clock.now());
    if (decision) {
        state = evolve(state, *decision);
        entries.append(*decision);
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
    return *shippedCatalogue().lampType(*m_opening.swaps[index].newLamp.type);
}

void Night::readLabels(int swap)
{
    const SwapPlan& plan = m_opening.swaps[swap];
    for (const label::Source source : {label::Source::Box, label::Source::Paper, label::Source::Entry})
        EXPECT_TRUE(tell(LampRead{plan.newLamp.id,
                                  {source, label::Means::Typed, newType(swap).code, plan.newLamp.serial}}));
}

void Night::readMarking(int swap)
{
    const SwapPlan& plan = m_opening.swaps[swap];
    EXPECT_TRUE(tell(
        LampRead{plan.newLamp.id,
                 {label::Source::OwnMarking, label::Means::Typed, newType(swap).code, plan.newLamp.serial}}));
}

QJsonObject Night::answersFor(const SwapState& swap, const procedure::Step& step) const
{
    QJsonObject answers;
    for (const procedure::Capture& capture : step.captures) {
        if (!capture.choices.isEmpty()) {
            answers.insert(capture.id, capture.choices.first().text);
            continue;
        }
        switch (capture.kind) {
        case procedure::CaptureKind::Counter:
        case procedure::CaptureKind::Number:
        case procedure::CaptureKind::Reading:
            answers.insert(capture.id, u"900"_s);
            break;
        case procedure::CaptureKind::Type:
            answers.insert(capture.id, newType(static_cast<int>(state.swaps.indexOf(swap))).code);
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
    const bool hasSecond = state.people.size() > 1;
    if (by.isEmpty() && step->stop && hasSecond)
        who = ben();
    return tell(who, did);
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
