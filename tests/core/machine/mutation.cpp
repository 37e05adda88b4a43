// Which demand is good for what: each one is dropped in turn. A demand that breaks nothing alone is listed
// with the reason why it stands there.

#include "tests/core/machine/mutation.h"

namespace coldarc::test {

using namespace machine;
using D = Demand;

namespace {

constexpr Needed kNeeds[] = {
    {D::Found, "Found", "PairPlain", "switched, locked in or tried something that nobody had looked at"},
    {D::NotLeftExposed, "NotLeftExposed", "SomeoneHurtOrFoundOpen",
     "worked on what was found open, before it was shut"},
    {D::NobodyHurt, "NobodyHurt", "SomeoneHurtOrFoundOpen", "D9 power on after someone was hurt"},
    {D::Lit, "Lit", "Plain", "a reading without light"},
    {D::NotLit, "NotLit", "Plain", "struck a lamp that is lit"},
    {D::Cold, "Cold", "Burst", "B2 opened before it was cold"},
    {D::ProjectorCold, "ProjectorCold", "Plain", "B2 standby before it was cold"},
    {D::FedCold, "FedCold", "SomeoneHurtOrFoundOpen", "A8 isolated while hot"},
    {D::ProjectorsNotOn, "ProjectorsNotOn", "Plain", "B2 isolated before standby"},
    {D::ProjectorOn, "ProjectorOn", "Plain", "struck with the projector or a point off"},
    {D::ToldBefore, "ToldBefore", "Plain", "B1 isolated before people were told"},
    {D::ToldAgain, "ToldAgain", "Plain", "B8 struck before people were told again"},
    {D::PointNotDoubted, "PointNotDoubted", "WrongBreakerAndDeadControl",
     "isolated again without restoring first"},
    {D::PointsOff, "PointsOff", "Plain", "A5 lit under a lock"},
    {D::PointsTakeLocks, "PointsTakeLocks", "OtherBreakerOrNoLock", "a lock on a point that takes none"},
    {D::NotHeld, "NotHeld", "HeldBySomebodyElse", "power on under somebody else's lock or tag"},
    {D::PointsLocked, "PointsLocked", "Plain", "B4 start tried without a lock"},
    {D::LocksSeen, "LocksSeen", "LeftAlone", "went on under locks that nobody had looked at since a gap"},
    {D::PointsOn, "PointsOn", "Plain", "powered up from a point that is off"},
    {D::NoLock, "NoLock", "Plain", "A5 power on under a lock"},
    {D::NoPersonalLock, "NoPersonalLock", "Plain", "a job lock off while a personal lock hangs on the box"},
    {D::OwnLock, "OwnLock", "Plain", "A2 somebody in the zone without an own lock"},
    {D::AuthorisedLock, "AuthorisedLock", "Plain", "A3 open under a trainee's lock alone"},
    {D::LockHeld, "LockHeld", "Plain", "D4 a lock taken off by somebody whose it is not"},
    {D::JobLockHeld, "JobLockHeld", "Plain", "D4 a job lock taken off by somebody whose it is not"},
    {D::LastLockLast, "LastLockLast", "Plain", "a trainee's lock was left the last"},
    {D::GearOffIfNotLast, "GearOffIfNotLast", "Plain", "a lock off in gear while others stay"},
    {D::Relieved, "Relieved", "Plain", "B2 start tried before the charge was let down"},
    {D::SupplySeen, "SupplySeen", "WrongBreakerAndMainsOut", "A1 a bare lamp under a live supply"},
    {D::StartTried, "StartTried", "Plain", "B2 opened before a start was tried"},
    {D::Absent, "Absent", "Plain", "B2 bared before it was proved dead"},
    {D::AbsentBehind, "AbsentBehind", "Plain",
     "B2 lamp moved before voltage was proved absent behind the guard"},
    {D::TesterProved, "TesterProved", "WrongBreakerAndDeadControl", "A1 a bare lamp under a live supply"},
    {D::MayProve, "MayProve", "Plain", "tested by somebody whom the site does not let"},
    {D::TestReachable, "TestReachable", "Plain", "tested through a cover"},
    {D::GearedIfOpen, "GearedIfOpen", "FanStoppedOrGearDamaged", "B3 tested at an open guard without gear"},
    {D::Geared, "Geared", "Plain", "B3 exposed before everybody there was geared"},
    {D::GearSigned, "GearSigned", "Plain", "A2 somebody in the zone without gear"},
    {D::InZone, "InZone", "Plain", "a lamp or guard act by somebody outside the zone"},
    {D::Outside, "Outside", "Plain", "A2 a bare lamp with nobody there"},
    {D::ZonesEmpty, "ZonesEmpty", "Plain", "D3 tagged while open or with somebody there"},
    {D::StaysWithOpen, "StaysWithOpen", "Plain", "the last person left an open guard"},
    {D::OneBare, "OneBare", "PairWithTrainee", "more lamphouses bare than authorised engineers"},
    {D::Shut, "Shut", "Plain", "B4 relieved while open"},
    {D::AllShut, "AllShut", "Plain", "B4 start tried while open"},
    {D::ProjectorShut, "ProjectorShut", "SomeoneHurtOrFoundOpen", "powered up while open"},
    {D::HousingOpen, "HousingOpen", "PairPlain", "the guard opened through a shut housing"},
    {D::GuardShut, "GuardShut", "Plain", "the housing shut over an open guard"},
    {D::GuardOpen, "GuardOpen", "PairPlain", "A4 a lamp in hand with the guard shut"},
    {D::NoLooseLamp, "NoLooseLamp", "Plain", "A4 a lamp in hand with the guard shut"},
    {D::NoBareLamp, "NoBareLamp", "Plain", "B5 two bare lamps"},
    {D::LampInHand, "LampInHand", "Plain", "a lamp in two places"},
    {D::LampSealed, "LampSealed", "WithItsPaperAndALampPastItsEnd", "the box read once it was open"},
    {D::LampNotUsed, "LampNotUsed", "WithItsPaperAndALampPastItsEnd",
     "D8 a lamp past its end taken for refitting"},
    {D::NotBarred, "NotBarred", "Plain", "D7 a lamp brought in after a burst, or under a tag"},
    {D::AdaptorLaidBy, "AdaptorLaidBy", "FailedStrikeCountAndAdaptor", "a lost adaptor on a lamp"},
    {D::CountsAnswered, "CountsAnswered", "Plain", "B6 last lock off before the count was answered"},
    {D::Matched, "Matched", "WithItsPaperAndALampPastItsEnd", "B9 booked in before it matched"},
    {D::LampKnown, "LampKnown", "WithItsPaperAndALampPastItsEnd", "B9 struck before it was booked in"},
    {D::ReadBack, "ReadBack", "Plain", "B9 struck with another type set in the controller"},
    {D::SeatingSeen, "SeatingSeen", "SeatedWronglyAndExtractionOff",
     "B9 struck unclamped, unseen or with the dowser open"},
    {D::AdaptorRight, "AdaptorRight", "Plain", "B9 struck with the adaptor wrong"},
    {D::DowserShut, "DowserShut", "Plain", "B9 struck unclamped, unseen or with the dowser open"},
    {D::DowserOpen, "DowserOpen", "Plain", "a reading through a shut dowser"},
    {D::ExtractionOn, "ExtractionOn", "SeatedWronglyAndExtractionOff", "struck without extraction"},
    {D::PauseOver, "PauseOver", "FailedStrikeCountAndAdaptor", "D6 struck in the pause or past the limit"},
    {D::StrikesLeft, "StrikesLeft", "FailedStrikeCountAndAdaptor",
     "D6 struck in the pause or past the limit"},
    {D::Settled, "Settled", "Plain", "B10 the reading that counts before the light settled"},
    {D::IsolatedAndLocked, "IsolatedAndLocked", "Plain", "D3 tagged while not isolated and locked"},
    {D::NothingLeft, "NothingLeft", "Plain", "D3 signed with a lock left and no tag"},
    {D::CustodyDecided, "CustodyDecided", "Plain", "B11 signed before it was decided where each lamp goes"},
    {D::Answered, "Answered", "Plain", "B12 signed with an incident open"},
};

constexpr Redundant kRedundancies[] = {
    {D::NoneLit, "NoneLit",
     "defence in depth: a lit lamp has its points on, and PointsLocked asks for them off"},
    {D::ProjectorOff, "ProjectorOff", "physical order: powering up what is on changes nothing"},
    {D::HousingShut, "HousingShut", "physical order: opening what is open changes nothing"},
    {D::NoneLoose, "NoneLoose",
     "defence in depth: a loose lamp keeps the guard open, and AllShut asks for it shut"},
    {D::NoOtherBare, "NoOtherBare",
     "defence in depth: NoBareLamp lets no lamp be in hand beside one in the seat"},
    {D::SeatEmpty, "SeatEmpty",
     "defence in depth: NoBareLamp lets no lamp be in hand beside one in the seat"},
    {D::SeatFull, "SeatFull", "physical order: from an empty seat nothing comes"},
    {D::SeatEntered, "SeatEntered",
     "physical order: in an empty seat nothing is clamped, and clamping twice changes nothing"},
    {D::SeatClamped, "SeatClamped",
     "defence in depth: an entered lamp keeps the guard open, in an empty seat none is known"},
    {D::AdaptorOnIt, "AdaptorOnIt",
     "guards a fact that this world does not vary: which lamp an adaptor is really on"},
};

} // namespace

std::span<const Needed> needs()
{
    return kNeeds;
}

std::span<const Redundant> redundancies()
{
    return kRedundancies;
}

} // namespace coldarc::test
