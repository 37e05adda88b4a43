#include "core/visit/stop_answers.h"

#include <QHash>
#include <QSet>

#include <algorithm>
#include <optional>

using namespace Qt::StringLiterals;

namespace coldarc::visit {
namespace {

using machine::Effect;

/// Which effect's steps an answer belongs to, by the capture's id; nothing: the stop itself.
std::optional<Effect> effectBehind(const QString& capture)
{
    static const QHash<QString, Effect> kEffects{
        {u"point"_s, Effect::Isolate},      {u"points"_s, Effect::Isolate},
        {u"lock"_s, Effect::LockOn},        {u"start"_s, Effect::TryStart},
        {u"charge"_s, Effect::Relieve},     {u"tester"_s, Effect::ProveAbsence},
        {u"gear"_s, Effect::GearOn},        {u"people"_s, Effect::GearOn},
        {u"polarity"_s, Effect::ClampLamp}, {u"seating"_s, Effect::ClampLamp},
        {u"adaptor"_s, Effect::ClampLamp},  {u"count"_s, Effect::Count},
        {u"old-lamp"_s, Effect::Count},
    };
    const auto found = kEffects.constFind(capture);
    return found == kEffects.constEnd() ? std::nullopt : std::optional(*found);
}

bool isWrongLock(const VisitState& state, const QString& typed)
{
    bool isKnown = false;
    for (const SwapState& swap : state.swaps) {
        for (const procedure::Step& step : swap.steps) {
            const QString hung = swap.record(step.id).answers.value(u"lock"_s).toString();
            if (step.effect != Effect::LockOn || step.point || hung.isEmpty())
                continue;
            isKnown = true;
            if (hung.trimmed() == typed.trimmed())
                return false;
        }
    }
    return isKnown;
}

bool isWrong(const VisitState& state, const procedure::Capture& capture, const QString& answer)
{
    if (capture.isTyped())
        return capture.id == u"lock"_s && isWrongLock(state, answer);
    const auto means = capture.meansOf(answer);
    return means && *means == procedure::Means::Bad;
}

} // namespace

QStringList reopenedBy(const VisitState& state, const SwapState& swap, const procedure::Step& stop,
                       const procedure::Answers& answers)
{
    QStringList reopened;
    QSet<QString> wrong;
    for (const procedure::Capture& capture : stop.captures) {
        if (!answers.contains(capture.id) || !isWrong(state, capture, answers.value(capture.id)))
            continue;
        wrong.insert(capture.id);
    }
    for (const procedure::Step& step : swap.steps) {
        const bool isDone = swap.record(step.id).status == StepRecord::Status::Done;
        const bool isBehind = std::any_of(wrong.begin(), wrong.end(), [&](const QString& capture) {
            return effectBehind(capture) == step.effect;
        });
        const bool isJobLock = step.effect == Effect::LockOn && step.point; // the stop asks for one's own
        if (isDone && isBehind && !isJobLock)
            reopened.append(step.id.text());
    }
    if (reopened.isEmpty() && !wrong.isEmpty())
        reopened.append(stop.id.text()); // nothing to do again: the stop itself is answered again
    return reopened;
}

} // namespace coldarc::visit
