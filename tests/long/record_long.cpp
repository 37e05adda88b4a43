#include "tests/app/killed_intake.h"
#include "tests/support/testing.h"

#include <cstdio>

namespace coldarc::test {
namespace {

TEST(RecordLong, LosesNoneOfTenThousandRecordsInTwoHundredKills)
{
    constexpr int kRecords = 10'000;

    const KilledIntake times = killIntake(QStringLiteral(COLDARC_RECORD_TAKER), kRecords, 200, 1126);

    EXPECT_GE(times.kills, 150);
    EXPECT_EQ(times.acknowledged, kRecords);
    EXPECT_EQ(times.lost, 0);
    EXPECT_EQ(times.broken, 0) << times.firstTrouble.toStdString();
    EXPECT_EQ(times.there, kRecords);
    std::printf("record.kills %d kills\nrecord.kill_lost %ld records\n", times.kills, times.lost);
    std::printf("kills after which the record in hand was there and not acknowledged yet: %d\n",
                times.inHand);
}

} // namespace
} // namespace coldarc::test
