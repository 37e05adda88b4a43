#include "core/site/site_check.h"

#include <QSet>

#include <algorithm>
#include <numeric>

namespace coldarc::site {
namespace {

using Kind = Problem::Kind;
using Problems = std::vector<Problem>;

template<class Thing>
void checkIds(const std::vector<Thing>& things, Problems& problems)
{
    QSet<QString> seen;
    for (const Thing& thing : things) {
        if (seen.contains(thing.id.text()))
            problems.push_back({Kind::DoubledId, thing.id.text(), {}});
        seen.insert(thing.id.text());
    }
}

void checkProjectors(const SiteDocument& document, Problems& problems)
{
    for (const Projector& projector : document.projectors) {
        const bool hasLamphouse =
            std::any_of(document.lamphouses.begin(), document.lamphouses.end(),
                        [&](const Lamphouse& one) { return one.projector == projector.id; });
        if (document.screen(projector.screen) == nullptr)
            problems.push_back({Kind::UnknownScreen, projector.id.text(), projector.screen.text()});
        if (!hasLamphouse)
            problems.push_back({Kind::NoLamphouse, projector.id.text(), {}});
    }
}

void checkLamphouses(const SiteDocument& document, Problems& problems)
{
    QSet<LampId> fitted;
    for (const Lamphouse& lamphouse : document.lamphouses) {
        if (document.projector(lamphouse.projector) == nullptr)
            problems.push_back({Kind::UnknownProjector, lamphouse.id.text(), lamphouse.projector.text()});
        if (document.pointsFeeding(lamphouse.id).empty())
            problems.push_back({Kind::NoPoint, lamphouse.id.text(), {}});
        if (lamphouse.fitted && fitted.contains(*lamphouse.fitted))
            problems.push_back({Kind::LampFittedTwice, lamphouse.fitted->text(), {}});
        if (lamphouse.fitted)
            fitted.insert(*lamphouse.fitted);
    }
}

void checkPoints(const SiteDocument& document, Problems& problems)
{
    for (const IsolationPoint& point : document.points) {
        QSet<LamphouseId> fed;
        if (point.feeds.empty())
            problems.push_back({Kind::FeedsNothing, point.id.text(), {}});
        for (const Feed& feed : point.feeds) {
            if (document.lamphouse(feed.lamphouse) == nullptr)
                problems.push_back({Kind::UnknownLamphouse, point.id.text(), feed.lamphouse.text()});
            if (fed.contains(feed.lamphouse))
                problems.push_back({Kind::DoubledFeed, point.id.text(), feed.lamphouse.text()});
            fed.insert(feed.lamphouse);
        }
    }
}

std::vector<catalogue::RoleId> rolesFedTo(const SiteDocument& document, const LamphouseId& lamphouse)
{
    std::vector<catalogue::RoleId> roles;
    for (const IsolationPoint& point : document.points) {
        for (const Feed& feed : point.feeds) {
            if (feed.lamphouse == lamphouse)
                roles.push_back(feed.role);
        }
    }
    return roles;
}

void checkRoles(const SiteDocument& document, const Lamphouse& lamphouse,
                const catalogue::ProjectorModel& model, Problems& problems)
{
    const auto fed = rolesFedTo(document, lamphouse.id);
    const QList<catalogue::IsolationRole> needed = model.isolationOf(lamphouse.label);
    const auto isNeeded = [&](const catalogue::RoleId& role) {
        return std::any_of(needed.begin(), needed.end(), [&](const auto& one) { return one.id == role; });
    };
    for (const catalogue::RoleId& role : fed) {
        if (!isNeeded(role))
            problems.push_back({Kind::UnknownRole, lamphouse.id.text(), role.text()});
    }
    for (const catalogue::IsolationRole& role : needed) {
        const auto breakers = std::count(fed.begin(), fed.end(), role.id);
        if (breakers > 1)
            problems.push_back({Kind::DoubledRole, lamphouse.id.text(), role.id.text()});
        if (breakers == 0)
            problems.push_back({Kind::UncoveredRole, lamphouse.id.text(), role.id.text()});
    }
}

void checkAgainstModel(const SiteDocument& document, const Projector& projector,
                       const catalogue::ProjectorModel& model, Problems& problems)
{
    QSet<QString> labels;
    for (const Lamphouse& lamphouse : document.lamphouses) {
        if (lamphouse.projector != projector.id)
            continue;
        if (labels.contains(lamphouse.label))
            problems.push_back({Kind::DoubledLabel, projector.id.text(), lamphouse.label});
        labels.insert(lamphouse.label);
        if (model.lamphouses.contains(lamphouse.label))
            checkRoles(document, lamphouse, model, problems);
        else
            problems.push_back({Kind::NotAModelLamphouse, lamphouse.id.text(), lamphouse.label});
    }
    for (const QString& label : model.lamphouses) {
        if (!labels.contains(label))
            problems.push_back({Kind::MissingLamphouse, projector.id.text(), label});
    }
}

/// Sets of numbers that grow together: each number leads to the head of its set.
class Sets {
public:
    explicit Sets(std::size_t size)
        : m_leader(size)
    {
        std::iota(m_leader.begin(), m_leader.end(), std::size_t(0));
    }
    std::size_t headOf(std::size_t one) const
    {
        while (m_leader[one] != one)
            one = m_leader[one];
        return one;
    }
    /// The smaller head leads both.
    void join(std::size_t one, std::size_t other)
    {
        const auto [low, high] = std::minmax({headOf(one), headOf(other)});
        m_leader[high] = low;
    }

private:
    std::vector<std::size_t> m_leader;
};

/// Lamphouses are numbered first, points after them.
Sets setsOf(const SiteDocument& document)
{
    const std::size_t lamphouses = document.lamphouses.size();
    Sets sets(lamphouses + document.points.size());
    for (std::size_t point = 0; point < document.points.size(); ++point) {
        for (std::size_t lamphouse = 0; lamphouse < lamphouses; ++lamphouse) {
            if (document.points[point].doesFeed(document.lamphouses[lamphouse].id))
                sets.join(lamphouses + point, lamphouse);
        }
    }
    return sets;
}

} // namespace

std::vector<Problem> problemsOf(const SiteDocument& document)
{
    Problems problems;
    checkIds(document.screens, problems);
    checkIds(document.projectors, problems);
    checkIds(document.lamphouses, problems);
    checkIds(document.points, problems);
    checkProjectors(document, problems);
    checkLamphouses(document, problems);
    checkPoints(document, problems);
    return problems;
}

std::vector<Problem> problemsOf(const SiteDocument& document, const catalogue::Catalogue& catalogue)
{
    Problems problems;
    for (const Projector& projector : document.projectors) {
        const catalogue::ProjectorModel* model = catalogue.model(projector.model);
        if (model == nullptr)
            problems.push_back({Kind::UnknownModel, projector.id.text(), projector.model.text()});
        else
            checkAgainstModel(document, projector, *model, problems);
    }
    return problems;
}

std::vector<IsolationGroup> isolationGroups(const SiteDocument& document)
{
    const std::size_t lamphouses = document.lamphouses.size();
    const std::size_t things = lamphouses + document.points.size();
    const Sets sets = setsOf(document);
    std::vector<IsolationGroup> byHead(things);
    for (std::size_t thing = 0; thing < things; ++thing) {
        IsolationGroup& group = byHead[sets.headOf(thing)];
        if (thing < lamphouses)
            group.lamphouses.push_back(document.lamphouses[thing].id);
        else
            group.points.push_back(document.points[thing - lamphouses].id);
    }
    std::erase_if(
        byHead, [](const IsolationGroup& group) { return group.points.empty() && group.lamphouses.empty(); });
    return byHead;
}

} // namespace coldarc::site
