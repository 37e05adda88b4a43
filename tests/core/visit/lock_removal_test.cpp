#include "tests/core/visit/night.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace visit;
using machine::Demand;
using machine::Effect;
using Kind = Why::Kind;
using Crew = Night::Crew;

class RemovalOfALock : public ::testing::Test {
protected:
    Night night{u"larkmoor-teal"_s, Crew::WithRelief};
    LockRemoved removal{night.ada(), LamphouseId(u"lamphouse-1-main"_s), PersonId(u"sup"_s),
                        u"booth, lobby and car park searched, car gone"_s, u"22:10, 22:20 no answer"_s};

    void SetUp() override
    {
        night.doUntil(u"gear-on"_s);
        ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));
        ASSERT_TRUE(night.tell(
            Joined{{PersonId(u"sup"_s), u"S. Tarn"_s, people::Role::Supervisor, false, false, false, true}}));
    }
};

TEST_F(RemovalOfALock, NeedsAbsenceAttemptsAndASecondPerson) // D4, 1910.147(e)(3)
{
    LockRemoved bare = removal;
    bare.absence.clear();
    EXPECT_TRUE(isRefused(night.tell(night.ben(), bare), Kind::TextMissing));
    bare = removal;
    bare.attempts = u"  "_s;
    EXPECT_TRUE(isRefused(night.tell(night.ben(), bare), Kind::TextMissing));
    EXPECT_TRUE(isRefused(night.tell(PersonId(u"sup"_s), removal), Kind::NotAuthorised)); // alone
    EXPECT_TRUE(isRefused(night.tell(night.ada(), removal), Kind::NotAuthorised));        // by its owner
    bare = removal;
    bare.supervisor = night.ada();
    EXPECT_TRUE(isRefused(night.tell(night.ben(), bare), Kind::NotAuthorised));

    ASSERT_TRUE(night.tell(night.ben(), removal));
    EXPECT_EQ(night.state.machine.group[0].locks, machine::maskOf(1));
    EXPECT_TRUE(night.hasException(Exception::Kind::LockRemoved));
    EXPECT_TRUE(isRefused(night.tell(night.ben(), removal), Kind::CannotHappen));
}

TEST_F(RemovalOfALock, SaysWhatHasToBeSoFirst)
{
    ASSERT_TRUE(night.putOnGear(night.ada()));
    ASSERT_TRUE(night.doAct(night.ada(), Effect::EnterZone)); // she is not away
    EXPECT_TRUE(demandsOf(night.tell(night.ben(), removal)).contains(Demand::ZonesEmpty));
    ASSERT_TRUE(night.tell(night.ada(), Happened{Incident::SomeoneHurt, {}, {}, {}, {}, {}, {}}));
    EXPECT_TRUE(demandsOf(night.tell(night.ben(), removal)).contains(Demand::NobodyHurt));
}

TEST_F(RemovalOfALock, IsSupervisedBySomebodyWhoIsHereAndMay)
{
    const PersonId dan(u"dan"_s);
    ASSERT_TRUE(night.tell(Joined{{dan, u"D. Moss"_s, people::Role::Engineer, true}}));
    LockRemoved other = removal;
    other.supervisor = dan;
    EXPECT_TRUE(isRefused(night.tell(night.ben(), other), Kind::NotAuthorised)); // may lead, not supervise
    other.supervisor = PersonId(u"eve"_s);
    EXPECT_TRUE(isRefused(night.tell(night.ben(), other), Kind::UnknownName));
    other = removal;
    other.owner = night.ben();
    other.supervisor = night.ben(); // may supervise, but not over his own lock
    EXPECT_TRUE(isRefused(night.tell(night.ada(), other), Kind::NotAuthorised));
    ASSERT_TRUE(night.tell(PersonId(u"sup"_s), Left{PersonId(u"sup"_s)}));

    EXPECT_TRUE(isRefused(night.tell(night.ben(), removal), Kind::NotHere));
}

TEST_F(RemovalOfALock, IsOfALockThatHangs)
{
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOff));
    LockRemoved none = removal;
    none.owner = night.ben();

    EXPECT_TRUE(isRefused(night.tell(night.ada(), none), Kind::CannotHappen));
}

TEST_F(RemovalOfALock, RefusesItsOwnersNextCommandUntilTheyAreTold) // CV4
{
    ASSERT_TRUE(night.tell(night.ben(), removal));

    EXPECT_TRUE(isRefused(night.tell(night.ada(), Noted{{}, u"back"_s}), Kind::RemovalNotTold));
    EXPECT_TRUE(isRefused(night.doAct(night.ada(), Effect::LockOn), Kind::RemovalNotTold));
    EXPECT_TRUE(
        night.tell(night.ada(), Happened{Incident::NoTimeLeft, {}, {}, {}, {}, {}, {}})); // danger is told
    EXPECT_TRUE(night.tell(night.ben(), Noted{{}, u"she is back"_s})); // nobody else is held up
    EXPECT_TRUE(isRefused(night.tell(night.ben(), RemovalTold{}), Kind::NothingAsked));

    ASSERT_TRUE(night.tell(night.ada(), RemovalTold{}));

    EXPECT_TRUE(night.doAct(night.ada(), Effect::LockOn));
    expectSame(night.state, night.readBack());
}

/// Where no other engineer's lock hangs, the machine is left in order first.
TEST(RemovalOfTheLastLock, WaitsForAMachineThatIsLeftInOrder)
{
    Night night(u"larkmoor-teal"_s, Crew::WithRelief);
    night.doUntil(u"box-old"_s);
    const PersonId sup(u"sup"_s);
    ASSERT_TRUE(night.tell(Joined{{sup, u"S. Tarn"_s, people::Role::Supervisor, false, false, false, true}}));
    const LockRemoved removal{night.ada(), LamphouseId(u"lamphouse-1-main"_s), sup, u"searched"_s,
                              u"no answer"_s};

    EXPECT_EQ(demandsOf(night.tell(night.ben(), removal)),
              (QList{Demand::ZonesEmpty, Demand::AllShut, Demand::NoneLoose, Demand::CountsAnswered}));
}

TEST_F(RemovalOfALock, IsStillOwedAtTheNextVisitToTheSite)
{
    Opening opening = Night().opening();
    opening.people[0].hasRemovalToTell = true;
    Night later(opening);

    EXPECT_TRUE(isRefused(later.doStep(u"exchange-rules"_s, kAsItShouldBe), Kind::RemovalNotTold));
    ASSERT_TRUE(later.tell(RemovalTold{}));
    EXPECT_TRUE(later.doStep(u"exchange-rules"_s, kAsItShouldBe));
    expectSame(later.state, later.readBack());
}

TEST(JobLock, OfSomebodyWhoMayNotLeadComesOffByTheirOwnHand)
{
    Night night;
    const PersonId sup(u"sup"_s);
    ASSERT_TRUE(night.tell(Joined{{sup, u"S. Tarn"_s, people::Role::Supervisor, false, false, false, true}}));
    night.doUntil(u"job-lock-lamp-supply"_s);
    ASSERT_TRUE(night.doAct(sup, Effect::LockOn, 0, [](machine::Act& act) { act.point = 0; }));
    ASSERT_EQ(night.state.machine.point[0].jobLock, 1);

    night.makeSafe();

    ASSERT_FALSE(::testing::Test::HasFatalFailure());
    EXPECT_EQ(night.state.machine.point[0].jobLock, machine::kNone);
    night.close();
    EXPECT_EQ(night.state.end, u"as-it-was"_s);
}

} // namespace
} // namespace coldarc::test
