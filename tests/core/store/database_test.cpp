#include "core/store/database.h"

#include "tests/support/testing.h"

#include <QTemporaryDir>

using namespace Qt::StringLiterals;

namespace coldarc::store {
namespace {

/// Lamps on shelves, all invented.
const Schema kSchema({{1, u"0001_invented.sql"_s,
                       u"CREATE TABLE shelf (shelf_id TEXT NOT NULL PRIMARY KEY) STRICT;\n"
                       "CREATE TABLE lamp (lamp_id TEXT NOT NULL PRIMARY KEY, hours REAL CHECK (hours >= 0), "
                       "picture BLOB, shelf_id TEXT REFERENCES shelf (shelf_id)) STRICT;\n"_s}});

class DatabaseTest : public ::testing::Test {
protected:
    Result<Answer> addLamp(const QString& id, const QVariant& hours = 0.0, const QVariant& shelf = sqlNull())
    {
        return database.run(u"INSERT INTO lamp(lamp_id, hours, shelf_id) VALUES(:lamp, :hours, :shelf)"_s,
                            {{u":lamp"_s, id}, {u":hours"_s, hours}, {u":shelf"_s, shelf}});
    }
    qint64 lamps()
    {
        const auto counted = database.run(u"SELECT count(*) AS lamps FROM lamp"_s);
        return counted ? counted->rows.at(0).whole(u"lamps") : -1;
    }

    Database database = Database::inMemory(kSchema);
};

TEST_F(DatabaseTest, ReadsBackWhatWasBound)
{
    const QByteArray picture("\0\xff\x01", 3);
    const auto added = database.run(
        u"INSERT INTO lamp(lamp_id, hours, picture, shelf_id) VALUES(:lamp, :hours, :picture, :shelf)"_s,
        {{u":lamp"_s, u"Prüfling Ω"_s},
         {u":hours"_s, 812.5},
         {u":picture"_s, picture},
         {u":shelf"_s, sqlNull()}});
    ASSERT_TRUE(added);
    EXPECT_EQ(added->changed, 1);

    const auto read = database.run(u"SELECT lamp_id, hours, picture, shelf_id FROM lamp"_s);

    ASSERT_TRUE(read);
    ASSERT_EQ(read->rows.size(), 1u);
    const Row& row = read->rows.front();
    EXPECT_EQ(row.text(u"lamp_id"), u"Prüfling Ω"_s);
    EXPECT_EQ(row.number(u"hours"), 812.5);
    EXPECT_EQ(row.bytes(u"picture"), picture);
    EXPECT_TRUE(row.isNull(u"shelf_id"));
    EXPECT_FALSE(row.isNull(u"hours"));
}

TEST_F(DatabaseTest, BindsADefaultMadeTextAsTheEmptyTextAndNotAsNothing)
{
    ASSERT_TRUE(addLamp(QString()));

    EXPECT_EQ(database.run(u"SELECT lamp_id FROM lamp"_s)->rows.size(), 1u);
}

TEST_F(DatabaseTest, BindsAnAbsentValueAsNull)
{
    ASSERT_TRUE(addLamp(u"lamp-1"_s, orNull(std::optional<double>())));
    ASSERT_TRUE(addLamp(u"lamp-2"_s, orNull(std::optional<double>(4.0))));

    const auto read = database.run(u"SELECT hours FROM lamp ORDER BY lamp_id"_s);

    EXPECT_TRUE(read->rows.at(0).isNull(u"hours"));
    EXPECT_EQ(read->rows.at(1).number(u"hours"), 4.0);
}

TEST_F(DatabaseTest, CallsATakenKeyAConflict)
{
    ASSERT_TRUE(addLamp(u"lamp-1"_s));

    EXPECT_EQ(addLamp(u"lamp-1"_s).error().kind, Error::Kind::Conflict);
}

TEST_F(DatabaseTest, CallsAReferenceToNothingAConflict)
{
    EXPECT_EQ(addLamp(u"lamp-1"_s, 0.0, u"no such shelf"_s).error().kind, Error::Kind::Conflict);
}

TEST_F(DatabaseTest, CallsAValueOutOfRangeMalformed)
{
    EXPECT_EQ(addLamp(u"lamp-1"_s, -1.0).error().kind, Error::Kind::Malformed);
}

TEST_F(DatabaseTest, CallsAValueOfAnotherKindMalformed)
{
    EXPECT_EQ(addLamp(u"lamp-1"_s, u"many"_s).error().kind, Error::Kind::Malformed);
}

TEST_F(DatabaseTest, NamesTheCodeAndTheStatementInItsError)
{
    const auto refused = database.run(u"SELECT hours FROM no_such_table"_s);

    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, Error::Kind::Storage);
    EXPECT_TRUE(refused.error().detail.contains(u"no_such_table"_s)) << refused.error().detail.toStdString();
}

TEST_F(DatabaseTest, KeepsATransactionThatSucceeds)
{
    const auto done = database.transaction([&]() -> Result<void> {
        EXPECT_TRUE(addLamp(u"lamp-1"_s));
        EXPECT_TRUE(addLamp(u"lamp-2"_s));
        return {};
    });

    EXPECT_TRUE(done);
    EXPECT_EQ(lamps(), 2);
}

TEST_F(DatabaseTest, UndoesATransactionThatFails)
{
    const auto done = database.transaction([&]() -> Result<int> {
        EXPECT_TRUE(addLamp(u"lamp-1"_s));
        return fail(Error::Kind::NotFound, u"changed its mind"_s);
    });

    EXPECT_EQ(done.error().kind, Error::Kind::NotFound);
    EXPECT_EQ(lamps(), 0);
}

TEST_F(DatabaseTest, UndoesOnlyTheInnerTransactionThatFails)
{
    const auto done = database.transaction([&]() -> Result<void> {
        EXPECT_TRUE(addLamp(u"lamp-1"_s));
        const auto inner = database.transaction([&]() -> Result<void> {
            EXPECT_TRUE(addLamp(u"lamp-2"_s));
            return fail(Error::Kind::NotFound, {});
        });
        EXPECT_FALSE(inner);
        EXPECT_TRUE(addLamp(u"lamp-3"_s));
        return {};
    });

    EXPECT_TRUE(done);
    EXPECT_EQ(database.run(u"SELECT lamp_id FROM lamp ORDER BY lamp_id"_s)->rows.at(1).text(u"lamp_id"),
              u"lamp-3"_s);
    EXPECT_EQ(lamps(), 2);
}

TEST_F(DatabaseTest, RunsAgainAfterAFailedTransaction)
{
    std::ignore = database.transaction([&]() -> Result<void> { return fail(Error::Kind::NotFound, {}); });

    EXPECT_TRUE(database.transaction([&]() -> Result<Answer> { return addLamp(u"lamp-1"_s); }));
    EXPECT_EQ(lamps(), 1);
}

TEST(DatabaseFileTest, IsFullWithoutLosingWhatWasWritten)
{
    const QTemporaryDir folder;
    auto database = Database::connect(folder.filePath(u"full.coldarc"_s), Access::Write);
    ASSERT_TRUE(database);
    ASSERT_TRUE(database->run(u"CREATE TABLE box (bytes BLOB NOT NULL) STRICT"_s));
    ASSERT_TRUE(database->run(u"PRAGMA max_page_count = 20"_s));
    const auto add = [&] {
        return database->run(u"INSERT INTO box(bytes) VALUES(:bytes)"_s,
                             {{u":bytes"_s, QByteArray(3000, 'x')}});
    };

    const auto done = database->transaction([&]() -> Result<void> {
        for (int box = 0; box < 50; ++box) {
            if (auto added = add(); !added)
                return tl::unexpected(added.error());
        }
        return {};
    });

    ASSERT_FALSE(done);
    EXPECT_EQ(done.error().kind, Error::Kind::Storage);
    EXPECT_EQ(database->run(u"SELECT count(*) AS boxes FROM box"_s)->rows.at(0).whole(u"boxes"), 0);
    EXPECT_TRUE(add());
}

TEST(DatabaseFileTest, LetsNothingFollowOutsideATransactionThatADiskErrorUndid)
{
    const QTemporaryDir folder;
    auto database = Database::connect(folder.filePath(u"full.coldarc"_s), Access::Write);
    ASSERT_TRUE(database);
    ASSERT_TRUE(database->run(u"CREATE TABLE box (bytes BLOB NOT NULL) STRICT"_s));
    ASSERT_TRUE(database->run(u"PRAGMA max_page_count = 20"_s));

    const auto done = database->transaction([&]() -> Result<void> {
        for (int box = 0; box < 50; ++box) // an owner of the transaction who does not look at the answers
            std::ignore = database->run(u"INSERT INTO box(bytes) VALUES(:bytes)"_s,
                                        {{u":bytes"_s, QByteArray(3000, 'x')}});
        return {};
    });

    EXPECT_FALSE(done);
    EXPECT_EQ(database->run(u"SELECT count(*) AS boxes FROM box"_s)->rows.at(0).whole(u"boxes"), 0);
}

TEST(DatabaseFileTest, SyncsEveryCommitAndChecksReferences)
{
    const QTemporaryDir folder;
    auto database = Database::connect(folder.filePath(u"settings.coldarc"_s), Access::Write);
    ASSERT_TRUE(database);

    EXPECT_EQ(database->run(u"PRAGMA journal_mode"_s)->rows.at(0).text(u"journal_mode"), u"wal"_s);
    EXPECT_EQ(database->run(u"PRAGMA synchronous"_s)->rows.at(0).whole(u"synchronous"), 2); // FULL
    EXPECT_EQ(database->run(u"PRAGMA foreign_keys"_s)->rows.at(0).whole(u"foreign_keys"), 1);
    EXPECT_EQ(database->run(u"PRAGMA recursive_triggers"_s)->rows.at(0).whole(u"recursive_triggers"), 1);
    EXPECT_EQ(database->run(u"PRAGMA busy_timeout"_s)->rows.at(0).whole(u"timeout"), 5000);
}

TEST(DatabaseFileTest, WhoeverWaitsTooLongForAnotherWriterIsToldThatItWasBusy)
{
    const QTemporaryDir folder;
    const QString file = folder.filePath(u"two.coldarc"_s);
    auto first = Database::connect(file, Access::Write);
    auto second = Database::connect(file, Access::Write);
    ASSERT_TRUE(first && second);
    ASSERT_TRUE(first->run(u"CREATE TABLE box (id INTEGER) STRICT"_s));
    ASSERT_TRUE(second->run(u"PRAGMA busy_timeout = 0"_s));
    const auto add = [&] { return second->run(u"INSERT INTO box VALUES (1)"_s); };

    const auto held = first->transaction([&]() -> Result<void> {
        const auto added = add();
        EXPECT_FALSE(added);
        EXPECT_EQ(added.error().kind, Error::Kind::Busy);
        return {};
    });

    EXPECT_TRUE(held);
    EXPECT_TRUE(add()) << "the same again comes through";
}

} // namespace
} // namespace coldarc::store
