#include "core/visit/light_of_visit.h"

#include "core/alignment/test_lamp.h"
#include "core/base/json.h"
#include "core/photometry/tolerance_file.h"
#include "tests/core/visit/night.h"

#include <QJsonDocument>

#include <cmath>

namespace coldarc::test {
namespace {

using namespace Qt::StringLiterals;
using namespace coldarc::visit;
using namespace std::chrono_literals;
using alignment::Advice;
using alignment::Eighths;
using alignment::Knobs;
using alignment::Phase;
using alignment::SimulatedLight;

/// A night at the first search for the peak, with a light that answers.
class LightOfVisitTest : public ::testing::TestWithParam<const char*> {
protected:
    explicit LightOfVisitTest(const QString& ofModel = QString::fromLatin1(GetParam()))
        : night(ofModel)
        , lamp(alignment::testLampFor(setupOf(model())), 7)
    {
    }

    void SetUp() override
    {
        while (night.next().step && night.next().step->effect != machine::Effect::Peak)
            ASSERT_TRUE(night.doNext());
        ASSERT_TRUE(night.next().step);
    }
    [[nodiscard]] const catalogue::ProjectorModel& model() const
    {
        return night.state.ground->model(night.swap().lamphouse);
    }
    [[nodiscard]] LightOfSwap light() const { return lightOf(night.state, night.swap().id); }
    [[nodiscard]] StepId step() const { return night.next().step->id; }

    /// Does what is advised and types what the meter shows.
    void readOnce()
    {
        const LightOfSwap now = light();
        for (const alignment::Move& move : now.advice().moves)
            lamp.turn(move);
        LightRead read = advisedReading(now, model(), lamp.read());
        read.swap = night.swap().id;
        read.step = step();
        night.clock.advance(20s);
        const Decision told = night.tell(read);
        ASSERT_TRUE(told) << wordsOf(told.error());
    }
    void readCycle()
    {
        while (light().state.phase == Phase::BeforeWait)
            readOnce();
    }
    /// What a meter without noise would show where the peak has moved once the first cycle is over, so that a
    /// third is due.
    void readMoving()
    {
        const LightOfSwap now = light();
        double fall = 0;
        for (const Eighths knob : now.advice().knobs)
            fall += 0.003 * std::pow(knob.count - (now.state.cycle < 2 ? 0 : 3), 2);
        LightRead read = advisedReading(now, model(), 48 * std::exp(-fall));
        read.swap = night.swap().id;
        read.step = step();
        night.clock.advance(20s);
        ASSERT_TRUE(night.tell(read));
    }
    /// To the second reading of the third cycle.
    void leaveHalfWay()
    {
        readCycle();
        doUntilSettled();
        for (int reading = 0; reading < 80 && light().state.cycle < 3; ++reading)
            readMoving();
        readMoving();
        readMoving();
        ASSERT_EQ(light().state.cycle, 3);
    }
    void setAsAdvised()
    {
        for (const alignment::Move& move : light().advice().moves)
            lamp.turn(move);
        ASSERT_TRUE(night.tell(LightSet{night.swap().id, step(), advisedTurns(light(), model())}));
    }
    void doUntilSettled()
    {
        setAsAdvised();
        while (night.next().step && night.next().step->effect != machine::Effect::PeakAgain)
            ASSERT_TRUE(night.doNext());
        lamp.settle();
    }
    LightRead quickRead(double value) { return {night.swap().id, step(), {}, std::nullopt, value}; }

    Night night;
    SimulatedLight lamp;
};

class LightOfTealTest : public LightOfVisitTest {
protected:
    LightOfTealTest()
        : LightOfVisitTest(u"larkmoor-teal"_s)
    {
    }
};

TEST_P(LightOfVisitTest, WorksTheKnobsInTheModelsOrderAndSteps)
{
    const LightOfSwap now = light();

    ASSERT_EQ(now.run.setup.axes.size(), static_cast<std::size_t>(model().axes.size()));
    for (qsizetype i = 0; i < model().axes.size(); ++i) {
        const alignment::AxisSetup& axis = now.run.setup.axes[static_cast<std::size_t>(i)];
        EXPECT_EQ(axis.name, catalogue::wordOf(model().axes[i].axis));
        EXPECT_EQ(axis.step.count, model().axes[i].stepTurns * 8);
        EXPECT_EQ(axis.backlashSuspected, model().axes[i].hasPlay);
    }
    EXPECT_EQ(*night.next().step->axis, model().axes.first().axis) << "the procedure keeps the model's order";
}

// Before the search was planned in eighths, a model's file could give any step, and signed logbooks keep it.
TEST(LightOfOldVisitTest, LoadsAndIsSearchedInStepsThatAHandRepeats)
{
    struct Case {
        const char* turns;
        int eighths;
    };
    for (const auto& [turns, eighths] : {Case{"0.1", 2}, Case{"0.125", 2}, Case{"0.3", 2}, Case{"0.45", 4}}) {
        Opening opening = Night(u"larkmoor-teal"_s).opening();
        for (Text& text : opening.texts)
            text.bytes.replace(R"("along", "step_turns": 0.5)",
                               QByteArray(R"("along", "step_turns": )") + turns);

        const auto ground = groundOf(opening);

        ASSERT_TRUE(ground) << turns << ground.error().detail.toStdString();
        EXPECT_EQ(setupOf((*ground)->model(0)).axes.front().step, Eighths{eighths}) << turns;
    }
}

TEST_P(LightOfVisitTest, IsThroughWithEachFirstSearchOnceItsKnobIsSet)
{
    while (night.next().step->effect == machine::Effect::Peak) {
        const procedure::Step now = *night.next().step;
        EXPECT_FALSE(isThrough(light(), now, model())) << now.id.text().toStdString();

        while (!isThrough(light(), now, model()))
            readOnce();

        ASSERT_TRUE(night.doNext());
    }
    EXPECT_EQ(light().state.phase, Phase::Waiting);
    EXPECT_EQ(light().points.size(), static_cast<std::size_t>(5 * model().axes.size()));
}

TEST_P(LightOfVisitTest, EndsAtThePeakOfTheSettledLamp)
{
    readCycle();
    doUntilSettled();
    ASSERT_EQ(light().state.phase, Phase::AfterWait);

    for (int reading = 0; reading < 120 && light().state.phase != Phase::Done; ++reading) {
        if (light().state.cycle <= 2 && light().state.phase == Phase::AfterWait) {
            EXPECT_FALSE(light().left) << "two whole cycles first";
        }
        readOnce();
    }

    ASSERT_EQ(light().state.phase, Phase::Done);
    EXPECT_TRUE(isThrough(light(), *night.next().step, model()));
    ASSERT_TRUE(light().left);
    for (const alignment::Move& move : light().advice().moves)
        lamp.turn(move);
    EXPECT_LT(lamp.loss(), 0.01);
    EXPECT_GT(light().won, 0);
    EXPECT_EQ(light().shownMinutes, light().points.back().minutes);
    EXPECT_GT(light().shown.most, light().best);
}

TEST_P(LightOfVisitTest, IsTheSameAfterEverythingWasReadBackFromItsBytes)
{
    readCycle();
    doUntilSettled();
    for (int reading = 0; reading < 8; ++reading)
        readOnce();

    const LightOfSwap again = lightOf(night.readBack(), night.swap().id);

    EXPECT_EQ(again.run, light().run);
    EXPECT_EQ(again.points, light().points);
    EXPECT_EQ(again.advice(), light().advice());
    EXPECT_EQ(again.won, light().won);
}

INSTANTIATE_TEST_SUITE_P(OfEachModel, LightOfVisitTest,
                         ::testing::Values("larkmoor-teal", "quillhaven-pair", "sedgebrook-nook"),
                         [](const auto& instance) {
                             QString name = QString::fromLatin1(instance.param);
                             return name.remove(u'-').toStdString();
                         });

TEST_F(LightOfTealTest, NothingHasHappenedBeforeTheFirstReading)
{
    const LightOfSwap now = light();

    EXPECT_EQ(now.form, LightForm::Planned);
    EXPECT_TRUE(now.points.empty());
    EXPECT_FALSE(now.isWaitOver);
    EXPECT_FALSE(now.isSet);
    EXPECT_EQ(now.won, 0);
    EXPECT_EQ(now.advice().reading, 1);
}

TEST_F(LightOfTealTest, MarksWhereEachScanBeganAndWhereTheWaitWasOver)
{
    readCycle(); // three scans of five, twenty seconds a reading
    doUntilSettled();
    readOnce();

    const std::vector<LightMark> marks = light().marks;
    ASSERT_EQ(marks.size(), 5u);
    EXPECT_EQ(marks[0].axis, u"along"_s);
    EXPECT_EQ(marks[0].minutes, 0);
    EXPECT_NEAR(marks[1].minutes, 5 * 20 / 60.0, 1e-9);
    EXPECT_EQ(marks[2].axis, u"up"_s);
    EXPECT_EQ(marks[3].axis, QString());
    EXPECT_EQ(marks[4].axis, u"along"_s);
    const auto& points = light().points;
    const auto best = std::max_element(
        points.begin(), points.begin() + 15,
        [](const LightPoint& one, const LightPoint& other) { return one.light < other.light; });
    EXPECT_NEAR(light().wonInCycle, points[15].light / best->light - 1, 1e-12);
}

TEST_F(LightOfTealTest, SaysNothingOfWhatIsLeftOnceTheKnobsGoBack)
{
    readCycle();
    doUntilSettled();
    while (light().state.phase == Phase::AfterWait)
        readOnce();
    ASSERT_TRUE(light().left);
    // The last reading, then X, R, R, X: where everything was set the meter shows a fifth less each time.
    for (const double share : {0.8, 0.8, 1.0, 1.0, 0.8}) {
        const LightOfSwap now = light();
        for (const alignment::Move& move : now.advice().moves)
            lamp.turn(move);
        LightRead read = advisedReading(now, model(), share * lamp.read());
        read.swap = night.swap().id;
        read.step = step();
        night.clock.advance(20s);
        ASSERT_TRUE(night.tell(read));
    }

    ASSERT_TRUE(light().state.fellBack);
    EXPECT_FALSE(light().left);
    EXPECT_EQ(alignment::notYet(light().state), alignment::NotYet::FellBack);
}

TEST_F(LightOfTealTest, WhatIsLeftHoldsOnlyWhereTheLastWholeCycleSetTheKnobs)
{
    leaveHalfWay();
    const procedure::Step again = *night.next().step;
    ASSERT_EQ(again.effect, machine::Effect::PeakAgain);
    ASSERT_TRUE(light().left);
    EXPECT_FALSE(light().leftHere()) << "the knob in hand stands off it";

    const auto knobs = knobsToSet(light(), LightForm::Planned, again, model());

    ASSERT_TRUE(knobs);
    EXPECT_EQ(knobs->value(u"along"_s), light().state.cycleEnd[0].count / 8.0);
    EXPECT_FALSE(knobsToSet(light(), LightForm::Quick, again, model())) << "whoever turns by eye sets none";
    ASSERT_TRUE(night.tell(LightSet{night.swap().id, step(), *knobs}));
    EXPECT_EQ(light().leftHere(), light().left);
    EXPECT_FALSE(knobsToSet(light(), LightForm::Planned, again, model())) << "written down already";
    ASSERT_TRUE(night.doNext());
    EXPECT_EQ(lightOf(night.readBack(), night.swap().id).leftHere(), light().left);
}

TEST_F(LightOfTealTest, ASearchThatEndedOffThatPlaceDoesNotSayWhatIsLeft)
{
    leaveHalfWay();

    ASSERT_TRUE(night.doNext());

    EXPECT_TRUE(light().left) << "of where the cycle had set them";
    EXPECT_FALSE(light().leftHere());
}

TEST_F(LightOfTealTest, ASlipThatWasLeftOutIsNotTheBestOfAllThatWereRead)
{
    readCycle();
    doUntilSettled();
    readMoving();
    LightRead slip = advisedReading(light(), model(), 60);
    slip.swap = night.swap().id;
    slip.step = step();
    ASSERT_TRUE(night.tell(slip));
    EXPECT_EQ(light().best, 60);

    for (int reading = 0; reading < 30 && light().state.leftOut.empty(); ++reading)
        readMoving();

    ASSERT_EQ(light().state.leftOut.size(), 1u);
    EXPECT_LT(light().best, 60);
    EXPECT_GE(light().shown.most, 60) << "the chart shows it";
    EXPECT_EQ(std::ranges::count(light().points, true, &LightPoint::isLeftOut), 1);
    ASSERT_TRUE(night.tell(quickRead(44)));
    EXPECT_LT(light().best, 60) << "turning by eye makes no reading of it again";
}

TEST_F(LightOfTealTest, AsksForKnobsToBeSetOnlyWhereTheStepEndsInOne)
{
    const procedure::Step along = *night.next().step;
    for (int reading = 0; reading < 5; ++reading)
        readOnce();
    ASSERT_TRUE(isThrough(light(), along, model()));
    EXPECT_FALSE(knobsToSet(light(), LightForm::Planned, along, model()))
        << "the next reading says where it was set";

    readCycle();
    const procedure::Step last = *night.next().step;
    EXPECT_EQ(knobsToSet(light(), LightForm::Planned, last, model()), advisedTurns(light(), model()));
    EXPECT_FALSE(knobsToSet(light(), LightForm::Quick, last, model())) << "whoever turns by eye sets none";
    setAsAdvised();
    EXPECT_FALSE(knobsToSet(light(), LightForm::Planned, last, model())) << "written down already";

    ASSERT_TRUE(night.tell(quickRead(44)));
    EXPECT_FALSE(knobsToSet(light(), LightForm::Planned, last, model())) << "nothing was advised of a knob";
}

TEST_F(LightOfTealTest, TakesBackTheLastReadingUntilItsStepIsDone)
{
    EXPECT_FALSE(light().mayTakeBack);
    readOnce();
    const qint64 first = night.state.light.last().entry;
    EXPECT_EQ(light().mayTakeBack, first);
    LightRead right = night.state.light.first().read;
    right.replaces = first;
    ASSERT_TRUE(night.tell(right));
    const qint64 corrected = night.state.light.last().entry;
    EXPECT_EQ(light().mayTakeBack, corrected) << "the correction first";
    ASSERT_TRUE(night.tell(Withdrawn{corrected, u"it was right"_s}));
    EXPECT_EQ(light().mayTakeBack, first);

    ASSERT_TRUE(night.doNext());

    EXPECT_FALSE(light().mayTakeBack);
    readOnce();
    EXPECT_EQ(light().mayTakeBack, night.state.light.last().entry);
}

TEST(ExpectedLightTest, IsWhatTheScreenShowedOnArrivalInTheUnitOfThatMeter)
{
    Night night;
    const SwapId swap = night.swap().id;
    EXPECT_FALSE(expectedLight(night.state, swap));
    night.doUntil(u"light-before"_s);
    ScreenRead read{swap, night.next().step->id};
    read.unit = photometry::LuminanceUnit::FootLamberts;
    read.points = {{photometry::Place::Centre, 12, std::nullopt}};
    ASSERT_TRUE(night.tell(read));

    const auto expected = expectedLight(night.state, swap);

    ASSERT_TRUE(expected);
    EXPECT_TRUE(expected->isOfArrival);
    EXPECT_EQ(expected->unit, photometry::LuminanceUnit::FootLamberts);
    EXPECT_NEAR(expected->light.footLamberts(), 12, 1e-9);
    EXPECT_EQ(doubtOfFirst(14, *expected), std::nullopt);
    EXPECT_EQ(doubtOfFirst(48, *expected), photometry::Doubt::CdPerM2Taken); // 48 cd/m2 are 14.0 fL
}

// 48.0 cd/m2 are 14.0 fL, and 48 is the nominal screen light: ISO 26431-1, read in two summaries that agree.
TEST(ExpectedLightTest, IsWhatTheChosenLimitsAskWhereNothingWasReadOnArrival)
{
    Night night;
    const SwapId swap = night.swap().id;
    night.doUntil(u"light-before"_s);
    const auto sets = photometry::loadToleranceSets(sourceFile("resources/photometry")).sets;
    const auto theatre = std::ranges::find(sets, u"digital-theatre"_s,
                                           [](const photometry::ToleranceSet& one) { return one.id.text(); });
    ASSERT_NE(theatre, sets.end());
    ASSERT_TRUE(night.tell(ScreenLimits{swap, night.next().step->id, *theatre}));

    const auto expected = expectedLight(night.state, swap);

    ASSERT_TRUE(expected);
    EXPECT_FALSE(expected->isOfArrival);
    EXPECT_NEAR(expected->light.cdPerM2(), 48, 1e-9);
    EXPECT_EQ(doubtOfFirst(14, *expected), photometry::Doubt::FootLambertsTaken);
    EXPECT_EQ(doubtOfFirst(480, *expected), photometry::Doubt::FarOff);
    EXPECT_EQ(doubtOfFirst(1e5, *expected), photometry::Doubt::FarOff) << "more than a screen can show";
    EXPECT_EQ(doubtOfFirst(36, *expected), std::nullopt);
}

TEST(SenseTest, AKnobThatGoesForwardAnticlockwiseGoesBackClockwise)
{
    using alignment::Direction;
    using catalogue::Sense;
    EXPECT_EQ(senseOf(Direction::Forward, Sense::Clockwise), Sense::Clockwise);
    EXPECT_EQ(senseOf(Direction::Back, Sense::Clockwise), Sense::Anticlockwise);
    EXPECT_EQ(senseOf(Direction::Forward, Sense::Anticlockwise), Sense::Anticlockwise);
    EXPECT_EQ(senseOf(Direction::Back, Sense::Anticlockwise), Sense::Clockwise);
}

TEST_F(LightOfTealTest, AReadingThatWasTakenBackNeverCounts)
{
    readOnce();
    readOnce();
    const alignment::LightRun before = light().run;
    const Advice advice = light().advice();
    readOnce();

    ASSERT_TRUE(night.tell(Withdrawn{night.state.light.last().entry, u"typed wrong"_s}));

    EXPECT_EQ(light().run, before);
    EXPECT_EQ(light().advice(), advice);
    EXPECT_EQ(light().points.size(), 2u);
}

TEST_F(LightOfTealTest, ACorrectionTakesThePlaceOfWhatWasTyped)
{
    for (int reading = 0; reading < 4; ++reading)
        readOnce();
    const LightReading wrong = night.state.light[1];
    LightRead right = wrong.read;
    right.value = 41.5;
    right.replaces = wrong.entry;

    ASSERT_TRUE(night.tell(right));

    ASSERT_EQ(light().points.size(), 4u);
    EXPECT_EQ(light().points[1].light, 41.5);
    EXPECT_EQ(light().points[1].entry, wrong.entry) << "read when it was read";
    EXPECT_EQ(light().state.scan.points[1].light, 41.5);
    EXPECT_EQ(light().state.scan.points.size(), 4u);
}

TEST_F(LightOfTealTest, ACorrectionThatWasTakenBackLeavesWhatWasTyped)
{
    readOnce();
    const double typed = night.state.light.first().read.value;
    LightRead right = night.state.light.first().read;
    right.value = typed + 1;
    right.replaces = night.state.light.first().entry;
    ASSERT_TRUE(night.tell(right));

    ASSERT_TRUE(night.tell(Withdrawn{night.state.light.last().entry, u"it was right"_s}));

    EXPECT_EQ(light().points.front().light, typed);
}

TEST_F(LightOfTealTest, ACorrectionOfWhatWasTakenBackIsNoReading)
{
    readOnce();
    LightRead right = night.state.light.first().read;
    right.replaces = night.state.light.first().entry;
    ASSERT_TRUE(night.tell(right));

    ASSERT_TRUE(night.tell(Withdrawn{right.replaces, u"the knob stood elsewhere"_s}));

    EXPECT_TRUE(light().points.empty());
    EXPECT_TRUE(light().run.entries.empty());
}

TEST_F(LightOfTealTest, OnlyAReadingOfTheSameSwapCanBePutRight)
{
    readOnce();
    LightRead right = night.state.light.first().read;
    right.replaces = 0; // the opening

    EXPECT_TRUE(isRefused(night.tell(right), Why::Kind::NothingAsked));
}

TEST_F(LightOfTealTest, ACorrectionIsPutRightByCorrectingTheReadingAnew)
{
    readOnce();
    LightRead right = night.state.light.first().read;
    right.replaces = night.state.light.first().entry;
    ASSERT_TRUE(night.tell(right));

    right.replaces = night.state.light.last().entry;
    EXPECT_TRUE(isRefused(night.tell(right), Why::Kind::NothingAsked));
    right.replaces = night.state.light.first().entry;
    EXPECT_TRUE(night.tell(right));
}

TEST_F(LightOfTealTest, WhatASearchEndedOnIsNotTakenBackAnyMore)
{
    readOnce();
    const Withdrawn withdrawn{night.state.light.last().entry, u"typed wrong"_s};
    const StepId search = step();
    ASSERT_TRUE(night.doNext());
    ASSERT_EQ(night.swap().record(search).status, StepRecord::Status::Done);

    EXPECT_TRUE(isRefused(night.tell(withdrawn), Why::Kind::CannotWithdraw));
}

TEST_F(LightOfTealTest, NoMeterShowsAndNoKnobTurnsThatFar)
{
    LightRead read{night.swap().id, step(), u"up"_s, 0.0, kMostReading * 1.01};
    EXPECT_TRUE(isRefused(night.tell(read), Why::Kind::AnswerBad));

    read = {night.swap().id, step(), u"up"_s, -kMostTurns - 1, 40};
    EXPECT_TRUE(isRefused(night.tell(read), Why::Kind::AnswerBad));

    read = {night.swap().id, step(), u"up"_s, 0.0, 40, {{u"across"_s, kMostTurns + 1}}};
    EXPECT_TRUE(isRefused(night.tell(read), Why::Kind::AnswerBad));
    EXPECT_TRUE(isRefused(night.tell(LightSet{night.swap().id, step(), {{u"up"_s, kMostTurns + 1}}}),
                          Why::Kind::AnswerBad));
}

TEST_F(LightOfTealTest, TakesNoKnobThatTheModelHasNot)
{
    LightRead read{night.swap().id, step(), u"round"_s, 0.0, 40};
    EXPECT_TRUE(isRefused(night.tell(read), Why::Kind::UnknownName));

    read = {night.swap().id, step(), u"up"_s, 0.0, 40, {{u"round"_s, 1.0}}};
    EXPECT_TRUE(isRefused(night.tell(read), Why::Kind::UnknownName));
    EXPECT_TRUE(isRefused(night.tell(LightSet{night.swap().id, step(), {{u"round"_s, 1.0}}}),
                          Why::Kind::UnknownName));
    EXPECT_TRUE(isRefused(night.tell(LightSet{night.swap().id, step(), {}}), Why::Kind::UnknownName));
}

TEST_F(LightOfTealTest, KnobsThatWereSetBeforeTheWaitAreWhereTheNextCycleBegins)
{
    readCycle();
    const Knobs advised = light().advice().knobs;
    EXPECT_FALSE(light().isSet);

    setAsAdvised();

    EXPECT_TRUE(light().isSet);
    doUntilSettled();
    EXPECT_EQ(light().state.knobs, advised);
    EXPECT_EQ(light().state.cycle, 1);
}

TEST_F(LightOfTealTest, ASettingThatWasTakenBackWasNotMade)
{
    readCycle();
    setAsAdvised();

    ASSERT_TRUE(night.tell(Withdrawn{night.state.lightSets.last().entry, u"not yet"_s}));

    EXPECT_FALSE(light().isSet);
}

TEST_F(LightOfTealTest, TheSecondSearchGoesOnWithoutAFirst)
{
    while (night.next().step->effect != machine::Effect::PeakAgain)
        ASSERT_TRUE(night.doNext());

    EXPECT_TRUE(light().isWaitOver);
    EXPECT_EQ(light().state.phase, Phase::AfterWait);
    readOnce();
    EXPECT_EQ(light().state.scan.points.size(), 1u);
}

TEST_F(LightOfTealTest, AReadingOfTheSecondSearchMeansThatTheWaitIsOver)
{
    while (night.next().step->effect == machine::Effect::Peak)
        ASSERT_TRUE(night.doNext());
    ASSERT_TRUE(night.tell(Owed{night.swap().id, step()})); // the settle step, left to a later visit
    night.clock.advance(model().settle);
    ASSERT_EQ(night.next().step->effect, machine::Effect::PeakAgain);
    EXPECT_FALSE(light().isWaitOver);

    readOnce();

    EXPECT_TRUE(light().isWaitOver);
    EXPECT_EQ(light().state.phase, Phase::AfterWait);
    EXPECT_EQ(light().state.scan.points.size(), 1u);
}

TEST_F(LightOfTealTest, AReadingSaysWhereTheOtherKnobsWereSetWithoutOneOfTheirOwn)
{
    for (int reading = 0; reading < 5; ++reading)
        readOnce();
    const Knobs advised =
        light().advice().knobs; // the first knob at its setting, the second at its first place
    ASSERT_EQ(light().advice().axis, 1);
    ASSERT_NE(advised[0], light().state.knobs[0]);

    readOnce();

    EXPECT_EQ(std::get<alignment::Reading>(light().run.entries.back()).knobs, advised);
}

TEST_F(LightOfTealTest, ALampThatIsStruckAgainBeginsAnew)
{
    readOnce();
    readOnce();
    Happened failed;
    failed.incident = Incident::FanOrPower;
    failed.lamphouse = night.state.ground->lamphouses[night.swap().lamphouse];
    failed.wentOut = {failed.lamphouse};
    ASSERT_TRUE(night.tell(failed));
    ASSERT_EQ(light().points.size(), 2u);

    for (int steps = 0; steps < 40 && night.lamphouse().heat != machine::Heat::Lit; ++steps)
        ASSERT_TRUE(night.doNext());

    ASSERT_EQ(night.lamphouse().heat, machine::Heat::Lit);
    EXPECT_TRUE(light().points.empty())
        << "what an arc showed that went out is not compared with the new one";
}

// ---- The quick form
// ----------------------------------------------------------------------------------------

TEST_F(LightOfTealTest, TheQuickFormKnowsNothingButWhatWasRead)
{
    for (const double value : {40.0, 44.0, 50.0, 45.0})
        ASSERT_TRUE(night.tell(quickRead(value)));

    const LightOfSwap now = light();
    EXPECT_EQ(now.form, LightForm::Quick);
    ASSERT_TRUE(now.quick);
    EXPECT_EQ(now.quick->bestLight, 50);
    EXPECT_NEAR(now.quick->fallBack, 0.1, 1e-12); // 45 of 50
    EXPECT_TRUE(now.run.entries.empty());
    EXPECT_FALSE(isThrough(now, *night.next().step, model()));
    EXPECT_NEAR(now.won, 0.25, 1e-12); // 50 of 40
}

TEST_F(LightOfTealTest, AfterTheQuickFormThePlanBeginsWhereTheKnobsStandNow)
{
    readOnce();
    readOnce();
    ASSERT_TRUE(night.tell(quickRead(44)));

    EXPECT_TRUE(light().run.entries.empty());
    readOnce();

    EXPECT_EQ(light().form, LightForm::Planned);
    EXPECT_EQ(light().state.scan.points.size(), 1u);
    EXPECT_FALSE(light().quick);
    EXPECT_EQ(light().points.size(), 4u) << "all stay in the chart against time";
}

TEST_F(LightOfTealTest, AQuickReadingIsPutRightToo)
{
    ASSERT_TRUE(night.tell(quickRead(40)));
    ASSERT_TRUE(night.tell(quickRead(99)));
    LightRead right = quickRead(49);
    right.replaces = night.state.light.last().entry;

    ASSERT_TRUE(night.tell(right));

    EXPECT_EQ(light().quick->bestLight, 49);
}

// ---- While it settles
// --------------------------------------------------------------------------------------

TEST_F(LightOfTealTest, ReadingsAtRestSayWhetherTheLightStillMoves)
{
    readCycle();
    setAsAdvised();
    while (night.next().step->effect == machine::Effect::Peak)
        ASSERT_TRUE(night.doNext());
    ASSERT_EQ(night.next().step->effect, machine::Effect::Settle);
    for (const double value : {48.0, 48.05, 48.1}) {
        ASSERT_TRUE(night.tell(quickRead(value))) << "the wait still runs";
        night.clock.advance(5min);
    }

    EXPECT_EQ(light().rest.state, alignment::SettledVerdict::State::Settled);
    EXPECT_EQ(light().form, LightForm::Planned) << "nobody turned a knob";
    EXPECT_EQ(light().state.phase, Phase::Waiting);
    EXPECT_TRUE(light().isSet);
    EXPECT_EQ(light().points.back().of, LightPoint::Of::Rest);
}

TEST_F(LightOfTealTest, LooksOnTwoClocksAreNotCompared)
{
    readCycle();
    setAsAdvised();
    while (night.next().step->effect == machine::Effect::Peak)
        ASSERT_TRUE(night.doNext());
    const auto look = [&] {
        ASSERT_TRUE(night.tell(quickRead(48)));
        night.clock.advance(5min);
    };
    look();
    look();
    ASSERT_EQ(light().rest.looks, 2);

    night.clock.reboot(1min, 1min);
    look();

    EXPECT_EQ(light().rest.looks, 1);
}

TEST_F(LightOfTealTest, ALampThatIsOffHasNoLightToRead)
{
    Night other;
    other.doUntil(u"strike"_s);

    EXPECT_FALSE(other.tell(LightRead{other.swap().id, StepId(u"settle"_s), {}, std::nullopt, 40}));
}

TEST_F(LightOfTealTest, OldEntriesSayNothingOfTheOtherKnobsAndAreReadAllTheSame)
{
    const QByteArray old =
        R"({"at":)" + QJsonDocument(coldarc::toJson(night.clock.now())).toJson(QJsonDocument::Compact) +
        R"(,"by":"ada","format":1,"kind":"light-read","what":{"axis":"up","step":"peak-up",)"
        R"("swap":"swap-1","turns":0.5,"value":41.2}})";

    const auto entry = entryFrom(old);

    ASSERT_TRUE(entry) << entry.error().detail.toStdString();
    const auto& read = std::get<LightRead>(entry->body);
    EXPECT_EQ(read.turns, 0.5);
    EXPECT_TRUE(read.others.isEmpty());
    EXPECT_EQ(read.replaces, -1);
    EXPECT_EQ(bytesOf(*entry), old);
}

} // namespace
} // namespace coldarc::test
