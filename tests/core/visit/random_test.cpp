#include "tests/core/visit/random_nights.h"
#include "tests/support/testing.h"

#include <cstdio>

namespace coldarc::test {
namespace {

TEST(RandomNightsTest, BreakNoInvariantAndFoldBackToTheLiveStateOnProceduresMadeAtRandom)
{
    const RandomProcedures made = makeProcedures(60, 1910);
    ASSERT_GE(made.proved(), 30u);

    const RandomNights run = runRandomNights(20'000, 20261127, made);

    EXPECT_EQ(run.broken, "");
    EXPECT_GE(run.asked, 20'000u);
    EXPECT_GE(run.accepted * 5, run.asked); // a fifth and more, or the rest proves little
    EXPECT_GE(run.rarestEffect(), 5u);
    EXPECT_GE(run.rarestIncident(), 1u);
    EXPECT_GE(run.compared, run.asked / 600);
    EXPECT_GE(run.done, 1u);
    EXPECT_GE(run.madeSafe, 10u);
    EXPECT_GE(run.withdrawn, 10u);
    EXPECT_GE(run.passedOn, 1u);
}

TEST(RandomProceduresTest, AreProvedWhereSoundAndRefusedForTheFaultThatWasPlanted)
{
    const RandomProcedures made = makeProcedures(200, 1147);

    EXPECT_EQ(made.wrong, "");
    EXPECT_EQ(made.faults.size(), plantedKinds()); // each kind at least once
    EXPECT_GE(made.proved() * 2, made.made);
    EXPECT_GE(made.flaws.size(), 4u); // not all for one reason
    std::printf("made %zu, proved %zu, refused %zu, of them %zu with a planted fault\n", made.made,
                made.proved(), made.made - made.proved(), made.planted);
    for (const auto& [flaw, times] : made.flaws)
        std::printf("refused for \"%s\": %zu\n", flaw.c_str(), times);
}

} // namespace
} // namespace coldarc::test
