#include "core/base/typed_hours.h"

#include "core/base/grouped_figure.h"

#include <QRegularExpression>

#include <cmath>

using namespace Qt::StringLiterals;

namespace coldarc {
namespace {

/// Signs that people and programs put between thousands.
const QRegularExpression& grouping()
{
    static const QRegularExpression kGrouping(u"[\\s\u00a0\u2009\u202f'\u2019_]"_s);
    return kGrouping;
}

bool isDigitsAndSigns(const QString& text)
{
    static const QRegularExpression kFigure(uR"(^[0-9]([0-9.,]*[0-9])?$)"_s);
    return kFigure.match(text).hasMatch();
}

} // namespace

tl::expected<double, HoursFault> hoursFrom(const QString& text)
{
    static const QRegularExpression kPlain(uR"(^[0-9]+([.][0-9]{1,2})?$)"_s);
    const QString typed = text.trimmed();
    if (typed.startsWith(u'-') || typed.startsWith(u'\u2212'))
        return tl::unexpected(HoursFault::Negative);
    if (!kPlain.match(typed).hasMatch()) {
        QString digits = typed;
        const bool isGrouped = isDigitsAndSigns(digits.remove(grouping()));
        return tl::unexpected(isGrouped ? HoursFault::Grouped : HoursFault::NotANumber);
    }
    const double hours = typed.toDouble();
    if (!(hours <= kMostHours))
        return tl::unexpected(HoursFault::TooMany);
    return hours;
}

QString plainHours(const QString& text)
{
    static const QRegularExpression kDecimals(uR"([.,]([0-9]{1,2})$)"_s);
    static const QRegularExpression kDigits(u"^[0-9]+$"_s);
    static const QRegularExpression kSigns(u"[.,]"_s);
    QString figure = text.trimmed();
    figure.remove(grouping());
    if (!isDigitsAndSigns(figure))
        return {};
    const auto decimals = kDecimals.match(figure);
    QString whole = decimals.hasMatch() ? figure.left(decimals.capturedStart()) : figure;
    if (!isGrouped(whole) && !kDigits.match(whole).hasMatch())
        return {};
    whole.remove(kSigns);
    const QString plain = decimals.hasMatch() ? whole + u'.' + decimals.captured(1) : whole;
    return hoursFrom(plain) ? plain : QString();
}

std::optional<double> keptHours(const QString& text)
{
    bool isNumber = false;
    const double hours = text.toDouble(&isNumber);
    return isNumber && std::isfinite(hours) && hours >= 0 ? std::optional(hours) : std::nullopt;
}

bool isSameOnACounter(double one, double other)
{
    return std::abs(one - other) < 1;
}

} // namespace coldarc
