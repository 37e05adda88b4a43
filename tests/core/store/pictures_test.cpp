#include "core/store/pictures.h"

#include "core/store/journal.h"
#include "tests/support/testing.h"

using namespace Qt::StringLiterals;

namespace coldarc::store {
namespace {

std::optional<Error::Kind> kindOf(const Result<Answer>& answer)
{
    return answer ? std::nullopt : std::optional(answer.error().kind);
}

class PicturesTest : public ::testing::Test {
protected:
    Database database = Database::inMemory();
    Pictures pictures{database};
    const Picture label{u"image/jpeg"_s, QByteArray("\xff\xd8 not a real picture \0", 23)};
};

TEST_F(PicturesTest, KeepsAPictureUnderTheHashOfItsBytes)
{
    const auto hash = pictures.keep(label);

    ASSERT_TRUE(hash);
    EXPECT_EQ(*hash, sha256(label.bytes));
    EXPECT_EQ(pictures.read(*hash).value(), label);
}

TEST_F(PicturesTest, KeepsTheSameBytesOnce)
{
    ASSERT_TRUE(pictures.keep(label));
    ASSERT_TRUE(pictures.keep(label));

    EXPECT_EQ(pictures.hashes()->size(), 1u);
}

TEST_F(PicturesTest, RefusesNoBytesTooManyAndNoMediaType)
{
    EXPECT_EQ(pictures.keep({u"image/png"_s, {}}).error().kind, Error::Kind::Malformed);
    EXPECT_EQ(pictures.keep({u"image/png"_s, QByteArray(Pictures::kMostBytes + 1, 'x')}).error().kind,
              Error::Kind::Malformed);
    EXPECT_EQ(pictures.keep({{}, "x"}).error().kind, Error::Kind::Malformed);
}

TEST_F(PicturesTest, HasNoPictureThatWasNeverKept)
{
    EXPECT_EQ(pictures.read(sha256("nothing")).error().kind, Error::Kind::NotFound);
}

TEST_F(PicturesTest, KnowsEveryVisitOfWhichAnEntryNamesThePicture)
{
    Journal journal(database);
    const Hash hash = sha256("a picture");
    const QByteArray named = "{\"what\":{\"picture\":\"" + hash.hex().toLatin1() + "\"}}";
    QByteArray told = named;
    told.replace("\"", "\\\""); // the same as somebody's words
    ASSERT_TRUE(journal.append(VisitId(u"one"_s), Sequence(0), named));
    ASSERT_TRUE(journal.append(VisitId(u"one"_s), Sequence(1), named));
    ASSERT_TRUE(journal.append(VisitId(u"two"_s), Sequence(0), "{\"text\":\"" + told + "\"}"));
    ASSERT_TRUE(journal.append(VisitId(u"three"_s), Sequence(0), named));

    EXPECT_EQ(pictures.visitsWith(hash).value(), (std::vector{VisitId(u"one"_s), VisitId(u"three"_s)}));
    EXPECT_TRUE(pictures.visitsWith(sha256("another"))->empty());
}

TEST_F(PicturesTest, RefusesToChangeRemoveOrReplaceAPicture)
{
    ASSERT_TRUE(pictures.keep(label));
    ASSERT_TRUE(database.run(u"PRAGMA recursive_triggers = OFF"_s));

    for (const char* sql :
         {"UPDATE picture SET bytes = x'00'", "DELETE FROM picture",
          "INSERT OR REPLACE INTO picture SELECT * FROM picture",
          "INSERT OR REPLACE INTO picture SELECT picture_id + 1, hash, media_type, x'00' FROM picture",
          "INSERT OR REPLACE INTO picture SELECT picture_id, zeroblob(32), media_type, bytes FROM picture"})
        EXPECT_EQ(kindOf(database.run(QString::fromLatin1(sql))), Error::Kind::Conflict) << sql;
}

TEST_F(PicturesTest, SeesThatAPictureNoLongerFitsItsHash)
{
    const auto hash = pictures.keep(label);
    ASSERT_TRUE(database.run(u"DROP TRIGGER picture_is_never_changed"_s));
    ASSERT_TRUE(database.run(u"UPDATE picture SET bytes = x'00'"_s));

    EXPECT_EQ(pictures.read(*hash).error().kind, Error::Kind::Malformed);
}

} // namespace
} // namespace coldarc::store
