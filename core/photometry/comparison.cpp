#include "core/photometry/comparison.h"

namespace coldarc::photometry {
namespace {

using Unlikes = std::vector<Unlike>;

void addWarmUp(WarmUp warmUp, Unlike tooShort, Unlike unknown, Unlikes& unlike)
{
    if (warmUp == WarmUp::TooShort)
        unlike.push_back(tooShort);
    if (warmUp == WarmUp::Unknown)
        unlike.push_back(unknown);
}

void addText(const QString& before, const QString& after, Unlike differs, Unlike unknown, Unlikes& unlike)
{
    if (before.isEmpty() || after.isEmpty())
        unlike.push_back(unknown);
    else if (before != after)
        unlike.push_back(differs);
}

void addPosition(const Conditions& before, const Conditions& after, Unlikes& unlike)
{
    const bool isElsewhere = before.position == MeterPosition::Elsewhere && !before.distanceM;
    if (!before.position || !after.position || (before.position == after.position && isElsewhere))
        unlike.push_back(Unlike::PositionUnknown);
    else if (before.position != after.position ||
             (before.distanceM && after.distanceM && *before.distanceM != *after.distanceM))
        unlike.push_back(Unlike::Position);
}

bool differ(const std::optional<double>& before, const std::optional<double>& after)
{
    return before && after && *before != *after;
}

void addPower(const Conditions& before, const Conditions& after, Unlikes& unlike)
{
    const bool haveWatts = before.lampWatts && after.lampWatts;
    const bool haveAmperes = before.lampAmperes && after.lampAmperes;
    if (!haveWatts && !haveAmperes)
        unlike.push_back(Unlike::PowerUnknown);
    else if (differ(before.lampWatts, after.lampWatts) || differ(before.lampAmperes, after.lampAmperes))
        unlike.push_back(Unlike::Power);
}

std::vector<Change> changesBetween(const ScreenSheet& before, const ScreenSheet& after)
{
    std::vector<Change> changes;
    for (const Place place : kPlaces) {
        const auto& old = before.at(place);
        const auto& now = after.at(place);
        if (old && now && old->luminance.cdPerM2() > 0)
            changes.push_back(
                {place, old->luminance, now->luminance, now->luminance.cdPerM2() / old->luminance.cdPerM2()});
    }
    return changes;
}

} // namespace

Comparison compare(const ScreenSheet& before, const ScreenSheet& after)
{
    const Conditions& old = before.conditions();
    const Conditions& now = after.conditions();
    Comparison comparison;
    Unlikes& unlike = comparison.unlike;
    addWarmUp(warmUpOf(old), Unlike::BeforeNotWarm, Unlike::BeforeWarmUpUnknown, unlike);
    addWarmUp(warmUpOf(now), Unlike::AfterNotWarm, Unlike::AfterWarmUpUnknown, unlike);
    if (before.convention() != after.convention())
        unlike.push_back(Unlike::Convention);
    if (old.picture != now.picture)
        unlike.push_back(Unlike::Picture);
    addText(old.format, now.format, Unlike::Format, Unlike::FormatUnknown, unlike);
    addPosition(old, now, unlike);
    addText(old.meter.name, now.meter.name, Unlike::Meter, Unlike::MeterUnknown, unlike);
    addPower(old, now, unlike);
    const std::vector<Change> changes = changesBetween(before, after);
    if (changes.empty())
        unlike.push_back(Unlike::NoCommonPoint);
    if (unlike.empty())
        comparison.changes = changes;
    return comparison;
}

} // namespace coldarc::photometry
