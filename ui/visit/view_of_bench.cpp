#include "ui/visit/view_of_bench.h"

#include "core/machine/goal.h"
#include "ui/parts/quantities.h"
#include "ui/visit/card_of_bench.h"
#include "ui/visit/make_safe_page.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/view_of_steps.h"
#include "ui/visit/words_effect.h"

#include <QCoreApplication>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::Index;

QString words(const char* text)
{
    return QCoreApplication::translate("bench", text);
}

/// While it is made safe the steps ahead are those of the way there.
QList<StepRow> safeRows(const visit::VisitState& state, const visit::SwapState& swap)
{
    QList<StepRow> rows;
    for (const QString& step : makeSafeViewOf(state, swap).steps) {
        const auto stand = rows.isEmpty() ? StepRow::Stand::Now : StepRow::Stand::Ahead;
        rows.append({words("Making safe"), step, stand, QString()});
    }
    return rows;
}

SwapRow rowOf(const visit::VisitState& state, int index, const QTimeZone& zone)
{
    const visit::SwapState& swap = state.swaps[index];
    const BenchTurn turn = turnOf(state, swap, state.lead);
    SwapRow row;
    row.title = placeOf(state, swap.lamphouse);
    row.key = swapKey(index);
    switch (turn.kind) {
    case BenchTurn::Kind::Hold:
        row.state = u"%1, %2"_s.arg(shortHoldWordsOf(turn.clock->wait), leftText(*turn.clock));
        row.wait = waitViewOf(*turn.clock, state.last.wall, zone).share;
        break;
    case BenchTurn::Kind::FanQuestion:
        row.state = words("waits: did the fan run on?");
        break;
    case BenchTurn::Kind::LocksQuestion:
        row.state = words("waits: is it as it was left?");
        break;
    case BenchTurn::Kind::Look:
        row.state = words("waits: first look");
        break;
    case BenchTurn::Kind::SafeStep:
        row.state = turn.isMakingSafe ? words("being made safe") : words("a breaker is put right");
        break;
    case BenchTurn::Kind::Step:
        row.state = words("step %1 of %2").arg(numberOf(swap, *turn.next.step)).arg(swap.steps.size());
        break;
    case BenchTurn::Kind::EndsHere:
        row.state = words("waits: make safe");
        break;
    case BenchTurn::Kind::Nothing:
        row.state = turn.isMakingSafe ? words("made safe") : words("done");
        break;
    case BenchTurn::Kind::Over:
        row.state = words("closed");
        break;
    }
    return row;
}

/// "one swap", "2 swaps", "what is owed", "one swap, and what is owed".
QString countWords(const visit::VisitState& state)
{
    const auto swaps = std::ranges::count_if(state.swaps, std::not_fn(&visit::SwapState::followsUp));
    if (swaps == 0)
        return words("what is owed");
    const QString count = swaps == 1 ? words("one swap") : words("%1 swaps").arg(swaps);
    return swaps == state.swaps.size() ? count : words("%1, and what is owed").arg(count);
}

} // namespace

BenchView viewOf(const BenchMoment& moment, const BenchMind& mind)
{
    const visit::VisitState& state = moment.state;
    BenchView view;
    view.site = state.ground->opening.site.site.name;
    view.subtitle = countWords(state);
    if (const auto show = site::nextShow(state.ground->opening.site, moment.now.wall)) {
        view.nextShow = words("next show %1").arg(wallText(show->start, moment.desk.zone()));
        view.gap = words("gap %1").arg(
            spanText(std::chrono::duration_cast<std::chrono::minutes>(show->start - moment.now.wall)));
    }
    for (Index person = 0; person < state.plant.people; ++person) {
        const QString name = state.people[person].name;
        const bool isTrainee = state.people[person].role == people::Role::Trainee;
        const bool isElectrician = state.people[person].role == people::Role::Electrician;
        if (person == state.lead)
            view.people.prepend(name);
        else if (state.isHere(person))
            view.people.append((isTrainee       ? words("with %1, trainee")
                                : isElectrician ? words("with %1, electrician")
                                                : words("with %1"))
                                   .arg(name));
    }
    for (int index = 0; index < state.swaps.size(); ++index)
        view.swaps.append(rowOf(state, index, moment.desk.zone()));
    view.swapInHand = moment.index;
    view.steps = state.isMakingSafe && state.isOpen()
                     ? safeRows(state, moment.swap())
                     : stepRowsOf(state, moment.swap(), moment.turn.next, moment.who(), moment.desk.zone());
    view.card = cardOf(moment, mind);
    view.gates = gateViewsOf(state, moment.swap());
    view.machine = machineViewOf(state, moment.swap().lamphouse);
    view.makeSafeEnd = safeEndWordsOf(state, moment.swap());
    return view;
}

} // namespace coldarc::ui
