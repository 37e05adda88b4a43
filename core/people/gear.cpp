#include "core/people/gear.h"

namespace coldarc::people {

GearVerdict gearVerdict(const GearItem& item, Day today, GearCondition condition)
{
    Q_ASSERT_X(today.ok(), "gearVerdict", "today must be a day of the calendar");
    const Month month(today.year(), today.month());
    const bool madeLater = item.made && (*item.made > month || (item.expires && *item.made > *item.expires));

    GearVerdict verdict;
    if (condition == GearCondition::Damaged)
        verdict.refusals.push_back(GearRefusal::Damaged);
    if (item.expires && *item.expires < month)
        verdict.refusals.push_back(GearRefusal::PastItsMonth);
    if (item.lastInspection && item.lastInspection->outcome == GearInspection::Outcome::Withdrawn)
        verdict.refusals.push_back(GearRefusal::WithdrawnAtInspection);
    if (madeLater)
        verdict.refusals.push_back(GearRefusal::DatesContradict);
    return verdict;
}

} // namespace coldarc::people
