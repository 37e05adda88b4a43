#include "ui/parts/row_list.h"

#include "tests/support/testing.h"

#include <QTest>

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using namespace ui;

class RowListTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        list.setRows(
            {{u"a"_s, u"Pier Street"_s, u"2 lamps"_s, u"tonight"_s}, {u"b"_s, u"Regatta Lane"_s, {}, {}}},
            u"a"_s);
        list.resize(320, 200);
        list.show();
    }
    [[nodiscard]] RowButton* row(const QString& id) { return list.findChild<RowButton*>(u"row-"_s + id); }

    RowList list{u"Visits"_s};
};

TEST_F(RowListTest, SaysWhichRowWasPressed)
{
    QString chosen;
    QObject::connect(&list, &RowList::rowChosen, &list, [&chosen](const QString& id) { chosen = id; });

    QTest::mouseClick(row(u"b"_s), Qt::LeftButton);

    EXPECT_EQ(chosen, u"b"_s);
}

TEST_F(RowListTest, KeepsItsMarkWhenTheChosenRowIsPressedAgain)
{
    QTest::mouseClick(row(u"a"_s), Qt::LeftButton);

    EXPECT_TRUE(row(u"a"_s)->isChecked());
}

TEST_F(RowListTest, MarksNoRowThatTheViewDidNotChoose)
{
    QTest::mouseClick(row(u"b"_s), Qt::LeftButton);

    EXPECT_FALSE(row(u"b"_s)->isChecked());
    EXPECT_TRUE(row(u"a"_s)->isChecked());
}

TEST_F(RowListTest, SpeaksTheWholeRow)
{
    EXPECT_EQ(row(u"a"_s)->accessibleName(), u"Pier Street, tonight"_s);
    EXPECT_EQ(row(u"a"_s)->accessibleDescription(), u"2 lamps"_s);
}

} // namespace
} // namespace coldarc::test
