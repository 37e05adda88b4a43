#include "core/visit/decide.h"

#include "core/machine/goal.h"
#include "core/machine/reach.h"
#include "core/people/signing_key.h"
#include "core/visit/evolve.h"
#include "core/visit/judge.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::visit {

using machine::kNone;

Decision Judge::judge(const Body& asked)
{
    m_body = asked;
    if (m_state.isReadOnly)
        no(Why::Kind::ReadOnly);
    else if (std::holds_alternative<Opening>(asked) != !m_state.ground)
        no(m_state.ground ? Why::Kind::Over : Why::Kind::NotOpened);
    else if (!m_state.end.isEmpty() && !std::holds_alternative<Addendum>(asked))
        no(Why::Kind::Over);
    else if (m_state.ground && m_person == kNone && !isOwnJoining(asked))
        no(m_state.end.isEmpty() ? Why::Kind::NotOfVisit : Why::Kind::HadNoPart);
    else if (m_state.ground && m_person != kNone && !m_state.isHere(m_person) && !isOpenToWhoLeft(asked))
        no(Why::Kind::NotHere);
    else if (m_state.removalsToTell.contains(by()) && !isOpenUntold(asked))
        no(Why::Kind::RemovalNotTold);
    else
        std::visit(*this, asked);
    if (!m_refusal.whys.isEmpty())
        return tl::unexpected(m_refusal);
    Entry entry{m_now, m_by, m_body};
    const auto readBack = entryFrom(bytesOf(entry)); // what cannot be read again is not written
    if (readBack && *readBack == entry)
        return entry;
    no(Why::Kind::UnknownName);
    return tl::unexpected(m_refusal);
}

void Judge::operator()(const Opening& opening)
{
    if (!groundOf(opening))
        return no(Why::Kind::UnknownName);
    // Openings of before do not say which lamp owes it; a new one does.
    const bool isOwedByNoLamp = std::ranges::any_of(opening.swaps, [](const SwapPlan& swap) {
        return std::ranges::any_of(swap.owed, [](const OwedPlan& owed) { return owed.lamp.isEmpty(); });
    });
    if (isOwedByNoLamp)
        no(Why::Kind::UnknownName);
    if (opening.people.isEmpty() || !opening.people.first().mayLead || opening.people.first().id != m_by)
        no(Why::Kind::NotAuthorised);
}

void Judge::operator()(const Happened& happened)
{
    if (!happened.lamphouse.isEmpty() && m_state.ground->lamphouse(happened.lamphouse) == kNone)
        no(Why::Kind::UnknownName);
    if (!happened.point.isEmpty() && m_state.ground->point(happened.point) == kNone)
        no(Why::Kind::UnknownName);
    if (!happened.lamp.isEmpty() && m_state.ground->lamp(happened.lamp) == kNone)
        no(Why::Kind::UnknownName);
    if (!happened.person.isEmpty() && m_state.person(happened.person) == kNone)
        no(Why::Kind::UnknownName);
    if (!happened.swap.isEmpty() && !m_state.swap(happened.swap))
        no(Why::Kind::UnknownName);
    for (const LamphouseId& lamphouse : happened.wentOut) {
        if (m_state.ground->lamphouse(lamphouse) == kNone || happened.incident != Incident::FanOrPower)
            no(Why::Kind::UnknownName);
    }
    if (happened.incident == Incident::WillNotLight || !happened.wentOut.isEmpty())
        judgeLampWork(); // it starts a wait for Cold
    const bool needsLamp = happened.incident == Incident::Burst || happened.incident == Incident::WrongLamp;
    const bool needsLamphouse = happened.incident == Incident::ItStarted ||
                                happened.incident == Incident::VoltageFound ||
                                happened.incident == Incident::LeftExposed ||
                                (happened.incident == Incident::LampUnfit && happened.lamp.isEmpty());
    const bool needsPlace = happened.incident == Incident::FanOrPower;
    if ((needsLamp && happened.lamp.isEmpty()) || (needsLamphouse && happened.lamphouse.isEmpty()) ||
        (needsPlace && happened.lamphouse.isEmpty() && happened.point.isEmpty()) ||
        (happened.incident == Incident::PointWillNotLock && happened.point.isEmpty()) ||
        (happened.incident == Incident::GearDamaged && happened.person.isEmpty()))
        no(Why::Kind::UnknownName);
}

void Judge::operator()(const IncidentAnswered& answered)
{
    if (!m_state.machine.hurt) // then whoever is left ends the visit
        judgeLampWork();
    const auto found = std::find_if(m_state.incidents.begin(), m_state.incidents.end(),
                                    [&](const IncidentState& one) { return one.entry == answered.incident; });
    if (found == m_state.incidents.end() || found->isAnswered)
        return no(Why::Kind::NothingAsked);
    if (found->kind == Incident::CountDiffers && !m_state.machine.hurt)
        judgeSecond(answered.countersignedBy); // the last lock comes off upon it
    if (answered.text.trimmed().isEmpty())
        no(Why::Kind::TextMissing);
}

void Judge::operator()(const FanAnswered& answered)
{
    judgeLampWork();
    const Index lamphouse = m_state.ground->lamphouse(answered.lamphouse);
    if (lamphouse == kNone)
        return no(Why::Kind::UnknownName);
    if (!m_state.waits[lamphouse].cool.asksForFan)
        no(Why::Kind::NothingAsked);
    if (answered.ranOn)
        judgeSecond(answered.countersignedBy); // time that nobody watched is credited
}

void Judge::operator()(const LocksSeen& seen)
{
    judgeLampWork();
    const Index lamphouse = m_state.ground->lamphouse(seen.lamphouse);
    if (lamphouse == kNone)
        return no(Why::Kind::UnknownName);
    if (!m_state.machine.group[m_state.plant.lamphouse[lamphouse].group].isHearsay)
        no(Why::Kind::NothingAsked);
    if (seen.asBefore)
        judgeSecond(seen.countersignedBy); // a trainee vouches alone for nobody's lock
}

void Judge::operator()(const Owed& owed)
{
    judgeLampWork();
    const SwapState* swap = m_state.swap(owed.swap);
    const procedure::Step* step = swap ? swap->step(owed.step) : nullptr;
    if (!step)
        return no(Why::Kind::UnknownName);
    if (!step->mayFollow)
        no(Why::Kind::MayNotFollow);
    if (swap->record(owed.step).status != StepRecord::Status::Waiting)
        no(Why::Kind::NothingAsked);
}

void Judge::operator()(const Withdrawn& withdrawn)
{
    judgeLampWork();
    if (withdrawn.reason.trimmed().isEmpty())
        no(Why::Kind::TextMissing);
    const bool isAct = m_state.acts.contains(withdrawn.entry);
    const bool isStep = m_state.stepsByEntry.contains(withdrawn.entry);
    // A search that was ended rests on what was read and set: that is put right by a correction.
    const bool isLight =
        std::any_of(m_state.light.begin(), m_state.light.end(), [&](const LightReading& one) {
            return one.entry == withdrawn.entry && !isDone(one.read.swap, one.read.step);
        });
    const bool isLightSet =
        std::any_of(m_state.lightSets.begin(), m_state.lightSets.end(), [&](const LightSetting& one) {
            return one.entry == withdrawn.entry && !isDone(one.set.swap, one.set.step);
        });
    const bool isSheet = std::any_of(m_state.sheets.begin(), m_state.sheets.end(),
                                     [&](const SheetLine& one) { return one.entry == withdrawn.entry; });
    if (m_state.withdrawn.contains(withdrawn.entry) ||
        (!isAct && !isStep && !isLight && !isLightSet && !isSheet) ||
        (isAct && !machine::canWithdraw(m_state.acts.value(withdrawn.entry).effect)))
        no(Why::Kind::CannotWithdraw);
    else if (isAct)
        judgeLockBack(withdrawn.entry);
    if (isAct)
        judgeSecond(withdrawn.countersignedBy);
}

void Judge::judgeLockBack(qint64 entry)
{
    const machine::Act act = m_state.acts.value(entry);
    if (act.effect != Effect::LockOn || act.outcome == machine::Outcome::WillNotLock)
        return;
    if (act.person != m_person || !m_state.hungBy.contains(entry))
        no(Why::Kind::OthersLock);
    demand(machine::Demand::NobodyHurt, !m_state.machine.hurt, act.lamphouse);
}

bool Judge::isDone(const SwapId& id, const StepId& step) const
{
    const SwapState* swap = m_state.swap(id);
    return swap && swap->record(step).status == StepRecord::Status::Done;
}

void Judge::operator()(const Noted& noted)
{
    if (noted.text.trimmed().isEmpty())
        no(Why::Kind::TextMissing);
}

void Judge::operator()(const SafeBegun&)
{
    if (m_state.isMakingSafe)
        no(Why::Kind::MakingSafe);
}

void Judge::operator()(const Signed& signature)
{
    if (!people::meaningFromWord(signature.meaning.toStdString()))
        return no(Why::Kind::UnknownName);
    if (signature.meaning == u"performed"_s && !m_state.people[m_person].mayLead)
        no(Why::Kind::NotAuthorised);
}

void Judge::operator()(const SiteSigned& signature)
{
    if (signature.name.trimmed().isEmpty())
        no(Why::Kind::TextMissing);
}

void Judge::operator()(const Closed& asked)
{
    Closed closed = asked;
    closed.end = endWord(m_state);
    m_body = closed;
    if (m_state.machine.hurt)
        return; // nobody is waited for, and nothing
    const bool isPerformed = std::any_of(m_state.signatures.begin(), m_state.signatures.end(),
                                         [](const SignedBy& one) { return one.meaning == u"performed"_s; });
    if (!isPerformed)
        no(Why::Kind::NotPerformed);
    machine::Act act;
    act.effect = Effect::Sign;
    act.person = m_person;
    act.lamphouse = 0;
    act.custodyDecided = isCustodyDecided(m_state);
    act.answered = !m_state.hasOpenIncident();
    judgeDemands(act, {});
    for (const SwapState& swap : m_state.swaps) {
        const NextStep next = nextStep(m_state, swap, m_state.lead);
        if (!m_state.isMakingSafe && next.step)
            return notYourTurn(next);
    }
}

void Judge::operator()(const Addendum& addendum)
{
    if (addendum.text.trimmed().isEmpty())
        no(Why::Kind::TextMissing);
}

bool Judge::isOpenUntold(const Body& asked)
{
    if (const auto* acted = std::get_if<Acted>(&asked))
        return machine::isSafeWard(acted->act.effect) && acted->act.effect != Effect::LockOn;
    return std::holds_alternative<Opening>(asked) || std::holds_alternative<RemovalTold>(asked) ||
           std::holds_alternative<Happened>(asked);
}

/// Perhaps nobody else is here to say so.
bool Judge::isOwnJoining(const Body& asked) const
{
    const auto* joined = std::get_if<Joined>(&asked);
    return joined && joined->person.id == m_by;
}

bool Judge::isOpenToWhoLeft(const Body& asked) const
{
    if (isOwnJoining(asked))
        return true;
    if (const auto* happened = std::get_if<Happened>(&asked))
        return happened->incident != Incident::WillNotLight && happened->wentOut.isEmpty();
    return std::holds_alternative<Addendum>(asked);
}

void Judge::demand(machine::Demand demand, bool holds, Index lamphouse)
{
    if (holds || m_refusal.waitsFor(demand))
        return;
    m_refusal.unmet.set(static_cast<std::size_t>(demand));
    Why why;
    why.kind = Why::Kind::Demand;
    why.demand = demand;
    why.lamphouse = lamphouse;
    m_refusal.whys.append(why);
}

void Judge::notYourTurn(const NextStep& next)
{
    Why why;
    why.kind = Why::Kind::NotYourTurn;
    why.step = next.step ? next.step->id : StepId();
    m_refusal.whys.append(why);
    m_refusal.act = next.act;
    m_refusal.unmet = next.unmet;
}

void Judge::judgeLampWork()
{
    if (!m_state.people[m_person].worksOnLamps())
        no(Why::Kind::NotAuthorised);
}

bool Refusal::has(Why::Kind kind) const
{
    return std::any_of(whys.begin(), whys.end(), [&](const Why& why) { return why.kind == kind; });
}

QString endWord(const VisitState& state)
{
    if (!state.isMakingSafe)
        return u"done"_s;
    machine::SafeEnd worst = machine::SafeEnd::AsItWas;
    for (machine::Index lamphouse = 0; lamphouse < state.plant.lamphouses; ++lamphouse)
        worst = std::max(
            worst, machine::safeEnd(state.plant, state.machine, state.plant.lamphouse[lamphouse].group));
    static constexpr std::array<const char*, 3> kEnds{"as-it-was", "as-it-is", "out-of-use"};
    return QString::fromLatin1(kEnds[static_cast<std::size_t>(worst)]);
}

Decision decide(const VisitState& state, const PersonId& by, const Body& asked, const Stamp& now)
{
    return Judge(state, by, now).judge(asked);
}

} // namespace coldarc::visit
