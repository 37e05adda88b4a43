#include "core/label/found_code.h"

#include "tests/support/testing.h"

namespace coldarc::label {
namespace {

using namespace Qt::StringLiterals;

TEST(FoundCodeTest, ALineHoldsSeparatorsLettersAndPlacesExactly)
{
    const PictureReading reading{
        4000, 3000, {{u"]d20109506000134352\u001D21\u00C4\"\n"_s, {Place{1, 2.5}, {3, 4}, {5, 6}, {7, -8}}}}};

    const QByteArray line = toLine(reading);

    EXPECT_EQ(line.count('\n'), 1) << "one line";
    const auto again = readingFromLine(line);
    ASSERT_TRUE(again);
    EXPECT_EQ(*again, reading);
    EXPECT_EQ(*readingFromLine(toLine({})), PictureReading());
}

TEST(FoundCodeTest, AnythingElseIsMalformed)
{
    for (const QByteArray& line :
         {QByteArray(), QByteArray("{}"), QByteArray("nonsense"), QByteArray("{\"width\":1,\"height\":1}"),
          QByteArray("{\"width\":-1,\"height\":1,\"codes\":[]}"),
          QByteArray("{\"width\":1,\"height\":1,\"codes\":[{\"scanned\":\"A\",\"corners\":[[1,2]]}]}"),
          QByteArray("{\"width\":0,\"height\":0,\"codes\":[{\"scanned\":\"A\",\"corners\":"
                     "[[1,2],[1,2],[1,2],[1,2]]}]}"),
          QByteArray("{\"width\":4,\"height\":0,\"codes\":[]}"),
          QByteArray("{\"width\":1,\"height\":1,\"codes\":[],\"more\":1}")}) {
        const auto reading = readingFromLine(line);
        ASSERT_FALSE(reading) << line.toStdString();
        EXPECT_EQ(reading.error().kind, Error::Kind::Malformed);
    }
}

} // namespace
} // namespace coldarc::label
