#include "core/alignment/light_run.h"

#include "tests/support/testing.h"

#include <cmath>
#include <limits>

namespace coldarc::test {
namespace {

using namespace coldarc::alignment;

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
        EXPECT_EQ(doubtOf(bad, std::nullopt), ReadingDoubt::NotALight);
    }
}

TEST(LightRunTest, NeverTakesMoreThanAnyMeterShows)
{
    EXPECT_EQ(doubtOf(1.1e6, std::nullopt), ReadingDoubt::TooMuch);
    EXPECT_EQ(doubtOf(1.1e6, 1e6), ReadingDoubt::TooMuch);
    EXPECT_EQ(doubtOf(1e6, std::nullopt), ReadingDoubt::None);
}

} // namespace
} // namespace coldarc::test
