#include "core/procedure/follow_up.h"

#include "core/machine/goal.h"

#include <algorithm>

namespace coldarc::procedure {
namespace {

using machine::Effect;

bool isOfThePeak(Effect effect)
{
    return effect == Effect::Peak || effect == Effect::PeakAgain || effect == Effect::Settle;
}

bool seeksThePeak(const QList<Step>& steps)
{
    return std::ranges::any_of(steps, [](const Step& step) {
        return step.effect == Effect::Peak || step.effect == Effect::PeakAgain;
    });
}

/// What is done on the way, whatever is owed.
bool leadsThere(Effect effect)
{
    switch (effect) {
    case Effect::Find:
    case Effect::Restore:
    case Effect::PowerUp:
    case Effect::KeyController:
    case Effect::TellAgain:
    case Effect::ExtractionOn:
    case Effect::DowserShut:
    case Effect::Strike:
    case Effect::DowserOpen:
    case Effect::Sign:
        return true;
    default:
        return false;
    }
}

/// Before a lamp is lit that was out its counter may have to tell whether it may be.
bool readsCounter(const Step& step)
{
    return step.effect == Effect::Look && std::ranges::any_of(step.captures, [](const Capture& capture) {
               return capture.kind == CaptureKind::Counter;
           });
}

bool lightsTheOther(const Step& step)
{
    return step.otherLamphouse && (step.effect == Effect::KeyController || step.effect == Effect::Strike);
}

/// The other lamp's light out of the way before the first reading of this one's.
void darkenTheOther(QList<Step>& steps)
{
    const auto isOtherShut = [](const Step& step) {
        return step.otherLamphouse && step.effect == Effect::DowserShut;
    };
    if (!seeksThePeak(steps))
        return;
    const auto peak = std::ranges::find_if(steps, [](const Step& step) { return isOfThePeak(step.effect); });
    const auto shut = std::find_if(peak, steps.end(), isOtherShut);
    if (shut != steps.end())
        std::rotate(peak, shut, shut + 1);
}

/// Whatever these steps strike burns: this lamp and, where they strike it, the other one of its projector.
bool nothingIsStruck(const machine::Plant& plant, const machine::State& state, const QList<Step>& steps,
                     const machine::Act& act)
{
    const bool strikesTheOther = std::ranges::any_of(
        steps, [](const Step& step) { return step.otherLamphouse && step.effect == Effect::Strike; });
    const machine::Index projector = plant.lamphouse[act.lamphouse].projector;
    for (machine::Index index = 0; index < plant.lamphouses; ++index) {
        const bool isOther = index != act.lamphouse && plant.lamphouse[index].projector == projector;
        const bool isStruck = index == act.lamphouse || (isOther && strikesTheOther);
        if (isStruck && state.lamphouse[index].heat != machine::Heat::Lit)
            return false;
    }
    return true;
}

} // namespace

QList<Step> followUpSteps(const Procedure& procedure, const LampFacts& lamp, const QList<StepId>& owed)
{
    const QList<Step> whole = stepsFor(procedure, {lamp, lamp});
    const auto isOwed = [&](const Step& step) { return step.mayFollow && owed.contains(step.id); };
    const bool asksForSettled = std::ranges::any_of(whole, [&](const Step& step) {
        return isOwed(step) && (step.effect == Effect::PeakAgain || step.effect == Effect::MeasureScreen);
    });
    const bool isOnlyThePeak = std::ranges::none_of(
        whole, [&](const Step& step) { return isOwed(step) && !isOfThePeak(step.effect); });
    QList<Step> steps;
    for (const Step& step : whole) {
        const bool settles = asksForSettled && step.effect == Effect::Settle;
        const bool isOfTheOthersLight = lightsTheOther(step) || (step.otherLamphouse && readsCounter(step));
        const bool isOnTheWay =
            (leadsThere(step.effect) || readsCounter(step)) && !(isOnlyThePeak && isOfTheOthersLight);
        if (isOwed(step) || settles || isOnTheWay)
            steps.append(step);
    }
    darkenTheOther(steps);
    return steps;
}

bool isNeedless(const machine::Plant& plant, const machine::State& state, const QList<Step>& steps,
                const Step& step, const machine::Act& act)
{
    const bool isLit = state.lamphouse[act.lamphouse].heat == machine::Heat::Lit;
    const auto strikesHere = [&](const Step& other) {
        return other.effect == Effect::Strike && other.otherLamphouse == step.otherLamphouse;
    };
    switch (step.effect) {
    case Effect::TellAgain:
        return nothingIsStruck(plant, state, steps, act) || machine::isSo(plant, state, act);
    case Effect::KeyController:
    case Effect::Strike:
        return isLit || machine::isSo(plant, state, act);
    case Effect::Restore:
    case Effect::PowerUp:
    case Effect::ExtractionOn:
        return machine::isSo(plant, state, act);
    case Effect::DowserShut:
        return (isLit && !(step.otherLamphouse && seeksThePeak(steps))) || machine::isSo(plant, state, act);
    case Effect::DowserOpen:
        return machine::isSo(plant, state, act) || (!isLit && std::ranges::none_of(steps, strikesHere));
    default:
        return false;
    }
}

} // namespace coldarc::procedure
