#include "core/label/normalise.h"

#include "tests/support/testing.h"

#include <string_view>

namespace coldarc::label {
namespace {

using namespace Qt::StringLiterals;

// All types and serials are invented.

TEST(NormaliseTest, LeavesOutSpacesDashesAndWhatCannotBeSeen)
{
    EXPECT_EQ(normalise(u" KHM-2516\u00A0AS\t"_s), u"KHM2516AS"_s);
    for (const char16_t dash :
         std::u16string_view(u"-\u2010\u2011\u2012\u2013\u2014\u2015\u2212\uFE58\uFE63\uFF0D\u00AD"))
        EXPECT_EQ(normalise(u"KHM"_s + QChar(dash) + u"25"_s), u"KHM25"_s) << std::hex << int(dash);
    EXPECT_EQ(normalise(u"\uFEFFKHM\u200B25\u200D"_s), u"KHM25"_s);
}

TEST(NormaliseTest, MakesCapitalsAndPlainWidth)
{
    EXPECT_EQ(normalise(u"khm2516as"_s), u"KHM2516AS"_s);
    EXPECT_EQ(normalise(u"\uFF2B\uFF48\uFF2D\uFF12\uFF15\u3000\uFF0F\uFF33"_s), u"KHM25/S"_s);
}

TEST(NormaliseTest, KeepsWhatAMakerMeans)
{
    for (const QString& text : {u"KHM25/S"_s, u"A.5"_s, u"A,5"_s, u"A_5"_s, u"A+5"_s, u"A*5"_s})
        EXPECT_EQ(normalise(text), text);
    EXPECT_EQ(normalise(u"A\u001DB"_s), u"A\u001DB"_s) << "a separator inside a scan is no space";
}

TEST(NormaliseTest, NeverMakesOneLetterOrDigitAnother)
{
    const QString plain = u"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"_s;
    EXPECT_EQ(normalise(plain), plain);

    // Characters whose usual capital is a Latin letter that they are not, or two letters.
    EXPECT_EQ(normalise(u"\u0131"_s), u"\u0131"_s) << "dotless i";
    EXPECT_EQ(normalise(u"\u017F"_s), u"\u017F"_s) << "long s";
    EXPECT_EQ(normalise(u"\u00DF"_s), u"\u00DF"_s) << "sharp s";
    EXPECT_EQ(normalise(u"\u0410"_s), u"\u0410"_s) << "Cyrillic A stays Cyrillic";
}

TEST(NormaliseTest, NormalisingTwiceChangesNothingMore)
{
    for (int unit = 1; unit < 0xFFFE; ++unit) {
        const QString once = normalise(QString(QChar(unit)));
        ASSERT_EQ(normalise(once), once) << std::hex << unit;
    }
}

TEST(NormaliseTest, KeepsWhereEachCharacterStood)
{
    const NormalText text = normalText(u" a-b "_s);

    EXPECT_EQ(text.text, u"AB"_s);
    EXPECT_EQ(text.at, (std::vector<qsizetype>{1, 3}));
    EXPECT_EQ(text.originalLength, 5);
}

} // namespace
} // namespace coldarc::label
