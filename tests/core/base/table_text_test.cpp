#include "core/base/table_text.h"

#include "tests/support/testing.h"

namespace coldarc {

void PrintTo(const TableLine& line, std::ostream* out)
{
    *out << line.number << ": " << line.cells.join(u'|').toStdString() << (line.isOpenQuote ? " open" : "");
}

namespace {

using namespace Qt::StringLiterals;
using Lines = std::vector<TableLine>;

TEST(TableTextTest, PartsCellsAndTrimsThem)
{
    EXPECT_EQ(tableLines(u"a; b ;\n1;2;3"_s, u';'),
              (Lines{{1, {u"a"_s, u"b"_s, {}}, false}, {2, {u"1"_s, u"2"_s, u"3"_s}, false}}));
}

// RFC 4180 section 2, rules 5 to 7: a quoted field may hold a comma, a line break and a doubled quote.
TEST(TableTextTest, ReadsQuotedCellsByTheGrammarOfTheStandard)
{
    EXPECT_EQ(
        tableLines(u"\"aaa\",\"b\nbb\",\"c \"\"c\"\"\"\nzzz,\"y,y\",x\n"_s, u','),
        (Lines{{1, {u"aaa"_s, u"b\nbb"_s, u"c \"c\""_s}, false}, {3, {u"zzz"_s, u"y,y"_s, u"x"_s}, false}}));
}

TEST(TableTextTest, CountsBlankLinesAndLeavesThemOut)
{
    EXPECT_EQ(tableLines(u"\n , \na\n\n"_s, u','), (Lines{{3, {u"a"_s}, false}}));
}

TEST(TableTextTest, MarksALineWhoseQuoteDoesNotEnd)
{
    EXPECT_EQ(tableLines(u"a\n\"b\nc"_s, u','), (Lines{{1, {u"a"_s}, false}, {2, {u"b\nc"_s}, true}}));
}

TEST(TableTextTest, FindsNothingInAnEmptyText)
{
    EXPECT_TRUE(tableLines({}, u',').empty());
}

TEST(TableTextTest, TakesTheSeparatorOfTheHeader)
{
    EXPECT_EQ(separatorIn(u"a;b\tc,d"), QChar(u'\t'));
    EXPECT_EQ(separatorIn(u"a;b,c"), QChar(u';'));
    EXPECT_EQ(separatorIn(u"a,b"), QChar(u','));
    EXPECT_EQ(separatorIn(u"a"), QChar(u','));
}

TEST(TableTextTest, KnowsTheLineEndsOfEverySystem)
{
    EXPECT_EQ(withPlainLineEnds(u"\ufeffa\r\nb\rc\nd"_s), u"a\nb\nc\nd"_s);
}

} // namespace
} // namespace coldarc
