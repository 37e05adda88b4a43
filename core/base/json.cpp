#include "core/base/json.h"

#include <QDateTime>
#include <QJsonDocument>
#include <QTimeZone>

#include <algorithm>
#include <cmath>

using namespace Qt::StringLiterals;

namespace coldarc {
namespace {

constexpr double kLargestWhole = 9007199254740992.0; // 2^53: whole numbers up to here are exact in a double

// "2026-11-25T13:02:19.000Z": most moments are written so, and Qt takes long over it.
constexpr QStringView kMomentForm = u"dddd-dd-ddTdd:dd:dd.dddZ";

std::optional<QString> plainMoment(WallTime wall)
{
    const auto day = std::chrono::floor<std::chrono::days>(wall);
    const std::chrono::year_month_day date(day);
    const std::chrono::hh_mm_ss time(wall - day);
    const int year = static_cast<int>(date.year());
    if (year < 1 || year > 9999)
        return std::nullopt;
    QString text = kMomentForm.toString();
    const auto write = [&](qsizetype at, qsizetype digits, qint64 number) {
        for (qsizetype digit = at + digits; digit-- > at; number /= 10)
            text[digit] = QChar(static_cast<char16_t>(u'0' + number % 10));
    };
    write(0, 4, year);
    write(5, 2, static_cast<unsigned>(date.month()));
    write(8, 2, static_cast<unsigned>(date.day()));
    write(11, 2, time.hours().count());
    write(14, 2, time.minutes().count());
    write(17, 2, time.seconds().count());
    write(20, 3, time.subseconds().count());
    return text;
}

std::optional<WallTime> plainMoment(const QString& text)
{
    const auto fits = [](QChar form, QChar letter) {
        return form == u'd' ? letter >= u'0' && letter <= u'9' : letter == form;
    };
    if (text.size() != kMomentForm.size() ||
        !std::equal(kMomentForm.begin(), kMomentForm.end(), text.begin(), fits))
        return std::nullopt;
    const auto read = [&](qsizetype at, qsizetype digits) {
        int number = 0;
        for (const QChar digit : QStringView(text).mid(at, digits))
            number = number * 10 + (digit.unicode() - u'0');
        return number;
    };
    using namespace std::chrono;
    const year_month_day date(year(read(0, 4)), month(static_cast<unsigned>(read(5, 2))),
                              day(static_cast<unsigned>(read(8, 2))));
    const int hour = read(11, 2);
    const int minute = read(14, 2);
    const int second = read(17, 2);
    if (!date.ok() || date.year() < year(1) || hour > 23 || minute > 59 || second > 59)
        return std::nullopt;
    return WallTime(sys_days(date) + hours(hour) + minutes(minute) + seconds(second) +
                    milliseconds(read(20, 3)));
}

QString rangeText(double least, double most)
{
    return u"must be a number from %1 to %2"_s.arg(QString::number(least), QString::number(most));
}

} // namespace

JsonReader::JsonReader(const QJsonObject& object, QString place, QStringList& complaints)
    : m_object(object)
    , m_place(std::move(place))
    , m_complaints(&complaints)
    , m_isAsked(object.size(), false)
    , m_unasked(object.size())
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
    if (m_unasked == 0)
        return;
    for (auto each = m_object.constBegin(); each != m_object.constEnd(); ++each) {
        if (!m_isAsked[each - m_object.constBegin()])
            complain(each.key(), u"unknown key"_s);
    }
}

std::optional<QJsonValue> JsonReader::take(const QString& key, bool needed)
{
    const auto found = m_object.constFind(key);
    if (found != m_object.constEnd()) {
        bool& isAsked = m_isAsked[found - m_object.constBegin()];
        m_unasked -= isAsked ? 0 : 1;
        isAsked = true;
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
        const QString here = key + u'[' + QString::number(index) + u']';
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

QByteArray jsonText(const QString& text)
{
    const bool isPlain = std::ranges::all_of(text, [](QChar letter) {
        return letter >= u' ' && letter <= u'~' && letter != u'"' && letter != u'\\';
    });
    if (isPlain)
        return '"' + text.toLatin1() + '"';
    const QByteArray list = QJsonDocument(QJsonArray{text}).toJson(QJsonDocument::Compact);
    return list.mid(1, list.size() - 2);
}

QString isoUtc(WallTime wall)
{
    if (const auto text = plainMoment(wall))
        return *text;
    return QDateTime::fromMSecsSinceEpoch(msOf(wall), Qt::UTC).toString(Qt::ISODateWithMs);
}

std::optional<WallTime> wallFromIso(const QString& text)
{
    if (const auto plain = plainMoment(text))
        return plain;
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
