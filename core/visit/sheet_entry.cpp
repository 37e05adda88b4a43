#include "core/visit/sheet_entry.h"

#include "core/base/words.h"
#include "core/photometry/light_output.h"
#include "core/photometry/sheet_file.h"
#include "core/photometry/tolerance_file.h"

using namespace Qt::StringLiterals;

namespace coldarc::visit {
namespace {

constexpr Words<SheetTime, 2> kTimes{{{SheetTime::Arrival, u"arrival"}, {SheetTime::After, u"after"}}};
constexpr double kMostValue = 1e9; // what was once taken must be read for ever; the judge takes less
constexpr qint64 kMostEntries = 1'000'000'000;

template<class Value>
Value word(JsonReader& reader, const QString& key, std::optional<Value> (*from)(const QString&),
           Value otherwise)
{
    const auto value = from(reader.text(key));
    if (!value)
        reader.complain(key, u"is not a word that this program knows"_s);
    return value.value_or(otherwise);
}

void putIf(QJsonObject& object, const QString& key, const std::optional<double>& value)
{
    if (value)
        object.insert(key, *value);
}

std::optional<double> numberIf(JsonReader& reader, const QString& key)
{
    return reader.has(key) ? std::optional(reader.number(key, 0, kMostValue)) : std::nullopt;
}

QJsonObject toJson(const PointRead& point)
{
    QJsonObject object{{u"place"_s, photometry::wordOf(point.place)}, {u"value"_s, point.value}};
    if (point.colour) {
        object.insert(u"x"_s, point.colour->x());
        object.insert(u"y"_s, point.colour->y());
    }
    if (point.replaces >= 0)
        object.insert(u"replaces"_s, point.replaces);
    return object;
}

PointRead pointFrom(const JsonReader::Child& child, QStringList& complaints)
{
    JsonReader reader(child.object, child.place, complaints);
    PointRead point;
    point.place = word(reader, u"place"_s, photometry::placeFromWord, point.place);
    point.value = reader.number(u"value"_s, 0, kMostValue);
    const auto x = numberIf(reader, u"x"_s);
    const auto y = numberIf(reader, u"y"_s);
    point.colour = x && y ? photometry::Chromaticity::fromXy(*x, *y) : std::nullopt;
    if ((x || y) && !point.colour)
        reader.complain(u"x"_s, u"must make a colour with y"_s);
    point.replaces = reader.wholeOr(u"replaces"_s, 0, kMostEntries, -1);
    reader.finish();
    return point;
}

} // namespace

QString wordOf(SheetTime time)
{
    return wordIn(kTimes, time);
}

std::optional<SheetTime> sheetTimeFromWord(const QString& text)
{
    return valueIn(kTimes, text);
}

QJsonObject toJson(const ScreenRead& read)
{
    QJsonArray points;
    for (const PointRead& point : read.points)
        points.append(toJson(point));
    return {{u"swap"_s, read.swap.text()},
            {u"step"_s, read.step.text()},
            {u"time"_s, wordOf(read.time)},
            {u"convention"_s, photometry::wordOf(read.convention)},
            {u"unit"_s, photometry::wordOf(read.unit)},
            {u"points"_s, points}};
}

QJsonObject toJson(const ScreenConditions& conditions)
{
    QJsonObject object{{u"swap"_s, conditions.swap.text()},
                       {u"step"_s, conditions.step.text()},
                       {u"time"_s, wordOf(conditions.time)},
                       {u"conditions"_s, photometry::toJson(conditions.conditions)}};
    putIf(object, u"lumens"_s, conditions.lumens);
    putIf(object, u"gain"_s, conditions.gain);
    putIf(object, u"transmission"_s, conditions.transmission);
    return object;
}

QJsonObject toJson(const ScreenLimits& limits)
{
    return {{u"swap"_s, limits.swap.text()},
            {u"step"_s, limits.step.text()},
            {u"set"_s, photometry::toJson(limits.set)}};
}

ScreenRead screenReadFrom(JsonReader& reader, QStringList& complaints)
{
    ScreenRead read;
    read.swap = SwapId(reader.text(u"swap"_s));
    read.step = StepId(reader.text(u"step"_s));
    read.time = word(reader, u"time"_s, sheetTimeFromWord, read.time);
    read.convention = word(reader, u"convention"_s, photometry::conventionFromWord, read.convention);
    read.unit = word(reader, u"unit"_s, photometry::luminanceUnitFromWord, read.unit);
    for (const JsonReader::Child& child : reader.children(u"points"_s))
        read.points.append(pointFrom(child, complaints));
    return read;
}

ScreenConditions screenConditionsFrom(JsonReader& reader, QStringList& complaints)
{
    ScreenConditions conditions;
    conditions.swap = SwapId(reader.text(u"swap"_s));
    conditions.step = StepId(reader.text(u"step"_s));
    conditions.time = word(reader, u"time"_s, sheetTimeFromWord, conditions.time);
    conditions.conditions = photometry::conditionsFrom(reader.child(u"conditions"_s), complaints);
    conditions.lumens = numberIf(reader, u"lumens"_s);
    conditions.gain = numberIf(reader, u"gain"_s);
    conditions.transmission = numberIf(reader, u"transmission"_s);
    return conditions;
}

ScreenLimits screenLimitsFrom(JsonReader& reader, QStringList& complaints)
{
    ScreenLimits limits;
    limits.swap = SwapId(reader.text(u"swap"_s));
    limits.step = StepId(reader.text(u"step"_s));
    const JsonReader::Child child = reader.child(u"set"_s);
    const photometry::ToleranceSetReading reading = photometry::readKeptToleranceSet(child.object);
    for (const QString& complaint : reading.complaints)
        complaints.append(child.place + u'.' + complaint);
    if (reading.set)
        limits.set = *reading.set;
    return limits;
}

} // namespace coldarc::visit
