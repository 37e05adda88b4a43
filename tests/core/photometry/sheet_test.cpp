#include "core/photometry/sheet.h"

#include "tests/core/photometry/good_sheet.h"
#include "tests/support/testing.h"

namespace coldarc::photometry {
namespace {

using test::reading;
using test::sheetOf;

TEST(SheetTest, RefusesAPointOfAnotherConvention)
{
    ScreenSheet sheet = sheetOf(Convention::FiveOfWidth, {{Place::Left, reading(40)}});
    const ScreenSheet before = sheet;

    EXPECT_EQ(sheet.put(*Point::at(Convention::TenthGrid, Place::Left), reading(44)),
              ScreenSheet::Put::OtherConvention);

    EXPECT_EQ(sheet, before);
}

TEST(SheetTest, ReplacesAReadingAndForgetsOne)
{
    ScreenSheet sheet = sheetOf(Convention::TenthGrid, {{Place::Left, reading(40)}});

    EXPECT_EQ(sheet.put(*Point::at(Convention::TenthGrid, Place::Left), reading(41)),
              ScreenSheet::Put::Taken);
    EXPECT_EQ(sheet.at(Place::Left), reading(41));

    sheet.clear(Place::Left);
    EXPECT_FALSE(sheet.at(Place::Left));
}

TEST(SheetTest, TakesSharesOfTheCentre)
{
    const ScreenSheet sheet =
        sheetOf(Convention::FiveOfWidth, {{Place::Centre, reading(48)}, {Place::Left, reading(36)}});
    EXPECT_DOUBLE_EQ(*sheet.shareOfCentre(Place::Left), 0.75);
    EXPECT_DOUBLE_EQ(*sheet.shareOfCentre(Place::Centre), 1);
    EXPECT_FALSE(sheet.shareOfCentre(Place::Right));
}

TEST(SheetTest, TakesNoShareOfAMissingOrDarkCentre)
{
    EXPECT_FALSE(sheetOf(Convention::FiveOfWidth, {{Place::Left, reading(36)}}).shareOfCentre(Place::Left));
    EXPECT_FALSE(sheetOf(Convention::FiveOfWidth, {{Place::Centre, reading(0)}, {Place::Left, reading(36)}})
                     .shareOfCentre(Place::Left));
}

TEST(ShownByTest, GivesTheFigureBackThatWasTypedInEitherUnit)
{
    for (const LuminanceUnit unit : {LuminanceUnit::CdPerM2, LuminanceUnit::FootLamberts}) {
        for (int tenths = 1; tenths < 2000; ++tenths) {
            const double typed = tenths / 10.0;
            EXPECT_EQ(shownBy({*Luminance::from(typed, unit), unit, std::nullopt}), typed);
        }
    }
}

} // namespace
} // namespace coldarc::photometry
