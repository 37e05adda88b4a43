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

TEST(TableTextTest, WritesWhatItReadsBack)
{
    const QString text = textOfTable({{u"a, b"_s, u"say \"so\""_s}, {u"two\nlines"_s, {}}});

    EXPECT_EQ(text, u"\"a, b\",\"say \"\"so\"\"\"\r\n\"two\nlines\",\r\n"_s);
    const Lines read = tableLines(withPlainLineEnds(text), u',');
    ASSERT_EQ(read.size(), 2U);
    EXPECT_EQ(read[0].cells, (QStringList{u"a, b"_s, u"say \"so\""_s}));
    EXPECT_EQ(read[1].cells.first(), u"two\nlines"_s);
}

TEST(TableTextTest, MakesAFormulaPlainAndLeavesANegativeNumberANumber)
{
    EXPECT_EQ(textOfTable({{u"=1+1"_s, u"@sum"_s, u"+x"_s, u"-y"_s, u"-0.5"_s, u"+2"_s}}),
              u"'=1+1,'@sum,'+x,'-y,-0.5,+2\r\n"_s);
}

} // namespace
} // namespace coldarc
