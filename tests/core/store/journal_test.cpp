#include "core/store/journal.h"

#include "core/store/workspace_file.h"
#include "tests/support/testing.h"

#include <QTemporaryDir>

using namespace Qt::StringLiterals;

namespace coldarc::store {
namespace {

const VisitId kVisit(u"visit-1"_s);
const VisitId kOther(u"visit-2"_s);

class JournalTest : public ::testing::Test {
protected:
    /// Entries "a", "b", "c" ...: n of them.
    void write(const VisitId& visit, int n)
    {
        for (int seq = 0; seq < n; ++seq)
            ASSERT_TRUE(journal.append(visit, Sequence(seq), QByteArray(1, static_cast<char>('a' + seq))));
    }
    Error::Kind kindOf(const QString& sql)
    {
        const auto done = database.run(sql);
        EXPECT_FALSE(done) << sql.toStdString();
        return done ? Error::Kind::NotFound : done.error().kind;
    }
    /// Somebody with the file in hand and a tool that ignores the guards.
    void tamper(const QString& sql)
    {
        for (const char* trigger :
             {"entry_is_never_changed", "entry_is_never_removed", "entry_follows_the_last_one"})
            ASSERT_TRUE(database.run(u"DROP TRIGGER IF EXISTS "_s + QString::fromLatin1(trigger)));
        const auto done = database.run(sql);
        ASSERT_TRUE(done) << done.error().detail.toStdString();
    }
    Signature signatureOver(const Head& head) const
    {
        return {head.visit,          head.seq,
                head.hash,           PersonId(u"person-1"_s),
                QByteArray(32, 'k'), QByteArray(64, 's'),
                u"stop"_s,           WallTime(std::chrono::milliseconds(1'795'000'000'000))};
    }

    Database database = Database::inMemory();
    Journal journal{database};
};

TEST_F(JournalTest, ReadsBackTheExactBytesInOrder)
{
    const QByteArray first = "{\"kind\" : \"opened\",\t\"site\":\"Kíno Ω\"}";
    const QByteArray second("\0\xff binary is kept too", 22);
    ASSERT_TRUE(journal.append(kVisit, Sequence(0), first));
    ASSERT_TRUE(journal.append(kVisit, Sequence(1), second));

    const auto entries = journal.entries(kVisit);

    ASSERT_TRUE(entries);
    ASSERT_EQ(entries->size(), 2u);
    EXPECT_EQ(entries->at(0).bytes, first);
    EXPECT_EQ(entries->at(1).bytes, second);
    EXPECT_EQ(entries->at(1).seq, Sequence(1));
}

TEST_F(JournalTest, ChainsEachEntryToTheOneBefore)
{
    const auto first = journal.append(kVisit, Sequence(0), "one");
    const auto second = journal.append(kVisit, Sequence(1), "two");

    EXPECT_EQ(*first, sha256(QByteArray(32, '\0') + "one"));
    EXPECT_EQ(*second, sha256(first->bytes() + "two"));
    EXPECT_EQ(journal.head(kVisit).value(), (Head{kVisit, Sequence(1), *second}));
}

TEST_F(JournalTest, RefusesASecondEntryWithTheSameNumber)
{
    ASSERT_TRUE(journal.append(kVisit, Sequence(0), "lamp-off"));

    const auto again = journal.append(kVisit, Sequence(0), "standby");

    ASSERT_FALSE(again);
    EXPECT_EQ(again.error().kind, Error::Kind::Conflict);
    EXPECT_EQ(journal.entries(kVisit)->size(), 1u);
}

TEST_F(JournalTest, RefusesAnEntryAfterAGap)
{
    write(kVisit, 1);

    EXPECT_EQ(journal.append(kVisit, Sequence(2), "too far").error().kind, Error::Kind::Conflict);
    EXPECT_EQ(journal.append(kOther, Sequence(1), "no first").error().kind, Error::Kind::Conflict);
    EXPECT_EQ(journal.append(kOther, Sequence(-1), "before all").error().kind, Error::Kind::Conflict);
}

TEST_F(JournalTest, RefusesTheSlowerOfTwoWhoDecidedOnTheSameState)
{
    write(kVisit, 2);
    Journal second(database);
    ASSERT_TRUE(second.append(kVisit, Sequence(2), "quicker"));

    EXPECT_EQ(journal.append(kVisit, Sequence(2), "slower").error().kind, Error::Kind::Conflict);
    EXPECT_TRUE(journal.append(kVisit, Sequence(3), "decided again"));
    EXPECT_TRUE(journal.entries(kVisit));
}

TEST_F(JournalTest, TakesUpToOneMebibyteAndNoEmptyEntry)
{
    EXPECT_TRUE(journal.append(kVisit, Sequence(0), QByteArray(1024 * 1024, 'x')));
    EXPECT_EQ(journal.append(kVisit, Sequence(1), QByteArray(1024 * 1024 + 1, 'x')).error().kind,
              Error::Kind::Malformed);
    EXPECT_EQ(journal.append(kVisit, Sequence(1), QByteArray()).error().kind, Error::Kind::Malformed);
    EXPECT_EQ(journal.append(VisitId(), Sequence(0), "no visit").error().kind, Error::Kind::Malformed);
}

TEST_F(JournalTest, GoesOnRightlyAfterATransactionThatWasUndone)
{
    write(kVisit, 1);
    std::ignore = database.transaction([&]() -> Result<void> {
        EXPECT_TRUE(journal.append(kVisit, Sequence(1), "undone"));
        return fail(Error::Kind::NotFound, {});
    });
    EXPECT_EQ(journal.append(kVisit, Sequence(2), "on what never was").error().kind, Error::Kind::Conflict);
    ASSERT_TRUE(journal.append(kVisit, Sequence(1), "instead"));

    ASSERT_TRUE(journal.append(kVisit, Sequence(2), "next"));

    const auto entries = journal.entries(kVisit);
    ASSERT_TRUE(entries) << entries.error().detail.toStdString();
    EXPECT_EQ(entries->at(1).bytes, QByteArray("instead"));
}

TEST_F(JournalTest, FollowsWhatAnotherWroteInPlaceOfWhatWasUndoneHere)
{
    write(kVisit, 1);
    std::ignore = database.transaction([&]() -> Result<void> {
        EXPECT_TRUE(journal.append(kVisit, Sequence(1), "undone"));
        return fail(Error::Kind::NotFound, {});
    });
    Journal another(database);
    ASSERT_TRUE(another.append(kVisit, Sequence(1), "by another"));

    EXPECT_TRUE(journal.append(kVisit, Sequence(2), "next"));
    EXPECT_TRUE(journal.entries(kVisit));
}

TEST_F(JournalTest, RefusesEveryWayOfChangingOrRemovingAnEntry)
{
    write(kVisit, 3);

    EXPECT_EQ(kindOf(u"UPDATE entry SET bytes = x'00' WHERE seq = 2"_s), Error::Kind::Conflict);
    EXPECT_EQ(kindOf(u"DELETE FROM entry WHERE seq = 2"_s), Error::Kind::Conflict);
    EXPECT_EQ(kindOf(u"DELETE FROM entry"_s), Error::Kind::Conflict);
    const QString values = u" SELECT visit_id, 2, x'00', previous, hash FROM entry WHERE seq = 2"_s;
    EXPECT_EQ(kindOf(u"INSERT OR REPLACE INTO entry(visit_id, seq, bytes, previous, hash)"_s + values),
              Error::Kind::Conflict);
    EXPECT_EQ(kindOf(u"INSERT OR IGNORE INTO entry(visit_id, seq, bytes, previous, hash)"_s + values),
              Error::Kind::Conflict);
    EXPECT_EQ(kindOf(u"INSERT INTO entry(visit_id, seq, bytes, previous, hash)"_s + values +
                     u" ON CONFLICT DO UPDATE SET bytes = excluded.bytes"_s),
              Error::Kind::Conflict);
    EXPECT_EQ(kindOf(u"INSERT OR REPLACE INTO entry(entry_id, visit_id, seq, bytes, previous, hash) "
                     "SELECT entry_id, 'visit-9', 0, x'00', zeroblob(32), hash FROM entry WHERE seq = 2"_s),
              Error::Kind::Conflict);
    EXPECT_EQ(kindOf(u"UPDATE OR REPLACE entry SET seq = 1 WHERE seq = 2"_s), Error::Kind::Conflict);
    EXPECT_EQ(journal.entries(kVisit)->size(), 3u);
}

TEST_F(JournalTest, RefusesAReplacingInsertOnAConnectionWithoutRecursiveTriggersToo)
{
    write(kVisit, 1);
    ASSERT_TRUE(database.run(u"PRAGMA recursive_triggers = OFF"_s));

    EXPECT_EQ(kindOf(u"INSERT OR REPLACE INTO entry(visit_id, seq, bytes, previous, hash) "
                     "SELECT visit_id, 0, x'00', previous, hash FROM entry"_s),
              Error::Kind::Conflict);
    EXPECT_EQ(kindOf(u"INSERT OR REPLACE INTO entry(entry_id, visit_id, seq, bytes, previous, hash) "
                     "SELECT entry_id, 'visit-9', 0, x'00', zeroblob(32), hash FROM entry"_s),
              Error::Kind::Conflict);
    EXPECT_EQ(journal.entries(kVisit)->size(), 1u);
}

TEST_F(JournalTest, RefusesAnEntryThatNamesAnotherPredecessor)
{
    write(kVisit, 1);

    EXPECT_EQ(kindOf(u"INSERT INTO entry(visit_id, seq, bytes, previous, hash) "
                     "VALUES('visit-1', 1, x'00', zeroblob(32), zeroblob(32))"_s),
              Error::Kind::Conflict);
}

TEST_F(JournalTest, RefusesAnEntryThatFollowsTheLastOneUnderANumberThatIsNotItsNext)
{
    write(kVisit, 3);
    ASSERT_TRUE(database.run(u"PRAGMA recursive_triggers = OFF"_s));

    for (const int seq : {1, 2, 4}) {
        EXPECT_EQ(kindOf(u"INSERT OR REPLACE INTO entry(visit_id, seq, bytes, previous, hash) "
                         "SELECT visit_id, %1, x'00', hash, previous FROM entry WHERE seq = 2"_s.arg(seq)),
                  Error::Kind::Conflict)
            << seq;
    }
    EXPECT_EQ(journal.entries(kVisit)->size(), 3u);
}

struct TamperCase {
    const char* name;
    const char* sql;
    std::size_t good;      ///< entries before the first bad one
    const char* complaint; ///< what names it

    friend void PrintTo(const TamperCase& c, std::ostream* out) { *out << c.name; }
};

class JournalTamperTest : public JournalTest, public ::testing::WithParamInterface<TamperCase> {};

TEST_P(JournalTamperTest, NamesTheFirstBadEntryAndGivesTheGoodOnesBefore)
{
    write(kVisit, 4);
    write(kOther, 2);
    tamper(QString::fromLatin1(GetParam().sql));

    const auto entries = journal.entries(kVisit);
    const auto chain = journal.chain(kVisit);

    ASSERT_FALSE(entries);
    EXPECT_EQ(entries.error().kind, Error::Kind::Malformed);
    EXPECT_TRUE(entries.error().detail.contains(QString::fromLatin1(GetParam().complaint)))
        << entries.error().detail.toStdString();
    ASSERT_TRUE(chain);
    EXPECT_EQ(chain->good.size(), GetParam().good);
    EXPECT_EQ(chain->fault, entries.error());
    EXPECT_TRUE(journal.entries(kOther)) << "the other visit is whole";
}

INSTANTIATE_TEST_SUITE_P(
    WithoutGuards, JournalTamperTest,
    ::testing::Values(
        TamperCase{"BytesChanged", "UPDATE entry SET bytes = x'7a' WHERE visit_id = 'visit-1' AND seq = 2", 2,
                   "visit visit-1, entry 2"},
        TamperCase{"HashChanged",
                   "UPDATE entry SET hash = zeroblob(32) WHERE visit_id = 'visit-1' AND seq = 1", 1,
                   "visit visit-1, entry 1"},
        TamperCase{"MiddleRemoved", "DELETE FROM entry WHERE visit_id = 'visit-1' AND seq = 1", 1,
                   "visit visit-1, entry 1: is missing"},
        TamperCase{"FirstRemoved", "DELETE FROM entry WHERE visit_id = 'visit-1' AND seq = 0", 0,
                   "visit visit-1, entry 0: is missing"},
        TamperCase{"TwoExchanged",
                   "UPDATE entry SET bytes = CASE seq WHEN 2 THEN x'64' ELSE x'63' END "
                   "WHERE visit_id = 'visit-1' AND seq IN (2, 3)",
                   2, "visit visit-1, entry 2"},
        TamperCase{"LinkChanged", "UPDATE entry SET previous = hash WHERE visit_id = 'visit-1' AND seq = 3",
                   3, "visit visit-1, entry 3: does not follow"}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST_F(JournalTest, KnowsNothingOfAVisitThatNeverBegan)
{
    EXPECT_TRUE(journal.entries(kVisit)->empty());
    EXPECT_EQ(journal.head(kVisit).error().kind, Error::Kind::NotFound);
    EXPECT_TRUE(journal.heads()->empty());
}

TEST_F(JournalTest, ListsTheHeadsOfItsVisitsInOrderOfArrival)
{
    write(kOther, 2);
    write(kVisit, 1);
    ASSERT_TRUE(journal.append(kOther, Sequence(2), "later"));

    const auto heads = journal.heads();

    ASSERT_TRUE(heads);
    EXPECT_EQ(*heads, (std::vector<Head>{journal.head(kOther).value(), journal.head(kVisit).value()}));
    EXPECT_EQ(heads->at(0).seq, Sequence(2));
}

TEST_F(JournalTest, KeepsASignatureOverTheHead)
{
    write(kVisit, 2);
    const Signature signature = signatureOver(journal.head(kVisit).value());

    ASSERT_TRUE(journal.keep(signature));

    EXPECT_EQ(journal.signatures(kVisit).value(), std::vector<Signature>{signature});
    EXPECT_TRUE(journal.signatures(kOther)->empty());
}

TEST_F(JournalTest, RefusesASignatureOverAnotherHead)
{
    write(kVisit, 2);
    Signature signature = signatureOver(journal.head(kVisit).value());
    signature.head = sha256("another");
    EXPECT_EQ(journal.keep(signature).error().kind, Error::Kind::Conflict);

    signature = signatureOver(journal.head(kVisit).value());
    signature.seq = Sequence(7);
    EXPECT_EQ(journal.keep(signature).error().kind, Error::Kind::Conflict);
}

TEST_F(JournalTest, RefusesTheSameSignatureTwiceAndOneOfTheWrongLength)
{
    write(kVisit, 1);
    Signature signature = signatureOver(journal.head(kVisit).value());
    ASSERT_TRUE(journal.keep(signature));
    EXPECT_EQ(journal.keep(signature).error().kind, Error::Kind::Conflict);

    signature.meaning = u"closing"_s;
    signature.bytes.chop(1);
    EXPECT_EQ(journal.keep(signature).error().kind, Error::Kind::Malformed);
}

TEST_F(JournalTest, RefusesEveryWayOfChangingOrRemovingASignature)
{
    write(kVisit, 1);
    ASSERT_TRUE(journal.keep(signatureOver(journal.head(kVisit).value())));
    ASSERT_TRUE(database.run(u"PRAGMA recursive_triggers = OFF"_s));

    EXPECT_EQ(kindOf(u"UPDATE signature SET meaning = 'other'"_s), Error::Kind::Conflict);
    EXPECT_EQ(kindOf(u"DELETE FROM signature"_s), Error::Kind::Conflict);
    EXPECT_EQ(kindOf(u"INSERT OR REPLACE INTO signature SELECT * FROM signature"_s), Error::Kind::Conflict);
    EXPECT_EQ(
        kindOf(
            u"INSERT OR REPLACE INTO signature SELECT signature_id + 1, visit_id, seq, head_hash, person_id, "
            "public_key, zeroblob(64), meaning, signed_at_ms FROM signature"_s),
        Error::Kind::Conflict);
}

// Whichever came first would shut out the genuine one for good.
TEST_F(JournalTest, ASignatureByAnotherKeyStandsBesideTheOneThatIsThere)
{
    write(kVisit, 1);
    const Signature stolen = signatureOver(journal.head(kVisit).value());
    Signature genuine = stolen;
    genuine.publicKey = QByteArray(32, 'g');
    genuine.bytes = QByteArray(64, 's');
    ASSERT_TRUE(journal.keep(stolen));

    ASSERT_TRUE(journal.keep(genuine));

    EXPECT_EQ(journal.signatures(kVisit).value(), (std::vector<Signature>{stolen, genuine}));
    genuine.bytes = QByteArray(64, 't');
    EXPECT_EQ(journal.keep(genuine).error().kind, Error::Kind::Conflict) << "one by each key";
}

// Somebody took the last entry out by hand: the file is opened all the same, and what was signed tells of it.
TEST_F(JournalTest, SignaturesOfAnOlderFileStayAlsoThoseOverAnEntryThatIsGone)
{
    const QTemporaryDir folder;
    const QString file = folder.filePath(u"work.coldarc"_s);
    const NewWorkspace fresh{u"workspace-1"_s, WallTime(std::chrono::milliseconds(1'795'000'000'000))};
    std::vector<SchemaStep> steps = Schema::shipped().steps();
    std::erase_if(steps, [](const SchemaStep& step) { return step.number > 22; });
    Signature last;
    {
        OpenAnswer made = openWorkspace(file, fresh, Schema(steps));
        ASSERT_TRUE(made.database) << made.detail.toStdString();
        Journal older(*made.database);
        ASSERT_TRUE(older.append(kVisit, Sequence(0), "first"));
        ASSERT_TRUE(older.append(kVisit, Sequence(1), "second"));
        last = signatureOver(older.head(kVisit).value());
        ASSERT_TRUE(older.keep(last));
        ASSERT_TRUE(made.database->run(u"PRAGMA foreign_keys = OFF"_s));
        const auto trigger =
            made.database->run(u"SELECT sql FROM sqlite_schema WHERE name = 'entry_is_never_removed'"_s);
        ASSERT_TRUE(made.database->run(u"DROP TRIGGER entry_is_never_removed"_s));
        ASSERT_TRUE(made.database->run(u"DELETE FROM entry WHERE seq = 1"_s));
        ASSERT_TRUE(made.database->run(trigger->rows.front().text(u"sql")));
    }

    OpenAnswer opened = openWorkspace(file, fresh);

    ASSERT_EQ(opened.outcome, Opening::Upgraded) << opened.detail.toStdString();
    EXPECT_EQ(Journal(*opened.database).signatures(kVisit).value(), std::vector<Signature>{last});
    EXPECT_EQ(Journal(*opened.database).entries(kVisit)->size(), 1U);
}

} // namespace
} // namespace coldarc::store
