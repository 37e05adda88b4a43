#include "core/label/found_code.h"

#include "core/base/json.h"

#include <QJsonDocument>

using namespace Qt::StringLiterals;

namespace coldarc::label {

namespace {

constexpr qint64 kMostPixels = 100'000;

QJsonArray cornersOf(const FoundCode& code)
{
    QJsonArray corners;
    for (const Place& corner : code.corners)
        corners.append(QJsonArray{corner.x, corner.y});
    return corners;
}

std::optional<std::array<Place, 4>> cornersIn(const QJsonValue& value)
{
    const QJsonArray list = value.toArray();
    std::array<Place, 4> corners{};
    if (list.size() != 4)
        return std::nullopt;
    for (int i = 0; i < 4; ++i) {
        const QJsonArray pair = list.at(i).toArray();
        if (pair.size() != 2 || !pair.at(0).isDouble() || !pair.at(1).isDouble())
            return std::nullopt;
        corners.at(static_cast<std::size_t>(i)) = {pair.at(0).toDouble(), pair.at(1).toDouble()};
    }
    return corners;
}

} // namespace

QByteArray toLine(const PictureReading& reading)
{
    QJsonArray codes;
    for (const FoundCode& code : reading.codes)
        codes.append(QJsonObject{{u"scanned"_s, code.scanned}, {u"corners"_s, cornersOf(code)}});
    const QJsonObject object{{u"width"_s, reading.width}, {u"height"_s, reading.height}, {u"codes"_s, codes}};
    return QJsonDocument(object).toJson(QJsonDocument::Compact) + QByteArray("\n");
}

Result<PictureReading> readingFromLine(const QByteArray& line)
{
    const auto object = parseObject(line);
    if (!object)
        return tl::unexpected(object.error());
    QStringList complaints;
    JsonReader reader(*object, {}, complaints);
    PictureReading reading;
    reading.width = static_cast<int>(reader.whole(u"width"_s, 0, kMostPixels));
    reading.height = static_cast<int>(reader.whole(u"height"_s, 0, kMostPixels));
    for (const JsonReader::Child& child : reader.children(u"codes"_s)) {
        JsonReader each(child.object, child.place, complaints);
        FoundCode code{each.text(u"scanned"_s), {}};
        const auto corners = cornersIn(each.value(u"corners"_s));
        if (!corners)
            each.complain(u"corners"_s, u"must be four pairs of numbers"_s);
        code.corners = corners.value_or(std::array<Place, 4>{});
        reading.codes.append(code);
        each.finish();
    }
    const bool hasNoPlace = reading.width == 0 || reading.height == 0;
    if (hasNoPlace && !(reading == PictureReading()))
        reader.complain(u"width"_s, u"is 0, or the height is, and yet there is a picture"_s);
    reader.finish();
    if (!complaints.isEmpty())
        return fail(Error::Kind::Malformed, complaints.join(u"; "_s));
    return reading;
}

} // namespace coldarc::label
