#include "tests/core/visit/night.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace visit;
using machine::Demand;
using machine::Effect;
using Kind = Why::Kind;

using Crew = Night::Crew;

const QString kModel = u"larkmoor-teal"_s;
const PersonId kEva(u"eva"_s);
const PersonId kDuarte(u"duarte"_s);

TEST(Electrician, ProvesAbsenceByTheirOwnPressAndTheLeadDoesNot)
{
    Night night(kModel, Crew::WithElectrician);
    night.doUntil(u"prove-inlet"_s);

    EXPECT_EQ(demandsOf(night.doStep(u"prove-inlet"_s, kAsItShouldBe)), QList{Demand::MayProve});
    const Decision proved = night.doStep(u"prove-inlet"_s, kAsItShouldBe, 0, kEva);

    ASSERT_TRUE(proved) << wordsOf(proved.error());
    EXPECT_EQ(proved->by, kEva);
    EXPECT_TRUE(std::get<Did>(proved->body).countersignedBy.isEmpty()) << "they need nobody's countersign";
    EXPECT_TRUE(night.lamphouse().absent);
}

TEST(Electrician, LeavesTheStopBehindTheirProofToWhoeverGoesOn)
{
    Night night(kModel, Crew::WithElectrician);
    night.doUntil(u"prove-inlet"_s);
    ASSERT_TRUE(night.doStep(u"prove-inlet"_s, kAsItShouldBe, 0, kEva));

    EXPECT_EQ(night.nextId(), u"stop-cold-and-dead"_s) << "nobody asks for the electrician's own lock";
    EXPECT_TRUE(
        isRefused(night.doStep(u"stop-cold-and-dead"_s, kAsItShouldBe, 0, kEva), Kind::NotAuthorised));
    EXPECT_TRUE(night.doStep(u"stop-cold-and-dead"_s, kAsItShouldBe));
}

TEST(Electrician, TakesNoStopFromTheEngineerWhoStoodBy)
{
    Night night(kModel, Crew::WithElectrician);
    ASSERT_TRUE(night.tell(Joined{{night.ben(), u"B. Lind"_s, people::Role::Engineer, true, true}}));
    night.doUntil(u"prove-inlet"_s);
    ASSERT_TRUE(night.doStep(u"prove-inlet"_s, kAsItShouldBe, 0, kEva));
    const Night before = night;

    EXPECT_TRUE(
        isRefused(night.doStep(u"stop-cold-and-dead"_s, kAsItShouldBe, 0, night.ada()), Kind::NotOthers))
        << "she did the lamp work, and another engineer stood by";
    night = before;
    EXPECT_TRUE(night.doStep(u"stop-cold-and-dead"_s, kAsItShouldBe, 0, night.ben()));
}

TEST(Electrician, ProvesBehindTheOpenGuardOnlyGearedUnderAnOwnLockAndInTheZone)
{
    Night night(kModel, Crew::WithElectrician);
    for (const QString& proof : {u"prove-inlet"_s, u"prove-rail"_s}) {
        night.doUntil(proof);
        ASSERT_TRUE(night.doStep(proof, kAsItShouldBe, 0, kEva));
    }
    night.doUntil(u"prove-clamps"_s);

    EXPECT_EQ(demandsOf(night.doStep(u"prove-clamps"_s, kAsItShouldBe, 0, kEva)),
              QList{Demand::TestReachable});
    EXPECT_EQ(demandsOf(night.doAct(kEva, Effect::EnterZone)), (QList{Demand::OwnLock, Demand::GearSigned}));
    ASSERT_TRUE(night.doAct(kEva, Effect::LockOn));
    ASSERT_TRUE(night.putOnGear(kEva));
    ASSERT_TRUE(night.doAct(kEva, Effect::EnterZone));
    const Decision proved = night.doStep(u"prove-clamps"_s, kAsItShouldBe, 0, kEva);

    ASSERT_TRUE(proved) << wordsOf(proved.error());
    EXPECT_TRUE(night.lamphouse().absentBehind);
}

TEST(Electrician, DoesNoLampWork)
{
    Night night(kModel, Crew::WithElectrician);
    night.doUntil(u"try-start"_s);

    EXPECT_TRUE(isRefused(night.doStep(u"try-start"_s, kAsItShouldBe, 0, kEva), Kind::NotAuthorised));
    EXPECT_TRUE(isRefused(night.tell(kEva, LampRead{LampId(u"new-1"_s), {}}), Kind::NotAuthorised));
    EXPECT_TRUE(isRefused(night.tell(kEva, SerialPassed{LampId(u"new-1"_s), {}}), Kind::NotAuthorised));
    EXPECT_TRUE(
        isRefused(night.tell(kEva, LightRead{night.swap().id, StepId(u"peak-along"_s), u"z"_s, 0, 40}),
                  Kind::NotAuthorised));
    EXPECT_TRUE(
        isRefused(night.tell(kEva, Owed{night.swap().id, StepId(u"peak-again"_s)}), Kind::NotAuthorised));
    EXPECT_TRUE(
        isRefused(night.tell(kEva, CustodyDecided{LampId(u"new-1"_s), u"unused"_s}), Kind::NotAuthorised));
    EXPECT_TRUE(isRefused(night.tell(kEva, PassedOn{night.ada(), kEva}), Kind::NotAuthorised));
    EXPECT_TRUE(isRefused(night.tell(kEva, Signed{u"performed"_s}), Kind::NotAuthorised));
}

TEST(Electrician, StartsNoWaitCreditsNoneAndTakesNothingBack)
{
    Night night(kModel, Crew::WithElectrician);
    night.doUntil(u"lamp-off"_s);
    Happened out;
    out.incident = Incident::WillNotLight;
    out.swap = night.swap().id;
    out.lamphouse = night.opening().swaps.first().lamphouse;
    EXPECT_TRUE(isRefused(night.tell(kEva, out), Kind::NotAuthorised));
    EXPECT_TRUE(isRefused(night.tell(kEva, FanAnswered{out.lamphouse, true}), Kind::NotAuthorised));
    EXPECT_TRUE(isRefused(night.tell(kEva, Withdrawn{1, u"not so"_s}), Kind::NotAuthorised));
    out.incident = Incident::NoTimeLeft;
    ASSERT_TRUE(night.tell(night.ada(), out));
    const qint64 incident = night.state.incidents.first().entry;

    EXPECT_TRUE(isRefused(night.tell(kEva, IncidentAnswered{incident, u"later"_s}), Kind::NotAuthorised));
    EXPECT_TRUE(night.tell(night.ada(), IncidentAnswered{incident, u"later"_s}));
}

TEST(Electrician, DoesNotLead)
{
    Opening opening = Night(kModel, Crew::WithElectrician).opening();
    opening.people.swapItemsAt(0, 1);

    EXPECT_TRUE(isRefused(decide({}, kEva, opening, FakeClock().now()), Kind::NotAuthorised));
}

TEST(Electrician, ProvesNothingWhereNobodyWhoLeadsIsHere)
{
    Night night(kModel, Crew::WithElectrician);
    night.doUntil(u"prove-inlet"_s);

    VisitState alone = night.seen();
    for (PersonFacts& person : alone.people)
        person.mayLead = false;
    Did did;
    did.swap = night.swap().id;
    did.step = StepId(u"prove-inlet"_s);
    did.answers = night.answersFor(night.swap(), *night.swap().step(did.step));

    EXPECT_TRUE(isRefused(decide(alone, kEva, did, night.clock.now()), Kind::NeedsSupervision));
}

TEST(Electrician, JoinsLaterAndIsTurnedAwayWithoutAnAuthorisation)
{
    Night night(kModel, Crew::AtElectriciansSite);
    night.doUntil(u"prove-inlet"_s);
    PersonFacts eva = Night::electrician();
    eva.mayProve = false;

    EXPECT_TRUE(isRefused(night.tell(Joined{eva}), Kind::NotAuthorised));
    ASSERT_TRUE(night.tell(Joined{Night::electrician()}));

    EXPECT_TRUE(night.doStep(u"prove-inlet"_s, kAsItShouldBe, 0, kEva));
}

TEST(Electrician, DoesNotAgreeToAThreshold)
{
    PersonFacts duarte;
    duarte.id = kDuarte;
    duarte.name = u"M. Duarte"_s;
    duarte.role = people::Role::Supervisor;
    duarte.maySupervise = true;
    Opening opening = Night().opening();
    opening.people += {Night::electrician(), duarte};
    Night night(opening);
    night.doUntil(u"book-in"_s);
    night.readMarking();
    Did late;
    late.swap = night.swap().id;
    late.step = StepId(u"book-in"_s);
    late.answers = night.answersFor(night.swap(), *night.swap().step(late.step));
    late.answers[u"threshold"_s] = QString::number(night.newType().warrantyHours + 50);
    late.reason = u"counter is read every week"_s;

    late.countersignedBy = kEva;
    EXPECT_TRUE(isRefused(night.tell(late), Kind::Threshold));
    late.countersignedBy = kDuarte;
    const Decision agreed = night.tell(late);
    EXPECT_TRUE(agreed) << wordsOf(agreed.error());
}

} // namespace
} // namespace coldarc::test
