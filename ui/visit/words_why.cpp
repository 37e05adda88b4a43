#include "ui/visit/words_why.h"

#include "core/visit/next_step.h"
#include "ui/parts/quantities.h"
#include "ui/visit/words_demand.h"
#include "ui/visit/words_label.h"

#include <QCoreApplication>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::Demand;
using machine::Index;
using machine::kNone;
using Kind = visit::Why::Kind;

QString words(const char* text)
{
    return QCoreApplication::translate("why", text);
}

std::chrono::seconds secondsLeft(const visit::WaitClock& clock)
{
    return std::chrono::ceil<std::chrono::seconds>(clock.left());
}

/// The wait that this one demand stands for.
const visit::WaitClock* waitOf(Demand demand, const machine::Act& act, const visit::VisitState& state)
{
    machine::Unmet one;
    one.set(static_cast<std::size_t>(demand));
    return visit::waitBehind(state, act, one);
}

const procedure::Step* stepOf(const visit::VisitState& state, const StepId& id)
{
    for (const visit::SwapState& swap : state.swaps) {
        if (const procedure::Step* step = swap.step(id))
            return step;
    }
    return nullptr;
}

QString captureLabel(const visit::VisitState& state, const QString& id)
{
    for (const visit::SwapState& swap : state.swaps) {
        const visit::NextStep next = visit::nextStep(state, swap, state.lead);
        const procedure::Capture* capture = next.step ? next.step->capture(id) : nullptr;
        if (capture)
            return capture->label;
    }
    return id;
}

QString placeName(const visit::VisitState& state, Index lamphouse)
{
    if (lamphouse == kNone)
        return words("this lamphouse");
    const site::SiteDocument& site = state.ground->opening.site;
    const site::Lamphouse* house = site.lamphouse(state.ground->lamphouses[lamphouse]);
    const site::Projector* projector = house ? site.projector(house->projector) : nullptr;
    const site::Screen* screen = projector ? site.screen(projector->screen) : nullptr;
    return screen ? screen->name : words("this lamphouse");
}

/// Whoever of this visit may prove the absence of voltage here.
QStringList proversHere(const visit::VisitState& state)
{
    QStringList names;
    for (Index person = 0; person < state.people.size(); ++person) {
        if (state.people[person].mayProve && state.isHere(person))
            names.append(state.people[person].name);
    }
    return names;
}

/// Who proves the absence of voltage at this site, and where they are found if nobody is here.
QString whoProves(const visit::VisitState& state)
{
    if (const QStringList here = proversHere(state); !here.isEmpty())
        return words("At this site you do not prove the absence of voltage: %1 does, by their own press.")
            .arg(here.join(words(" or ")));
    switch (state.ground->opening.site.site.profile.mayProveAbsence) {
    case site::AbsenceProver::Electrician:
        return words("This site lets only an electrician prove the absence of voltage, and none is here: one "
                     "who is authorised to joins first (Who is here, F10).");
    case site::AbsenceProver::Qualified:
        return words(
            "This site lets only somebody qualified prove the absence of voltage, and nobody here is: "
            "one who is authorised to joins first (Who is here, F10).");
    case site::AbsenceProver::Engineer:
        break;
    }
    return wayOf(Demand::MayProve);
}

/// The same in a few words.
QString shortlyWhoProves(const visit::VisitState& state)
{
    if (const QStringList here = proversHere(state); !here.isEmpty())
        return here.first();
    switch (state.ground->opening.site.site.profile.mayProveAbsence) {
    case site::AbsenceProver::Electrician:
        return words("an electrician, F10");
    case site::AbsenceProver::Qualified:
        return words("somebody qualified, F10");
    case site::AbsenceProver::Engineer:
        break;
    }
    return shortWordsOf(Demand::MayProve);
}

/// An authorised lock comes off last, and this is none.
bool isTraineesLastLock(Demand demand, const machine::Act& act, const visit::VisitState& state)
{
    return demand == Demand::LastLockLast && act.person != kNone &&
           !state.plant.person[act.person].authorised;
}

QString plainWordsOf(Kind kind)
{
    switch (kind) {
    case Kind::ReadOnly:
        return words("This visit was written on by a newer program: it can be read here, not continued.");
    case Kind::NotOpened:
        return words("This visit has not begun yet: open it first.");
    case Kind::Over:
        return words("This visit is closed: only a remark can be added.");
    case Kind::UnknownName:
        return words(
            "Something is not said yet, or is not part of this visit: choose it from what is shown.");
    case Kind::NotAuthorised:
        return words("You are not authorised for this: somebody who is does it.");
    case Kind::NeedsSupervision:
        return words("This is done beside an authorised engineer: one has to be here.");
    case Kind::NeedsCountersign:
        return words("A mistake here hurts: the engineer presses too, on their own key.");
    case Kind::NotOthers:
        return words(
            "Whoever did the steps does not answer the stop: the other person does, on their own key.");
    case Kind::MakingSafe:
        return words("The visit is being made safe: the swap goes no further.");
    case Kind::FanQuestion:
        return words("Nobody has said so yet: say first whether the fan ran on.");
    case Kind::Threshold:
        return words("Alert at or above the warranty hours: it needs a reason and a second person, or set it "
                     "below them.");
    case Kind::CannotHappen:
        return words("As the machine stands this cannot have happened: look again, and say what is seen.");
    case Kind::CannotWithdraw:
        return words("What was done with hands is not undone by a word: report what went wrong instead.");
    case Kind::OthersLock:
        return words(
            "A lock comes off by the hand that hung it: only its owner withdraws the entry, and only "
            "the one by which it hangs now.");
    case Kind::NothingAsked:
        return words("Nobody asks for this now: it is answered already.");
    case Kind::MayNotFollow:
        return words("This is for tonight: it cannot be left to a later visit.");
    case Kind::TextMissing:
        return words("A few words are missing: say why.");
    case Kind::RemovalNotTold:
        return words("Your lock was taken off while you were away: say first that you were told of it.");
    case Kind::CodeMissing:
        return words("Nothing stands behind this scan that checks itself: scan it again, or type it.");
    case Kind::CodeOfAnother:
        return words("This very code was read elsewhere on this lamp or its package: say that it stands on "
                     "both, or scan the other label.");
    case Kind::NotHere:
        return words("Whoever left does nothing here: they join again first (Who is here, F10).");
    case Kind::NotOfVisit:
        return words("You are not of this visit: join first (Who is here, F10). Whoever may neither lead nor "
                     "supervise here is let in there by somebody of this visit.");
    case Kind::NotByThemselves:
        return words("You may neither lead nor supervise here, so you do not join by yourself: somebody of "
                     "this visit signs in and lets you in (Who is here, F10).");
    case Kind::HadNoPart:
        return words("This visit is closed, and you had no part in it: somebody who had adds the remark for "
                     "you. What a supervisor has to say stands in the review.");
    case Kind::IsLead:
        return words("Whoever leads does not leave: somebody takes over first.");
    case Kind::StillInZone:
        return words("Whoever leaves stands in no zone: they step out first.");
    case Kind::StillInGear:
        return words("Whoever leaves wears no gear any more: it comes off first.");
    case Kind::StillLocked:
        return words("A lock of whoever leaves still hangs on a breaker or the lock box: they take it off "
                     "first.");
    case Kind::ScreenNotRead:
        return words(
            "The centre of the screen has no reading yet: read it, or leave the screen to a later visit.");
    case Kind::NotPerformed:
        return words("The engineer who led has not signed yet: sign first.");
    default:
        return {};
    }
}

} // namespace

QString leftWords(std::chrono::milliseconds left)
{
    const auto seconds =
        std::chrono::ceil<std::chrono::seconds>(std::max(left, std::chrono::milliseconds(0)));
    const auto minutes = seconds.count() / 60;
    const auto rest = seconds.count() % 60;
    return minutes == 0 ? words("%1 s").arg(rest) : words("%1 min %2 s").arg(minutes).arg(rest);
}

QString missingInZone(const visit::VisitState& state, Index lamphouse)
{
    QStringList people;
    bool isEmpty = true;
    const Index group = state.plant.lamphouse[lamphouse].group;
    for (Index person = 0; person < state.plant.people; ++person) {
        const machine::PersonState& body = state.machine.person[person];
        if (body.at != lamphouse)
            continue;
        isEmpty = false;
        QStringList missing;
        if (body.gear != machine::Gear::Signed || body.gearFor != lamphouse)
            missing.append(words("gear"));
        if (!machine::has(state.machine.group[group].locks, person))
            missing.append(words("own lock"));
        if (!missing.isEmpty())
            people.append(u"%1: %2"_s.arg(state.people[person].name, missing.join(u", "_s)));
    }
    return isEmpty ? words("nobody in the zone") : people.join(u"; "_s);
}

QString wordsOf(Demand demand, const machine::Act& act, const visit::VisitState& state)
{
    if (const visit::WaitClock* clock = waitOf(demand, act, state)) {
        const QString left = leftWords(clock->left());
        switch (clock->wait) {
        case machine::Wait::Cool:
            return words("Cold: %1 left, the fan must keep running.").arg(left);
        case machine::Wait::CoolUnforced:
            return words("Cold: %1 left, without the fan; nothing shortens it.").arg(left);
        case machine::Wait::Bleed:
            return words("Charge: %1 left, everything stays shut.").arg(left);
        case machine::Wait::StrikePause:
            return words("Pause after the last strike: %1 left, the fan must keep running.").arg(left);
        case machine::Wait::Settle:
            return words("Settled: %1 left, leave it lit.").arg(left);
        }
    }
    if ((demand == Demand::Geared || demand == Demand::GearedIfOpen) && act.lamphouse != kNone)
        return words("Geared: %1. Everyone in the zone has gear on and an own lock, or steps out.")
            .arg(missingInZone(state, act.lamphouse));
    if (demand == Demand::MayProve)
        return whoProves(state);
    if (isTraineesLastLock(demand, act, state))
        return words(
            "Your own lock does not come off as the last: an engineer hangs theirs first, then yours "
            "comes off.");
    return wayOf(demand);
}

QString shortWordsOf(Demand demand, const machine::Act& act, const visit::VisitState& state)
{
    if (demand == Demand::MayProve)
        return shortlyWhoProves(state);
    if (isTraineesLastLock(demand, act, state))
        return shortWordsOf(Demand::AuthorisedLock);
    const visit::WaitClock* clock = waitOf(demand, act, state);
    return clock ? u"%1, %2"_s.arg(shortWordsOf(demand), clockText(secondsLeft(*clock)))
                 : shortWordsOf(demand);
}

QList<Demand> inOrder(machine::Unmet unmet)
{
    QList<Demand> gates;
    QList<Demand> others;
    for (int index = 0; index < machine::kDemands; ++index) {
        const auto demand = static_cast<Demand>(index);
        if (unmet.test(static_cast<std::size_t>(index)))
            (machine::gateOf(demand) == machine::Gate::None ? others : gates).append(demand);
    }
    return gates + others;
}

QString wordsOf(const visit::Why& why, const visit::Refusal& refusal, const visit::VisitState& state)
{
    switch (why.kind) {
    case Kind::Demand:
        return wordsOf(why.demand, refusal.act, state);
    case Kind::NotYourTurn: {
        const procedure::Step* step = stepOf(state, why.step);
        return step ? words("Another step comes first: %1.").arg(step->title)
                    : words("It is not its turn: another step comes first.");
    }
    case Kind::AnswerMissing:
        return words("Not answered yet: %1.").arg(captureLabel(state, why.capture));
    case Kind::GearPastDate:
        return words("%1: the item recorded as yours is past its date or withdrawn. Wear one that is in "
                     "date, and have "
                     "it recorded before the visit is opened.")
            .arg(captureLabel(state, why.capture));
    case Kind::AnswerBad:
        if (!why.text.isEmpty())
            return words("%1: %2 is to stand there. Key that in and read it back once more; if it cannot be "
                         "set so, say that it differs.")
                .arg(captureLabel(state, why.capture), why.text);
        return words("%1: as it is, this step proves nothing. Put it right, or report what went wrong.")
            .arg(captureLabel(state, why.capture));
    case Kind::FigureUnclear:
        return words("%1: %2 is not plain: %3.")
            .arg(captureLabel(state, why.capture), why.text, howToWriteHours(why.text));
    case Kind::SerialOfThisVisit:
        return words("%1 was read for the lamp of %2 already. Read the box that lies here; if it was read "
                     "there for the wrong lamp, withdraw that match on the page of what was done.")
            .arg(why.text, placeName(state, why.lamphouse));
    case Kind::NotMatched:
        return why.label ? wordsOf(*why.label) : words("Matched: box, paper and entry are not all read yet.");
    case Kind::FanQuestion:
        return words("%1 (%2)").arg(plainWordsOf(why.kind), placeName(state, why.lamphouse));
    default:
        return plainWordsOf(why.kind);
    }
}

QStringList wordsOf(const visit::Refusal& refusal, const visit::VisitState& state)
{
    QStringList gates;
    QStringList others;
    for (const visit::Why& why : refusal.whys) {
        const bool isGate = why.kind == Kind::Demand && machine::gateOf(why.demand) != machine::Gate::None;
        (isGate ? gates : others).append(wordsOf(why, refusal, state));
    }
    QStringList all = gates + others;
    all.removeDuplicates();
    return all;
}

} // namespace coldarc::ui
