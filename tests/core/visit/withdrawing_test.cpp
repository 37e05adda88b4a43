#include "tests/core/visit/night.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace visit;
using machine::Demand;
using machine::Effect;
using Kind = Why::Kind;
using Crew = Night::Crew;

/// Steps whose entry can be withdrawn, and where the swap then stands. Each is withdrawn right after it was
/// done.
class WithdrawnStep : public ::testing::TestWithParam<const char*> {};

TEST_P(WithdrawnStep, ComesBackAndLeavesTheWayToTheEnd)
{
    Night night(QString::fromLatin1(GetParam()));
    int withdrawn = 0;
    for (int count = 0; !night.nextId().isEmpty(); ++count) {
        ASSERT_LT(count, 120);
        const QString step = night.nextId();
        ASSERT_TRUE(night.doNext()) << step.toStdString();
        const qint64 entry = night.state.entries - 1;
        const Effect effect = night.swap().step(StepId(step))->effect;
        Night other = night;
        const Decision back = other.tell(Withdrawn{entry, u"pressed by mistake"_s});
        ASSERT_EQ(back.has_value(), machine::canWithdraw(effect)) << step.toStdString();
        if (!back) {
            EXPECT_TRUE(isRefused(back, Kind::CannotWithdraw));
            continue;
        }
        ++withdrawn;
        EXPECT_FALSE(other.isDone(step));
        EXPECT_TRUE(other.hasException(Exception::Kind::EntryWithdrawn));
        EXPECT_TRUE(isRefused(other.tell(Withdrawn{entry, u"again"_s}), Kind::CannotWithdraw));
        if (effect == Effect::Unbox) { // the box is open: its labels are read once more, outside the zone
            EXPECT_EQ(other.state.machine.lamp[other.swap().newLamp].match, machine::Match::No);
            other.doUntil(u"book-in"_s);
            other.readLabels();
        }
        if (effect == Effect::Isolate) { // in doubt: restored, then isolated anew
            EXPECT_TRUE(other.next().isPutRight);
            other.putRight();
        }
        other.doAll();
        ASSERT_FALSE(HasFatalFailure()) << step.toStdString();
        EXPECT_EQ(other.lamphouse().heat, machine::Heat::Lit) << step.toStdString();
        EXPECT_EQ(other.state.entries, other.readBack().entries);
        EXPECT_TRUE(isRefused(night.tell(Withdrawn{entry, u" "_s}), Kind::TextMissing));
    }
    EXPECT_GT(withdrawn, 20);
}

INSTANTIATE_TEST_SUITE_P(
    OfEachModel, WithdrawnStep, ::testing::Values("larkmoor-teal", "quillhaven-pair", "sedgebrook-nook"),
    [](const auto& instance) {
        return std::string(instance.param).substr(0, std::string(instance.param).find('-'));
    });

qint64 entryOf(const Night& night, const QString& step)
{
    return night.swap().record(StepId(step)).entry;
}

TEST(Withdrawing, TheTriedStartWithALampInHandLeavesOnlyTheWayBack) // CV28
{
    Night night;
    night.doUntil(u"box-old"_s);

    ASSERT_TRUE(
        night.tell(Withdrawn{entryOf(night, u"try-start"_s), u"nobody saw the lamp of the other load"_s}));

    EXPECT_FALSE(night.lamphouse().startTried);
    EXPECT_EQ(night.nextId(), u"box-old"_s); // the step back
    ASSERT_TRUE(night.doNext());
    EXPECT_TRUE(night.hasException(Exception::Kind::SafeWardWithGateWaiting));
    EXPECT_EQ(night.nextId(), u"shut-guard"_s);
    for (const QString& refused : {u"dust"_s, u"unbox-new"_s, u"prove-clamps"_s, u"try-start"_s})
        EXPECT_FALSE(night.doStep(refused, kAsItShouldBe)) << refused.toStdString();
    ASSERT_TRUE(night.doNext());
    EXPECT_EQ(night.nextId(), u"shut-housing"_s);
    ASSERT_TRUE(night.doNext());
    EXPECT_EQ(night.nextId(), u"leave-zone"_s);
    ASSERT_TRUE(night.doNext());
    EXPECT_EQ(night.nextId(), u"try-start"_s);

    night.doAll(); // in again, by the whole way
    EXPECT_EQ(night.lamphouse().heat, machine::Heat::Lit);
    EXPECT_TRUE(night.isDone(u"shut-guard"_s));
}

/// CV4: no word of somebody else takes a lock off. For an owner who is away there is the documented removal.
TEST(Withdrawing, OfALockIsItsOwnersAlone)
{
    for (const auto crew : {Night::Crew::WithRelief, Night::Crew::WithTrainee}) {
        Night night(u"larkmoor-teal"_s, crew);
        night.doUntil(u"gear-on"_s);
        ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));
        const qint64 bens = night.state.entries - 1;
        const qint64 adas = entryOf(night, u"own-lock"_s);

        EXPECT_TRUE(isRefused(night.tell(night.ada(), Withdrawn{bens, u"not needed"_s}), Kind::OthersLock));
        EXPECT_TRUE(isRefused(night.tell(night.ben(), Withdrawn{adas, u"not needed"_s}), Kind::OthersLock));
        EXPECT_EQ(night.state.machine.group[0].locks, machine::maskOf(0) | machine::maskOf(1));

        ASSERT_TRUE(night.tell(night.ben(), Withdrawn{bens, u"it never hung"_s, night.ada()}));
        EXPECT_EQ(night.state.machine.group[0].locks, machine::maskOf(0));
        expectSame(night.state, night.readBack());
    }
}

TEST(Withdrawing, OfALockIsOfTheEntryByWhichItHangsNow)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithRelief);
    night.doUntil(u"gear-on"_s);
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));
    const qint64 before = night.state.entries - 1;
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOff));
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));
    const qint64 now = night.state.entries - 1;
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn)); // pressed twice: it hangs already
    const qint64 twice = night.state.entries - 1;

    for (const qint64 entry : {before, twice})
        EXPECT_TRUE(isRefused(night.tell(night.ben(), Withdrawn{entry, u"wrong"_s}), Kind::OthersLock));
    EXPECT_TRUE(machine::has(night.state.machine.group[0].locks, 1));

    EXPECT_TRUE(night.tell(night.ben(), Withdrawn{now, u"it never hung"_s}));
    EXPECT_FALSE(machine::has(night.state.machine.group[0].locks, 1));
    expectSame(night.state, night.readBack());
}

TEST(Withdrawing, OfAJobLockIsItsHoldersAlone)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithRelief);
    night.doUntil(u"own-lock"_s);
    const qint64 entry = entryOf(night, u"job-lock-lamp-supply"_s);

    EXPECT_TRUE(isRefused(night.tell(night.ben(), Withdrawn{entry, u"wrong"_s}), Kind::OthersLock));
    EXPECT_TRUE(night.tell(night.ada(), Withdrawn{entry, u"it never hung"_s}));
    EXPECT_EQ(night.state.machine.point[0].jobLock, machine::kNone);
}

TEST(Withdrawing, TakesNoLockOffOnceSomebodyWasHurt) // D9
{
    Night night;
    night.doUntil(u"gear-on"_s);
    ASSERT_TRUE(night.tell(Happened{Incident::SomeoneHurt, {}, {}, {}, {}, {}, u"a cut"_s}));

    const Decision back = night.tell(Withdrawn{entryOf(night, u"own-lock"_s), u"wrong"_s});

    EXPECT_EQ(demandsOf(back), QList{Demand::NobodyHurt});
    EXPECT_EQ(night.state.machine.group[0].locks, machine::maskOf(0));
}

Decision givesWay(Night& night, const PersonId& by, machine::Index point)
{
    return night.doAct(by, Effect::LockOn, 0, [&](machine::Act& act) {
        act.point = point;
        act.outcome = machine::Outcome::WillNotLock;
    });
}

TEST(Withdrawing, OfAPointThatGaveWayLetsTheLockBeHungAndTheSwapGoOn)
{
    for (const auto& [model, step] : {std::pair{u"larkmoor-teal"_s, u"job-lock-lamp-supply"_s},
                                      std::pair{u"sedgebrook-nook"_s, u"own-lock"_s}}) {
        Night night(model);
        night.doUntil(step);
        ASSERT_TRUE(night.doStep(step, [&](QJsonObject& answers) {
            answers[u"holds"_s] = night.swap().step(StepId(step))->capture(u"holds"_s)->choices[1].text;
        }));
        const qint64 entry = night.state.entries - 1;
        ASSERT_TRUE(night.state.machine.point[0].willNotLock);
        ASSERT_TRUE(night.next().endsHere);

        ASSERT_TRUE(night.tell(Withdrawn{entry, u"pressed by mistake"_s}));

        EXPECT_FALSE(night.next().endsHere);
        EXPECT_EQ(night.nextId(), step);
        expectSame(night.state, night.readBack());
        night.doAll();
        EXPECT_EQ(night.lamphouse().heat, machine::Heat::Lit);
    }
}

TEST(Withdrawing, OfAPointThatGaveWayTakesNoLockOff)
{
    Night job(u"larkmoor-teal"_s, Night::Crew::WithRelief);
    job.doUntil(u"own-lock"_s);
    ASSERT_TRUE(givesWay(job, job.ben(), 0));
    ASSERT_TRUE(job.tell(job.ben(), Withdrawn{job.state.entries - 1, u"another breaker"_s}));
    EXPECT_EQ(job.state.machine.point[0].jobLock, 0);

    Night own(u"sedgebrook-nook"_s);
    own.doUntil(u"relieve"_s);
    ASSERT_TRUE(givesWay(own, own.ada(), 0));
    ASSERT_TRUE(own.tell(Withdrawn{own.state.entries - 1, u"another breaker"_s}));
    EXPECT_EQ(own.state.machine.group[0].locks, machine::maskOf(0));
}

TEST(Withdrawing, OfAPointThatGaveWayLeavesWhatOthersSaidOfIt)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithRelief);
    night.doUntil(u"job-lock-lamp-supply"_s);
    ASSERT_TRUE(givesWay(night, night.ada(), 0));
    const qint64 adas = night.state.entries - 1;
    Night told = night;
    ASSERT_TRUE(told.tell(
        told.ben(),
        Happened{Incident::PointWillNotLock, {}, {}, told.state.ground->points[0], {}, {}, u"it turns"_s}));

    ASSERT_TRUE(night.tell(Withdrawn{adas, u"pressed by mistake"_s}));
    EXPECT_FALSE(night.state.machine.point[0].willNotLock);
    ASSERT_TRUE(told.tell(Withdrawn{adas, u"pressed by mistake"_s}));
    EXPECT_TRUE(told.state.machine.point[0].willNotLock);
    expectSame(told.state, told.readBack());
}

TEST(Withdrawing, LeavesEverySafeWardActOpen) // CV28
{
    Night night;
    night.doUntil(u"clamp-lamp"_s);
    ASSERT_TRUE(night.tell(Withdrawn{entryOf(night, u"try-start"_s), u"not sure"_s}));

    EXPECT_TRUE(night.doAct(night.ada(), Effect::ClampLamp, 0,
                            [](machine::Act& act) { act.outcome = machine::Outcome::Agrees; }));
    EXPECT_TRUE(night.doAct(night.ada(), Effect::ShutGuard));
    EXPECT_TRUE(night.doAct(night.ada(), Effect::ShutHousing));
    EXPECT_TRUE(night.doAct(night.ada(), Effect::LeaveZone));
    expectSame(night.state, night.readBack());
}

TEST(Correcting, KeepsBothAndTheLaterOneCounts) // 21 CFR 11.10(e): changes do not obscure
{
    Night night;
    night.doUntil(u"find-adaptor"_s);
    const qint64 counters = entryOf(night, u"read-counters"_s);
    ASSERT_TRUE(night.tell(Withdrawn{counters, u"read 900, it is 990"_s}));

    ASSERT_TRUE(
        night.doStep(u"read-counters"_s, [](QJsonObject& answers) { answers[u"hours"_s] = u"990"_s; }));

    EXPECT_EQ(night.swap().record(StepId(u"read-counters"_s)).answers.value(u"hours"_s).toString(), u"990"_s);
    EXPECT_EQ(std::get<Did>(night.entries[counters].body).answers.value(u"hours"_s).toString(), u"900"_s);
    EXPECT_TRUE(night.state.withdrawn.contains(counters));
}

TEST(AfterClosing, OnlyAnAddendumIsTaken)
{
    Night night;
    night.doAll();
    night.close();

    EXPECT_TRUE(isRefused(night.tell(Noted{{}, u"late"_s}), Kind::Over));
    EXPECT_TRUE(isRefused(night.tell(Withdrawn{5, u"late"_s}), Kind::Over));
    EXPECT_TRUE(isRefused(night.tell(Closed{}), Kind::Over));
    EXPECT_TRUE(isRefused(night.tell(Addendum{u" "_s}), Kind::TextMissing));
    EXPECT_TRUE(isRefused(night.tell(PersonId(u"eve"_s), Addendum{u"I heard"_s}), Kind::HadNoPart));
    ASSERT_TRUE(night.tell(Addendum{u"the box was sent on Friday"_s}));
    EXPECT_EQ(night.state.end, u"done"_s);
    EXPECT_TRUE(night.hasException(Exception::Kind::Addendum));
}

} // namespace
} // namespace coldarc::test
