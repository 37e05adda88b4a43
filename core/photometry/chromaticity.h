#pragma once

#include <optional>
#include <span>

namespace coldarc::photometry {

/// The colour of a light without its amount, in the CIE 1931 diagram. Inside: x and y, unrounded.
class Chromaticity {
public:
    /// Nothing unless x > 0, y > 0 and x + y <= 1: what lies outside is no light's colour. (The border that
    /// real light keeps to, the spectrum locus, is narrower and not checked.)
    [[nodiscard]] static std::optional<Chromaticity> fromXy(double x, double y);
    /// x = 9u'/(6u'-16v'+12), y = 4v'/(6u'-16v'+12): the inverse of `u` and `v` (DERIVED). Nothing unless
    /// that gives a colour.
    [[nodiscard]] static std::optional<Chromaticity> fromUv(double u, double v);

    [[nodiscard]] double x() const { return m_x; }
    [[nodiscard]] double y() const { return m_y; }
    /// u' = 4x/(-2x+12y+3), v' = 9y/(-2x+12y+3). Source: IEC 60050 entry 845-23-073 (READ).
    [[nodiscard]] double u() const;
    [[nodiscard]] double v() const;

    friend bool operator==(const Chromaticity&, const Chromaticity&) = default;

private:
    Chromaticity(double x, double y)
        : m_x(x)
        , m_y(y)
    {
    }
    double m_x;
    double m_y;
};

/// Distance in the u'v' diagram.
[[nodiscard]] double distanceUv(const Chromaticity& a, const Chromaticity& b);

/// How far b lies from a on the axis, x or y, on which it lies further. The published white tolerances are
/// square boxes in x and y, not circles.
[[nodiscard]] double boxDistance(const Chromaticity& a, const Chromaticity& b);

/// Largest distance between any two of the colours, in u'v'. Nothing for fewer than two. Report it no finer
/// than 0.001. Source: ICDM IDMS 8.1 equation 2 (READ).
[[nodiscard]] std::optional<double> largestDistanceUv(std::span<const Chromaticity> colours);

/// Correlated colour temperature in K by McCamy's cubic (formula from memory: its value for D65 agrees with
/// the published one). It says nothing about green or magenta, so it cannot verify a white.
[[nodiscard]] double colourTemperature(const Chromaticity& colour);

} // namespace coldarc::photometry
