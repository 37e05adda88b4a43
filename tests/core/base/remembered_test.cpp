#include "core/base/remembered.h"

#include "tests/support/testing.h"

using namespace Qt::StringLiterals;

namespace coldarc {
namespace {

class RememberedTest : public ::testing::Test {
protected:
    Result<int> made(const QByteArray& text)
    {
        return remembered.of(text, [&]() -> Result<int> {
            ++times;
            bool isNumber = false;
            const int number = text.toInt(&isNumber);
            return isNumber ? Result<int>(number) : fail(Error::Kind::Malformed, u"no number"_s);
        });
    }

    Remembered<int> remembered;
    int times = 0;
};

TEST_F(RememberedTest, TheSameTextIsReadOnceAndAnotherByItself)
{
    EXPECT_EQ(made("12"), 12);
    EXPECT_EQ(made("12"), 12);
    EXPECT_EQ(times, 1);

    EXPECT_EQ(made("13"), 13);
    EXPECT_EQ(times, 2);
}

TEST_F(RememberedTest, WhatCannotBeReadIsToldEachTime)
{
    EXPECT_EQ(made("lamp").error().kind, Error::Kind::Malformed);
    EXPECT_EQ(made("lamp").error().kind, Error::Kind::Malformed);
    EXPECT_EQ(times, 2);
}

TEST_F(RememberedTest, OneMoreThanTheMostLetsAllBeForgotten)
{
    for (int number = 0; number < Remembered<int>::kMost; ++number)
        EXPECT_EQ(made(QByteArray::number(number)), number);
    EXPECT_EQ(made("0"), 0);
    EXPECT_EQ(times, Remembered<int>::kMost);

    EXPECT_EQ(made("1000"), 1000);
    EXPECT_EQ(made("0"), 0);
    EXPECT_EQ(times, Remembered<int>::kMost + 2);
}

TEST_F(RememberedTest, ATextThatIsTooLongIsReadEachTime)
{
    const QByteArray text = QByteArray(Remembered<int>::kMostBytes, '0') + '7';

    EXPECT_EQ(made(text), 7);
    EXPECT_EQ(made(text), 7);
    EXPECT_EQ(times, 2);
}

} // namespace
} // namespace coldarc
