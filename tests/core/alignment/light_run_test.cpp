#include "core/alignment/light_run.h"

#include "tests/support/testing.h"

#include <cmath>
#include <limits>

namespace coldarc::test {
namespace {

using namespace coldarc::alignment;

LightRun oneReading()
{
    LightRun run;
    run.setup.axes.resize(2);
    run.entries.emplace_back(Reading{0, {Eighths{0}, Eighths{0}}, 48, {}});
    return run;
}

Reading reading(int axis, double light, std::size_t knobs = 2)
{
    return {axis, Knobs(knobs), light, {}};
}

// 48 cd/m2 are 14.009 fL, 1 fL = 3.426259 cd/m2: NIST SP 811, appendix B.8, read in a copy.
TEST(LightRunTest, AsksAboutFootlambertsInARunOfCdPerM2)
{
    EXPECT_EQ(doubtOf(14.0, 48.0), ReadingDoubt::PerhapsFootlamberts);
    EXPECT_EQ(doubtOf(11.5, 48.0), ReadingDoubt::PerhapsFootlamberts); // and down a flank besides
    EXPECT_EQ(doubtOf(48.0, 14.0), ReadingDoubt::PerhapsCdPerM2);
}

TEST(LightRunTest, AsksAboutAJump)
{
    EXPECT_EQ(doubtOf(480, 48.0), ReadingDoubt::Jump);
    EXPECT_EQ(doubtOf(4.8, 48.0), ReadingDoubt::Jump);
    EXPECT_EQ(doubtOf(23.9, 48.0), ReadingDoubt::Jump);
    EXPECT_EQ(doubtOf(96.1, 48.0), ReadingDoubt::Jump);
}

TEST(LightRunTest, TakesWhatAScanMayShow)
{
    EXPECT_EQ(doubtOf(24.1, 48.0), ReadingDoubt::None);
    EXPECT_EQ(doubtOf(95.9, 48.0), ReadingDoubt::None);
    EXPECT_EQ(doubtOf(0.4, std::nullopt), ReadingDoubt::None);
}

TEST(LightRunTest, NeverTakesWhatIsNoLight)
{
    for (const double bad : {0.0, -3.0, std::nan(""), std::numeric_limits<double>::infinity()}) {
        EXPECT_EQ(doubtOf(bad, 48.0), ReadingDoubt::NotALight);
        EXPECT_EQ(refusalOf(oneReading(), reading(0, bad)), EntryRefusal::NotALight);
        EXPECT_EQ(refusalOf(oneReading(), Correction{0, bad}), EntryRefusal::NotALight);
    }
}

TEST(LightRunTest, RefusesAnAxisThatTheModelDoesNotHave)
{
    EXPECT_EQ(refusalOf(oneReading(), reading(2, 48)), EntryRefusal::NoSuchAxis);
    EXPECT_EQ(refusalOf(oneReading(), reading(-1, 48)), EntryRefusal::NoSuchAxis);
    EXPECT_EQ(refusalOf(oneReading(), reading(0, 48, 3)), EntryRefusal::NoSuchAxis);
    EXPECT_EQ(refusalOf(oneReading(), SettleWaitOver{Knobs(1), {}}), EntryRefusal::NoSuchAxis);
}

TEST(LightRunTest, WaitsOnce)
{
    LightRun run = oneReading();
    const SettleWaitOver over{Knobs(2), {}};
    EXPECT_EQ(refusalOf(run, over), std::nullopt);

    run.entries.emplace_back(over);

    EXPECT_EQ(refusalOf(run, over), EntryRefusal::WaitedAlready);
    EXPECT_EQ(refusalOf(run, reading(1, 48)), std::nullopt);
}

TEST(LightRunTest, CorrectsReadingsOnly)
{
    LightRun run = oneReading();
    run.entries.emplace_back(SettleWaitOver{Knobs(2), {}});

    EXPECT_EQ(refusalOf(run, Correction{0, 47}), std::nullopt);
    EXPECT_EQ(refusalOf(run, Correction{1, 47}), EntryRefusal::NotAReading);
    EXPECT_EQ(refusalOf(run, Correction{2, 47}), EntryRefusal::NotAReading);
}

} // namespace
} // namespace coldarc::test
