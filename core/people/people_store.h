#pragma once

#include "core/base/clock.h"
#include "core/people/authority.h"
#include "core/store/database.h"

namespace coldarc::people {

/// The persons of one workspace and what they are authorised for. Nobody is removed and no id comes free
/// again; an authorisation is given or withdrawn, never changed.
class PeopleStore {
public:
    /// Borrows the database, which must outlive this. Schema: step 0002.
    explicit PeopleStore(store::Database& database)
        : m_database(&database)
    {
    }

    /// Conflict if the id is taken, by a retired person too. Pre: not retired yet.
    Result<void> add(const Person& person);
    /// Writes name, role, phone and email. NotFound if there is no such person, Conflict if retired.
    Result<void> change(const Person& person);
    /// From `day` on. The signing key goes with the person: it is retired at `now`, its seal removed.
    /// NotFound if there is no such person, Conflict if retired already.
    Result<void> retire(const PersonId& person, Day day, const Stamp& now);

    /// NotFound if there is none.
    [[nodiscard]] Result<Person> person(const PersonId& person) const;
    /// Everybody, retired ones too, by name.
    [[nodiscard]] Result<std::vector<Person>> all() const;

    /// Conflict if the id is taken or a person named in it is not there, Malformed if it ends before it
    /// begins. Pre: not withdrawn.
    Result<void> give(const Authorisation& authorisation);
    /// From `day` on. Conflict if it is not there or withdrawn already.
    Result<void> withdraw(const AuthorisationId& authorisation, Day day, const PersonId& by);
    /// In the order in which they were given, withdrawn and expired ones too.
    [[nodiscard]] Result<std::vector<Authorisation>> authorisationsOf(const PersonId& person) const;

private:
    [[nodiscard]] Result<std::vector<ModelId>> modelsOf(const AuthorisationId& authorisation) const;
    [[nodiscard]] Result<Authorisation> authorisationFrom(const store::Row& row) const;

    store::Database* m_database;
};

} // namespace coldarc::people
