#include "tests/app/killed_intake.h"
#include "tests/support/testing.h"

// tests/long/record_long.cpp takes ten thousand.

namespace coldarc::test {
namespace {

constexpr int kRecords = 60;
constexpr int kKills = 20;
constexpr std::uint32_t kSeed = 20261126;

TEST(RecordKillTest, NoRecordThatWasAcknowledgedIsLostAndNoneStandsThereByHalf)
{
    const KilledIntake times = killIntake(QStringLiteral(COLDARC_RECORD_TAKER), kRecords, kKills, kSeed);

    EXPECT_GE(times.kills, 5);
    EXPECT_EQ(times.acknowledged, kRecords);
    EXPECT_EQ(times.lost, 0);
    EXPECT_EQ(times.broken, 0) << times.firstTrouble.toStdString();
    EXPECT_EQ(times.there, kRecords) << "taken once more, all of them are there already";
}

// Otherwise the kills come where nothing can be lost.
TEST(RecordKillTest, AcknowledgingBeforeTakingLosesRecords)
{
    const KilledIntake times = killIntake(QStringLiteral(COLDARC_RECORD_TAKER), kRecords, kKills, kSeed,
                                          Acknowledges::ControlBefore);

    EXPECT_GT(times.lost, 0);
}

} // namespace
} // namespace coldarc::test
