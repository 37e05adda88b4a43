#include "core/people/granting.h"

#include <algorithm>

namespace coldarc::people {
namespace {

GrantVerdict withoutSupervisor(Grant grant, const PersonId& by, const std::vector<Holder>& everybody)
{
    const auto isOnOtherDays = [](const Holder& one) { return one.hasKey && supervisesSomeDay(one); };
    if (std::ranges::none_of(everybody, isOnOtherDays))
        return GrantVerdict::NobodySupervises;
    const bool isThisOne = std::ranges::any_of(
        everybody, [&](const Holder& one) { return one.person.id == by && isOnOtherDays(one); });
    if (isThisOne)
        return GrantVerdict::SupervisesOtherDays;
    return grant == Grant::Give ? GrantVerdict::NobodySupervises : GrantVerdict::OthersOnOtherDays;
}

} // namespace

bool supervises(const Holder& holder, Day today)
{
    return std::ranges::any_of(holder.authorisations, [&](const Authorisation& one) {
        if (one.duty != Duty::Supervise || (one.models && one.models->empty()))
            return false;
        const ModelId model = one.models ? one.models->front() : ModelId();
        return authorityOf(holder.person, {one}, Duty::Supervise, model, today).verdict ==
               Authority::Verdict::Valid;
    });
}

bool supervisesSomeDay(const Holder& holder)
{
    return std::ranges::any_of(holder.authorisations, [&](const Authorisation& one) {
        Holder alone = holder;
        alone.authorisations = {one};
        return !holder.person.retiredOn && !one.withdrawnOn && supervises(alone, one.from);
    });
}

GrantVerdict grantVerdict(Grant grant, const PersonId& by, const PersonId& whom,
                          const std::vector<Holder>& everybody, Day today)
{
    bool isAnybody = false;
    bool isThisOne = false;
    for (const Holder& holder : everybody) {
        const bool does = supervises(holder, today);
        isAnybody = isAnybody || (does && (holder.hasKey || grant == Grant::Key));
        isThisOne = isThisOne || (does && holder.hasKey && holder.person.id == by);
    }
    if (!isAnybody)
        return withoutSupervisor(grant, by, everybody);
    const bool isForOneself = grant == Grant::Give || grant == Grant::Supervision || grant == Grant::Key;
    if (isForOneself && whom == by)
        return GrantVerdict::OwnOnes;
    return isThisOne ? GrantVerdict::Supervises : GrantVerdict::NotASupervisor;
}

std::optional<Day> firstDayToGive(const PersonId& by, const std::vector<Holder>& everybody, Day today)
{
    const bool isUpToOthers =
        grantVerdict(Grant::Supervision, by, {}, everybody, today) == GrantVerdict::OthersOnOtherDays;
    return isUpToOthers ? std::optional(today) : std::nullopt;
}

} // namespace coldarc::people
