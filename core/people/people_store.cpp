#include "core/people/people_store.h"

#include "core/people/store_text.h"

using namespace Qt::StringLiterals;

namespace coldarc::people {
namespace {

Result<Person> personFrom(const store::Row& row)
{
    const auto role = roleFromWord(row.text(u"role").toStdString());
    if (!role || (!row.isNull(u"retired_on") && !dayIn(row, u"retired_on")))
        return fail(Error::Kind::Malformed, u"person "_s + row.text(u"person_id"));
    return Person{
        PersonId(row.text(u"person_id")), row.text(u"name"), *role, row.text(u"phone"), row.text(u"email"),
        dayIn(row, u"retired_on")};
}

} // namespace

Result<void> PeopleStore::add(const Person& person)
{
    Q_ASSERT_X(!person.retiredOn, "PeopleStore::add", "nobody comes retired");
    return doneOf(m_database->run(u"INSERT INTO person(person_id, name, role, phone, email, retired_on) "
                                  "VALUES(:person, :name, :role, :phone, :email, NULL)"_s,
                                  {{u":person"_s, person.id.text()},
                                   {u":name"_s, person.name},
                                   {u":role"_s, wordText(wordOf(person.role))},
                                   {u":phone"_s, person.phone},
                                   {u":email"_s, person.email}}));
}

Result<void> PeopleStore::change(const Person& person)
{
    return changedOne(
        m_database->run(u"UPDATE person SET name = :name, role = :role, phone = :phone, email = :email "
                        "WHERE person_id = :person"_s,
                        {{u":person"_s, person.id.text()},
                         {u":name"_s, person.name},
                         {u":role"_s, wordText(wordOf(person.role))},
                         {u":phone"_s, person.phone},
                         {u":email"_s, person.email}}),
        u"person "_s + person.id.text());
}

Result<void> PeopleStore::retire(const PersonId& person, Day day, const Stamp& now)
{
    return m_database->transaction([&]() -> Result<void> {
        const auto retired =
            changedOne(m_database->run(u"UPDATE person SET retired_on = :day WHERE person_id = :person"_s,
                                       {{u":person"_s, person.text()}, {u":day"_s, isoText(day)}}),
                       u"person "_s + person.text());
        if (!retired)
            return retired;
        return doneOf(m_database->run(
            u"UPDATE signing_key SET retired_at_ms = :at, salt = NULL, nonce = NULL, box = NULL "
            "WHERE person_id = :person AND retired_at_ms IS NULL"_s,
            {{u":person"_s, person.text()}, {u":at"_s, msOf(now.wall)}}));
    });
}

Result<Person> PeopleStore::person(const PersonId& person) const
{
    const auto found = m_database->run(
        u"SELECT person_id, name, role, phone, email, retired_on FROM person WHERE person_id = :person"_s,
        {{u":person"_s, person.text()}});
    if (!found)
        return tl::unexpected(found.error());
    if (found->rows.empty())
        return fail(Error::Kind::NotFound, u"person "_s + person.text());
    return personFrom(found->rows.front());
}

Result<std::vector<Person>> PeopleStore::all() const
{
    const auto found = m_database->run(
        u"SELECT person_id, name, role, phone, email, retired_on FROM person ORDER BY name, person_id"_s);
    if (!found)
        return tl::unexpected(found.error());
    std::vector<Person> persons;
    for (const store::Row& row : found->rows) {
        auto person = personFrom(row);
        if (!person)
            return tl::unexpected(person.error());
        persons.push_back(std::move(*person));
    }
    return persons;
}

Result<void> PeopleStore::give(const Authorisation& authorisation)
{
    Q_ASSERT_X(!authorisation.withdrawnOn, "PeopleStore::give", "nothing is given withdrawn");
    return m_database->transaction([&]() -> Result<void> {
        const auto given = doneOf(
            m_database->run(u"INSERT INTO authorisation(authorisation_id, person_id, duty, all_models, "
                            u"from_day, until_day, given_by) "
                            "VALUES(:authorisation, :person, :duty, :all_models, :from, :until, :given_by)"_s,
                            {{u":authorisation"_s, authorisation.id.text()},
                             {u":person"_s, authorisation.person.text()},
                             {u":duty"_s, wordText(wordOf(authorisation.duty))},
                             {u":all_models"_s, authorisation.models ? 0 : 1},
                             {u":from"_s, isoText(authorisation.from)},
                             {u":until"_s, isoText(authorisation.until)},
                             {u":given_by"_s, authorisation.givenBy.text()}}));
        if (!given)
            return given;
        for (const ModelId& model : authorisation.models.value_or(std::vector<ModelId>())) {
            const auto named = doneOf(m_database->run(
                u"INSERT INTO authorisation_model(authorisation_id, model_id) VALUES(:authorisation, :model)"_s,
                {{u":authorisation"_s, authorisation.id.text()}, {u":model"_s, model.text()}}));
            if (!named)
                return named;
        }
        return {};
    });
}

Result<void> PeopleStore::withdraw(const AuthorisationId& authorisation, Day day, const PersonId& by)
{
    return doneOf(m_database->run(
        u"INSERT INTO authorisation_withdrawal(authorisation_id, withdrawn_on, withdrawn_by) "
        "VALUES(:authorisation, :day, :by)"_s,
        {{u":authorisation"_s, authorisation.text()}, {u":day"_s, isoText(day)}, {u":by"_s, by.text()}}));
}

Result<std::vector<ModelId>> PeopleStore::modelsOf(const AuthorisationId& authorisation) const
{
    const auto found = m_database->run(
        u"SELECT model_id FROM authorisation_model WHERE authorisation_id = :authorisation ORDER BY rowid"_s,
        {{u":authorisation"_s, authorisation.text()}});
    if (!found)
        return tl::unexpected(found.error());
    std::vector<ModelId> models;
    for (const store::Row& row : found->rows)
        models.emplace_back(row.text(u"model_id"));
    return models;
}

Result<Authorisation> PeopleStore::authorisationFrom(const store::Row& row) const
{
    const AuthorisationId id(row.text(u"authorisation_id"));
    const auto duty = dutyFromWord(row.text(u"duty").toStdString());
    const auto from = dayIn(row, u"from_day");
    const auto until = dayIn(row, u"until_day");
    if (!duty || !from || !until || (!row.isNull(u"withdrawn_on") && !dayIn(row, u"withdrawn_on")))
        return fail(Error::Kind::Malformed, u"authorisation "_s + id.text());
    auto models = modelsOf(id);
    if (!models)
        return tl::unexpected(models.error());
    Authorisation authorisation{id,
                                PersonId(row.text(u"person_id")),
                                *duty,
                                std::nullopt,
                                *from,
                                *until,
                                PersonId(row.text(u"given_by")),
                                dayIn(row, u"withdrawn_on")};
    if (!row.flag(u"all_models"))
        authorisation.models = std::move(*models);
    return authorisation;
}

Result<std::vector<Authorisation>> PeopleStore::authorisationsOf(const PersonId& person) const
{
    const auto found = m_database->run(
        u"SELECT authorisation_id, person_id, duty, all_models, from_day, until_day, given_by, withdrawn_on "
        "FROM authorisation LEFT JOIN authorisation_withdrawal USING (authorisation_id) "
        "WHERE person_id = :person ORDER BY authorisation.rowid"_s,
        {{u":person"_s, person.text()}});
    if (!found)
        return tl::unexpected(found.error());
    std::vector<Authorisation> authorisations;
    for (const store::Row& row : found->rows) {
        auto authorisation = authorisationFrom(row);
        if (!authorisation)
            return tl::unexpected(authorisation.error());
        authorisations.push_back(std::move(*authorisation));
    }
    return authorisations;
}

} // namespace coldarc::people
