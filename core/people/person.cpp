#include "core/people/person.h"

#include "core/people/words.h"

namespace coldarc::people {
namespace {

constexpr std::array<std::string_view, kRoles> kWords{"engineer", "trainee", "supervisor", "electrician"};

} // namespace

std::string_view wordOf(Role role)
{
    return kWords[static_cast<std::size_t>(role)];
}

std::optional<Role> roleFromWord(std::string_view word)
{
    return valueOf<Role>(kWords, word);
}

} // namespace coldarc::people
