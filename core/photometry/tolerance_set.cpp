#include "core/photometry/tolerance_set.h"

#include "core/photometry/words.h"

#include <algorithm>
#include <utility>

namespace coldarc::photometry {

QString wordOf(Quantity quantity)
{
    return wordIn(kQuantities, quantity);
}

std::optional<Quantity> quantityFromWord(const QString& word)
{
    return valueIn(kQuantities, word);
}

QString wordOf(Standing standing)
{
    return wordIn(kStandings, standing);
}

QString wordOf(RoomClass roomClass)
{
    return wordIn(kClasses, roomClass);
}

const Limit* ToleranceSet::limitOn(Quantity quantity) const
{
    const auto found = std::ranges::find(limits, quantity, &Limit::quantity);
    return found == limits.end() ? nullptr : &*found;
}

PossibleSpan spanOf(Quantity quantity)
{
    switch (quantity) {
    case Quantity::CentreLuminance:
    case Quantity::DarkLuminance:
        return {0, Luminance::kMostCdPerM2};
    case Quantity::Nonuniformity:
        return {0, 100};
    case Quantity::ColourTemperature:
        return {1000, 25'000};
    case Quantity::SideShare:
    case Quantity::CornerShare:
        return {0, 2};
    case Quantity::SideDifference:
    case Quantity::WhiteX:
    case Quantity::WhiteY:
    case Quantity::CornerColourOffset:
    case Quantity::LargestColourDistance:
        break;
    }
    return {0, 1};
}

bool isUpsideDown(const Limit& limit)
{
    return limit.least && limit.most && *limit.least > *limit.most;
}

ToleranceSet withLimit(ToleranceSet set, const Limit& limit)
{
    const auto found = std::ranges::find(set.limits, limit.quantity, &Limit::quantity);
    if (found == set.limits.end())
        set.limits.push_back(limit);
    else
        *found = limit;
    return set;
}

std::optional<ToleranceSet> withOwnLimit(ToleranceSet set, Quantity quantity, std::optional<double> least,
                                         std::optional<double> most)
{
    Limit limit{quantity, least, most, std::nullopt, Absence::None, Standing::Own, {}};
    const PossibleSpan span = spanOf(quantity);
    const auto fits = [&](const std::optional<double>& figure) {
        return !figure || (*figure >= span.least && *figure <= span.most);
    };
    if ((!least && !most) || !fits(least) || !fits(most) || isUpsideDown(limit))
        return std::nullopt;
    return withLimit(std::move(set), limit);
}

} // namespace coldarc::photometry
