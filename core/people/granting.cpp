#include "core/people/granting.h"

#include <algorithm>

namespace coldarc::people {

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
        return GrantVerdict::NobodySupervises;
    if ((grant == Grant::Give || grant == Grant::Key) && whom == by)
        return GrantVerdict::OwnOnes;
    return isThisOne ? GrantVerdict::Supervises : GrantVerdict::NotASupervisor;
}

} // namespace coldarc::people
