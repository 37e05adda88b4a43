#include "core/site/site_change.h"

#include "core/site/site_table.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::site {
namespace {

/// Nothing where one lamphouse would be fed in two parts by one breaker.
std::optional<std::vector<Feed>> together(std::vector<Feed> feeds, const std::vector<Feed>& more)
{
    for (const Feed& feed : more) {
        const auto same = std::ranges::find(feeds, feed.lamphouse, &Feed::lamphouse);
        if (same == feeds.end())
            feeds.push_back(feed);
        else if (same->role != feed.role)
            return std::nullopt;
    }
    return feeds;
}

bool takesNoLockByModel(const SiteDocument& document, const Feed& feed, const catalogue::Catalogue& catalogue)
{
    const Lamphouse* lamphouse = document.lamphouse(feed.lamphouse);
    const Projector* projector = lamphouse ? document.projector(lamphouse->projector) : nullptr;
    const catalogue::ProjectorModel* model = projector ? catalogue.model(projector->model) : nullptr;
    const auto role = model ? model->role(feed.role) : std::nullopt;
    return role && !role->lockable;
}

} // namespace

tl::expected<SiteDocument, BreakerFault> withBreakerAt(SiteDocument document, const PointId& point,
                                                       const QString& panel, const QString& circuit)
{
    std::vector<IsolationPoint>& points = document.points;
    const auto wrong = std::ranges::find(points, point, &IsolationPoint::id);
    if (wrong == points.end())
        return tl::unexpected(BreakerFault::UnknownPoint);
    if (wrong->panel == panel && wrong->circuit == circuit)
        return document;
    const auto there = std::ranges::find_if(points, [&](const IsolationPoint& one) {
        return one.id != point && one.panel == panel && one.circuit == circuit;
    });
    if (there == points.end()) {
        wrong->name = nameOfPoint(panel, circuit);
        wrong->panel = panel;
        wrong->circuit = circuit;
        return document;
    }
    if (there->isLockable != wrong->isLockable)
        return tl::unexpected(BreakerFault::LockDiffers);
    const auto feeds = together(there->feeds, wrong->feeds);
    if (!feeds)
        return tl::unexpected(BreakerFault::FeedsItAlready);
    there->feeds = *feeds;
    points.erase(wrong);
    return document;
}

tl::expected<SiteDocument, BreakerFault> withLock(SiteDocument document, const PointId& point, bool takesLock,
                                                  const catalogue::Catalogue& catalogue)
{
    const auto wrong = std::ranges::find(document.points, point, &IsolationPoint::id);
    if (wrong == document.points.end())
        return tl::unexpected(BreakerFault::UnknownPoint);
    const bool isNew = takesLock && !wrong->isLockable;
    if (isNew && std::ranges::any_of(wrong->feeds, [&](const Feed& feed) {
            return takesNoLockByModel(document, feed, catalogue);
        }))
        return tl::unexpected(BreakerFault::PartTakesNone);
    wrong->isLockable = takesLock;
    return document;
}

} // namespace coldarc::site
