#include "core/store/schema.h"

#include "core/base/hash.h"
#include "core/store/database.h"
#include "core/store/journal.h"
#include "core/store/pictures.h"
#include "tests/support/testing.h"

#include <QFile>
#include <QMap>

#include <utility>

using namespace Qt::StringLiterals;

namespace coldarc::store {
namespace {

/// The lines of schema.sha256, in the form that `sha256sum` writes: sum, two spaces, file name.
QMap<QString, QString> landedSums()
{
    QFile file(test::sourceFile("tests/core/store/schema.sha256"));
    EXPECT_TRUE(file.open(QIODevice::ReadOnly));
    QMap<QString, QString> sums;
    for (const QByteArray& line : file.readAll().split('\n')) {
        const QString text = QString::fromUtf8(line);
        if (!text.isEmpty())
            sums.insert(text.section(u"  "_s, 1), text.section(u"  "_s, 0, 0));
    }
    return sums;
}

TEST(SchemaTest, HoldsEachLandedStepToItsSum)
{
    QMap<QString, QString> found;
    for (const SchemaStep& step : Schema::shipped().steps())
        found.insert(step.name, sha256(step.sql.toUtf8()).hex());

    EXPECT_EQ(found, landedSums())
        << "A landed step is never edited: write a new one. For a new step, in resources/schema: "
           "sha256sum *.sql > ../../tests/core/store/schema.sha256";
}

TEST(SchemaTest, NumbersItsStepsFromOneWithoutAGap)
{
    int expected = 1;
    for (const SchemaStep& step : Schema::shipped().steps())
        EXPECT_EQ(step.number, expected++) << step.name.toStdString();
}

TEST(SchemaTest, TakesATextApartIntoItsStatements)
{
    const auto statements = statementsOf(u"-- A comment; with a semicolon.\n"
                                         "CREATE TABLE lamp (\n  lamp_id TEXT -- a name;\n) STRICT;\n"
                                         "\n"
                                         "CREATE TRIGGER lamp_stays BEFORE DELETE ON lamp\nBEGIN\n"
                                         "  SELECT RAISE(ABORT, 'stays');\n"
                                         "END;\n"
                                         "DROP TABLE lamp;\n"_s);

    ASSERT_TRUE(statements);
    EXPECT_EQ(
        *statements,
        (QStringList{
            u"CREATE TABLE lamp (\nlamp_id TEXT\n) STRICT;"_s,
            u"CREATE TRIGGER lamp_stays BEFORE DELETE ON lamp\nBEGIN\nSELECT RAISE(ABORT, 'stays');\nEND;"_s,
            u"DROP TABLE lamp;"_s}));
}

TEST(SchemaTest, RefusesAStatementWithoutAnEnd)
{
    const auto statements = statementsOf(u"CREATE TABLE lamp (lamp_id TEXT)"_s);

    ASSERT_FALSE(statements);
    EXPECT_EQ(statements.error().kind, Error::Kind::Malformed);
}

TEST(SchemaTest, KnowsTheGuardsOfEachVersionAsSqliteKeepsThem)
{
    std::vector<SchemaStep> steps;
    for (const SchemaStep& step : Schema::shipped().steps()) {
        steps.push_back(step);
        Database built = Database::inMemory(Schema(steps));
        const auto found = built.run(u"SELECT sql FROM sqlite_schema WHERE type = 'trigger' ORDER BY name"_s);
        ASSERT_TRUE(found);
        QStringList texts;
        for (const Row& row : found->rows)
            texts.append(row.text(u"sql"));

        ASSERT_FALSE(texts.isEmpty());
        EXPECT_EQ(Schema::shipped().guards(step.number), texts) << step.name.toStdString();
    }
}

TEST(SchemaTest, AGuardFallsWithItsTableAndCanBeTakenAway)
{
    const Schema schema({{1, u"a"_s,
                          u"CREATE TABLE one (a);\nCREATE TABLE two (a);\n"
                          "CREATE TRIGGER stays BEFORE DELETE ON two\nBEGIN\nSELECT 1;\nEND;\n"
                          "CREATE TRIGGER falls BEFORE DELETE ON one\nBEGIN\nSELECT 1;\nEND;\n"
                          "CREATE TRIGGER goes BEFORE UPDATE ON two\nBEGIN\nSELECT 1;\nEND;\n"_s},
                         {2, u"b"_s, u"DROP TABLE one;\nDROP TRIGGER goes;\n"_s}});

    EXPECT_EQ(schema.guards(1).size(), 3);
    EXPECT_EQ(schema.guards(2),
              QStringList{u"CREATE TRIGGER stays BEFORE DELETE ON two\nBEGIN\nSELECT 1;\nEND"_s});
}

TEST(SchemaTest, MakesOnlyStrictTables)
{
    Database database = Database::inMemory();

    const auto loose =
        database.run(u"SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' "
                     "AND strict = 0 AND name NOT LIKE 'sqlite_%'"_s);

    ASSERT_TRUE(loose);
    for (const Row& row : loose->rows)
        ADD_FAILURE() << "not STRICT: " << row.text(u"name").toStdString();
}

/// A database as the steps up to this one make it.
Database madeUpTo(int step)
{
    std::vector<SchemaStep> steps = Schema::shipped().steps();
    std::erase_if(steps, [step](const SchemaStep& one) { return one.number > step; });
    return Database::inMemory(Schema(std::move(steps)));
}

constexpr int kBeforeLookUp = 20;

TEST(SchemaTest, EntriesKeptBeforeTheyWereLookedUpByWhatTheyNameAreFoundByItToo)
{
    Database database = madeUpTo(kBeforeLookUp);
    const QByteArray picture = sha256("a picture").hex().toLatin1();
    Hash previous;
    int seq = 0;
    for (const QByteArray& bytes :
         {QByteArray(R"({"what":{"picture":")" + picture + R"("}})"),
          QByteArray(R"({"what":{"scanned":["]C0ONE"]}})"),
          QByteArray(R"({"what":{"picture":")" + picture + R"(","scanned":["]C0TWO"]}})"),
          QByteArray(R"({"what":{"text":"\"picture\":\"\"scanned\":["}})"),
          QByteArray(R"({"what":{"conditions":{"picture":"digital"}}})")}) {
        const Hash hash = chained(previous, bytes);
        ASSERT_TRUE(database.run(u"INSERT INTO entry(visit_id, seq, bytes, previous, hash) "
                                 "VALUES('visit-1', :seq, :bytes, :previous, :hash)"_s,
                                 {{u":seq"_s, seq++},
                                  {u":bytes"_s, bytes},
                                  {u":previous"_s, std::exchange(previous, hash).bytes()},
                                  {u":hash"_s, hash.bytes()}}));
    }

    ASSERT_TRUE(database.migrate(Schema::shipped()));

    const auto seqsOf = [&](const QString& table) {
        std::vector<qint64> seqs;
        const auto found =
            database.run(u"SELECT seq FROM %1 JOIN entry USING (entry_id) ORDER BY seq"_s.arg(table));
        for (const Row& row : found.value().rows)
            seqs.push_back(row.whole(u"seq"));
        return seqs;
    };
    EXPECT_EQ(seqsOf(u"picture_naming"_s), (std::vector<qint64>{0, 2}));
    EXPECT_EQ(seqsOf(u"code_holding"_s), (std::vector<qint64>{1, 2}));
    EXPECT_EQ(Pictures(database).visitsWith(sha256("a picture")).value(), std::vector{VisitId(u"visit-1"_s)});
    EXPECT_TRUE(Journal(database).append(VisitId(u"visit-1"_s), Sequence(5), "goes on"));
    for (const char* sql : {"UPDATE picture_naming SET entry_id = 1", "DELETE FROM picture_naming",
                            "UPDATE code_holding SET entry_id = 1", "DELETE FROM code_holding"})
        EXPECT_EQ(database.run(QString::fromLatin1(sql)).error().kind, Error::Kind::Conflict) << sql;
}

} // namespace
} // namespace coldarc::store
