#pragma once

#include "app/record_out.h"
#include "core/people/signing_key.h"
#include "core/store/journal.h"
#include "core/store/pictures.h"
#include "core/store/workspace_file.h"
#include "core/visit/wanted_signature.h"
#include "tests/core/visit/night.h"
#include "tests/support/test_key.h"

namespace coldarc::test {

/// Keeps every entry of a night.
inline std::vector<Hash> keepEntries(const Night& night, store::Database& database, const VisitId& visit)
{
    store::Journal journal(database);
    std::vector<Hash> heads;
    for (qsizetype index = 0; index < night.entries.size(); ++index) {
        const auto kept = journal.append(visit, store::Sequence(index), visit::bytesOf(night.entries[index]));
        EXPECT_TRUE(kept);
        heads.push_back(kept.value_or(Hash()));
    }
    return heads;
}

/// Makes every signature that is wanted with one invented key, and keeps it.
/// @param heads  of its entries, see keepEntries.
inline void keepSignatures(const Night& night, const std::vector<Hash>& heads, store::Database& database,
                           const VisitId& visit)
{
    store::Journal journal(database);
    const people::SigningKey key = keyOf(7);
    for (const visit::WantedSignature& one : visit::wantedSignatures(night.entries, night.state)) {
        const Hash head = heads[static_cast<std::size_t>(one.entry)];
        const WallTime at = night.entries[one.entry].at.wall + std::chrono::seconds(3);
        const people::HeadStatement said{
            visit, one.entry, head, *people::meaningFromWord(one.meaning.toStdString()), at, one.person};
        const QByteArray message = *people::signedMessage(said, key.publicKey());
        EXPECT_TRUE(journal.keep({visit, store::Sequence(one.entry), head, one.person,
                                  key.publicKey().bytes(), key.sign(message).bytes(), one.meaning, at}));
    }
}

/// The record of a night: every entry kept, every signature that is wanted made.
inline QByteArray signedRecordOf(const Night& night, const QList<QByteArray>& pictures = {})
{
    store::Database database = store::Database::inMemory(store::Schema::shipped());
    store::Pictures shelf(database);
    for (const QByteArray& picture : pictures)
        EXPECT_TRUE(shelf.keep({QStringLiteral("image/png"), picture}));
    const VisitId visit = night.opening().visit;
    keepSignatures(night, keepEntries(night, database, visit), database, visit);
    return app::recordFileOf(visit, database).value();
}

} // namespace coldarc::test
