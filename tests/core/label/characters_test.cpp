#include "core/label/characters.h"

#include "tests/support/testing.h"

namespace coldarc::label {
namespace {

TEST(CharactersTest, OnlyTheTenDigitsOfTheStandardsAreDigits)
{
    EXPECT_TRUE(areDigits(u"0123456789"));
    for (const QChar no : {u'/', u':', u'A', u'\u0663', u'\uFF13'}) // beside 0 and 9; of other scripts
        EXPECT_FALSE(isDigit(no)) << int(no.unicode());
    EXPECT_FALSE(areDigits(u"12 3"));
    EXPECT_TRUE(areDigits({}));
}

TEST(CharactersTest, OnlyTheLettersWithoutMarksAreLatin)
{
    for (const QChar letter : {u'A', u'Z', u'a', u'z'})
        EXPECT_TRUE(isLatin(letter)) << int(letter.unicode());
    for (const QChar no : {u'@', u'[', u'`', u'{', u'\u00C4', u'\u0410'})
        EXPECT_FALSE(isLatin(no)) << int(no.unicode());
}

} // namespace
} // namespace coldarc::label
