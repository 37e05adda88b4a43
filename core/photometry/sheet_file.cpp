#include "core/photometry/sheet_file.h"

#include <QDate>
#include <QJsonArray>

using namespace Qt::StringLiterals;

namespace coldarc::photometry {
namespace {

const QString kIsoDay = u"yyyy-MM-dd"_s;

// ---- Writing
// ------------------------------------------------------------------------------------------------------

QString isoText(Day day)
{
    const QDate date(static_cast<int>(day.year()), static_cast<int>(static_cast<unsigned>(day.month())),
                     static_cast<int>(static_cast<unsigned>(day.day())));
    return date.toString(kIsoDay);
}

template<class Value, class Written>
void putIf(QJsonObject& object, const QString& key, const std::optional<Value>& value, Written written)
{
    if (value)
        object.insert(key, written(*value));
}

void putIf(QJsonObject& object, const QString& key, const std::optional<double>& value)
{
    if (value)
        object.insert(key, *value);
}

QJsonObject toJson(Place place, const Reading& reading)
{
    QJsonObject object{{u"place"_s, wordOf(place)},
                       {u"cd_m2"_s, reading.luminance.cdPerM2()},
                       {u"shown_in"_s, wordOf(reading.shownIn)}};
    if (reading.colour) {
        object.insert(u"x"_s, reading.colour->x());
        object.insert(u"y"_s, reading.colour->y());
    }
    return object;
}

QJsonObject toJson(const Meter& meter)
{
    QJsonObject object{{u"name"_s, meter.name}};
    putIf(object, u"acceptance_deg"_s, meter.acceptanceDegrees);
    putIf(object, u"calibrated_on"_s, meter.calibratedOn, isoText);
    putIf(object, u"due_on"_s, meter.dueOn, isoText);
    return object;
}

// ---- Reading
// ------------------------------------------------------------------------------------------------------

std::optional<double> numberIf(JsonReader& reader, const QString& key, double most)
{
    return reader.has(key) ? std::optional(reader.number(key, 0, most)) : std::nullopt;
}

std::optional<Day> dayIf(JsonReader& reader, const QString& key)
{
    if (!reader.has(key))
        return std::nullopt;
    const QDate date = QDate::fromString(reader.text(key), kIsoDay);
    if (!date.isValid()) {
        reader.complain(key, u"must be a day like 2026-11-25"_s);
        return std::nullopt;
    }
    return Day(std::chrono::year(date.year()), std::chrono::month(static_cast<unsigned>(date.month())),
               std::chrono::day(static_cast<unsigned>(date.day())));
}

template<class Value>
std::optional<Value> wordFrom(JsonReader& reader, const QString& key,
                              std::optional<Value> (*valueOf)(const QString&))
{
    const auto value = valueOf(reader.text(key));
    if (!value)
        reader.complain(key, u"is no word for this"_s);
    return value;
}

Meter meterFrom(const JsonReader::Child& child, QStringList& complaints)
{
    JsonReader reader(child.object, child.place, complaints);
    Meter meter;
    meter.name = reader.textOr(u"name"_s, {});
    meter.acceptanceDegrees = numberIf(reader, u"acceptance_deg"_s, kMostAcceptanceDegrees);
    meter.calibratedOn = dayIf(reader, u"calibrated_on"_s);
    meter.dueOn = dayIf(reader, u"due_on"_s);
    reader.finish();
    return meter;
}

std::optional<ScreenSize> screenFrom(JsonReader& reader)
{
    const auto width = numberIf(reader, u"screen_width_m"_s, ScreenSize::kMostMetres);
    const auto height = numberIf(reader, u"screen_height_m"_s, ScreenSize::kMostMetres);
    const auto screen = width && height ? ScreenSize::fromMetres(*width, *height) : std::nullopt;
    if ((width || height) && !screen)
        reader.complain(u"screen_width_m"_s, u"must make a screen with screen_height_m"_s);
    return screen;
}

std::optional<Chromaticity> colourFrom(JsonReader& reader)
{
    const auto x = numberIf(reader, u"x"_s, 1);
    const auto y = numberIf(reader, u"y"_s, 1);
    const auto colour = x && y ? Chromaticity::fromXy(*x, *y) : std::nullopt;
    if ((x || y) && !colour)
        reader.complain(u"x"_s, u"must make a colour with y"_s);
    return colour;
}

void putReading(const JsonReader::Child& child, QStringList& complaints, ScreenSheet& sheet)
{
    JsonReader reader(child.object, child.place, complaints);
    const auto place = wordFrom(reader, u"place"_s, &placeFromWord);
    const double cdPerM2 = reader.number(u"cd_m2"_s, 0, Luminance::kMostCdPerM2);
    const auto shownIn = wordFrom(reader, u"shown_in"_s, &luminanceUnitFromWord);
    const auto colour = colourFrom(reader);
    reader.finish();
    if (!place || !shownIn)
        return;
    const auto point = Point::at(sheet.convention(), *place);
    if (!point)
        reader.complain(u"place"_s, u"is none of this convention"_s);
    else if (sheet.at(*place))
        reader.complain(u"place"_s, u"stands here twice"_s);
    else
        static_cast<void>(sheet.put(*point, {Luminance::fromCdPerM2(cdPerM2), *shownIn, colour}));
}

} // namespace

QJsonObject toJson(const Conditions& conditions)
{
    QJsonObject object{{u"meter"_s, toJson(conditions.meter)},
                       {u"picture"_s, wordOf(conditions.picture)},
                       {u"format"_s, conditions.format}};
    putIf(object, u"lit_s"_s, conditions.lit,
          [](std::chrono::seconds lit) { return static_cast<qint64>(lit.count()); });
    putIf(object, u"day"_s, conditions.day, isoText);
    putIf(object, u"position"_s, conditions.position,
          [](MeterPosition position) { return wordOf(position); });
    putIf(object, u"distance_m"_s, conditions.distanceM);
    if (conditions.screen) {
        object.insert(u"screen_width_m"_s, conditions.screen->widthM());
        object.insert(u"screen_height_m"_s, conditions.screen->heightM());
    }
    putIf(object, u"dark_cd_m2"_s, conditions.darkReading, [](Luminance dark) { return dark.cdPerM2(); });
    putIf(object, u"lamp_w"_s, conditions.lampWatts);
    putIf(object, u"lamp_a"_s, conditions.lampAmperes);
    return object;
}

Conditions conditionsFrom(const JsonReader::Child& child, QStringList& complaints)
{
    JsonReader reader(child.object, child.place, complaints);
    Conditions conditions;
    if (reader.has(u"lit_s"_s))
        conditions.lit = std::chrono::seconds(reader.whole(u"lit_s"_s, 0, kMostLit.count()));
    conditions.day = dayIf(reader, u"day"_s);
    conditions.meter = meterFrom(reader.child(u"meter"_s), complaints);
    if (reader.has(u"position"_s))
        conditions.position = wordFrom(reader, u"position"_s, &meterPositionFromWord);
    conditions.distanceM = numberIf(reader, u"distance_m"_s, kMostDistanceM);
    conditions.screen = screenFrom(reader);
    conditions.picture = wordFrom(reader, u"picture"_s, &pictureFromWord).value_or(conditions.picture);
    conditions.format = reader.textOr(u"format"_s, {});
    if (const auto dark = numberIf(reader, u"dark_cd_m2"_s, Luminance::kMostCdPerM2))
        conditions.darkReading = Luminance::fromCdPerM2(*dark);
    conditions.lampWatts = numberIf(reader, u"lamp_w"_s, kMostLampWatts);
    conditions.lampAmperes = numberIf(reader, u"lamp_a"_s, kMostLampAmperes);
    reader.finish();
    return conditions;
}

QJsonObject toJson(const ScreenSheet& sheet)
{
    QJsonArray readings;
    for (const Place place : kPlaces) {
        if (const auto& reading = sheet.at(place))
            readings.append(toJson(place, *reading));
    }
    return {{u"convention"_s, wordOf(sheet.convention())},
            {u"readings"_s, readings},
            {u"conditions"_s, toJson(sheet.conditions())}};
}

ScreenSheetReading readScreenSheet(const QJsonObject& document, const QString& place)
{
    ScreenSheetReading reading;
    JsonReader reader(document, place, reading.complaints);
    const auto convention = wordFrom(reader, u"convention"_s, &conventionFromWord);
    ScreenSheet sheet(convention.value_or(Convention::FiveOfWidth));
    for (const JsonReader::Child& child : reader.children(u"readings"_s))
        putReading(child, reading.complaints, sheet);
    sheet.setConditions(conditionsFrom(reader.child(u"conditions"_s), reading.complaints));
    reader.finish();
    if (reading.complaints.isEmpty())
        reading.sheet = sheet;
    return reading;
}

} // namespace coldarc::photometry
