#include "core/site/site_table.h"

#include "core/site/site_check.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

namespace coldarc::site {

// In the namespace of the type, where GoogleTest looks for it.
void PrintTo(const BadRow& bad, std::ostream* out)
{
    *out << "line " << bad.line << " " << bad.column.toStdString() << " " << static_cast<int>(bad.why);
}

namespace {

using namespace Qt::StringLiterals;
using Why = BadRow::Why;
using BadRows = std::vector<BadRow>;

const QString kHeader = u"screen,model,lamphouse,panel,circuit,role,lockable\n"_s;

BadRows badRowsOf(const QString& text)
{
    const auto rows = readSiteTable(text);
    return rows ? BadRows{} : rows.error();
}

std::vector<SiteRow> rowsOf(const QString& text)
{
    const auto rows = readSiteTable(text);
    EXPECT_TRUE(rows);
    return rows.value_or(std::vector<SiteRow>());
}

SiteRow row(int line = 2)
{
    return {line, u"Screen 1"_s, {},   u"single"_s, u"lamp"_s, u"B"_s, u"14"_s,
            {},   u"main"_s,     true, std::nullopt};
}

TEST(SiteTableTest, ReadsALineWithCommas)
{
    EXPECT_EQ(rowsOf(kHeader + u"Screen 1,single,lamp,B,14,main,yes\n"_s), std::vector<SiteRow>{row()});
}

TEST(SiteTableTest, ReadsEveryColumnInAnyOrderWithTabs)
{
    const auto rows =
        rowsOf(u"Weekly_Hours\tPOINT\tprojector\tLockable\trole\tcircuit\tpanel\tlamphouse\tmodel\tscreen\r\n"
               "84,5\tthe grey box\tfront\tN\tmain\t14\tB\tlamp\tsingle\tScreen 1\r\n"_s);

    SiteRow expected = row();
    expected.weeklyHours = 84.5;
    expected.point = u"the grey box"_s;
    expected.projector = u"front"_s;
    expected.isLockable = false;
    EXPECT_EQ(rows, std::vector<SiteRow>{expected});
}

TEST(SiteTableTest, ReadsSemicolonsAndLeavesCommasInTheCells)
{
    const auto rows = rowsOf(
        u"screen;model;lamphouse;panel;circuit;role;lockable\nScreen 1, upstairs;single;lamp;B;14;main;1"_s);

    ASSERT_EQ(rows.size(), 1u);
    EXPECT_EQ(rows[0].screen, u"Screen 1, upstairs"_s);
}

// RFC 4180 section 2, rules 5 to 7: separators, line breaks and doubled quotes inside quotes.
TEST(SiteTableTest, ReadsQuotedCells)
{
    const auto rows = rowsOf(
        kHeader +
        u"\"The \"\"Big\"\" One, left\",single,\"la\nmp\",B,14,main,yes\nScreen 2,single,lamp,B,15,main,no\n"_s);

    ASSERT_EQ(rows.size(), 2u);
    EXPECT_EQ(rows[0].screen, u"The \"Big\" One, left"_s);
    EXPECT_EQ(rows[0].lamphouse, u"la\nmp"_s);
    EXPECT_EQ(rows[1].line, 4); // the line break inside the cell is counted
}

TEST(SiteTableTest, PassesBlankLinesOverButCountsThem)
{
    const auto rows = rowsOf(u"\ufeff"_s + kHeader + u"\n , , \nScreen 1,single,lamp,B,14,main,yes\n\n"_s);

    EXPECT_EQ(rows, std::vector<SiteRow>{row(4)});
}

TEST(SiteTableTest, WantsAHeaderAndALine)
{
    EXPECT_EQ(badRowsOf(u""_s), (BadRows{{1, {}, Why::Empty}}));
    EXPECT_EQ(badRowsOf(kHeader), (BadRows{{1, {}, Why::Empty}}));
}

TEST(SiteTableTest, NamesTheColumnsThatAreMissingUnknownOrDoubled)
{
    EXPECT_EQ(badRowsOf(u"screen,screen,model,lamp house,panel,circuit,lockable\nx,x,x,x,x,x,x\n"_s),
              (BadRows{{1, u"screen"_s, Why::DoubledColumn},
                       {1, u"lamp house"_s, Why::UnknownColumn},
                       {1, u"lamphouse"_s, Why::MissingColumn},
                       {1, u"role"_s, Why::MissingColumn}}));
}

TEST(SiteTableTest, ListsEveryBadLineWithAllThatIsWrongAndTakesNone)
{
    const QString text = u"screen,model,lamphouse,panel,circuit,role,lockable,weekly hours\n"
                         "Screen 1,single,lamp,B,14,main,yes,84\n"
                         ",single,lamp,B,,main,perhaps,169\n"
                         "Screen 3,single,lamp,B,16,main,yes,many\n"
                         "Screen 4,single,lamp,B,17,main,yes,80,surplus\n"
                         "Screen 5,single,lamp\n"
                         "Screen 7,single,lamp,B,19,main,yes,\"1,250\"\n"
                         "Screen 6,single,\"lamp,B,18\n"_s;

    EXPECT_EQ(badRowsOf(text), (BadRows{{3, u"screen"_s, Why::EmptyCell},
                                        {3, u"circuit"_s, Why::EmptyCell},
                                        {3, u"lockable"_s, Why::NotYesOrNo},
                                        {3, u"weekly hours"_s, Why::NotHours},
                                        {4, u"weekly hours"_s, Why::NotHours},
                                        {5, {}, Why::TooManyCells},
                                        {6, u"panel"_s, Why::EmptyCell},
                                        {6, u"circuit"_s, Why::EmptyCell},
                                        {6, u"role"_s, Why::EmptyCell},
                                        {6, u"lockable"_s, Why::EmptyCell},
                                        {7, u"weekly hours"_s, Why::NotHours},
                                        {8, {}, Why::OpenQuote}}));
}

class WithRowsTest : public ::testing::Test {
protected:
    BadRows badRows(const std::vector<SiteRow>& rows)
    {
        const auto added = withRows(document, rows, ids);
        return added ? BadRows{} : added.error();
    }

    ::coldarc::test::CountingIds ids;
    SiteDocument document;
};

TEST_F(WithRowsTest, MakesScreensProjectorsLamphousesAndPoints)
{
    SiteRow second = row(3); // the same point feeds the lamphouse of another screen
    second.screen = u"Screen 2"_s;

    const auto added = withRows(document, {row(), second}, ids);

    ASSERT_TRUE(added);
    EXPECT_EQ(added->screens.size(), 2u);
    EXPECT_EQ(added->projectors.size(), 2u);
    EXPECT_EQ(added->lamphouses.size(), 2u);
    ASSERT_EQ(added->points.size(), 1u);
    EXPECT_EQ(added->points[0].name, u"B, 14"_s);
    EXPECT_EQ(added->points[0].feeds.size(), 2u);
    EXPECT_TRUE(problemsOf(*added).empty());
}

TEST_F(WithRowsTest, TellsTwoProjectorsOfOneScreenApartByLabel)
{
    SiteRow second = row(3);
    second.projector = u"rear"_s;
    second.circuit = u"15"_s;

    const auto added = withRows(document, {row(), second}, ids);

    ASSERT_TRUE(added);
    EXPECT_EQ(added->screens.size(), 1u);
    EXPECT_EQ(added->projectors.size(), 2u);
    EXPECT_EQ(added->lamphouses.size(), 2u);
}

TEST_F(WithRowsTest, UsesWhatTheSiteHasAlready)
{
    document = *withRows(document, {row()}, ids);
    SiteRow more = row();
    more.circuit = u"15"_s;
    more.role = u"igniter"_s;
    more.weeklyHours = 80;

    const auto added = withRows(document, {more}, ids);

    ASSERT_TRUE(added);
    EXPECT_EQ(added->lamphouses, document.lamphouses);
    EXPECT_EQ(added->screens[0].weeklyHours, 80.0);
    EXPECT_EQ(added->pointsFeeding(added->lamphouses[0].id).size(), 2u);
}

TEST_F(WithRowsTest, RefusesWhatContradictsAnEarlierLine)
{
    SiteRow first = row();
    first.weeklyHours = 80;
    SiteRow second = row(3);
    second.model = u"double"_s;
    second.lamphouse = u"left"_s;
    second.isLockable = false;
    second.point = u"the grey box"_s;
    second.weeklyHours = 90;

    EXPECT_EQ(badRows({first, second}), (BadRows{{3, u"weekly hours"_s, Why::Contradiction},
                                                 {3, u"model"_s, Why::Contradiction},
                                                 {3, u"lockable"_s, Why::Contradiction},
                                                 {3, u"point"_s, Why::Contradiction}}));
}

TEST_F(WithRowsTest, RefusesTheSameConnectionTwice)
{
    EXPECT_EQ(badRows({row(2), row(3)}), (BadRows{{3, {}, Why::Repetition}}));
}

} // namespace
} // namespace coldarc::site
