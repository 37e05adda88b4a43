#include "ui/alignment/light_presenter.h"

#include "tests/ui/alignment/light_at_work.h"

#include <QSignalSpy>

#include <cmath>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using machine::Effect;
using test::LightAtWork;
using Stand = LightAxisRow::Stand;

class LightPresenterTest : public ::testing::Test {
protected:
    LightPresenterTest()
        : finished(&presenter, &LightPresenter::finished)
    {
        presenter.open(0);
    }
    [[nodiscard]] const LightView& view() const { return presenter.view(); }
    void readOnce() { presenter.enter(work.turnAndLook()); }
    /// Until the step in hand is through.
    void readStep()
    {
        for (int reading = 0; reading < 150 && !view().isFinishing; ++reading)
            readOnce();
        ASSERT_TRUE(view().isFinishing);
    }
    /// Everything before the settle wait.
    void readFirstCycle()
    {
        while (work.effect() == Effect::Peak) {
            readStep();
            presenter.done();
        }
    }
    void waitUntilSettled()
    {
        work.night().holdWaits();
        work.settle();
        presenter.refresh();
        presenter.done();
        ASSERT_EQ(work.effect(), Effect::PeakAgain);
    }

    LightAtWork work;
    LightPresenter presenter{work};
    QSignalSpy finished;
};

TEST_F(LightPresenterTest, OpensAtTheModelsFirstKnobWithWhatToTurn)
{
    ASSERT_EQ(view().axes.size(), 3);
    EXPECT_EQ(view().axes[0].name, u"Along"_s);
    EXPECT_EQ(view().axes[0].stand, Stand::Now);
    EXPECT_EQ(view().axes[0].sub, u"0 of 5 readings"_s);
    EXPECT_EQ(view().axes[1].stand, Stand::Ahead);
    EXPECT_EQ(view().axes[1].sub, u"1/4 turn a step"_s);
    // One step of half a turn back, come upon going forward from a quarter of a turn further.
    EXPECT_EQ(view().what,
              u"Along: anticlockwise by three quarters of a turn, then clockwise by a quarter of a "
              u"turn, then read."_s);
    ASSERT_TRUE(view().dial);
    EXPECT_EQ(view().dial->turns, (QList<double>{-0.75, 0.25}));
    EXPECT_EQ(view().action.text, u"Set and read"_s);
    EXPECT_EQ(view().action.stand, ActionView::Stand::Ready);
    EXPECT_FALSE(view().isFinishing);
    EXPECT_FALSE(view().canTakeBack);
    EXPECT_TRUE(view().canOwe);
    EXPECT_FALSE(view().scan.empty.isEmpty());
}

TEST_F(LightPresenterTest, TurnsTheOtherWayRoundWhereTheModelSaysSo)
{
    readStep();
    readOnce(); // along, across ...
    while (view().axes[2].stand != Stand::Now)
        readOnce();
    // "Up" goes forward anticlockwise: two steps of a quarter ahead of one back.
    readOnce();

    EXPECT_TRUE(view().what.startsWith(u"Up: anticlockwise by three quarters of a turn, then read"_s))
        << view().what.toStdString();
    EXPECT_EQ(view().dial->turns, (QList<double>{-0.75}));
}

TEST_F(LightPresenterTest, TakesPointAndCommaAlike)
{
    presenter.enter(u"41.5"_s);
    presenter.enter(u" 42,25 "_s);

    ASSERT_EQ(work.light().points.size(), 2u);
    EXPECT_EQ(work.light().points[0].light, 41.5);
    EXPECT_EQ(work.light().points[1].light, 42.25);
    EXPECT_EQ(view().said, QString());
}

TEST_F(LightPresenterTest, EmptiesTheBoxForTheNextNumberAtOnce)
{
    const int before = view().boxTurn;

    presenter.enter(u"41.5"_s);

    EXPECT_GT(view().boxTurn, before);
    EXPECT_EQ(view().boxText, QString());
    EXPECT_EQ(view().light, u"41.5"_s);
    EXPECT_EQ(view().axes[0].sub, u"1 of 5 readings"_s);
    EXPECT_EQ(view().scan.readings, (QList<QPointF>{{-4, 41.5}}));
}

struct BadNumber {
    const char* name;
    QString typed;
    friend void PrintTo(const BadNumber& bad, std::ostream* out) { *out << bad.name; }
};

class LightPresenterRefusalTest : public LightPresenterTest,
                                  public ::testing::WithParamInterface<BadNumber> {};

TEST_P(LightPresenterRefusalTest, SaysWhyAndLosesNothing)
{
    readOnce();
    const qsizetype before = work.entries();
    const int box = view().boxTurn;

    presenter.enter(GetParam().typed);

    EXPECT_FALSE(view().said.isEmpty());
    EXPECT_TRUE(view().said.contains(GetParam().typed.trimmed()));
    EXPECT_EQ(view().boxTurn, box) << "what was typed stays in the box";
    presenter.enter(GetParam().typed);
    EXPECT_EQ(work.entries(), before) << "pressing again does not help";
}

INSTANTIATE_TEST_SUITE_P(OfWhatIsNoLight, LightPresenterRefusalTest,
                         ::testing::Values(BadNumber{"Letters", u"4o.2"_s}, BadNumber{"Negative", u"-48"_s},
                                           BadNumber{"Zero", u"0"_s}, BadNumber{"TwoSigns", u"4.8,1"_s},
                                           BadNumber{"Nothing", u"  "_s}, BadNumber{"TooMuch", u"99999999"_s},
                                           BadNumber{"Exponent", u"4e1"_s}),
                         [](const auto& instance) { return std::string(instance.param.name); });

TEST_F(LightPresenterTest, AsksAboutAReadingThatLooksLikeTheOtherUnit)
{
    presenter.enter(u"48"_s);
    const qsizetype before = work.entries();

    presenter.enter(u"14"_s); // 48 cd/m2 are 14.009 fL: NIST SP 811, appendix B.8, read in a copy

    EXPECT_EQ(work.entries(), before);
    EXPECT_TRUE(view().said.contains(u"foot-lamberts"_s)) << view().said.toStdString();
    presenter.enter(u"14"_s);
    EXPECT_EQ(work.entries(), before + 1) << "the person's answer stands";
    EXPECT_EQ(work.light().points.back().light, 14);
}

TEST(LightPresenterOnArrivalTest, HoldsTheFirstReadingAgainstWhatTheScreenShowed)
{
    LightAtWork work(u"larkmoor-teal"_s, 46);
    LightPresenter presenter(work);
    presenter.open(0);
    const qsizetype before = work.entries();

    presenter.enter(u"14"_s);

    EXPECT_EQ(work.entries(), before);
    EXPECT_TRUE(presenter.view().said.contains(u"46 cd/m\u00b2 on arrival"_s))
        << presenter.view().said.toStdString();
    presenter.enter(u"14"_s);
    EXPECT_EQ(work.entries(), before + 1) << "the person's answer stands";
}

TEST(LightPresenterOnArrivalTest, TakesAFirstReadingThatFitsWithoutAQuestion)
{
    LightAtWork work(u"larkmoor-teal"_s, 46);
    LightPresenter presenter(work);
    presenter.open(0);

    presenter.enter(u"41"_s);

    EXPECT_EQ(presenter.view().said, QString());
    EXPECT_EQ(work.light().points.size(), 1u);
}

TEST_F(LightPresenterTest, AsksAboutAGreatJumpAndForgetsTheQuestionWhenItIsTypedRight)
{
    presenter.enter(u"48.2"_s);

    presenter.enter(u"482"_s);
    EXPECT_TRUE(view().said.contains(u"great jump"_s));
    presenter.enter(u"47.9"_s);

    EXPECT_EQ(view().said, QString());
    ASSERT_EQ(work.light().points.size(), 2u);
    EXPECT_EQ(work.light().points.back().light, 47.9);
    presenter.enter(u"482"_s);
    EXPECT_EQ(work.light().points.size(), 2u) << "asked anew";
}

TEST_F(LightPresenterTest, TakesBackTheLastReadingAndNoMore)
{
    readOnce();
    const QString what = view().what;
    readOnce();

    presenter.takeBack();

    EXPECT_EQ(work.light().points.size(), 1u);
    EXPECT_EQ(view().what, what);
    ASSERT_TRUE(std::holds_alternative<visit::Withdrawn>(work.night().entries.last().body));
    presenter.takeBack();
    EXPECT_TRUE(work.light().points.empty());
    const qsizetype before = work.entries();
    presenter.takeBack();
    EXPECT_EQ(work.entries(), before);
}

TEST_F(LightPresenterTest, TakesBackNoReadingOfAStepThatIsDone)
{
    readStep();
    presenter.done();
    const qsizetype before = work.entries();
    EXPECT_FALSE(view().canTakeBack);
    EXPECT_EQ(view().putRight, u"Put right"_s) << "it can still be put right";

    presenter.takeBack();

    EXPECT_EQ(work.entries(), before);
    EXPECT_TRUE(view().said.contains(u"step that is done"_s)) << view().said.toStdString();
}

TEST_F(LightPresenterTest, NothingButItsOwnEnterEmptiesTheBoxOfWhatIsTyped)
{
    readOnce();
    const int box = view().boxTurn;

    presenter.takeBack();
    EXPECT_EQ(view().boxTurn, box);
    presenter.done();
    EXPECT_EQ(view().boxTurn, box);
    presenter.owe();
    EXPECT_EQ(view().boxTurn, box);
}

TEST_F(LightPresenterTest, TheFigureOfAReadingThatIsPutRightIsNoneThatWasTyped)
{
    readOnce();
    presenter.putRight();
    const int box = view().boxTurn;

    presenter.takeBack();

    EXPECT_GT(view().boxTurn, box);
    EXPECT_EQ(view().boxText, QString());
    EXPECT_EQ(view().fieldName, u"What the meter shows"_s);
}

TEST_F(LightPresenterTest, PutsTheLastReadingRightByANewEntry)
{
    readOnce();
    presenter.enter(u"31.5"_s);

    presenter.putRight();
    EXPECT_EQ(view().boxText, u"31.5"_s);
    EXPECT_EQ(view().putRight, u"Leave it"_s);
    presenter.enter(u"41.5"_s);

    ASSERT_EQ(work.light().points.size(), 2u);
    EXPECT_EQ(work.light().points.back().light, 41.5);
    EXPECT_EQ(view().scan.readings.last().y(), 41.5);
    EXPECT_EQ(view().putRight, u"Put right"_s) << "the next number is a reading again";
    EXPECT_EQ(work.night().state.light.size(), 3) << "what was typed stays in the logbook";
}

TEST_F(LightPresenterTest, LeavesTheLastReadingWhereItWasPressedTwice)
{
    readOnce();
    presenter.putRight();

    presenter.putRight();
    readOnce();

    EXPECT_EQ(work.light().points.size(), 2u);
}

TEST_F(LightPresenterTest, IsTheSameAfterItWasLeftAndComeBackTo)
{
    for (int reading = 0; reading < 7; ++reading)
        readOnce();
    LightView before = view();

    LightPresenter again(work);
    again.open(0);

    before.boxTurn = again.view().boxTurn;
    before.said.clear();
    EXPECT_EQ(again.view(), before);
}

TEST_F(LightPresenterTest, EndsAStepOnceItsKnobIsSetAndGoesOnWithTheNext)
{
    readStep();
    EXPECT_EQ(view().action.text, u"Done"_s);
    EXPECT_EQ(view().finish, QString());

    presenter.done();

    EXPECT_EQ(finished.size(), 0) << "the next knob's step is done here too";
    EXPECT_FALSE(view().isFinishing);
    EXPECT_EQ(view().axes[0].stand, Stand::Done);
    EXPECT_EQ(view().axes[0].state, u"set"_s) << "before the wait nothing is called a peak";
    EXPECT_EQ(view().axes[1].stand, Stand::Now);
}

TEST_F(LightPresenterTest, ReadsTheNextKnobEvenWhereTheStepBeforeIsNotEndedYet)
{
    readStep();
    readOnce();

    EXPECT_EQ(view().axes[1].sub, u"1 of 5 readings"_s);
    EXPECT_TRUE(view().isFinishing);
}

TEST_F(LightPresenterTest, KeepsThatTheKnobsWereSetBeforeTheWait)
{
    readFirstCycle();

    ASSERT_EQ(work.night().state.lightSets.size(), 1);
    EXPECT_TRUE(work.light().isSet);
    EXPECT_EQ(work.effect(), Effect::Settle);
    EXPECT_EQ(finished.size(), 0) << "the wait is shown here";
}

TEST_F(LightPresenterTest, WritesNoKnobsDownThatNobodySetWhoWentOnByEye)
{
    while (work.light().state.phase == alignment::Phase::BeforeWait)
        readOnce();
    ASSERT_EQ(view().action.text, u"Knobs set, done"_s);
    presenter.changeForm();

    presenter.done();

    EXPECT_TRUE(std::holds_alternative<visit::Did>(work.night().entries.last().body));
    EXPECT_EQ(work.night().state.lightSets.size(), 0);
}

TEST_F(LightPresenterTest, CallsNoKnobSetThatShowsNoPeak)
{
    readFirstCycle();
    waitUntilSettled();
    for (int reading = 0; reading < 60 && work.light().state.phase != alignment::Phase::Stuck; ++reading)
        presenter.enter(u"44"_s); // whatever is turned

    ASSERT_EQ(work.light().state.phase, alignment::Phase::Stuck);
    EXPECT_EQ(view().axes[0].state, u"no peak seen"_s);
    EXPECT_EQ(view().axes[0].stand, Stand::Now);
    EXPECT_EQ(view().axes[1].state, u"not reached"_s);
    EXPECT_EQ(view().leftSub, u"Not known: one knob shows no peak."_s);
}

TEST_F(LightPresenterTest, ShowsTheSettleWaitAndTakesNoPressInIt)
{
    readFirstCycle();

    EXPECT_TRUE(view().wait);
    EXPECT_EQ(view().action.stand, ActionView::Stand::Waits);
    EXPECT_TRUE(view().then.contains(u"0 so far"_s));
    readOnce();
    EXPECT_TRUE(view().then.contains(u"1 so far"_s)) << "a number is a look at the resting light";
    EXPECT_EQ(work.light().state.phase, alignment::Phase::Waiting);

    const qsizetype before = work.entries();
    presenter.done();
    EXPECT_EQ(work.entries(), before) << "the wait is not shortened";
    EXPECT_EQ(view().said, u"refused"_s);
}

TEST_F(LightPresenterTest, ComesToThePeakOfTheSettledLamp)
{
    readFirstCycle();
    waitUntilSettled();
    EXPECT_EQ(view().axesTitle, u"Axes, cycle 1"_s);
    EXPECT_EQ(view().left, u"\u2013"_s);

    readStep();

    EXPECT_TRUE(view().left.startsWith(u"at most "_s)) << view().left.toStdString();
    EXPECT_EQ(view().axes[2].state, u"at its peak"_s);
    EXPECT_TRUE(view().scan.peak);
    presenter.done();
    EXPECT_EQ(finished.size(), 1);
    EXPECT_TRUE(work.light().isSet);
}

TEST_F(LightPresenterTest, ShowsThePassesInTheChartAgainstTime)
{
    readFirstCycle();
    waitUntilSettled();
    readOnce();

    QStringList marks;
    for (const ChartTick& mark : view().trace.marks)
        marks.append(mark.text);
    EXPECT_EQ(marks, (QStringList{u"Along"_s, u"Across"_s, u"Up"_s, u"settled"_s, u"Along"_s}));
    EXPECT_EQ(view().trace.readings.size(), 16);
}

TEST_F(LightPresenterTest, LeavesTheSecondSearchToALaterVisit)
{
    readFirstCycle();
    waitUntilSettled();
    ASSERT_TRUE(view().canOwe);

    presenter.owe();

    EXPECT_TRUE(std::holds_alternative<visit::Owed>(work.night().entries.last().body));
    EXPECT_EQ(finished.size(), 1);
}

/// At the second reading of the third cycle, with a knob off the place that the figure is told of.
class LightPresenterHalfWayTest : public LightPresenterTest {
protected:
    void SetUp() override
    {
        readFirstCycle();
        waitUntilSettled();
        for (int reading = 0; reading < 80 && work.light().state.cycle < 3; ++reading)
            readMoving();
        readMoving();
        readMoving();
        ASSERT_EQ(work.light().state.cycle, 3);
        ASSERT_TRUE(work.light().left);
    }
    /// No noise, and a peak that has moved once the first cycle is over, so that a third is due.
    void readMoving()
    {
        double fall = 0;
        for (const alignment::Eighths knob : work.light().advice().knobs)
            fall += 0.003 * std::pow(knob.count - (work.light().state.cycle < 2 ? 0 : 3), 2);
        work.night().clock.advance(20s);
        presenter.enter(QString::number(48 * std::exp(-fall), 'f', 4));
        ASSERT_EQ(view().said, QString());
    }
    [[nodiscard]] const visit::Body& last() { return work.night().entries.last().body; }
};

TEST_F(LightPresenterHalfWayTest, SaysWhereTheFigureHoldsWhileTheSearchGoesOn)
{
    EXPECT_TRUE(view().left.startsWith(u"at most "_s));
    EXPECT_TRUE(view().leftSub.startsWith(u"Where the last whole cycle set the knobs."_s))
        << view().leftSub.toStdString();
}

TEST_F(LightPresenterHalfWayTest, ShowsWhereTheKnobsBelongBeforeItEnds)
{
    const qsizetype before = work.entries();
    const alignment::Knobs set = work.light().state.cycleEnd;

    presenter.finish();

    EXPECT_EQ(work.entries(), before) << "first shown";
    EXPECT_TRUE(view().what.startsWith(u"Along: "_s)) << view().what.toStdString();
    EXPECT_TRUE(view().what.endsWith(u", then leave it there."_s)) << view().what.toStdString();
    EXPECT_TRUE(view().then.contains(u"As they stand now it is not known"_s));
    EXPECT_EQ(view().action.text, u"Knobs set, done"_s);
    EXPECT_EQ(view().finish, u"Done as they stand"_s);
    EXPECT_TRUE(view().isFinishing);
    presenter.done();
    ASSERT_EQ(work.night().state.lightSets.size(), 2);
    EXPECT_TRUE(std::holds_alternative<visit::Did>(last()));
    EXPECT_EQ(work.light().state.knobs, set);
    EXPECT_EQ(work.light().leftHere(), work.light().left);
    EXPECT_TRUE(view().left.startsWith(u"at most "_s));
}

TEST_F(LightPresenterHalfWayTest, IsNotKnownAnyMoreWhereTheKnobsStayedAsTheyStood)
{
    presenter.finish();
    presenter.finish();

    EXPECT_TRUE(std::holds_alternative<visit::Did>(last()));
    EXPECT_EQ(work.night().state.lightSets.size(), 1) << "those before the wait";
    EXPECT_EQ(view().left, u"\u2013"_s);
    EXPECT_EQ(view().leftSub, u"Not known: ended before the knobs were set."_s);
}

TEST_F(LightPresenterHalfWayTest, AsksForTheKnobsBeforeTheRestIsLeftToALaterVisit)
{
    presenter.owe();
    EXPECT_EQ(view().action.text, u"Knobs set, leave the rest"_s);
    EXPECT_FALSE(view().canOwe);

    presenter.done();

    EXPECT_TRUE(std::holds_alternative<visit::Owed>(last()));
    EXPECT_EQ(work.light().leftHere(), work.light().left);
}

TEST_F(LightPresenterHalfWayTest, GoesOnWhereSomebodyThinksBetterOfIt)
{
    const LightView before = view();
    presenter.finish();
    ASSERT_EQ(view().form, u"Go on searching"_s);

    presenter.changeForm();

    EXPECT_EQ(view(), before);
}

TEST_F(LightPresenterHalfWayTest, TakesNoNumberOfAPlaceThatIsNotThePlans)
{
    presenter.finish();
    const qsizetype before = work.entries();
    const int box = view().boxTurn;

    presenter.enter(u"47"_s);

    EXPECT_EQ(work.entries(), before);
    EXPECT_EQ(view().boxTurn, box);
    EXPECT_TRUE(view().said.contains(u"The search goes on"_s)) << view().said.toStdString();
    presenter.enter(u"47"_s);
    EXPECT_EQ(work.entries(), before + 1);
}

TEST_F(LightPresenterTest, SaysThatAKnobWasTurnedForTheReadingThatIsTakenBack)
{
    readOnce();
    readOnce();
    EXPECT_FALSE(view().how.contains(u"no second time"_s));

    presenter.takeBack();

    EXPECT_TRUE(view().how.contains(u"turn it no second time"_s)) << view().how.toStdString();
    presenter.enter(u"41.5"_s);
    EXPECT_FALSE(view().how.contains(u"no second time"_s));
}

TEST_F(LightPresenterTest, EndsAStepBeforeThePlanDoesWhereSomebodySaysSo)
{
    readOnce();
    EXPECT_EQ(view().finish, u"Enough, done"_s);

    presenter.done();

    EXPECT_TRUE(std::holds_alternative<visit::Did>(work.night().entries.last().body));
    EXPECT_EQ(work.night().state.lightSets.size(), 0) << "nobody said that the knobs were set";
}

// ---- By eye
// ------------------------------------------------------------------------------------------------

TEST_F(LightPresenterTest, TurningByEyeKeepsTheBestAndClaimsNoMore)
{
    presenter.changeForm();
    for (const QString& typed : {u"40"_s, u"44"_s, u"50"_s, u"45"_s})
        presenter.enter(typed);

    EXPECT_EQ(work.light().form, visit::LightForm::Quick);
    EXPECT_EQ(view().lightSub, u"best seen 50"_s);
    EXPECT_EQ(view().left, u"10.0 %"_s) << "below the best seen, not what is left to win";
    EXPECT_EQ(view().leftTitle, u"Below the best seen"_s);
    EXPECT_TRUE(view().leftSub.contains(u"not known"_s));
    EXPECT_TRUE(view().then.contains(u"no interval"_s));
    EXPECT_TRUE(view().how.contains(u"10.0 %"_s));
    EXPECT_TRUE(view().axes.isEmpty());
    EXPECT_FALSE(view().scan.peak);
    EXPECT_EQ(view().finish, u"Done, as it is"_s);
}

TEST_F(LightPresenterTest, GoesBackToThePlanFromWhereTheKnobsStand)
{
    presenter.changeForm();
    presenter.enter(u"44"_s);

    presenter.changeForm();
    EXPECT_TRUE(view().said.contains(u"begins anew"_s));
    readOnce();

    EXPECT_EQ(work.light().form, visit::LightForm::Planned);
    EXPECT_EQ(view().axes[0].sub, u"1 of 5 readings"_s);
}

TEST_F(LightPresenterTest, HasNothingToReadWhereNoStepOfTheLightIsInHand)
{
    work.doUntil(Effect::MeasureScreen);
    presenter.refresh();
    const qsizetype before = work.entries();

    presenter.enter(u"48"_s);

    EXPECT_EQ(work.entries(), before);
    EXPECT_EQ(view().action.stand, ActionView::Stand::Waits);
    EXPECT_FALSE(view().said.isEmpty());
}

TEST(LightPresenterOfTwoTest, AnotherLampsBoxIsEmpty)
{
    LightAtWork work(u"larkmoor-teal"_s, std::nullopt, 2);
    LightPresenter presenter(work);
    presenter.open(0);
    presenter.enter(u"41"_s);
    presenter.enter(u"4x"_s); // stays in the box
    const int box = presenter.view().boxTurn;

    presenter.open(1);

    EXPECT_GT(presenter.view().boxTurn, box) << "a page puts a text into its box only when this changes";
    EXPECT_EQ(presenter.view().boxText, QString());
}

class LightOfEachModelTest : public ::testing::TestWithParam<const char*> {};

TEST_P(LightOfEachModelTest, IsWorkedFromTheFirstReadingToTheLast)
{
    LightAtWork work(QString::fromLatin1(GetParam()));
    LightPresenter presenter(work);
    QSignalSpy finished(&presenter, &LightPresenter::finished);
    presenter.open(0);
    for (int press = 0; press < 200 && finished.isEmpty(); ++press) {
        if (!presenter.view().isFinishing) {
            presenter.enter(work.turnAndLook());
        } else if (work.effect() == Effect::Settle) {
            work.night().holdWaits();
            work.settle();
            presenter.done();
        } else {
            presenter.done();
        }
        presenter.refresh();
    }

    EXPECT_EQ(finished.size(), 1);
    EXPECT_LT(work.loss(), 0.02);
}

INSTANTIATE_TEST_SUITE_P(AsShipped, LightOfEachModelTest,
                         ::testing::Values("larkmoor-teal", "quillhaven-pair", "sedgebrook-nook"),
                         [](const auto& instance) {
                             QString name = QString::fromLatin1(instance.param);
                             return name.remove(u'-').toStdString();
                         });

} // namespace
} // namespace coldarc::ui
