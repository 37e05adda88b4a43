#include "core/visit/decide.h"

#include "core/label/normalise.h"
#include "core/lamps/alert_threshold.h"
#include "core/lamps/custody.h"
#include "core/machine/goal.h"
#include "core/machine/reach.h"
#include "core/machine/whole.h"
#include "core/people/signing_key.h"
#include "core/photometry/light_output.h"
#include "core/visit/evolve.h"
#include "core/visit/sheet_of_visit.h"
#include "core/visit/stop_answers.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::visit {
namespace {

using machine::Effect;
using machine::Index;
using machine::kNone;
using machine::Outcome;

/// A trainee does these under a countersign. The safe-ward ones are not among them: nobody waits with a lamp
/// in hand.
bool isDangerous(Effect effect)
{
    switch (effect) {
    case Effect::Isolate:
    case Effect::TryStart:
    case Effect::ProveAbsence:
    case Effect::OpenHousing:
    case Effect::ExposeLamp:
    case Effect::WorkInside:
    case Effect::LampOut:
    case Effect::Unbox:
    case Effect::AdaptorOff:
    case Effect::AdaptorOn:
    case Effect::Restore:
    case Effect::PowerUp:
    case Effect::KeyController:
    case Effect::Strike:
        return true;
    default:
        return false;
    }
}

bool tellsOfDanger(const machine::Act& act)
{
    return act.outcome == Outcome::Started || act.outcome == Outcome::Voltage ||
           act.outcome == Outcome::Burst || act.outcome == Outcome::Differs;
}

/// Effects of a person's own body and lock: anybody who is here does them for themselves, at any time.
bool isPersonal(Effect effect)
{
    switch (effect) {
    case Effect::LockOn:
    case Effect::LockOff:
    case Effect::JobLockOff: // whoever holds it
    case Effect::GearOn:
    case Effect::GearOff:
    case Effect::EnterZone:
    case Effect::LeaveZone:
        return true;
    default:
        return false;
    }
}

QString wordOf(machine::Gate gate)
{
    static constexpr std::array<const char*, 5> kWords{"cold", "dead", "geared", "matched", "settled"};
    return QString::fromLatin1(kWords[static_cast<std::size_t>(gate)]);
}

/// The gates that wait while something safe-ward is done inside a machine that is open.
QStringList waitingGates(const VisitState& state, const machine::Act& act)
{
    QStringList gates;
    if (!machine::isSafeWard(act.effect) || act.lamphouse == kNone ||
        machine::isShut(state.machine, act.lamphouse))
        return gates;
    const bool handlesLamp = act.effect == Effect::LampIn || act.effect == Effect::ClampLamp ||
                             act.effect == Effect::BoxLamp || act.effect == Effect::ShutGuard;
    if (!handlesLamp)
        return gates;
    for (const auto& [demand, gate] : {std::pair{machine::Demand::Cold, machine::Gate::Cold},
                                       std::pair{machine::Demand::PointsLocked, machine::Gate::Dead},
                                       std::pair{machine::Demand::StartTried, machine::Gate::Dead},
                                       std::pair{machine::Demand::Absent, machine::Gate::Dead},
                                       std::pair{machine::Demand::Geared, machine::Gate::Geared}}) {
        if (!machine::holds(state.plant, state.machine, act, demand) && !gates.contains(wordOf(gate)))
            gates.append(wordOf(gate));
    }
    return gates;
}

procedure::Answers toAnswers(const QJsonObject& object)
{
    procedure::Answers answers;
    for (auto it = object.begin(); it != object.end(); ++it)
        answers.insert(it.key(), it.value().toString());
    return answers;
}

class Judge {
public:
    Judge(const VisitState& state, const PersonId& by, const Stamp& now)
        : m_state(seenAt(state, now))
        , m_by(by)
        , m_person(m_state.ground ? m_state.person(by) : kNone)
        , m_now(now)
    {
    }

    Decision judge(const Body& asked)
    {
        m_body = asked;
        if (m_state.isReadOnly)
            no(Why::Kind::ReadOnly);
        else if (std::holds_alternative<Opening>(asked) != !m_state.ground)
            no(m_state.ground ? Why::Kind::Over : Why::Kind::NotOpened);
        else if (!m_state.end.isEmpty() && !std::holds_alternative<Addendum>(asked))
            no(Why::Kind::Over);
        else if (m_state.ground && m_person == kNone)
            no(Why::Kind::NotAuthorised);
        else if (m_state.ground && !m_state.isHere(m_person) && !isOpenToWhoLeft(asked))
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

    void operator()(const Opening& opening)
    {
        if (!groundOf(opening))
            return no(Why::Kind::UnknownName);
        if (opening.people.isEmpty() || !opening.people.first().mayLead || opening.people.first().id != m_by)
            no(Why::Kind::NotAuthorised);
    }

    void operator()(const RemovalTold&)
    {
        if (!m_state.removalsToTell.contains(by()))
            no(Why::Kind::NothingAsked);
    }

    void operator()(const Joined& joined)
    {
        const Index known = m_state.person(joined.person.id);
        const bool comesBack = known != kNone && !m_state.isHere(known);
        if (!comesBack && (known != kNone || m_state.people.size() >= machine::kMostPeople))
            no(Why::Kind::UnknownName);
        if (!joined.person.mayLead && !joined.person.mayAssist && !joined.person.maySupervise &&
            !joined.person.mayProve)
            no(Why::Kind::NotAuthorised);
    }

    void operator()(const Did& asked)
    {
        const SwapState* swap = m_state.swap(asked.swap);
        const procedure::Step* step = swap ? swap->step(asked.step) : nullptr;
        if (!step)
            return no(Why::Kind::UnknownName);
        if (m_state.isMakingSafe && step->effect != Effect::Sign)
            return no(Why::Kind::MakingSafe);
        judgeAuthority(step->effect, asked.countersignedBy);
        const NextStep next = nextStep(m_state, *swap, m_person);
        if (!m_state.isMakingSafe && next.step != step)
            return notYourTurn(next);

        Did did = asked;
        did.answers = withReadings(*swap, *step, asked.answers);
        const procedure::Answers answers = toAnswers(did.answers);
        const procedure::StepContext context = contextOf(m_state, *swap, m_person);
        machine::Act act = procedure::withAnswers(procedure::actOf(*step, context), *step, context, answers);
        takeTheWorse(act);
        judgeMatch(*swap, *step, act);
        if (step->effect == Effect::Sign) {
            act.custodyDecided = isCustodyDecided(m_state);
            act.answered = !m_state.hasOpenIncident();
        }
        if (step->effect == Effect::BookIn)
            judgeBookIn(*swap, did);
        if (step->effect == Effect::KeyController)
            judgeReadBack(act, answers);
        if (step->effect == Effect::MeasureScreen && !isCentreRead(m_state, *swap))
            no(Why::Kind::ScreenNotRead);
        judgeAnswers(*swap, *step, act, did, answers);
        judgeGearDates(act);
        if (!machine::isWhole(m_state.plant, act))
            return no(Why::Kind::UnknownName);
        judgeDemands(act, act);
        did.gatesWaiting = waitingGates(m_state, act);
        did.act.reset();
        if (step->effect != Effect::Look)
            did.act = toRecord(m_state, act);
        m_body = did;
    }

    void operator()(const Acted& asked)
    {
        Acted acted = asked;
        machine::Act act = toAct(m_state, asked.act);
        if (!machine::isWhole(m_state.plant, act) || !isOfOnePlace(act))
            return no(Why::Kind::UnknownName);
        if (isPersonal(act.effect)) {
            if (act.person != m_person)
                return no(Why::Kind::NotAuthorised);
            judgeGear(act, asked.answers);
        } else {
            judgeAuthority(act.effect, asked.countersignedBy);
            if (!isOpenTo(act))
                return no(Why::Kind::NotYourTurn);
        }
        takeTheWorse(act);
        acted.act = toRecord(m_state, act);
        judgeDemands(act, act);
        acted.gatesWaiting = waitingGates(m_state, act);
        m_body = acted;
    }

    void operator()(const Happened& happened)
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
        if (happened.incident == Incident::WillNotLight)
            judgeLampWork(); // it starts the wait with the fan
        const bool needsLamp =
            happened.incident == Incident::Burst || happened.incident == Incident::WrongLamp;
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

    void operator()(const IncidentAnswered& answered)
    {
        if (!m_state.machine.hurt) // then whoever is left ends the visit
            judgeLampWork();
        const auto found =
            std::find_if(m_state.incidents.begin(), m_state.incidents.end(),
                         [&](const IncidentState& one) { return one.entry == answered.incident; });
        if (found == m_state.incidents.end() || found->isAnswered)
            return no(Why::Kind::NothingAsked);
        if (answered.text.trimmed().isEmpty())
            no(Why::Kind::TextMissing);
    }

    void operator()(const LampRead& read)
    {
        judgeLampWork();
        if (m_state.ground->lamp(read.lamp) == kNone)
            no(Why::Kind::UnknownName);
        if (isSomebodyInGear())
            no(Why::Kind::NotYourTurn); // nothing is typed between gear-on and shut-housing
    }

    void operator()(const SerialPassed& passed)
    {
        judgeLampWork();
        const Index lamp = m_state.ground->lamp(passed.lamp);
        if (lamp == kNone)
            return no(Why::Kind::UnknownName);
        if (passed.pass.reason.trimmed().isEmpty())
            no(Why::Kind::TextMissing);
        const label::Agreement agreement = agreementOf(m_state, lamp);
        const bool isAsked =
            std::any_of(agreement.waits.begin(), agreement.waits.end(),
                        [](const label::Wait& wait) { return wait.canBePassedWithReason(); });
        if (!isAsked)
            no(Why::Kind::NothingAsked);
    }

    void operator()(const LightRead& read)
    {
        judgeLampWork();
        const SwapState* swap = m_state.swap(read.swap);
        const procedure::Step* step = swap ? swap->step(read.step) : nullptr;
        if (!step || !areAxes(*swap, read.others.keys()) ||
            (!read.axis.isEmpty() && !areAxes(*swap, {read.axis})) || (read.turns && read.axis.isEmpty()))
            return no(Why::Kind::UnknownName);
        if (!(read.value > 0))
            no(Why::Kind::AnswerBad);
        const bool isReplacing =
            std::any_of(m_state.light.begin(), m_state.light.end(), [&](const LightReading& one) {
                return one.entry == read.replaces && one.read.swap == read.swap;
            });
        if (read.replaces >= 0 && !isReplacing)
            no(Why::Kind::NothingAsked);
        judgeLight(*swap, *step);
    }

    void operator()(const LightSet& set)
    {
        judgeLampWork();
        const SwapState* swap = m_state.swap(set.swap);
        const procedure::Step* step = swap ? swap->step(set.step) : nullptr;
        if (!step || set.knobs.isEmpty() || !areAxes(*swap, set.knobs.keys()))
            return no(Why::Kind::UnknownName);
        judgeLight(*swap, *step);
    }

    void operator()(const ScreenRead& asked)
    {
        judgeLampWork();
        const SwapState* swap = m_state.swap(asked.swap);
        const procedure::Step* step = swap ? swap->step(asked.step) : nullptr;
        if (!step || asked.points.isEmpty())
            return no(Why::Kind::UnknownName);
        ScreenRead read = asked;
        read.time = sheetTimeNow(*swap);
        bool isCorrection = true;
        QSet<int> places;
        for (PointRead& point : read.points) {
            if (!photometry::Point::at(read.convention, point.place) ||
                places.contains(static_cast<int>(point.place)))
                return no(Why::Kind::UnknownName);
            if (!photometry::Luminance::from(point.value, read.unit))
                return no(Why::Kind::AnswerBad);
            places.insert(static_cast<int>(point.place));
            point.replaces = entryOf(read, point.place);
            isCorrection = isCorrection && point.replaces >= 0;
        }
        if (!isCorrection) // a slip of the keyboard is put right with the lamp out, too
            judgeScreen(*swap);
        m_body = read;
    }

    void operator()(const ScreenConditions& asked)
    {
        judgeLampWork();
        const SwapState* swap = m_state.swap(asked.swap);
        if (!swap || !swap->step(asked.step))
            return no(Why::Kind::UnknownName);
        ScreenConditions said = asked;
        said.time = sheetTimeNow(*swap);
        const LitClaim lit = litClaimOf(m_state, *swap, asked.conditions.lit, m_now);
        said.conditions.lit = lit.lit;
        if (!photometry::impossibleIn(asked.conditions).empty() || lit.isTooLong ||
            !isWithin(said.lumens, photometry::kMostLumens) || !isWithin(said.gain, photometry::kMostGain) ||
            !isWithin(said.transmission, photometry::kMostTransmission))
            no(Why::Kind::AnswerBad);
        m_body = said;
    }

    void operator()(const ScreenLimits& limits)
    {
        judgeLampWork();
        const SwapState* swap = m_state.swap(limits.swap);
        if (!swap || !swap->step(limits.step) || limits.set.id.isEmpty())
            no(Why::Kind::UnknownName);
    }

    void operator()(const FanAnswered& answered)
    {
        judgeLampWork();
        const Index lamphouse = m_state.ground->lamphouse(answered.lamphouse);
        if (lamphouse == kNone)
            return no(Why::Kind::UnknownName);
        if (!m_state.waits[lamphouse].cool.asksForFan)
            no(Why::Kind::NothingAsked);
    }

    void operator()(const Owed& owed)
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

    void operator()(const Withdrawn& withdrawn)
    {
        judgeLampWork();
        if (withdrawn.reason.trimmed().isEmpty())
            no(Why::Kind::TextMissing);
        const bool isAct = m_state.acts.contains(withdrawn.entry);
        const bool isStep = m_state.stepsByEntry.contains(withdrawn.entry);
        const bool isLight =
            std::any_of(m_state.light.begin(), m_state.light.end(),
                        [&](const LightReading& one) { return one.entry == withdrawn.entry; });
        const bool isLightSet =
            std::any_of(m_state.lightSets.begin(), m_state.lightSets.end(),
                        [&](const LightSetting& one) { return one.entry == withdrawn.entry; });
        const bool isSheet = std::any_of(m_state.sheets.begin(), m_state.sheets.end(),
                                         [&](const SheetLine& one) { return one.entry == withdrawn.entry; });
        if (m_state.withdrawn.contains(withdrawn.entry) ||
            (!isAct && !isStep && !isLight && !isLightSet && !isSheet) ||
            (isAct && !machine::canWithdraw(m_state.acts.value(withdrawn.entry).effect)))
            no(Why::Kind::CannotWithdraw);
    }

    void operator()(const Noted& noted)
    {
        if (noted.text.trimmed().isEmpty())
            no(Why::Kind::TextMissing);
    }

    void operator()(const PictureKept&) {}
    void operator()(const Resumed&) {}

    void operator()(const SafeBegun&)
    {
        if (m_state.isMakingSafe)
            no(Why::Kind::MakingSafe);
    }

    void operator()(const PassedOn& passed)
    {
        const Index from = m_state.person(passed.from);
        const Index to = m_state.person(passed.to);
        if (from == kNone || to == kNone || from != m_state.lead || passed.to != m_by)
            return no(Why::Kind::UnknownName);
        if (!m_state.people[to].mayLead)
            return no(Why::Kind::NotAuthorised);
        machine::Event event;
        event.what = machine::Happening::PassedOn;
        event.person = from;
        event.to = to;
        if (machine::canHappen(m_state.plant, m_state.machine, event))
            return;
        for (Index lamphouse = 0; lamphouse < m_state.plant.lamphouses; ++lamphouse) {
            demand(machine::Demand::AllShut, machine::isShut(m_state.machine, lamphouse), lamphouse);
            demand(machine::Demand::ZonesEmpty,
                   machine::isZoneEmpty(m_state.plant, m_state.machine, lamphouse), lamphouse);
            demand(machine::Demand::NoneLoose,
                   !machine::hasLooseLamp(m_state.plant, m_state.machine, lamphouse), lamphouse);
            const auto& locks = m_state.machine.group[m_state.plant.lamphouse[lamphouse].group].locks;
            demand(machine::Demand::OwnLock, !machine::has(locks, from) || machine::has(locks, to),
                   lamphouse);
        }
        if (m_refusal.whys.isEmpty())
            no(Why::Kind::CannotHappen);
    }

    /// By whoever goes, or by whoever leads, of somebody who has gone already.
    void operator()(const Left& left)
    {
        const Index person = m_state.person(left.person);
        if (person == kNone)
            return no(Why::Kind::UnknownName);
        if (!m_state.isHere(person))
            return no(Why::Kind::NothingAsked);
        if (person != m_person && m_person != m_state.lead)
            no(Why::Kind::NotAuthorised);
        if (person == m_state.lead)
            no(Why::Kind::IsLead);
        const machine::PersonState& body = m_state.machine.person[person];
        if (body.at != kNone)
            no(Why::Kind::StillInZone);
        if (body.gear != machine::Gear::Off)
            no(Why::Kind::StillInGear);
        if (holdsLock(person))
            no(Why::Kind::StillLocked);
        demand(machine::Demand::OneBare, staysGuarded(person), kNone);
    }

    void operator()(const LockRemoved& removed)
    {
        const Index supervisor = m_state.person(removed.supervisor);
        machine::Event event;
        event.what = machine::Happening::LockRemoved;
        event.person = m_state.person(removed.owner);
        event.lamphouse = m_state.ground->lamphouse(removed.lamphouse);
        if (event.person == kNone || event.lamphouse == kNone || supervisor == kNone)
            return no(Why::Kind::UnknownName);
        if (!m_state.isHere(supervisor))
            no(Why::Kind::NotHere);
        // Two people stand for it: the supervisor, and whoever is at the lock (and writes this).
        if (!m_state.people[supervisor].maySupervise || removed.supervisor == removed.owner ||
            removed.supervisor == m_by || m_by == removed.owner)
            no(Why::Kind::NotAuthorised);
        if (removed.absence.trimmed().isEmpty() || removed.attempts.trimmed().isEmpty())
            no(Why::Kind::TextMissing);
        if (!machine::canHappen(m_state.plant, m_state.machine, event))
            whyNotRemoved(event.person, m_state.plant.lamphouse[event.lamphouse].group);
    }

    void operator()(const CustodyDecided& decided)
    {
        judgeLampWork();
        const Index lamp = m_state.ground->lamp(decided.lamp);
        const auto custody = lamps::custodyFromWord(decided.custody);
        if (lamp == kNone || !custody)
            return no(Why::Kind::UnknownName);
        const machine::Place place = m_state.machine.lamp[lamp].place;
        const lamps::Custody from = place == machine::Place::Burst       ? lamps::Custody::Burst
                                    : place == machine::Place::SealedBox ? lamps::Custody::InVan
                                                                         : lamps::Custody::Boxed;
        if (!lamps::canMove(from, *custody))
            no(Why::Kind::CannotHappen);
    }

    void operator()(const Signed& signature)
    {
        if (!people::meaningFromWord(signature.meaning.toStdString()))
            return no(Why::Kind::UnknownName);
        if (signature.meaning == u"performed"_s && !m_state.people[m_person].mayLead)
            no(Why::Kind::NotAuthorised);
    }

    void operator()(const SiteSigned& signature)
    {
        if (signature.name.trimmed().isEmpty())
            no(Why::Kind::TextMissing);
    }

    void operator()(const Closed& asked)
    {
        Closed closed = asked;
        closed.end = endWord();
        m_body = closed;
        if (m_state.machine.hurt)
            return; // nobody is waited for, and nothing
        const bool isPerformed =
            std::any_of(m_state.signatures.begin(), m_state.signatures.end(),
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

    void operator()(const Addendum& addendum)
    {
        if (addendum.text.trimmed().isEmpty())
            no(Why::Kind::TextMissing);
    }

    void operator()(const Unknown&) { no(Why::Kind::ReadOnly); }

private:
    const PersonId& by() const { return m_by; }

    /// Whoever has not been told yet that their lock was removed can still say what went wrong and do what
    /// makes the machine safer.
    static bool isOpenUntold(const Body& asked)
    {
        if (const auto* acted = std::get_if<Acted>(&asked))
            return machine::isSafeWard(acted->act.effect) && acted->act.effect != Effect::LockOn;
        return std::holds_alternative<Opening>(asked) || std::holds_alternative<RemovalTold>(asked) ||
               std::holds_alternative<Happened>(asked);
    }

    /// Danger is told by whoever sees it, a remark is added by whoever was there, and one comes back oneself.
    /// That a lamp went out starts its wait with the fan: hearsay shortens nothing.
    bool isOpenToWhoLeft(const Body& asked) const
    {
        if (const auto* joined = std::get_if<Joined>(&asked))
            return joined->person.id == m_by; // perhaps nobody else is here to say so
        if (const auto* happened = std::get_if<Happened>(&asked))
            return happened->incident != Incident::WillNotLight;
        return std::holds_alternative<Addendum>(asked);
    }

    /// Not more lamphouses stand open than engineers stay, when this one goes.
    bool staysGuarded(Index leaves) const
    {
        int open = 0;
        for (Index lamphouse = 0; lamphouse < m_state.plant.lamphouses; ++lamphouse)
            open += m_state.machine.lamphouse[lamphouse].guardOpen ? 1 : 0;
        int stay = 0;
        for (Index person = 0; person < m_state.plant.people; ++person)
            stay += person != leaves && m_state.plant.person[person].authorised ? 1 : 0;
        return open == 0 || open <= stay || !m_state.plant.person[leaves].authorised;
    }

    /// Whoever is in a zone is not away; the last authorised lock comes off a machine that is left in order.
    void whyNotRemoved(Index owner, Index group)
    {
        if (!machine::has(m_state.machine.group[group].locks, owner))
            return no(Why::Kind::CannotHappen);
        demand(machine::Demand::NobodyHurt, !m_state.machine.hurt, kNone);
        demand(machine::Demand::ZonesEmpty, m_state.machine.person[owner].at == kNone, kNone);
        for (Index lamphouse = 0; lamphouse < m_state.plant.lamphouses; ++lamphouse) {
            if (m_state.plant.lamphouse[lamphouse].group != group)
                continue;
            const machine::LamphouseState& here = m_state.machine.lamphouse[lamphouse];
            demand(machine::Demand::AllShut, machine::isShut(m_state.machine, lamphouse), lamphouse);
            demand(machine::Demand::ZonesEmpty,
                   machine::isZoneEmpty(m_state.plant, m_state.machine, lamphouse), lamphouse);
            demand(machine::Demand::NoneLoose,
                   !machine::hasLooseLamp(m_state.plant, m_state.machine, lamphouse), lamphouse);
            demand(machine::Demand::NoneLit, here.heat != machine::Heat::Lit, lamphouse);
            demand(machine::Demand::CountsAnswered,
                   here.count != machine::Counting::Due && here.count != machine::Counting::Differs,
                   lamphouse);
        }
        if (m_refusal.whys.isEmpty())
            no(Why::Kind::CannotHappen);
    }

    bool holdsLock(Index person) const
    {
        const auto& machine = m_state.machine;
        return std::any_of(machine.group.begin(), machine.group.end(),
                           [&](const auto& group) { return machine::has(group.locks, person); }) ||
               std::any_of(machine.point.begin(), machine.point.end(),
                           [&](const auto& point) { return point.jobLock == person; });
    }

    /// One more thing that has to be so first, each once.
    void demand(machine::Demand demand, bool holds, Index lamphouse)
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

    void no(Why::Kind kind) { m_refusal.whys.append(Why{kind, {}, {}, {}, kNone, {}}); }

    void notYourTurn(const NextStep& next)
    {
        Why why;
        why.kind = Why::Kind::NotYourTurn;
        why.step = next.step ? next.step->id : StepId();
        m_refusal.whys.append(why);
        m_refusal.act = next.act;
        m_refusal.unmet = next.unmet;
    }

    QString endWord() const
    {
        if (!m_state.isMakingSafe)
            return u"done"_s;
        machine::SafeEnd worst = machine::SafeEnd::AsItWas;
        for (Index lamphouse = 0; lamphouse < m_state.plant.lamphouses; ++lamphouse)
            worst = std::max(worst, machine::safeEnd(m_state.plant, m_state.machine,
                                                     m_state.plant.lamphouse[lamphouse].group));
        static constexpr std::array<const char*, 3> kEnds{"as-it-was", "as-it-is", "out-of-use"};
        return QString::fromLatin1(kEnds[static_cast<std::size_t>(worst)]);
    }

    bool isSomebodyInGear() const
    {
        return std::any_of(m_state.machine.person.begin(), m_state.machine.person.end(),
                           [](const machine::PersonState& person) { return person.at != kNone; });
    }

    bool isLeaderHere() const
    {
        for (Index person = 0; person < m_state.plant.people; ++person) {
            if (m_state.people[person].mayLead && m_state.isHere(person))
                return true;
        }
        return false;
    }

    /// What is read of a lamp, put off or decided about it is said by whoever may lead or assist.
    void judgeLampWork()
    {
        if (!m_state.people[m_person].worksOnLamps())
            no(Why::Kind::NotAuthorised);
    }

    /// Every one of them is a knob of the swap's lamphouse.
    bool areAxes(const SwapState& swap, const QStringList& words) const
    {
        const QList<catalogue::AxisDrive> drives = m_state.ground->model(swap.lamphouse).axes;
        return std::all_of(words.begin(), words.end(), [&](const QString& word) {
            return std::any_of(drives.begin(), drives.end(), [&](const catalogue::AxisDrive& drive) {
                return catalogue::wordOf(drive.axis) == word;
            });
        });
    }

    /// A look at the lamp that still settles needs what the first search needs.
    void judgeLight(const SwapState& swap, const procedure::Step& step)
    {
        machine::Act act = hopefulAct(m_state, swap, step, m_person);
        if (act.effect == Effect::Settle)
            act.effect = Effect::Peak;
        judgeDemands(act, {});
    }

    /// Under the new lamp the screen is measured as the step asks; on arrival nothing is known to be off.
    void judgeScreen(const SwapState& swap)
    {
        const machine::Heat heat = m_state.machine.lamphouse[swap.lamphouse].heat;
        if (sheetTimeNow(swap) == SheetTime::Arrival) {
            if (heat != machine::Heat::Lit && heat != machine::Heat::Unknown)
                no(Why::Kind::CannotHappen);
            return;
        }
        machine::Act act;
        act.effect = Effect::MeasureScreen;
        act.person = m_person;
        act.lamphouse = swap.lamphouse;
        judgeDemands(act, {});
    }

    /// Number of the entry that says something of this point of this sheet already; -1 where none does.
    qint64 entryOf(const ScreenRead& read, photometry::Place place) const
    {
        const SheetOfSwap sheet = sheetOf(m_state, read.swap, read.time);
        for (const std::vector<SheetPoint>* points : {&sheet.points, &sheet.elsewhere}) {
            for (const SheetPoint& one : *points) {
                if (one.convention == read.convention && one.read.place == place)
                    return one.entry;
            }
        }
        return -1;
    }

    static bool isWithin(const std::optional<double>& value, double most)
    {
        return !value || (*value > 0 && *value <= most);
    }

    /// "Agrees" is not taken when the type chosen beside it is another one: that setting chooses the current.
    void judgeReadBack(const machine::Act& act, const procedure::Answers& answers)
    {
        const QString read = label::normalise(answers.value(u"type"_s));
        const std::optional<LampTypeId> booked = agreementOf(m_state, act.lamp).type;
        const catalogue::LampType* type = booked ? m_state.ground->catalogue.lampType(*booked) : nullptr;
        if (act.outcome != Outcome::Agrees || read.isEmpty() || !type || read == label::normalise(type->code))
            return;
        Why why;
        why.kind = Why::Kind::AnswerBad;
        why.capture = u"type"_s;
        m_refusal.whys.append(why);
    }

    /// Absence is proved by whom the site lets, beside somebody who leads: it is no lamp work.
    void judgeAuthority(Effect effect, const PersonId& countersigner)
    {
        const PersonFacts& person = m_state.people[m_person];
        if (person.mayLead || machine::isSafeWard(effect))
            return;
        if (effect == Effect::ProveAbsence && person.mayProve) {
            if (!isLeaderHere())
                no(Why::Kind::NeedsSupervision);
            return;
        }
        if (!person.mayAssist)
            return no(Why::Kind::NotAuthorised);
        if (!isLeaderHere())
            return no(Why::Kind::NeedsSupervision);
        if (!isDangerous(effect))
            return;
        const Index other = m_state.person(countersigner);
        if (other == kNone || other == m_person || !m_state.people[other].mayLead || !m_state.isHere(other))
            no(Why::Kind::NeedsCountersign);
    }

    /// A breaker that looks off while a lamp on it burns is not the one that feeds it: it counts as on.
    void takeTheWorse(machine::Act& act) const
    {
        if (act.effect != Effect::Find)
            return;
        for (Index point = 0; point < m_state.plant.points; ++point) {
            for (Index lamphouse = 0; lamphouse < m_state.plant.lamphouses; ++lamphouse) {
                const bool isLit = lamphouse == act.lamphouse
                                       ? act.seen.lit
                                       : m_state.machine.lamphouse[lamphouse].heat == machine::Heat::Lit;
                if (isLit && machine::has(m_state.plant.point[point].feeds, lamphouse))
                    act.seen.pointsOff =
                        static_cast<machine::Mask>(act.seen.pointsOff & ~machine::maskOf(point));
            }
        }
    }

    /// Point and lamp belong to the lamphouse that the act names, and only an act on a point names one: what
    /// is judged of one place is never done at another.
    bool isOfOnePlace(const machine::Act& act) const
    {
        const bool isOnPoint = act.effect == Effect::Isolate || act.effect == Effect::LockOn ||
                               act.effect == Effect::JobLockOff || act.effect == Effect::Restore;
        if (act.lamphouse == kNone)
            return act.point == kNone && act.lamp == kNone;
        if (act.point != kNone && (!isOnPoint || m_state.plant.point[act.point].group !=
                                                     m_state.plant.lamphouse[act.lamphouse].group))
            return false;
        return act.lamp == kNone || m_state.plant.lamp[act.lamp].lamphouse == act.lamphouse;
    }

    /// Outside the procedure's order stand what is safe-ward, what makes safe, and what puts a doubted point
    /// right.
    bool isOpenTo(const machine::Act& act) const
    {
        if (machine::isSafeWard(act.effect) || act.effect == Effect::Find || act.effect == Effect::LampOff)
            return true;
        const Index group = act.point != kNone ? m_state.plant.point[act.point].group
                                               : m_state.plant.lamphouse[act.lamphouse].group;
        const machine::SafeStep putRight =
            machine::nextPutRightStep(m_state.plant, m_state.machine, group, m_state.lead);
        const machine::SafeStep safe =
            machine::nextSafeStep(m_state.plant, m_state.machine, group, m_state.lead);
        return isTheSame(putRight, act) || (m_state.isMakingSafe && isTheSame(safe, act));
    }

    static bool isTheSame(const machine::SafeStep& step, const machine::Act& act)
    {
        return step.kind == machine::SafeStep::Kind::Do && step.act.effect == act.effect &&
               step.act.lamphouse == act.lamphouse && step.act.point == act.point &&
               step.act.lamp == act.lamp;
    }

    void judgeDemands(const machine::Act& act, const machine::Act& answered)
    {
        if (tellsOfDanger(answered))
            return;
        const machine::Unmet unmet = machine::unmet(m_state.plant, m_state.machine, act);
        if (unmet.none())
            return;
        m_refusal.act = act;
        m_refusal.unmet |= unmet;
        for (int demand = 0; demand < machine::kDemands; ++demand) {
            if (!unmet.test(static_cast<std::size_t>(demand)))
                continue;
            Why why;
            why.kind = Why::Kind::Demand;
            why.demand = static_cast<machine::Demand>(demand);
            why.lamphouse = act.lamphouse;
            m_refusal.whys.append(why);
        }
        for (Index lamphouse = 0; lamphouse < m_state.plant.lamphouses; ++lamphouse) {
            if (!m_state.waits[lamphouse].cool.asksForFan)
                continue;
            Why why;
            why.kind = Why::Kind::FanQuestion;
            why.lamphouse = lamphouse;
            m_refusal.whys.append(why);
        }
    }

    /// What was typed of each source stands in entries of its own; the step's answers repeat it.
    QJsonObject withReadings(const SwapState& swap, const procedure::Step& step, QJsonObject answers) const
    {
        if (step.effect != Effect::MatchBox && step.effect != Effect::BookIn)
            return answers;
        const LampPaper paper = m_state.papers.value(m_state.ground->lamps[swap.newLamp].id);
        static const QHash<QString, label::Source> kSources{{u"box"_s, label::Source::Box},
                                                            {u"paper"_s, label::Source::Paper},
                                                            {u"entry"_s, label::Source::Entry},
                                                            {u"marking"_s, label::Source::OwnMarking}};
        for (const procedure::Capture& capture : step.captures) {
            const QString source = capture.id.section(u'-', 0, 0);
            if ((capture.kind != procedure::CaptureKind::Type &&
                 capture.kind != procedure::CaptureKind::Serial) ||
                !kSources.contains(source))
                continue;
            answers.remove(capture.id);
            for (const label::Reading& reading : paper.readings) {
                if (reading.source == kSources.value(source))
                    answers.insert(capture.id, capture.kind == procedure::CaptureKind::Type ? reading.type
                                                                                            : reading.serial);
            }
        }
        return answers;
    }

    void judgeMatch(const SwapState& swap, const procedure::Step& step, machine::Act& act)
    {
        if (step.effect != Effect::MatchBox && step.effect != Effect::BookIn)
            return;
        const label::Agreement agreement = agreementOf(m_state, swap.newLamp);
        const int needed = step.effect == Effect::MatchBox ? 1 : 2;
        if (agreement.proved() >= needed) {
            act.outcome = step.effect == Effect::MatchBox ? Outcome::Agrees : Outcome::Plain;
            return;
        }
        for (const label::Wait& wait : agreement.waits) {
            if (wait.step > needed)
                continue;
            Why why;
            why.kind = Why::Kind::NotMatched;
            why.label = wait;
            m_refusal.whys.append(why);
        }
        if (agreement.waits.isEmpty())
            no(Why::Kind::NotMatched);
    }

    void judgeBookIn(const SwapState& swap, const Did& did)
    {
        const label::Agreement agreement = agreementOf(m_state, swap.newLamp);
        const catalogue::LampType* type =
            agreement.type ? m_state.ground->catalogue.lampType(*agreement.type) : nullptr;
        bool isNumber = false;
        const double threshold = did.answers.value(u"threshold"_s).toString().toDouble(&isNumber);
        const Index other = m_state.person(did.countersignedBy);
        const bool isCountersigned =
            other != kNone && other != m_person && m_state.isHere(other) && m_state.people[other].mayAgree();
        const lamps::ThresholdVerdict verdict = lamps::thresholdVerdict(
            isNumber ? threshold : -1, type ? type->warrantyHours : 0, did.reason,
            isCountersigned ? lamps::Countersign::Given : lamps::Countersign::Missing);
        if (!verdict.isTaken())
            no(Why::Kind::Threshold);
    }

    void judgeAnswers(const SwapState& swap, const procedure::Step& step, const machine::Act& act, Did& did,
                      const procedure::Answers& answers)
    {
        if (step.stop) {
            if (!mayAnswer(m_state, swap, step, m_person))
                no(Why::Kind::NotOthers);
            did.reopened = reopenedBy(m_state, swap, step, answers);
        }
        for (const QString& id : procedure::standsAgainst(step, answers)) {
            const procedure::Capture* capture = step.capture(id);
            const bool isMissing = answers.value(id).isEmpty();
            if (isMissing && capture && capture->kind == procedure::CaptureKind::Picture)
                continue; // a picture that could not be taken is not a reason to stop
            if (step.stop && !isMissing)
                continue; // a wrong answer is taken down and opens its step again
            const bool isProof = provesSomething(step.effect) && act.outcome == Outcome::Plain;
            if (tellsOfDanger(act) || (machine::isSafeWard(step.effect) && !isProof))
                continue;
            Why why;
            why.kind = isMissing ? Why::Kind::AnswerMissing : Why::Kind::AnswerBad;
            why.capture = id;
            if (isMissing || provesSomething(step.effect))
                m_refusal.whys.append(why);
        }
    }

    /// Whatever the wearer says of it: an item past its date is not put on.
    void judgeGearDates(const machine::Act& act)
    {
        if (act.effect != Effect::GearOn || m_state.isMakingSafe)
            return;
        for (const QString& kind : m_state.people[m_person].unfitGear) {
            Why why;
            why.kind = Why::Kind::GearPastDate;
            why.capture = kind;
            m_refusal.whys.append(why);
        }
    }

    /// Gear is on only after it was gone through item by item, once per person and lamphouse and again when
    /// something of it changed; after that coming back in is one press. Making safe asks nobody to wait.
    void judgeGear(const machine::Act& act, const QJsonObject& answers)
    {
        judgeGearDates(act);
        if (act.effect != Effect::GearOn || m_state.isMakingSafe ||
            machine::has(m_state.wholeGear[act.person], act.lamphouse))
            return;
        for (const SwapState& swap : m_state.swaps) {
            for (const procedure::Step& step : swap.steps) {
                if (step.effect != Effect::GearOn ||
                    m_state.ground->models[swap.lamphouse] != m_state.ground->models[act.lamphouse])
                    continue;
                const procedure::Answers given = toAnswers(answers);
                for (const QString& id : procedure::standsAgainst(step, given)) {
                    Why why;
                    why.kind = given.value(id).isEmpty() ? Why::Kind::AnswerMissing : Why::Kind::AnswerBad;
                    why.capture = id;
                    m_refusal.whys.append(why);
                }
                return;
            }
        }
        no(Why::Kind::AnswerMissing);
    }

    static bool provesSomething(Effect effect)
    {
        return effect == Effect::GearOn || effect == Effect::LockOn || effect == Effect::Relieve;
    }

    VisitState m_state;
    PersonId m_by;
    Index m_person;
    Stamp m_now;
    Body m_body;
    Refusal m_refusal;
};

} // namespace

bool Refusal::has(Why::Kind kind) const
{
    return std::any_of(whys.begin(), whys.end(), [&](const Why& why) { return why.kind == kind; });
}

Decision decide(const VisitState& state, const PersonId& by, const Body& asked, const Stamp& now)
{
    return Judge(state, by, now).judge(asked);
}

} // namespace coldarc::visit
