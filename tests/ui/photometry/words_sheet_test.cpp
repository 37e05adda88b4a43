#include "ui/photometry/words_sheet.h"

#include "tests/support/testing.h"

#include <QSet>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace photometry;

/// Every value of an enumeration up to its last has words, and no two the same.
template<class Value>
void expectWords(Value last)
{
    QSet<QString> seen;
    for (int value = 0; value <= static_cast<int>(last); ++value) {
        const QString words = wordsOf(static_cast<Value>(value));
        EXPECT_FALSE(words.isEmpty()) << value;
        EXPECT_FALSE(seen.contains(words)) << words.toStdString();
        seen.insert(words);
    }
}

TEST(WordsSheetTest, EveryOutcomeObstacleMarkAndDifferenceIsTold)
{
    expectWords(Outcome::Withheld);
    expectWords(Obstacle::CentreMissing);
    expectWords(Mark::PowerUnknown);
    expectWords(Unlike::NoCommonPoint);
    expectWords(Standing::Own);
    expectWords(Whole::Open);
}

TEST(WordsSheetTest, OnPaperAnOpenSheetIsNotJudgedAnyLater)
{
    const auto wordsFor = [](const std::vector<Outcome>& outcomes) {
        SheetVerdict sheet;
        for (const Outcome outcome : outcomes)
            sheet.verdicts.emplace_back().outcome = outcome;
        return wholeWords(sheet);
    };

    EXPECT_EQ(wordsFor({Outcome::Within, Outcome::NotMeasured}),
              u"Nothing is outside; not everything was measured"_s);
    EXPECT_EQ(wordsFor({Outcome::Within, Outcome::Withheld}),
              u"Nothing is outside; not everything could be judged"_s);
    EXPECT_EQ(wordsFor({Outcome::Withheld, Outcome::NotMeasured}), u"Not judged"_s);
    EXPECT_EQ(wordsFor({Outcome::Within, Outcome::Below, Outcome::NotMeasured}), u"Outside the limits"_s);
    EXPECT_EQ(wordsFor({Outcome::Within}), u"Every limit is kept"_s);
}

TEST(WordsSheetTest, EveryPlaceAndQuantityHasAName)
{
    for (const Place place : kPlaces)
        EXPECT_FALSE(nameOf(place).isEmpty());
    for (int value = 0; value <= static_cast<int>(Quantity::DarkLuminance); ++value)
        EXPECT_FALSE(nameOf(static_cast<Quantity>(value)).isEmpty()) << value;
    for (const Convention convention : kConventions)
        EXPECT_FALSE(nameOf(convention).isEmpty());
}

// 11.0 fL are 37.689 cd/m2 and outside 37.8 (the handbook's trap): two decimals keep them apart on the
// screen.
TEST(WordsSheetTest, AVerdictsFigureIsNotRoundedOntoItsLimit)
{
    EXPECT_EQ(valueText(Quantity::CentreLuminance, 37.6889), u"37.69\u00a0cd/m²"_s);
    EXPECT_EQ(luminanceText(Luminance::fromFootLamberts(11), LuminanceUnit::FootLamberts), u"11.00"_s);
}

TEST(WordsSheetTest, ALimitIsWrittenAsItsDocumentHasIt)
{
    Limit limit;
    limit.quantity = Quantity::SideShare;
    limit.least = 0.75;
    limit.most = 0.9;
    EXPECT_EQ(limitText(limit), u"75 to 90\u00a0%"_s);
    limit.least.reset();
    EXPECT_EQ(limitText(limit), u"at most 90\u00a0%"_s);
    limit.most.reset();
    EXPECT_EQ(limitText(limit), QString());
}

TEST(WordsSheetTest, AUniformityNumberNamesItsDefinitionAndItsPoints)
{
    const QString text = wordsOf({Evenness::NonuniformityPercent, Convention::TenthGrid, 9, 25.04});
    EXPECT_TRUE(text.startsWith(u"25\u00a0%"_s)) << text.toStdString(); // three figures at most, IDMS 8.1
    EXPECT_TRUE(text.contains(u"IDMS 8.1"_s));
    EXPECT_TRUE(text.contains(u"9 points"_s));
}

// Which of the documents were read and which are known from a text about them stands in uniformity.h.
TEST(WordsSheetTest, AUniformityNumberSaysWhereItsDefinitionIsSecondHand)
{
    const auto told = [](Evenness definition) {
        return wordsOf({definition, Convention::TenthGrid, 5, 0.1});
    };
    for (const Evenness definition :
         {Evenness::LeastSideOfCentre, Evenness::LeastOfGreatest, Evenness::SideDifference})
        EXPECT_TRUE(told(definition).contains(u"second hand"_s)) << told(definition).toStdString();
    for (const Evenness definition : {Evenness::NonuniformityPercent, Evenness::LargestColourDistance})
        EXPECT_FALSE(told(definition).contains(u"second hand"_s)) << told(definition).toStdString();
}

TEST(WordsSheetTest, EveryFaultOfATableAndOfALineIsTold)
{
    for (int value = 0; value <= static_cast<int>(TableFault::CannotBeRead); ++value)
        EXPECT_FALSE(faultWords(static_cast<TableFault>(value)).isEmpty()) << value;
    for (int value = 0; value <= static_cast<int>(BadMeterRow::Why::NotAColour); ++value) {
        const QString words = badRowWords({4, 1, static_cast<BadMeterRow::Why>(value), u"x"_s});
        EXPECT_TRUE(words.startsWith(u"Line 4, column 2: "_s)) << words.toStdString();
    }
    EXPECT_EQ(badRowWords({0, -1, BadMeterRow::Why::NoLuminanceColumn, {}}),
              u"Say which column holds the luminance."_s);
}

TEST(WordsSheetTest, EveryFaultOfWhatIsTypedAndEveryDoubtIsTold)
{
    for (int value = 0; value <= static_cast<int>(TypedFault::NotAColour); ++value)
        EXPECT_FALSE(faultWords(static_cast<TypedFault>(value), u"4x"_s).isEmpty()) << value;
    for (int value = 0; value <= static_cast<int>(Doubt::FarOff); ++value) {
        const QString words = doubtWords(static_cast<Doubt>(value), u"14"_s, LuminanceUnit::CdPerM2,
                                         Luminance::fromCdPerM2(48));
        EXPECT_TRUE(words.contains(u"14"_s) && words.endsWith(u'?')) << words.toStdString();
    }
}

} // namespace
} // namespace coldarc::ui
