#include "core/visit/wanted_signature.h"

#include "tests/core/visit/night.h"

namespace coldarc::visit {
namespace {

using namespace Qt::StringLiterals;
using test::Night;

QStringList meaningsOf(const Night& night)
{
    QStringList meanings;
    for (const WantedSignature& one : wantedSignatures(night.entries, night.state))
        meanings.append(one.meaning);
    return meanings;
}

TEST(WantedSignatureTest, APlainNightIsSignedAtSignInAtEachStopAndAtItsEnd)
{
    Night night;
    night.doAll();
    night.close();

    EXPECT_EQ(meaningsOf(night),
              (QStringList{u"signed-in"_s, u"stop"_s, u"stop"_s, u"stop"_s, u"performed"_s, u"performed"_s}));
    for (const WantedSignature& one : wantedSignatures(night.entries, night.state))
        EXPECT_EQ(one.person, night.ada());
}

TEST(WantedSignatureTest, AnIncidentIsSignedByWhoeverWroteIt)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithRelief);
    night.doUntil(u"standby"_s);
    ASSERT_TRUE(night.tell(
        night.ben(),
        Happened{Incident::FanOrPower, night.swap().id, LamphouseId(u"lamphouse-1-main"_s), {}, {}, {}, {}}));

    EXPECT_EQ(wantedSignatures(night.entries, night.state).last(),
              (WantedSignature{night.entries.size() - 1, night.ben(), u"incident"_s}));
}

/// Those of the last entry.
QList<WantedSignature> wantedLast(const Night& night)
{
    QList<WantedSignature> wanted = wantedSignatures(night.entries, night.state);
    wanted.removeIf([&](const WantedSignature& one) { return one.entry != night.entries.size() - 1; });
    return wanted;
}

/// Writes what decide would have let pass elsewhere: what is asked for here follows from what is written.
void write(Night& night, const PersonId& by, const Body& body)
{
    night.entries.append({night.clock.now(), by, body});
    night.state = fold(night.entries);
}

TEST(WantedSignatureTest, ASecondPersonsPressBesideSomebodysIsSignedByThatPersonToo)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithRelief);
    const qint64 entry = night.entries.size();
    Did did;
    did.swap = night.swap().id;
    did.step = night.swap().steps.first().id;
    did.countersignedBy = night.ben();
    write(night, night.ada(), did);
    EXPECT_EQ(wantedLast(night), (QList<WantedSignature>{{entry, night.ben(), u"countersigned"_s}}));

    Acted acted;
    acted.countersignedBy = night.ada();
    write(night, night.ben(), acted);
    EXPECT_EQ(wantedLast(night), (QList<WantedSignature>{{entry + 1, night.ada(), u"countersigned"_s}}));
    acted.countersignedBy = PersonId();
    write(night, night.ben(), acted);
    EXPECT_TRUE(wantedLast(night).isEmpty());

    for (const Body& body :
         {Body(FanAnswered{LamphouseId(u"lamphouse-1-main"_s), true, night.ada()}),
          Body(LocksSeen{LamphouseId(u"lamphouse-1-main"_s), true, night.ada()}),
          Body(Withdrawn{1, {}, night.ada()}), Body(IncidentAnswered{1, {}, night.ada()})}) {
        const qint64 told = night.entries.size();
        write(night, night.ben(), body);
        EXPECT_EQ(wantedLast(night), (QList<WantedSignature>{{told, night.ada(), u"countersigned"_s}}));
    }
}

TEST(WantedSignatureTest, AStopThatSomebodyElseCountersignedIsSignedByBoth)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithRelief);
    Did did;
    did.swap = night.swap().id;
    did.step = StepId(u"stop-cold-and-dead"_s);
    did.countersignedBy = night.ada();
    write(night, night.ben(), did);

    const qint64 entry = night.entries.size() - 1;
    EXPECT_EQ(wantedLast(night), (QList<WantedSignature>{{entry, night.ben(), u"stop"_s},
                                                         {entry, night.ada(), u"countersigned"_s}}));
}

TEST(WantedSignatureTest, AbsenceProvedByWhoeverCameForThatAloneIsSignedAtOnceAndByTheEngineerAtTheStop)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithElectrician);
    Did did;
    did.swap = night.swap().id;
    did.step = night.swap().steps.first().id;
    did.act = ActRecord();
    did.act->effect = machine::Effect::ProveAbsence;
    write(night, night.eva(), did);
    EXPECT_EQ(wantedLast(night),
              (QList<WantedSignature>{{night.entries.size() - 1, night.eva(), u"took-part"_s}}));

    write(night, night.ada(), did); // who works on the lamps signs at the next stop
    EXPECT_TRUE(wantedLast(night).isEmpty());
    write(night, PersonId(u"stranger"_s), did); // whom the visit does not know
    EXPECT_TRUE(wantedLast(night).isEmpty());
    did.act->effect = machine::Effect::Look;
    write(night, night.eva(), did);
    EXPECT_TRUE(wantedLast(night).isEmpty());
}

TEST(WantedSignatureTest, TheRemovalOfALockIsSignedByWhoeverTookItOffAndByTheSupervisor)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithRelief);
    write(night, night.ben(),
          LockRemoved{night.ada(), LamphouseId(u"lamphouse-1-main"_s), PersonId(u"sup"_s), u"searched"_s,
                      u"rang twice"_s});

    const qint64 entry = night.entries.size() - 1;
    EXPECT_EQ(wantedLast(night), (QList<WantedSignature>{{entry, night.ben(), u"removed-lock"_s},
                                                         {entry, PersonId(u"sup"_s), u"removed-lock"_s}}));
}

TEST(WantedSignatureTest, WhoeverComesLaterSignsInThemselvesAndARemarkIsSignedByItsWriter)
{
    Night night;
    ASSERT_TRUE(night.tell(Joined{Night::electrician()}));
    EXPECT_EQ(wantedLast(night),
              (QList<WantedSignature>{{night.entries.size() - 1, night.eva(), u"signed-in"_s}}));
    ASSERT_TRUE(night.tell(Noted{SwapId(), u"the lobby is cold"_s}));
    EXPECT_TRUE(wantedLast(night).isEmpty());

    night.doAll();
    night.close();
    EXPECT_EQ(wantedLast(night),
              (QList<WantedSignature>{{night.entries.size() - 1, night.ada(), u"performed"_s}}));
    ASSERT_TRUE(night.tell(Addendum{u"sent on Friday"_s}));
    EXPECT_EQ(wantedLast(night),
              (QList<WantedSignature>{{night.entries.size() - 1, night.ada(), u"addendum"_s}}));
}

TEST(WantedSignatureTest, WhoeverSignsHavingTakenPartSignsJustThat)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithTrainee);
    write(night, night.ben(), Signed{u"took-part"_s});

    EXPECT_EQ(wantedLast(night),
              (QList<WantedSignature>{{night.entries.size() - 1, night.ben(), u"took-part"_s}}));
}

TEST(WantedSignatureTest, AStepThatNobodyKnowsIsNoStop)
{
    Night night;
    Did did;
    did.swap = SwapId(u"no-swap"_s);
    did.step = StepId(u"stop-cold-and-dead"_s);
    write(night, night.ada(), did);
    EXPECT_TRUE(wantedLast(night).isEmpty());
    did.swap = night.swap().id;
    did.step = StepId(u"no-step"_s);
    write(night, night.ada(), did);
    EXPECT_TRUE(wantedLast(night).isEmpty());
}

} // namespace
} // namespace coldarc::visit
