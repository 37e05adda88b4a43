#include "core/photometry/typed.h"

#include "tests/core/photometry/good_sheet.h"
#include "tests/support/testing.h"

namespace coldarc::photometry {
namespace {

using namespace Qt::StringLiterals;
using test::reading;
using test::sheetOf;

std::optional<TypedFault> faultOf(const QString& text)
{
    const auto luminance = luminanceFrom(text, LuminanceUnit::CdPerM2);
    return luminance ? std::nullopt : std::optional(luminance.error());
}

TEST(TypedTest, TakesAPointOrACommaForTheDecimals)
{
    EXPECT_EQ(luminanceFrom(u"48.25"_s, LuminanceUnit::CdPerM2)->cdPerM2(), 48.25);
    EXPECT_EQ(luminanceFrom(u" 48,25 "_s, LuminanceUnit::CdPerM2)->cdPerM2(), 48.25);
    EXPECT_EQ(luminanceFrom(u"48"_s, LuminanceUnit::CdPerM2)->cdPerM2(), 48);
    EXPECT_EQ(luminanceFrom(u".5"_s, LuminanceUnit::CdPerM2)->cdPerM2(), 0.5);
    EXPECT_NEAR(luminanceFrom(u"14,0"_s, LuminanceUnit::FootLamberts)->cdPerM2(), 47.96763, 1e-5);
}

TEST(TypedTest, SaysWhatIsWrongWithANumber)
{
    EXPECT_EQ(faultOf(u""_s), TypedFault::Empty);
    EXPECT_EQ(faultOf(u"  "_s), TypedFault::Empty);
    EXPECT_EQ(faultOf(u"-3"_s), TypedFault::Negative);
    EXPECT_EQ(faultOf(u"20001"_s), TypedFault::TooLarge);
    for (const QString& text : {u"bright"_s, u"48.1.2"_s, u"1,234.5"_s, u"1.234,5"_s, u"48 cd"_s, u"4 8"_s,
                                u"."_s, u"-"_s, u"nan"_s, u"inf"_s, u"1e3"_s, u"0x10"_s, u"٤٨"_s})
        EXPECT_EQ(faultOf(text), TypedFault::NotANumber) << text.toStdString();
}

TEST(TypedTest, TakesOneSignOnlyWhereTheSignIsSettled)
{
    EXPECT_EQ(numberFrom(u"48,1"_s, DecimalSign::Comma), 48.1);
    EXPECT_EQ(numberFrom(u"48.1"_s, DecimalSign::Comma).error(), TypedFault::NotANumber);
    EXPECT_EQ(numberFrom(u"48.1"_s, DecimalSign::Point), 48.1);
    EXPECT_EQ(numberFrom(u"48,1"_s, DecimalSign::Point).error(), TypedFault::NotANumber);
}

TEST(TypedTest, TakesAColour)
{
    EXPECT_EQ(chromaticityFromXy(u"0,314"_s, u"0.351"_s)->y(), 0.351);
    EXPECT_EQ(chromaticityFromXy(u"0.314"_s, u"351"_s).error(), TypedFault::NotAColour);
    EXPECT_EQ(chromaticityFromXy(u"x"_s, u""_s).error(), TypedFault::NotANumber);
    EXPECT_EQ(chromaticityFromXy(u"0.3"_s, u""_s).error(), TypedFault::Empty);
}

std::optional<Doubt> doubt(double value, LuminanceUnit unit, double expectedCdPerM2)
{
    return doubtAbout({*Luminance::from(value, unit), unit, std::nullopt},
                      Luminance::fromCdPerM2(expectedCdPerM2));
}

// 48 / 3.426 = 14.01; half way on a scale of factors are 48 / 1.851 = 25.93 and 14.01 / 1.851 = 7.57
// (DERIVED).
TEST(TypedTest, AsksAboutFootLambertsTypedAsCandelas)
{
    EXPECT_EQ(doubt(14, LuminanceUnit::CdPerM2, 48), Doubt::FootLambertsTaken);
    EXPECT_EQ(doubt(25.9, LuminanceUnit::CdPerM2, 48), Doubt::FootLambertsTaken);
    EXPECT_EQ(doubt(26.0, LuminanceUnit::CdPerM2, 48), std::nullopt);
    EXPECT_EQ(doubt(7.6, LuminanceUnit::CdPerM2, 48), Doubt::FootLambertsTaken);
    EXPECT_EQ(doubt(7.5, LuminanceUnit::CdPerM2, 48), Doubt::FarOff);
}

TEST(TypedTest, AsksAboutCandelasTypedAsFootLamberts)
{
    EXPECT_EQ(doubt(48, LuminanceUnit::FootLamberts, 48), Doubt::CdPerM2Taken);
    EXPECT_EQ(doubt(14, LuminanceUnit::FootLamberts, 48), std::nullopt);
}

TEST(TypedTest, AsksAboutAnAbsurdJump)
{
    EXPECT_EQ(doubt(480, LuminanceUnit::CdPerM2, 48), Doubt::FarOff); // a lost decimal sign
    EXPECT_EQ(doubt(4.8, LuminanceUnit::CdPerM2, 48), Doubt::FarOff);
    EXPECT_EQ(doubt(0, LuminanceUnit::CdPerM2, 48), Doubt::FarOff);
    EXPECT_EQ(doubt(164, LuminanceUnit::CdPerM2, 48), Doubt::FarOff);
    EXPECT_EQ(doubt(4.1, LuminanceUnit::FootLamberts, 48), Doubt::FarOff); // 14.0 cd/m2, and not by the unit
}

TEST(TypedTest, AsksNothingAboutAReadingThatFits)
{
    for (const double value : {37.0, 48.0, 60.0, 88.0})
        EXPECT_EQ(doubt(value, LuminanceUnit::CdPerM2, 48), std::nullopt) << value;
    EXPECT_EQ(doubtAbout(reading(14), std::nullopt), std::nullopt);
    EXPECT_EQ(doubtAbout(reading(14), Luminance::fromCdPerM2(0)), std::nullopt);
}

TEST(TypedTest, ExpectsTheNominalAtTheCentreAndTheCentreElsewhere)
{
    ToleranceSet set;
    ScreenSheet sheet(Convention::FiveOfWidth);
    EXPECT_EQ(expectedAt(sheet, set, Place::Centre), std::nullopt);

    set.limits = {{Quantity::CentreLuminance, 40, 60, {}, Absence::None, Standing::Read, {}}};
    EXPECT_EQ(expectedAt(sheet, set, Place::Centre), Luminance::fromCdPerM2(50));
    set.limits[0].nominal = 48;
    EXPECT_EQ(expectedAt(sheet, set, Place::Centre), Luminance::fromCdPerM2(48));
    EXPECT_EQ(expectedAt(sheet, set, Place::Left), Luminance::fromCdPerM2(48));

    sheet = sheetOf(Convention::FiveOfWidth, {{Place::Centre, reading(33)}});
    EXPECT_EQ(expectedAt(sheet, set, Place::Left), Luminance::fromCdPerM2(33));
    EXPECT_EQ(expectedAt(sheet, set, Place::Centre), Luminance::fromCdPerM2(48));
}

} // namespace
} // namespace coldarc::photometry
