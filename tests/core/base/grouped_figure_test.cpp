#include "core/base/grouped_figure.h"

#include "tests/support/testing.h"

namespace coldarc {
namespace {

using namespace Qt::StringLiterals;

TEST(GroupedFigureTest, ThreeDigitsBehindASignMayBeThousands)
{
    for (const QString& text : {u"3,000"_s, u"1.980"_s, u" 12,500 "_s, u"12.500.000"_s, u"100,000"_s})
        EXPECT_TRUE(isGrouped(text)) << text.toStdString();
}

TEST(GroupedFigureTest, WhateverElseIsWrittenIsNone)
{
    for (const QString& text : {u"3000"_s, u"65.5"_s, u"65,25"_s, u"0.123"_s, u"0,020"_s, u"1234.567"_s,
                                u"1,00"_s, u",000"_s, u"3,0000"_s, u""_s, u"3,ooo"_s})
        EXPECT_FALSE(isGrouped(text)) << text.toStdString();
}

} // namespace
} // namespace coldarc
