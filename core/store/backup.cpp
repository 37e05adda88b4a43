#include "core/store/backup.h"

#include "core/store/disk.h"
#include "core/store/journal.h"
#include "core/store/pictures.h"
#include "core/store/workspace_file.h"

#include <QFile>
#include <QFileInfo>
#include <QLockFile>

using namespace Qt::StringLiterals;

namespace coldarc::store {
namespace {

/// Removes a half-made file whatever happens; one that was renamed is no longer there to remove.
class Part {
public:
    explicit Part(QString name)
        : m_name(std::move(name))
    {
    }
    Part(const Part&) = delete;
    Part& operator=(const Part&) = delete;
    ~Part() { QFile::remove(m_name); }
    [[nodiscard]] const QString& name() const { return m_name; }

private:
    QString m_name;
};

Access readingAccessTo(const QString& file)
{
    return hasHotLog(file) ? Access::Read : Access::Frozen;
}

Result<void> checkFile(Database& database)
{
    const auto integrity = database.run(u"PRAGMA integrity_check(1)"_s);
    if (!integrity)
        return tl::unexpected(integrity.error());
    if (const QString answer = integrity->rows.at(0).text(u"integrity_check"); answer != u"ok")
        return fail(Error::Kind::Malformed, answer);
    const auto references = database.run(u"PRAGMA foreign_key_check"_s);
    if (!references)
        return tl::unexpected(references.error());
    if (!references->rows.empty())
        return fail(Error::Kind::Malformed,
                    u"table %1 refers to nothing"_s.arg(references->rows.front().text(u"table")));
    return {};
}

Result<void> checkSignatures(const Chain& chain, const std::vector<Signature>& signatures)
{
    for (const Signature& signature : signatures) {
        const auto at = static_cast<std::size_t>(signature.seq.value());
        if (at >= chain.good.size() || chain.good[at].hash != signature.head)
            return fail(Error::Kind::Malformed, u"visit %1: a signature of %2 stands over no entry"_s.arg(
                                                    signature.visit.text(), signature.person.text()));
    }
    return {};
}

Result<void> checkVisits(Database& database, Census& census)
{
    const Journal journal(database);
    const auto heads = journal.heads();
    if (!heads)
        return tl::unexpected(heads.error());
    for (const Head& head : *heads) {
        const auto chain = journal.chain(head.visit);
        if (!chain)
            return tl::unexpected(chain.error());
        if (chain->fault)
            return tl::unexpected(*chain->fault);
        const auto signatures = journal.signatures(head.visit);
        if (!signatures)
            return tl::unexpected(signatures.error());
        if (auto checked = checkSignatures(*chain, *signatures); !checked)
            return checked;
        ++census.visits;
        census.entries += static_cast<qint64>(chain->good.size());
        census.signatures += static_cast<qint64>(signatures->size());
    }
    return {};
}

Result<void> checkPictures(Database& database, Census& census)
{
    const Pictures pictures(database);
    const auto hashes = pictures.hashes();
    if (!hashes)
        return tl::unexpected(hashes.error());
    for (const Hash& hash : *hashes) {
        if (const auto picture = pictures.read(hash); !picture)
            return tl::unexpected(picture.error());
        ++census.pictures;
    }
    return {};
}

Result<Census> verifyFile(const QString& file)
{
    auto database = Database::connect(file, readingAccessTo(file));
    if (!database)
        return tl::unexpected(database.error());
    return verify(*database);
}

/// A durable, verified copy under a name that nothing has.
Result<Census> copyVerified(Database& database, const QString& file)
{
    const auto before = verify(database);
    if (!before)
        return tl::unexpected(before.error());
    if (const auto copied = database.run(u"VACUUM INTO :file"_s, {{u":file"_s, file}}); !copied)
        return tl::unexpected(copied.error());
    if (auto synced = syncFile(file); !synced) // VACUUM INTO does not
        return tl::unexpected(synced.error());
    const auto after = verifyFile(file);
    if (after && *after != *before)
        return fail(Error::Kind::Conflict, u"the workspace changed while it was copied"_s);
    return after;
}

/// A backup that is ours, open for reading.
Result<Database> openBackup(const QString& backup, const Schema& schema)
{
    if (!QFileInfo(backup).isFile())
        return fail(Error::Kind::NotFound, u"no file "_s + backup);
    const LookAnswer look = lookAt(backup, Writer::Nobody, schema);
    if (look.outcome != Look::Ours && look.outcome != Look::Older)
        return fail(Error::Kind::Malformed, u"%1: %2"_s.arg(backup, look.detail));
    return Database::connect(backup, readingAccessTo(backup));
}

/// Copies the backup beside the workspace.
Result<Census> bring(const QString& backup, const QString& part, const Schema& schema)
{
    auto source = openBackup(backup, schema);
    if (!source)
        return tl::unexpected(source.error());
    return copyVerified(*source, part);
}

/// Folds the log of a whole workspace into its file. One that is damaged is left as it is.
Result<void> fold(const QString& workspace, const Schema& schema)
{
    const Look look = lookAt(workspace, Writer::Nobody, schema).outcome;
    if (look != Look::Ours && look != Look::Older)
        return {};
    auto database = Database::connect(workspace, Access::Write);
    if (!database)
        return tl::unexpected(database.error());
    if (const auto folded = database->run(u"PRAGMA wal_checkpoint(TRUNCATE)"_s); !folded)
        return tl::unexpected(folded.error());
    return {};
}

/// Keeps a copy of what stands there, and takes the log from beside it: another file's log must never meet a
/// restored workspace, which would read it as its own.
Result<QString> setAside(const QString& workspace, const Schema& schema)
{
    if (!QFileInfo::exists(workspace))
        return QString();
    if (auto folded = fold(workspace, schema); !folded)
        return tl::unexpected(folded.error());
    const QString previous = freeName(workspace + u".before-restore"_s);
    if (auto copied = copyToFree(workspace, previous); !copied)
        return tl::unexpected(copied.error());
    const QString log = workspace + u"-wal"_s;
    if (hasHotLog(workspace)) {
        if (auto copied = copyToFree(log, previous + u"-wal"_s); !copied)
            return tl::unexpected(copied.error());
    }
    return previous;
}

Result<void> removeLog(const QString& workspace)
{
    QFile::remove(workspace + u"-wal"_s);
    QFile::remove(workspace + u"-shm"_s);
    return syncFolderOf(workspace);
}

} // namespace

Result<Census> verify(Database& database)
{
    if (auto checked = checkFile(database); !checked)
        return tl::unexpected(checked.error());
    Census census;
    if (auto checked = checkVisits(database, census); !checked)
        return tl::unexpected(checked.error());
    if (auto checked = checkPictures(database, census); !checked)
        return tl::unexpected(checked.error());
    return census;
}

Result<Census> backUp(Database& database, const QString& file)
{
    if (QFileInfo::exists(file))
        return fail(Error::Kind::Conflict, u"the name is taken: "_s + file);
    const Part part(freeName(file + u".part"_s));
    const auto census = copyVerified(database, part.name());
    if (!census)
        return census;
    if (auto named = renameToFree(part.name(), file); !named)
        return tl::unexpected(named.error());
    return census;
}

Result<Census> lookAtBackup(const QString& backup, const Schema& schema)
{
    auto source = openBackup(backup, schema);
    if (!source)
        return tl::unexpected(source.error());
    return verify(*source);
}

Result<Restored> restore(const QString& backup, const QString& workspace, const Schema& schema)
{
    const auto lock = lockWorkspace(workspace);
    if (!lock)
        return tl::unexpected(lock.error());
    const Part part(freeName(workspace + u".part"_s));
    const auto census = bring(backup, part.name(), schema);
    if (!census)
        return tl::unexpected(census.error());
    if (auto turned = turnToLog(part.name()); !turned)
        return tl::unexpected(turned.error());
    const auto previous = setAside(workspace, schema);
    if (!previous)
        return tl::unexpected(previous.error());
    if (auto removed = removeLog(workspace); !removed)
        return tl::unexpected(removed.error());
    if (auto replaced = replaceFile(part.name(), workspace); !replaced)
        return tl::unexpected(replaced.error());
    return Restored{*census, *previous};
}

} // namespace coldarc::store
