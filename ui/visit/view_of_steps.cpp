#include "ui/visit/view_of_steps.h"

#include "core/machine/reach.h"
#include "ui/parts/quantities.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/words_demand.h"
#include "ui/visit/words_why.h"

#include <QCoreApplication>

#include <algorithm>
#include <array>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::Effect;
using procedure::CaptureKind;
using Status = visit::StepRecord::Status;

QString words(const char* text)
{
    return QCoreApplication::translate("steps", text);
}

CaptureView::Kind kindOf(const procedure::Capture& capture)
{
    if (!capture.choices.isEmpty())
        return CaptureView::Kind::Choice;
    switch (capture.kind) {
    case CaptureKind::Counter:
    case CaptureKind::Number:
    case CaptureKind::Reading:
        return CaptureView::Kind::Number;
    default:
        return CaptureView::Kind::Text;
    }
}

QString unitOf(const procedure::Capture& capture)
{
    return capture.unit.isEmpty() && capture.kind == CaptureKind::Counter && capture.id == u"hours"
               ? u"h"_s
               : capture.unit;
}

/// Effects that one answer alone must not set off.
bool needsItsOwnPress(Effect effect)
{
    switch (effect) {
    case Effect::Look:
    case Effect::Find:
    case Effect::Count:
    case Effect::ExtractionOn:
    case Effect::GearOff:
    case Effect::DowserShut:
    case Effect::TellBefore:
    case Effect::TellAgain:
    case Effect::LampOff:
    case Effect::LockOn:
    case Effect::Relieve:
    case Effect::WorkInside:
    case Effect::LampIn:
    case Effect::ClampLamp:
    case Effect::BoxLamp:
    case Effect::ShutGuard:
    case Effect::LeaveZone:
    case Effect::ShutHousing:
        return false;
    default:
        return true;
    }
}

/// Effects that are never set off by the last of several answers either: what they begin is not taken back.
bool alwaysNeedsItsOwnPress(Effect effect)
{
    return effect == Effect::ExposeLamp || effect == Effect::OpenHousing || effect == Effect::Strike ||
           effect == Effect::Restore || effect == Effect::PowerUp;
}

bool isAsItShouldBe(procedure::Means means)
{
    using M = procedure::Means;
    static constexpr std::array kNotSo{
        M::Bad,        M::Entered,   M::Empty,       M::OutOfUse,      M::ForeignLock, M::OtherPoint,
        M::NoneOfOurs, M::StillLive, M::GivesWay,    M::Started,       M::NotAtOff,    M::NotProved,
        M::Voltage,    M::Unsteady,  M::TypeDiffers, M::SerialDiffers, M::Unreadable,  M::Differs,
        M::Marked,     M::Wrong,     M::NoLight,     M::Burst,         M::Still,       M::Open};
    return std::find(kNotSo.begin(), kNotSo.end(), means) == kNotSo.end();
}

/// What nobody has looked at yet is not so, whatever is believed of it.
bool isSoAlready(const visit::VisitState& state, const visit::SwapState& swap, const procedure::Step& step,
                 machine::Index person)
{
    return machine::isLookedAt(state.machine, swap.lamphouse) &&
           visit::isPassedOver(state, swap, step, person);
}

QString asideOf(const visit::VisitState& state, const visit::SwapState& swap, const procedure::Step& step,
                machine::Index person, const QTimeZone& zone)
{
    const visit::StepRecord record = swap.record(step.id);
    if (record.status == Status::Done)
        return wallText(record.at.wall, zone);
    if (record.status == Status::Owed)
        return words("owed");
    const machine::Act act = visit::hopefulAct(state, swap, step, person);
    if (isSoAlready(state, swap, step, person))
        return visit::isLeftDark(state, step, act) ? words("left out") : words("is so");
    const QList<machine::Demand> waits = inOrder(machine::unmet(state.plant, state.machine, act));
    if (waits.isEmpty())
        return {};
    const bool isGate = machine::gateOf(waits.first()) != machine::Gate::None;
    return isGate ? words("waits: %1").arg(shortWordsOf(waits.first())) : QString();
}

} // namespace

QString nameOf(procedure::Phase phase)
{
    static constexpr std::array<const char*, 10> kNames{"Arrive", "Cold and dead", "Open",
                                                        "Swap",   "Close",         "Book in",
                                                        "Light",  "Prove",         "Account for the old lamp",
                                                        "Sign"};
    return words(kNames[static_cast<std::size_t>(phase)]);
}

QList<StepRow> stepRowsOf(const visit::VisitState& state, const visit::SwapState& swap,
                          const visit::NextStep& next, machine::Index person, const QTimeZone& zone)
{
    QList<StepRow> rows;
    for (const procedure::Step& step : swap.steps) {
        StepRow row;
        row.phase = nameOf(step.phase);
        row.title = step.title;
        const bool isNow = next.step && next.step->id == step.id;
        const bool isDone = swap.record(step.id).status != Status::Waiting;
        if (isNow)
            row.stand = StepRow::Stand::Now;
        else if (isDone || isSoAlready(state, swap, step, person))
            row.stand = StepRow::Stand::Done;
        if (!isNow) {
            row.aside = asideOf(state, swap, step, person, zone);
        } else if (const visit::WaitClock* clock = visit::waitBehind(state, next.act, next.unmet)) {
            row.aside = leftText(*clock);
        } else if (next.isAgain) {
            row.aside = words("again");
        }
        rows.append(row);
    }
    return rows;
}

QList<CaptureView> captureViewsOf(const procedure::Step& step)
{
    QList<CaptureView> views;
    for (const procedure::Capture& capture : step.captures) {
        if (capture.kind == CaptureKind::Picture)
            continue;
        CaptureView view;
        view.id = capture.id;
        view.kind = kindOf(capture);
        view.label = capture.label;
        for (const procedure::Choice& choice : capture.choices)
            view.options.append({choice.text, choice.text, {}});
        view.unit = unitOf(capture);
        view.isOptional = capture.optional;
        if (capture.optional)
            view.hint = words("may stay empty");
        // Gear goes on with the gauntlets last.
        view.reach = step.inGear || step.effect == Effect::GearOn ? Reach::Glove : Reach::Hand;
        views.append(view);
    }
    return views;
}

QJsonObject answersOf(const QList<CaptureAnswer>& captures)
{
    QJsonObject answers;
    for (const CaptureAnswer& capture : captures) {
        const QString value = capture.value.join(u", "_s).trimmed();
        if (!value.isEmpty())
            answers.insert(capture.id, value);
    }
    return answers;
}

std::optional<SignalView> dangerOf(const std::optional<procedure::Hazard>& hazard)
{
    if (!hazard)
        return std::nullopt;
    static constexpr std::array kWords{SignalWord::Danger, SignalWord::Warning, SignalWord::Caution,
                                       SignalWord::Notice};
    return SignalView{kWords[static_cast<std::size_t>(hazard->word)], hazard->text};
}

bool isChosenLast(const QList<CaptureView>& captures, const QList<CaptureAnswer>& before,
                  const QList<CaptureAnswer>& now)
{
    return std::all_of(captures.begin(), captures.end(), [&](const CaptureView& capture) {
        const auto valueIn = [&](const QList<CaptureAnswer>& answers) {
            const auto found = std::find_if(answers.begin(), answers.end(),
                                            [&](const CaptureAnswer& one) { return one.id == capture.id; });
            return found == answers.end() ? QStringList() : found->value;
        };
        return capture.kind == CaptureView::Kind::Choice || valueIn(before) == valueIn(now);
    });
}

bool isDoneByLastAnswer(const procedure::Step& step, const QJsonObject& answers)
{
    int questions = 0;
    for (const procedure::Capture& capture : step.captures) {
        if (capture.kind == CaptureKind::Picture)
            continue;
        const QString answer = answers.value(capture.id).toString();
        const auto means = capture.meansOf(answer);
        const bool isAnswered = capture.isTyped() ? !answer.isEmpty() : means && isAsItShouldBe(*means);
        if (!isAnswered)
            return false;
        ++questions;
    }
    return !step.stop && !alwaysNeedsItsOwnPress(step.effect) && questions > 0 &&
           (questions > 1 || !needsItsOwnPress(step.effect));
}

} // namespace coldarc::ui
