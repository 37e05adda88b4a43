#include "core/store/backup.h"

#include "core/store/journal.h"
#include "core/store/pictures.h"
#include "core/store/workspace_file.h"
#include "tests/support/testing.h"

#include <QDir>
#include <QFile>
#include <QTemporaryDir>

#include <optional>

using namespace Qt::StringLiterals;

namespace coldarc::store {
namespace {

const NewWorkspace kInvented{u"invented workspace"_s, WallTime(std::chrono::milliseconds(1'795'000'000'000))};
const VisitId kVisit(u"visit-1"_s);
const VisitId kOther(u"visit-2"_s);

/// A workspace with two visits of 3 and 1 entries, one signature and one picture.
class BackupTest : public ::testing::Test {
protected:
    BackupTest()
    {
        open();
        Journal journal(*database);
        for (int seq = 0; seq < 3; ++seq)
            EXPECT_TRUE(journal.append(kVisit, Sequence(seq), "entry " + QByteArray::number(seq)));
        EXPECT_TRUE(journal.append(kOther, Sequence(0), "another visit"));
        const Head head = journal.head(kVisit).value();
        EXPECT_TRUE(journal.keep({head.visit, head.seq, head.hash, PersonId(u"person-1"_s),
                                  QByteArray(32, 'k'), QByteArray(64, 's'), u"closing"_s, kInvented.at}));
        EXPECT_TRUE(Pictures(*database).keep({u"image/png"_s, "not a real picture"}));
    }

    void open()
    {
        OpenAnswer opened = openWorkspace(file, kInvented);
        ASSERT_TRUE(opened.database) << opened.detail.toStdString();
        database = std::move(opened.database);
    }
    void close() { database.reset(); }
    std::size_t entries() { return Journal(*database).entries(kVisit)->size(); }
    QByteArray read(const QString& name)
    {
        QFile in(name);
        return in.open(QIODevice::ReadOnly) ? in.readAll() : QByteArray("cannot be read");
    }
    void write(const QString& name, const QByteArray& bytes)
    {
        QFile out(name);
        ASSERT_TRUE(out.open(QIODevice::WriteOnly));
        out.write(bytes);
    }
    QStringList names() { return QDir(folder.path()).entryList(QDir::Files); }

    const QTemporaryDir folder;
    const QString file = folder.filePath(u"work.coldarc"_s);
    const QString copy = folder.filePath(u"copy.coldarc"_s);
    const Census census{2, 4, 1, 1};
    std::optional<Database> database;
};

TEST_F(BackupTest, CountsAndChecksAWholeWorkspace)
{
    EXPECT_EQ(verify(*database).value(), census);
}

TEST_F(BackupTest, WritesACopyThatVerifies)
{
    const auto written = backUp(*database, copy);

    ASSERT_TRUE(written) << written.error().detail.toStdString();
    EXPECT_EQ(*written, census);
    Database other = Database::connect(copy, Access::Frozen).value();
    EXPECT_EQ(verify(other).value(), census);
    EXPECT_EQ(Journal(other).entries(kVisit).value(), Journal(*database).entries(kVisit).value());
    EXPECT_EQ(Journal(other).heads().value(), Journal(*database).heads().value())
        << "in the same order of arrival";
    EXPECT_EQ(lookAt(copy, Writer::Nobody).outcome, Look::Ours);
    EXPECT_FALSE(QFile::exists(copy + u".part"_s));
}

TEST_F(BackupTest, LooksAtABackupAndLeavesItAndItsFolderAsTheyWere)
{
    ASSERT_TRUE(backUp(*database, copy));
    const QByteArray before = read(copy);
    const QStringList namesBefore = names();

    EXPECT_EQ(lookAtBackup(copy).value(), census);

    EXPECT_EQ(read(copy), before);
    EXPECT_EQ(names(), namesBefore);
}

TEST_F(BackupTest, NeverWritesOverAFile)
{
    write(copy, "already here");

    EXPECT_EQ(backUp(*database, copy).error().kind, Error::Kind::Conflict);
    EXPECT_EQ(read(copy), QByteArray("already here"));
}

TEST_F(BackupTest, SaysThatTheChosenFolderIsMissing)
{
    EXPECT_EQ(backUp(*database, folder.filePath(u"no/such/folder"_s)).error().kind, Error::Kind::Storage);
}

TEST_F(BackupTest, MakesNoCopyOfAWorkspaceThatDoesNotVerify)
{
    ASSERT_TRUE(database->run(u"DROP TRIGGER entry_is_never_changed"_s));
    ASSERT_TRUE(database->run(u"UPDATE entry SET bytes = x'00' WHERE visit_id = 'visit-1' AND seq = 1"_s));

    const auto written = backUp(*database, copy);

    EXPECT_EQ(written.error().kind, Error::Kind::Malformed);
    EXPECT_TRUE(written.error().detail.contains(u"visit visit-1, entry 1"_s))
        << written.error().detail.toStdString();
    EXPECT_FALSE(QFile::exists(copy));
}

TEST_F(BackupTest, SeesAPictureThatDoesNotFitItsHash)
{
    ASSERT_TRUE(database->run(u"DROP TRIGGER picture_is_never_changed"_s));
    ASSERT_TRUE(database->run(u"UPDATE picture SET bytes = x'00'"_s));

    EXPECT_EQ(verify(*database).error().kind, Error::Kind::Malformed);
}

TEST_F(BackupTest, SeesASignatureThatStandsOverNoEntry)
{
    ASSERT_TRUE(database->run(u"DROP TRIGGER signature_is_never_changed"_s));
    ASSERT_TRUE(database->run(u"UPDATE signature SET seq = 1"_s));

    EXPECT_EQ(verify(*database).error().kind, Error::Kind::Malformed);
}

TEST_F(BackupTest, RestoresWhatWasBackedUpAndKeepsWhatStoodThere)
{
    ASSERT_TRUE(backUp(*database, copy));
    ASSERT_TRUE(Journal(*database).append(kVisit, Sequence(3), "after the backup"));
    close();

    const auto restored = restore(copy, file);

    ASSERT_TRUE(restored) << restored.error().detail.toStdString();
    EXPECT_EQ(restored->census, census);
    EXPECT_EQ(restored->previous, file + u".before-restore"_s);
    open();
    EXPECT_EQ(entries(), 3u);
    Database previous = Database::connect(restored->previous, Access::Frozen).value();
    EXPECT_EQ(Journal(previous).entries(kVisit)->size(), 4u);
    EXPECT_EQ(names(),
              (QStringList{u"copy.coldarc"_s, u"work.coldarc"_s, u"work.coldarc-shm"_s, u"work.coldarc-wal"_s,
                           u"work.coldarc.before-restore"_s, u"work.coldarc.lock"_s}));
}

TEST_F(BackupTest, KeepsWhatAnEarlierRestoreSetAside)
{
    ASSERT_TRUE(backUp(*database, copy));
    close();
    write(file + u".before-restore"_s, "set aside before");

    EXPECT_EQ(restore(copy, file)->previous, file + u".before-restore-2"_s);
    EXPECT_EQ(read(file + u".before-restore"_s), QByteArray("set aside before"));
}

TEST_F(BackupTest, RestoresWhereThereIsNoWorkspace)
{
    ASSERT_TRUE(backUp(*database, copy));

    const auto restored = restore(copy, folder.filePath(u"fresh.coldarc"_s));

    ASSERT_TRUE(restored) << restored.error().detail.toStdString();
    EXPECT_TRUE(restored->previous.isEmpty());
    EXPECT_EQ(openWorkspace(folder.filePath(u"fresh.coldarc"_s), kInvented).outcome, Opening::Opened);
}

TEST_F(BackupTest, RestoresOverADamagedWorkspaceAndKeepsItWithItsLog)
{
    ASSERT_TRUE(backUp(*database, copy));
    close();
    write(file, "what is left of a workspace");
    write(file + u"-wal"_s, "and of its log");

    const auto restored = restore(copy, file);

    ASSERT_TRUE(restored) << restored.error().detail.toStdString();
    EXPECT_EQ(read(restored->previous), QByteArray("what is left of a workspace"));
    EXPECT_EQ(read(restored->previous + u"-wal"_s), QByteArray("and of its log"));
    open();
    EXPECT_EQ(entries(), 3u);
}

TEST_F(BackupTest, RefusesToRestoreWhileAnInstanceHoldsTheWorkspace)
{
    ASSERT_TRUE(backUp(*database, copy));

    EXPECT_EQ(restore(copy, file).error().kind, Error::Kind::Refused);
    EXPECT_EQ(entries(), 3u);
}

struct BadBackupCase {
    const char* name;
    void (*spoil)(const QString& copy);

    friend void PrintTo(const BadBackupCase& c, std::ostream* out) { *out << c.name; }
};

void runIn(const QString& copy, const QStringList& statements)
{
    Database database = Database::connect(copy, Access::Write).value();
    for (const QString& sql : statements)
        EXPECT_TRUE(database.run(sql)) << sql.toStdString();
}

class BadBackupTest : public BackupTest, public ::testing::WithParamInterface<BadBackupCase> {};

TEST_P(BadBackupTest, IsRefusedAndLeavesTheWorkspaceUntouched)
{
    ASSERT_TRUE(backUp(*database, copy));
    close();
    GetParam().spoil(copy);
    const QByteArray before = read(file);
    const QStringList namesBefore = names();

    const auto looked = lookAtBackup(copy);
    ASSERT_FALSE(looked) << "seen before anything is asked";
    EXPECT_EQ(looked.error().kind, Error::Kind::Malformed) << looked.error().detail.toStdString();
    EXPECT_EQ(names(), namesBefore);

    const auto restored = restore(copy, file);

    ASSERT_FALSE(restored);
    EXPECT_EQ(restored.error().kind, Error::Kind::Malformed) << restored.error().detail.toStdString();
    EXPECT_EQ(read(file), before);
    EXPECT_EQ(names(), namesBefore);
}

INSTANTIATE_TEST_SUITE_P(
    EveryKind, BadBackupTest,
    ::testing::Values(
        BadBackupCase{"NotADatabase",
                      [](const QString& copy) {
                          QFile out(copy);
                          EXPECT_TRUE(out.open(QIODevice::WriteOnly));
                          out.write("Dear diary");
                      }},
        BadBackupCase{"CutInHalf",
                      [](const QString& copy) {
                          QFile out(copy);
                          EXPECT_TRUE(out.resize(QFileInfo(copy).size() / 2));
                      }},
        BadBackupCase{"OfAnotherProgram",
                      [](const QString& copy) { runIn(copy, {u"PRAGMA application_id = 4242"_s}); }},
        BadBackupCase{"OfALaterProgram",
                      [](const QString& copy) { runIn(copy, {u"PRAGMA user_version = 9999"_s}); }},
        BadBackupCase{"EntryRewrittenAndGuardPutBack",
                      [](const QString& copy) {
                          const QString guard = Database::inMemory()
                                                    .run(u"SELECT sql FROM sqlite_schema WHERE name = "
                                                         "'entry_is_never_changed'"_s)
                                                    ->rows.at(0)
                                                    .text(u"sql");
                          runIn(copy, {u"DROP TRIGGER entry_is_never_changed"_s,
                                       u"UPDATE entry SET bytes = x'00' WHERE seq = 1"_s, guard});
                      }}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST_F(BackupTest, SaysThatThereIsNoBackupToRestore)
{
    close();

    EXPECT_EQ(lookAtBackup(folder.filePath(u"no such file"_s)).error().kind, Error::Kind::NotFound);
    EXPECT_EQ(restore(folder.filePath(u"no such file"_s), file).error().kind, Error::Kind::NotFound);
}

} // namespace
} // namespace coldarc::store
