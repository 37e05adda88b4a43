#include "tests/core/visit/random_nights.h"
#include "tests/support/testing.h"

namespace coldarc::test {
namespace {

TEST(RandomNightsTest, BreakNoInvariantAndFoldBackToTheLiveState)
{
    const RandomNights run = runRandomNights(60'000, 20261125);

    EXPECT_EQ(run.broken, "");
    EXPECT_GE(run.asked, 60'000u);
    EXPECT_GE(run.accepted * 5, run.asked); // a fifth and more, or the rest proves little
    EXPECT_GE(run.rarestEffect(), 20u);
    EXPECT_GE(run.rarestIncident(), 5u);
    EXPECT_GE(run.compared, run.asked / 600);
    EXPECT_GE(run.done, 1u);
    EXPECT_GE(run.madeSafe, 10u);
    EXPECT_GE(run.withdrawn, 100u);
    EXPECT_GE(run.passedOn, 10u);
    EXPECT_GE(run.removed, 1u);
}

} // namespace
} // namespace coldarc::test
