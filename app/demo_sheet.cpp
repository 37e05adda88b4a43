#include "app/demo_sheet.h"

#include "core/visit/sheet_of_visit.h"

#include <algorithm>
#include <cmath>

using namespace Qt::StringLiterals;

namespace coldarc::app {
namespace {

using photometry::Place;

struct DemoPoint {
    Place place;
    double share; ///< of the centre's light
    double x;
    double y;
};
/// An invented screen: a little darker to the right, the white a little yellow in a corner.
constexpr std::array<DemoPoint, 7> kPoints{{{Place::Centre, 1.0, 0.3152, 0.3524},
                                            {Place::Left, 0.862, 0.3149, 0.3519},
                                            {Place::Right, 0.833, 0.3158, 0.3527},
                                            {Place::TopLeft, 0.804, 0.3146, 0.3512},
                                            {Place::TopRight, 0.781, 0.3163, 0.3538},
                                            {Place::BottomLeft, 0.812, 0.3148, 0.3516},
                                            {Place::BottomRight, 0.776, 0.3161, 0.3531}}};

photometry::Conditions demoConditions(const visit::VisitState& state, machine::Index lamp,
                                      std::chrono::seconds litFor, WallTime now)
{
    photometry::Conditions conditions;
    conditions.lit = litFor;
    conditions.day = people::utcDayOf(now);
    conditions.meter.name = u"Spot meter 2"_s;
    conditions.meter.acceptanceDegrees = 1;
    conditions.meter.calibratedOn = people::utcDayOf(now - std::chrono::days(140));
    conditions.position = photometry::MeterPosition::MiddleRow;
    conditions.distanceM = 13;
    conditions.screen = photometry::ScreenSize::fromWidthAndAspect(11.5, 2.39);
    conditions.format = u"Scope, white field"_s;
    conditions.darkReading = photometry::Luminance::fromCdPerM2(0.02);
    const auto& type = state.ground->lamps[lamp].type;
    if (const catalogue::LampType* known = type ? state.ground->catalogue.lampType(*type) : nullptr)
        conditions.lampWatts = known->ratedWatts;
    return conditions;
}

} // namespace

QList<visit::Body> demoSheet(const visit::VisitState& state, const visit::SwapState& swap,
                             const procedure::Step& step, const std::vector<photometry::ToleranceSet>& sets,
                             double centre, std::chrono::seconds litFor, WallTime now)
{
    const bool isAfter = visit::sheetTimeNow(swap) == visit::SheetTime::After;
    QList<visit::Body> bodies;
    visit::ScreenConditions said{swap.id, step.id};
    said.conditions = demoConditions(state, isAfter ? swap.newLamp : swap.oldLamp, litFor, now);
    bodies.append(said);
    const auto set = std::ranges::find_if(sets, [](const photometry::ToleranceSet& one) {
        return one.roomClass == photometry::RoomClass::Theatre && one.picture == photometry::Picture::Digital;
    });
    if (set != sets.end())
        bodies.append(visit::ScreenLimits{swap.id, step.id, *set});
    visit::ScreenRead read{swap.id, step.id};
    for (const DemoPoint& point : kPoints) {
        if (isAfter || point.place == Place::Centre)
            read.points.append({point.place, std::round(centre * point.share * 10) / 10,
                                photometry::Chromaticity::fromXy(point.x, point.y)});
    }
    bodies.append(read);
    return bodies;
}

} // namespace coldarc::app
