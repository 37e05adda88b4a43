#include "core/people/gear_marking.h"

#include "tests/support/testing.h"

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;
using Standard = GearMarking::Standard;

// The values of all four standards as trade pages and a workwear catalogue of 2025 quote them; the standards
// themselves were not read.

TEST(GearMarkingTest, ReadsAnEyeMarkOfEn166)
{
    const auto marking = gearMarkingFrom(u"EN 166 1 B T 9"_s);

    ASSERT_TRUE(marking);
    EXPECT_EQ(marking->opticalClass, 1);
    EXPECT_EQ(marking->impactSpeed, 120.0);
    EXPECT_TRUE(marking->holdsHotAndCold);
    EXPECT_TRUE(marking->holdsMolten);
    EXPECT_EQ(gearMarkingFrom(u"EN166 1 F"_s)->impactSpeed, 45.0);
    EXPECT_EQ(gearMarkingFrom(u"en 166 1 a 8 9 k n"_s)->impactSpeed, 190.0);
    EXPECT_EQ(gearMarkingFrom(u"EN 166 2 S"_s)->impactSpeed, std::nullopt);
}

TEST(GearMarkingTest, TheStrongestEyeMarkIsForFaceShieldsOnly)
{
    const GearMarking strongest = *gearMarkingFrom(u"EN 166 1 A"_s);

    EXPECT_TRUE(contradicts(strongest, u"safety-glasses"_s));
    EXPECT_FALSE(contradicts(strongest, u"face-shield"_s));
    EXPECT_FALSE(contradicts(*gearMarkingFrom(u"EN 166 1 B"_s), u"safety-glasses"_s));
}

TEST(GearMarkingTest, AGloveMarkOnAShieldAndAnEyeMarkOnAGauntletContradict)
{
    EXPECT_TRUE(contradicts(*gearMarkingFrom(u"EN 388 4X43F"_s), u"face-shield"_s));
    EXPECT_TRUE(contradicts(*gearMarkingFrom(u"EN 166 1 F"_s), u"gauntlets"_s));
    EXPECT_TRUE(contradicts(*gearMarkingFrom(u"ISEA 105 A4"_s), u"safety-glasses"_s));
    EXPECT_TRUE(contradicts(*gearMarkingFrom(u"ISO 16321-1 C"_s), u"gauntlets"_s));
    EXPECT_FALSE(contradicts(*gearMarkingFrom(u"EN 388 4X43F"_s), u"gauntlets"_s));
    EXPECT_FALSE(contradicts(*gearMarkingFrom(u"ISO 16321-1 C"_s), u"face-shield"_s));
}

TEST(GearMarkingTest, ReadsTheLettersOfIso16321)
{
    EXPECT_EQ(gearMarkingFrom(u"ISO 16321-1 C"_s)->impactSpeed, 45.0);
    EXPECT_EQ(gearMarkingFrom(u"ISO 16321-1 D"_s)->impactSpeed, 80.0);
    EXPECT_EQ(gearMarkingFrom(u"ISO 16321-1 E"_s)->impactSpeed, 120.0);
}

TEST(GearMarkingTest, ReadsTheFifthPlaceOfAGlove)
{
    const std::pair<QString, double> rows[] = {{u"A"_s, 2},  {u"B"_s, 5},  {u"C"_s, 10},
                                               {u"D"_s, 15}, {u"E"_s, 22}, {u"F"_s, 30}};
    for (const auto& [level, force] : rows)
        EXPECT_EQ(gearMarkingFrom(u"EN 388 4X43%1P"_s.arg(level))->cutForce, force) << level.toStdString();
    EXPECT_EQ(gearMarkingFrom(u"EN 388 4 1 3 1"_s)->cutForce, std::nullopt) << "four places: before 2016";
    EXPECT_EQ(gearMarkingFrom(u"EN 388 4X43X"_s)->cutForce, std::nullopt) << "not tested";
}

TEST(GearMarkingTest, ReadsTheNineLevelsOfIsea105)
{
    const double grams[] = {200, 500, 1000, 1500, 2200, 3000, 4000, 5000, 6000};
    for (int level = 1; level <= 9; ++level)
        EXPECT_EQ(gearMarkingFrom(u"ANSI/ISEA 105 A%1"_s.arg(level))->cutGramForce, grams[level - 1]);
}

TEST(GearMarkingTest, SaysNothingOfAMarkThatFollowsNoStandard)
{
    for (const QString& text : {u""_s, u"Z87+"_s, u"EN 166"_s, u"EN 166 4 B"_s, u"EN 388 9X43F"_s,
                                u"EN 388 4X4"_s, u"ISO 16321-1 F"_s, u"ISEA 105 A0"_s, u"EN 1661B"_s})
        EXPECT_EQ(gearMarkingFrom(text).has_value(), text == u"EN 1661B") << text.toStdString();
}

} // namespace
} // namespace coldarc::people
