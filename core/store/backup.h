#pragma once

#include "core/store/database.h"

#include <QString>

namespace coldarc::store {

/// How much a workspace holds.
struct Census {
    qint64 visits = 0;
    qint64 entries = 0;
    qint64 signatures = 0;
    qint64 pictures = 0;

    friend bool operator==(const Census&, const Census&) = default;
};

/// Checks all that can be checked without a key, and counts it: SQLite's own integrity check, references,
/// every chain, that every signature stands over an entry of its chain, and that every picture fits its hash.
/// Malformed names the first thing that does not fit.
/// Cost: reads the whole file.
[[nodiscard]] Result<Census> verify(Database& database);

/// Copies the workspace to a file of its own that nothing has the name of yet, and verifies what was written:
/// `verify`, and counts equal to those of the workspace. The name appears only when the copy is durable and
/// verified.
///
/// Conflict if the name is taken, or the workspace changed meanwhile. Malformed if the workspace itself does
/// not verify. Storage if the disk refused; no part of the copy stays behind.
Result<Census> backUp(Database& database, const QString& file);

/// Looks at a backup as `restore` would, and counts it; nothing is changed or left beside it. NotFound if
/// there is no such file; Malformed as for `restore`. Cost: reads the whole file.
[[nodiscard]] Result<Census> lookAtBackup(const QString& backup, const Schema& schema = Schema::shipped());

/// What a restore did.
struct Restored {
    Census census;
    QString previous; ///< where the workspace as it was stands now; empty if there was none
};

/// Puts a copy of the backup in the place of the workspace, which must not be open anywhere. What stood there
/// is kept beside it as `<workspace>.before-restore`.
///
/// Malformed if the backup is not ours, is of a later program, or does not verify. Refused if an instance
/// holds the workspace. Storage if the disk refused. After any error the workspace is as it was. Whoever goes
/// on after a restore forks what was written since the backup: other copies of those visits will differ.
Result<Restored> restore(const QString& backup, const QString& workspace,
                         const Schema& schema = Schema::shipped());

} // namespace coldarc::store
