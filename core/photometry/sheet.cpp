#include "core/photometry/sheet.h"

#include <utility>

namespace coldarc::photometry {
namespace {

std::size_t indexOf(Place place)
{
    return static_cast<std::size_t>(place);
}

} // namespace

double shownBy(const Reading& reading)
{
    // Through cd/m2 and back a figure can lose its last bit.
    return QString::number(reading.luminance.in(reading.shownIn), 'g', 12).toDouble();
}

ScreenSheet::ScreenSheet(Convention convention, Conditions conditions)
    : m_convention(convention)
    , m_conditions(std::move(conditions))
{
}

ScreenSheet::Put ScreenSheet::put(const Point& point, const Reading& reading)
{
    if (point.convention() != m_convention)
        return Put::OtherConvention;
    m_readings.at(indexOf(point.place())) = reading;
    return Put::Taken;
}

void ScreenSheet::clear(Place place)
{
    m_readings.at(indexOf(place)).reset();
}

const std::optional<Reading>& ScreenSheet::at(Place place) const
{
    return m_readings.at(indexOf(place));
}

std::optional<double> ScreenSheet::shareOfCentre(Place place) const
{
    const auto& centre = at(Place::Centre);
    const auto& other = at(place);
    if (!centre || !other || centre->luminance.cdPerM2() <= 0)
        return std::nullopt;
    return other->luminance.cdPerM2() / centre->luminance.cdPerM2();
}

} // namespace coldarc::photometry
