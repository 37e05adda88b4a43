#include "core/people/authority.h"

#include "core/people/words.h"

#include <algorithm>

namespace coldarc::people {
namespace {

constexpr std::array<std::string_view, kDuties> kWords{"lamp-swap", "prove-absence", "supervise"};

bool names(const Authorisation& authorisation, const ModelId& model)
{
    if (!authorisation.models)
        return true;
    return std::find(authorisation.models->begin(), authorisation.models->end(), model) !=
           authorisation.models->end();
}

/// Nothing when the authorisation holds.
std::optional<Shortfall> shortfallOf(const Authorisation& authorisation, const ModelId& model, Day day)
{
    if (!names(authorisation, model))
        return Shortfall::OtherModel;
    if (authorisation.withdrawnOn && *authorisation.withdrawnOn <= day)
        return Shortfall::Withdrawn;
    if (!authorisation.from.ok() || !authorisation.until.ok() || !day.ok() || authorisation.until < day)
        return Shortfall::Expired;
    if (day < authorisation.from)
        return Shortfall::NotYet;
    return std::nullopt;
}

Authority::Verdict verdictOf(Shortfall shortfall)
{
    switch (shortfall) {
    case Shortfall::OtherModel:
        return Authority::Verdict::OtherModel;
    case Shortfall::Withdrawn:
        return Authority::Verdict::Withdrawn;
    case Shortfall::Expired:
        return Authority::Verdict::Expired;
    case Shortfall::NotYet:
        return Authority::Verdict::NotYet;
    }
    return Authority::Verdict::None;
}

/// The day before `day`.
Day before(Day day)
{
    return std::chrono::sys_days(day) - std::chrono::days(1);
}

Day lastDayOf(const Authorisation& authorisation)
{
    if (authorisation.withdrawnOn && *authorisation.withdrawnOn <= authorisation.until)
        return before(*authorisation.withdrawnOn);
    return authorisation.until;
}

Authority::Verdict verdictFrom(const Authority& found, const Person& person)
{
    if (found.until)
        return person.role == Role::Trainee ? Authority::Verdict::UnderSupervision
                                            : Authority::Verdict::Valid;
    if (found.reasons.empty())
        return Authority::Verdict::None;
    const auto nearest =
        std::max_element(found.reasons.begin(), found.reasons.end(),
                         [](const auto& a, const auto& b) { return a.shortfall < b.shortfall; });
    return verdictOf(nearest->shortfall);
}

} // namespace

std::string_view wordOf(Duty duty)
{
    return kWords[static_cast<std::size_t>(duty)];
}

std::optional<Duty> dutyFromWord(std::string_view word)
{
    return valueOf<Duty>(kWords, word);
}

bool canEverHold(Role role, Duty duty)
{
    switch (role) {
    case Role::Engineer:
    case Role::Supervisor:
        return true;
    case Role::Trainee:
        return duty != Duty::Supervise;
    case Role::Electrician:
        return duty == Duty::ProveAbsence;
    }
    return false;
}

Authority authorityOf(const Person& person, const std::vector<Authorisation>& authorisations, Duty duty,
                      const ModelId& model, Day day)
{
    Authority authority;
    authority.person = person.id;
    authority.duty = duty;
    if (person.retiredOn && *person.retiredOn <= day) {
        authority.verdict = Authority::Verdict::Retired;
        return authority;
    }
    if (!canEverHold(person.role, duty)) {
        authority.verdict = Authority::Verdict::RoleNever;
        return authority;
    }
    for (const Authorisation& authorisation : authorisations) {
        if (authorisation.person != person.id || authorisation.duty != duty)
            continue;
        if (const auto shortfall = shortfallOf(authorisation, model, day))
            authority.reasons.push_back({authorisation.id, *shortfall});
        else
            authority.until = std::max(authority.until.value_or(day), lastDayOf(authorisation));
    }
    authority.verdict = verdictFrom(authority, person);
    return authority;
}

} // namespace coldarc::people
