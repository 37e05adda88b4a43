#include "ui/visit/bench_moment.h"

#include "core/visit/evolve.h"

#include <algorithm>
#include <array>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::Effect;
using machine::Index;
using machine::kNone;

constexpr std::array<const char16_t*, 4> kSwapKeys{u"F1", u"F2", u"F3", u"F4"};
constexpr std::array<const char16_t*, 4> kActKeys{u"F5", u"F6", u"F7", u"F8"};

QString keyAt(const std::array<const char16_t*, 4>& keys, qsizetype index)
{
    return index < static_cast<qsizetype>(keys.size())
               ? QString::fromUtf16(keys[static_cast<std::size_t>(index)])
               : QString();
}

} // namespace

BenchMoment::BenchMoment(const VisitDesk& from, int swapIndex, bool looksAgain)
    : desk(from)
    , state(from.seen())
    , now(from.clock().now())
    , person(state.person(from.presses()))
    , turn(looksAgain ? lookAgainTurn(state, state.swaps[swapIndex], who())
                      : turnOf(state, state.swaps[swapIndex], who()))
    , index(swapIndex)
{
}

QString BenchMoment::ownKey(const PersonId& own, Effect effect) const
{
    return u"%1/own/%2/%3/%4"_s.arg(swap().id.text(), own.text())
        .arg(static_cast<int>(effect))
        .arg(state.entries);
}

procedure::Phase BenchMoment::phase() const
{
    return turn.next.step ? turn.next.step->phase : procedure::Phase::Close;
}

Index BenchMoment::answersStop() const
{
    const bool isStop = turn.kind == BenchTurn::Kind::Step && turn.next.step->stop;
    if (!isStop || visit::mayAnswer(state, swap(), *turn.next.step, who()))
        return kNone;
    for (Index other = 0; other < state.plant.people; ++other) {
        const bool isAble =
            state.isHere(other) && (state.people[other].mayLead || state.people[other].mayAssist);
        if (isAble && visit::mayAnswer(state, swap(), *turn.next.step, other))
            return other;
    }
    return kNone;
}

int BenchMoment::swapBeforeSigning() const
{
    const auto count = static_cast<int>(state.swaps.size());
    for (int other = (index + 1) % count; other != index && !state.machine.hurt;
         other = (other + 1) % count) {
        const BenchTurn there = turnOf(state, state.swaps[other], who());
        const bool isSigning = there.kind == BenchTurn::Kind::Step && there.next.step->effect == Effect::Sign;
        if (there.kind != BenchTurn::Kind::Nothing && !isSigning)
            return other;
    }
    return -1;
}

void BenchMind::bringUp(const QString& turnKey)
{
    key = turnKey;
    shown = draft();
    written.clear();
    countersigned = {};
    said.clear();
    badAnswers.clear();
}

QString swapKey(qsizetype index)
{
    return keyAt(kSwapKeys, index);
}

QString actKey(qsizetype index)
{
    return keyAt(kActKeys, index);
}

int numberOf(const visit::SwapState& swap, const procedure::Step& step)
{
    const auto found = std::find_if(swap.steps.begin(), swap.steps.end(),
                                    [&](const procedure::Step& one) { return one.id == step.id; });
    return static_cast<int>(found - swap.steps.begin()) + 1;
}

bool hasPage(Effect effect)
{
    return effect == Effect::MatchBox || effect == Effect::BookIn || effect == Effect::Sign;
}

bool isOnSheetPage(Effect effect)
{
    return effect == Effect::MeasureScreen;
}

bool offersSheet(const procedure::Step& step)
{
    return step.effect == Effect::Look &&
           std::any_of(step.captures.begin(), step.captures.end(), [](const procedure::Capture& capture) {
               return capture.kind == procedure::CaptureKind::Reading && capture.choices.isEmpty();
           });
}

bool isOnLightPage(Effect effect)
{
    return effect == Effect::Peak || effect == Effect::PeakAgain;
}

} // namespace coldarc::ui
