#include "core/lamps/stock_table.h"

#include "tests/support/testing.h"

namespace coldarc::lamps {
namespace {

using namespace Qt::StringLiterals;
using BadCause = BadStockRow::Cause;

// Types and serials are invented.
QList<catalogue::LampType> types()
{
    catalogue::LampType slim;
    slim.id = LampTypeId(u"slim"_s);
    slim.code = u"HVQ30-408"_s;
    catalogue::LampType broad;
    broad.id = LampTypeId(u"broad"_s);
    broad.code = u"HVQ30-40B"_s;
    return {slim, broad};
}

TEST(StockTableTest, TakesOneLampALine)
{
    const StockTable table =
        readStockTable(u"HVQ30-40B;SN-001;in-van\n\n hvq30 408 ; SN-002 ; In-Stock \r\n"_s, types());

    EXPECT_TRUE(table.bad.isEmpty());
    EXPECT_EQ(table.rows, (QList<StockRow>{{1, LampTypeId(u"broad"_s), u"SN-001"_s, Custody::InVan},
                                           {3, LampTypeId(u"slim"_s), u"SN-002"_s, Custody::InStock}}));
}

TEST(StockTableTest, TakesTabsAsASheetGivesThem)
{
    const StockTable table = readStockTable(u"HVQ30-40B\tSN;001\tboxed\nHVQ30-408\t\ton-order"_s, types());

    EXPECT_EQ(table.rows, (QList<StockRow>{{1, LampTypeId(u"broad"_s), u"SN;001"_s, Custody::Boxed},
                                           {2, LampTypeId(u"slim"_s), u""_s, Custody::OnOrder}}));
}

struct BadCase {
    const char* name;
    QString line;
    BadCause cause;

    friend void PrintTo(const BadCase& c, std::ostream* out) { *out << c.name; }
};

class BadStockRowTest : public ::testing::TestWithParam<BadCase> {};

TEST_P(BadStockRowTest, IsListedWithItsCauseBesideTheGoodOnes)
{
    const StockTable table = readStockTable(u"HVQ30-40B;SN-001;in-van\n"_s + GetParam().line, types());

    EXPECT_EQ(table.rows.size(), 1);
    ASSERT_EQ(table.bad.size(), 1);
    EXPECT_EQ(table.bad.front().line, 2);
    EXPECT_EQ(table.bad.front().cause, GetParam().cause);
    EXPECT_EQ(table.bad.front().text, GetParam().line);
}

INSTANTIATE_TEST_SUITE_P(
    Rows, BadStockRowTest,
    ::testing::Values(BadCase{"TwoFields", u"HVQ30-40B;SN-002"_s, BadCause::NotThreeFields},
                      BadCase{"FourFields", u"HVQ30-40B;SN-002;in-van;x"_s, BadCause::NotThreeFields},
                      BadCase{"NearType", u"HVQ30-408B;SN-002;in-van"_s, BadCause::TypeNotInCatalogue},
                      BadCase{"NoType", u";SN-002;in-van"_s, BadCause::TypeNotInCatalogue},
                      BadCase{"NoSerial", u"HVQ30-40B; - ;in-van"_s, BadCause::SerialMissing},
                      BadCase{"UnknownCustody", u"HVQ30-40B;SN-002;lost"_s, BadCause::NoSuchCustody},
                      BadCase{"FittedWhere", u"HVQ30-40B;SN-002;fitted"_s, BadCause::CustodyNotForATable},
                      BadCase{"SameAgain", u"hvq30 40b;sn001;boxed"_s, BadCause::TwiceInTheTable}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(StockTableTest, ASerialMayStandAtTwoTypesAndOrdersHaveNone)
{
    const StockTable table = readStockTable(
        u"HVQ30-40B;SN-001;in-van\nHVQ30-408;SN-001;in-van\nHVQ30-408;;on-order\nHVQ30-408;;on-order"_s,
        types());

    EXPECT_EQ(table.rows.size(), 4);
    EXPECT_TRUE(table.bad.isEmpty());
}

TEST(StockTableTest, ATypeThatNamesTwoIsNotTaken)
{
    QList<catalogue::LampType> twins = types();
    twins[1].code = u"HVQ 30408"_s;

    const StockTable table = readStockTable(u"HVQ30-408;SN-001;in-van"_s, twins);

    ASSERT_EQ(table.bad.size(), 1);
    EXPECT_EQ(table.bad.front().cause, BadCause::TypeNamesSeveral);
}

} // namespace
} // namespace coldarc::lamps
