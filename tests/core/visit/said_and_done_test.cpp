#include "core/machine/make_safe.h"
#include "tests/core/visit/night.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace visit;
using namespace std::chrono_literals;
using machine::Effect;
using machine::Outcome;

// What somebody says of another's lock, of a count or of a label does no more than it can mean.

void answerWith(QJsonObject& answers, const QString& lock)
{
    answers.insert(u"lock"_s, lock);
}

TEST(LockAnsweredWrongly, ByTheOtherPersonStaysOnTheRecordAndIsTriedAgain) // 29 CFR 1910.147(e)(3)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithRelief);
    night.doUntil(u"stop-cold-and-dead"_s);
    ASSERT_TRUE(night.doAct(night.ben(), Effect::LockOn));

    ASSERT_TRUE(night.doStep(
        u"stop-cold-and-dead"_s, [](QJsonObject& answers) { answerWith(answers, u"77"_s); }, 0, night.ben()));

    EXPECT_TRUE(machine::has(night.state.machine.group[0].locks, night.state.person(night.ada())));
    EXPECT_FALSE(night.lamphouse().startTried);
    EXPECT_FALSE(night.isDone(u"stop-cold-and-dead"_s));
    ASSERT_TRUE(night.tell(night.ben(), PassedOn{night.ada(), night.ben()}));
    EXPECT_FALSE(night.tell(night.ada(), Left{night.ada()})) << "her lock hangs there";
    expectSame(night.state, night.readBack());
}

TEST(LockAnsweredWrongly, ByItsOwnerIsHungAgain)
{
    Night night(u"larkmoor-teal"_s);
    night.doUntil(u"stop-cold-and-dead"_s);

    ASSERT_TRUE(
        night.doStep(u"stop-cold-and-dead"_s, [](QJsonObject& answers) { answerWith(answers, u"77"_s); }));

    EXPECT_EQ(night.state.machine.group[0].locks, 0);
    EXPECT_EQ(night.nextId(), u"own-lock"_s);
    night.doAll();
    night.close();
    EXPECT_EQ(night.state.end, u"done"_s);
}

TEST(LockAnsweredWrongly, ByItsOwnerStaysOnTheRecordWhileSheStandsBehindIt)
{
    Night night(u"larkmoor-teal"_s);
    night.doUntil(u"stop-cold-and-dead"_s);
    ASSERT_TRUE(night.putOnGear(night.ada()));
    ASSERT_TRUE(night.doAct(night.ada(), Effect::EnterZone));

    ASSERT_TRUE(
        night.doStep(u"stop-cold-and-dead"_s, [](QJsonObject& answers) { answerWith(answers, u"77"_s); }));

    EXPECT_TRUE(machine::has(night.state.machine.group[0].locks, night.state.person(night.ada())));
    EXPECT_FALSE(night.lamphouse().startTried);
    EXPECT_FALSE(night.isDone(u"stop-cold-and-dead"_s));
}

TEST(CountThatDiffers, AtALamphouseWithoutASwapIsAnsweredToo)
{
    Night night(u"quillhaven-pair"_s);
    night.doUntil(u"find-other"_s);
    ASSERT_TRUE(night.doStep(u"find-other"_s, [](QJsonObject& answers) {
        answers.insert(u"lamp"_s, u"Off"_s);
        answers.insert(u"housing"_s, u"Open"_s);
    }));
    ASSERT_TRUE(night.tell(SafeBegun{u"no time left"_s}));

    using Step = machine::SafeStep::Kind;
    machine::SafeStep step;
    for (int count = 0; count < 60; ++count) {
        const VisitState now = night.seen();
        step = machine::nextSafeStep(now.plant, now.machine, 0, now.lead);
        if (step.kind == Step::Done)
            break;
        if (step.kind == Step::Hold) {
            night.clock.advance(1h);
        } else if (step.kind == Step::Report) {
            night.answerIncidents();
        } else {
            Acted acted;
            acted.act = toRecord(now, step.act);
            if (step.act.effect == Effect::Count)
                acted.act.outcome = Outcome::Differs;
            ASSERT_TRUE(night.tell(acted));
        }
    }

    EXPECT_EQ(step.kind, Step::Done) << "it asks for ever";
    EXPECT_EQ(night.lamphouse(1).count, machine::Counting::Answered);
    night.close();
    EXPECT_FALSE(night.state.isOpen());
}

TEST(MatchWithdrawn, WhileTheLampBurnsIsBookedInAnew)
{
    Night night(u"larkmoor-teal"_s);
    night.doUntil(u"settle"_s);
    const auto entryOf = [&](const char16_t* step) {
        return night.swap().record(StepId(QString::fromUtf16(step))).entry;
    };
    const qint64 match = entryOf(u"match-box");
    const qint64 unbox = entryOf(u"unbox-new");

    ASSERT_TRUE(night.tell(Withdrawn{match, u"another box"_s}));
    ASSERT_TRUE(night.tell(Withdrawn{unbox, u"not read"_s}));

    EXPECT_FALSE(night.state.machine.lamp[night.swap().newLamp].booked);
    EXPECT_FALSE(night.isDone(u"book-in"_s));
    EXPECT_EQ(night.nextId(), u"book-in"_s);
}

TEST(NeighbourThatDoesNotLight, IsLeftOutOnceItsTriesAreSpent)
{
    Night night(u"quillhaven-pair"_s);
    night.doUntil(u"strike-other"_s);
    while (night.lamphouse(1).failedStrikes < night.state.plant.lamphouse[1].strikeLimit) {
        ASSERT_TRUE(night.doStep(u"strike-other"_s, [](QJsonObject& answers) {
            answers.insert(u"result"_s, u"It did not light"_s);
        }));
        night.clock.advance(1h);
    }

    EXPECT_NE(night.nextId(), u"strike-other"_s);
    night.answerIncidents();
    night.doAll();
    night.close();
    EXPECT_EQ(night.state.end, u"done"_s);
}

} // namespace
} // namespace coldarc::test
