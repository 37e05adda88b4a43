#include "ui/shell/backup_presenter.h"

#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace ui;

class BackupPresenterTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        QObject::connect(&presenter, &BackupPresenter::restoreRequested, &presenter,
                         [this](const QString& file) { restored = file; });
    }

    FakeClock clock;
    Result<BackupCounts> answer = BackupCounts{3, 120, 9, 1};
    Result<BackupCounts> found = BackupCounts{2, 40, 3, 0};
    QString written;
    QString looked;
    QString restored;
    BackupPresenter presenter{u"/home/a/work.coldarc"_s,
                              u"/home/a"_s,
                              clock,
                              QTimeZone::utc(),
                              {[this](const QString& file) {
                                   written = file;
                                   return answer;
                               },
                               [this](const QString& file) {
                                   looked = file;
                                   return found;
                               }},
                              true};
};

// 1'795'000'000 s after 1970 is 2026-11-18 11:06:40 UTC.
TEST_F(BackupPresenterTest, ProposesANameWithTheMoment)
{
    EXPECT_EQ(presenter.view().target.value, u"/home/a/work-2026-11-18-110640.backup"_s);
}

TEST_F(BackupPresenterTest, SaysHowMuchWasWrittenAndReadBack)
{
    presenter.backUp(u"/mnt/stick/a.backup"_s);

    EXPECT_EQ(written, u"/mnt/stick/a.backup"_s);
    EXPECT_TRUE(presenter.view().outcome.startsWith(
        u"Written and read back: 3 visits, 120 entries, 9 signatures, 1 pictures."_s));
}

TEST_F(BackupPresenterTest, SaysWhyNoBackupWasMade)
{
    answer = fail(Error::Kind::Conflict, u"taken"_s);
    presenter.backUp(u"/a"_s);
    EXPECT_TRUE(presenter.view().outcome.startsWith(u"There is a file of that name."_s));

    answer = fail(Error::Kind::Malformed, u"entry 4"_s);
    presenter.backUp(u"/a"_s);
    EXPECT_TRUE(presenter.view().outcome.startsWith(u"The workspace itself is not whole"_s));

    answer = fail(Error::Kind::Storage, u"13"_s);
    presenter.backUp(u"/a"_s);
    EXPECT_TRUE(presenter.view().outcome.startsWith(u"It could not be written there."_s));
}

TEST_F(BackupPresenterTest, AsksBeforeABackupTakesThePlaceOfTheWorkspace)
{
    presenter.restore(u"/mnt/stick/a.backup"_s);
    EXPECT_TRUE(presenter.view().question.startsWith(
        u"Put /mnt/stick/a.backup in the place of the workspace? It holds 2 visits, 40 entries"_s));
    EXPECT_EQ(restored, QString());
    presenter.leaveRestore();
    EXPECT_EQ(presenter.view().question, QString());
    presenter.confirmRestore();
    EXPECT_EQ(restored, QString()) << "nothing is asked";

    presenter.restore(u"/mnt/stick/a.backup"_s);
    presenter.confirmRestore();

    EXPECT_EQ(restored, u"/mnt/stick/a.backup"_s);
}

TEST_F(BackupPresenterTest, AFileThatIsNoBackupIsSeenBeforeAnythingIsAsked)
{
    for (const auto kind : {Error::Kind::NotFound, Error::Kind::Malformed, Error::Kind::Storage}) {
        found = fail(kind, u"an invented fault"_s);
        presenter.restore(u"/mnt/stick/a.backup"_s);
        EXPECT_EQ(presenter.view().question, QString());
        EXPECT_TRUE(presenter.view().restoreOutcome.contains(u"/mnt/stick/a.backup"_s));
        EXPECT_TRUE(presenter.view().restoreOutcome.contains(u"Nothing was changed."_s));
        EXPECT_FALSE(presenter.view().restoreOutcome.contains(u"room"_s)) << "the disk is not full";
        presenter.confirmRestore();
        EXPECT_EQ(restored, QString());
    }
}

TEST_F(BackupPresenterTest, AnotherNameIsAnotherQuestion)
{
    presenter.restore(u"/mnt/stick/a.backup"_s);
    presenter.restore(u"/mnt/stick/b.backup"_s);

    EXPECT_EQ(looked, u"/mnt/stick/b.backup"_s);
    EXPECT_EQ(restored, QString());
    EXPECT_TRUE(presenter.view().question.contains(u"/mnt/stick/b.backup"_s));
}

TEST_F(BackupPresenterTest, AsksForAFileFirst)
{
    presenter.restore(u"  "_s);

    EXPECT_EQ(looked, QString());
    EXPECT_EQ(presenter.view().question, QString());
    EXPECT_EQ(presenter.view().restoreOutcome, u"Name the file of a backup."_s);
}

} // namespace
} // namespace coldarc::test
