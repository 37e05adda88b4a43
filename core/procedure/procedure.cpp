#include "core/procedure/procedure.h"

#include "core/procedure/words.h"

#include <algorithm>
#include <iterator>

namespace coldarc::procedure {
namespace {

using catalogue::wordIn;

/// Equal, or not known.
template<class Value>
bool mayBe(const std::optional<Value>& known, const Value& wanted)
{
    return !known || *known == wanted;
}

} // namespace

QString wordOf(Phase phase)
{
    return wordIn(kPhases, phase);
}

QString wordOf(Stop stop)
{
    return wordIn(kStops, stop);
}

QString wordOf(SignalWord word)
{
    return wordIn(kSignalWords, word);
}

QString wordOf(CaptureKind kind)
{
    return wordIn(kCaptureKinds, kind);
}

QString wordOf(Means means)
{
    return wordIn(kMeans, means);
}

std::optional<Means> meansFromWord(const QString& word)
{
    return catalogue::valueIn(kMeans, word);
}

QString wordOf(Lamp lamp)
{
    return wordIn(kLamps, lamp);
}

bool Capture::isTyped() const
{
    switch (kind) {
    case CaptureKind::Choice:
    case CaptureKind::Picture:
        return false;
    case CaptureKind::Reading:
    case CaptureKind::Answer:
        return choices.isEmpty();
    case CaptureKind::Counter:
    case CaptureKind::Text:
    case CaptureKind::Number:
    case CaptureKind::Serial:
    case CaptureKind::Type:
        return true;
    }
    Q_UNREACHABLE();
}

std::optional<Means> Capture::meansOf(const QString& text) const
{
    const auto found = std::ranges::find(choices, text, &Choice::text);
    return found == choices.end() ? std::nullopt : std::optional(found->means);
}

const Capture* Step::capture(const QString& wanted) const
{
    const auto found = std::ranges::find(captures, wanted, &Capture::id);
    return found == captures.end() ? nullptr : &*found;
}

LampFacts factsOf(const catalogue::LampType& type, const catalogue::ProjectorModel& model)
{
    return {type.id, model.needsAdaptor(type.id), type.fill};
}

bool LampCondition::holds(const LampFacts& facts) const
{
    return (!adaptor || mayBe(facts.adaptor, *adaptor)) &&
           (types.isEmpty() || !facts.type || types.contains(*facts.type)) &&
           (!fill || mayBe(facts.fill, *fill));
}

const Step* Procedure::step(const StepId& wanted) const
{
    const auto found = std::ranges::find(steps, wanted, &Step::id);
    return found == steps.end() ? nullptr : &*found;
}

bool applies(const Step& step, const Facts& facts)
{
    if (!step.when.newLamp.holds(facts.newLamp))
        return false;
    if (!facts.oldLamp)
        return step.lamp != Lamp::Old && step.when.oldLamp.isEmpty();
    return step.when.oldLamp.holds(*facts.oldLamp);
}

QList<Step> stepsFor(const Procedure& procedure, const Facts& facts)
{
    QList<Step> steps;
    std::ranges::copy_if(procedure.steps, std::back_inserter(steps),
                         [&](const Step& step) { return applies(step, facts); });
    return steps;
}

} // namespace coldarc::procedure
