#include "core/base/json.h"

#include <QDateTime>
#include <QJsonDocument>
#include <QTimeZone>

#include <cmath>

using namespace Qt::StringLiterals;

namespace coldarc {
namespace {

constexpr double kLargestWhole = 9007199254740992.0; // 2^53: whole numbers up to here are exact in a double

QString rangeText(double least, double most)
{
    return u"must be a number from %1 to %2"_s.arg(QString::number(least), QString::number(most));
}

} // namespace

JsonReader::JsonReader(const QJsonObject& object, QString place, QStringList& complaints)
    : m_object(object)
    , m_place(std::move(place))
    , m_complaints(&complaints)
{
}

QString JsonReader::placeOf(const QString& key) const
{
    return m_place.isEmpty() ? key : m_place + u'.' + key;
}

void JsonReader::complain(const QString& key, const QString& why)
{
    m_complaints->append(placeOf(key) + u": "_s + why);
}

void JsonReader::finish()
{
    if (m_asked.size() == m_object.size())
        return;
    for (const QString& key : m_object.keys()) {
        if (!m_asked.contains(key))
            complain(key, u"unknown key"_s);
    }
}

std::optional<QJsonValue> JsonReader::take(const QString& key, bool needed)
{
    const auto found = m_object.constFind(key);
    if (found != m_object.constEnd()) {
        m_asked.insert(key);
        return QJsonValue(*found);
    }
    if (needed)
        complain(key, u"is missing"_s);
    return std::nullopt;
}

QString JsonReader::text(const QString& key)
{
    const auto value = take(key, true);
    if (!value)
        return {};
    const QString text = value->toString();
    if (text.isEmpty())
        complain(key, u"must be a text that is not empty"_s);
    return text;
}

QString JsonReader::textOr(const QString& key, const QString& otherwise)
{
    const auto value = take(key, false);
    if (!value)
        return otherwise;
    if (!value->isString())
        complain(key, u"must be a text"_s);
    return value->toString();
}

double JsonReader::number(const QString& key, double least, double most)
{
    const auto value = take(key, true);
    if (!value)
        return least;
    const double number = value->toDouble(std::nan(""));
    if (!std::isfinite(number) || number < least || number > most) {
        complain(key, rangeText(least, most));
        return least;
    }
    return number;
}

double JsonReader::numberOr(const QString& key, double least, double most, double otherwise)
{
    return has(key) ? number(key, least, most) : otherwise;
}

qint64 JsonReader::whole(const QString& key, qint64 least, qint64 most)
{
    const auto value = take(key, true);
    if (!value)
        return least;
    const double number = value->toDouble(std::nan(""));
    const bool fits = std::isfinite(number) && number == std::floor(number) &&
                      std::abs(number) <= kLargestWhole && number >= static_cast<double>(least) &&
                      number <= static_cast<double>(most);
    if (!fits) {
        complain(key, u"must be a whole number from %1 to %2"_s.arg(least).arg(most));
        return least;
    }
    return static_cast<qint64>(number);
}

qint64 JsonReader::wholeOr(const QString& key, qint64 least, qint64 most, qint64 otherwise)
{
    return has(key) ? whole(key, least, most) : otherwise;
}

bool JsonReader::flag(const QString& key)
{
    const auto value = take(key, true);
    if (value && !value->isBool())
        complain(key, u"must be true or false"_s);
    return value && value->toBool();
}

bool JsonReader::flagOr(const QString& key, bool otherwise)
{
    return has(key) ? flag(key) : otherwise;
}

QStringList JsonReader::texts(const QString& key)
{
    const auto value = take(key, true);
    if (!value)
        return {};
    if (!value->isArray()) {
        complain(key, u"must be a list of texts"_s);
        return {};
    }
    QStringList list;
    for (const QJsonValue& item : value->toArray()) {
        if (!item.isString() || item.toString().isEmpty())
            complain(u"%1[%2]"_s.arg(key).arg(list.size()), u"must be a text that is not empty"_s);
        list.append(item.toString());
    }
    return list;
}

QStringList JsonReader::textsOr(const QString& key, const QStringList& otherwise)
{
    return has(key) ? texts(key) : otherwise;
}

JsonReader::Child JsonReader::child(const QString& key)
{
    const auto value = take(key, true);
    if (value && !value->isObject())
        complain(key, u"must be an object"_s);
    return {value ? value->toObject() : QJsonObject(), placeOf(key)};
}

std::optional<JsonReader::Child> JsonReader::childOr(const QString& key)
{
    if (!has(key))
        return std::nullopt;
    return child(key);
}

QList<JsonReader::Child> JsonReader::children(const QString& key)
{
    const auto value = take(key, true);
    if (!value)
        return {};
    if (!value->isArray()) {
        complain(key, u"must be a list of objects"_s);
        return {};
    }
    QList<Child> list;
    const QJsonArray array = value->toArray();
    for (qsizetype index = 0; index < array.size(); ++index) {
        const QString here = u"%1[%2]"_s.arg(key).arg(index);
        if (!array.at(index).isObject())
            complain(here, u"must be an object"_s);
        list.append({array.at(index).toObject(), placeOf(here)});
    }
    return list;
}

QList<JsonReader::Child> JsonReader::childrenOr(const QString& key)
{
    return has(key) ? children(key) : QList<Child>();
}

QJsonValue JsonReader::value(const QString& key)
{
    return take(key, true).value_or(QJsonValue());
}

Result<QJsonObject> parseObject(const QByteArray& bytes)
{
    QJsonParseError error;
    const QJsonDocument document = QJsonDocument::fromJson(bytes, &error);
    if (error.error != QJsonParseError::NoError)
        return fail(Error::Kind::Malformed,
                    u"not JSON at byte %1: %2"_s.arg(error.offset).arg(error.errorString()));
    if (!document.isObject())
        return fail(Error::Kind::Malformed, u"not a JSON object"_s);
    return document.object();
}

QString isoUtc(WallTime wall)
{
    return QDateTime::fromMSecsSinceEpoch(msOf(wall), Qt::UTC).toString(Qt::ISODateWithMs);
}

std::optional<WallTime> wallFromIso(const QString& text)
{
    const QDateTime moment = QDateTime::fromString(text, Qt::ISODateWithMs);
    if (!moment.isValid() || moment.timeSpec() == Qt::LocalTime)
        return std::nullopt;
    return WallTime(std::chrono::milliseconds(moment.toMSecsSinceEpoch()));
}

QJsonObject toJson(const Stamp& stamp)
{
    return {{u"wall"_s, isoUtc(stamp.wall)},
            {u"machine"_s, stamp.machine},
            {u"boot"_s, stamp.boot},
            {u"since_boot_ms"_s, static_cast<qint64>(stamp.sinceBoot.count())},
            {u"asleep_ms"_s, static_cast<qint64>(stamp.asleep.count())}};
}

Stamp readStamp(JsonReader& reader)
{
    constexpr qint64 kMost = 1LL << 53;
    Stamp stamp;
    const auto wall = wallFromIso(reader.text(u"wall"_s));
    if (!wall)
        reader.complain(u"wall"_s, u"must be a moment like 2026-11-25T13:02:19.000Z"_s);
    stamp.wall = wall.value_or(WallTime());
    stamp.machine = reader.textOr(u"machine"_s, {});
    stamp.boot = reader.textOr(u"boot"_s, {});
    stamp.sinceBoot = std::chrono::milliseconds(reader.whole(u"since_boot_ms"_s, 0, kMost));
    stamp.asleep = std::chrono::milliseconds(reader.wholeOr(u"asleep_ms"_s, 0, kMost, 0));
    return stamp;
}

} // namespace coldarc
