#include "core/photometry/luminance.h"

#include "tests/support/testing.h"

#include <cmath>
#include <limits>
#include <numbers>

namespace coldarc::photometry {
namespace {

using namespace Qt::StringLiterals;

// 1/(pi 0.3048^2), worked out apart from the program (DERIVED); definition in `units` 2.22 (READ).
TEST(LuminanceTest, HoldsTheFootLambertThatFollowsFromItsDefinition)
{
    EXPECT_NEAR(Luminance::fromFootLamberts(1).cdPerM2(), 3.4262590996, 3.4262590996e-9);
    EXPECT_NEAR(Luminance::fromCdPerM2(1).footLamberts(), 0.29186350796, 0.29186350796e-9);
}

// NIST SP 811 Appendix B: 3.426259 (READ-2).
TEST(LuminanceTest, AgreesWithThePublishedFactor)
{
    EXPECT_NEAR(Luminance::kCdPerM2PerFootLambert, 3.426259, 5e-7);
}

// A well-known numeric library prints 10.7639 for this, having lost the 1/pi (seen in GSL 2.7.1).
TEST(LuminanceTest, DoesNotLoseThePiOfTheFootLambert)
{
    EXPECT_NEAR(10.7639104167 / Luminance::kCdPerM2PerFootLambert, std::numbers::pi, 1e-6);
}

// Products and quotients of the factor above (DERIVED).
TEST(LuminanceTest, TurnsTheCustomaryLevelsIntoOneAnother)
{
    EXPECT_NEAR(Luminance::fromFootLamberts(14).cdPerM2(), 47.96763, 1e-4);
    EXPECT_NEAR(Luminance::fromFootLamberts(16).cdPerM2(), 54.82015, 1e-4);
    EXPECT_NEAR(Luminance::fromCdPerM2(48).footLamberts(), 14.00945, 1e-4);
    EXPECT_NEAR(Luminance::fromCdPerM2(55).footLamberts(), 16.05249, 1e-4);
}

TEST(LuminanceTest, ComesBackInTheUnitThatItWasGivenIn)
{
    for (const LuminanceUnit unit : {LuminanceUnit::CdPerM2, LuminanceUnit::FootLamberts}) {
        for (const double value : {0.0, 0.003, 11.0, 48.0, 300.0})
            EXPECT_DOUBLE_EQ(Luminance::from(value, unit)->in(unit), value);
    }
}

TEST(LuminanceTest, RefusesWhatNoScreenShows)
{
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double infinity = std::numeric_limits<double>::infinity();
    for (const double value : {-0.001, 20'000.1, nan, infinity, -infinity})
        EXPECT_FALSE(Luminance::from(value, LuminanceUnit::CdPerM2)) << value;
    EXPECT_TRUE(Luminance::from(20'000, LuminanceUnit::CdPerM2));
    EXPECT_TRUE(Luminance::from(0, LuminanceUnit::CdPerM2));
    EXPECT_FALSE(Luminance::from(5838, LuminanceUnit::FootLamberts)); // 20002.5 cd/m2
}

TEST(LuminanceTest, KnowsItsUnitsByWord)
{
    EXPECT_EQ(wordOf(LuminanceUnit::CdPerM2), u"cd/m2"_s);
    EXPECT_EQ(luminanceUnitFromWord(u"fL"_s), LuminanceUnit::FootLamberts);
    EXPECT_FALSE(luminanceUnitFromWord(u"lx"_s));
}

} // namespace
} // namespace coldarc::photometry
