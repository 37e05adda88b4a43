#include "core/site/site.h"

#include <algorithm>
#include <array>

using namespace Qt::StringLiterals;

namespace coldarc::site {
namespace {

constexpr std::array kProverWords{"engineer", "qualified", "electrician"};

template<class Thing, class ThingId>
const Thing* found(const std::vector<Thing>& things, const ThingId& id)
{
    const auto at =
        std::find_if(things.begin(), things.end(), [&](const Thing& one) { return one.id == id; });
    return at == things.end() ? nullptr : &*at;
}

} // namespace

QString wordOf(AbsenceProver prover)
{
    return QString::fromLatin1(kProverWords[static_cast<std::size_t>(prover)]);
}

std::optional<AbsenceProver> proverFromWord(const QString& word)
{
    for (std::size_t index = 0; index < kProverWords.size(); ++index) {
        if (word == QLatin1StringView(kProverWords[index]))
            return static_cast<AbsenceProver>(index);
    }
    return std::nullopt;
}

bool IsolationPoint::doesFeed(const LamphouseId& lamphouse) const
{
    return std::any_of(feeds.begin(), feeds.end(),
                       [&](const Feed& feed) { return feed.lamphouse == lamphouse; });
}

const Screen* SiteDocument::screen(const ScreenId& id) const
{
    return found(screens, id);
}

const Projector* SiteDocument::projector(const ProjectorId& id) const
{
    return found(projectors, id);
}

const Lamphouse* SiteDocument::lamphouse(const LamphouseId& id) const
{
    return found(lamphouses, id);
}

const IsolationPoint* SiteDocument::point(const PointId& id) const
{
    return found(points, id);
}

std::vector<PointId> SiteDocument::pointsFeeding(const LamphouseId& lamphouse) const
{
    std::vector<PointId> feeding;
    for (const IsolationPoint& point : points) {
        if (point.doesFeed(lamphouse))
            feeding.push_back(point.id);
    }
    return feeding;
}

QString placeOf(const SiteDocument& document, const LamphouseId& id)
{
    const Lamphouse* lamphouse = document.lamphouse(id);
    const Projector* projector = lamphouse ? document.projector(lamphouse->projector) : nullptr;
    const Screen* screen = projector ? document.screen(projector->screen) : nullptr;
    if (!screen)
        return {};
    QStringList names{screen->name};
    const auto projectors = std::ranges::count(document.projectors, screen->id, &Projector::screen);
    if (projectors > 1 && !projector->label.isEmpty())
        names.append(projector->label);
    if (std::ranges::count(document.lamphouses, projector->id, &Lamphouse::projector) > 1)
        names.append(lamphouse->label);
    return names.join(u", "_s);
}

std::optional<NextShow> nextShow(const Screen& screen, WallTime after)
{
    std::optional<NextShow> next;
    for (const WallTime start : screen.showStarts) {
        if (start >= after && (!next || start < next->start))
            next = NextShow{screen.id, start};
    }
    return next;
}

std::optional<NextShow> nextShow(const SiteDocument& document, WallTime after)
{
    std::optional<NextShow> next;
    for (const Screen& screen : document.screens) {
        const auto here = nextShow(screen, after);
        if (here && (!next || here->start < next->start))
            next = here;
    }
    return next;
}

} // namespace coldarc::site
