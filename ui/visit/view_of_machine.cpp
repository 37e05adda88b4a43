#include "ui/visit/view_of_machine.h"

#include "core/machine/reach.h"
#include "core/visit/unit.h"
#include "ui/parts/quantities.h"
#include "ui/visit/words_demand.h"
#include "ui/visit/words_effect.h"
#include "ui/visit/words_why.h"

#include <QCoreApplication>

#include <algorithm>
#include <bit>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::Index;
using machine::kNone;
using Stand = GateView::Stand;

QString words(const char* text)
{
    return QCoreApplication::translate("machine", text);
}

const site::Lamphouse* houseOf(const visit::VisitState& state, Index lamphouse)
{
    return state.ground->opening.site.lamphouse(state.ground->lamphouses[lamphouse]);
}

bool isFound(const visit::VisitState& state, Index lamphouse)
{
    return state.machine.lamphouse[lamphouse].heat != machine::Heat::Unknown;
}

MachineView::Heat heatOf(machine::Heat heat)
{
    switch (heat) {
    case machine::Heat::Unknown:
        return MachineView::Heat::Unknown;
    case machine::Heat::Lit:
        return MachineView::Heat::Lit;
    case machine::Heat::Cooling:
        return MachineView::Heat::Cooling;
    case machine::Heat::Cold:
        return MachineView::Heat::Cold;
    }
    Q_UNREACHABLE();
}

MachineView::Seat seatOf(machine::Seat seat)
{
    switch (seat) {
    case machine::Seat::Empty:
        return MachineView::Seat::Empty;
    case machine::Seat::Entered:
        return MachineView::Seat::Entered;
    case machine::Seat::Clamped:
        return MachineView::Seat::Clamped;
    }
    Q_UNREACHABLE();
}

MachineView::Adaptor adaptorOf(const visit::VisitState& state, Index lamphouse)
{
    const machine::LamphouseState& here = state.machine.lamphouse[lamphouse];
    if (!state.plant.lamphouse[lamphouse].hasAdaptor)
        return MachineView::Adaptor::None;
    if (here.adaptorLost)
        return MachineView::Adaptor::Lost;
    if (here.adaptor == kNone)
        return MachineView::Adaptor::LaidBy;
    return here.adaptor == here.lamp ? MachineView::Adaptor::OnLamp : MachineView::Adaptor::None;
}

MachineView::Cover coverOf(bool open)
{
    return open ? MachineView::Cover::Open : MachineView::Cover::Shut;
}

MachineView::Lamphouse lamphouseView(const visit::VisitState& state, Index lamphouse)
{
    const machine::LamphouseState& here = state.machine.lamphouse[lamphouse];
    MachineView::Lamphouse view;
    view.name = placeOf(state, lamphouse);
    view.heat = heatOf(here.heat);
    if (state.plant.lamphouse[lamphouse].hasHousing)
        view.housing = coverOf(here.housingOpen);
    view.guard = coverOf(here.guardOpen);
    view.dowser = coverOf(here.dowserOpen);
    view.seat = isFound(state, lamphouse) ? seatOf(here.seat) : MachineView::Seat::Unknown;
    view.charge = here.charge != machine::Charge::Relieved ? MachineView::Charge::Held
                  : here.absent                            ? MachineView::Charge::Relieved
                                                           : MachineView::Charge::Waited;
    view.adaptor = isFound(state, lamphouse) ? adaptorOf(state, lamphouse) : MachineView::Adaptor::None;
    for (Index person = 0; person < state.plant.people; ++person) {
        if (state.machine.person[person].at == lamphouse)
            view.people.append(state.people[person].name);
    }
    return view;
}

/// Locks that hang on the point itself. With several points the personal ones hang on the lock box.
int locksOn(const visit::VisitState& state, Index point)
{
    const Index group = state.plant.point[point].group;
    if (state.plant.pointsInGroup(group) > 1)
        return state.machine.point[point].jobLock != kNone ? 1 : 0;
    return std::popcount(state.machine.group[group].locks);
}

MachineView::Point pointView(const visit::VisitState& state, Index point, bool isKnown)
{
    // A breaker that is off, yet fed something, is shown as live.
    const bool isOff = state.machine.point[point].power == machine::Power::Off;
    const auto power = isOff ? MachineView::Power::Off : MachineView::Power::On;
    return {pointName(state, point), isKnown ? power : MachineView::Power::Unknown, locksOn(state, point)};
}

MachineView::Projector driveOf(machine::Drive drive)
{
    switch (drive) {
    case machine::Drive::On:
        return MachineView::Projector::On;
    case machine::Drive::Standby:
        return MachineView::Projector::Standby;
    case machine::Drive::Off:
        return MachineView::Projector::Off;
    }
    Q_UNREACHABLE();
}

/// Nothing tells the program that a fan runs; what was seen of it stands in how the lamp's wait is counted.
MachineView::Run fanOf(const visit::VisitState& state, Index lamphouse)
{
    const machine::LamphouseState& here = state.machine.lamphouse[lamphouse];
    const visit::WaitClock& cool = state.waits[lamphouse].cool;
    const bool isMissed = std::ranges::any_of(state.incidents, [](const visit::IncidentState& one) {
        return one.kind == visit::Incident::FanOrPower && !one.isAnswered;
    });
    if (here.heat == machine::Heat::Lit)
        return isMissed ? MachineView::Run::Unknown : MachineView::Run::Runs;
    if (here.heat == machine::Heat::Cooling && cool.wait == machine::Wait::Cool && !cool.asksForFan)
        return MachineView::Run::Runs;
    if (here.heat == machine::Heat::Cooling && isMissed) // it was reported, and the longer wait runs
        return cool.wait == machine::Wait::CoolUnforced ? MachineView::Run::Stopped
                                                        : MachineView::Run::Unknown;
    const bool isCut = machine::isIsolated(state.plant, state.machine, lamphouse);
    return isCut && isFound(state, lamphouse) ? MachineView::Run::Stopped : MachineView::Run::Unknown;
}

bool isHearsay(const visit::VisitState& state, Index lamphouse)
{
    return state.machine.group[state.plant.lamphouse[lamphouse].group].isHearsay;
}

GateView cold(const visit::VisitState& state, Index lamphouse)
{
    const visit::WaitClock& clock = state.waits[lamphouse].cool;
    const QString name = nameOf(machine::Gate::Cold);
    if (isFound(state, lamphouse) && !machine::isLookedAt(state.machine, lamphouse))
        return {name, Stand::Waits, words("waits: another look")};
    if (isHearsay(state, lamphouse) && state.machine.lamphouse[lamphouse].heat == machine::Heat::Cold)
        return {name, Stand::Waits, words("waits: is it as it was left?")};
    switch (state.machine.lamphouse[lamphouse].heat) {
    case machine::Heat::Unknown:
        return {name, Stand::Waits, words("waits: first look")};
    case machine::Heat::Lit:
        return {name, Stand::Waits, words("waits: lamp off")};
    case machine::Heat::Cold:
        return {name, Stand::Proved, words("heat carried off")};
    case machine::Heat::Cooling:
        break;
    }
    if (clock.asksForFan)
        return {name, Stand::Waits, words("waits: did the fan run on?")};
    const QString left = words("waits %1").arg(leftText(clock));
    return {name, Stand::Waits,
            clock.wait == machine::Wait::CoolUnforced ? words("%1, without the fan").arg(left) : left};
}

GateView dead(const visit::VisitState& state, Index lamphouse)
{
    const machine::LamphouseState& here = state.machine.lamphouse[lamphouse];
    const QString name = nameOf(machine::Gate::Dead);
    if (!here.startTried)
        return {name, Stand::Waits, words("0 of 2, waits: start tried")};
    if (isHearsay(state, lamphouse))
        return {name, Stand::Waits, words("waits: a look at the locks")};
    if (!here.absent)
        return {name, Stand::Half, words("1 of 2, waits: voltage")};
    if (here.guardOpen && state.plant.lamphouse[lamphouse].testBehindGuard && !here.absentBehind)
        return {name, Stand::Half, words("waits: voltage behind the guard")};
    return {name, Stand::Proved, words("2 of 2, voltage absent")};
}

GateView geared(const visit::VisitState& state, Index lamphouse)
{
    const QString name = nameOf(machine::Gate::Geared);
    if (machine::isGeared(state.plant, state.machine, lamphouse))
        return {name, Stand::Proved, words("everyone in the zone")};
    const bool isEmpty = machine::isZoneEmpty(state.plant, state.machine, lamphouse);
    const QString missing = missingInZone(state, lamphouse);
    return {name, Stand::Waits, isEmpty ? missing : words("waits: %1").arg(missing)};
}

GateView matched(const visit::VisitState& state, Index lamp)
{
    const QString name = nameOf(machine::Gate::Matched);
    switch (state.machine.lamp[lamp].match) {
    case machine::Match::No:
        return {name, Stand::Waits, words("0 of 2, waits: box, paper")};
    case machine::Match::Box:
        return {name, Stand::Half, words("1 of 2, waits: own marking")};
    case machine::Match::Both:
        return {name, Stand::Proved, words("2 of 2, box and marking")};
    }
    Q_UNREACHABLE();
}

GateView settled(const visit::VisitState& state, const visit::SwapState& swap)
{
    const Index lamphouse = swap.lamphouse;
    const QString name = nameOf(machine::Gate::Settled);
    switch (state.machine.lamphouse[lamphouse].settle) {
    case machine::Waiting::None:
        return {name, Stand::Waits, swap.followsUp ? words("waits: lamp lit") : words("waits: new lamp lit")};
    case machine::Waiting::Running:
        return {name, Stand::Waits, words("waits %1").arg(leftText(state.waits[lamphouse].settle))};
    case machine::Waiting::Over:
        return {name, Stand::Proved, words("light has settled")};
    }
    Q_UNREACHABLE();
}

} // namespace

QString placeOf(const visit::VisitState& state, Index lamphouse)
{
    const site::SiteDocument& site = state.ground->opening.site;
    const site::Lamphouse* house = houseOf(state, lamphouse);
    const site::Projector* projector = house ? site.projector(house->projector) : nullptr;
    const site::Screen* screen = projector ? site.screen(projector->screen) : nullptr;
    const QString place = screen ? screen->name : QString();
    const Index index = state.plant.lamphouse[lamphouse].projector;
    const bool isOneOfSeveral = std::popcount(machine::lamphousesOfProjector(state.plant, index)) > 1;
    return isOneOfSeveral && house ? u"%1, %2"_s.arg(place, house->label) : place;
}

QString pointName(const visit::VisitState& state, Index point)
{
    const site::IsolationPoint* found = state.ground->opening.site.point(state.ground->points[point]);
    return found ? found->name : QString();
}

QString lampName(const visit::VisitState& state, Index lamp)
{
    const visit::LampFacts facts = visit::unitOf(state, lamp);
    const catalogue::LampType* type = facts.type ? state.ground->catalogue.lampType(*facts.type) : nullptr;
    QStringList parts;
    if (type)
        parts.append(type->code);
    if (!facts.serial.isEmpty())
        parts.append(facts.serial);
    if (parts.isEmpty())
        parts.append(words("a lamp that nobody has read"));
    return parts.join(u", "_s);
}

QString leftText(const visit::WaitClock& clock)
{
    return clockText(std::chrono::ceil<std::chrono::seconds>(clock.left()));
}

WaitView waitViewOf(const visit::WaitClock& clock, WallTime now, const QTimeZone& zone)
{
    const auto needed = std::chrono::duration_cast<std::chrono::seconds>(clock.needed);
    WaitView view;
    view.share = clock.needed.count() > 0 ? std::min(1.0, static_cast<double>(clock.credited.count()) /
                                                              static_cast<double>(clock.needed.count()))
                                          : 1.0;
    view.number = leftText(clock);
    view.sub = words("of %1, %2 %3")
                   .arg(clockText(needed), endWordsOf(clock.wait), wallText(now + clock.left(), zone));
    return view;
}

MachineView machineViewOf(const visit::VisitState& state, Index lamphouse)
{
    const Index projector = state.plant.lamphouse[lamphouse].projector;
    const machine::Mask houses = machine::lamphousesOfProjector(state.plant, projector);
    const bool isKnown = isFound(state, lamphouse);
    MachineView view;
    machine::Mask points = 0;
    for (Index house = 0; house < state.plant.lamphouses; ++house) {
        if (!machine::has(houses, house))
            continue;
        points = static_cast<machine::Mask>(points | state.plant.lamphouse[house].points);
        view.lamphouses.append(lamphouseView(state, house));
    }
    for (Index point = 0; point < state.plant.points; ++point) {
        if (machine::has(points, point))
            view.points.append(pointView(state, point, isKnown));
    }
    view.fan = fanOf(state, lamphouse);
    if (!isKnown)
        return view;
    view.projector = driveOf(state.machine.projector[projector].drive);
    view.extraction =
        state.machine.projector[projector].extraction ? MachineView::Run::Runs : MachineView::Run::Stopped;
    return view;
}

QList<GateView> gateViewsOf(const visit::VisitState& state, const visit::SwapState& swap)
{
    QList<GateView> gates{cold(state, swap.lamphouse), dead(state, swap.lamphouse),
                          geared(state, swap.lamphouse)};
    if (!swap.followsUp) // no lamp is fitted
        gates.append(matched(state, swap.newLamp));
    gates.append(settled(state, swap));
    return gates;
}

} // namespace coldarc::ui
