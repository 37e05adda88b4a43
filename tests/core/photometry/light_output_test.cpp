#include "core/photometry/light_output.h"

#include "tests/support/testing.h"

#include <limits>

namespace coldarc::photometry {
namespace {

const ScreenSize kScope = *ScreenSize::fromWidthAndAspect(12, 2.39);

// pi A L / G by hand (DERIVED): 12 m wide at 2.39 to 1, gain 1, 48 cd/m2.
TEST(LightOutputTest, FindsTheLightOfALargeScreen)
{
    EXPECT_NEAR(kScope.areaM2(), 60.2510, 60e-4);
    EXPECT_NEAR(illuminanceLux(9085.64, kScope), 150.796, 0.015);
    EXPECT_NEAR(expectedLuminance(9085.64, kScope, 1)->cdPerM2(), 48, 0.005);
}

// 1 fc = 1 lm/ft2 = 10.7639104167 lx (DERIVED from the foot; NIST SP 811 has 10.76391, READ-2).
TEST(LightOutputTest, FindsTheFootCandleFromASquareFoot)
{
    EXPECT_NEAR(illuminanceLux(1, *ScreenSize::fromMetres(0.3048, 0.3048)), 10.7639104167, 1e-8);
}

// In feet the law is gain * lumens / area (DERIVED): 800 lm on 48 ft2 are 16.67 fL at gain 1.
TEST(LightOutputTest, AgreesWithTheLawInFeet)
{
    const auto screen = *ScreenSize::fromMetres(8 * 0.3048, 6 * 0.3048);
    EXPECT_NEAR(expectedLuminance(800, screen, 1)->footLamberts(), 16.6667, 1e-4);
}

TEST(LightOutputTest, TakesGainAndLossesIntoAccount)
{
    const double plain = expectedLuminance(9000, kScope, 1)->cdPerM2();
    EXPECT_NEAR(expectedLuminance(9000, kScope, 1.8, 0.9)->cdPerM2(), plain * 1.8 * 0.9, 1e-9);
}

TEST(LightOutputTest, RefusesWhatCannotBe)
{
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_FALSE(expectedLuminance(0, kScope, 1));
    EXPECT_FALSE(expectedLuminance(-1, kScope, 1));
    EXPECT_FALSE(expectedLuminance(nan, kScope, 1));
    EXPECT_FALSE(expectedLuminance(9000, kScope, 0));
    EXPECT_FALSE(expectedLuminance(9000, kScope, 21));
    EXPECT_FALSE(expectedLuminance(9000, kScope, 1, 0));
    EXPECT_FALSE(expectedLuminance(9000, kScope, 1, 1.01));
    EXPECT_FALSE(expectedLuminance(9000, kScope, -1));
    EXPECT_FALSE(ScreenSize::fromMetres(0.09, 5));
    EXPECT_FALSE(ScreenSize::fromMetres(12, 101));
    EXPECT_FALSE(ScreenSize::fromWidthAndAspect(12, 0));
    EXPECT_FALSE(ScreenSize::fromWidthAndAspect(12, nan));
}

// 0.1 W = 2 d tan 1 degree at d = 2.864 W (DERIVED).
TEST(LightOutputTest, SeesATenthOfTheWidthWithTwoDegreesFromNearlyThreeWidths)
{
    EXPECT_NEAR(spotDiameterM(2.864, 2), kWidestSpotOfWidth, 1e-4);
}

} // namespace
} // namespace coldarc::photometry
