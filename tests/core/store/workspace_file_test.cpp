#include "core/store/workspace_file.h"

#include "core/store/disk.h"
#include "core/store/journal.h"
#include "tests/support/testing.h"

#include <QDir>
#include <QFile>
#include <QLockFile>
#include <QTemporaryDir>

#include <sqlite3.h>

#include <map>
#include <sys/stat.h>
#include <unistd.h>

using namespace Qt::StringLiterals;

namespace coldarc::store {
namespace {

const NewWorkspace kInvented{u"invented workspace"_s, WallTime(std::chrono::milliseconds(1'795'000'000'000))};
const VisitId kVisit(u"visit-1"_s);

/// The first step as shipped, and one that a later program would bring.
SchemaStep firstStep()
{
    return Schema::shipped().steps().front();
}
Schema olderSchema()
{
    return Schema({firstStep()});
}
Schema
newerSchema(const QString& sql = u"CREATE TABLE shelf (shelf_id TEXT NOT NULL PRIMARY KEY) STRICT;\n"_s)
{
    return Schema({firstStep(), {2, u"0002_invented.sql"_s, sql}});
}

class WorkspaceFileTest : public ::testing::Test {
protected:
    /// A workspace with two entries, closed.
    void make(const Schema& schema = Schema::shipped())
    {
        OpenAnswer made = openWorkspace(file, kInvented, schema);
        ASSERT_EQ(made.outcome, Opening::Created) << made.detail.toStdString();
        Journal journal(*made.database);
        ASSERT_TRUE(journal.append(kVisit, Sequence(0), "opened"));
        ASSERT_TRUE(journal.append(kVisit, Sequence(1), QByteArray(60'000, 'e')));
    }
    /// Runs SQL past the store.
    void runRaw(const char* sql)
    {
        sqlite3* raw = nullptr;
        ASSERT_EQ(sqlite3_open(file.toLocal8Bit().constData(), &raw), SQLITE_OK);
        EXPECT_EQ(sqlite3_exec(raw, sql, nullptr, nullptr, nullptr), SQLITE_OK) << sqlite3_errmsg(raw);
        sqlite3_close(raw);
    }
    void write(const QString& name, const QByteArray& bytes)
    {
        QFile out(name);
        ASSERT_TRUE(out.open(QIODevice::WriteOnly));
        ASSERT_EQ(out.write(bytes), bytes.size());
    }
    QByteArray read(const QString& name)
    {
        QFile in(name);
        return in.open(QIODevice::ReadOnly) ? in.readAll() : QByteArray("cannot be read");
    }
    /// Every file of the folder with its bytes.
    std::map<QString, QByteArray> everything()
    {
        std::map<QString, QByteArray> files;
        for (const QString& name : QDir(folder.path()).entryList(QDir::Files))
            files[name] = read(folder.filePath(name));
        return files;
    }
    /// Opens and expects to be turned away with not a byte of the folder changed.
    void expectUntouched(Opening expected, const Schema& schema = Schema::shipped())
    {
        const auto before = everything();
        const OpenAnswer opened = openWorkspace(file, kInvented, schema);
        EXPECT_EQ(opened.outcome, expected) << opened.detail.toStdString();
        EXPECT_FALSE(opened.database);
        EXPECT_FALSE(opened.detail.isEmpty());
        EXPECT_TRUE(everything() == before) << "a file was changed, made or removed";
    }
    std::size_t entriesOf(OpenAnswer& opened)
    {
        const auto entries = Journal(*opened.database).entries(kVisit);
        return entries ? entries->size() : 0;
    }

    const QTemporaryDir folder;
    const QString file = folder.filePath(u"work & life #1 100%?.coldarc"_s); // nothing in a name is special
};

TEST_F(WorkspaceFileTest, CreatesAFileWhereThereIsNone)
{
    OpenAnswer opened = openWorkspace(file, kInvented);

    ASSERT_EQ(opened.outcome, Opening::Created) << opened.detail.toStdString();
    EXPECT_FALSE(opened.database->isReadOnly());
    EXPECT_EQ(opened.database->version().value(), Schema::shipped().version());
    const auto row = opened.database->run(u"SELECT workspace_id, created_at_ms FROM workspace"_s);
    EXPECT_EQ(row->rows.at(0).text(u"workspace_id"), kInvented.id);
    EXPECT_EQ(row->rows.at(0).whole(u"created_at_ms"), 1'795'000'000'000);
    EXPECT_EQ(read(file).mid(68, 4), QByteArray("CARC"));
    EXPECT_FALSE(QFile::exists(file + u".new"_s));
}

TEST_F(WorkspaceFileTest, OpensWhatItMade)
{
    make();

    OpenAnswer opened = openWorkspace(file, kInvented);

    ASSERT_EQ(opened.outcome, Opening::Opened) << opened.detail.toStdString();
    EXPECT_EQ(entriesOf(opened), 2u);
    EXPECT_TRUE(Journal(*opened.database).append(kVisit, Sequence(2), "on it goes"));
}

TEST_F(WorkspaceFileTest, CreatesOverTheEmptyFileAndTheHalfMadeOneOfACreationThatWasCutOff)
{
    write(file, {});
    write(file + u".new"_s, "half made");

    EXPECT_EQ(openWorkspace(file, kInvented).outcome, Opening::Created);
    EXPECT_FALSE(QFile::exists(file + u".new"_s));
}

TEST_F(WorkspaceFileTest, OpensForReadingWhileAnotherInstanceHoldsIt)
{
    make();
    OpenAnswer first = openWorkspace(file, kInvented);
    ASSERT_EQ(first.outcome, Opening::Opened);

    OpenAnswer second = openWorkspace(file, kInvented);

    ASSERT_EQ(second.outcome, Opening::OpenedReadOnly) << second.detail.toStdString();
    EXPECT_TRUE(second.database->isReadOnly());
    ASSERT_TRUE(Journal(*first.database).append(kVisit, Sequence(2), "written meanwhile"));
    EXPECT_EQ(entriesOf(second), 3u);
    EXPECT_EQ(Journal(*second.database).append(kVisit, Sequence(3), "not from here").error().kind,
              Error::Kind::Storage);
}

TEST_F(WorkspaceFileTest, OpensForWritingOnceTheOtherInstanceIsGone)
{
    make();
    {
        const OpenAnswer first = openWorkspace(file, kInvented);
        ASSERT_EQ(openWorkspace(file, kInvented).outcome, Opening::OpenedReadOnly);
    }

    EXPECT_EQ(openWorkspace(file, kInvented).outcome, Opening::Opened);
}

TEST_F(WorkspaceFileTest, WaitsForNobodyWhileAnotherInstanceIsStillCreatingIt)
{
    const auto lock = lockWorkspace(file);
    ASSERT_TRUE(lock);

    EXPECT_EQ(openWorkspace(file, kInvented).outcome, Opening::Held);
    EXPECT_FALSE(QFile::exists(file));
}

TEST_F(WorkspaceFileTest, UpgradesAnOlderFileAfterCopyingIt)
{
    make(olderSchema());

    OpenAnswer opened = openWorkspace(file, kInvented, newerSchema());

    ASSERT_EQ(opened.outcome, Opening::Upgraded) << opened.detail.toStdString();
    EXPECT_EQ(opened.database->version().value(), 2);
    EXPECT_EQ(entriesOf(opened), 2u);
    EXPECT_TRUE(opened.database->run(u"SELECT shelf_id FROM shelf"_s));
    EXPECT_EQ(opened.backup, file + u".before-0002"_s);
    Database copy = Database::connect(opened.backup, Access::Frozen).value();
    EXPECT_EQ(copy.version().value(), 1);
    EXPECT_EQ(Journal(copy).entries(kVisit)->size(), 2u);
}

TEST_F(WorkspaceFileTest, OpensAnUpgradedFileAsItIs)
{
    make(olderSchema());
    ASSERT_EQ(openWorkspace(file, kInvented, newerSchema()).outcome, Opening::Upgraded);

    EXPECT_EQ(openWorkspace(file, kInvented, newerSchema()).outcome, Opening::Opened);
}

TEST_F(WorkspaceFileTest, NeverWritesOverAnEarlierCopy)
{
    make(olderSchema());
    write(file + u".before-0002"_s, "an earlier copy");

    const OpenAnswer opened = openWorkspace(file, kInvented, newerSchema());

    EXPECT_EQ(opened.backup, file + u".before-0002-2"_s);
    EXPECT_EQ(read(file + u".before-0002"_s), QByteArray("an earlier copy"));
}

TEST_F(WorkspaceFileTest, LeavesAnOlderFileAsItWasWhenAStepFails)
{
    make(olderSchema());
    const QByteArray before = read(file);

    const OpenAnswer opened = openWorkspace(
        file, kInvented, newerSchema(u"CREATE TABLE shelf (shelf_id TEXT) STRICT;\nNONSENSE;\n"_s));

    EXPECT_EQ(opened.outcome, Opening::Failed);
    EXPECT_TRUE(opened.detail.contains(u"0002_invented.sql"_s)) << opened.detail.toStdString();
    EXPECT_FALSE(opened.database);
    EXPECT_EQ(read(file), before);
    EXPECT_EQ(openWorkspace(file, kInvented, olderSchema()).outcome, Opening::Opened);
}

TEST_F(WorkspaceFileTest, LeavesAFileOfALaterProgramUntouched)
{
    make(newerSchema());

    expectUntouched(Opening::Newer, olderSchema());
}

TEST_F(WorkspaceFileTest, LeavesAFileUntouchedWhoseLogAloneTellsThatItIsOfALaterProgram)
{
    make(olderSchema());
    // What a later program leaves when it is killed after its upgrade: the new version stands in the log
    // only.
    const QString later = folder.filePath(u"later"_s);
    sqlite3* raw = nullptr;
    ASSERT_EQ(sqlite3_open(file.toLocal8Bit().constData(), &raw), SQLITE_OK);
    ASSERT_EQ(sqlite3_exec(raw, "PRAGMA user_version = 2", nullptr, nullptr, nullptr), SQLITE_OK);
    ASSERT_TRUE(QFile::copy(file, later));
    ASSERT_TRUE(QFile::copy(file + u"-wal"_s, later + u"-wal"_s));
    sqlite3_close(raw);
    QFile::remove(file);
    ASSERT_TRUE(QFile::rename(later, file));
    ASSERT_TRUE(QFile::rename(later + u"-wal"_s, file + u"-wal"_s));

    expectUntouched(Opening::Newer, olderSchema());
}

TEST_F(WorkspaceFileTest, LeavesAFileThatIsNotADatabaseUntouched)
{
    write(file, "Dear diary, today the arc lit at the first strike.");

    expectUntouched(Opening::Foreign);
}

TEST_F(WorkspaceFileTest, LeavesADatabaseOfAnotherProgramUntouched)
{
    runRaw("PRAGMA application_id = 4242; CREATE TABLE note (text TEXT)");

    expectUntouched(Opening::Foreign);
}

TEST_F(WorkspaceFileTest, LeavesADatabaseOfNobodyUntouched)
{
    runRaw("CREATE TABLE note (text TEXT)");

    expectUntouched(Opening::Foreign);
}

TEST_F(WorkspaceFileTest, LeavesAFileCutInHalfUntouched)
{
    make();
    const QByteArray whole = read(file);
    write(file, whole.left(whole.size() / 2));

    expectUntouched(Opening::Damaged);
}

TEST_F(WorkspaceFileTest, LeavesAFileWithAnOverwrittenPageUntouched)
{
    make();
    QByteArray bytes = read(file);
    bytes.replace(4096, 4096, QByteArray(4096, 'x')); // page 2: the root of the first table
    write(file, bytes);

    expectUntouched(Opening::Damaged);
}

TEST_F(WorkspaceFileTest, LeavesAFileWhoseGuardsWereRemovedUntouched)
{
    make();
    runRaw("DROP TRIGGER entry_is_never_changed");

    expectUntouched(Opening::Damaged);
}

TEST_F(WorkspaceFileTest, LeavesAFileWhoseGuardsWereWeakenedUntouched)
{
    make();
    runRaw(
        "DROP TRIGGER entry_is_never_changed;"
        "CREATE TRIGGER entry_is_never_changed BEFORE UPDATE ON entry WHEN NEW.seq < 0 BEGIN SELECT 1; END");

    expectUntouched(Opening::Damaged);
}

TEST_F(WorkspaceFileTest, OpensADamagedFileForNobodyWhileAnotherInstanceHoldsIt)
{
    write(file, "not a database");
    const auto lock = lockWorkspace(file);

    EXPECT_EQ(openWorkspace(file, kInvented).outcome, Opening::Foreign);
}

TEST_F(WorkspaceFileTest, SaysThatTheFolderIsMissing)
{
    const OpenAnswer opened = openWorkspace(folder.filePath(u"no/such/folder/file"_s), kInvented);

    EXPECT_EQ(opened.outcome, Opening::NoFolder);
    EXPECT_FALSE(opened.database);
}

TEST_F(WorkspaceFileTest, SaysThatThePlaceIsNotAFile)
{
    EXPECT_EQ(openWorkspace(folder.path(), kInvented).outcome, Opening::Foreign);
}

/// Permissions bind nobody who is root, so root becomes somebody else for the length of a test.
class Nobody {
public:
    Nobody()
    {
        if (::geteuid() == 0)
            m_isChanged = ::setresuid(65534, 65534, 0) == 0;
    }
    Nobody(const Nobody&) = delete;
    Nobody& operator=(const Nobody&) = delete;
    ~Nobody()
    {
        if (m_isChanged)
            m_isChanged = ::setresuid(0, 0, 0) == 0;
    }

private:
    bool m_isChanged = false;
};

TEST_F(WorkspaceFileTest, SaysThatTheFolderCannotBeWritten)
{
    make();
    const auto before = everything();
    ASSERT_EQ(::chmod(folder.path().toLocal8Bit().constData(), 0555), 0);
    {
        const Nobody nobody;
        EXPECT_EQ(openWorkspace(file, kInvented).outcome, Opening::FolderReadOnly);
        EXPECT_EQ(openWorkspace(folder.filePath(u"another.coldarc"_s), kInvented).outcome,
                  Opening::FolderReadOnly);
    }
    ASSERT_EQ(::chmod(folder.path().toLocal8Bit().constData(), 0755), 0);
    EXPECT_TRUE(everything() == before);
}

TEST_F(WorkspaceFileTest, SaysThatTheFileCannotBeWritten)
{
    make();
    ASSERT_EQ(::chmod(folder.path().toLocal8Bit().constData(), 0777), 0);
    ASSERT_EQ(::chmod(file.toLocal8Bit().constData(), 0444), 0);
    const Nobody nobody;

    EXPECT_EQ(openWorkspace(file, kInvented).outcome, Opening::FolderReadOnly);
}

TEST_F(WorkspaceFileTest, TakesOverTheLockOfAnInstanceThatDied)
{
    make();
    // A process that is certainly not running: the largest id a 64-bit kernel gives is 4194304 (man 5 proc,
    // pid_max).
    write(file + u".lock"_s, "4194305\ncoldarc\n" + QSysInfo::machineHostName().toUtf8() + "\n" +
                                 QSysInfo::machineUniqueId() + "\n" + QSysInfo::bootUniqueId() + "\n");

    EXPECT_EQ(openWorkspace(file, kInvented).outcome, Opening::Opened);
}

TEST(DiskTest, KnowsTheFileSystemsOfOtherComputers)
{
    EXPECT_TRUE(isNetworkFileSystem("nfs4"));
    EXPECT_TRUE(isNetworkFileSystem("cifs"));
    EXPECT_FALSE(isNetworkFileSystem("ext4"));
    EXPECT_FALSE(isNetworkFileSystem("tmpfs"));
}

} // namespace
} // namespace coldarc::store
