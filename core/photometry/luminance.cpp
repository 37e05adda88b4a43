#include "core/photometry/luminance.h"

#include "core/base/words.h"

#include <QtGlobal>

namespace coldarc::photometry {
namespace {

constexpr Words<LuminanceUnit, 2> kUnits{
    {{LuminanceUnit::CdPerM2, u"cd/m2"}, {LuminanceUnit::FootLamberts, u"fL"}}};

} // namespace

QString wordOf(LuminanceUnit unit)
{
    return wordIn(kUnits, unit);
}

std::optional<LuminanceUnit> luminanceUnitFromWord(const QString& word)
{
    return valueIn(kUnits, word);
}

std::optional<Luminance> Luminance::from(double value, LuminanceUnit unit)
{
    const double cdPerM2 = unit == LuminanceUnit::FootLamberts ? value * kCdPerM2PerFootLambert : value;
    if (!(cdPerM2 >= 0 && cdPerM2 <= kMostCdPerM2)) // written so that a NaN is refused
        return std::nullopt;
    return Luminance(cdPerM2);
}

Luminance Luminance::fromCdPerM2(double value)
{
    const auto luminance = from(value, LuminanceUnit::CdPerM2);
    Q_ASSERT_X(luminance, "Luminance", "a luminance is a number from 0 to 20000 cd/m2");
    return *luminance;
}

Luminance Luminance::fromFootLamberts(double value)
{
    const auto luminance = from(value, LuminanceUnit::FootLamberts);
    Q_ASSERT_X(luminance, "Luminance", "a luminance is a number from 0 to 20000 cd/m2");
    return *luminance;
}

double Luminance::in(LuminanceUnit unit) const
{
    return unit == LuminanceUnit::FootLamberts ? footLamberts() : m_cdPerM2;
}

} // namespace coldarc::photometry
