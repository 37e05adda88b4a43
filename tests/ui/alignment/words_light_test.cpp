#include "ui/alignment/words_light.h"

#include "tests/support/testing.h"

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace coldarc::alignment;
using catalogue::Sense;

TEST(WordsLightTest, SayHowFarAHandTurns)
{
    EXPECT_EQ(turnText({1}), u"an eighth of a turn"_s);
    EXPECT_EQ(turnText({2}), u"a quarter of a turn"_s);
    EXPECT_EQ(turnText({4}), u"half a turn"_s);
    EXPECT_EQ(turnText({7}), u"seven eighths of a turn"_s);
    EXPECT_EQ(turnText({8}), u"one turn"_s);
    EXPECT_EQ(turnText({10}), u"one turn and a quarter"_s);
    EXPECT_EQ(turnText({16}), u"2 turns"_s);
    EXPECT_EQ(turnText({21}), u"2 turns and five eighths"_s);
}

TEST(WordsLightTest, SayWhereAKnobStands)
{
    EXPECT_EQ(knobText({0}), u"0"_s);
    EXPECT_EQ(knobText({2}), u"+1/4"_s);
    EXPECT_EQ(knobText({-3}), u"\u22123/8"_s);
    EXPECT_EQ(knobText({12}), u"+1 1/2"_s);
    EXPECT_EQ(knobText({-16}), u"\u22122"_s);
}

TEST(WordsLightTest, SayTheStepOfASearchInFigures)
{
    EXPECT_EQ(stepText({2}), u"1/4 turn"_s);
    EXPECT_EQ(stepText({8}), u"1 turn"_s);
    EXPECT_EQ(stepText({12}), u"1 1/2 turns"_s);
}

TEST(WordsLightTest, SayWhichWayByTheSenseOfTheModel)
{
    const Move forward{0, Direction::Forward, {2}, {0}};
    const Move back{0, Direction::Back, {4}, {2}};

    EXPECT_EQ(moveText(forward, Sense::Clockwise), u"clockwise by a quarter of a turn"_s);
    EXPECT_EQ(moveText(forward, Sense::Anticlockwise), u"anticlockwise by a quarter of a turn"_s);
    EXPECT_EQ(moveText(back, Sense::Clockwise),
              u"anticlockwise by three quarters of a turn, then clockwise by a quarter of a turn"_s);
}

TEST(WordsLightTest, NeverRoundABoundDown)
{
    EXPECT_EQ(boundText(0.0104), u"1.1 %"_s);
    EXPECT_EQ(boundText(0.010), u"1.0 %"_s);
    EXPECT_EQ(boundText(0.0001), u"0.1 %"_s);
    EXPECT_EQ(shareText(0.0104), u"1.0 %"_s);
}

TEST(WordsLightTest, ReportWhatIsLeftToWinOrWhyThatIsNotKnown)
{
    visit::LightOfSwap light;
    EXPECT_TRUE(rowsOf(light).isEmpty());
    light.points = {{1, {}, 40, 0, visit::LightPoint::Of::Scan, u"up"_s},
                    {2, {}, 48, 1, visit::LightPoint::Of::Scan, u"up"_s},
                    {3, {}, 47, 2, visit::LightPoint::Of::Scan, u"up"_s}};
    light.best = 48;

    EXPECT_EQ(rowsOf(light).at(0).at(1), u"3"_s);
    EXPECT_EQ(rowsOf(light).at(1).at(1), u"first 40, best 48, last 47"_s);
    light.state = beginRun({{AxisSetup{}}});
    EXPECT_EQ(rowsOf(light).at(2).at(1), u"not known: 2 cycles after the settle wait are needed"_s);
    light.state.fellBack = true;
    EXPECT_TRUE(rowsOf(light).at(2).at(1).startsWith(u"not known: the knobs go back"_s));
    light.state = beginRun({{AxisSetup{}}});
    light.state.cycle = 2;
    light.state.phase = Phase::Done;
    EXPECT_EQ(rowsOf(light).at(2).at(1), u"not known: one peak was not seen well enough"_s);
    light.state.phase = Phase::Stuck;
    EXPECT_EQ(rowsOf(light).at(2).at(1), u"not known: one knob shows no peak"_s);
    light.left = 0.0061;
    light.state.phase = Phase::AfterWait;
    light.state.cycle = 3;
    light.state.cycleEnd = {{4}};
    light.state.knobs = {{-4}};
    EXPECT_EQ(rowsOf(light).at(2).at(1), u"not known: ended before the knobs were set"_s);
    light.state.knobs = {{4}};
    EXPECT_EQ(rowsOf(light).at(2).at(1), u"at most 0.7 %, all axes together"_s);
    light.state.left = light.left;
    light.state.done.emplace_back();
    light.state.done.back().cycle = 3;
    light.state.done.back().isSkewed = true;
    EXPECT_EQ(rowsOf(light).at(2).at(1),
              u"at most 0.7 %, all axes together; one peak has two different flanks"_s);
    light.left.reset();
    light.form = visit::LightForm::Quick;
    EXPECT_EQ(rowsOf(light).at(2).at(1), u"not known: turned by eye"_s);
}

TEST(WordsLightTest, AskInWordsAboutEachDoubt)
{
    EXPECT_EQ(doubtText(ReadingDoubt::None, 48, 47), QString());
    EXPECT_TRUE(doubtText(ReadingDoubt::PerhapsFootlamberts, 14, 48).contains(u"foot-lamberts now"_s));
    EXPECT_TRUE(doubtText(ReadingDoubt::PerhapsCdPerM2, 48, 14).contains(u"foot-lamberts before"_s));
    EXPECT_TRUE(doubtText(ReadingDoubt::Jump, 480, 48).contains(u"480 after 48"_s));
}

TEST(WordsLightTest, AskAboutTheFirstReadingByWhatItIsHeldAgainst)
{
    using photometry::Doubt;
    using photometry::LuminanceUnit;
    const visit::ExpectedLight arrival{photometry::Luminance::fromFootLamberts(14),
                                       LuminanceUnit::FootLamberts, true};
    const visit::ExpectedLight limits{photometry::Luminance::fromCdPerM2(48), LuminanceUnit::CdPerM2, false};

    EXPECT_EQ(firstDoubtText(Doubt::CdPerM2Taken, 48, arrival),
              u"48, where the screen showed 14 foot-lamberts on arrival: as if the meter showed cd/m\u00b2. "
              u"Enter again takes it as it is."_s);
    EXPECT_EQ(
        firstDoubtText(Doubt::FootLambertsTaken, 14, limits),
        u"14, where the limits ask for 48 cd/m\u00b2: as if the meter showed foot-lamberts. Enter again "
        u"takes it as it is."_s);
    EXPECT_TRUE(firstDoubtText(Doubt::FarOff, 480, limits).contains(u"is far off"_s));
}

} // namespace
} // namespace coldarc::ui
