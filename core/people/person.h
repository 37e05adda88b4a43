#pragma once

#include "core/base/ids.h"
#include "core/people/calendar.h"

#include <cstdint>
#include <optional>
#include <string_view>

namespace coldarc::people {

enum class Role : std::uint8_t {
    Engineer,
    Trainee,     ///< acts only under direct supervision, whatever authorisation is held
    Supervisor,  ///< reviews; may also be authorised for work like an engineer
    Electrician, ///< proves absence of voltage; never swaps lamps or supervises, whatever authorisation is
                 ///< held
};
inline constexpr int kRoles = static_cast<int>(Role::Electrician) + 1;

/// The word that files and tables use: "engineer", "trainee", "supervisor", "electrician".
[[nodiscard]] std::string_view wordOf(Role role);
[[nodiscard]] std::optional<Role> roleFromWord(std::string_view word);

/// Somebody who signs with this program. The id is never given to another person; whoever leaves is retired,
/// not removed, since old records name them.
struct Person {
    PersonId id;
    QString name;
    Role role = Role::Trainee;
    QString phone; ///< may be empty
    QString email; ///< may be empty
    std::optional<Day> retiredOn;

    friend bool operator==(const Person&, const Person&) = default;
};

} // namespace coldarc::people
