#include "core/photometry/chromaticity.h"

#include <algorithm>
#include <cmath>

namespace coldarc::photometry {

std::optional<Chromaticity> Chromaticity::fromXy(double x, double y)
{
    if (!(x > 0 && y > 0 && x + y <= 1)) // written so that a NaN is refused
        return std::nullopt;
    return Chromaticity(x, y);
}

std::optional<Chromaticity> Chromaticity::fromUv(double u, double v)
{
    const double divisor = 6 * u - 16 * v + 12;
    return fromXy(9 * u / divisor, 4 * v / divisor);
}

double Chromaticity::u() const
{
    return 4 * m_x / (-2 * m_x + 12 * m_y + 3);
}

double Chromaticity::v() const
{
    return 9 * m_y / (-2 * m_x + 12 * m_y + 3);
}

double distanceUv(const Chromaticity& a, const Chromaticity& b)
{
    return std::hypot(a.u() - b.u(), a.v() - b.v());
}

double boxDistance(const Chromaticity& a, const Chromaticity& b)
{
    return std::max(std::abs(a.x() - b.x()), std::abs(a.y() - b.y()));
}

std::optional<double> largestDistanceUv(std::span<const Chromaticity> colours)
{
    if (colours.size() < 2)
        return std::nullopt;
    double largest = 0;
    for (std::size_t i = 0; i < colours.size(); ++i) {
        for (std::size_t j = i + 1; j < colours.size(); ++j)
            largest = std::max(largest, distanceUv(colours[i], colours[j]));
    }
    return largest;
}

double colourTemperature(const Chromaticity& colour)
{
    const double n = (colour.x() - 0.3320) / (0.1858 - colour.y());
    return ((449 * n + 3525) * n + 6823.3) * n + 5520.33;
}

} // namespace coldarc::photometry
