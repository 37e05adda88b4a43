#include "ui/visit/incident_presenter.h"

#include "core/visit/burst.h"
#include "ui/parts/quantities.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/view_of_steps.h"
#include "ui/visit/words_entry.h"
#include "ui/visit/words_incident.h"

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::Index;
using visit::Incident;

const QString kLit = u"lit-"_s;

CaptureView choiceOf(const QString& id, const QString& label)
{
    CaptureView view;
    view.id = id;
    view.label = label;
    view.reach = Reach::Glove;
    return view;
}

} // namespace

IncidentPresenter::IncidentPresenter(VisitDesk& desk, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
{
}

void IncidentPresenter::open(int swap)
{
    m_swap = swap;
    leave();
}

void IncidentPresenter::leave()
{
    m_chosen = -1;
    m_answering = -1;
    m_said.clear();
    refresh();
}

void IncidentPresenter::choose(int kind)
{
    if (kind < 0 || kind >= visit::kIncidents)
        return;
    m_chosen = kind;
    m_said.clear();
    refresh();
}

void IncidentPresenter::chooseOpen(qint64 entry)
{
    for (const visit::IncidentState& incident : m_desk.logbook().state().incidents) {
        if (incident.entry != entry || incident.isAnswered)
            continue;
        m_answering = entry;
        m_chosen = static_cast<int>(incident.kind);
    }
    m_said.clear();
    refresh();
}

QList<CaptureView> IncidentPresenter::asksFor(const visit::VisitState& state) const
{
    CaptureView text;
    text.id = u"text"_s;
    text.kind = CaptureView::Kind::Text;
    text.label = m_answering >= 0 ? tr("What was done about it") : tr("In a few words");
    text.hint = m_answering >= 0 ? QString() : tr("may stay empty");
    if (m_answering >= 0)
        return {text};

    const IncidentAsks asks = asksOf(static_cast<Incident>(m_chosen));
    const machine::Mask points = state.plant.lamphouse[state.swaps[m_swap].lamphouse].points;
    const QString place = placeOf(state, state.swaps[m_swap].lamphouse);
    QList<CaptureView> all;
    if (asks.lamp || asks.lampOrAdaptor) {
        CaptureView lamp = choiceOf(u"lamp"_s, tr("Which lamp"));
        const visit::SwapState& swap = state.swaps[m_swap];
        const QString old = swap.followsUp ? tr("The one in it: %1") : tr("The old one: %1");
        lamp.options = {
            {state.ground->lamps[swap.oldLamp].id.text(), old.arg(lampName(state, swap.oldLamp)), {}}};
        if (!swap.followsUp)
            lamp.options.append({state.ground->lamps[swap.newLamp].id.text(),
                                 tr("The new one: %1").arg(lampName(state, swap.newLamp)),
                                 {}});
        if (asks.lampOrAdaptor)
            lamp.options.append({u"adaptor:"_s, tr("No lamp: the adaptor is missing"), {}});
        all.append(lamp);
    }
    if (asks.lamphouse) {
        CaptureView where = choiceOf(u"lamphouse"_s, tr("Where"));
        for (Index index = 0; index < state.plant.lamphouses; ++index)
            where.options.append({state.ground->lamphouses[index].text(), placeOf(state, index), {}});
        all.append(where);
    }
    if (asks.place || asks.point) {
        CaptureView point = choiceOf(u"place"_s, asks.place ? tr("What stopped") : tr("Which breaker"));
        if (asks.place)
            point.options.append({u"fan:"_s, tr("The fan at %1").arg(place), {}});
        for (Index index = 0; index < state.plant.points; ++index) {
            if (machine::has(points, index))
                point.options.append(
                    {state.ground->points[index].text(),
                     asks.place ? tr("Power at %1").arg(pointName(state, index)) : pointName(state, index),
                     {}});
        }
        all.append(point);
    }
    for (Index index = 0; asks.place && index < state.plant.lamphouses; ++index) {
        if (!isAskedForLight(state, index))
            continue;
        CaptureView lamp = choiceOf(kLit + state.ground->lamphouses[index].text(),
                                    tr("The lamp at %1").arg(placeOf(state, index)));
        lamp.options = {{u"burns:"_s, tr("Still burns"), {}}, {u"out:"_s, tr("Is out"), {}}};
        all.append(lamp);
    }
    if (asks.person) {
        CaptureView person = choiceOf(u"person"_s, tr("Who"));
        for (const visit::PersonFacts& one : state.people)
            person.options.append({one.id.text(), one.name, {}});
        if (static_cast<Incident>(m_chosen) == Incident::SomeoneHurt)
            person.options.append({u"other:"_s, tr("Somebody else"), {}});
        all.append(person);
    }
    all.append(text);
    return all;
}

/// Whether a lamp is out is asked of whoever may say so, where one burnt last.
bool IncidentPresenter::isAskedForLight(const visit::VisitState& state, Index lamphouse) const
{
    const Index person = state.person(m_desk.presses());
    return person != machine::kNone && state.isHere(person) && state.people[person].worksOnLamps() &&
           state.machine.lamphouse[lamphouse].heat == machine::Heat::Lit &&
           state.plant.lamphouse[lamphouse].group ==
               state.plant.lamphouse[state.swaps[m_swap].lamphouse].group;
}

/// Whoever presses too, where a trainee answers a count that differs: the last lock comes off upon it.
PersonId IncidentPresenter::agrees(const visit::VisitState& state) const
{
    const machine::Index second = visit::mayCountersign(state, m_desk.presses());
    const bool isAsked = m_answering >= 0 && static_cast<Incident>(m_chosen) == Incident::CountDiffers;
    return isAsked && second != machine::kNone ? state.people[second].id : PersonId();
}

void IncidentPresenter::refresh()
{
    const visit::VisitState state = m_desk.seen();
    IncidentView view;
    view.place = placeOf(state, state.swaps[m_swap].lamphouse);
    // People first, then what is live, hot and broken, then the rest.
    constexpr std::array kOrder{Incident::SomeoneHurt,      Incident::Burst,        Incident::ItStarted,
                                Incident::VoltageFound,     Incident::FanOrPower,   Incident::LeftExposed,
                                Incident::LampUnfit,        Incident::GearDamaged,  Incident::FastenerSeized,
                                Incident::WrongLamp,        Incident::WillNotLight, Incident::CountDiffers,
                                Incident::PointWillNotLock, Incident::NoTimeLeft};
    static_assert(kOrder.size() == visit::kIncidents);
    for (const Incident kind : kOrder)
        view.kinds.append({static_cast<int>(kind), nameOf(kind), kind == Incident::SomeoneHurt});
    for (const visit::IncidentState& incident : state.incidents) {
        if (!incident.isAnswered)
            view.open.append(
                {incident.entry, nameOf(incident.kind), wallText(incident.at.wall, m_desk.zone())});
    }
    view.chosen = m_chosen;
    view.said = m_said;
    view.action = {u"incident/%1/%2"_s.arg(m_chosen).arg(m_answering), tr("Write it down"), QString(),
                   ActionView::Stand::Ready};
    if (m_chosen >= 0) {
        view.title = nameOf(static_cast<Incident>(m_chosen));
        view.nowDo =
            nowDo(static_cast<Incident>(m_chosen), visit::mayHoldMercury(state, state.swaps[m_swap]));
        view.asks = asksFor(state);
        if (m_answering >= 0)
            view.action.text =
                agrees(state).isEmpty()
                    ? tr("Answered")
                    : tr("%1: seen and agreed, answered").arg(nameOfPerson(state, agrees(state)));
    }
    if (view == m_view)
        return;
    m_view = view;
    Q_EMIT viewChanged(m_view);
}

visit::Happened IncidentPresenter::happened(const visit::VisitState& state, const QJsonObject& said) const
{
    const visit::SwapState& swap = state.swaps[m_swap];
    visit::Happened happened;
    happened.incident = static_cast<Incident>(m_chosen);
    happened.swap = swap.id;
    happened.text = said.value(u"text"_s).toString();
    const auto named = [&](const char16_t* id) {
        const QString value = said.value(QString::fromUtf16(id)).toString();
        return value.endsWith(u':') ? QString() : value; // the choices that name nothing
    };
    happened.lamp = LampId(named(u"lamp"));
    happened.lamphouse = LamphouseId(named(u"lamphouse"));
    happened.point = PointId(named(u"place"));
    happened.person = PersonId(named(u"person"));
    const bool isHere =
        said.value(u"place"_s).toString() == u"fan:" || said.value(u"lamp"_s).toString() == u"adaptor:";
    if (isHere)
        happened.lamphouse = state.ground->lamphouses[swap.lamphouse];
    for (const LamphouseId& lamphouse : state.ground->lamphouses) {
        if (said.value(kLit + lamphouse.text()).toString() == u"out:")
            happened.wentOut.append(lamphouse);
    }
    return happened;
}

void IncidentPresenter::done(const QList<CaptureAnswer>& answers)
{
    if (m_chosen < 0)
        return;
    const QJsonObject said = answersOf(answers);
    const visit::VisitState state = m_desk.seen();
    const bool isSilentOnALamp = std::ranges::any_of(m_view.asks, [&](const CaptureView& ask) {
        return ask.id.startsWith(kLit) && said.value(ask.id).toString().isEmpty();
    });
    if (isSilentOnALamp) {
        m_said = {tr("Say of each lamp that burned whether it still burns."),
                  tr("Nothing was written down yet.")};
        return refresh();
    }
    const VisitDesk::Told told =
        m_answering >= 0 ? m_desk.tell(visit::IncidentAnswered{m_answering, said.value(u"text"_s).toString(),
                                                               agrees(state)})
                         : m_desk.tell(happened(state, said));
    m_said = told.no;
    if (!told.isKept())
        return refresh();
    leave();
    Q_EMIT finished();
}

} // namespace coldarc::ui
