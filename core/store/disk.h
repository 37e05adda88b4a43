#pragma once

#include "core/base/result.h"

#include <QByteArray>
#include <QString>

namespace coldarc::store {

/// Makes the file's bytes durable (fsync). Storage if the disk refused.
Result<void> syncFile(const QString& file);
/// Makes the names in the file's folder durable: what was created, renamed or removed there.
Result<void> syncFolderOf(const QString& file);
/// Gives the file a name that nothing has yet; both in one folder. Conflict if the name is taken, Storage if
/// refused.
Result<void> renameToFree(const QString& from, const QString& to);
/// Puts `from` in the place of `to`, which may exist, in one step; both in one folder.
Result<void> replaceFile(const QString& from, const QString& to);
/// Copies the file, durable, to a name that nothing has yet. Conflict if the name is taken.
Result<void> copyToFree(const QString& from, const QString& to);
/// Whether a write-ahead log with something in it stands beside the workspace file.
[[nodiscard]] bool hasHotLog(const QString& file);
/// `wanted`, or `wanted-2`, `wanted-3` ...: the first that nothing has.
[[nodiscard]] QString freeName(const QString& wanted);
/// Whether the kind of file system (as mount tables call it) lives on another computer; a write-ahead log
/// does not work there. Source: SQLite's documentation, "Write-Ahead Logging", overview, point 3 of the
/// disadvantages; the names are common practice, no source.
[[nodiscard]] bool isNetworkFileSystem(const QByteArray& kind);

} // namespace coldarc::store
