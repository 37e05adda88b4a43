#pragma once

#include <QString>

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

namespace coldarc::photometry {

/// A place of the screen as seen from the seats, in reading order.
enum class Place : std::uint8_t {
    TopLeft,
    Top,
    TopRight,
    Left,
    Centre,
    Right,
    BottomLeft,
    Bottom,
    BottomRight,
};
inline constexpr std::array kPlaces{Place::TopLeft,    Place::Top,    Place::TopRight,
                                    Place::Left,       Place::Centre, Place::Right,
                                    Place::BottomLeft, Place::Bottom, Place::BottomRight};
/// Centre and corners: the five points of ICDM IDMS 8.1 (READ).
inline constexpr std::array kCross{Place::TopLeft, Place::TopRight, Place::Centre, Place::BottomLeft,
                                   Place::BottomRight};
/// "centre", "top-left", ...
[[nodiscard]] QString wordOf(Place place);
[[nodiscard]] std::optional<Place> placeFromWord(const QString& word);
[[nodiscard]] bool isCorner(Place place);
/// Left, right, top and bottom.
[[nodiscard]] bool isSide(Place place);

/// Where exactly the outer points lie. Three customs exist, and a share of the centre's light that was found
/// by one says nothing about a limit of another.
enum class Convention : std::uint8_t {
    /// Sides and corners 5 % of the screen's *width* from the edges, up and down too. SMPTE ST 196M (READ-2).
    FiveOfWidth,
    /// Two side points on the horizontal centre line, 10 % of the width from each side edge. ISO 2910:1990
    /// (READ-2, by way of GB/T 4645-1994).
    TwoSides,
    /// Outer points a tenth of the width and a tenth of the height from the edges, numbered left to right and
    /// top to bottom. ICDM IDMS 8.1 (READ).
    TenthGrid,
};
inline constexpr std::array kConventions{Convention::FiveOfWidth, Convention::TwoSides,
                                         Convention::TenthGrid};
/// "five-of-width", "two-sides" or "tenth-grid".
[[nodiscard]] QString wordOf(Convention convention);
[[nodiscard]] std::optional<Convention> conventionFromWord(const QString& word);
/// The places that a convention has, in reading order.
[[nodiscard]] std::vector<Place> placesOf(Convention convention);

/// A position on the screen as shares of its width and height from the upper left corner, each 0 to 1.
struct Position {
    double across = 0;
    double down = 0;

    friend bool operator==(const Position&, const Position&) = default;
};

/// One point of one convention. It cannot be made for a place that its convention lacks, nor taken for the
/// point of another convention at that place.
class Point {
public:
    /// Nothing for a place that the convention lacks.
    [[nodiscard]] static std::optional<Point> at(Convention convention, Place place);

    [[nodiscard]] Convention convention() const { return m_convention; }
    [[nodiscard]] Place place() const { return m_place; }
    /// @param aspect  width by height of the screen, > 0.1
    [[nodiscard]] Position position(double aspect) const;

    friend bool operator==(const Point&, const Point&) = default;

private:
    Point(Convention convention, Place place)
        : m_convention(convention)
        , m_place(place)
    {
    }
    Convention m_convention;
    Place m_place;
};

} // namespace coldarc::photometry
