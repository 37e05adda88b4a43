#pragma once

#include "core/people/authority.h"
#include "core/people/sealed_key.h"

#include <functional>
#include <optional>

namespace coldarc::ui {

/// A person, their key and what they are authorised for, to be kept together or not at all.
struct Enrolment {
    people::Person person;
    std::optional<people::SealedKey> key; ///< nothing: signs nothing yet
    std::vector<people::Authorisation> authorisations;
};

/// Keeps an enrolment in one transaction. The program's root gives it.
using Enrol = std::function<Result<void>(const Enrolment&)>;

} // namespace coldarc::ui
