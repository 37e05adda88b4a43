#include "ui/parts/quantities.h"

#include "core/base/typed_hours.h"

#include <QCoreApplication>
#include <QDateTime>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

QString words(const char* text)
{
    return QCoreApplication::translate("quantities", text);
}

QString two(qint64 number)
{
    return u"%1"_s.arg(number, 2, 10, QChar(u'0'));
}

QDateTime local(WallTime moment, const QTimeZone& zone)
{
    return QDateTime::fromMSecsSinceEpoch(msOf(moment), zone);
}

} // namespace

QString clockText(std::chrono::seconds left)
{
    const std::chrono::hh_mm_ss parts(std::max(left, std::chrono::seconds(0)));
    if (parts.hours().count() > 0)
        return u"%1:%2:%3"_s.arg(parts.hours().count())
            .arg(two(parts.minutes().count()), two(parts.seconds().count()));
    return u"%1:%2"_s.arg(parts.minutes().count()).arg(two(parts.seconds().count()));
}

QString spanText(std::chrono::minutes span)
{
    const std::chrono::hh_mm_ss parts(std::max(span, std::chrono::minutes(0)));
    const auto hours = parts.hours().count();
    const auto minutes = parts.minutes().count();
    if (hours == 0)
        return words("%1 min").arg(minutes);
    if (minutes == 0)
        return words("%1 h").arg(hours);
    return words("%1 h %2").arg(hours).arg(two(minutes));
}

QString wallText(WallTime moment, const QTimeZone& zone)
{
    return local(moment, zone).toString(u"HH:mm"_s);
}

QString wallTextWithOffset(WallTime moment, const QTimeZone& zone)
{
    const QDateTime there = local(moment, zone);
    const int minutes = there.offsetFromUtc() / 60;
    return u"%1 %2%3:%4"_s.arg(there.toString(u"yyyy-MM-dd HH:mm:ss"_s), minutes < 0 ? u"-"_s : u"+"_s,
                               two(std::abs(minutes) / 60), two(std::abs(minutes) % 60));
}

std::chrono::year_month_day dayOf(WallTime moment, const QTimeZone& zone)
{
    const QDate day = local(moment, zone).date();
    return {std::chrono::year(day.year()), std::chrono::month(static_cast<unsigned>(day.month())),
            std::chrono::day(static_cast<unsigned>(day.day()))};
}

QString hoursText(double hours, const QLocale& locale)
{
    QLocale plain = locale;
    plain.setNumberOptions(QLocale::OmitGroupSeparator);
    return words("%1 h").arg(plain.toString(std::llround(hours)));
}

QString howToWriteHours(const QString& typed)
{
    const auto hours = hoursFrom(typed);
    if (hours)
        return {};
    switch (hours.error()) {
    case HoursFault::Grouped:
        if (const QString plain = plainHours(typed); !plain.isEmpty())
            return (plain.contains(u'.') ? words("write %1, with a point and nothing else")
                                         : words("write %1, with nothing between the thousands"))
                .arg(plain);
        break;
    case HoursFault::Negative:
        return words("nothing counts below 0: write what is shown, like 1980");
    case HoursFault::TooMany:
        return words("that is more than six figures: write what is shown, like 1980");
    case HoursFault::NotANumber:
        break;
    }
    return words("write it in plain figures, like 1980 or 1980.5");
}

} // namespace coldarc::ui
