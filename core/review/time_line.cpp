#include "core/review/time_line.h"

#include "core/machine/reach.h"
#include "core/review/replay.h"
#include "core/visit/evolve.h"

#include <algorithm>
#include <array>
#include <tuple>

namespace coldarc::review {
namespace {

using machine::Index;
using Row = Span::Row;

bool isMatched(const visit::VisitState& state, Index lamphouse)
{
    return std::ranges::any_of(state.swaps, [&](const visit::SwapState& swap) {
        return swap.lamphouse == lamphouse && !swap.followsUp &&
               state.machine.lamp[swap.newLamp].match == machine::Match::Both;
    });
}

bool stands(const visit::VisitState& state, Index lamphouse, Row row)
{
    const machine::LamphouseState& there = state.machine.lamphouse[lamphouse];
    switch (row) {
    case Row::LampLit:
        return there.heat == machine::Heat::Lit;
    case Row::CoolingDown:
        return there.heat == machine::Heat::Cooling;
    case Row::Cold:
        return there.heat == machine::Heat::Cold;
    case Row::LocksOn:
        return state.machine.group[state.plant.lamphouse[lamphouse].group].locks != 0;
    case Row::LettingDown:
        return there.charge == machine::Charge::LettingDown;
    case Row::Dead:
        return there.startTried && there.absent &&
               !state.machine.group[state.plant.lamphouse[lamphouse].group].isHearsay;
    case Row::Geared:
        return machine::isGeared(state.plant, state.machine, lamphouse);
    case Row::HousingOpen:
        return there.housingOpen;
    case Row::GuardOpen:
        return there.guardOpen;
    case Row::Matched:
        return isMatched(state, lamphouse);
    case Row::Settling:
        return there.settle == machine::Waiting::Running;
    case Row::Settled:
        return there.settle == machine::Waiting::Over && there.heat == machine::Heat::Lit;
    }
    Q_UNREACHABLE();
}

/// The spans that run, by lamphouse and row; -1: none does.
using Running = std::array<std::array<qsizetype, kSpanRows>, machine::kMostLamphouses>;

} // namespace

SpanKind kindOf(Span::Row row)
{
    switch (row) {
    case Row::Cold:
    case Row::Dead:
    case Row::Geared:
    case Row::Matched:
    case Row::Settled:
        return SpanKind::Gate;
    case Row::CoolingDown:
    case Row::LettingDown:
    case Row::Settling:
        return SpanKind::Wait;
    case Row::LampLit:
    case Row::LocksOn:
    case Row::HousingOpen:
    case Row::GuardOpen:
        return SpanKind::State;
    }
    Q_UNREACHABLE();
}

QList<Span> timeLineOf(const QList<visit::Entry>& entries)
{
    QList<Span> spans;
    Running running;
    for (auto& rows : running)
        rows.fill(-1);
    visit::VisitState state;
    const qint64 end = entries.isEmpty() ? -1 : endOfWork(entries);
    for (qint64 number = 0; number <= end; ++number) {
        state = visit::evolve(std::move(state), entries[number]);
        const WallTime at = entries[number].at.wall;
        for (Index lamphouse = 0; lamphouse < state.plant.lamphouses; ++lamphouse) {
            for (int index = 0; index < kSpanRows; ++index) {
                const auto row = static_cast<Row>(index);
                qsizetype& open = running[lamphouse][static_cast<std::size_t>(index)];
                if (stands(state, lamphouse, row)) {
                    if (open < 0) {
                        open = spans.size();
                        spans.append({row, state.ground->lamphouses[lamphouse], number, -1, at, at});
                    }
                    spans[open].endedAt = at;
                } else if (open >= 0) {
                    spans[open].until = number;
                    spans[open].endedAt = at;
                    open = -1;
                }
            }
        }
    }
    const auto place = [&](const Span& span) {
        return std::tuple(state.ground->lamphouse(span.lamphouse), span.row, span.from);
    };
    std::ranges::stable_sort(spans, {}, place);
    return spans;
}

} // namespace coldarc::review
