#include "core/store/backup.h"
#include "core/store/journal.h"
#include "core/store/workspace_file.h"
#include "tests/core/store/hard_times.h"
#include "tests/core/store/rough_disk.h"
#include "tests/support/testing.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QTemporaryDir>

#include <random>

using namespace Qt::StringLiterals;

namespace coldarc::store {
namespace {

const NewWorkspace kInvented{u"invented workspace"_s, WallTime(std::chrono::milliseconds(1'795'000'000'000))};
const VisitId kVisit(u"visit-1"_s);

class DurabilityTest : public ::testing::Test {
protected:
    test::RoughDisk disk;
    const QTemporaryDir folder;
    const QString file = folder.filePath(u"durable.coldarc"_s);
    OpenAnswer opened = openWorkspace(file, kInvented);
};

TEST_F(DurabilityTest, SyncsOncePerAcknowledgedEntry)
{
    constexpr int kEntries = 5000;
    ASSERT_EQ(opened.outcome, Opening::Created);
    Journal journal(*opened.database);
    const long before = disk.syncs();

    for (int seq = 0; seq < kEntries; ++seq)
        ASSERT_TRUE(journal.append(kVisit, Sequence(seq), QByteArray(400, 'e')));

    // One for each entry; the rest is the log being folded into the file every thousand pages.
    const double each = static_cast<double>(disk.syncs() - before) / kEntries;
    EXPECT_GE(each, 1.0);
    EXPECT_LE(each, 1.05);
}

TEST_F(DurabilityTest, SyncsBeforeItAcknowledges)
{
    Journal journal(*opened.database);
    for (int seq = 0; seq < 50; ++seq) {
        const long before = disk.syncs();
        ASSERT_TRUE(journal.append(kVisit, Sequence(seq), "entry"));
        EXPECT_GE(disk.syncs(), before + 1) << "entry " << seq;
    }
}

TEST_F(DurabilityTest, LosesNothingWhenTheDiskIsFull)
{
    Journal journal(*opened.database);
    disk.leaveRoomFor(200'000);
    int acknowledged = 0;
    Result<Hash> last = Hash();
    while ((last = journal.append(kVisit, Sequence(acknowledged), QByteArray(3000, 'e'))))
        ++acknowledged;

    EXPECT_EQ(last.error().kind, Error::Kind::Storage);
    EXPECT_GT(acknowledged, 5);
    EXPECT_EQ(journal.entries(kVisit)->size(), static_cast<std::size_t>(acknowledged));

    disk.makeRoom();
    EXPECT_TRUE(journal.append(kVisit, Sequence(acknowledged), "there is room again"));
    opened = {};
    opened = openWorkspace(file, kInvented);
    ASSERT_EQ(opened.outcome, Opening::Opened) << opened.detail.toStdString();
    EXPECT_EQ(Journal(*opened.database).entries(kVisit)->size(), static_cast<std::size_t>(acknowledged) + 1);
}

TEST_F(DurabilityTest, LeavesNoPartOfABackupOnAFullDisk)
{
    Journal journal(*opened.database);
    for (int seq = 0; seq < 20; ++seq)
        ASSERT_TRUE(journal.append(kVisit, Sequence(seq), QByteArray(3000, 'e')));
    disk.leaveRoomFor(20'000);

    const auto copied = backUp(*opened.database, folder.filePath(u"copy.coldarc"_s));

    ASSERT_FALSE(copied);
    EXPECT_EQ(copied.error().kind, Error::Kind::Storage);
    EXPECT_TRUE(QDir(folder.path()).entryList({u"copy*"_s}).isEmpty());
    EXPECT_EQ(journal.entries(kVisit)->size(), 20u);
}

// A backup has no write-ahead log. Taking it for a workspace turns it into one that has, by a write that a
// power cut can break off; the journal of that write then stands beside the file.
TEST_F(DurabilityTest, OpensABackupWhoseFirstOpeningWasCutOffAnywhere)
{
    ASSERT_TRUE(Journal(*opened.database).append(kVisit, Sequence(0), "opened"));
    const QString copy = folder.filePath(u"copy.coldarc"_s);
    ASSERT_TRUE(backUp(*opened.database, copy));
    std::mt19937 chance(1);
    int brokenOff = 0;

    for (int calls = 1; calls <= 30; ++calls) {
        const QString work = folder.filePath(u"work-%1.coldarc"_s.arg(calls));
        ASSERT_TRUE(QFile::copy(copy, work));
        opened = {};
        disk.cutPowerAfter(calls);
        opened = openWorkspace(work, kInvented);
        opened = {};
        disk.powerOn(calls % 2 == 0 ? test::RoughDisk::Unsynced::Gone : test::RoughDisk::Unsynced::Some,
                     chance);
        brokenOff += QFileInfo(work + u"-journal"_s).size() > 0 ? 1 : 0;

        opened = openWorkspace(work, kInvented);

        ASSERT_EQ(opened.outcome, Opening::Opened) << "call " << calls << ": " << opened.detail.toStdString();
        EXPECT_EQ(Journal(*opened.database).entries(kVisit)->size(), 1u);
    }

    EXPECT_GT(brokenOff, 0) << "no cut left a journal, so nothing was tried";
}

TEST(DiskFullTest, IsSaidWhenAWorkspaceCannotBeCreated)
{
    test::RoughDisk disk;
    const QTemporaryDir folder;
    disk.leaveRoomFor(10'000);

    const OpenAnswer opened = openWorkspace(folder.filePath(u"new.coldarc"_s), kInvented);

    EXPECT_EQ(opened.outcome, Opening::DiskFull) << opened.detail.toStdString();
    EXPECT_FALSE(opened.database);
    EXPECT_TRUE(QDir(folder.path()).isEmpty()) << "nothing half made stays behind";
}

TEST(PowerCutTest, LosesNoAcknowledgedEntryInAThousandCuts)
{
    const test::HardTimes times = test::cutPower(1000, 20261125, test::Durability::AsShipped);

    EXPECT_EQ(times.times, 1000);
    EXPECT_GT(times.acknowledged, 10'000);
    EXPECT_EQ(times.lost, 0);
    EXPECT_EQ(times.broken, 0) << times.firstTrouble.toStdString();
}

TEST(PowerCutTest, LosesEntriesInTheControlThatDoesNotSyncThem)
{
    const test::HardTimes times = test::cutPower(100, 20261125, test::Durability::ControlWithoutSyncs);

    EXPECT_GT(times.lost, 0) << "the disk of this test takes nothing away";
}

TEST(KillTest, LosesNoAcknowledgedEntryWhenTheProgramIsKilled)
{
    const test::HardTimes times = test::killAppender(QStringLiteral(COLDARC_STORE_APPENDER), 25, 20261125);

    EXPECT_EQ(times.times, 25);
    EXPECT_GT(times.acknowledged, 100);
    EXPECT_EQ(times.lost, 0);
    EXPECT_EQ(times.broken, 0) << times.firstTrouble.toStdString();
}

} // namespace
} // namespace coldarc::store
