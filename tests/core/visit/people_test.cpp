#include "core/visit/correction.h"
#include "tests/core/visit/night.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace visit;
using namespace std::chrono_literals;
using machine::Demand;
using machine::Effect;
using Kind = Why::Kind;
using Crew = Night::Crew;

/// The step whose turn it is, asked by the trainee, with or without the engineer's press.
Decision byTrainee(Night& night, const PersonId& countersign)
{
    const SwapState swap = night.swap();
    const NextStep next = nextStep(night.seen(), swap, night.state.person(night.ben()));
    Did did;
    did.swap = swap.id;
    did.step = next.step->id;
    did.answers = night.answersFor(swap, *next.step);
    did.countersignedBy = countersign;
    return night.tell(night.ben(), did);
}

// ---- A trainee --------------------------------------------------------------------------------------

TEST(Trainee, NeedsACountersignWhereAMistakeHurts)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"isolate-lamp-supply"_s);

    EXPECT_TRUE(isRefused(byTrainee(night, {}), Kind::NeedsCountersign));
    EXPECT_TRUE(isRefused(byTrainee(night, night.ben()), Kind::NeedsCountersign)); // not their own
    EXPECT_TRUE(isRefused(byTrainee(night, PersonId(u"nobody"_s)), Kind::NeedsCountersign));
    const Decision both = byTrainee(night, night.ada());

    ASSERT_TRUE(both) << wordsOf(both.error());
    EXPECT_EQ(std::get<Did>(both->body).countersignedBy, night.ada());
    EXPECT_EQ(both->by, night.ben());
}

TEST(Trainee, NeedsACountersignToCreditAFanThatNobodyWatched)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"lamp-off"_s);
    ASSERT_TRUE(night.doNext());
    night.clock.sleep(300s);
    ASSERT_TRUE(night.tell(Noted{{}, u"the lid was shut"_s}));
    ASSERT_TRUE(night.seen().waits[0].cool.asksForFan);
    FanAnswered fan{LamphouseId(u"lamphouse-1-main"_s), true, {}};

    EXPECT_TRUE(isRefused(night.tell(night.ben(), fan), Kind::NeedsCountersign));
    fan.countersignedBy = night.ben();
    EXPECT_TRUE(isRefused(night.tell(night.ben(), fan), Kind::NeedsCountersign));
    EXPECT_TRUE(Night(night).tell(night.ben(), FanAnswered{fan.lamphouse, false})) << "the longer wait";

    fan.countersignedBy = night.ada();
    EXPECT_TRUE(night.tell(night.ben(), fan));
    expectSame(night.state, night.readBack());
}

TEST(Trainee, NeedsACountersignToAnswerACountThatDiffers)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"count-inside"_s);
    ASSERT_TRUE(night.doStep(u"count-inside"_s, [&](QJsonObject& answers) {
        const procedure::Step* step = night.swap().step(StepId(u"count-inside"_s));
        for (const procedure::Capture& capture : step->captures)
            answers[capture.id] = capture.choices[1].text;
    }));
    ASSERT_EQ(night.lamphouse().count, machine::Counting::Differs);
    IncidentAnswered found{night.state.incidents.last().entry, u"in the tray"_s, {}};

    EXPECT_TRUE(isRefused(night.tell(night.ben(), found), Kind::NeedsCountersign));
    found.countersignedBy = night.ada();
    EXPECT_TRUE(night.tell(night.ben(), found));
    EXPECT_EQ(night.lamphouse().count, machine::Counting::Answered);
    expectSame(night.state, night.readBack());
}

TEST(Trainee, NeedsACountersignToWithdrawWhatWasDone)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"gear-on"_s);
    Withdrawn back{night.swap().record(StepId(u"try-start"_s)).entry, u"nobody saw it"_s, {}};

    EXPECT_TRUE(isRefused(night.tell(night.ben(), back), Kind::NeedsCountersign));
    EXPECT_TRUE(ifWithdrawn(night.state, night.ben(), back.entry, night.clock.now())) << "asked beforehand";
    back.countersignedBy = night.ada();
    EXPECT_TRUE(night.tell(night.ben(), back));
    EXPECT_FALSE(night.lamphouse().startTried);
    expectSame(night.state, night.readBack());
}

TEST(Trainee, DoesWhatCannotHurtAlone)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"count-opening"_s);

    EXPECT_TRUE(byTrainee(night, {}));
}

TEST(Trainee, HandlesNoLampFromOutsideTheZone)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"box-old"_s);
    Did box;
    box.swap = night.swap().id;
    box.step = StepId(u"box-old"_s);

    EXPECT_EQ(turnOf(night.tell(night.ben(), box)), u"own-lock"_s); // their own lock, gear and way in first
}

TEST(Trainee, TakesTheirLockOffFirstAndInNoGear)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"gear-on"_s);
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));
    ASSERT_TRUE(night.putOnGear(night.ben()));
    night.doUntil(u"own-lock-off"_s);

    EXPECT_EQ(demandsOf(night.doStep(u"own-lock-off"_s, kAsItShouldBe)), QList{Demand::LastLockLast});
    EXPECT_EQ(demandsOf(night.doAct(night.ben(), Effect::LockOff)), QList{Demand::GearOffIfNotLast});
    ASSERT_TRUE(night.doAct(night.ben(), Effect::GearOff));
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOff));
    EXPECT_TRUE(night.doStep(u"own-lock-off"_s, kAsItShouldBe));
}

TEST(Trainee, DoesNotLead)
{
    Opening opening = Night(u"larkmoor-teal"_s, Crew::WithTrainee).opening();
    opening.people.swapItemsAt(0, 1);

    EXPECT_TRUE(isRefused(decide({}, PersonId(u"ben"_s), opening, FakeClock().now()), Kind::NotAuthorised));
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    EXPECT_TRUE(isRefused(night.tell(night.ben(), Signed{u"performed"_s}), Kind::NotAuthorised));
    EXPECT_FALSE(night.tell(night.ben(), PassedOn{night.ada(), night.ben()}));
}

TEST(SomebodyElse, WhoIsNotOfThisVisitIsRefusedWhateverTheyAsk)
{
    Night night;

    EXPECT_TRUE(isRefused(night.tell(PersonId(u"eve"_s), Noted{{}, u"hello"_s}), Kind::NotOfVisit));
    PersonFacts eve{PersonId(u"eve"_s), u"E. Voss"_s, people::Role::Engineer, false, false, false, false};
    EXPECT_TRUE(isRefused(night.tell(Joined{eve}), Kind::NotAuthorised));
    eve.mayLead = true;
    EXPECT_TRUE(night.tell(Joined{eve}));
    EXPECT_TRUE(night.tell(PersonId(u"eve"_s), Noted{{}, u"hello"_s}));
}

/// The engineer who opened it alone hung a lock and is gone: nobody of this visit is left to let anybody in.
TEST(SomebodyElse, WhoMayLeadJoinsByTheirOwnPressTakesOverAndTheVisitEnds)
{
    Night night;
    night.doUntil(u"gear-on"_s);
    const PersonId eve(u"eve"_s);
    const PersonFacts facts{eve, u"E. Voss"_s, people::Role::Engineer, true, true, true, true};

    EXPECT_TRUE(
        isRefused(night.tell(eve, Joined{{PersonId(u"dan"_s), u"D. Moss"_s, people::Role::Engineer, true}}),
                  Kind::NotOfVisit))
        << "for nobody else";
    ASSERT_TRUE(night.tell(eve, Joined{facts}));

    ASSERT_TRUE(night.doAct(eve, Effect::LockOn));
    ASSERT_TRUE(night.tell(eve, PassedOn{night.ada(), eve}));
    EXPECT_EQ(night.state.people[night.state.lead].id, eve);
    expectSame(night.state, night.readBack());
}

TEST(SomebodyElse, WhoMaySuperviseJoinsByTheirOwnPressAndWhoMayOnlyAssistDoesNot)
{
    Night night;
    const PersonId eve(u"eve"_s);
    PersonFacts facts{eve, u"E. Voss"_s, people::Role::Trainee, false, true, false, false};

    EXPECT_TRUE(isRefused(night.tell(eve, Joined{facts}), Kind::NotByThemselves));
    facts.mayAssist = false;
    EXPECT_TRUE(isRefused(night.tell(eve, Joined{facts}), Kind::NotAuthorised)) << "nobody lets them in";
    facts = {eve, u"E. Voss"_s, people::Role::Supervisor, false, false, false, true};
    EXPECT_TRUE(night.tell(eve, Joined{facts}));
}

// ---- Two people in one zone -------------------------------------------------------------------------

TEST(TwoPeople, EachHaveTheirOwnGearAndTheLastDoesNotLeaveAnOpenGuard)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"expose-lamp"_s);
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));
    ASSERT_TRUE(night.putOnGear(night.ben()));
    ASSERT_TRUE(night.doAct(night.ben(), Effect::EnterZone));
    night.doUntil(u"lamp-out"_s);

    ASSERT_TRUE(night.doAct(night.ben(), Effect::LeaveZone));
    EXPECT_EQ(demandsOf(night.doAct(night.ada(), Effect::LeaveZone)), QList{Demand::StaysWithOpen});
    EXPECT_EQ(demandsOf(night.doAct(night.ben(), Effect::EnterZone)), QList{Demand::GearSigned});
    ASSERT_TRUE(night.doAct(night.ben(), Effect::GearOn)); // one press: the same gear
    EXPECT_TRUE(night.doAct(night.ben(), Effect::EnterZone));
}

// ---- Passing on -------------------------------------------------------------------------------------

TEST(PassingOn, IsRefusedWithALampInHand) // CV29
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    night.doUntil(u"box-old"_s);
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));

    EXPECT_EQ(demandsOf(night.tell(night.ben(), PassedOn{night.ada(), night.ben()})),
              (QList{Demand::AllShut, Demand::ZonesEmpty, Demand::NoneLoose}));
    EXPECT_EQ(night.state.lead, 0);
}

TEST(PassingOn, AsksForTheNewLockFirstAndMakesStartAndVoltageWaitForTheNewOwner)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    night.doUntil(u"gear-on"_s);
    ASSERT_TRUE(night.lamphouse().startTried && night.lamphouse().absent);

    EXPECT_EQ(demandsOf(night.tell(night.ben(), PassedOn{night.ada(), night.ben()})), QList{Demand::OwnLock});
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));
    EXPECT_FALSE(
        night.tell(night.ada(), PassedOn{night.ada(), night.ben()})); // the one who takes over says so
    ASSERT_TRUE(night.tell(night.ben(), PassedOn{night.ada(), night.ben()}));

    EXPECT_EQ(night.state.lead, 1);
    EXPECT_EQ(night.lamphouse().heat, machine::Heat::Cold); // the heat does not come back
    EXPECT_EQ(night.lamphouse().charge, machine::Charge::Relieved);
    EXPECT_FALSE(night.lamphouse().startTried);
    EXPECT_FALSE(night.lamphouse().absent);
    EXPECT_EQ(night.state.machine.point[0].jobLock, 1);
    EXPECT_EQ(night.state.machine.point[1].jobLock, 1);
    ASSERT_TRUE(night.doAct(night.ada(), Effect::LockOff));
    EXPECT_NE(night.state.machine.group[0].locks, 0);
    EXPECT_EQ(night.nextId(), u"try-start"_s);

    night.doAll(); // ada went home: nobody waits for her, not at a stop either
    night.close();
    EXPECT_EQ(night.state.end, u"done"_s);
    expectSame(night.state, night.readBack());
}

TEST(PassingOn, IsFromWhoeverLeadsOnly)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    const PersonId dan(u"dan"_s);
    ASSERT_TRUE(night.tell(Joined{{dan, u"D. Moss"_s, people::Role::Engineer, true}}));

    EXPECT_TRUE(isRefused(night.tell(dan, PassedOn{night.ben(), dan}), Kind::UnknownName));
    EXPECT_TRUE(night.tell(dan, PassedOn{night.ada(), dan}));
}

TEST(PassingOn, WaitsAtAStopForWhoeverTookTheVisitBackOrCameBack)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    ASSERT_TRUE(night.tell(night.ben(), PassedOn{night.ada(), night.ben()}));
    EXPECT_EQ(night.state.passedOn, machine::maskOf(0));
    Night other = night;

    ASSERT_TRUE(night.tell(night.ada(), PassedOn{night.ben(), night.ada()}));
    EXPECT_EQ(night.state.passedOn, machine::maskOf(1));

    const PersonFacts ada = other.state.people[0];
    ASSERT_TRUE(other.tell(other.ada(), Left{other.ada()}));
    ASSERT_TRUE(other.tell(other.ben(), Joined{ada}));
    EXPECT_EQ(other.state.passedOn, 0);
}

/// Whoever looks on or supervises answers no stop, and none waits for them.
TEST(SomebodyElse, WhoDoesNoLampWorkHoldsUpNoStop)
{
    Night night;
    ASSERT_TRUE(night.tell(
        Joined{{PersonId(u"sup"_s), u"S. Tarn"_s, people::Role::Supervisor, false, false, false, true}}));
    while (night.nextId() != u"stop-cold-and-dead")
        ASSERT_TRUE(night.doNext());

    EXPECT_TRUE(night.doStep(u"stop-cold-and-dead"_s, kAsItShouldBe, 0, night.ada()));
}

TEST(PassingOn, HoldsUpNoStopWithWhoeverPassedOn)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    ASSERT_TRUE(night.tell(night.ben(), PassedOn{night.ada(), night.ben()}));
    while (night.nextId() != u"stop-cold-and-dead")
        ASSERT_TRUE(night.doNext());

    EXPECT_TRUE(night.doStep(u"stop-cold-and-dead"_s, kAsItShouldBe, 0, night.ben()));
}

TEST(PassingOn, HasTheGearGoneThroughAnewByWhoeverTakesOver)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    night.doUntil(u"gear-on"_s);
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));
    ASSERT_TRUE(night.putOnGear(night.ben()));
    ASSERT_TRUE(night.doAct(night.ben(), Effect::GearOff));

    ASSERT_TRUE(night.tell(night.ben(), PassedOn{night.ada(), night.ben()}));

    EXPECT_TRUE(isRefused(night.doAct(night.ben(), Effect::GearOn), Kind::AnswerMissing));
}

TEST(PassingOn, IsNotToOneself)
{
    Night night;

    EXPECT_TRUE(isRefused(night.tell(PassedOn{night.ada(), night.ada()}), Kind::CannotHappen));
}

// ---- Leaving ----------------------------------------------------------------------------------------

TEST(Leaving, GoesHomeOutOfTheZoneWithGearAndLocksOffOnly)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"open-housing"_s);
    const Left left{night.ben()};
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));
    ASSERT_TRUE(night.putOnGear(night.ben()));
    ASSERT_TRUE(night.doAct(night.ben(), Effect::EnterZone));

    const Decision inside = night.tell(night.ben(), left);
    EXPECT_TRUE(isRefused(inside, Kind::StillInZone));
    EXPECT_TRUE(isRefused(inside, Kind::StillInGear));
    EXPECT_TRUE(isRefused(inside, Kind::StillLocked));
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LeaveZone));
    EXPECT_FALSE(isRefused(night.tell(night.ben(), left), Kind::StillInZone));
    ASSERT_TRUE(night.doAct(night.ben(), Effect::GearOff));
    const Decision locked = night.tell(night.ben(), left);
    EXPECT_FALSE(isRefused(locked, Kind::StillInGear));
    EXPECT_TRUE(isRefused(locked, Kind::StillLocked));
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOff));

    ASSERT_TRUE(night.tell(night.ben(), left));
    EXPECT_FALSE(night.state.isHere(1));
    EXPECT_TRUE(isRefused(night.tell(night.ada(), left), Kind::NothingAsked)); // gone already
    expectSame(night.state, night.readBack());
}

TEST(Leaving, IsRefusedToWhoHoldsAJobLockAndToWhoLeads)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    night.doUntil(u"job-lock-lamp-supply"_s);
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn, 0, [](machine::Act& act) { act.point = 0; }));

    EXPECT_TRUE(isRefused(night.tell(night.ben(), Left{night.ben()}), Kind::StillLocked));
    EXPECT_TRUE(isRefused(night.tell(night.ada(), Left{night.ada()}), Kind::IsLead));
    EXPECT_TRUE(isRefused(night.tell(night.ada(), Left{PersonId(u"eve"_s)}), Kind::UnknownName));
}

TEST(Leaving, IsSaidByWhoeverGoesOrLeads)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    PersonFacts eve{PersonId(u"eve"_s), u"E. Voss"_s, people::Role::Engineer, true, false, true, false};
    ASSERT_TRUE(night.tell(Joined{eve}));

    EXPECT_TRUE(isRefused(night.tell(eve.id, Left{night.ben()}), Kind::NotAuthorised));
    EXPECT_TRUE(night.tell(night.ada(), Left{night.ben()})); // he went without a word
}

TEST(Leaving, HoldsUpNoStopAndCountsForNothingAnyMore)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"stop-cold-and-dead"_s);
    Night stays = night;
    EXPECT_TRUE(
        isRefused(stays.doStep(u"stop-cold-and-dead"_s, kAsItShouldBe, 0, stays.ada()), Kind::NotOthers));

    ASSERT_TRUE(night.tell(night.ben(), Left{night.ben()}));

    EXPECT_TRUE(night.doStep(u"stop-cold-and-dead"_s, kAsItShouldBe, 0, night.ada()));
    EXPECT_TRUE(isRefused(night.tell(night.ben(), Noted{{}, u"from home"_s}), Kind::NotHere));
    EXPECT_TRUE(isRefused(night.doAct(night.ben(), Effect::LockOn), Kind::NotHere));
    EXPECT_TRUE(night.tell(night.ben(), Happened{Incident::NoTimeLeft, {}, {}, {}, {}, {}, {}}));
}

/// Two lamphouses of two screens, both found with the guard open.
void findBothOpen(Night& night)
{
    for (const int swap : {0, 1}) {
        night.doUntil(u"find"_s, swap);
        const procedure::Step find = *night.swap(swap).step(StepId(u"find"_s));
        const Decision found = night.doStep(
            u"find"_s,
            [&](QJsonObject& answers) {
                for (const auto& [id, means] : {std::pair(u"lamp"_s, procedure::Means::Off),
                                                std::pair(u"housing"_s, procedure::Means::Open),
                                                std::pair(u"guard"_s, procedure::Means::Open)}) {
                    const QList<procedure::Choice> choices = find.capture(id)->choices;
                    answers[id] = std::ranges::find(choices, means, &procedure::Choice::means)->text;
                }
            },
            swap);
        ASSERT_TRUE(found) << wordsOf(found.error());
        ASSERT_TRUE(night.lamphouse(swap).guardOpen);
    }
}

TEST(Leaving, KeepsAnEngineerForEachLamphouseThatStandsOpen)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief, {}, {}, 2);
    ASSERT_TRUE(night.tell(Joined{{PersonId(u"cleo"_s), u"C. Ashe"_s, people::Role::Trainee, false, true}}));
    findBothOpen(night);

    EXPECT_EQ(demandsOf(night.tell(night.ben(), Left{night.ben()})), QList{Demand::OneBare});
    ASSERT_TRUE(night.tell(Joined{{PersonId(u"dan"_s), u"D. Moss"_s, people::Role::Engineer, true}}));
    EXPECT_TRUE(night.tell(night.ben(), Left{night.ben()})); // two open, two stay
    EXPECT_TRUE(isRefused(night.tell(PersonId(u"dan"_s), Left{PersonId(u"dan"_s)}), Kind::Demand));
}

TEST(Leaving, HoldsNobodyWhoMayNotOpenALamphouse)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee, {}, {}, 2);
    findBothOpen(night); // one engineer for two: it was so already

    EXPECT_TRUE(night.tell(night.ben(), Left{night.ben()}));
}

TEST(Leaving, TellsOfDangerStillButNotThatALampWentOut)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"lamp-off"_s);
    ASSERT_TRUE(night.tell(night.ben(), Left{night.ben()}));
    Happened told;
    told.swap = night.swap().id;
    told.lamphouse = night.opening().swaps.first().lamphouse;
    told.incident = Incident::WillNotLight;

    EXPECT_TRUE(isRefused(night.tell(night.ben(), told), Kind::NotHere));
    told.incident = Incident::VoltageFound;
    EXPECT_FALSE(isRefused(night.tell(night.ben(), told), Kind::NotHere));
}

TEST(Leaving, StillLetsWhoeverWasThereAddARemark)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doAll();
    ASSERT_TRUE(night.tell(night.ben(), Left{night.ben()}));
    night.close();

    EXPECT_TRUE(night.tell(night.ben(), Addendum{u"the box was mine"_s}));
}

/// 50 h past the warranty take a reason and a second person.
TEST(Leaving, AgreesToNoThresholdAnyMore)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"book-in"_s);
    night.readMarking();
    const SwapState swap = night.swap();
    Did late;
    late.swap = swap.id;
    late.step = StepId(u"book-in"_s);
    late.answers = night.answersFor(swap, *swap.step(late.step));
    late.answers[u"threshold"_s] = QString::number(night.newType().warrantyHours + 50);
    late.reason = u"the dealer agrees to it in writing"_s;
    late.countersignedBy = night.ben();
    Night stays = night;
    EXPECT_TRUE(stays.tell(late));

    night.doAct(night.ben(), Effect::GearOff);
    night.doAct(night.ben(), Effect::LockOff);
    ASSERT_TRUE(night.tell(night.ben(), Left{night.ben()}));

    EXPECT_TRUE(isRefused(night.tell(late), Kind::Threshold));
}

TEST(Leaving, LeavesATraineeWithoutAnEngineerToNothing)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    ASSERT_TRUE(night.tell(Joined{{PersonId(u"cleo"_s), u"C. Ashe"_s, people::Role::Trainee, false, true}}));
    night.doUntil(u"isolate-lamp-supply"_s);
    ASSERT_TRUE(night.tell(night.ben(), Left{night.ben()}));
    const SwapState swap = night.swap();
    Did did;
    did.swap = swap.id;
    did.step = StepId(u"isolate-lamp-supply"_s);
    did.answers = night.answersFor(swap, *swap.step(did.step));
    did.countersignedBy = night.ben();

    EXPECT_TRUE(isRefused(night.tell(PersonId(u"cleo"_s), did), Kind::NeedsCountersign)); // he is not here
    EXPECT_TRUE(isRefused(night.tell(night.ben(), PassedOn{night.ada(), night.ben()}), Kind::NotHere));
    did.countersignedBy = night.ada();
    EXPECT_TRUE(night.tell(PersonId(u"cleo"_s), did));
}

TEST(Leaving, CanJoinAgainAndIsJudgedAnew)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    PersonFacts facts = night.state.people[1];
    EXPECT_TRUE(isRefused(night.tell(Joined{facts}), Kind::UnknownName)); // is here
    ASSERT_TRUE(night.tell(night.ben(), Left{night.ben()}));
    EXPECT_FALSE(night.state.plant.person[1].authorised);
    facts.mayLead = false;
    facts.mayAssist = true;

    ASSERT_TRUE(night.tell(Joined{facts}));

    EXPECT_TRUE(night.state.isHere(1));
    EXPECT_EQ(night.state.people.size(), 2);
    EXPECT_FALSE(night.state.people[1].mayLead);
    EXPECT_FALSE(night.state.plant.person[1].authorised);
    EXPECT_TRUE(night.tell(night.ben(), Noted{{}, u"back"_s}));
    EXPECT_TRUE(isRefused(night.tell(night.ben(), PassedOn{night.ada(), night.ben()}), Kind::NotAuthorised));
    expectSame(night.state, night.readBack());
}

TEST(Leaving, IsEndedByWhoeverComesBackEvenWhereNobodyElseIsLeft)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    const PersonFacts ada = night.state.people[0];
    const PersonFacts ben = night.state.people[1];
    ASSERT_TRUE(night.tell(night.ben(), Left{night.ben()}));

    EXPECT_TRUE(isRefused(night.tell(night.ben(), Joined{ada}), Kind::NotHere)) << "of nobody else";
    ASSERT_TRUE(night.tell(night.ben(), Joined{ben}));

    EXPECT_TRUE(night.state.isHere(1));
    expectSame(night.state, night.readBack());
}

TEST(Leaving, EndsWhatSomebodyMayProve)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    ASSERT_TRUE(night.state.plant.person[1].mayProve);
    PersonFacts facts = night.state.people[1];

    ASSERT_TRUE(night.tell(night.ben(), Left{night.ben()}));

    EXPECT_FALSE(night.state.plant.person[1].mayProve);
    ASSERT_TRUE(night.tell(Joined{facts}));
    EXPECT_TRUE(night.state.plant.person[1].mayProve);
    ASSERT_TRUE(night.tell(night.ben(), Left{night.ben()}));
    facts.mayProve = false;
    ASSERT_TRUE(night.tell(Joined{facts}));
    EXPECT_FALSE(night.state.plant.person[1].mayProve);
}

TEST(Leaving, HasTheGearGoneThroughAnewByWhoeverComesBack)
{
    Night night(u"larkmoor-teal"_s, Crew::WithTrainee);
    night.doUntil(u"gear-on"_s);
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));
    ASSERT_TRUE(night.putOnGear(night.ben()));
    ASSERT_TRUE(night.doAct(night.ben(), Effect::GearOff));
    const PersonFacts facts = night.state.people[1];
    Night stays = night;
    EXPECT_TRUE(stays.doAct(stays.ben(), Effect::GearOn)); // one press: the same gear
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOff));
    ASSERT_TRUE(night.tell(night.ben(), Left{night.ben()}));
    ASSERT_TRUE(night.tell(Joined{facts}));
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));

    EXPECT_TRUE(isRefused(night.doAct(night.ben(), Effect::GearOn), Kind::AnswerMissing));
}

TEST(Leaving, BringsBackWithItALockThatWasTakenOffElsewhere)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    PersonFacts facts = night.state.people[1];
    ASSERT_TRUE(night.tell(night.ben(), Left{night.ben()}));
    facts.hasRemovalToTell = true;
    ASSERT_TRUE(night.tell(Joined{facts}));

    EXPECT_TRUE(isRefused(night.tell(night.ben(), Noted{{}, u"back"_s}), Kind::RemovalNotTold));
    facts.id = PersonId(u"dan"_s);
    ASSERT_TRUE(night.tell(Joined{facts}));
    EXPECT_TRUE(isRefused(night.tell(facts.id, Noted{{}, u"here"_s}), Kind::RemovalNotTold));
}

TEST(Leaving, MakesAPlaceFreeForNobodyElse)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    for (const QString& id : {u"cleo"_s, u"dan"_s})
        ASSERT_TRUE(night.tell(Joined{{PersonId(id), id, people::Role::Engineer, true}}));
    ASSERT_TRUE(night.tell(night.ben(), Left{night.ben()}));

    EXPECT_TRUE(
        isRefused(night.tell(Joined{{PersonId(u"eve"_s), u"E. Voss"_s, people::Role::Engineer, true}}),
                  Kind::UnknownName));
    EXPECT_TRUE(night.tell(Joined{night.state.people[1]}));
}

} // namespace
} // namespace coldarc::test
