#include "core/photometry/chromaticity.h"

#include "tests/support/testing.h"

#include <array>
#include <limits>
#include <vector>

namespace coldarc::photometry {
namespace {

Chromaticity xy(double x, double y)
{
    return *Chromaticity::fromXy(x, y);
}

/// The four corners of a square box round a white.
std::vector<Chromaticity> boxRound(double x, double y, double half)
{
    return {xy(x - half, y - half), xy(x - half, y + half), xy(x + half, y - half), xy(x + half, y + half)};
}

// IEC 60050, 845-23-073 (READ the formula): equal-energy white is 4/19, 9/19 (DERIVED).
TEST(ChromaticityTest, TurnsEqualEnergyWhiteIntoItsFractions)
{
    EXPECT_NEAR(xy(1.0 / 3, 1.0 / 3).u(), 0.2105263, 1e-7);
    EXPECT_NEAR(xy(1.0 / 3, 1.0 / 3).v(), 0.4736842, 1e-7);
}

// The same formula by hand (DERIVED).
TEST(ChromaticityTest, TurnsTheWhiteOfDigitalCinemaIntoUv)
{
    EXPECT_NEAR(xy(0.314, 0.351).u(), 0.190765, 1e-6);
    EXPECT_NEAR(xy(0.314, 0.351).v(), 0.479800, 1e-6);
}

TEST(ChromaticityTest, ComesBackFromUv)
{
    for (const auto& [x, y] : {std::pair(0.314, 0.351), std::pair(0.68, 0.32), std::pair(0.15, 0.06)}) {
        const Chromaticity colour = xy(x, y);
        const auto again = Chromaticity::fromUv(colour.u(), colour.v());
        ASSERT_TRUE(again);
        EXPECT_NEAR(again->x(), x, 1e-12);
        EXPECT_NEAR(again->y(), y, 1e-12);
    }
}

TEST(ChromaticityTest, RefusesWhatIsNoColourOfLight)
{
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_FALSE(Chromaticity::fromXy(0, 0.3));
    EXPECT_FALSE(Chromaticity::fromXy(0.3, 0));
    EXPECT_FALSE(Chromaticity::fromXy(-0.1, 0.3));
    EXPECT_FALSE(Chromaticity::fromXy(0.6, 0.41));
    EXPECT_FALSE(Chromaticity::fromXy(nan, 0.3));
    EXPECT_FALSE(Chromaticity::fromUv(0.2, -0.1));
    EXPECT_FALSE(Chromaticity::fromUv(0, 0.75)); // the divisor is 0
}

// DCI CTP Table 7.5.15(b) prints 0.0171 (READ); the box of +-0.008 gives it (DERIVED).
TEST(ChromaticityTest, FindsTheLargestDistanceInTheWhiteBoxOfTheTestPlan)
{
    EXPECT_NEAR(*largestDistanceUv(boxRound(0.314, 0.351, 0.008)), 0.0171, 5e-5);
}

// DCI CTP Table 7.5.14(b) prints 0.0182 for D65 (READ).
TEST(ChromaticityTest, FindsTheLargestDistanceInTheSameBoxRoundDaylight)
{
    EXPECT_NEAR(*largestDistanceUv(boxRound(0.3127, 0.3290, 0.008)), 0.0182, 5e-5);
}

// A box of +-0.006 reaches 0.0065 from its middle (DERIVED).
TEST(ChromaticityTest, FindsHowFarTheTheatreBoxReaches)
{
    double furthest = 0;
    for (const Chromaticity& corner : boxRound(0.314, 0.351, 0.006))
        furthest = std::max(furthest, distanceUv(xy(0.314, 0.351), corner));
    EXPECT_NEAR(furthest, 0.0065, 5e-5);
}

TEST(ChromaticityTest, HasNoLargestDistanceOfOneColour)
{
    EXPECT_FALSE(largestDistanceUv({}));
    EXPECT_FALSE(largestDistanceUv(std::vector{xy(0.3, 0.3)}));
}

TEST(ChromaticityTest, MeasuresABoxByItsLongerSide)
{
    EXPECT_NEAR(boxDistance(xy(0.314, 0.351), xy(0.316, 0.350)), 0.002, 1e-12);
    EXPECT_NEAR(boxDistance(xy(0.314, 0.351), xy(0.315, 0.346)), 0.005, 1e-12);
}

// McCamy's cubic by hand (formula MEMORY, values DERIVED).
TEST(ChromaticityTest, FindsTheColourTemperatureOfDaylightAndOfCinemaWhite)
{
    EXPECT_NEAR(colourTemperature(xy(0.3127, 0.3290)), 6505.1, 0.1);
    EXPECT_NEAR(colourTemperature(xy(0.314, 0.351)), 6306.2, 0.1);
}

} // namespace
} // namespace coldarc::photometry
