#include "core/report/report.h"

#include "core/base/typed_hours.h"
#include "core/base/words.h"
#include "core/review/replay.h"
#include "core/visit/evolve.h"
#include "core/visit/settlement.h"

#include <algorithm>
#include <cmath>

using namespace Qt::StringLiterals;

namespace coldarc::report {
namespace {

using machine::Effect;
using machine::Index;
using machine::kNone;
using visit::Entry;
using visit::StepRecord;
using visit::SwapState;
using visit::VisitState;

constexpr double kMillisecondsPerWeek = 7.0 * 24 * 3600 * 1000;

/// The hour counter as it was taken down last by a step of this effect, or of any other where `isKeyedIn` is
/// false.
std::optional<double> counterOf(const SwapState& swap, bool isKeyedIn)
{
    std::optional<double> hours;
    qint64 latest = -1;
    for (const procedure::Step& step : swap.steps) {
        const StepRecord record = swap.record(step.id);
        const procedure::Capture* capture = step.capture(u"hours"_s);
        const auto read = keptHours(record.answers.value(u"hours"_s).toString());
        const bool fits = capture && capture->kind == procedure::CaptureKind::Counter && read &&
                          !step.otherLamphouse && (step.effect == Effect::KeyController) == isKeyedIn;
        if (fits && record.entry > latest) {
            hours = read;
            latest = record.entry;
        }
    }
    return hours;
}

QString causeOf(const SwapState& swap)
{
    for (const procedure::Step& step : swap.steps) {
        if (step.effect == Effect::BookIn)
            return swap.record(step.id).answers.value(u"cause"_s).toString();
    }
    return {};
}

LampPart lampPart(const VisitState& state, Index lamp, const std::optional<double>& counter)
{
    const visit::LampFacts& facts = state.ground->lamps[lamp];
    return {lamp, facts.hours, counter, {}, state.custody.value(facts.id)};
}

/// Of the screen that the lamphouse lights; the opening's own figure is the longest week of them all.
std::optional<double> weekOf(const VisitState& state, const SwapState& swap)
{
    const site::SiteDocument& site = state.ground->opening.site;
    const site::Lamphouse* lamphouse = site.lamphouse(state.ground->lamphouses[swap.lamphouse]);
    const site::Projector* projector = lamphouse ? site.projector(lamphouse->projector) : nullptr;
    const site::Screen* screen = projector ? site.screen(projector->screen) : nullptr;
    return screen ? screen->weeklyHours : std::nullopt;
}

std::optional<NextDue> dueOf(const VisitState& state, const SwapState& swap, WallTime from)
{
    if (!swap.thresholdHours)
        return std::nullopt;
    NextDue due{*swap.thresholdHours};
    due.weeklyHours = weekOf(state, swap);
    if (const auto now = counterOf(swap, true)) {
        due.hoursLeft = std::max(0.0, *swap.thresholdHours - *now);
        due.expected = expectedAt(from, *due.hoursLeft, due.weeklyHours.value_or(0));
    }
    return due;
}

SwapPart partOf(const VisitState& state, const SwapState& swap, WallTime until)
{
    SwapPart part;
    part.swap = swap.id;
    part.wasExchanged = !swap.followsUp && state.machine.lamphouse[swap.lamphouse].lamp == swap.newLamp;
    part.out = lampPart(state, swap.oldLamp, counterOf(swap, swap.followsUp));
    if (!part.out.counter)
        part.out.counter = counterOf(swap, false);
    part.out.cause = causeOf(swap);
    if (!swap.followsUp)
        part.in = lampPart(state, swap.newLamp, part.wasExchanged ? counterOf(swap, true) : std::nullopt);
    if (part.wasExchanged)
        part.due = dueOf(state, swap, until);
    part.owed = visit::leftOwed(state, swap, state.end);
    part.before = visit::sheetOf(state, swap.id, visit::SheetTime::Arrival);
    part.after = visit::sheetOf(state, swap.id, visit::SheetTime::After);
    part.comparison = visit::comparisonOf(state, swap.id);
    part.light = visit::lightOf(state, swap.id);
    return part;
}

std::vector<Caution> cautionsOf(const Report& report)
{
    const VisitState& state = report.state;
    const auto isMet = [&](review::Exception::Kind kind) {
        return std::ranges::any_of(report.exceptions,
                                   [&](const review::Exception& one) { return one.kind == kind; });
    };
    using Kind = review::Exception::Kind;
    std::vector<Caution> cautions;
    const auto add = [&](Caution caution, bool holds) {
        if (holds)
            cautions.push_back(caution);
    };
    add(Caution::OutOfUse, state.end == u"out-of-use");
    add(Caution::NotFinished, state.end == u"as-it-is" || state.end == u"as-it-was");
    add(Caution::Owed,
        std::ranges::any_of(report.swaps, [](const SwapPart& part) { return !part.owed.isEmpty(); }));
    add(Caution::LightBelow, isMet(Kind::LightBelowTolerance));
    add(Caution::AlertPassed, isMet(Kind::ThresholdAtOrAboveWarranty));
    add(Caution::SomethingWrong, !state.incidents.isEmpty());
    add(Caution::NotClosed, state.end.isEmpty());
    return cautions;
}

bool isLockout(Effect effect)
{
    switch (effect) {
    case Effect::Isolate:
    case Effect::LockOn:
    case Effect::LockOff:
    case Effect::JobLockOff:
    case Effect::Relieve:
    case Effect::TryStart:
    case Effect::ProveAbsence:
    case Effect::Restore:
        return true;
    default:
        return false;
    }
}

bool isGear(Effect effect)
{
    return effect == Effect::GearOn || effect == Effect::GearOff || effect == Effect::EnterZone ||
           effect == Effect::LeaveZone;
}

std::optional<Effect> effectOf(const visit::Body& body)
{
    if (const auto* acted = std::get_if<visit::Acted>(&body))
        return acted->act.effect;
    const auto* did = std::get_if<visit::Did>(&body);
    return did && did->act ? std::optional(did->act->effect) : std::nullopt;
}

EntryLists listsOf(const QList<Entry>& entries)
{
    EntryLists lists;
    for (qint64 number = 0; number < entries.size(); ++number) {
        const visit::Body& body = entries[number].body;
        const auto effect = effectOf(body);
        if ((effect && isLockout(*effect)) || std::holds_alternative<visit::LockRemoved>(body))
            lists.lockout.push_back(number);
        if (effect && isGear(*effect))
            lists.gear.push_back(number);
        if (std::holds_alternative<visit::LampRead>(body) ||
            std::holds_alternative<visit::SerialPassed>(body) ||
            std::holds_alternative<visit::PictureKept>(body))
            lists.labels.push_back(number);
    }
    return lists;
}

/// Name and role of somebody of the visit; whoever it does not know stands there by their id.
SignatureLine lineFor(const VisitState& state, const PersonId& person)
{
    SignatureLine line;
    const Index index = state.person(person);
    line.name = index == kNone ? person.text() : state.people[index].name;
    line.role = index == kNone ? QString() : wordText(people::wordOf(state.people[index].role));
    return line;
}

std::vector<SignatureLine> signaturesOf(const VisitState& state, const QList<Entry>& entries,
                                        const QList<review::HeadSigned>& signatures)
{
    std::vector<SignatureLine> lines;
    for (const review::HeadSigned& one : signatures) {
        SignatureLine line = one.isFormer ? SignatureLine() : lineFor(state, one.person);
        line.key = !one.isGood      ? SignatureLine::Key::Bad
                   : one.isOutOfUse ? SignatureLine::Key::OutOfUse
                                    : SignatureLine::Key::Good;
        line.meaning = one.meaning;
        line.at = one.isFormer ? WallTime() : one.at;
        line.entry = one.entry;
        line.thumbprint = one.key;
        line.vouchedBy = one.vouchedBy;
        line.isFormer = one.isFormer;
        lines.push_back(line);
    }
    for (const visit::WantedSignature& wanted :
         review::unanswered(visit::wantedSignatures(entries, state), signatures)) {
        SignatureLine line = lineFor(state, wanted.person);
        line.key = SignatureLine::Key::Missing;
        line.meaning = wanted.meaning;
        line.at = entries[wanted.entry].at.wall;
        line.entry = wanted.entry;
        lines.push_back(line);
    }
    for (const visit::SignedBy& one : state.signatures) {
        if (one.person.isEmpty())
            lines.push_back(
                {SignatureLine::Key::Witness, one.name, one.role, one.meaning, one.at.wall, one.entry});
    }
    for (SignatureLine& line : lines) {
        const visit::Body& body = entries[line.entry].body;
        line.isOfWork =
            std::holds_alternative<visit::Signed>(body) || std::holds_alternative<visit::SiteSigned>(body);
    }
    std::ranges::stable_sort(lines, {}, &SignatureLine::entry);
    return lines;
}

qint64 lastSigned(const QList<review::HeadSigned>& signatures)
{
    qint64 last = -1;
    for (const review::HeadSigned& one : signatures) {
        if (one.counts())
            last = std::max(last, one.entry);
    }
    return last;
}

} // namespace

std::optional<WallTime> expectedAt(WallTime from, double hoursLeft, double weeklyHours)
{
    if (!(weeklyHours > 0) || !(hoursLeft > 0) || !std::isfinite(hoursLeft))
        return std::nullopt;
    return from +
           std::chrono::milliseconds(static_cast<qint64>(hoursLeft / weeklyHours * kMillisecondsPerWeek));
}

Result<Report> reportOf(const QList<Entry>& entries, const Hash& head,
                        const QList<review::HeadSigned>& signatures)
{
    Report report;
    report.state = visit::fold(entries);
    if (!report.state.ground)
        return fail(Error::Kind::Malformed, u"the entries open no visit"_s);
    report.entries = entries;
    report.head = head;
    report.from = entries.first().at.wall;
    report.until = entries[review::endOfWork(entries)].at.wall;
    report.exceptions = review::exceptionsOf(report.state, entries, &signatures);
    report.timeLine = review::timeLineOf(entries);
    report.lists = listsOf(entries);
    report.signatures = signaturesOf(report.state, entries, signatures);
    report.signedUpTo = lastSigned(signatures);
    for (const SwapState& swap : report.state.swaps)
        report.swaps.push_back(partOf(report.state, swap, report.until));
    report.cautions = cautionsOf(report);
    return report;
}

} // namespace coldarc::report
