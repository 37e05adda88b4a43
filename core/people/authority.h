#pragma once

#include "core/people/person.h"

#include <vector>

namespace coldarc::people {

using AuthorisationId = Id<struct AuthorisationTag>;

/// What an authorisation lets somebody do.
enum class Duty : std::uint8_t {
    LampSwap,     ///< work on the lamphouses of the named models
    ProveAbsence, ///< qualified to test that no voltage is there
    Supervise,    ///< review visits, release after an incident, remove an absent owner's lock
};
inline constexpr int kDuties = static_cast<int>(Duty::Supervise) + 1;

/// "lamp-swap", "prove-absence", "supervise".
[[nodiscard]] std::string_view wordOf(Duty duty);
[[nodiscard]] std::optional<Duty> dutyFromWord(std::string_view word);

/// Whether somebody in this role can be authorised for this at all. A trainee never supervises, not even
/// beside somebody; an electrician neither supervises nor works on lamps.
[[nodiscard]] bool canEverHold(Role role, Duty duty);

/// Given once and never changed: a longer one is a new one, a wrong one is withdrawn.
struct Authorisation {
    AuthorisationId id;
    PersonId person;
    Duty duty = Duty::LampSwap;
    /// The projector models it holds for; nothing means every model. An empty list holds for no model.
    std::optional<std::vector<ModelId>> models;
    Day from;  ///< first day on which it holds
    Day until; ///< last day on which it holds
    PersonId givenBy;
    std::optional<Day> withdrawnOn; ///< first day on which it no longer holds

    friend bool operator==(const Authorisation&, const Authorisation&) = default;
};

/// Why one authorisation does not carry the work asked about. In order from far off to nearly.
enum class Shortfall : std::uint8_t {
    OtherModel,
    Withdrawn,
    Expired,
    NotYet,
};

/// What somebody may do on one day.
struct Authority {
    enum class Verdict : std::uint8_t {
        Valid,
        UnderSupervision, ///< a trainee's valid authorisation: only beside somebody whose own verdict is
                          ///< Valid
        Expired,
        NotYet,
        Withdrawn,
        OtherModel, ///< holds the duty, for other models only
        None,       ///< holds no authorisation for this duty
        Retired,
        RoleNever, ///< a duty that nobody in this role has, see canEverHold
    };
    /// One authorisation for the duty that was looked at and does not hold.
    struct Reason {
        AuthorisationId authorisation;
        Shortfall shortfall = Shortfall::OtherModel;
        friend bool operator==(const Reason&, const Reason&) = default;
    };

    PersonId person;
    Duty duty = Duty::LampSwap;
    Verdict verdict = Verdict::None;
    /// Valid and UnderSupervision: the last day on which it still holds. Nothing otherwise.
    std::optional<Day> until;
    /// Every authorisation for this duty that does not hold, in the order given.
    std::vector<Reason> reasons;

    friend bool operator==(const Authority&, const Authority&) = default;
};

/// Judges one person for one duty on one model and day. Authorisations of other people are passed over. Of
/// several that hold, the one that lasts longest counts; of several that do not, the one nearest to holding
/// names the verdict. A day that does not exist holds for nothing.
[[nodiscard]] Authority authorityOf(const Person& person, const std::vector<Authorisation>& authorisations,
                                    Duty duty, const ModelId& model, Day day);

} // namespace coldarc::people
