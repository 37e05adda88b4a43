#include "core/photometry/uniformity.h"

#include "core/base/words.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace coldarc::photometry {
namespace {

constexpr Words<Evenness, 6> kDefinitions{{{Evenness::LeastSideOfCentre, u"least-side-of-centre"},
                                           {Evenness::LeastCornerOfCentre, u"least-corner-of-centre"},
                                           {Evenness::NonuniformityPercent, u"nonuniformity-percent"},
                                           {Evenness::LeastOfGreatest, u"least-of-greatest"},
                                           {Evenness::SideDifference, u"side-difference"},
                                           {Evenness::LargestColourDistance, u"largest-colour-distance"}}};

struct Found {
    int points;
    double value;
};

std::vector<Reading> allReadings(const ScreenSheet& sheet)
{
    std::vector<Reading> readings;
    for (const Place place : kPlaces) {
        if (sheet.at(place))
            readings.push_back(*sheet.at(place));
    }
    return readings;
}

/// The nine points of the tenth grid, or its centre and corners; nothing for any other sheet.
std::vector<Reading> gridReadings(const ScreenSheet& sheet)
{
    if (sheet.convention() != Convention::TenthGrid)
        return {};
    std::vector<Reading> readings = allReadings(sheet);
    const bool isCross = readings.size() == kCross.size() && std::ranges::all_of(kCross, [&](Place place) {
                             return sheet.at(place).has_value();
                         });
    if (readings.size() != kPlaces.size() && !isCross)
        return {};
    return readings;
}

std::optional<Found> leastShare(const ScreenSheet& sheet, bool (*isWanted)(Place))
{
    std::optional<Found> found;
    for (const Place place : kPlaces) {
        const auto share = isWanted(place) ? sheet.shareOfCentre(place) : std::nullopt;
        if (share)
            found = Found{found ? found->points + 1 : 2, found ? std::min(found->value, *share) : *share};
    }
    return found;
}

std::optional<std::pair<double, double>> extremes(const std::vector<Reading>& readings)
{
    if (readings.size() < 2)
        return std::nullopt;
    const auto [least, greatest] = std::ranges::minmax_element(readings, {}, &Reading::luminance);
    if (greatest->luminance.cdPerM2() <= 0)
        return std::nullopt;
    return std::pair(least->luminance.cdPerM2(), greatest->luminance.cdPerM2());
}

int count(const std::vector<Reading>& readings)
{
    return static_cast<int>(readings.size());
}

std::optional<Found> nonuniformity(const ScreenSheet& sheet)
{
    const std::vector<Reading> readings = gridReadings(sheet);
    const auto ends = extremes(readings);
    if (!ends)
        return std::nullopt;
    return Found{count(readings), nonuniformityPercent(ends->first, ends->second)};
}

std::optional<Found> leastOfGreatest(const ScreenSheet& sheet)
{
    const std::vector<Reading> readings = allReadings(sheet);
    const auto ends = extremes(readings);
    if (!ends)
        return std::nullopt;
    return Found{count(readings), ends->first / ends->second};
}

std::optional<Found> sideDifference(const ScreenSheet& sheet)
{
    const auto left = sheet.shareOfCentre(Place::Left);
    const auto right = sheet.shareOfCentre(Place::Right);
    if (!left || !right)
        return std::nullopt;
    return Found{3, std::abs(*left - *right)};
}

std::optional<Found> largestColourDistance(const ScreenSheet& sheet)
{
    std::vector<Chromaticity> colours;
    const std::vector<Reading> readings = gridReadings(sheet);
    for (const Reading& reading : readings) {
        if (!reading.colour)
            return std::nullopt;
        colours.push_back(*reading.colour);
    }
    const auto largest = largestDistanceUv(colours);
    return largest ? std::optional(Found{count(readings), *largest}) : std::nullopt;
}

std::optional<Found> find(const ScreenSheet& sheet, Evenness definition)
{
    switch (definition) {
    case Evenness::LeastSideOfCentre:
        return leastShare(sheet, isSide);
    case Evenness::LeastCornerOfCentre:
        return leastShare(sheet, isCorner);
    case Evenness::NonuniformityPercent:
        return nonuniformity(sheet);
    case Evenness::LeastOfGreatest:
        return leastOfGreatest(sheet);
    case Evenness::SideDifference:
        return sideDifference(sheet);
    case Evenness::LargestColourDistance:
        return largestColourDistance(sheet);
    }
    return std::nullopt;
}

} // namespace

QString wordOf(Evenness definition)
{
    return wordIn(kDefinitions, definition);
}

std::optional<EvennessNumber> evennessOf(const ScreenSheet& sheet, Evenness definition)
{
    const auto found = find(sheet, definition);
    if (!found)
        return std::nullopt;
    return EvennessNumber{definition, sheet.convention(), found->points, found->value};
}

std::vector<EvennessNumber> evennessOf(const ScreenSheet& sheet)
{
    std::vector<EvennessNumber> numbers;
    for (const auto& entry : kDefinitions) {
        if (const auto number = evennessOf(sheet, entry.first))
            numbers.push_back(*number);
    }
    return numbers;
}

double nonuniformityPercent(double least, double greatest)
{
    return 100 * (1 - least / greatest);
}

} // namespace coldarc::photometry
