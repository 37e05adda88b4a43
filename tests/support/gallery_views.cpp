#include "tests/support/gallery_views.h"

#include <array>

namespace coldarc::test {

using namespace Qt::StringLiterals;
using namespace coldarc::ui;

namespace {

using Stand = StepRow::Stand;
using Gate = GateView::Stand;
using Kind = CaptureView::Kind;

MachineView::Lamphouse hotLamphouse()
{
    MachineView::Lamphouse house;
    house.name = u"Screen 2"_s;
    house.heat = MachineView::Heat::Cooling;
    house.housing = MachineView::Cover::Shut;
    house.seat = MachineView::Seat::Clamped;
    return house;
}

MachineView coolingMachine()
{
    MachineView machine;
    machine.points = {{u"panel B, 14"_s, MachineView::Power::On, 0}};
    machine.projector = MachineView::Projector::On;
    machine.fan = MachineView::Run::Runs;
    machine.extraction = MachineView::Run::Runs;
    machine.lamphouses = {hotLamphouse()};
    return machine;
}

MachineView bareMachine()
{
    MachineView machine = coolingMachine();
    machine.points = {{u"panel B, 14"_s, MachineView::Power::Off, 2}};
    machine.projector = MachineView::Projector::Off;
    machine.fan = MachineView::Run::Stopped;
    MachineView::Lamphouse& house = machine.lamphouses.front();
    house.heat = MachineView::Heat::Cold;
    house.housing = MachineView::Cover::Open;
    house.guard = MachineView::Cover::Open;
    house.charge = MachineView::Charge::Relieved;
    house.people = {u"A. Okoro"_s, u"B. Lind"_s};
    return machine;
}

QList<StepRow> steps(int now, const QString& aside)
{
    struct Row {
        QStringView phase;
        QStringView title;
        QStringView done;
        QStringView waits;
    };
    static constexpr std::array<Row, 22> kRows{{
        {u"Arrive", u"Rules exchanged with the site", u"12:44", u""},
        {u"Arrive", u"Light before, counter, strikes", u"12:51", u""},
        {u"Arrive", u"Box and paper read from the closed box", u"12:56", u""},
        {u"Cold and dead", u"Light out, air on", u"13:02", u""},
        {u"Cold and dead", u"People told", u"13:03", u""},
        {u"Cold and dead", u"Hold for Cold", u"13:14", u""},
        {u"Cold and dead", u"Projector to standby", u"13:15", u"Cold"},
        {u"Cold and dead", u"Isolate panel B, circuit 14", u"13:16", u"Cold"},
        {u"Cold and dead", u"Own lock and tag", u"13:17", u""},
        {u"Cold and dead", u"Let the charge down", u"13:22", u""},
        {u"Cold and dead", u"Try to start it", u"13:23", u""},
        {u"Open", u"Stop: cold and dead", u"13:24", u"start tried"},
        {u"Open", u"Gear on", u"13:26", u""},
        {u"Open", u"Prove the absence of voltage", u"13:28", u""},
        {u"Open", u"Open the guard", u"13:29", u"voltage"},
        {u"Swap", u"Old lamp out, into its box", u"13:33", u""},
        {u"Swap", u"Dust and inspect the reflector", u"13:36", u""},
        {u"Swap", u"New lamp out of its box", u"13:38", u""},
        {u"Swap", u"Into the seat, anode to the front", u"13:40", u""},
        {u"Swap", u"Clamp both ends", u"13:42", u""},
        {u"Restore", u"Guard and housing shut", u"13:44", u""},
        {u"Restore", u"Own lock off", u"13:50", u""},
    }};
    QList<StepRow> rows;
    for (int i = 0; i < static_cast<int>(kRows.size()); ++i) {
        const Row& row = kRows.at(static_cast<size_t>(i));
        StepRow step{row.phase.toString(), row.title.toString(), Stand::Ahead, row.waits.toString()};
        if (i < now) {
            step.stand = Stand::Done;
            step.aside = row.done.toString();
        } else if (i == now) {
            step.stand = Stand::Now;
            step.aside = aside;
        }
        rows.append(step);
    }
    return rows;
}

void setAction(StepCard& card, const QString& text, const QString& waits)
{
    card.action = {card.stepKey, text, waits,
                   waits.isEmpty() ? ActionView::Stand::Ready : ActionView::Stand::Waits};
}

BenchView coolingBench()
{
    BenchView view;
    view.site = u"Pier Street"_s;
    view.subtitle = u"night visit, 2 swaps"_s;
    view.nextShow = u"next show 16:40"_s;
    view.needs = u"2 h 33"_s;
    view.gap = u"gap 3 h 35"_s;
    view.people = {u"A. Okoro"_s, u"with B. Lind, trainee"_s};
    view.swaps = {{u"Screen 2"_s, u"cooling, 6:41"_s, u"F1"_s, 0.443},
                  {u"Screen 4"_s, u"light, last pass at 13:31"_s, u"F2"_s, std::nullopt}};
    view.steps = steps(5, u"6:41"_s);
    view.card.stepKey = u"s2-hold"_s;
    view.card.place = u"Screen 2"_s;
    view.card.counter = u"6 of 34"_s;
    view.card.phase = u"Cold and dead"_s;
    view.card.title = u"Hold for Cold, air running"_s;
    view.card.why =
        u"The arc heated the quartz and its caps far past what a hand or a draught may meet. Moving air is "
        "what cools them evenly."_s;
    view.card.sub =
        u"Started 13:02:19 when the lamp went off. Goes on if this program is closed; after sleep it asks "
        "whether the fan ran on. Starts again if the lamp is lit."_s;
    view.card.wait = WaitView{0.443, u"6:41"_s, u"of 12:00, cold at 13:14"_s};
    view.card.danger =
        SignalView{SignalWord::Warning, u"Do not cut the supply: the fan would stop on a hot lamp. Cold "
                                        "takes away the heat, not the pressure."_s};
    setAction(view.card, u"Done"_s, u"Waits for Cold, 6:41"_s);
    view.gates = {{u"Cold"_s, Gate::Waits, u"waits 6:41"_s},
                  {u"Dead"_s, Gate::Waits, u"0 of 2, waits: start tried"_s},
                  {u"Geared"_s, Gate::Waits, u"nobody in the zone"_s},
                  {u"Matched"_s, Gate::Half, u"1 of 2, box 12:56"_s}};
    view.machine = coolingMachine();
    view.makeSafeEnd = u"leads to: as it was, may be lit again"_s;
    return view;
}

BenchView lampOutBench()
{
    BenchView view = coolingBench();
    view.swaps = {{u"Screen 2"_s, u"bare lamp, step 16"_s, u"F1"_s, std::nullopt},
                  {u"Screen 4"_s, u"light settles, 3:12"_s, u"F2"_s, 0.6}};
    view.steps = steps(15, u""_s);
    StepCard& card = view.card;
    card.stepKey = u"s2-out"_s;
    card.counter = u"16 of 34"_s;
    card.phase = u"Swap"_s;
    card.title = u"Old lamp out, into its box"_s;
    card.why = u"Hold it by the metal caps and let it come free by itself: a twist strains the quartz. It "
               u"goes straight "
               "into the box that the new one came in."_s;
    card.sub = u""_s;
    card.wait.reset();
    card.danger = SignalView{SignalWord::Warning,
                             u"Quartz under pressure, cold or hot. If it bursts it cuts face, neck "
                             "and hands: shield down, nobody else in the zone without gear."_s};
    setAction(card, u"It is in its box"_s, u""_s);
    view.gates = {{u"Cold"_s, Gate::Proved, u"proved 13:14"_s},
                  {u"Dead"_s, Gate::Proved, u"proved 13:28"_s},
                  {u"Geared"_s, Gate::Proved, u"A. Okoro, B. Lind"_s},
                  {u"Matched"_s, Gate::Half, u"1 of 2, box 12:56"_s}};
    view.machine = bareMachine();
    view.makeSafeEnd = u"leads to: out of use, locked and tagged"_s;
    view.strip = {u"Screen 4 has settled."_s, u"Go to Screen 4"_s, u"F2"_s, StripView::Call::Sounds};
    return view;
}

CaptureView choice(const QString& id, const QString& label, const QStringList& texts, const QString& chosen,
                   Reach reach)
{
    CaptureView capture;
    capture.id = id;
    capture.label = label;
    capture.reach = reach;
    for (const QString& text : texts)
        capture.options.append({text, text, QString()});
    if (!chosen.isEmpty())
        capture.value = {chosen};
    return capture;
}

BenchView stopBench()
{
    BenchView view = coolingBench();
    view.swaps.front().state = u"step 12"_s;
    view.swaps.front().wait.reset();
    view.steps = steps(11, u""_s);
    StepCard& card = view.card;
    card.stepKey = u"s2-stop"_s;
    card.counter = u"12 of 34"_s;
    card.phase = u"Open"_s;
    card.title = u"Stop: cold and dead"_s;
    card.why = u"Say what you see, line by line. Look before each answer."_s;
    card.sub = u""_s;
    card.wait.reset();
    card.captures = {
        choice(u"point"_s, u"Which breaker is off?"_s, {u"B 12"_s, u"B 14"_s, u"B 16"_s, u"none of these"_s},
               u"B 14"_s, Reach::Hand),
        choice(u"lock"_s, u"Last two digits on your lock"_s, {u"07"_s, u"41"_s, u"58"_s, u"93"_s}, u"58"_s,
               Reach::Hand),
        choice(u"start"_s, u"The start was tried and"_s,
               {u"nothing moved"_s, u"a fan turned"_s, u"it lit"_s, u"not tried yet"_s}, u""_s, Reach::Hand),
        choice(u"tester"_s, u"Tester on the incoming side"_s,
               {u"no voltage"_s, u"voltage"_s, u"not reached"_s}, u""_s, Reach::Hand),
        choice(u"people"_s, u"Who stands in the zone?"_s, {u"nobody"_s, u"B. Lind"_s, u"somebody else"_s},
               u""_s, Reach::Hand),
    };
    card.danger =
        SignalView{SignalWord::Warning, u"A live lamp circuit can kill. If one line does not agree with what "
                                        "you see, go no further."_s};
    setAction(card, u"All of it seen"_s, u"Waits for 3 answers"_s);
    view.gates = {{u"Cold"_s, Gate::Proved, u"proved 13:14"_s},
                  {u"Dead"_s, Gate::Half, u"1 of 2, waits: voltage"_s},
                  {u"Geared"_s, Gate::Waits, u"nobody in the zone"_s},
                  {u"Matched"_s, Gate::Half, u"1 of 2, box 12:56"_s}};
    view.machine = bareMachine();
    view.machine.lamphouses.front().housing = MachineView::Cover::Shut;
    view.machine.lamphouses.front().guard = MachineView::Cover::Shut;
    view.machine.lamphouses.front().people.clear();
    return view;
}

BenchView gearBench()
{
    BenchView view = stopBench();
    view.steps = steps(12, u""_s);
    StepCard& card = view.card;
    card.stepKey = u"s2-gear"_s;
    card.counter = u"13 of 34"_s;
    card.title = u"Gear on"_s;
    card.why = u"Each item is looked over now: no scratch in the view, no hole, not out of date."_s;
    CaptureView gear;
    gear.id = u"gear"_s;
    gear.kind = Kind::Ticks;
    gear.label = u"A. Okoro wears"_s;
    gear.reach = Reach::Glove;
    gear.options = {{u"shield"_s, u"Face shield, down"_s, u"Z87+, expires 2027-05"_s},
                    {u"glasses"_s, u"Glasses under it"_s, u"Z87+"_s},
                    {u"gloves"_s, u"Gloves, wrists covered"_s, u"EN 388 4X43D"_s},
                    {u"jacket"_s, u"Jacket, collar shut"_s, u""_s}};
    gear.value = {u"shield"_s, u"glasses"_s};
    card.captures = {gear};
    card.acts = {{u"lind-gear"_s, u"B. Lind: same gear, on, undamaged"_s, u"proved by PIN at the next stop"_s,
                  u"F8"_s, PersonAct::Stand::Open}};
    card.danger = SignalView{SignalWord::Notice,
                             u"Fingerprints burn into the quartz: clean gloves over the cut gloves."_s};
    setAction(card, u"Gear is on"_s, u"Waits for 2 items of gear"_s);
    return view;
}

/// Each item by itself, as the procedures ask; one of them is refused.
BenchView wornBench()
{
    BenchView view = gearBench();
    StepCard& card = view.card;
    card.stepKey = u"s2-worn"_s;
    card.title = u"Put on your gear, shield last"_s;
    card.why = u""_s;
    card.sub = u"Answer what is marked first."_s;
    card.acts.clear();
    card.captures.clear();
    for (const QString& item :
         {u"Jacket"_s, u"Throat bib or collar"_s, u"Safety glasses"_s, u"Face shield"_s, u"Gauntlets"_s}) {
        CaptureView one;
        one.id = item;
        one.kind = Kind::Choice;
        one.label = item;
        one.reach = Reach::Glove;
        one.options = {{u"good"_s, u"On and undamaged"_s, {}}, {u"bad"_s, u"Not fit to wear"_s, {}}};
        one.value = {u"good"_s};
        card.captures.append(one);
    }
    card.captures.front().value = {u"bad"_s};
    card.captures.front().error = u"worn like that it does not let anybody in"_s;
    setAction(card, u"Done"_s, {});
    return view;
}

BenchView typedBench()
{
    BenchView view = coolingBench();
    view.steps = steps(1, u""_s);
    StepCard& card = view.card;
    card.stepKey = u"s2-counter"_s;
    card.counter = u"2 of 34"_s;
    card.phase = u"Arrive"_s;
    card.title = u"Light before, counter, strikes"_s;
    card.why = u"What the old lamp gave is what the new one is measured against."_s;
    card.sub = u""_s;
    card.wait.reset();
    CaptureView hours;
    hours.id = u"hours"_s;
    hours.kind = Kind::Number;
    hours.label = u"Lamp hour counter"_s;
    hours.value = {u"12O4"_s};
    hours.unit = u"h"_s;
    hours.error = u"The third sign is the letter O; the counter shows figures only."_s;
    CaptureView luminance = hours;
    luminance.id = u"luminance"_s;
    luminance.label = u"Screen centre, white field"_s;
    luminance.value = {};
    luminance.unit = u"cd/m²"_s;
    luminance.hint = u"48.0"_s;
    luminance.error.clear();
    card.captures = {hours, luminance};
    card.danger.reset();
    setAction(card, u"Done"_s, u""_s);
    return view;
}

BenchView strikeBench()
{
    BenchView view = coolingBench();
    view.subtitle = u"scenario: wrong breaker"_s;
    view.steps = steps(21, u""_s);
    StepCard& card = view.card;
    card.stepKey = u"s2-dowser"_s;
    card.counter = u"27 of 34"_s;
    card.phase = u"Light"_s;
    card.title = u"Open the dowser, look at the light"_s;
    card.why =
        u"A lamp that nobody has seen burn before: stand clear of the lamphouse and look at the screen, never at the arc."_s;
    card.sub = u"Try 1 of 3. After a failed try the lamp counts as hot."_s;
    card.wait.reset();
    card.captures = {choice(u"lit"_s, u"How does it burn?"_s,
                            {u"evenly"_s, u"it flickers"_s, u"it went out"_s, u"a bang"_s}, u"evenly"_s,
                            Reach::Glove)};
    card.danger =
        SignalView{SignalWord::Caution, u"The caps stay hot long after the light is out: they burn skin."_s};
    setAction(card, u"It burns evenly"_s, u""_s);
    view.swaps.front() = {u"Screen 2"_s, u"lit, settles until 14:32"_s, u"F1"_s, 0.1};
    view.gates.front().words = u"waits: lamp lit"_s;
    view.machine.points = {{u"panel B, 14"_s, MachineView::Power::On, 0},
                           {u"rectifier"_s, MachineView::Power::On, 0}};
    MachineView::Lamphouse lit = hotLamphouse();
    lit.name = u"left"_s;
    lit.heat = MachineView::Heat::Lit;
    lit.dowser = MachineView::Cover::Open;
    lit.adaptor = MachineView::Adaptor::OnLamp;
    MachineView::Lamphouse empty = hotLamphouse();
    empty.name = u"right"_s;
    empty.heat = MachineView::Heat::Cold;
    empty.seat = MachineView::Seat::Empty;
    empty.charge = MachineView::Charge::Relieved;
    empty.guard = MachineView::Cover::Open;
    empty.housing.reset();
    view.machine.lamphouses = {lit, empty};
    view.gates.append({u"Settled"_s, Gate::Waits, u"waits 30:00 from the strike"_s});
    return view;
}

BenchView wordyBench()
{
    BenchView view = coolingBench();
    view.site = u"The Old Corn Exchange and Assembly Rooms"_s;
    view.subtitle = u"relief of an absent engineer, 4 swaps, first night of two"_s;
    view.people = {u"Aurelia Okoro-Whitfield"_s, u"with Bartholomew Lindqvist, trainee under supervision"_s};
    view.swaps = {{u"Screen 2, upper lamphouse"_s, u"cooling without fan, 1:06:41"_s, u"F1"_s, 0.2},
                  {u"Screen 2, lower lamphouse"_s, u"waits: the point feeds both"_s, u"F2"_s, std::nullopt},
                  {u"Screen 4"_s, u"light, last pass at 13:31"_s, u"F3"_s, std::nullopt},
                  {u"Assembly Rooms, gallery projector"_s, u"not begun"_s, u"F4"_s, std::nullopt}};
    view.steps = steps(9, u"1:06:41"_s);
    view.steps[9].title = u"Let the charge of both rectifiers down with the housing shut and the covers on"_s;
    StepCard& card = view.card;
    card.stepKey = u"s2-wordy"_s;
    card.title = u"Hold for Cold without the fan, since the supply failed while the lamp was still hot"_s;
    card.wait = WaitView{0.2, u"1:06:41"_s, u"of 1:20:00, cold at 14:20"_s};
    setAction(
        card, u"Done"_s,
        u"Waits for Cold, 1:06:41, for the lock of A. Okoro-Whitfield, and for the count of fasteners"_s);
    view.gates = {{u"Cold"_s, Gate::Waits, u"waits 1:06:41, fan stopped at 13:09"_s},
                  {u"Dead"_s, Gate::Half, u"1 of 2, waits: voltage behind the guard"_s},
                  {u"Geared"_s, Gate::Waits, u"waits: gear of B. Lindqvist"_s},
                  {u"Matched"_s, Gate::Half, u"1 of 2, box and paper 12:56"_s},
                  {u"Settled"_s, Gate::Waits, u"waits: strike"_s}};
    view.machine.points = {{u"distribution panel B, circuit 14"_s, MachineView::Power::Off, 3},
                           {u"rectifier, rear wall"_s, MachineView::Power::Off, 1},
                           {u"uninterruptible supply"_s, MachineView::Power::Unknown, 0}};
    view.machine.projector = MachineView::Projector::Unknown;
    view.machine.fan = MachineView::Run::Stopped;
    view.machine.lamphouses.front().seat = MachineView::Seat::Entered;
    view.machine.lamphouses.front().adaptor = MachineView::Adaptor::Lost;
    view.machine.lamphouses.front().people = {u"A. Okoro-Whitfield"_s, u"B. Lindqvist"_s};
    view.makeSafeEnd = u"leads to: out of use, isolated, own lock and tag left on"_s;
    return view;
}

} // namespace

std::vector<BenchCase> benchCases()
{
    return {{"cooling", coolingBench()}, {"lamp-out", lampOutBench()}, {"stop", stopBench()},
            {"gear", gearBench()},       {"typed", typedBench()},      {"strike", strikeBench()},
            {"wordy", wordyBench()},     {"worn", wornBench()}};
}

} // namespace coldarc::test
