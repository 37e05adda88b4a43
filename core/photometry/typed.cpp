#include "core/photometry/typed.h"

#include <QRegularExpression>

#include <cmath>

using namespace Qt::StringLiterals;

namespace coldarc::photometry {
namespace {

std::optional<double> nominalOf(const Limit& limit)
{
    if (limit.nominal)
        return limit.nominal;
    if (limit.least && limit.most)
        return (*limit.least + *limit.most) / 2;
    return limit.least ? limit.least : limit.most;
}

} // namespace

tl::expected<double, TypedFault> numberFrom(const QString& text, DecimalSign sign)
{
    static const QRegularExpression kNumber(uR"(^[+-]?(\d+\.?\d*|\.\d+)$)"_s);
    QString plain = text.trimmed();
    if (plain.isEmpty())
        return tl::unexpected(TypedFault::Empty);
    if (sign == DecimalSign::Comma) {
        if (plain.contains(u'.'))
            return tl::unexpected(TypedFault::NotANumber);
        plain.replace(u',', u'.');
    }
    if (!kNumber.match(plain).hasMatch())
        return tl::unexpected(TypedFault::NotANumber);
    return plain.toDouble();
}

tl::expected<double, TypedFault> numberFrom(const QString& text)
{
    return numberFrom(text, text.contains(u',') ? DecimalSign::Comma : DecimalSign::Point);
}

tl::expected<Luminance, TypedFault> luminanceFrom(const QString& text, LuminanceUnit unit)
{
    const auto number = numberFrom(text);
    if (!number)
        return tl::unexpected(number.error());
    const auto luminance = Luminance::from(*number, unit);
    if (!luminance)
        return tl::unexpected(*number < 0 ? TypedFault::Negative : TypedFault::TooLarge);
    return *luminance;
}

tl::expected<Chromaticity, TypedFault> chromaticityFromXy(const QString& x, const QString& y)
{
    const auto first = numberFrom(x);
    const auto second = numberFrom(y);
    if (!first || !second)
        return tl::unexpected(first ? second.error() : first.error());
    const auto colour = Chromaticity::fromXy(*first, *second);
    if (!colour)
        return tl::unexpected(TypedFault::NotAColour);
    return *colour;
}

std::optional<Doubt> doubtAbout(const Reading& reading, std::optional<Luminance> expected)
{
    if (!expected || expected->cdPerM2() <= 0)
        return std::nullopt;
    const double factor = reading.luminance.cdPerM2() / expected->cdPerM2();
    // Of a dark reading this is minus infinity, which is far off as well.
    const double units = std::round(std::log(factor) / std::log(Luminance::kCdPerM2PerFootLambert));
    if (units == 0)
        return std::nullopt;
    if (units == -1 && reading.shownIn == LuminanceUnit::CdPerM2)
        return Doubt::FootLambertsTaken;
    if (units == 1 && reading.shownIn == LuminanceUnit::FootLamberts)
        return Doubt::CdPerM2Taken;
    return Doubt::FarOff;
}

std::optional<Luminance> expectedAt(const ScreenSheet& sheet, const ToleranceSet& set, Place place)
{
    const auto& centre = sheet.at(Place::Centre);
    if (place != Place::Centre && centre)
        return centre->luminance;
    const Limit* limit = set.limitOn(Quantity::CentreLuminance);
    const auto nominal = limit ? nominalOf(*limit) : std::nullopt;
    return nominal ? Luminance::from(*nominal, LuminanceUnit::CdPerM2) : std::nullopt;
}

} // namespace coldarc::photometry
