#include "core/people/key_store.h"

#include "core/people/sealed_rows.h"
#include "core/people/store_text.h"

using namespace Qt::StringLiterals;

namespace coldarc::people {
namespace {

Result<EnrolledKey> enrolledFrom(const store::Row& row)
{
    const auto key = PublicKey::fromBytes(row.bytes(u"public_key"));
    if (!key)
        return fail(Error::Kind::Malformed, u"signing_key.public_key"_s);
    EnrolledKey enrolled{*key, PersonId(row.text(u"person_id")), wallOf(row.whole(u"enrolled_at_ms")),
                         std::nullopt};
    if (!row.isNull(u"retired_at_ms"))
        enrolled.retiredAt = wallOf(row.whole(u"retired_at_ms"));
    return enrolled;
}

} // namespace

Result<void> KeyStore::enrol(const PersonId& person, const SealedKey& sealed, const Stamp& now)
{
    return doneOf(m_database->run(
        u"INSERT INTO signing_key(public_key, person_id, enrolled_at_ms, salt, "
        u"nonce, box, passes, memory_kib) "
        "VALUES(:key, :person, :at, :salt, :nonce, :box, :passes, :memory)"_s,
        bindingsOf(sealed) + store::Bindings{{u":person"_s, person.text()}, {u":at"_s, msOf(now.wall)}}));
}

Result<void> KeyStore::reseal(const SealedKey& sealed)
{
    return people::reseal(
        *m_database,
        u"UPDATE signing_key SET salt = :salt, nonce = :nonce, box = :box, passes = :passes, "
        "memory_kib = :memory WHERE public_key = :key AND retired_at_ms IS NULL"_s,
        sealed, u"signing_key in use"_s, *this);
}

Result<void> KeyStore::retireKey(const PersonId& person, const Stamp& now)
{
    return changedOne(
        m_database->run(u"UPDATE signing_key SET retired_at_ms = :at, salt = NULL, nonce = NULL, box = NULL "
                        "WHERE person_id = :person AND retired_at_ms IS NULL"_s,
                        {{u":person"_s, person.text()}, {u":at"_s, msOf(now.wall)}}),
        u"signing_key in use of "_s + person.text());
}

Result<SealedKey> KeyStore::sealedKey(const PersonId& person) const
{
    const auto found =
        m_database->run(u"SELECT public_key, salt, nonce, box, passes, memory_kib FROM signing_key "
                        "WHERE person_id = :person AND retired_at_ms IS NULL"_s,
                        {{u":person"_s, person.text()}});
    if (!found)
        return tl::unexpected(found.error());
    if (found->rows.empty())
        return fail(Error::Kind::NotFound, u"signing_key in use of "_s + person.text());
    return sealedKeyFrom(found->rows.front());
}

Result<EnrolledKey> KeyStore::ownerOf(const PublicKey& key) const
{
    const auto found = m_database->run(
        u"SELECT public_key, person_id, enrolled_at_ms, retired_at_ms FROM signing_key WHERE public_key = :key"_s,
        {{u":key"_s, key.bytes()}});
    if (!found)
        return tl::unexpected(found.error());
    if (found->rows.empty())
        return fail(Error::Kind::NotFound, u"signing_key "_s + QString::fromLatin1(key.bytes().toHex()));
    return enrolledFrom(found->rows.front());
}

Result<std::vector<EnrolledKey>> KeyStore::keysOf(const PersonId& person) const
{
    const auto found =
        m_database->run(u"SELECT public_key, person_id, enrolled_at_ms, retired_at_ms FROM signing_key "
                        "WHERE person_id = :person ORDER BY rowid"_s,
                        {{u":person"_s, person.text()}});
    if (!found)
        return tl::unexpected(found.error());
    std::vector<EnrolledKey> keys;
    for (const store::Row& row : found->rows) {
        auto key = enrolledFrom(row);
        if (!key)
            return tl::unexpected(key.error());
        keys.push_back(std::move(*key));
    }
    return keys;
}

Result<Attempts> KeyStore::attempts(const PublicKey& key) const
{
    const auto found = m_database->run(u"SELECT wrong, wall_at_ms, machine, boot, since_boot_ms, asleep_ms "
                                       "FROM passphrase_attempt WHERE public_key = :key"_s,
                                       {{u":key"_s, key.bytes()}});
    if (!found)
        return tl::unexpected(found.error());
    return attemptsIn(found->rows);
}

Result<void> KeyStore::setAttempts(const PublicKey& key, const Attempts& attempts)
{
    if (!attempts.lastWrong)
        return doneOf(m_database->run(u"DELETE FROM passphrase_attempt WHERE public_key = :key"_s,
                                      {{u":key"_s, key.bytes()}}));
    return doneOf(m_database->run(
        u"INSERT INTO passphrase_attempt(public_key, wrong, wall_at_ms, machine, boot, since_boot_ms, "
        u"asleep_ms) "
        "VALUES(:key, :wrong, :wall, :machine, :boot, :since_boot, :asleep) "
        "ON CONFLICT(public_key) DO UPDATE SET wrong = excluded.wrong, wall_at_ms = excluded.wall_at_ms, "
        "machine = excluded.machine, boot = excluded.boot, since_boot_ms = excluded.since_boot_ms, "
        "asleep_ms = excluded.asleep_ms"_s,
        bindingsOf(key, attempts)));
}

} // namespace coldarc::people
