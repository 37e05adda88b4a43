#include "tests/core/store/hard_times.h"
#include "tests/support/testing.h"

namespace coldarc::test {
namespace {

TEST(StoreLong, LosesNoAcknowledgedEntryInTenThousandPowerCuts)
{
    for (std::uint32_t seed = 1; seed <= 10; ++seed) {
        const HardTimes times = cutPower(1000, seed, Durability::AsShipped);

        EXPECT_EQ(times.times, 1000) << "seed " << seed;
        EXPECT_EQ(times.lost, 0) << "seed " << seed;
        EXPECT_EQ(times.broken, 0) << "seed " << seed << ": " << times.firstTrouble.toStdString();
    }
}

TEST(StoreLong, LosesNoAcknowledgedEntryInTwoHundredKills)
{
    const HardTimes times = killAppender(QStringLiteral(COLDARC_STORE_APPENDER), 200, 7);

    EXPECT_EQ(times.times, 200);
    EXPECT_EQ(times.lost, 0);
    EXPECT_EQ(times.broken, 0) << times.firstTrouble.toStdString();
}

} // namespace
} // namespace coldarc::test
