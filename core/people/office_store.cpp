#include "core/people/office_store.h"

#include "core/people/jws.h"
#include "core/people/sealed_rows.h"
#include "core/people/store_text.h"
#include "core/people/trust.h"

#include <algorithm>
#include <map>

using namespace Qt::StringLiterals;

namespace coldarc::people {
namespace {

Result<Office> officeFrom(const store::Row& row)
{
    const auto key = PublicKey::fromBytes(row.bytes(u"public_key"));
    if (!key)
        return fail(Error::Kind::Malformed, u"office.public_key"_s);
    Office office{*key, row.text(u"name"), wallOf(row.whole(u"known_at_ms")), PersonId(row.text(u"known_by")),
                  row.flag(u"is_own")};
    if (!row.isNull(u"dropped_at_ms"))
        office.droppedAt = wallOf(row.whole(u"dropped_at_ms"));
    return office;
}

template<class Paper>
Result<std::vector<Paper>> papersFrom(const Result<store::Answer>& found)
{
    if (!found)
        return tl::unexpected(found.error());
    std::vector<Paper> papers;
    for (const store::Row& row : found->rows) {
        const auto signature = Signature::fromBytes(row.bytes(u"signature"));
        if (!signature)
            return fail(Error::Kind::Malformed, u"signature of an office"_s);
        papers.push_back({{row.bytes(u"protected_header"), row.bytes(u"payload")}, *signature});
    }
    return papers;
}

} // namespace

PersonId officeHolder()
{
    return PersonId(u"office"_s);
}

Result<void> OfficeStore::found(const QString& name, const SealedKey& sealed, const PersonId& by,
                                const Stamp& now)
{
    return doneOf(m_database->run(u"INSERT INTO office(public_key, name, known_at_ms, known_by, salt, nonce, "
                                  u"box, passes, memory_kib) "
                                  "VALUES(:key, :name, :at, :by, :salt, :nonce, :box, :passes, :memory)"_s,
                                  bindingsOf(sealed) + store::Bindings{{u":name"_s, name.trimmed()},
                                                                       {u":at"_s, msOf(now.wall)},
                                                                       {u":by"_s, by.text()}}));
}

Result<void> OfficeStore::reseal(const SealedKey& sealed)
{
    return people::reseal(*m_database,
                          u"UPDATE office SET salt = :salt, nonce = :nonce, box = :box, passes = :passes, "
                          "memory_kib = :memory WHERE public_key = :key AND salt IS NOT NULL"_s,
                          sealed, u"key of an office of this workspace"_s, *this);
}

Result<void> OfficeStore::takeUp(const PublicKey& key, const QString& name, const PersonId& by,
                                 const Stamp& now)
{
    const store::Bindings values{{u":key"_s, key.bytes()},
                                 {u":name"_s, name.trimmed()},
                                 {u":at"_s, msOf(now.wall)},
                                 {u":by"_s, by.text()}};
    const auto again = m_database->run(u"UPDATE office SET name = :name, known_at_ms = :at, known_by = :by, "
                                       u"dropped_at_ms = NULL "
                                       "WHERE public_key = :key AND dropped_at_ms IS NOT NULL"_s,
                                       values);
    if (!again)
        return tl::unexpected(again.error());
    if (again->changed > 0)
        return {};
    return doneOf(m_database->run(
        u"INSERT INTO office(public_key, name, known_at_ms, known_by) VALUES(:key, :name, :at, :by)"_s,
        values));
}

Result<void> OfficeStore::drop(const PublicKey& key, const Stamp& now)
{
    return changedOne(m_database->run(u"UPDATE office SET dropped_at_ms = :at "
                                      "WHERE public_key = :key AND dropped_at_ms IS NULL AND salt IS NULL"_s,
                                      {{u":at"_s, msOf(now.wall)}, {u":key"_s, key.bytes()}}),
                      u"office of another workspace "_s + thumbprint(key));
}

Result<std::vector<Office>> OfficeStore::offices() const
{
    const auto found = m_database->run(u"SELECT public_key, name, known_at_ms, known_by, dropped_at_ms, "
                                       "salt IS NOT NULL AS is_own FROM office ORDER BY rowid"_s);
    if (!found)
        return tl::unexpected(found.error());
    std::vector<Office> offices;
    for (const store::Row& row : found->rows) {
        auto office = officeFrom(row);
        if (!office)
            return tl::unexpected(office.error());
        offices.push_back(std::move(*office));
    }
    return offices;
}

Result<Office> OfficeStore::own() const
{
    const auto all = offices();
    if (!all)
        return tl::unexpected(all.error());
    const auto own = std::ranges::find_if(*all, &Office::isOwn);
    if (own == all->end())
        return fail(Error::Kind::NotFound, u"an office of this workspace"_s);
    return *own;
}

Result<std::vector<Office>> OfficeStore::believed() const
{
    auto all = offices();
    if (all)
        std::erase_if(*all, [](const Office& one) { return one.droppedAt.has_value(); });
    return all;
}

/// The key of that thumbprint, of an office that is believed.
Result<PublicKey> OfficeStore::believedKey(const QString& office) const
{
    const auto all = believed();
    if (!all)
        return tl::unexpected(all.error());
    const auto found = std::ranges::find(*all, office, [](const Office& one) { return thumbprint(one.key); });
    if (found == all->end())
        return fail(Error::Kind::NotFound, u"office "_s + office);
    return found->key;
}

Result<void> OfficeStore::keep(const Certificate& certificate, const Stamp& now)
{
    const auto said = saidBy(certificate);
    if (!said)
        return fail(Error::Kind::Malformed, u"no certificate of enrolment"_s);
    const auto office = believedKey(said->office);
    if (!office)
        return tl::unexpected(office.error());
    if (!isCertifiedBy(*office, certificate, *said))
        return fail(Error::Kind::Malformed, u"the office did not sign this certificate"_s);
    return insert(certificate, said->enrolment, *office, now);
}

Result<void> OfficeStore::insert(const Certificate& certificate, const Enrolment& said,
                                 const PublicKey& office, const Stamp& now)
{
    return doneOf(
        m_database->run(u"INSERT INTO enrolment_certificate(signature, public_key, office_key, "
                        u"protected_header, payload, kept_at_ms) "
                        "VALUES(:signature, :key, :office, :header, :payload, :at) ON CONFLICT DO NOTHING"_s,
                        {{u":signature"_s, certificate.signature.bytes()},
                         {u":key"_s, said.key.bytes()},
                         {u":office"_s, office.bytes()},
                         {u":header"_s, certificate.jws.protectedHeader},
                         {u":payload"_s, certificate.jws.payload},
                         {u":at"_s, msOf(now.wall)}}));
}

Result<std::vector<Certificate>> OfficeStore::certificatesOf(const PublicKey& key) const
{
    return papersFrom<Certificate>(
        m_database->run(u"SELECT protected_header, payload, signature "
                        "FROM enrolment_certificate WHERE public_key = :key ORDER BY rowid"_s,
                        {{u":key"_s, key.bytes()}}));
}

Result<std::vector<Certificate>> OfficeStore::certificatesOf(const PersonId& person) const
{
    auto certificates = papersFrom<Certificate>(m_database->run(
        u"SELECT protected_header, payload, signature FROM enrolment_certificate ORDER BY rowid"_s));
    if (certificates) {
        std::erase_if(*certificates, [&](const Certificate& one) {
            const auto said = saidBy(one);
            return !said || said->enrolment.person != person;
        });
    }
    return certificates;
}

Result<std::vector<Certificate>> OfficeStore::certificatesBy(const PublicKey& office) const
{
    return papersFrom<Certificate>(
        m_database->run(u"SELECT protected_header, payload, signature "
                        "FROM enrolment_certificate WHERE office_key = :office ORDER BY rowid"_s,
                        {{u":office"_s, office.bytes()}}));
}

Result<void> OfficeStore::keep(const SignedRetirement& paper, const Stamp& now)
{
    const auto said = saidBy(paper);
    if (!said)
        return fail(Error::Kind::Malformed, u"no retirement of a key"_s);
    const auto office = believedKey(said->office);
    if (!office)
        return tl::unexpected(office.error());
    if (!isRetiredBy(*office, paper, *said))
        return fail(Error::Kind::Malformed, u"the office did not sign this retirement"_s);
    return insert(paper, said->retirement, *office, now);
}

Result<void> OfficeStore::keep(const Trust& heard, const Stamp& now)
{
    const auto all = believed();
    if (!all)
        return tl::unexpected(all.error());
    std::map<QString, PublicKey> known;
    for (const Office& one : *all)
        known.emplace(thumbprint(one.key), one.key);
    return m_database->transaction([&]() -> Result<void> {
        for (const auto& one : heard.heardCertificates()) {
            const auto office = known.find(one.said.office);
            if (office == known.end())
                continue;
            if (auto kept = insert(one.paper, one.said.enrolment, office->second, now); !kept)
                return kept;
        }
        for (const auto& one : heard.heardRetirements()) {
            const auto office = known.find(one.said.office);
            if (office == known.end())
                continue;
            if (auto kept = insert(one.paper, one.said.retirement, office->second, now); !kept)
                return kept;
        }
        return {};
    });
}

Result<void> OfficeStore::insert(const SignedRetirement& paper, const Retirement& said,
                                 const PublicKey& office, const Stamp& now)
{
    return doneOf(
        m_database->run(u"INSERT INTO key_retirement(signature, public_key, office_key, protected_header, "
                        u"payload, kept_at_ms) "
                        "VALUES(:signature, :key, :office, :header, :payload, :at) ON CONFLICT DO NOTHING"_s,
                        {{u":signature"_s, paper.signature.bytes()},
                         {u":key"_s, said.key.bytes()},
                         {u":office"_s, office.bytes()},
                         {u":header"_s, paper.jws.protectedHeader},
                         {u":payload"_s, paper.jws.payload},
                         {u":at"_s, msOf(now.wall)}}));
}

Result<std::vector<SignedRetirement>> OfficeStore::retirementsOf(const PublicKey& key) const
{
    return papersFrom<SignedRetirement>(
        m_database->run(u"SELECT protected_header, payload, signature "
                        "FROM key_retirement WHERE public_key = :key ORDER BY rowid"_s,
                        {{u":key"_s, key.bytes()}}));
}

Result<SealedKey> OfficeStore::sealedKey(const PersonId& holder) const
{
    const auto found = m_database->run(u"SELECT public_key, salt, nonce, box, passes, memory_kib FROM office "
                                       "WHERE salt IS NOT NULL"_s);
    if (!found)
        return tl::unexpected(found.error());
    if (found->rows.empty() || holder != officeHolder())
        return fail(Error::Kind::NotFound, u"key of an office of this workspace"_s);
    return sealedKeyFrom(found->rows.front());
}

Result<Attempts> OfficeStore::attempts(const PublicKey& key) const
{
    const auto found = m_database->run(u"SELECT wrong, wall_at_ms, machine, boot, since_boot_ms, asleep_ms "
                                       "FROM office_attempt WHERE public_key = :key"_s,
                                       {{u":key"_s, key.bytes()}});
    if (!found)
        return tl::unexpected(found.error());
    return attemptsIn(found->rows);
}

Result<void> OfficeStore::setAttempts(const PublicKey& key, const Attempts& attempts)
{
    if (!attempts.lastWrong)
        return doneOf(m_database->run(u"DELETE FROM office_attempt WHERE public_key = :key"_s,
                                      {{u":key"_s, key.bytes()}}));
    return doneOf(m_database->run(
        u"INSERT INTO office_attempt(public_key, wrong, wall_at_ms, machine, boot, since_boot_ms, asleep_ms) "
        "VALUES(:key, :wrong, :wall, :machine, :boot, :since_boot, :asleep) "
        "ON CONFLICT(public_key) DO UPDATE SET wrong = excluded.wrong, wall_at_ms = excluded.wall_at_ms, "
        "machine = excluded.machine, boot = excluded.boot, since_boot_ms = excluded.since_boot_ms, "
        "asleep_ms = excluded.asleep_ms"_s,
        bindingsOf(key, attempts)));
}

} // namespace coldarc::people
