#include "core/visit/stop_answers.h"

#include "core/label/normalise.h"

#include <QHash>
#include <QRegularExpression>
#include <QSet>

#include <algorithm>
#include <optional>

using namespace Qt::StringLiterals;

namespace coldarc::visit {
namespace {

using machine::Effect;
using machine::Index;

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

/// None of those that hang on the points of this swap. One of which no digits were written down has nothing
/// to compare.
bool isWrongLock(const VisitState& state, const SwapState& swap, const QString& typed)
{
    const auto groupOf = [&](Index lamphouse) { return state.plant.lamphouse[lamphouse].group; };
    bool isKnown = false;
    for (auto hung = state.hungBy.begin(); hung != state.hungBy.end(); ++hung) {
        if (hung->isEmpty() || groupOf(state.acts.value(hung.key()).lamphouse) != groupOf(swap.lamphouse))
            continue;
        isKnown = true;
        if (*hung == typed.trimmed())
            return false;
    }
    return isKnown;
}

bool namesAPoint(const procedure::Capture& capture)
{
    return capture.isTyped() && capture.id == u"point";
}

enum class Named {
    Here,      ///< points of this swap's lamphouse, and no other
    Elsewhere, ///< one of the site that does not feed it
    Nowhere,   ///< something that is none of the site's points
};

/// @param text  names of points, parted by semicolons where there are several.
Named namedPoints(const VisitState& state, const SwapState& swap, const QString& text)
{
    const LamphouseId& lamphouse = state.ground->lamphouses[swap.lamphouse];
    const std::vector<site::IsolationPoint>& points = state.ground->opening.site.points;
    Named named = Named::Here;
    for (const QString& name : text.split(u';')) {
        const auto isNamed = [&](const site::IsolationPoint& point) {
            return point.name.simplified() == name.simplified();
        };
        if (std::ranges::none_of(points, isNamed))
            return Named::Nowhere;
        if (std::ranges::none_of(points, [&](const site::IsolationPoint& point) {
                return isNamed(point) && point.doesFeed(lamphouse);
            }))
            named = Named::Elsewhere;
    }
    return named;
}

/// The numbers in a text, smallest first: which of the two is named first does not matter.
QList<int> numbersIn(const QString& text)
{
    static const QRegularExpression kNumber(u"[0-9]+"_s);
    QList<int> numbers;
    for (const QRegularExpressionMatch& match : kNumber.globalMatch(text))
        numbers.append(match.captured().toInt());
    std::sort(numbers.begin(), numbers.end());
    return numbers;
}

/// Against what was counted first, as long as no difference is answered: then they differ, and that is said.
bool isWrongCount(const VisitState& state, const SwapState& swap, const QString& typed)
{
    if (state.machine.lamphouse[swap.lamphouse].count == machine::Counting::Answered)
        return false;
    for (const procedure::Step& step : swap.steps) {
        if (step.effect != Effect::CountOpening)
            continue;
        const QJsonObject counted = swap.record(step.id).answers;
        const QString opening =
            counted.value(u"tools"_s).toString() + u' ' + counted.value(u"fasteners"_s).toString();
        return !numbersIn(opening).isEmpty() && numbersIn(opening) != numbersIn(typed);
    }
    return false;
}

bool isWrongType(const VisitState& state, const SwapState& swap, const QString& typed)
{
    const std::optional<LampTypeId> agreed = agreementOf(state, swap.newLamp).type;
    const catalogue::LampType* type = agreed ? state.ground->catalogue.lampType(*agreed) : nullptr;
    return type && label::normalise(typed) != label::normalise(type->code);
}

bool isWrong(const VisitState& state, const SwapState& swap, const procedure::Capture& capture,
             const QString& answer)
{
    if (!capture.isTyped()) {
        const auto means = capture.meansOf(answer);
        return means && *means != procedure::Means::Good && *means != procedure::Means::Note;
    }
    if (capture.id == u"lock")
        return isWrongLock(state, swap, answer);
    if (namesAPoint(capture))
        return namedPoints(state, swap, answer) != Named::Here;
    if (capture.id == u"count")
        return isWrongCount(state, swap, answer);
    return capture.id == u"type" && isWrongType(state, swap, answer);
}

std::optional<Incident> toldBy(procedure::Means means)
{
    switch (means) {
    case procedure::Means::Started:
        return Incident::ItStarted;
    case procedure::Means::Voltage:
        return Incident::VoltageFound;
    case procedure::Means::Open:
        return Incident::LeftExposed;
    default:
        return std::nullopt;
    }
}

} // namespace

QStringList wrongAnswers(const VisitState& state, const SwapState& swap, const procedure::Step& stop,
                         const procedure::Answers& answers)
{
    QStringList wrong;
    for (const procedure::Capture& capture : stop.captures) {
        if (answers.contains(capture.id) && isWrong(state, swap, capture, answers.value(capture.id)))
            wrong.append(capture.id);
    }
    return wrong;
}

QStringList reopenedBy(const VisitState& state, const SwapState& swap, const procedure::Step& stop,
                       const procedure::Answers& answers)
{
    QStringList reopened;
    QSet<QString> wrong;
    bool isToSayAgain = false;
    for (const QString& id : wrongAnswers(state, swap, stop, answers)) {
        if (namesAPoint(*stop.capture(id)) && namedPoints(state, swap, answers.value(id)) == Named::Nowhere)
            isToSayAgain = true; // no breaker of this site: it says of none that it is off
        else
            wrong.insert(id);
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
    if (reopened.isEmpty() && (isToSayAgain || !wrong.isEmpty()))
        reopened.append(stop.id.text()); // nothing to do again: the stop itself is answered again
    return reopened;
}

QList<Incident> toldAtStop(const procedure::Step& stop, const procedure::Answers& answers)
{
    QList<Incident> told;
    for (const procedure::Capture& capture : stop.captures) {
        const auto means = stop.stop ? capture.meansOf(answers.value(capture.id)) : std::nullopt;
        const auto incident = means ? toldBy(*means) : std::nullopt;
        if (incident && !told.contains(*incident))
            told.append(*incident);
    }
    return told;
}

} // namespace coldarc::visit
