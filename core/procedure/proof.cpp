#include "core/procedure/proof.h"

#include "core/procedure/plant.h"
#include "core/procedure/proof_walk.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::procedure {
namespace {

using machine::Effect;

/// Place of the first step of this effect, or -1.
int placeOf(const QList<Step>& steps, Effect effect)
{
    const auto found = std::ranges::find(steps, effect, &Step::effect);
    return found == steps.end() ? -1 : static_cast<int>(found - steps.begin());
}

int placeOf(const QList<Step>& steps, Stop stop)
{
    const auto found = std::ranges::find(steps, std::optional(stop), &Step::stop);
    return found == steps.end() ? -1 : static_cast<int>(found - steps.begin());
}

std::optional<ProofFailure> failureAt(const QList<Step>& steps, int place, Flaw flaw)
{
    ProofFailure failure;
    failure.flaw = flaw;
    failure.step = steps[place].id;
    return failure;
}

/// Every test point that the model lists is proved before the guard is opened, those behind it again before a
/// lamp moves.
std::optional<ProofFailure> untested(const QList<Step>& steps, const catalogue::ProjectorModel& model)
{
    const int guard = placeOf(steps, Effect::ExposeLamp);
    const auto moves = [](const Step& step) {
        return step.effect == Effect::LampOut || step.effect == Effect::Unbox;
    };
    const auto firstMove = std::ranges::find_if(steps, moves);
    const int move = firstMove == steps.end() ? -1 : static_cast<int>(firstMove - steps.begin());
    for (const catalogue::TestPoint& point : model.testPoints) {
        const bool behind = point.cover == catalogue::Cover::Guard;
        const int from = behind ? guard : 0;
        const int to = behind ? move : guard;
        if (to < 0)
            continue; // nothing is bared
        const auto proves = [&](const Step& step) { return step.testPoint == point.id; };
        if (from < 0 || std::none_of(steps.begin() + from, steps.begin() + std::max(from, to), proves)) {
            auto failure = failureAt(steps, to, Flaw::TestPointMissing);
            failure->gate = machine::Gate::Dead;
            failure->detail = point.id.text();
            return failure;
        }
    }
    return std::nullopt;
}

/// Counted before anything is opened, if it is counted back.
std::optional<ProofFailure> uncounted(const QList<Step>& steps)
{
    const int back = placeOf(steps, Effect::Count);
    const int opening = placeOf(steps, Effect::CountOpening);
    if (back < 0)
        return std::nullopt;
    for (const Effect effect : {Effect::OpenHousing, Effect::ExposeLamp, Effect::Count}) {
        const int place = placeOf(steps, effect);
        if (place >= 0 && (opening < 0 || opening > place))
            return failureAt(steps, place, Flaw::CountMissing);
    }
    return std::nullopt;
}

/// Cold and dead before gear goes on, ready to open at the guard, ready to strike before the last lock is
/// off.
std::optional<ProofFailure> misplacedStop(const QList<Step>& steps)
{
    struct Rule {
        Stop stop;
        Effect after;
        Effect before;
    };
    for (const Rule& rule : {Rule{Stop::ColdAndDead, Effect::TryStart, Effect::GearOn},
                             Rule{Stop::ReadyToOpen, Effect::EnterZone, Effect::ExposeLamp},
                             Rule{Stop::ReadyToStrike, Effect::ShutGuard, Effect::LockOff}}) {
        const int stop = placeOf(steps, rule.stop);
        const int after = placeOf(steps, rule.after);
        const int before = placeOf(steps, rule.before);
        if (stop < 0 || before < 0)
            continue;
        if (stop > before || stop < after)
            return failureAt(steps, stop, Flaw::StopMisplaced);
    }
    return std::nullopt;
}

std::optional<ProofFailure> outOfPlace(const QList<Step>& steps, const catalogue::ProjectorModel& model)
{
    if (steps.isEmpty() || steps.last().effect != Effect::Sign) {
        ProofFailure failure;
        failure.flaw = Flaw::NotSigned;
        failure.step = steps.isEmpty() ? StepId() : steps.last().id;
        return failure;
    }
    if (auto failure = untested(steps, model))
        return failure;
    if (auto failure = uncounted(steps))
        return failure;
    return misplacedStop(steps);
}

QString describe(const Facts& facts)
{
    const QString old = !facts.oldLamp        ? u"empty seat"_s
                        : facts.oldLamp->type ? facts.oldLamp->type->text()
                                              : u"unknown lamp"_s;
    return u"%1 to %2"_s.arg(old, facts.newLamp.type ? facts.newLamp.type->text() : u"unknown lamp"_s);
}

QString describe(const PathPart& part)
{
    if (part.happening)
        return u"%1 (happening %2)"_s.arg(part.step.text()).arg(static_cast<int>(*part.happening));
    if (part.outcome == machine::Outcome::Plain)
        return part.step.text();
    return u"%1 (outcome %2)"_s.arg(part.step.text()).arg(static_cast<int>(part.outcome));
}

Proof proofOf(const std::vector<ProofCase>& cases, const catalogue::ProjectorModel& model,
              const ProofScope& scope)
{
    Proof proof;
    if (cases.empty()) {
        proof.failure = ProofFailure();
        proof.failure->flaw = Flaw::Plant;
        return proof;
    }
    for (const ProofCase& walked : cases) {
        const Walked found = walk(walked, scope);
        ++proof.pairings;
        proof.nodes += found.nodes;
        proof.failure = found.failure;
        if (!proof.failure)
            proof.failure = bypass(walked, scope);
        if (!proof.failure) {
            proof.failure = outOfPlace(walked.steps, model);
            if (proof.failure)
                proof.failure->facts = walked.facts;
        }
        if (proof.failure)
            return proof;
    }
    return proof;
}

} // namespace

QString wordOf(Flaw flaw)
{
    switch (flaw) {
    case Flaw::Plant:
        return u"model does not fit a visit"_s;
    case Flaw::Order:
        return u"impossible order"_s;
    case Flaw::Exposed:
        return u"exposed without its gate"_s;
    case Flaw::Unsafe:
        return u"unsafe state"_s;
    case Flaw::StruckUnbooked:
        return u"struck before book-in"_s;
    case Flaw::GateBypassed:
        return u"gate bypassed"_s;
    case Flaw::NoWayToSafety:
        return u"no way to safety"_s;
    case Flaw::LockLeft:
        return u"lock left on"_s;
    case Flaw::LampLeft:
        return u"lamp left"_s;
    case Flaw::AdaptorLeft:
        return u"adaptor left on the old lamp"_s;
    case Flaw::PowerLeft:
        return u"point left off"_s;
    case Flaw::CountLeft:
        return u"count left open"_s;
    case Flaw::CountMissing:
        return u"no count at opening"_s;
    case Flaw::TestPointMissing:
        return u"test point not proved"_s;
    case Flaw::StopMisplaced:
        return u"stop misplaced"_s;
    case Flaw::NotSigned:
        return u"not signed at the end"_s;
    }
    Q_UNREACHABLE();
}

QString describe(const ProofFailure& failure)
{
    QString line = u"%1 at %2"_s.arg(wordOf(failure.flaw), failure.step.text());
    if (failure.demand)
        line += u", demand %1"_s.arg(static_cast<int>(*failure.demand));
    if (!failure.detail.isEmpty())
        line += u", %1"_s.arg(failure.detail);
    if (failure.path.isEmpty())
        return line;
    QStringList path;
    for (const PathPart& part : failure.path)
        path.append(describe(part));
    return u"%1; %2: %3"_s.arg(line, describe(failure.facts), path.join(u" > "_s));
}

Proof prove(const Procedure& procedure, const catalogue::ProjectorModel& model,
            const catalogue::Catalogue& catalogue, const ProofScope& scope)
{
    return proofOf(proofCases(procedure, model, catalogue), model, scope);
}

Proof proveFollowUp(const Procedure& procedure, const catalogue::ProjectorModel& model,
                    const catalogue::Catalogue& catalogue, const QList<StepId>& owed, const ProofScope& scope)
{
    return proofOf(followUpCases(procedure, model, catalogue, owed), model, scope);
}

} // namespace coldarc::procedure
