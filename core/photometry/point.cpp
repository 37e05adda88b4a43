#include "core/photometry/point.h"

#include "core/base/words.h"

#include <algorithm>

namespace coldarc::photometry {
namespace {

constexpr Words<Place, 9> kPlaceWords{{{Place::TopLeft, u"top-left"},
                                       {Place::Top, u"top"},
                                       {Place::TopRight, u"top-right"},
                                       {Place::Left, u"left"},
                                       {Place::Centre, u"centre"},
                                       {Place::Right, u"right"},
                                       {Place::BottomLeft, u"bottom-left"},
                                       {Place::Bottom, u"bottom"},
                                       {Place::BottomRight, u"bottom-right"}}};

constexpr Words<Convention, 3> kConventionWords{{{Convention::FiveOfWidth, u"five-of-width"},
                                                 {Convention::TwoSides, u"two-sides"},
                                                 {Convention::TenthGrid, u"tenth-grid"}}};

/// How far the outer points stand from the side edges and from the upper and lower edge, as shares of the
/// width and of the height.
struct Inset {
    double across;
    double down;
};

Inset insetOf(Convention convention, double aspect)
{
    switch (convention) {
    case Convention::FiveOfWidth:
        return {0.05, 0.05 * aspect};
    case Convention::TwoSides:
    case Convention::TenthGrid:
        break;
    }
    return {0.1, 0.1};
}

/// 0 for the first third, 1 for the middle, 2 for the last.
int columnOf(Place place)
{
    return static_cast<int>(place) % 3;
}

int rowOf(Place place)
{
    return static_cast<int>(place) / 3;
}

double along(int third, double inset)
{
    const std::array<double, 3> shares{inset, 0.5, 1 - inset};
    return shares.at(static_cast<std::size_t>(third));
}

} // namespace

QString wordOf(Place place)
{
    return wordIn(kPlaceWords, place);
}

std::optional<Place> placeFromWord(const QString& word)
{
    return valueIn(kPlaceWords, word);
}

bool isCorner(Place place)
{
    return columnOf(place) != 1 && rowOf(place) != 1;
}

bool isSide(Place place)
{
    return (columnOf(place) == 1) != (rowOf(place) == 1);
}

QString wordOf(Convention convention)
{
    return wordIn(kConventionWords, convention);
}

std::optional<Convention> conventionFromWord(const QString& word)
{
    return valueIn(kConventionWords, word);
}

std::vector<Place> placesOf(Convention convention)
{
    if (convention == Convention::TwoSides)
        return {Place::Left, Place::Centre, Place::Right};
    return {kPlaces.begin(), kPlaces.end()};
}

std::optional<Point> Point::at(Convention convention, Place place)
{
    const std::vector<Place> places = placesOf(convention);
    if (std::ranges::find(places, place) == places.end())
        return std::nullopt;
    return Point(convention, place);
}

Position Point::position(double aspect) const
{
    Q_ASSERT_X(aspect > 0.1, "Point", "a screen has a width and a height");
    const Inset inset = insetOf(m_convention, aspect);
    return {along(columnOf(m_place), inset.across), along(rowOf(m_place), inset.down)};
}

} // namespace coldarc::photometry
