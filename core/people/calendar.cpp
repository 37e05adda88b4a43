#include "core/people/calendar.h"

using namespace Qt::StringLiterals;

namespace coldarc::people {
namespace {

/// The number made of ASCII digits only, or nothing: QString's own reader takes signs, spaces and other
/// scripts' digits.
std::optional<int> digits(QStringView text)
{
    int number = 0;
    for (const QChar character : text) {
        if (character < u'0' || character > u'9')
            return std::nullopt;
        number = number * 10 + (character.unicode() - u'0');
    }
    return number;
}

QString padded(unsigned number, int width)
{
    return QString::number(number).rightJustified(width, u'0');
}

} // namespace

QString isoText(Month month)
{
    return padded(static_cast<unsigned>(static_cast<int>(month.year())), 4) + u'-' +
           padded(static_cast<unsigned>(month.month()), 2);
}

QString isoText(Day day)
{
    return isoText(Month(day.year(), day.month())) + u'-' + padded(static_cast<unsigned>(day.day()), 2);
}

std::optional<Month> monthFromIso(const QString& text)
{
    if (text.size() != 7 || text.at(4) != u'-')
        return std::nullopt;
    const auto year = digits(QStringView(text).left(4));
    const auto month = digits(QStringView(text).mid(5));
    if (!year || !month)
        return std::nullopt;
    const Month read(std::chrono::year(*year), std::chrono::month(static_cast<unsigned>(*month)));
    return read.ok() ? std::optional(read) : std::nullopt;
}

std::optional<Day> dayFromIso(const QString& text)
{
    if (text.size() != 10 || text.at(7) != u'-')
        return std::nullopt;
    const auto month = monthFromIso(text.left(7));
    const auto number = digits(QStringView(text).mid(8));
    if (!month || !number)
        return std::nullopt;
    const Day day(month->year(), month->month(), std::chrono::day(static_cast<unsigned>(*number)));
    return day.ok() ? std::optional(day) : std::nullopt;
}

} // namespace coldarc::people
