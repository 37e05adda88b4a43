#include "ui/visit/words_demand.h"

#include <QCoreApplication>

#include <array>

namespace coldarc::ui {

namespace {

using D = machine::Demand;

struct Row {
    D demand;
    const char* shortly;
    const char* way;
};

// In the order of the enumeration; the tests hold it to that.
constexpr std::array<Row, machine::kDemands> kRows{{
    {D::Found, "first look",
     "Not looked at yet: look at every lamphouse on these breakers first, and say what is seen."},
    {D::NotLeftExposed, "shut what was left open",
     "Found standing open: shut it first, geared; until then only what makes it safer can be done."},
    {D::NobodyHurt, "nobody hurt", "Somebody was hurt: nothing is lit and no lock comes off in this visit."},
    {D::Lit, "lamp lit", "The lamp is not lit: this is done while it burns."},
    {D::NotLit, "lamp off", "The lamp burns: put it out first and let the fan run."},
    {D::NoneLit, "lamps off",
     "A lamp on these breakers burns: put out every lamp that they feed, and let the fans run."},
    {D::Cold, "Cold", "Cold: the wait since the lamp went off is not over, the fan must keep running."},
    {D::ProjectorCold, "Cold",
     "Cold: another lamphouse of this projector still cools, its fan must keep running."},
    {D::FedCold, "Cold",
     "Cold: a lamp that this breaker feeds still cools; its fan would stop with the breaker."},
    {D::ProjectorsNotOn, "standby",
     "The projector is on: bring it to standby before its breaker is switched off."},
    {D::ProjectorOn, "projector on", "The projector is off: switch it on first."},
    {D::ProjectorOff, "projector off", "The projector is on already."},
    {D::ToldBefore, "people told", "Nobody was told yet: tell the people here that power goes off."},
    {D::ToldAgain, "people told again",
     "Nobody was told again: tell the people here, once more, that it will be lit."},
    {D::PointNotDoubted, "isolated anew",
     "This breaker proved wrong tonight: put it right first, from lamp off to isolating anew."},
    {D::PointsOff, "switched off",
     "The breaker stands on: switch it off first, a lock goes on one that is off."},
    {D::PointsTakeLocks, "takes a lock",
     "This breaker takes no lock, so it does not prove Dead: isolate at one that can be locked."},
    {D::NotHeld, "their lock",
     "Somebody who is not of this visit holds it by their lock or tag: only they take it off. Then look "
     "again."},
    {D::PointsLocked, "locks",
     "A lock is missing: every breaker that feeds this lamphouse stands off, with a lock on it and your own "
     "lock in place."},
    {D::LocksSeen, "a look at the locks",
     "Nobody has watched for a while: say first whether locks, breakers and lamp are as they were left."},
    {D::PointsOn, "breakers on", "A breaker of this projector is off: switch on every one of them first."},
    {D::NoLock, "locks off", "A lock hangs there: it comes off first, by the hand that hung it."},
    {D::NoPersonalLock, "own locks off",
     "Somebody's own lock hangs there: it comes off first, by its owner."},
    {D::OwnLock, "own lock", "Your own lock does not hang there: hang it first."},
    {D::AuthorisedLock, "an engineer's lock",
     "No engineer's lock hangs there: an engineer hangs their own before anything is opened."},
    {D::LockHeld, "own lock on", "No lock of yours hangs there, so there is none to take off."},
    {D::JobLockHeld, "its holder", "The job lock was hung by somebody else: whoever hung it takes it off."},
    {D::LastLockLast, "trainee's lock first",
     "An authorised lock comes off last: the trainee's own lock goes first."},
    {D::GearOffIfNotLast, "gear off", "Others stay locked in: take your gear off before your lock."},
    {D::Relieved, "charge run down",
     "The stored charge has not run down: hold the wait with everything shut."},
    {D::SupplySeen, "supply seen",
     "The supply was not seen present: put the tester on the incoming side, or see another load of the board "
     "run, in this same step."},
    {D::StartTried, "start tried",
     "No start was tried: everything shut, everyone back, try to start it; no response proves it."},
    {D::Absent, "voltage",
     "Voltage is not proved absent: measure at the test point, the tester proved before and after."},
    {D::AbsentBehind, "voltage inside",
     "Voltage behind the guard is not proved absent since it was opened: measure there."},
    {D::TesterProved, "tester proved",
     "The tester was not proved: prove it on a known voltage before and after the reading."},
    {D::MayProve, "somebody who may prove",
     "This site does not let you prove the absence of voltage: somebody who may does it."},
    {D::TestReachable, "cover off",
     "The test point cannot be reached: the cover over it comes off first, and you stand at it."},
    {D::GearedIfOpen, "gear",
     "The guard stands open: everyone in the zone has gear on and an own lock, or stays out."},
    {D::Geared, "gear",
     "Geared: somebody is in the zone, and each one there has gear on and an own lock; say whose is "
     "missing."},
    {D::GearSigned, "gear on", "Your gear is not signed for this lamphouse: put it on and say so."},
    {D::InZone, "somebody in the zone", "You are not in the zone: step in first, geared."},
    {D::Outside, "out of the zone", "You are in a zone: step out first."},
    {D::ZonesEmpty, "zone empty", "Somebody is in the zone: everyone steps out first."},
    {D::StaysWithOpen, "guard shut",
     "You are the last one there and the guard is open: shut the guard before you leave."},
    {D::OneBare, "other lamphouse shut",
     "Another lamphouse stands open: one at a time for each authorised engineer; shut that one first."},
    {D::Shut, "shut", "It stands open: shut guard and housing first."},
    {D::AllShut, "all shut", "A lamphouse on these breakers stands open: shut every one first."},
    {D::ProjectorShut, "projector shut", "A lamphouse of this projector stands open: shut it first."},
    {D::HousingShut, "housing shut", "The housing stands open already."},
    {D::HousingOpen, "housing open", "The housing is shut: open it first."},
    {D::GuardShut, "guard shut", "The guard stands open: shut it first."},
    {D::GuardOpen, "guard open", "The guard is shut: this is done with the guard open."},
    {D::NoLooseLamp, "lamp away",
     "A lamp is loose here: box it, or set and clamp it, before the guard goes over it."},
    {D::NoneLoose, "lamps away", "A lamp is loose on these breakers: box it, or set and clamp it, first."},
    {D::NoBareLamp, "seat empty",
     "A lamp is bare here: one at a time; the one in the seat or in hand goes into its box first."},
    {D::NoOtherBare, "hands free", "Another lamp is in hand: it goes into its box first."},
    {D::SeatEmpty, "seat empty", "The seat is taken: the lamp in it comes out first."},
    {D::SeatFull, "lamp in the seat", "The seat is empty: there is no lamp to take out."},
    {D::SeatEntered, "lamp set in", "No loose lamp is in the seat: set one in first."},
    {D::SeatClamped, "lamp clamped", "No lamp is clamped in the seat: set it in and clamp it first."},
    {D::LampInHand, "lamp in hand", "That lamp is not in hand: take it out of its seat or box first."},
    {D::LampSealed, "box still shut",
     "The box was opened already: label and paper are read from the closed box."},
    {D::LampNotUsed, "a lamp fit for use",
     "This lamp is not to be used: unfit, out of its box elsewhere, or past its end; take another one."},
    {D::NotBarred, "inspection",
     "A lamp burst here or is unfit in the seat: nothing is lit here tonight, it is tagged out of use."},
    {D::AdaptorOnIt, "adaptor on the lamp", "The adaptor is not on this lamp."},
    {D::AdaptorLaidBy, "adaptor at hand",
     "The adaptor is not laid by: take it off the other lamp first, or report it as missing."},
    {D::CountsAnswered, "count", "Tools and fasteners: count them back, and answer any difference."},
    {D::Matched, "type and serial",
     "Matched: box or paper, entry and own marking must agree in type and serial, and the model takes it."},
    {D::LampKnown, "lamp booked in",
     "The lamp in the seat is neither booked in nor found below its end: book it in first."},
    {D::ReadBack, "type read back",
     "The projector's controller does not name this lamp's type: key it in and read it back."},
    {D::SeatingSeen, "polarity, seating",
     "Polarity and seating were not seen right: open again, look at both ends, and answer."},
    {D::AdaptorRight, "adaptor as the type needs",
     "The adaptor does not suit this lamp's type: put it on or leave it off as the type needs."},
    {D::DowserShut, "dowser shut", "The dowser is open: shut it before the lamp is struck."},
    {D::DowserOpen, "dowser open", "The dowser is shut: open it first."},
    {D::ExtractionOn, "extraction", "The extraction is off: start it first."},
    {D::PauseOver, "pause",
     "The pause after the last strike is not over: hold it, the fan must keep running."},
    {D::StrikesLeft, "strikes left",
     "Struck as often as the model allows: no more tonight; make it safe and look inside another time."},
    {D::Settled, "Settled", "Settled: the light has not settled yet, leave it lit."},
    {D::IsolatedAndLocked, "off and locked",
     "Not isolated: every breaker off, locked as far as it takes a lock, before the tag goes on."},
    {D::NothingLeft, "nothing left open",
     "Something is left: every lamphouse shut, nobody in a zone, breakers on and free of locks, or off and "
     "locked under a tag."},
    {D::CustodyDecided, "where each lamp goes",
     "A lamp has no place yet: say of each one that came out where it goes."},
    {D::Answered, "incidents answered",
     "Something that went wrong is not answered yet: say what was done about it."},
}};

QString words(const char* text)
{
    return QCoreApplication::translate("demand", text);
}

const Row& rowOf(D demand)
{
    return kRows[static_cast<std::size_t>(demand)];
}

} // namespace

QString shortWordsOf(machine::Demand demand)
{
    Q_ASSERT_X(rowOf(demand).demand == demand, "shortWordsOf", "one row for each demand, in their order");
    return words(rowOf(demand).shortly);
}

QString wayOf(machine::Demand demand)
{
    Q_ASSERT_X(rowOf(demand).demand == demand, "wayOf", "one row for each demand, in their order");
    return words(rowOf(demand).way);
}

QString nameOf(machine::Gate gate)
{
    static constexpr std::array<const char*, 6> kNames{"Cold",    "Dead",    "Geared",
                                                       "Matched", "Settled", "Order of the work"};
    return words(kNames[static_cast<std::size_t>(gate)]);
}

QString waitsForAnswers(qsizetype open)
{
    return open == 1 ? QCoreApplication::translate("demands", "Waits for one answer")
                     : QCoreApplication::translate("demands", "Waits for %1 answers").arg(open);
}

} // namespace coldarc::ui
