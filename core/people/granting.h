#pragma once

#include "core/people/authority.h"

#include <vector>

namespace coldarc::people {

/// Somebody of the workspace with every authorisation that was ever given to them.
struct Holder {
    Person person;
    std::vector<Authorisation> authorisations;
    bool hasKey = true; ///< whoever has none in use cannot sign in, and so cannot be asked

    friend bool operator==(const Holder&, const Holder&) = default;
};

/// What changes what somebody may do.
enum class Grant : std::uint8_t {
    Give,        ///< an authorisation, for anything but to supervise
    Supervision, ///< an authorisation to supervise
    Withdraw,    ///< an authorisation
    Retire,      ///< the person, or their key
    Key,         ///< a new one for somebody who has none
    Vouch,       ///< for keys, in the name of an office; the office's passphrase is asked besides
};

enum class GrantVerdict : std::uint8_t {
    Supervises,          ///< allowed: supervises today
    NobodySupervises,    ///< allowed: nobody of the workspace supervises today, so nobody could be asked
    SupervisesOtherDays, ///< allowed: nobody supervises today, and this one does on other days
    NotASupervisor,      ///< refused: somebody else supervises
    OthersOnOtherDays,   ///< refused: nobody supervises today, and somebody else does on other days
    OwnOnes,             ///< refused: to give oneself more, or a key, now that somebody supervises
};
[[nodiscard]] constexpr bool isAllowed(GrantVerdict verdict)
{
    return verdict == GrantVerdict::Supervises || verdict == GrantVerdict::NobodySupervises ||
           verdict == GrantVerdict::SupervisesOtherDays;
}

/// Whether this person holds an authorisation to supervise today, for whichever models. Nobody who is
/// retired, and nobody in a role that never supervises.
[[nodiscard]] bool supervises(const Holder& holder, Day today);

/// Whether this person was authorised to supervise for whichever days, nobody withdrew that, and they are
/// still here.
[[nodiscard]] bool supervisesSomeDay(const Holder& holder);

/// Whether `by` may give, withdraw, retire, vouch or make a key, of `whom`. Who supervises does, though never
/// gives themselves more; where nobody supervises who could be asked, everybody does, themselves included:
/// somebody alone at an own laptop asks nobody. What is given says in either case by whom. What a key signs
/// does not say who made it: where anybody supervises, with a key or without, a key is made by somebody who
/// does. Where supervision merely ran out or has not begun, whoever has it for those days acts; anybody else
/// gives what the work needs, and nothing that bears on who supervises: a clock that is set makes no
/// supervisor.
/// @param everybody  of the workspace.
[[nodiscard]] GrantVerdict grantVerdict(Grant grant, const PersonId& by, const PersonId& whom,
                                        const std::vector<Holder>& everybody, Day today);

/// The first day for which `by` may give an authorisation: today, where nobody supervises today and others do
/// on other days, so that nothing is given for days on which somebody could be asked; else nothing.
[[nodiscard]] std::optional<Day> firstDayToGive(const PersonId& by, const std::vector<Holder>& everybody,
                                                Day today);

} // namespace coldarc::people
