#pragma once

#include "core/base/clock.h"
#include "core/store/database.h"

#include <QString>

#include <memory>
#include <optional>

namespace coldarc::store {

/// Marks our files at byte 68 (SQLite's application_id): "CARC".
constexpr qint64 kApplicationId = 0x43415243;

/// What came of trying to open a workspace file.
enum class Opening {
    Opened,
    OpenedReadOnly, ///< another instance holds it; what that one writes can be read here
    Created,
    Upgraded, ///< older steps were brought up to date; `backup` names the copy made before
    // From here on there is no database, and the file holds what it held: not a byte of it was written.
    Newer,          ///< made by a later program
    Foreign,        ///< not one of our files, or not SQLite at all
    Damaged,        ///< SQLite's quick check complains, or a guard against rewriting is missing
    Held,           ///< another instance holds it, and it cannot be read from here
    NoFolder,       ///< there is no such folder
    FolderReadOnly, ///< the folder or the file cannot be written
    NetworkFolder,  ///< on another computer, where a write-ahead log does not work
    DiskFull,
    Failed, ///< anything else; `detail` says what
};

/// A new workspace's own name and birthday, used only if the file is created.
struct NewWorkspace {
    QString id;
    WallTime at;
};

/// The answer of `openWorkspace`.
struct OpenAnswer {
    Opening outcome = Opening::Failed;
    std::optional<Database> database; ///< there for the first four outcomes
    QString backup;                   ///< of Upgraded: the copy of the file as it was before
    QString detail;                   ///< for the log
};

/// Opens the workspace file, or creates it where there is none (or one of no bytes, as a creation that was
/// cut off leaves it).
///
/// Looks before it touches: only a file that is ours, whole, and of a version that this program knows is
/// opened for writing. A lock file beside it (`<file>.lock`) keeps a second instance to reading; the lock of
/// an instance that died is taken over. Cost: a quick check, which reads the whole file once.
[[nodiscard]] OpenAnswer openWorkspace(const QString& file, const NewWorkspace& ifCreated,
                                       const Schema& schema = Schema::shipped());

/// What a look at a workspace file finds, without changing it or leaving a file beside it that was not there.
enum class Look {
    Ours,
    Older, ///< ours, with fewer steps than the schema
    Newer,
    Foreign,
    Damaged,
    Unfinished, ///< ours, with a broken-off write beside it that whoever opens it for writing has to undo
                ///< first
    Unreadable,
};
struct LookAnswer {
    Look outcome = Look::Unreadable;
    QString detail;
};
/// @param writer  whether somebody may have the file open for writing.
enum class Writer {
    Nobody,
    Perhaps,
};
[[nodiscard]] LookAnswer lookAt(const QString& file, Writer writer, const Schema& schema = Schema::shipped());

/// Makes a file that is not in use yet one with a write-ahead log, durable. Done before it gets its name,
/// since the change itself is a write without that log.
Result<void> turnToLog(const QString& file);

/// The lock that shows that the workspace file is in use. Refused if another instance holds it, Storage if
/// the folder cannot be written.
[[nodiscard]] Result<std::unique_ptr<QLockFile>> lockWorkspace(const QString& file);

} // namespace coldarc::store
