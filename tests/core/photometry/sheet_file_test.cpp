#include "core/photometry/sheet_file.h"

#include "tests/core/photometry/good_sheet.h"
#include "tests/support/testing.h"

#include <QJsonArray>
#include <QJsonDocument>

#include <functional>

namespace coldarc::photometry {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::goodConditions;
using test::reading;
using test::sheetOf;

ScreenSheet fullSheet()
{
    Conditions conditions = goodConditions();
    conditions.meter.dueOn = Day(2027y, std::chrono::February, 28d);
    conditions.lampAmperes = 85.5;
    ScreenSheet sheet =
        sheetOf(Convention::TenthGrid,
                {{Place::Left, reading(40.1)}, {Place::Centre, reading(48.3, 0.3141, 0.3512)}}, conditions);
    const Reading inFootLamberts{Luminance::fromFootLamberts(11), LuminanceUnit::FootLamberts, std::nullopt};
    static_cast<void>(sheet.put(*Point::at(Convention::TenthGrid, Place::Right), inFootLamberts));
    return sheet;
}

/// Through the bytes that an entry keeps.
QJsonObject kept(const ScreenSheet& sheet)
{
    return QJsonDocument::fromJson(QJsonDocument(toJson(sheet)).toJson()).object();
}

TEST(SheetFileTest, GivesTheSameSheetAfterBeingKept)
{
    const auto again = readScreenSheet(kept(fullSheet()));
    ASSERT_TRUE(again.sheet) << again.complaints.join(u'\n').toStdString();
    EXPECT_EQ(*again.sheet, fullSheet());
}

TEST(SheetFileTest, KeepsWhatNobodyWroteDownUnknown)
{
    const ScreenSheet empty(Convention::TwoSides);
    const auto again = readScreenSheet(kept(empty));
    ASSERT_TRUE(again.sheet) << again.complaints.join(u'\n').toStdString();
    EXPECT_EQ(*again.sheet, empty);
}

struct BadSheet {
    const char* name;
    std::function<void(QJsonObject& sheet, QJsonObject& first, QJsonObject& conditions, QJsonObject& meter)>
        spoil;
    QString complaint;

    friend void PrintTo(const BadSheet& bad, std::ostream* out) { *out << bad.name; }
};

class BadSheetTest : public ::testing::TestWithParam<BadSheet> {};

TEST_P(BadSheetTest, NamesThePlaceAndTheReason)
{
    QJsonObject sheet = kept(fullSheet());
    QJsonArray readings = sheet[u"readings"_s].toArray();
    QJsonObject first = readings[0].toObject();
    QJsonObject conditions = sheet[u"conditions"_s].toObject();
    QJsonObject meter = conditions[u"meter"_s].toObject();
    GetParam().spoil(sheet, first, conditions, meter);
    readings[0] = first;
    conditions[u"meter"_s] = meter;
    sheet[u"readings"_s] = readings;
    sheet[u"conditions"_s] = conditions;

    const auto read = readScreenSheet(sheet, u"sheet"_s);

    EXPECT_FALSE(read.sheet);
    EXPECT_EQ(read.complaints, QStringList{GetParam().complaint});
}

using O = QJsonObject;
INSTANTIATE_TEST_SUITE_P(
    OneKeyWrong, BadSheetTest,
    ::testing::Values(BadSheet{"NoSuchConvention", [](O& s, O&, O&, O&) { s[u"convention"_s] = u"thirds"_s; },
                               u"sheet.convention: is no word for this"_s},
                      BadSheet{"UnknownKey", [](O& s, O&, O&, O&) { s[u"unit"_s] = u"fL"_s; },
                               u"sheet.unit: unknown key"_s},
                      BadSheet{"NoSuchPlace", [](O&, O& r, O&, O&) { r[u"place"_s] = u"middle"_s; },
                               u"sheet.readings[0].place: is no word for this"_s},
                      BadSheet{"NegativeLight", [](O&, O& r, O&, O&) { r[u"cd_m2"_s] = -1; },
                               u"sheet.readings[0].cd_m2: must be a number from 0 to 20000"_s},
                      BadSheet{"LightAsText", [](O&, O& r, O&, O&) { r[u"cd_m2"_s] = u"48"_s; },
                               u"sheet.readings[0].cd_m2: must be a number from 0 to 20000"_s},
                      BadSheet{"NoSuchUnit", [](O&, O& r, O&, O&) { r[u"shown_in"_s] = u"lx"_s; },
                               u"sheet.readings[0].shown_in: is no word for this"_s},
                      BadSheet{"HalfAColour", [](O&, O& r, O&, O&) { r[u"x"_s] = 0.3; },
                               u"sheet.readings[0].x: must make a colour with y"_s},
                      BadSheet{"PlaceTwice", [](O&, O& r, O&, O&) { r[u"place"_s] = u"right"_s; },
                               u"sheet.readings[2].place: stands here twice"_s},
                      BadSheet{"BurntFromTheFuture", [](O&, O&, O& c, O&) { c[u"lit_s"_s] = -1; },
                               u"sheet.conditions.lit_s: must be a whole number from 0 to 34560000"_s},
                      BadSheet{"NoSuchDay", [](O&, O&, O& c, O&) { c[u"day"_s] = u"2026-02-30"_s; },
                               u"sheet.conditions.day: must be a day like 2026-11-25"_s},
                      BadSheet{"NoSuchPosition", [](O&, O&, O& c, O&) { c[u"position"_s] = u"booth"_s; },
                               u"sheet.conditions.position: is no word for this"_s},
                      BadSheet{"NoSuchPicture", [](O&, O&, O& c, O&) { c[u"picture"_s] = u"slides"_s; },
                               u"sheet.conditions.picture: is no word for this"_s},
                      BadSheet{"HalfAScreen", [](O&, O&, O& c, O&) { c.remove(u"screen_height_m"_s); },
                               u"sheet.conditions.screen_width_m: must make a screen with screen_height_m"_s},
                      BadSheet{"BrightDark", [](O&, O&, O& c, O&) { c[u"dark_cd_m2"_s] = 1e6; },
                               u"sheet.conditions.dark_cd_m2: must be a number from 0 to 20000"_s},
                      BadSheet{"NegativePower", [](O&, O&, O& c, O&) { c[u"lamp_w"_s] = -5; },
                               u"sheet.conditions.lamp_w: must be a number from 0 to 30000"_s},
                      BadSheet{"NegativeCurrent", [](O&, O&, O& c, O&) { c[u"lamp_a"_s] = -5; },
                               u"sheet.conditions.lamp_a: must be a number from 0 to 1000"_s},
                      BadSheet{"NegativeDistance", [](O&, O&, O& c, O&) { c[u"distance_m"_s] = -5; },
                               u"sheet.conditions.distance_m: must be a number from 0 to 200"_s},
                      BadSheet{"CalibratedOnADate",
                               [](O&, O&, O&, O& m) { m[u"calibrated_on"_s] = u"2.3.2026"_s; },
                               u"sheet.conditions.meter.calibrated_on: must be a day like 2026-11-25"_s},
                      BadSheet{"WideAsTheHouse", [](O&, O&, O&, O& m) { m[u"acceptance_deg"_s] = 91; },
                               u"sheet.conditions.meter.acceptance_deg: must be a number from 0 to 90"_s}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(SheetFileTest, RefusesAPointThatTheConventionLacks)
{
    QJsonObject sheet = kept(fullSheet());
    sheet[u"convention"_s] = u"two-sides"_s;
    QJsonArray readings = sheet[u"readings"_s].toArray();
    QJsonObject first = readings[0].toObject();
    first[u"place"_s] = u"top"_s;
    readings[0] = first;
    sheet[u"readings"_s] = readings;

    EXPECT_EQ(readScreenSheet(sheet).complaints,
              QStringList{u"readings[0].place: is none of this convention"_s});
}

} // namespace
} // namespace coldarc::photometry
