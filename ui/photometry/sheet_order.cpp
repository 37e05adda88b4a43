#include "ui/photometry/sheet_order.h"

#include <algorithm>

namespace coldarc::ui {

using namespace photometry;

std::vector<Place> pointOrder(const visit::SheetOfSwap& sheet)
{
    std::vector<Place> places{Place::Centre};
    const auto add = [&](const std::vector<Place>& more) {
        for (const Place place : more) {
            if (std::ranges::find(places, place) == places.end())
                places.push_back(place);
        }
    };
    if (sheet.set)
        add(sheet.set->needs);
    add(placesOf(sheet.sheet.convention()));
    return places;
}

std::vector<std::vector<Place>> tableOrders(const visit::SheetOfSwap& sheet)
{
    std::vector<std::vector<Place>> orders;
    if (sheet.set)
        orders.push_back(sheet.set->needs);
    if (sheet.sheet.convention() == Convention::TenthGrid)
        orders.emplace_back(kCross.begin(), kCross.end());
    orders.push_back(placesOf(sheet.sheet.convention()));
    return orders;
}

std::optional<Place> nextOpen(const visit::SheetOfSwap& sheet)
{
    const auto isNeeded = [&](Place place) {
        return place == Place::Centre ||
               (sheet.set && std::ranges::find(sheet.set->needs, place) != sheet.set->needs.end());
    };
    const std::vector<Place> places = pointOrder(sheet);
    const bool hasOthers = std::ranges::any_of(
        places, [&](Place place) { return !isNeeded(place) && sheet.sheet.at(place).has_value(); });
    const auto next = std::ranges::find_if(
        places, [&](Place place) { return !sheet.sheet.at(place) && (isNeeded(place) || hasOthers); });
    return next == places.end() ? std::nullopt : std::optional(*next);
}

} // namespace coldarc::ui
