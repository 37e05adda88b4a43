#include "core/photometry/grey_step.h"

#include "tests/support/testing.h"

namespace coldarc::photometry {
namespace {

const Luminance kNoBlack = Luminance::fromCdPerM2(0);

// DCI CTP Table 7.5.11(a) (READ): the program's formula must give each printed figure (DERIVED that it does).
TEST(GreyStepTest, FollowsTheTransferFunctionToThePrintedFigure)
{
    const std::array printed{0.121, 0.731, 2.098, 4.432, 7.917, 12.718, 18.988, 26.870, 36.497, 47.999};
    for (std::size_t k = 0; k < printed.size(); ++k) {
        EXPECT_NEAR(cdPerM2OfCode(396 * static_cast<int>(k + 1)), printed[k], 5e-4);
        EXPECT_EQ(greySteps()[k].aboveBlackCdPerM2, printed[k]);
        EXPECT_EQ(greySteps()[k].code, 396 * static_cast<int>(k + 1));
    }
}

// The same table's tolerances (READ): 5 % for the two darkest steps, 3 % for the others.
TEST(GreyStepTest, AllowsTheDarkStepsMore)
{
    const GreyStep& second = greySteps()[1]; // 0.731: 0.69445 to 0.76755
    EXPECT_TRUE(isWithin(second, Luminance::fromCdPerM2(0.7674), kNoBlack));
    EXPECT_FALSE(isWithin(second, Luminance::fromCdPerM2(0.7677), kNoBlack));
    const GreyStep& last = greySteps()[9]; // 47.999: 46.55903 to 49.43897
    EXPECT_TRUE(isWithin(last, Luminance::fromCdPerM2(46.56), kNoBlack));
    EXPECT_FALSE(isWithin(last, Luminance::fromCdPerM2(46.55), kNoBlack));
    EXPECT_FALSE(isWithin(last, Luminance::fromCdPerM2(49.44), kNoBlack));
}

TEST(GreyStepTest, TakesTheBlackOff)
{
    const Luminance read = Luminance::fromCdPerM2(0.131);
    EXPECT_TRUE(isWithin(greySteps()[0], read, Luminance::fromCdPerM2(0.01)));
    EXPECT_FALSE(isWithin(greySteps()[0], read, kNoBlack)); // 0.121 * 1.05 = 0.12705
}

// Code values of white from memory; the equation of SMPTE RP 431-2 by hand (DERIVED).
TEST(GreyStepTest, ShowsCinemaWhiteForItsCodeValues)
{
    const auto white = colourOfCodes(3794, 3960, 3890);
    ASSERT_TRUE(white);
    EXPECT_NEAR(white->luminance.cdPerM2(), 47.9987, 1e-4);
    EXPECT_NEAR(white->chromaticity.x(), 0.31398, 1e-5);
    EXPECT_NEAR(white->chromaticity.y(), 0.35096, 1e-5);
}

TEST(GreyStepTest, ShowsNothingForCodesThatThereAreNot)
{
    EXPECT_FALSE(colourOfCodes(-1, 10, 10));
    EXPECT_FALSE(colourOfCodes(10, 4096, 10));
    EXPECT_FALSE(colourOfCodes(0, 0, 0));
}

} // namespace
} // namespace coldarc::photometry
