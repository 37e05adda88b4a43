#include "core/procedure/capture_rule.h"

#include <algorithm>
#include <iterator>

using namespace Qt::StringLiterals;

namespace coldarc::procedure {
namespace {

using machine::Effect;
using M = Means;

constexpr const char16_t* kPointCapture = u"point-";

// The captures that the machine reads.
const CaptureRule kRules[] = {
    {Effect::Find, u"lamp", {M::Lit, M::Off}, {}},
    {Effect::Find, u"fan", {M::Runs, M::Still}, {}},
    {Effect::Find, u"projector", {M::On, M::Standby, M::Off}, {}},
    {Effect::Find, u"extraction", {M::Runs, M::Still}, {}},
    {Effect::Find, kPointCapture, {M::On, M::Off, M::Locked}, {}},
    {Effect::Find, u"housing", {M::Shut, M::Open}, {}},
    {Effect::Find, u"guard", {M::Shut, M::Open}, {}},
    {Effect::Find, u"dowser", {M::Shut, M::Open}, {}},
    {Effect::Find, u"seat", {M::Clamped, M::Entered, M::Empty}, {M::NotSeen}},
    {Effect::Find, u"tag", {M::None, M::OutOfUse, M::ForeignLock}, {}},
    {Effect::LampOff, u"fan", {M::Runs, M::Still}, {}},
    {Effect::Isolate, u"which", {M::Named, M::OtherPoint, M::NoneOfOurs}, {}},
    {Effect::Isolate, u"state", {M::Off, M::StillLive}, {}},
    {Effect::LockOn, u"holds", {M::Holds, M::GivesWay}, {}},
    {Effect::TryStart, u"supply", {M::Present, M::NotSeen}, {}},
    {Effect::TryStart, u"response", {M::NoResponse, M::Started}, {}},
    {Effect::TryStart, u"controls", {M::AtOff, M::NotAtOff}, {}},
    {Effect::ProveAbsence, u"supply", {M::Present, M::NotSeen}, {}},
    {Effect::ProveAbsence, u"before", {M::Proved, M::NotProved}, {}},
    {Effect::ProveAbsence, u"reading", {M::Absent, M::Voltage}, {M::Unsteady}},
    {Effect::ProveAbsence, u"after", {M::Proved, M::NotProved}, {}},
    {Effect::Unbox, u"marking", {M::Agrees, M::TypeDiffers}, {M::SerialDiffers, M::Unreadable}},
    {Effect::Unbox, u"bulb", {M::Whole, M::Marked}, {}},
    {Effect::ClampLamp, u"polarity", {M::Right, M::Wrong}, {M::NotSeen}},
    {Effect::ClampLamp, u"seating", {M::Right, M::Wrong}, {}},
    {Effect::ClampLamp, u"free-end", {M::Right, M::Wrong}, {}},
    {Effect::Count, u"tools", {M::Same, M::Differs}, {}},
    {Effect::Count, u"fasteners", {M::Same, M::Differs}, {}},
    {Effect::Count, u"result", {M::Same, M::Differs}, {}},
    {Effect::BookIn,
     u"cause",
     {},
     {M::Note, M::EndOfLife, M::Dim, M::Flicker, M::WillNotLight, M::Blackened, M::Burst, M::EarlyFailure,
      M::Damaged, M::Other}},
    {Effect::KeyController, u"agrees", {M::Agrees, M::Differs}, {}},
    {Effect::Look, u"bulb", {}, {M::Note, M::Good, M::Bad, M::Marked, M::Empty}},
    {Effect::Look, u"custody", {M::Returned, M::Recycled, M::KeptBySite}, {}},
    {Effect::Strike, u"result", {M::Lit, M::NoLight, M::Burst}, {}},
};

QString wordsOf(const QList<Means>& list)
{
    QStringList words;
    std::ranges::transform(list, std::back_inserter(words), [](Means means) { return wordOf(means); });
    return words.join(u", "_s);
}

/// Captures of which the step needs every one.
QStringList neededAt(const Step& step, const catalogue::ProjectorModel& model)
{
    switch (step.effect) {
    case Effect::Find: {
        QStringList ids{u"lamp"_s,  u"fan"_s,  u"projector"_s, u"extraction"_s,
                        u"guard"_s, u"seat"_s, u"tag"_s};
        if (model.hasHousing)
            ids.append(u"housing"_s);
        if (model.hasDowser)
            ids.append(u"dowser"_s);
        for (const catalogue::IsolationRole& role : model.isolation)
            ids.append(pointCapture(role.id));
        return ids;
    }
    case Effect::LampOff:
        return {u"fan"_s};
    case Effect::Isolate:
        return {u"which"_s, u"state"_s};
    case Effect::LockOn: // the personal lock on a box of keys is not pulled at a breaker
        return step.point || model.isolation.size() == 1 ? QStringList{u"holds"_s} : QStringList{};
    case Effect::TryStart:
        return {u"supply"_s, u"response"_s, u"controls"_s};
    case Effect::ProveAbsence:
        return {u"supply"_s, u"before"_s, u"reading"_s, u"after"_s};
    case Effect::Unbox:
        return {u"marking"_s, u"bulb"_s};
    case Effect::ClampLamp:
        return {u"polarity"_s, u"seating"_s};
    case Effect::KeyController:
        return {u"agrees"_s};
    case Effect::Strike:
        return {u"result"_s};
    default:
        return {};
    }
}

bool isChosen(const Step& step, const QString& id)
{
    const Capture* capture = step.capture(id);
    return capture && !capture->choices.isEmpty() && !capture->optional;
}

} // namespace

QString pointCapture(const catalogue::RoleId& role)
{
    return QString::fromUtf16(kPointCapture) + role.text();
}

const CaptureRule* ruleOf(Effect effect, const QString& captureId)
{
    const auto found = std::ranges::find_if(kRules, [&](const CaptureRule& rule) {
        const QString id = QString::fromUtf16(rule.capture);
        return rule.effect == effect &&
               (captureId == id || (rule.capture == kPointCapture && captureId.startsWith(id)));
    });
    return found == std::end(kRules) ? nullptr : &*found;
}

QString wordTrouble(const Step& step, const Capture& capture)
{
    if (capture.choices.isEmpty())
        return {};
    const CaptureRule* rule = ruleOf(step.effect, capture.id);
    const bool plain = !rule;
    const QList<Means> must = plain ? QList{M::Good, M::Bad} : QList(rule->must);
    // A stop's answer can tell of more than that its step is not so: core/visit makes an incident of it.
    const QList<Means> toldAtStop = step.stop ? QList{M::Started, M::Voltage, M::Open} : QList<Means>{};
    const QList<Means> may = plain ? QList{M::Note} + toldAtStop : QList(rule->may);
    const auto offers = [&](Means means) {
        return std::ranges::find(capture.choices, means, &Choice::means) != capture.choices.end();
    };
    const bool known = std::ranges::all_of(capture.choices, [&](const Choice& choice) {
        return must.contains(choice.means) || may.contains(choice.means);
    });
    if (!known)
        return u"means one of %1 here"_s.arg(wordsOf(must + may));
    const bool onlyNotes = plain && !step.stop && !offers(M::Good) && !offers(M::Bad);
    if (!onlyNotes && !std::ranges::all_of(must, offers))
        return u"must offer each of %1"_s.arg(wordsOf(must));
    return {};
}

QStringList missingCaptures(const Step& step, const catalogue::ProjectorModel& model)
{
    QStringList missing;
    for (const QString& id : neededAt(step, model)) {
        if (!isChosen(step, id))
            missing.append(id);
    }
    const QStringList counts{u"tools"_s, u"fasteners"_s, u"result"_s};
    if (step.effect == Effect::Count &&
        std::ranges::none_of(counts, [&](const QString& id) { return isChosen(step, id); }))
        missing.append(u"result"_s);
    return missing;
}

} // namespace coldarc::procedure
