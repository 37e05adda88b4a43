#include "core/store/workspace_file.h"

#include "core/store/disk.h"

#include <QFile>
#include <QFileInfo>
#include <QLockFile>
#include <QStorageInfo>
#include <QtEndian>

using namespace Qt::StringLiterals;

namespace coldarc::store {
namespace {

/// The first 100 bytes of every SQLite file; source: SQLite's documentation, "Database File Format", 1.3.
struct Header {
    static constexpr qsizetype kBytes = 100;
    static constexpr qsizetype kVersionAt = 60;
    static constexpr qsizetype kApplicationAt = 68;
    static constexpr char kMagic[] = "SQLite format 3"; // 16 bytes with its closing zero

    QByteArray bytes;

    [[nodiscard]] bool isSqlite() const
    {
        return bytes.size() == kBytes && bytes.startsWith(QByteArray(kMagic, sizeof kMagic));
    }
    [[nodiscard]] qint64 number(qsizetype at) const
    {
        return qFromBigEndian<quint32>(bytes.constData() + at);
    }
};

/// Of SQLite's primary result codes; source: its documentation, "Result and Error Codes".
constexpr int kReadOnly = 8;
constexpr int kFull = 13;

OpenAnswer answered(Opening outcome, const QString& detail)
{
    return {outcome, {}, {}, detail};
}

OpenAnswer failed(const Error& error)
{
    switch (sqliteCodeOf(error)) {
    case kFull:
        return answered(Opening::DiskFull, error.detail);
    case kReadOnly:
        return answered(Opening::FolderReadOnly, error.detail);
    default:
        return answered(Opening::Failed, error.detail);
    }
}

Result<QStringList> guardsOf(Database& database)
{
    const auto found = database.run(u"SELECT sql FROM sqlite_schema WHERE type = 'trigger' ORDER BY name"_s);
    if (!found)
        return tl::unexpected(found.error());
    QStringList guards;
    for (const Row& row : found->rows)
        guards.append(row.text(u"sql"));
    return guards;
}

LookAnswer damaged(const QString& detail)
{
    return {Look::Damaged, detail};
}

LookAnswer lookInside(Database& database, const Schema& schema)
{
    const auto version = database.version();
    if (!version)
        return damaged(version.error().detail);
    if (*version > schema.version())
        return {Look::Newer, u"version %1, this program knows %2"_s.arg(*version).arg(schema.version())};
    if (*version < schema.steps().front().number)
        return damaged(u"no schema step is recorded"_s);
    const auto checked = database.run(u"PRAGMA quick_check(1)"_s);
    if (!checked)
        return damaged(checked.error().detail);
    if (checked->rows.empty() || checked->rows.front().text(u"quick_check") != u"ok")
        return damaged(checked->rows.empty() ? u"no answer"_s : checked->rows.front().text(u"quick_check"));
    const auto guards = guardsOf(database);
    if (!guards)
        return damaged(guards.error().detail);
    if (*guards != schema.guards(*version))
        return damaged(u"the guards against rewriting are not as they were made"_s);
    return {*version < schema.version() ? Look::Older : Look::Ours, {}};
}

Result<void> fill(const QString& part, const NewWorkspace& workspace, const Schema& schema)
{
    auto database = Database::connect(part, Access::Build);
    if (!database)
        return tl::unexpected(database.error());
    if (auto marked = database->run(u"PRAGMA application_id = %1"_s.arg(kApplicationId)); !marked)
        return tl::unexpected(marked.error());
    if (auto made = database->migrate(schema); !made)
        return made;
    const auto named = database->run(
        u"INSERT INTO workspace(only_row, workspace_id, created_at_ms) VALUES(1, :workspace, :created_at_ms)"_s,
        {{u":workspace"_s, workspace.id}, {u":created_at_ms"_s, msOf(workspace.at)}});
    if (!named)
        return tl::unexpected(named.error());
    return {};
}

/// Writes the whole file under another name and renames it when it is durable, so that a workspace file is
/// there whole or not at all.
Result<void> build(const QString& file, const NewWorkspace& workspace, const Schema& schema)
{
    const QString part = file + u".new"_s;
    QFile::remove(part); // of a creation that was cut off; nobody else makes one while the lock is held
    if (auto filled = fill(part, workspace, schema); !filled)
        return filled;
    if (auto turned = turnToLog(part); !turned)
        return turned;
    QFile::remove(file); // of no bytes, if there is one
    return renameToFree(part, file);
}

OpenAnswer create(const QString& file, const NewWorkspace& workspace, const Schema& schema,
                  std::unique_ptr<QLockFile> lock)
{
    if (auto built = build(file, workspace, schema); !built) {
        QFile::remove(file + u".new"_s);
        QFile::remove(file + u".new-journal"_s);
        return failed(built.error());
    }
    auto database = Database::connect(file, Access::Write);
    if (!database)
        return failed(database.error());
    database->hold(std::move(lock));
    return {Opening::Created, std::move(*database), {}, {}};
}

/// A copy of the file as it is, durable and whole, under `<file>.before-<version>`.
Result<QString> copyBefore(Database& database, int version)
{
    const QString copy = freeName(u"%1.before-%2"_s.arg(database.file()).arg(version, 4, 10, QChar(u'0')));
    const auto copied = database.run(u"VACUUM INTO :copy"_s, {{u":copy"_s, copy}});
    if (!copied) {
        QFile::remove(copy);
        return tl::unexpected(copied.error());
    }
    if (auto synced = syncFile(copy); !synced)
        return tl::unexpected(synced.error());
    if (auto synced = syncFolderOf(copy); !synced)
        return tl::unexpected(synced.error());
    return copy;
}

OpenAnswer upgrade(Database database, const Schema& schema)
{
    const auto copy = copyBefore(database, schema.version());
    if (!copy)
        return failed(copy.error());
    if (auto migrated = database.migrate(schema); !migrated) {
        OpenAnswer answer = failed(migrated.error());
        answer.backup = *copy;
        return answer;
    }
    // From here on the file's own header tells the version, whatever happens to the log beside it.
    if (auto folded = database.run(u"PRAGMA wal_checkpoint(TRUNCATE)"_s); !folded)
        return failed(folded.error());
    return {Opening::Upgraded, std::move(database), *copy, {}};
}

/// What a look says against opening the file at all, or nothing.
std::optional<OpenAnswer> refusalOf(const LookAnswer& look)
{
    switch (look.outcome) {
    case Look::Newer:
        return answered(Opening::Newer, look.detail);
    case Look::Foreign:
        return answered(Opening::Foreign, look.detail);
    case Look::Damaged:
        return answered(Opening::Damaged, look.detail);
    case Look::Unfinished:
    case Look::Unreadable:
        return answered(Opening::Failed, look.detail);
    case Look::Older:
    case Look::Ours:
        break;
    }
    return std::nullopt;
}

OpenAnswer openForReading(const QString& file, const Schema& schema)
{
    const LookAnswer look = lookAt(file, Writer::Perhaps, schema);
    if (auto refusal = refusalOf(look))
        return std::move(*refusal);
    if (look.outcome == Look::Older)
        return answered(Opening::Held, u"an older program holds it"_s);
    auto database = Database::connect(file, Access::Read);
    if (!database)
        return answered(Opening::Held, database.error().detail);
    return {Opening::OpenedReadOnly, std::move(*database), {}, {}};
}

/// Lets SQLite undo a write without the log that a power cut broke off (the change to a log, in a file
/// restored or just made); until then nobody can read the file as it was meant.
Result<void> undoBrokenWrite(const QString& file)
{
    auto database = Database::connect(file, Access::Write);
    if (!database)
        return tl::unexpected(database.error());
    const auto read = database->version();
    return read ? Result<void>() : tl::unexpected(read.error());
}

OpenAnswer openForWriting(const QString& file, const Schema& schema, std::unique_ptr<QLockFile> lock)
{
    LookAnswer look = lookAt(file, Writer::Nobody, schema);
    if (look.outcome == Look::Unfinished) {
        if (auto undone = undoBrokenWrite(file); !undone)
            return failed(undone.error());
        look = lookAt(file, Writer::Nobody, schema);
    }
    if (auto refusal = refusalOf(look))
        return std::move(*refusal);
    auto database = Database::connect(file, Access::Write);
    if (!database)
        return failed(database.error());
    database->hold(std::move(lock));
    if (look.outcome == Look::Older)
        return upgrade(std::move(*database), schema);
    return {Opening::Opened, std::move(*database), {}, {}};
}

/// What the place itself says against opening, or nothing.
std::optional<OpenAnswer> refusalOfPlace(const QFileInfo& file)
{
    const QString folder = file.absolutePath();
    if (!QFileInfo(folder).isDir())
        return answered(Opening::NoFolder, u"no folder "_s + folder);
    if (file.exists() && !file.isFile())
        return answered(Opening::Foreign, u"not a file: "_s + file.filePath());
    if (const QByteArray kind = QStorageInfo(folder).fileSystemType(); isNetworkFileSystem(kind))
        return answered(Opening::NetworkFolder, u"file system "_s + QString::fromUtf8(kind));
    if (!QFileInfo(folder).isWritable() || (file.exists() && !file.isWritable()))
        return answered(Opening::FolderReadOnly, u"no permission to write "_s + file.filePath());
    return std::nullopt;
}

} // namespace

LookAnswer lookAt(const QString& file, Writer writer, const Schema& schema)
{
    QFile opened(file);
    if (!opened.open(QIODevice::ReadOnly))
        return {Look::Unreadable, opened.errorString()};
    const Header header{opened.read(Header::kBytes)};
    opened.close();
    if (!header.isSqlite())
        return {Look::Foreign, u"not an SQLite file"_s};
    if (header.number(Header::kApplicationAt) != kApplicationId)
        return {Look::Foreign, u"an SQLite file of another program"_s};
    if (header.number(Header::kVersionAt) > schema.version())
        return {Look::Newer, u"version %1"_s.arg(header.number(Header::kVersionAt))};
    if (QFileInfo(file + u"-journal"_s).size() > 0)
        return {Look::Unfinished, u"a write was broken off"_s};
    // A log with something in it has to be read too; SQLite then needs its own lock and index, which it
    // leaves there.
    const bool frozen = writer == Writer::Nobody && !hasHotLog(file);
    const bool hadIndex = QFileInfo::exists(file + u"-shm"_s);
    LookAnswer answer;
    {
        auto database = Database::connect(file, frozen ? Access::Frozen : Access::Read);
        answer = database ? lookInside(*database, schema) : damaged(database.error().detail);
    }
    if (!frozen && writer == Writer::Nobody && !hadIndex)
        QFile::remove(file + u"-shm"_s);
    return answer;
}

Result<void> turnToLog(const QString& file)
{
    if (const auto turned = Database::connect(file, Access::Write); !turned)
        return tl::unexpected(turned.error());
    return syncFile(file);
}

Result<std::unique_ptr<QLockFile>> lockWorkspace(const QString& file)
{
    auto lock = std::make_unique<QLockFile>(file + u".lock"_s);
    lock->setStaleLockTime(
        0); // a visit lasts longer than any time limit; a dead owner is seen by its process id
    if (lock->tryLock(0))
        return lock;
    if (lock->error() == QLockFile::LockFailedError)
        return fail(Error::Kind::Refused, u"another instance holds "_s + file);
    return fail(Error::Kind::Storage, u"the lock file cannot be written beside "_s + file);
}

OpenAnswer openWorkspace(const QString& file, const NewWorkspace& ifCreated, const Schema& schema)
{
    const QFileInfo found(file);
    if (auto refusal = refusalOfPlace(found))
        return std::move(*refusal);
    const bool isNew = !found.exists() || (found.size() == 0 && !hasHotLog(file));
    auto lock = lockWorkspace(file);
    if (lock)
        return isNew ? create(file, ifCreated, schema, std::move(*lock))
                     : openForWriting(file, schema, std::move(*lock));
    if (lock.error().kind != Error::Kind::Refused) {
        const bool full = QStorageInfo(found.absolutePath()).bytesAvailable() == 0;
        return answered(full ? Opening::DiskFull : Opening::Failed, lock.error().detail);
    }
    return isNew ? answered(Opening::Held, lock.error().detail) : openForReading(file, schema);
}

} // namespace coldarc::store
