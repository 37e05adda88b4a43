#include "core/procedure/plant.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::procedure {
namespace {

using machine::Index;
using machine::kNone;
using machine::Mask;
using machine::maskOf;
using machine::Plant;

Result<Mask> lamphousesFedBy(const catalogue::ProjectorModel& model, const catalogue::IsolationRole& role)
{
    Mask feeds = 0;
    for (const QString& label : role.lamphouses) {
        const qsizetype index = model.lamphouses.indexOf(label);
        if (index < 0)
            return tl::unexpected(Error{Error::Kind::Malformed,
                                        u"%1 feeds %2, which is no lamphouse"_s.arg(role.id.text(), label)});
        feeds = static_cast<Mask>(feeds | maskOf(static_cast<Index>(index)));
    }
    return feeds;
}

/// Points that share a lamphouse get the number of the first of them, until nothing changes any more.
void groupPoints(Plant& plant)
{
    for (Index point = 0; point < plant.points; ++point)
        plant.point[point].group = point;
    for (bool changed = true; changed;) {
        changed = false;
        for (Index one = 0; one < plant.points; ++one) {
            for (Index other = 0; other < plant.points; ++other) {
                Plant::Point& later = plant.point[other];
                if ((plant.point[one].feeds & later.feeds) == 0 || plant.point[one].group >= later.group)
                    continue;
                later.group = plant.point[one].group;
                changed = true;
            }
        }
    }
}

Plant::Lamphouse lamphouseOf(const catalogue::ProjectorModel& model)
{
    Plant::Lamphouse lamphouse;
    lamphouse.hasHousing = model.hasHousing;
    lamphouse.hasDowser = model.hasDowser;
    lamphouse.hasAdaptor = model.adaptor.has_value();
    lamphouse.strikeLimit = static_cast<std::uint8_t>(std::clamp(model.strikeLimit, 1, 255));
    bool reachedShut = false;
    for (const catalogue::TestPoint& point : model.testPoints) {
        lamphouse.testBehindGuard = lamphouse.testBehindGuard || point.cover == catalogue::Cover::Guard;
        reachedShut = reachedShut || point.cover == catalogue::Cover::None;
    }
    lamphouse.testNeedsHousingOpen = model.hasHousing && !reachedShut;
    return lamphouse;
}

} // namespace

Result<Plant> plantOf(const catalogue::ProjectorModel& model, int people)
{
    Q_ASSERT_X(people >= 1 && people <= machine::kMostPeople, "plantOf", "a visit has one to four people");
    if (model.lamphouses.isEmpty() || model.lamphouses.size() > machine::kMostLamphouses)
        return tl::unexpected(Error{Error::Kind::Malformed, u"too many lamphouses, or none"_s});
    if (model.isolation.isEmpty() || model.isolation.size() > machine::kMostPoints)
        return tl::unexpected(Error{Error::Kind::Malformed, u"too many isolation points, or none"_s});
    Plant plant;
    plant.people = static_cast<std::uint8_t>(people);
    for (const catalogue::IsolationRole& role : model.isolation) {
        const auto feeds = lamphousesFedBy(model, role);
        if (!feeds)
            return tl::unexpected(feeds.error());
        plant.point[plant.points++] = {role.lockable, *feeds, 0};
    }
    groupPoints(plant);
    plant.lamphouses = static_cast<std::uint8_t>(model.lamphouses.size());
    for (Index lamphouse = 0; lamphouse < plant.lamphouses; ++lamphouse) {
        plant.lamphouse[lamphouse] = lamphouseOf(model);
        for (Index point = 0; point < plant.points; ++point) {
            if (!machine::has(plant.point[point].feeds, lamphouse))
                continue;
            plant.lamphouse[lamphouse].points =
                static_cast<Mask>(plant.lamphouse[lamphouse].points | maskOf(point));
            plant.lamphouse[lamphouse].group = plant.point[point].group;
        }
        if (plant.lamphouse[lamphouse].points == 0)
            return tl::unexpected(Error{Error::Kind::Malformed,
                                        u"nothing isolates lamphouse %1"_s.arg(model.lamphouses[lamphouse])});
    }
    return plant;
}

Index addLamp(Plant& plant, const catalogue::ProjectorModel& model, Index lamphouse,
              const std::optional<LampTypeId>& type)
{
    Q_ASSERT_X(plant.lamps < machine::kMostLamps, "addLamp", "a visit has room for one more lamp");
    const qsizetype place = type ? model.lampTypes.indexOf(*type) : -1;
    Plant::Lamp lamp;
    lamp.type = place < 0 ? kUnknownType : static_cast<std::uint8_t>(place);
    lamp.needsAdaptor = place >= 0 && model.needsAdaptor(*type);
    lamp.accepted = place >= 0;
    lamp.lamphouse = lamphouse;
    plant.lamp[plant.lamps] = lamp;
    return plant.lamps++;
}

StepContext contextOf(const catalogue::ProjectorModel& model, Index lamphouse)
{
    StepContext context;
    context.lamphouse = lamphouse;
    for (Index other = 0; other < model.lamphouses.size(); ++other) {
        if (other != lamphouse && context.otherLamphouse == kNone)
            context.otherLamphouse = other;
    }
    for (Index point = 0; point < model.isolation.size(); ++point)
        context.points.insert(model.isolation[point].id, point);
    for (const catalogue::TestPoint& point : model.testPoints) {
        if (point.cover == catalogue::Cover::Guard)
            context.testPointsBehindGuard.insert(point.id);
    }
    return context;
}

} // namespace coldarc::procedure
