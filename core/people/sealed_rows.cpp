#include "core/people/sealed_rows.h"

#include "core/people/store_text.h"

using namespace Qt::StringLiterals;

namespace coldarc::people {

Result<SealedKey> sealedKeyFrom(const store::Row& row)
{
    const auto key = PublicKey::fromBytes(row.bytes(u"public_key"));
    if (!key || row.whole(u"passes") > kMostCost.passes || row.whole(u"memory_kib") > kMostCost.memoryKib)
        return fail(Error::Kind::Malformed, u"a sealed key"_s);
    return SealedKey{
        *key,
        row.bytes(u"salt"),
        row.bytes(u"nonce"),
        row.bytes(u"box"),
        {static_cast<quint32>(row.whole(u"passes")), static_cast<quint32>(row.whole(u"memory_kib"))}};
}

store::Bindings bindingsOf(const SealedKey& sealed)
{
    return {{u":key"_s, sealed.publicKey.bytes()},
            {u":salt"_s, sealed.salt},
            {u":nonce"_s, sealed.nonce},
            {u":box"_s, sealed.box},
            {u":passes"_s, qint64(sealed.cost.passes)},
            {u":memory"_s, qint64(sealed.cost.memoryKib)}};
}

Result<void> reseal(store::Database& database, const QString& sql, const SealedKey& sealed,
                    const QString& what, SealedKeys& keys)
{
    return database.transaction([&]() -> Result<void> {
        if (auto changed = changedOne(database.run(sql, bindingsOf(sealed)), what); !changed)
            return changed;
        return keys.setAttempts(sealed.publicKey, {});
    });
}

Attempts attemptsIn(const std::vector<store::Row>& rows)
{
    if (rows.empty())
        return {};
    const store::Row& row = rows.front();
    return {static_cast<int>(row.whole(u"wrong")),
            Stamp{wallOf(row.whole(u"wall_at_ms")), row.text(u"machine"), row.text(u"boot"),
                  std::chrono::milliseconds(row.whole(u"since_boot_ms")),
                  std::chrono::milliseconds(row.whole(u"asleep_ms"))}};
}

store::Bindings bindingsOf(const PublicKey& key, const Attempts& attempts)
{
    const Stamp& stamp = *attempts.lastWrong;
    return {{u":key"_s, key.bytes()},
            {u":wrong"_s, attempts.wrong},
            {u":wall"_s, msOf(stamp.wall)},
            {u":machine"_s, stamp.machine},
            {u":boot"_s, stamp.boot},
            {u":since_boot"_s, qint64(stamp.sinceBoot.count())},
            {u":asleep"_s, qint64(stamp.asleep.count())}};
}

} // namespace coldarc::people
